// Stocking and aeration against published indices and ceilings: data/loading.csv.
#include <cmath>
#include <map>

#include "chemistry/oxygen.h"
#include "planning/fry_mass.h"
#include "planning/oxygen_budget.h"
#include "planning/still_water.h"
#include "planning/stocking.h"
#include "reference/table.h"

namespace redd::planning {
namespace {

std::map<std::string, std::string> inputs_of(const reference::Row& row) {
  std::map<std::string, std::string> found;
  const std::string& text = row.text("inputs");
  for (std::size_t at = 0; at < text.size();) {
    const auto end = std::min(text.find(';', at), text.size()), equals = text.find('=', at);
    found[text.substr(at, equals - at)] = text.substr(equals + 1, end - equals - 1);
    at = end + 1;
  }
  return found;
}

OxygenConc mg(double value) { return OxygenConc::from_mg_o2_per_l(value); }
double full_at_c(double c) { return chemistry::oxygen_saturation(Temperature::from_c(c)).mg_o2_per_l(); }

double answer(const std::string& quantity, const std::map<std::string, std::string>& in) {
  const auto n = [&](const char* key) { return std::strtod(in.at(key).c_str(), nullptr); };
  constexpr double g_per_lb = 453.59237, mg_per_g = 1000.0;
  if (quantity == "density index") return density_index_kg_per_m3_cm(n("lb_per_ft3_in"));
  if (quantity == "flow index") return flow_index_kg_min_per_l_cm(n("lb_per_gpm_in"));
  if (quantity == "mass by density") {
    EXPECT_EQ(density_index_of("rainbow_trout"), n("index"));
    return mass_by_density(n("index"), n("cm"), Volume::from_l(n("l"))).g();
  }
  if (quantity == "mass by flow")
    return mass_by_flow(flow_index_kg_min_per_l_cm(n("lb_per_gpm_in")), 2.54 * n("inch"), Volume::from_us_gallons(n("gpm")).l(), mg(n("inflow")), mg(n("reference"))).g() / g_per_lb;
  if (quantity == "room for fry") return carried_by_space(n("g"), Volume::from_l(n("l")), "brook_trout", std::nullopt, mg(11), mg(11)).animals.mid;
  if (quantity == "oxygen in air") return oxygen_in_air_mg_o2_per_h(n("l_per_min")) / mg_per_g;
  if (quantity == "oxygen from a stone") return stone_efficiency_fraction.mid * oxygen_in_air_mg_o2_per_h(n("l_per_min")) * (1.0 - n("saturated")) / mg_per_g;
  if (quantity == "surface exchange") return quiet_surface_m_per_h * n("m2") * 1000.0 / n("l");
  if (quantity == "saturation after warming") return 100.0 * full_at_c(n("from_c")) / full_at_c(n("to_c"));
  if (quantity == "eggs in one layer") return in.at("end") == "low" ? eggs_per_100_cm2.low : eggs_per_100_cm2.high;
  ADD_FAILURE() << "no such quantity: " << quantity;
  return NAN;
}

TEST(LoadingReference, IndicesAndCeilingsAreAsPrinted) {
  for (const auto& row : reference::table("loading")) EXPECT_NEAR(answer(row.text("quantity"), inputs_of(row)), row.number("expected"), row.number("tolerance")) << row.line();
}

// The same stone by the formula of transfer: at 20 C, in clean water, what comes in at 80 % of saturation.
TEST(LoadingReference, TransferIsTheStandardFormAtTwentyDegrees) {
  const auto warm = Temperature::from_c(20);
  const AirSupply air{.air_l_per_min = 1.0, .stone_depth_m = 0.4, .surface_m2 = 0.0};
  const double full = full_at_c(20);
  EXPECT_NEAR(air_transfer_l_per_h(air, warm).mid * 0.2 * full, 0.85 * 50.0, 1.0);  // alpha 0.85
  EXPECT_NEAR(air_transfer_l_per_h(air, Temperature::from_c(10)).mid / air_transfer_l_per_h(air, warm).mid, std::pow(1.024, -10.0), 1e-12);
}

// dC/dt = KLa (C* - C) - R rests where use and exchange are equal; the closed form of still water must agree after a long time.
TEST(LoadingReference, RestIsWhereTheRateEquationComesToRest) {
  const auto steady = steady_oxygen(mg(11.3), {40, 40, 40}, {20, 20, 20});
  EXPECT_NEAR(steady.mid.mg_o2_per_l(), 9.3, 1e-9);
  const StillWater same{.start = mg(5), .saturation = mg(11.3), .use_mg_o2_per_l_per_h = 40.0 / 200.0, .transfer_m_per_h = 20.0 / 1000.0 / 0.5, .depth_m = 0.4};
  EXPECT_NEAR(oxygen_after(same, Hours(1000.0)).mg_o2_per_l(), steady.mid.mg_o2_per_l(), 1e-6);
}

// [sadoul_growth]: rainbow trout at 8.5 C from first feeding, g by day; one of three tanks, fed more than a class feeds.
TEST(LoadingReference, TroutGrewInsideTheLineFromSlowToFast) {
  for (const auto& [day, g] : {std::pair(14, 0.23), {28, 0.42}, {42, 0.79}, {56, 1.33}, {70, 2.16}}) {
    const auto line = grown_g({0.13, 0.13, 0.13}, {8.5 * day, 8.5 * day, 8.5 * day});
    EXPECT_GT(g, line.low) << day;
    EXPECT_LT(g, line.high) << day;
  }
}

}  // namespace
}  // namespace redd::planning
