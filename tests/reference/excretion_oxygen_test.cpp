// Oxygen breathed and nitrogen given off, against published rates: data/excretion_oxygen.csv.
#include <cmath>

#include "planning/animal_load.h"
#include "reference/table.h"

namespace redd::planning {
namespace {

constexpr double mg_per_umol = 0.031998;

AnimalLoad load(tank::Stage stage, double g, double water_c) {
  return load_of_one({.stage = stage, .each_g = {g, g, g, Support::assumed}, .water = Temperature::from_c(water_c)});
}
/// Of an unfed, resting fish: the low end of what is breathed.
double routine_umol_per_h(double g, double water_c) { return load(tank::Stage::fry, g, water_c).breathed_mg_o2_per_h.low / mg_per_umol; }

double end_of(const Estimate<double>& e, const std::string& quantity) { return quantity.ends_with("low") ? e.low : quantity.ends_with("high") ? e.high : e.mid; }

double nitrogen_mg_per_day(double ration_g, double g) {
  tank::Brood fish{.stage = tank::Stage::fry, .count = 1.0, .fry_mass_g = g, .feed_g_per_day = ration_g, .feed_protein_fraction = 0.5, .eaten_fraction = 1.0};
  return tank::excretion_mg_n_per_day(fish, 10.0);
}

double answer(const reference::Row& row) {
  const std::string& quantity = row.text("quantity");
  const double c = row.number("water_c"), g = row.number("g");
  if (quantity == "routine oxygen of one fry") return routine_umol_per_h(g, c);
  if (quantity == "fed fry at most") return 1e3 * load(tank::Stage::fry, g, c).breathed_mg_o2_per_h.high / g / 60.0;
  if (quantity == "fed fry likely") return 1e3 * load(tank::Stage::fry, g, c).breathed_mg_o2_per_h.mid / g;
  if (quantity.starts_with("alevins")) return 24.0 * end_of(load(tank::Stage::alevin, 0.0, c).breathed_mg_o2_per_h, quantity);
  if (quantity.starts_with("eggs")) return 1e3 * end_of(load(tank::Stage::egg, 0.0, c).breathed_mg_o2_per_h, quantity);
  if (quantity == "nitrogen of an egg in the mean") return 1e3 * tank::excretion_mg_n_per_day({.stage = tank::Stage::egg, .count = 1.0, .stage_share_fraction = 0.5}, c);
  if (quantity == "nitrogen of an alevin") return 1e3 * load(tank::Stage::alevin, 0.0, c).nitrogen_mg_n_per_day.mid;
  if (quantity == "nitrogen of an unfed fish") return nitrogen_mg_per_day(0.0, g) / g;
  if (quantity == "nitrogen per food") return (nitrogen_mg_per_day(1.0, g) - nitrogen_mg_per_day(0.0, g)) / 1.0;
  ADD_FAILURE() << "no such quantity: " << quantity;
  return NAN;
}

TEST(ExcretionOxygenReference, RatesAreAsPrinted) {
  for (const auto& row : reference::table("excretion_oxygen")) {
    if (row.text("quantity") == "one fish")
      EXPECT_NEAR(std::log(routine_umol_per_h(row.number("g"), row.number("water_c")) / row.number("expected")), 0.0, row.number("tolerance")) << row.line();
    else
      EXPECT_NEAR(answer(row), row.number("expected"), row.number("tolerance")) << row.line();
  }
}

// [brett1975], sockeye of 29 g on maintenance at 15 C: 8.2 mg N/(kg h) before dawn to 35 after feeding. A day's mean lies between, at a ration that keeps a fish its weight (about 1 %).
TEST(ExcretionOxygenReference, ADaysAmmoniaLiesBetweenItsLowestAndItsHighestHour) {
  const double mg_per_kg_h = 1e3 * nitrogen_mg_per_day(0.29, 29.0) / 29.0 / 24.0;
  EXPECT_GT(mg_per_kg_h, 8.2);
  EXPECT_LT(mg_per_kg_h, 35.0);
}

// A whole system uses 400 to 500 g of oxygen per kg of food with filter bacteria, fish 200 to 250 of it (from memory, [timmons2007]).
TEST(ExcretionOxygenReference, AWholeSystemUsesWhatDesignRulesSayForEachKiloOfFood) {
  const auto one = load(tank::Stage::fry, 0.3, 10.0);
  const double g_per_kg = 24.0 * one.oxygen_mg_o2_per_h().mid / one.feed_g_per_day;
  EXPECT_GT(g_per_kg, 400.0);
  EXPECT_LT(24.0 * one.oxygen_mg_o2_per_h().low / one.feed_g_per_day, 500.0);
  EXPECT_LT(g_per_kg, 700.0);
}

}  // namespace
}  // namespace redd::planning
