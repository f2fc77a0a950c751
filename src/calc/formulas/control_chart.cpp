#include <algorithm>
#include <cmath>

#include "calc/inputs.h"
#include "numerics/control_charts.h"

// One formula for three charts: average run length from a design, and the chart itself when readings are given.

namespace redd::calc::formulas {
namespace {

using numerics::Sides;

/// A chart's design with everything decided.
struct Design {
  std::string chart;
  Sides sides;
  double lambda = 1.0;       ///< EWMA
  double k = 0.0;            ///< CUSUM
  double limit = 0.0;        ///< L, h or the number of standard deviations
  double head_start = 0.0;   ///< CUSUM
  numerics::RunsRules rules = {};
};

Problem not_for(const std::string& chart, const std::string& name) {
  return {"unknown_input", name, said("{0} does not belong to chart={1}. Leave it out.", name, chart)};
}

Problem needed_for(const std::string& chart, const std::string& name, const std::string& what) {
  return {"missing_input", name, said("chart={0} needs {1}: {2}.", chart, name, what)};
}

/// Inputs that only one kind of chart understands.
Problems misplaced_inputs(const Arguments& in, const std::string& chart) {
  Problems problems;
  const auto refuse = [&](const char* owner, std::string_view name, bool given) {
    if (given && chart != owner) problems.push_back(not_for(chart, std::string(name)));
  };
  refuse("ewma", "lambda", in.has("lambda"));
  refuse("ewma", "fixed_limits", in.flag("fixed_limits"));
  refuse("cusum", "k", in.has("k"));
  refuse("cusum", "head_start", in.number("head_start") > 0.0);
  for (const char* rule : {"two_of_three", "four_of_five", "eight_same_side"}) refuse("shewhart", rule, in.flag(rule));
  if (chart == "cusum" ? in.has("limit") : in.has("h"))
    problems.push_back({"unknown_input", chart == "cusum" ? "limit" : "h",
                        chart == "cusum" ? "A CUSUM's decision limit is called h. Give h." : said("The limit of chart={0} is called limit. Give limit.", chart)});
  return problems;
}

/// The limit given, or the one that gives the wanted in-control run length.
Result<double> limit_of(const Arguments& in, const Design& design) {
  const bool cusum = design.chart == "cusum";
  const std::string name = cusum ? "h" : "limit";
  if (const auto given = in.number_if(name)) return *given;
  const auto wanted = in.number_if("wanted_run_length");
  if (!wanted && design.chart == "shewhart") return 3.0;
  if (!wanted) return needed_for(design.chart, name, "the limit, or wanted_run_length for the limit that gives it");
  const auto limit = cusum                     ? numerics::cusum_limit_for(design.k, *wanted, design.sides)
                     : design.chart == "ewma" ? numerics::ewma_limit_for(design.lambda, *wanted, design.sides)
                                              : numerics::ewma_limit_for(1.0, *wanted, Sides::two);
  if (!limit) return Problem{"no_answer", "wanted_run_length", "No limit within reach gives this run length."};
  return *limit;
}

Result<Design> design_of(const Arguments& in) {
  Design design{.chart = in.text("chart"), .sides = in.text("sided") == "one" ? Sides::one : Sides::two};
  Problems problems = misplaced_inputs(in, design.chart);
  if (design.chart == "ewma" && !in.has("lambda"))
    problems.push_back(needed_for("ewma", "lambda", "weight of the newest reading, 0.05 to 0.3 for small drifts"));
  if (design.chart == "cusum" && !in.has("k"))
    problems.push_back(needed_for("cusum", "k", "allowance, half the shift to be found, in standard deviations"));
  if (!problems.empty()) return problems;
  design.lambda = in.number_if("lambda").value_or(1.0);
  design.k = in.number_if("k").value_or(0.0);
  design.head_start = in.number("head_start");
  design.rules = {in.flag("two_of_three"), in.flag("four_of_five"), in.flag("eight_same_side")};
  const auto limit = limit_of(in, design);
  if (!limit) return limit.problems();
  design.limit = *limit;
  const bool any_rule = design.rules.two_of_three_beyond_two || design.rules.four_of_five_beyond_one || design.rules.eight_on_one_side;
  if (any_rule && (design.limit != 3.0 || design.sides == Sides::one))
    return Problem{"exclusive_inputs", "limit", "The runs rules belong to a two-sided chart with limit=3."};
  if (design.head_start > design.limit)
    return Problem{"out_of_range", "head_start", "head_start must not exceed h."};
  return design;
}

std::optional<double> run_length(const Design& design, double shift) {
  if (design.chart == "ewma") return numerics::ewma_run_length(design.lambda, design.limit, shift, design.sides);
  if (design.chart == "cusum") return numerics::cusum_run_length(design.k, design.limit, shift, design.sides, design.head_start);
  if (design.limit == 3.0 && design.sides == Sides::two) return numerics::shewhart_rules_run_length(design.rules, shift);
  return numerics::shewhart_run_length(design.limit, shift, design.sides);
}

void add_run_lengths(Findings& found, const Design& design, double shift) {
  found.add(design.chart == "cusum" ? "h" : "limit", design.limit);
  const auto at_shift = run_length(design, shift), in_control = run_length(design, 0.0);
  if (at_shift) found.add("average_run_length", *at_shift);
  if (in_control) found.add("in_control_run_length", *in_control);
  if (!at_shift || !in_control) found.notes.push_back("A run length beyond 1e12 readings is left out.");
}

/// Centre and spread of the readings' chart: as given, or from the readings themselves.
struct Baseline {
  double target;
  double sd;
};

Result<Baseline> baseline_of(const Arguments& in, const std::vector<double>& values, Findings& found) {
  Baseline baseline{};
  if (const auto target = in.number_if("target")) {
    baseline.target = *target;
  } else {
    for (const double value : values) baseline.target += value / static_cast<double>(values.size());
    found.notes.push_back("The target is the mean of the readings.");
  }
  if (const auto sd = in.number_if("sigma")) {
    baseline.sd = *sd;
  } else {
    const auto from_ranges = numerics::sd_from_moving_range(values);
    if (!from_ranges || *from_ranges <= 0.0)
      return Problem{"missing_input", "sigma", "Give sigma, the readings' standard deviation: these readings do not show it."};
    baseline.sd = *from_ranges;
    found.notes.push_back("sigma is the mean moving range divided by 1.128.");
  }
  found.add("target", baseline.target);
  found.add("sigma", baseline.sd);
  return baseline;
}

void add_signals(Findings& found, const std::vector<bool>& signals) {
  double count = 0.0;
  for (std::size_t i = 0; i < signals.size(); ++i) {
    if (!signals[i]) continue;
    if (count == 0.0) found.add("first_signal_reading", static_cast<double>(i + 1));
    count += 1.0;
  }
  found.add("signal_count", count);
}

void add_cusum(Findings& found, const Design& design, const Baseline& baseline, const std::vector<double>& values) {
  std::vector<double> high, low;
  std::vector<bool> signals;
  for (const auto& point : numerics::cusum_of(values, baseline.target, baseline.sd, design.k, design.limit)) {
    high.push_back(point.high);
    low.push_back(point.low);
    signals.push_back(design.sides == Sides::two ? point.signals : point.high > design.limit * baseline.sd);
  }
  found.add("cusum_high", high.back());
  found.add("cusum_low", low.back());
  found.add("decision_limit", design.limit * baseline.sd);
  add_signals(found, signals);
  found.outputs.push_back({"cusum_high_series", std::move(high)});
  found.outputs.push_back({"cusum_low_series", std::move(low)});
}

/// EWMA, and Shewhart as an EWMA that forgets all but the newest reading.
void add_ewma(Findings& found, const Design& design, const Baseline& baseline, const std::vector<double>& values, bool fixed_limits) {
  std::vector<double> statistics;
  std::vector<bool> signals;
  const auto points = numerics::ewma_of(values, baseline.target, baseline.sd, design.lambda, design.limit, fixed_limits);
  for (const auto& point : points) {
    statistics.push_back(point.statistic);
    signals.push_back(design.sides == Sides::two ? point.signals : point.statistic > point.upper_limit);
  }
  const double asymptote = design.limit * baseline.sd * std::sqrt(design.lambda / (2.0 - design.lambda));
  found.add("statistic", statistics.back());
  found.add("lower_limit", points.back().lower_limit);
  found.add("upper_limit", points.back().upper_limit);
  found.add("asymptotic_lower_limit", baseline.target - asymptote);
  found.add("asymptotic_upper_limit", baseline.target + asymptote);
  add_signals(found, signals);
  found.outputs.push_back({"statistic_series", std::move(statistics)});
}

Result<Findings> evaluate(const Arguments& in) {
  const auto design = design_of(in);
  if (!design) return design.problems();
  Findings found;
  add_run_lengths(found, *design, in.number("shift"));
  found.notes.push_back("Run lengths count readings, not days, and take them as independent and normal.");
  if (!in.has("values")) return found;
  const std::vector<double>& values = in.series("values");
  const auto baseline = baseline_of(in, values, found);
  if (!baseline) return baseline.problems();
  if (design->chart == "cusum") add_cusum(found, *design, *baseline, values);
  else add_ewma(found, *design, *baseline, values, in.flag("fixed_limits"));
  const auto& rules = design->rules;
  if (rules.two_of_three_beyond_two || rules.four_of_five_beyond_one || rules.eight_on_one_side)
    found.notes.push_back("Signals of the series are those beyond the limits; the runs rules enter the run length only.");
  return found;
}

}  // namespace

Formula control_chart() {
  const Range any{-1e9, 1e9};
  return {.name = "control_chart",
          .summary = "EWMA, CUSUM and Shewhart charts: average run length of a design, and the chart of a series of readings.",
          .inputs = {choice("chart", "kind of chart", {"ewma", "cusum", "shewhart"}),
                     {.name = "sided", .kind = InputKind::choice, .meaning = "two: both directions; one: upward only", .required = false, .default_text = "two", .choices = {"one", "two"}},
                     optional({.name = "lambda", .unit = "", .meaning = "EWMA: weight of the newest reading", .possible = Range{0.001, 1}}),
                     one_of("limit", optional({.name = "limit", .unit = "sd", .meaning = "EWMA and Shewhart: limit L in standard deviations of the statistic (Shewhart: 3)", .possible = Range{0.01, 10}})),
                     one_of("limit", optional({.name = "h", .unit = "sd", .meaning = "CUSUM: decision limit in standard deviations of a reading", .possible = Range{0.01, 100}})),
                     one_of("limit", optional({.name = "wanted_run_length", .unit = "readings", .meaning = "in-control run length, instead of a limit", .possible = Range{1.1, 1e9}})),
                     optional({.name = "k", .unit = "sd", .meaning = "CUSUM: allowance, half the shift to be found", .possible = Range{0, 10}}),
                     optional({.name = "head_start", .unit = "sd", .meaning = "CUSUM: where both sums begin, for run lengths", .possible = Range{0, 100}}, "0"),
                     optional({.name = "shift", .unit = "sd", .meaning = "true mean minus target", .possible = Range{-20, 20}}, "0"),
                     flag("two_of_three", "Shewhart: also two of three beyond 2 sd on one side", false),
                     flag("four_of_five", "Shewhart: also four of five beyond 1 sd on one side", false),
                     flag("eight_same_side", "Shewhart: also eight in a row on one side", false),
                     optional({.name = "values", .kind = InputKind::series, .unit = "", .meaning = "readings, oldest first", .possible = any}),
                     optional({.name = "target", .unit = "as values", .meaning = "where the readings should stay; left out, their mean", .possible = any}),
                     optional({.name = "sigma", .unit = "as values", .meaning = "standard deviation of a reading; left out, from moving ranges", .possible = Range{1e-12, 1e9}}),
                     flag("fixed_limits", "EWMA: the final limits from the first reading on", false)},
          .outputs = {{"average_run_length", "readings", "mean number of readings until a signal at this shift"},
                      {"in_control_run_length", "readings", "the same without a shift: readings between false alarms"},
                      {"limit", "sd", "limit used"}, {"h", "sd", "decision limit used"},
                      {"target", "as values", "target used"}, {"sigma", "as values", "standard deviation used"},
                      {"statistic", "as values", "statistic after the last reading"}, {"lower_limit", "as values", "limit at the last reading"},
                      {"upper_limit", "as values", "limit at the last reading"}, {"asymptotic_lower_limit", "as values", "limit of a long series"},
                      {"asymptotic_upper_limit", "as values", "limit of a long series"}, {"cusum_high", "as values", "upper sum after the last reading"},
                      {"cusum_low", "as values", "lower sum after the last reading"}, {"decision_limit", "as values", "what the sums must not exceed"},
                      {"first_signal_reading", "", "number of the first reading that signals, counted from 1; absent when none does"},
                      {"signal_count", "", "readings at which the chart signals"}, {"statistic_series", "as values", "statistic after each reading"},
                      {"cusum_high_series", "as values", "upper sum after each reading"}, {"cusum_low_series", "as values", "lower sum after each reading"}},
          .source = "Run lengths: Crowder 1987 (EWMA), Page 1954 and Lucas & Crosier 1982 (CUSUM), Champ & Woodall 1987 (runs rules); charts: NIST/SEMATECH e-Handbook 6.3.2",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
