#pragma once
// Published curves for the time salmon and trout eggs need at a constant temperature. Start at days_at().
// A curve is data (a form with its constants), so that rivals can stand side by side and be chosen by their source key.

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "biology/stages.h"
#include "quantities/temperature.h"
#include "quantities/time.h"

namespace redd::biology {

// The forms. D is days from fertilisation, T the constant water temperature in C; members are named as the papers print
// them.

/// ln D = ln_a + b ln(T - c). Undefined at T <= c. The log-inverse Belehradek form.
struct LogInverseBelehradek {
  double ln_a, b, c;
};
/// log10 D = b log10(T - alpha) + log_a. The same family, as Crisp prints it.
struct CrispPower {
  double b, alpha, log_a;
};
/// ln D = a + b T.
struct ExponentialInTemperature {
  double a, b;
};
/// ln D = a + b T + w W, W egg weight in mg.
struct ExponentialWithEggWeight {
  double a, b, w;
  double egg_weight_mg;
};
/// D = exp(ln_sum) / (T - threshold): a thermal sum above a threshold that is not 0 C.
struct ThermalSumAboveThreshold {
  double ln_sum, threshold_c;
};
/// ln D linear in T between table rows, the end slopes going on outside.
struct TableInLogDays {
  struct Row {
    double temperature_c, days;
  };
  std::vector<Row> rows;  ///< rising temperature, at least two
};

using CurveForm = std::variant<LogInverseBelehradek, CrispPower, ExponentialInTemperature, ExponentialWithEggWeight,
                               ThermalSumAboveThreshold, TableInLogDays>;

/// One published curve for one milestone of one species.
struct DevelopmentModel {
  std::string_view
      key;  ///< how the user chooses it: a key of docs/references.bib, plus _word where one source gives two curves
  Stage stage = Stage::hatch;
  CurveForm form;
  Temperature test_low = Temperature::from_c(0.0);   ///< coldest water it was tested in
  Temperature test_high = Temperature::from_c(0.0);  ///< warmest
  std::string_view source;                           ///< author year, table or equation, and how the number reached us
  double factor = 1.0;  ///< the curve's days are multiplied by this: a stage given as a share of hatch
};

/// Below this, development is taken as standing still.
/// Assumed: the coldest incubation in any source used here is 0.15-0.2 C [wallace1988], where hatching took 250-260 d;
/// several curves are undefined or unreliable colder than that.
inline constexpr Temperature development_stops_below = Temperature::from_c(0.2);

/// Days from fertilisation to the milestone at a constant temperature.
///
/// In      water temperature; no upper end, but see in_test_range().
/// Out     days > 0, falling as it gets warmer; nothing below 0.2 C or where the curve is undefined (T <= c).
/// Errors  none: outside the tested range the curve is extrapolated.
std::optional<Days> days_at(const DevelopmentModel& model, Temperature water);

/// Share of the way from fertilisation to the milestone covered in one day at this temperature: 1 / days_at, or 0.
double progress_per_day(const DevelopmentModel& model, Temperature water);

/// True when the curve's source tested this temperature.
bool in_test_range(const DevelopmentModel& model, Temperature water);

/// How far outside the tested range; 0 inside.
TemperatureChange outside_test_range(const DevelopmentModel& model, Temperature water);

}  // namespace redd::biology
