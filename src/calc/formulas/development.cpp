// Time from fertilisation to a milestone in water of constant temperature, with the interval that the curve's own error
// leaves.

#include <cmath>

#include "biology/development_model.h"
#include "biology/species.h"
#include "calc/formula.h"
#include "numerics/normal.h"

namespace redd::calc::formulas {
namespace {

using namespace biology;

// Below it development is taken as standing still (development_stops_below); above, no egg of these species lives.
constexpr Range possible_c{0.2, 25.0};

std::vector<std::string> accepted_species() {
  std::vector<std::string> names;
  for (const SpeciesProfile& each : all_species()) {
    names.emplace_back(each.key);
    names.insert(names.end(), each.aliases.begin(), each.aliases.end());
  }
  return names;
}

std::vector<std::string> accepted_stages() {
  std::vector<std::string> names;
  for (const Stage each : all_stages) names.emplace_back(name_of(each));
  return names;
}

Problem no_development(const DevelopmentModel& model, Temperature water) {
  const bool standing = water < development_stops_below;
  return {"out_of_range", "temperature_c",
          standing
              ? "Below 0.2 C development is taken as standing still, so there is no number of days. Give 0.2 to 25 C."
              : said("The curve {0} is not defined at this temperature. Give a warmer one, up to 25 C.", model.key)};
}

std::string source_text(const DevelopmentModel& model) {
  std::string text{model.source};
  if (model.factor != 1.0) text += "; share of the time to hatch by Crisp 1988, summary";
  return text;
}

Result<Findings> evaluate(const Arguments& arguments) {
  const auto species = find_species(arguments.text("species"));
  if (!species) return species.problems();
  const auto stage = stage_named(arguments.text("stage"));
  if (!stage) return Problem{"not_a_choice", "stage", "The stage must be one of eyed, hatch, swim_up."};
  const auto model = model_for(*species, *stage, arguments.has("model") ? arguments.text("model") : "");
  if (!model) return model.problems();

  const auto water = Temperature::from_c(arguments.number("temperature_c"));
  const auto days = days_at(*model, water);
  if (!days) return no_development(*model, water);

  const double outside_c = outside_test_range(*model, water).c();
  const double log_sd = std::hypot(lot_log_sd(*species, *stage), extrapolation_log_sd_per_c * outside_c);
  const double spread = std::exp(numerics::normal_quantile(0.95) * log_sd);
  Findings findings;
  findings.add("days", days->count());
  findings.add("atu_c_days", ThermalSum::from_c_days(0.0).after_days(days->count(), water).c_days());
  findings.add("low_days", days->count() / spread);
  findings.add("high_days", days->count() * spread);
  findings.add("model", std::string(model->key));
  findings.in_range = in_test_range(*model, water);
  findings.source = source_text(*model);
  findings.notes.push_back(
      "low_days to high_days is the 90 % interval of the day half of a lot has passed the stage: lots and studies "
      "differ from the "
      "curve by a log-normal error (sd 8 % for most species). Single animals spread further.");
  if (!findings.in_range)
    findings.notes.push_back(
        "The temperature is outside what this curve was tested at; the interval was widened by 5 % for each C.");
  return findings;
}

}  // namespace

Formula development() {
  return {
      .name = "development",
      .summary =
          "Days and thermal units from fertilisation until half of a lot of eggs is eyed, hatched or swimming up.",
      .inputs =
          {{.name = "species",
            .kind = InputKind::choice,
            .meaning = "kind of fish; pink is the even-year line",
            .choices = accepted_species()},
           {.name = "stage",
            .kind = InputKind::choice,
            .meaning = "milestone of the lot's middle animal",
            .choices = accepted_stages()},
           {.name = "temperature_c", .unit = "C", .meaning = "constant water temperature", .possible = possible_c},
           {.name = "model",
            .kind = InputKind::text,
            .meaning = "key of a rival curve of this species; absent: the species' default",
            .required = false}},
      .outputs = {{"days", "d", "days from fertilisation"},
                  {"atu_c_days", "C d", "accumulated thermal units, sum of daily mean temperatures above 0 C"},
                  {"low_days", "d", "low end of the 90 % interval"},
                  {"high_days", "d", "high end of the 90 % interval"},
                  {"model", "", "key of the curve used"}},
      .source =
          "Pacific salmon: Beacham & Murray 1990, Tables A.2 and A.3; rainbow and brown trout, Atlantic salmon: Crisp "
          "1981, equation 1b; brook "
          "and lake trout: fit to the egg table of Embody 1934; eyed, and swim-up of trout and Atlantic salmon, as "
          "shares of hatch: Crisp 1988",
      .evaluate = &evaluate,
  };
}

}  // namespace redd::calc::formulas
