#include "records/kit.h"

#include <algorithm>

#include "quantities/nitrogen.h"
#include "quantities/result.h"
#include "quantities/water.h"

namespace redd::records {
namespace {

/// Canonical units in one printed unit; every conversion here is a plain factor.
double factor(TestUnit unit) {
  using enum TestUnit;
  const auto hardness = [](HardnessUnit from) { return hardness_converted(1.0, from, HardnessUnit::meq_per_l); };
  const auto nitrogen = [](NitrogenBasis basis) { return NitrogenConc::from(1.0, basis).mg_n_per_l(); };
  switch (unit) {
    case mg_nh3_per_l: return nitrogen(NitrogenBasis::nh3);
    case mg_nh4_per_l: return nitrogen(NitrogenBasis::nh4);
    case mg_no2_per_l: return nitrogen(NitrogenBasis::no2);
    case mg_no3_per_l: return nitrogen(NitrogenBasis::no3);
    case german_degrees: return hardness(HardnessUnit::german_degrees);
    case french_degrees: return hardness(HardnessUnit::french_degrees);
    case english_degrees: return hardness(HardnessUnit::english_degrees);
    case mg_caco3_per_l: return hardness(HardnessUnit::mg_caco3_per_l);
    case mmol_per_l: return hardness(HardnessUnit::mmol_per_l);
    case mg_n_per_l:
    case ph:
    case meq_per_l:
    case mg_per_l: return 1.0;
  }
  broken_promise("factor", "unknown unit");
}

}  // namespace

const KitTest* find_test(const Kit& kit, std::string_view test_key) {
  const auto found = std::ranges::find(kit.tests, test_key, &KitTest::key);
  return found == kit.tests.end() ? nullptr : &*found;
}

bool unit_fits(Quantity quantity, TestUnit unit) {
  using enum TestUnit;
  switch (quantity) {
    case Quantity::total_ammonia: return unit == mg_n_per_l || unit == mg_nh3_per_l || unit == mg_nh4_per_l;
    case Quantity::nitrite: return unit == mg_n_per_l || unit == mg_no2_per_l;
    case Quantity::nitrate: return unit == mg_n_per_l || unit == mg_no3_per_l;
    case Quantity::ph: return unit == ph;
    case Quantity::alkalinity:
    case Quantity::hardness:
      return unit == german_degrees || unit == french_degrees || unit == english_degrees || unit == mg_caco3_per_l ||
             unit == meq_per_l || unit == mmol_per_l;
    case Quantity::oxygen:
    case Quantity::chlorine:
    case Quantity::chloride: return unit == mg_per_l;
  }
  broken_promise("unit_fits", "unknown quantity");
}

double canonical_value(TestUnit unit, double printed) { return printed * factor(unit); }
double printed_value(TestUnit unit, double canonical) { return canonical / factor(unit); }

}  // namespace redd::records
