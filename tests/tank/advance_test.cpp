// advance() against an independent statement of the model, solved by other means: by a general stepper here, by CVODE in stored values.
#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>
#include <tuple>

#include "numerics/rosenbrock.h"
#include "reference/table.h"
#include "support/plain_tank.h"
#include "tank/detail/kernel.h"
#include "tank/prior.h"

namespace redd::tank {
namespace {

using tests::Values;

/// The case to `days`, by the general stepper at high accuracy.
Values solved_plainly(const tests::RandomCase& c, double days) {
  Values y = tests::values_of(c.state);
  double volume_l = c.volume_l;
  for (const Stretch& stretch : stretches_of(c.forcing, 0.0, days, volume_l)) {
    tests::begin(y, c.parameters, stretch);
    const tests::PlainTank model(c.parameters, stretch, y);
    // Time is one more value, so that the system does not depend on it otherwise.
    std::vector<double> extended(y.begin(), y.end());
    extended.push_back(0.0);
    const numerics::StiffSystem system{integrated_count + 1,
                                       [&](auto z, auto dz) {
                                         model.rates_of_change(z[integrated_count], z.data(), dz.data());
                                         dz[integrated_count] = 1.0;
                                       },
                                       {}};
    EXPECT_TRUE(numerics::solve_stiff(numerics::rodas4, system, extended, 0.0, stretch.days, {1e-8, 1e-11}).reached);
    std::copy(extended.begin(), extended.begin() + integrated_count, y.begin());
  }
  return y;
}

TEST(Advance, AgreesWithAnIndependentSolutionOfTheModel) {
  for (std::uint32_t number = 100; number < 108; ++number) {
    const auto c = tests::random_case(number, 20);
    OneTank one{c.state, c.parameters, c.volume_l};
    const AdvanceReport report = advance(one, c.forcing, 0.0, 20.0);
    EXPECT_TRUE(report.sound);
    EXPECT_LT(tests::relative_error(tests::values_of(one.state), solved_plainly(c, 20.0)), 1e-4) << "case " << number;
  }
}

TEST(Advance, AgreesWithStoredSolutionsOfCvode) {
  std::vector<tests::RandomCase> cases;
  for (std::uint32_t i = 0; i < 24; ++i) cases.push_back(tests::random_case(i, 60));
  const char* names[] = {"organic", "ammonia", "nitrite", "nitrate", "ammonia_oxidisers", "nitrite_oxidisers", "debris", "oxygen",
                         "alkalinity", "carbon", "shock"};
  std::vector<OneTank> tanks;
  for (const auto& c : cases) tanks.push_back({c.state, c.parameters, c.volume_l});
  std::vector<double> reached(cases.size(), 0.0);
  for (const auto& row : reference::table("tank_reference")) {
    const auto i = static_cast<std::size_t>(row.number("case"));
    advance(tanks[i], cases[i].forcing, reached[i], row.number("day"));
    reached[i] = row.number("day");
    Values expected;
    for (std::size_t q = 0; q < expected.size(); ++q) expected[q] = row.number(names[q]);
    EXPECT_LT(tests::relative_error(tests::values_of(tanks[i].state), expected), 1e-4) << row.line();
  }
}

TEST(Advance, IsTheSameWhetherTheTimeIsCutOrNot) {
  const auto c = tests::random_case(3, 20);
  OneTank whole{c.state, c.parameters, c.volume_l}, cut = whole;
  advance(whole, c.forcing, 0.0, 14.0);
  for (const double to : {0.3, 1.0, 4.75, 9.0, 14.0}) {
    static double from;
    if (to == 0.3) from = 0.0;
    advance(cut, c.forcing, from, to);
    from = to;
  }
  // Cutting a day renews ionic strength and evaporation at the cut; that is all that may differ.
  EXPECT_LT(tests::relative_error(tests::values_of(cut.state), tests::values_of(whole.state)), 2e-3);
  EXPECT_NEAR(cut.volume_l, whole.volume_l, 1e-9);
}

TEST(Advance, NeedsNoSmallStepsForFastGasExchange) {
  auto c = tests::random_case(5, 20);
  c.parameters.gas_transfer_per_day = 20.0;
  OneTank slow{c.state, c.parameters, c.volume_l};
  const auto slow_steps = advance(slow, c.forcing, 0.0, 20.0).steps;
  c.parameters.gas_transfer_per_day = 2000.0;
  OneTank fast{c.state, c.parameters, c.volume_l};
  const auto fast_steps = advance(fast, c.forcing, 0.0, 20.0).steps;
  EXPECT_LT(fast_steps, 2 * slow_steps);
}

TEST(Advance, GivesTheSameFromBothVectorUnits) {
#if defined(__x86_64__)
  if (!__builtin_cpu_supports("avx2")) GTEST_SKIP() << "this machine has no wide vectors";
#endif
  Ensemble plain(8, 200.0);
  for (std::uint32_t i = 0; i < 8; ++i) {
    const auto c = tests::random_case(i, 10);
    plain.set(i, c.state, c.parameters);
  }
  Ensemble wide = plain;
  double volume_l = 200.0;
  const auto stretches = stretches_of(tests::random_case(0, 10).forcing, 0.0, 10.0, volume_l);
  const auto job = [&](Ensemble& e) {
    return BlockJob{e.padded(Quantity{}), e.padded(Parameter{}), e.step_days(), e.stride(), stretches.data(), stretches.size(), 1e-6, 1.0};
  };
  const auto expect_same = [&](const char* what) {
    for (std::size_t q = 0; q < quantity_count; ++q)
      for (std::size_t i = 0; i < 8; ++i) EXPECT_EQ(plain.column(Quantity{q})[i], wide.column(Quantity{q})[i]) << what << q << ", particle " << i;
  };
  Ensemble plain_single = plain, wide_single = plain;
  for (std::size_t block = 0; block < 2; ++block) {
    advance_block_plain(job(plain), block);
    advance_block_wide(job(wide), block);
  }
  expect_same("double, ");
  advance_block_plain_single(job(plain_single), 0);
  advance_block_wide_single(job(wide_single), 0);
  plain = plain_single;
  wide = wide_single;
  expect_same("single, ");
}

/// Water and bacteria of many tanks after forty weeks, in the way the sampler asks for, as a share of the exact way's.
struct Quick {
  std::vector<double> off;  ///< largest difference of each tank, relative to the value and a floor no test kit shows
  double nitrogen_off = 0;  ///< largest relative difference of all nitrogen
};
Quick quick_against_exact(Tolerance tolerance, const Forcing& forcing, double days) {
  constexpr std::size_t count = 64;
  TankState water;
  water.total_ammonia_mg_n_per_l = 3.0;
  water.oxygen_mg_o2_per_l = 8.5;
  water.alkalinity_meq_per_l = 4.0;
  water.inorganic_carbon_mmol_per_l = 4.05;
  water.nitrate_mg_n_per_l = 2.0;
  Ensemble exact(count, 200.0);
  sample_prior(exact, {}, water, 7);
  Ensemble quick = exact;
  for (double day = 0.0; day < days; day += 7.0) {
    advance(exact, forcing, day, day + 7.0);
    EXPECT_TRUE(advance(quick, forcing, day, day + 7.0, tolerance).sound);
  }
  Quick result;
  for (std::size_t i = 0; i < count; ++i) {
    const TankState a = exact.state(i), b = quick.state(i);
    double worst = 0.0;
    for (const auto& [x, y, floor] : {std::tuple{a.total_ammonia_mg_n_per_l, b.total_ammonia_mg_n_per_l, 0.1}, {a.nitrite_mg_n_per_l, b.nitrite_mg_n_per_l, 0.1},
                                      {a.nitrate_mg_n_per_l, b.nitrate_mg_n_per_l, 1.0}, {a.oxygen_mg_o2_per_l, b.oxygen_mg_o2_per_l, 1.0},
                                      {a.alkalinity_meq_per_l, b.alkalinity_meq_per_l, 0.1}}) {
      EXPECT_GE(y, 0.0);
      worst = std::max(worst, std::abs(x - y) / (std::abs(x) + floor));
    }
    result.off.push_back(worst);
    const auto all = [](const TankState& s) {
      return s.organic_mg_n_per_l + s.total_ammonia_mg_n_per_l + s.nitrite_mg_n_per_l + s.nitrate_mg_n_per_l +
             stoichiometry::biomass_nitrogen * (s.ammonia_oxidisers_mg_cod_per_l + s.nitrite_oxidisers_mg_cod_per_l + s.debris_mg_cod_per_l);
    };
    result.nitrogen_off = std::max(result.nitrogen_off, std::abs(all(b) / all(a) - 1.0));
  }
  std::ranges::sort(result.off);
  return result;
}
Forcing warm_then_cold_season() {
  Forcing forcing;
  for (int d = 0; d < 280; ++d) {
    DayForcing day;
    day.temperature_c = d < 70 ? 24.0 + 0.1 * (d % 3) : d < 84 ? 24.0 - d + 70.0 : 10.0;
    (d < 90 ? day.ammonium_salt_mg_n_per_day : day.excretion_mg_n_per_day) = d < 90 ? 60.0 : 0.3 * (d - 90);
    day.organic_mg_n_per_day = d < 150 ? 0.0 : 0.1 * (d - 150);
    forcing.days.push_back(day);
  }
  return forcing;
}

// What the sampler's short cuts cost: found 0.02 % typically and 0.8 % at worst, where one step of a card is 50 % and more.
TEST(Advance, ShortCutsOfTheSamplerStayFarBelowAStepOfACard) {
  const Quick quick = quick_against_exact({.relative = 3e-3, .join_days = true, .floor_factor = 50.0, .single_precision = true}, warm_then_cold_season(), 280.0);
  EXPECT_LT(quick.off[quick.off.size() / 2], 1e-3);
  EXPECT_LT(quick.off.back(), 0.02);
  EXPECT_LT(quick.nitrogen_off, 3e-6);
}

TEST(Advance, SinglePrecisionAloneCostsLessThanItsTolerance) {
  EXPECT_LT(quick_against_exact({.relative = 1e-3, .single_precision = true}, warm_then_cold_season(), 280.0).off.back(), 1e-3);
}

TEST(Advance, JoinsOnlyDaysThatHardlyDiffer) {
  double volume_l = 200.0;
  const auto pieces = [&](const Forcing& forcing) { return stretches_of(forcing, 0.0, 14.0, volume_l, true).size(); };
  Forcing forcing;
  forcing.days.assign(15, {.temperature_c = 12.0, .excretion_mg_n_per_day = 40.0});
  EXPECT_EQ(pieces(forcing), 2u);  // two weeks
  EXPECT_EQ(stretches_of(forcing, 0.0, 14.0, volume_l, false).size(), 14u);
  forcing.days[10].excretion_mg_n_per_day = 80.0;
  EXPECT_EQ(pieces(forcing), 4u);  // a day of its own
  forcing.days[10].excretion_mg_n_per_day = 40.0;
  for (std::size_t d = 0; d < forcing.days.size(); ++d) forcing.days[d].temperature_c = 20.0 - static_cast<double>(d);
  EXPECT_EQ(pieces(forcing), 7u);  // two degrees at most
  forcing.days[7].temperature_c = 4.0;
  const auto sudden = [&](bool join) {
    double sum = 0.0;
    for (const Stretch& s : stretches_of(forcing, 0.0, 14.0, volume_l, join)) sum += s.sudden_cooling_c;
    return sum;
  };
  EXPECT_GT(sudden(false), 5.0);
  EXPECT_DOUBLE_EQ(sudden(true), sudden(false));  // never smoothed away
}

TEST(Advance, JoinedDaysBringInAllTheNitrogenOfEach) {
  Forcing forcing;
  for (int d = 0; d < 15; ++d) forcing.days.push_back({.temperature_c = 12.0, .excretion_mg_n_per_day = 40.0 + 0.3 * d, .organic_mg_n_per_day = 20.0 - 0.1 * d});
  double volume_l = 200.0, brought = 0.0, at_once = 0.0;
  for (const Stretch& s : stretches_of(forcing, 0.0, 14.0, volume_l, false)) brought += s.days * (s.excretion + s.organic);
  const auto joined = stretches_of(forcing, 0.0, 14.0, volume_l, true);
  EXPECT_LT(joined.size(), 5u);
  for (const Stretch& s : joined) at_once += s.days * (s.excretion + s.organic);
  EXPECT_NEAR(at_once, brought, 1e-12 * brought);
}

TEST(Advance, SaysWhenAParticleIsNoNumber) {
  OneTank broken;
  broken.state.oxygen_mg_o2_per_l = 8.0;
  broken.state.total_ammonia_mg_n_per_l = std::nan("");
  EXPECT_FALSE(advance(broken, {}, 0.0, 2.0).sound);
  OneTank impossible;
  impossible.state.oxygen_mg_o2_per_l = 8.0;
  impossible.state.alkalinity_meq_per_l = 2.0;
  impossible.state.inorganic_carbon_mmol_per_l = 2.0;
  impossible.parameters.ammonia_oxidiser_yield_mg_cod_per_mg_n = 0.0;
  EXPECT_FALSE(advance(impossible, {}, 0.0, 2.0).sound);
}

TEST(Advance, DoesNothingInNoTime) {
  const auto c = tests::random_case(1, 5);
  OneTank one{c.state, c.parameters, c.volume_l};
  const auto report = advance(one, c.forcing, 3.0, 3.0);
  EXPECT_EQ(report.steps, 0);
  EXPECT_EQ(tests::values_of(one.state), tests::values_of(c.state));
}

TEST(Advance, EvaporationConcentratesWhatIsDissolved) {
  OneTank one;
  one.state.oxygen_mg_o2_per_l = 9.0;
  one.state.nitrate_mg_n_per_l = 10.0;
  one.state.alkalinity_meq_per_l = 2.0;
  one.state.inorganic_carbon_mmol_per_l = 2.0;
  one.state.hardness_meq_per_l = 3.0;
  one.volume_l = 200.0;
  Forcing forcing;
  forcing.days.assign(10, {.evaporation_l_per_day = 2.0});
  advance(one, forcing, 0.0, 10.0);
  EXPECT_NEAR(one.volume_l, 180.0, 1e-9);
  EXPECT_NEAR(one.state.nitrate_mg_n_per_l, 10.0 / 0.9, 1e-9);
  EXPECT_NEAR(one.state.hardness_meq_per_l, 3.0 / 0.9, 1e-9);
  EXPECT_NEAR(one.state.alkalinity_meq_per_l, 2.0 / 0.9, 1e-9);
}

TEST(Advance, SuddenCoolingCostsActivityAndGradualCoolingDoesNot) {
  const auto shock_after = [](double drop_a_day_c) {
    OneTank one;
    one.state.oxygen_mg_o2_per_l = 9.0;
    one.state.alkalinity_meq_per_l = 2.0;
    one.state.inorganic_carbon_mmol_per_l = 2.0;
    Forcing forcing;
    for (int d = 0; d < 20; ++d) forcing.days.push_back({.temperature_c = std::max(10.0, 24.0 - drop_a_day_c * d)});
    advance(one, forcing, 0.0, 1.0);
    const double at_once = one.state.cold_shock_fraction;
    advance(one, forcing, 1.0, 20.0);
    EXPECT_LE(one.state.cold_shock_fraction, at_once);
    return at_once;
  };
  EXPECT_EQ(shock_after(2.0), 0.0);
  EXPECT_NEAR(shock_after(12.0), 0.2 * std::exp(-0.1), 0.003);  // 10 C beyond gradual: a fifth, a tenth of it mended within the day
}

TEST(PhOf, AgreesWithTheFullSolution) {
  for (const double temperature_c : {2.0, 10.0, 18.0, 26.0})
    for (const double alkalinity : {0.02, 0.1, 0.5, 1.0, 2.0, 4.0, 8.0})
      for (double ph = 5.5; ph <= 9.5; ph += 0.1) {
        const auto t = Temperature::from_c(temperature_c);
        const auto water = chemistry::carbonate_from_ph(t, Alkalinity::from_meq_per_l(alkalinity), Ph::from_ph(ph));
        if (!water || water->dic_mmol_per_l < 0.01) continue;          // alkalinity of the water alone: no such tank
        if (alkalinity < 0.2 && ph > 9.0) continue;                     // nor such: air would bring it down
        TankState state;
        state.alkalinity_meq_per_l = alkalinity;
        state.inorganic_carbon_mmol_per_l = water->dic_mmol_per_l;
        EXPECT_NEAR(ph_of(state, t).ph(), ph, 0.005) << temperature_c << " C, " << alkalinity << " meq/L";
      }
}

TEST(Ensemble, KeepsWhatIsSetAndSelectsAncestors) {
  Ensemble e(6, 100.0);
  for (std::uint32_t i = 0; i < 6; ++i) {
    const auto c = tests::random_case(i, 1);
    e.set(i, c.state, c.parameters);
  }
  const auto third = e.state(3);
  const auto third_parameters = e.parameters(3);
  const std::vector<std::uint32_t> ancestors{3, 3, 0, 5, 3};
  e.select(ancestors);
  EXPECT_EQ(e.size(), 5u);
  for (const std::size_t i : {0, 1, 4}) {
    EXPECT_EQ(tests::values_of(e.state(i)), tests::values_of(third));
    EXPECT_EQ(e.parameters(i).load_factor, third_parameters.load_factor);
  }
  EXPECT_EQ(e.column(Quantity::nitrite)[2], e.state(2).nitrite_mg_n_per_l);
  EXPECT_EQ(e.column(Parameter::decay_theta)[2], e.parameters(2).decay_theta);
}

TEST(CapacityOf, IsTheRateOfPlentyAndTheLesserOfBothSteps) {
  Ensemble e(1, 100.0);
  TankState s;
  TankParameters p;
  p.filter_capacity_mg_n_per_l_per_day = 4.0;
  s.ammonia_oxidisers_mg_cod_per_l = 1.0;
  s.nitrite_oxidisers_mg_cod_per_l = 1e3;
  e.set(0, s, p);
  double capacity = 0.0;
  capacity_of(e, 20.0, {&capacity, 1});
  const double alone = 0.75 / 0.17;
  EXPECT_NEAR(capacity, alone * 4.0 / (4.0 + alone), 1e-12);
  s.nitrite_oxidisers_mg_cod_per_l = 1e-3;
  e.set(0, s, p);
  double starved = 0.0;
  capacity_of(e, 20.0, {&starved, 1});
  EXPECT_LT(starved, 0.02);
  double cold = 0.0;
  capacity_of(e, 10.0, {&cold, 1});
  EXPECT_LT(cold, starved);
}

}  // namespace
}  // namespace redd::tank
