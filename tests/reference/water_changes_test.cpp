// Water changes, tempering, dechlorination and gas, against numbers published or worked out elsewhere; each row of water_changes.csv names its source.
#include <functional>

#include "chemistry/ammonia.h"
#include "chemistry/dosing.h"
#include "planning/new_water.h"
#include "planning/water_programme.h"
#include "reference/table.h"
#include "support/water_season.h"

namespace redd::reference {
namespace {

using namespace planning;

const auto c = [](double value) { return Temperature::from_c(value); };

/// 100 mg N/L of nitrate after so many equal changes with clean water, poured as the forecast pours.
double after_changes(double fraction, double changes) {
  WaterTanks one{tank::Ensemble(1, 200.0)};
  one.tanks.column(tank::Quantity::nitrate)[0] = 100.0;
  one.vacuum_share = {0.5};
  const std::vector<NewWaterDraw> clean(1);
  for (int i = 0; i < static_cast<int>(changes); ++i) pour(one, {0.0, fraction, false, 0.0}, clean, c(10));
  return one.tanks.column(tank::Quantity::nitrate)[0];
}

double nitrate_mark() {
  const auto made = testing::asked_water(testing::SmallSeason(), 5);
  return water_limits(made->season, made->belief, made->now, made->zone).nitrate_mg_n_per_l;
}

double freed_ammonia(double chloramine_mg_per_l) {
  records::SourceWater tap;
  tap.chloramine = true;
  tap.chlorine_mg_per_l = chloramine_mg_per_l;
  return new_water(tap, 0, {}).freed_ammonia_mg_n_per_l;
}

std::map<std::string, std::function<double(double, double)>> ours() {
  return {{"gas_percent_on_warming", [](double from, double to) { return 100.0 * gas_fraction_on_warming(c(from), c(to)); }},
          {"largest_fraction_untempered", [](double tank, double incoming) { return largest_fraction_untempered(c(tank), c(incoming)); }},
          {"minutes_to_refill", [](double step, double) { return static_cast<double>(minutes_to_refill(TemperatureChange::from_c(step))); }},
          {"thiosulfate_g", [](double litres, double mg_per_l) { return chemistry::thiosulfate_for(Volume::from_l(litres), mg_per_l).g(); }},
          {"freed_ammonia_mg_n_per_l", [](double mg_per_l, double) { return freed_ammonia(mg_per_l); }},
          {"freed_un_ionized_mg_nh3_per_l",
           [](double ph, double t) { return chemistry::un_ionized(NitrogenConc::from_mg_n_per_l(freed_ammonia(4.0)), c(t), Ph::from_ph(ph)).mg_nh3_per_l(); }},
          {"nitrate_mark_mg_n_per_l", [](double, double) { return nitrate_mark(); }},
          {"after_changes", after_changes},
          {"ph_jump", [](double, double) { return LargestJump{}.ph; }},
          {"standing_hours", [](double, double) { return standing_hours; }},
          {"chlorine_reckoned_mg_per_l", [](double, double) { return new_water(std::nullopt, 0, {}).chlorine_mg_per_l; }}};
}

TEST(WaterChanges, AgreeWithPublishedAndWorkedOutNumbers) {
  const auto functions = ours();
  for (const Row& row : table("water_changes")) {
    const std::string quantity = row.text("quantity");
    if (quantity == "most_gas_percent_below") {
      EXPECT_LT(100.0 * most_gas_fraction, row.number("expected")) << row.line();
    } else if (quantity == "usual_change_within") {
      EXPECT_GE(100.0 * usual_change_fraction, row.number("argument")) << row.line();
      EXPECT_LE(100.0 * usual_change_fraction, row.number("argument_2")) << row.line();
    } else {
      ASSERT_TRUE(functions.contains(quantity)) << row.line();
      EXPECT_NEAR(functions.at(quantity)(row.number("argument"), row.number("argument_2")), row.number("expected"), row.number("tolerance")) << row.line();
    }
  }
}

}  // namespace
}  // namespace redd::reference
