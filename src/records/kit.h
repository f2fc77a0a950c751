#pragma once
// A test kit as the keeper's own card prints it. Kits are data: nothing in the program knows a maker or a chart.
// Start at Kit; observed_interval() in reading.h turns a reading on a kit into a range of the true value.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace redd::records {

/// What a test measures.
enum class Quantity { total_ammonia, nitrite, nitrate, ph, alkalinity, hardness, oxygen, chlorine, chloride };

/// How the answer is read.
enum class Method { colour_steps, drop_count, meter };

/// The unit and basis printed on the card. Ammonia, nitrite and nitrate must say which molecule they count.
enum class TestUnit {
  mg_n_per_l, mg_nh3_per_l, mg_nh4_per_l, mg_no2_per_l, mg_no3_per_l,
  ph, german_degrees, french_degrees, english_degrees, mg_caco3_per_l, mmol_per_l, meq_per_l, mg_per_l
};

/// One timed step of a test, in the order the hands do it.
struct TimedStep {
  enum class Do { fill, drops, powder, mix, wait, read };
  Do what = Do::wait;
  std::string text{};
  std::optional<int> seconds{};          ///< how long it takes (mix, wait)
  std::optional<int> count{};            ///< how many drops or spoons
  std::optional<int> read_by_seconds{};  ///< a colour read later than this after the wait no longer counts
};

/// One test of a kit. Exactly the fields of its method are used.
struct KitTest {
  std::string key{};
  Quantity quantity = Quantity::ph;
  Method method = Method::colour_steps;
  TestUnit unit = TestUnit::ph;
  std::vector<double> steps{};              ///< colour_steps: printed values, rising, at least two
  std::vector<std::string> colour_names{};  ///< optional, one a step, the keeper's own words
  std::vector<std::string> swatches{};      ///< optional, one a step, "#rrggbb"
  std::optional<double> per_drop{};         ///< drop_count: value of one drop
  std::optional<double> accuracy{};         ///< meter: +- in the test's unit
  std::vector<TimedStep> timed_steps{};
};

struct Kit {
  std::string key{};
  std::string name{};
  std::vector<KitTest> tests{};
};

/// The test of this key, or nullptr.
const KitTest* find_test(const Kit& kit, std::string_view test_key);

/// Whether a unit can express a quantity (nitrite is never "as NO3").
bool unit_fits(Quantity quantity, TestUnit unit);

/// A printed value of the test in the program's own unit: mg N/L, pH, meq/L, or mg/L.
double canonical_value(TestUnit unit, double printed);
/// The inverse of canonical_value().
double printed_value(TestUnit unit, double canonical);

}  // namespace redd::records
