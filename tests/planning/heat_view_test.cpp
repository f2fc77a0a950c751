#include "planning/heat_view.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "heat/trajectory.h"
#include "numerics/random.h"
#include "report/heat_text.h"
#include "support/small_season.h"

namespace redd::planning {
namespace {

using heat::Holding;
using records::TankBuild;
using redd::testing::on_day;
using redd::testing::SmallSeason;

/// 200 litres in bare glass with a lid, a chiller of ordinary size.
TankBuild bare_tank() {
  TankBuild build;
  build.length_cm = 100, build.width_cm = 50, build.water_height_cm = 40;
  build.wall = records::TankFace::Wall::glass, build.wall_thickness_mm = 10;
  build.bare_long_sides = 2;
  build.lid = TankBuild::Lid::sheet, build.base = TankBuild::Base::board;
  build.pump = Power::from_w(12);
  build.chiller_cooling = Power::from_w(500), build.chiller_electric = Power::from_w(220);
  build.chiller_rated_water = Temperature::from_c(15), build.chiller_rated_room = Temperature::from_c(25);
  build.heater = Power::from_w(0);
  build.room_day = build.room_summer_day = build.room_night = build.room_weekend = build.room_break = Temperature::from_c(20);
  return build;
}
season::HeatLook look(const SmallSeason& season, int day, const HeatAsked& asked = {}) {
  auto found = season::look_at_heat({}, season.log(), on_day(day, 12), asked);
  require(found.has_value(), "look", "no season");
  return std::move(found).value();
}
season::HeatLook look_at(const TankBuild& build, const HeatAsked& asked = {}) {
  SmallSeason season;
  season.add(1, build);
  return look(season, 3, asked);
}
bool holds(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

TEST(HeatView, WithoutADescriptionItSaysWhatIsMissingAndClaimsNothing) {
  const auto found = look(SmallSeason(), 3);
  EXPECT_EQ(found.view.model.basis, HeatBasis::volume);
  EXPECT_FALSE(found.view.hold);
  EXPECT_FALSE(found.view.week);
  EXPECT_TRUE(found.view.stuck_on.empty());
  EXPECT_GT(found.view.chiller_wanted, found.view.to_remove.high);
  EXPECT_GE(found.view.model.assumed.size(), 4u);
  EXPECT_TRUE(holds(report::heat_text(found), "not on record"));
  EXPECT_TRUE(plan_abilities(found.view.model, redd::local_day({}, on_day(3))).empty());
}

// 9 C in a 27 C room: what the tank lets in is its conductance times 18 C and the pump; published conductances of such tanks are in docs/science/heat.md.
TEST(HeatView, KnowsWhetherTheChillerHoldsNineDegreesInARoomOfTwentySeven) {
  const HeatAsked asked{.target = Temperature::from_c(9), .room = Temperature::from_c(27), .humidity_fraction = 0.2};  // dry: nothing condenses
  TankBuild build = bare_tank();
  const auto strong = look_at(build, asked).view;
  const double needed_w = strong.model.conductance.mid.w_per_k() * 18.0 + 12.0;
  EXPECT_NEAR(strong.to_remove.mid.w(), needed_w, 0.02 * needed_w);
  build.chiller_cooling = Power::from_w(150), build.chiller_electric = Power::from_w(90);
  const auto weak = look_at(build, asked);
  ASSERT_TRUE(weak.view.hold);
  EXPECT_EQ(weak.view.hold->likely, Holding::never_reached);
  EXPECT_GT(weak.view.hold->settles_at.mid, Temperature::from_c(9));
  EXPECT_LT(weak.view.hold->held_probability, 0.2);
  EXPECT_TRUE(report::heat_text(weak).starts_with("Never reached"));
  build.chiller_cooling = Power::from_w(1500), build.chiller_electric = Power::from_w(600);
  const auto huge = look_at(build, asked);
  EXPECT_EQ(huge.view.hold->likely, Holding::held);
  EXPECT_EQ(huge.view.hold->cautious, Holding::held);
}

TEST(HeatView, WarmerRoomsNeverLowerTheDutyNorLengthenAnOutage) {
  double duty = -1.0;
  Hours outage{1e9};
  for (double room_c = 14; room_c <= 30; room_c += 2) {
    const auto view = look_at(bare_tank(), {.target = Temperature::from_c(9), .room = Temperature::from_c(room_c)}).view;
    EXPECT_GE(view.hold->duty_fraction.mid, duty);
    EXPECT_LE(view.hold->duty_fraction.low, view.hold->duty_fraction.mid);
    EXPECT_LE(view.hold->duty_fraction.mid, view.hold->duty_fraction.high);
    duty = view.hold->duty_fraction.mid;
    for (const auto& limit : view.power_cut) {
      if (limit.span.soonest && limit.span.likely) EXPECT_LE(*limit.span.soonest, *limit.span.likely);
      if (limit.span.likely && limit.span.latest) EXPECT_LE(*limit.span.likely, *limit.span.latest);
    }
    const auto last = view.power_cut.back().span.likely;
    if (last) EXPECT_LE(*last, outage);
    if (last) outage = *last;
  }
}

TEST(HeatView, FoamNeverLetsMoreInAndAFlapHelpsMost) {
  const auto view = look_at(bare_tank()).view;
  ASSERT_EQ(view.foam.size(), 2u);
  EXPECT_LT(view.foam[0].gain_after, view.foam[0].gain_before);
  EXPECT_LT(view.foam[1].gain_after, view.foam[0].gain_after);
  EXPECT_LT(*view.foam[1].duty_after, *view.foam[1].duty_before);
}

// A kilogram of ice from -18 C takes up 334 J/g melting, 37.6 J/g before and 33.5 J/g after, to 8 C: 405 kJ (openstax_physics2012, tables).
TEST(HeatView, ABottleHoldsAsLongAsItsMeltingHeatLasts) {
  const auto view = look_at(bare_tank(), {.target = Temperature::from_c(8), .room = Temperature::from_c(20), .humidity_fraction = 0.2}).view;
  const double gain_w = view.model.conductance.mid.w_per_k() * 12.0;
  const auto& litre = view.bottles[1];
  ASSERT_TRUE(litre.likely);
  EXPECT_NEAR(litre.likely->count(), 405e3 / gain_w / 3600.0, 0.05 * litre.likely->count());
  EXPECT_LE(*litre.shortest, *litre.likely);
  EXPECT_GE(*litre.a_day, static_cast<int>(24.0 / litre.likely->count()));
}

TEST(HeatView, ALoggersMonthReplacesTheGuessAndFindsTheTank) {
  SmallSeason season;
  TankBuild build = bare_tank();
  season.add(1, build);
  // The tank as it is: a third better insulated than its dimensions say. The chiller is off for two days at a time, as at a weekend of service.
  const auto truth = Conductance::from_w_per_k(0.67 * look_at(build).view.model.conductance.mid.w_per_k());
  heat::TankHeat tank{.capacity = heat::heat_capacity(Volume::from_l(200)), .conductance = truth};
  tank.pump = Power::from_w(12);
  numerics::RandomStream noise(5, 1);
  season.add(2, records::EquipmentEvent{records::EquipmentEvent::Equipment::chiller, records::EquipmentEvent::Event::switched_off, {}}, 0);
  const std::vector<Temperature> rooms(72, Temperature::from_c(20)), set{Temperature::from_c(30)};
  const auto run = heat::trajectory(tank, {}, {Temperature::from_c(8)}, rooms, set, TemperatureChange::from_c(1));
  for (int hour = 0; hour < 72; ++hour) {
    season.add(2 + hour / 24, records::TemperatureReading{Temperature::from_c(run.water[static_cast<std::size_t>(hour)].c() + 0.05 * noise.normal()), records::TemperatureReading::Place::tank}, hour % 24);
    season.add(2 + hour / 24, records::TemperatureReading{Temperature::from_c(20), records::TemperatureReading::Place::room}, hour % 24);
  }
  const auto found = look(season, 6).view.model;
  ASSERT_EQ(found.basis, HeatBasis::log);
  EXPECT_LE(found.conductance.low, truth);
  EXPECT_GE(found.conductance.high, truth);
  EXPECT_NEAR(found.conductance.mid.w_per_k() / truth.w_per_k(), 1.0, 0.15);
}

TEST(HeatView, SweatingFollowsTheDewPoint) {
  const auto dry = look_at(bare_tank(), {.target = Temperature::from_c(8), .room = Temperature::from_c(22), .humidity_fraction = 0.25}).view.damp;
  const auto moist = look_at(bare_tank(), {.target = Temperature::from_c(8), .room = Temperature::from_c(22), .humidity_fraction = 0.85}).view.damp;
  EXPECT_FALSE(dry.sweats);
  EXPECT_TRUE(moist.sweats);
  EXPECT_FALSE(moist.humidity_assumed);
  EXPECT_EQ(moist.surface_gain.w(), 0.0);  // under a lid
}

TEST(HeatView, AChillerLoggedAsFailedComesFirst) {
  SmallSeason season;
  season.add(1, bare_tank());
  season.add(2, records::EquipmentEvent{records::EquipmentEvent::Equipment::chiller, records::EquipmentEvent::Event::failed, {}});
  const auto found = look(season, 3);
  EXPECT_TRUE(found.view.model.chiller_down);
  EXPECT_TRUE(holds(report::heat_text(found), "logged as failed"));
}

TEST(PlanAbilities, KeepThePlanInsideWhatTheChillerHolds) {
  SmallSeason season;
  TankBuild build = bare_tank();
  build.chiller_cooling = Power::from_w(330), build.chiller_electric = Power::from_w(150);
  season.add(0, build);
  for (int day = 1; day < 30; ++day) season.temperature(day, 8.5);
  season.eggs(10, 250);
  const auto plan = season::look_at_plan({}, season.log(), on_day(29));
  ASSERT_TRUE(plan);
  const auto& question = plan->plan.asked.question;
  ASSERT_TRUE(plan->plan.alternatives.best.plan);
  const auto& best = *plan->plan.alternatives.best.plan;
  EXPECT_GT(question.days.front().coldest, Temperature::from_c(4.5));
  for (std::size_t d = static_cast<std::size_t>(best.recovery_days); d < best.set_points.size(); ++d) EXPECT_GE(best.set_points[d], question.days[d].coldest);
  EXPECT_GT(question.days.front().kwh_each_c_below_room, 0.0);
}

TEST(PlanAbilities, AChillerFarTooSmallIsSaidToBe) {
  SmallSeason season;
  TankBuild build = bare_tank();
  build.chiller_cooling = Power::from_w(60), build.chiller_electric = Power::from_w(50);
  season.add(0, build);
  for (int day = 1; day < 30; ++day) season.temperature(day, 8);
  season.eggs(10, 250);
  const auto plan = season::look_at_plan({}, season.log(), on_day(29));
  ASSERT_TRUE(plan);
  EXPECT_FALSE(plan->plan.alternatives.best.plan);
  ASSERT_FALSE(plan->plan.alternatives.best.obstacles.empty());
  EXPECT_FALSE(plan->plan.alternatives.best.obstacles.front().sentence.empty());
}

}  // namespace
}  // namespace redd::planning
