// Laws of the tank that hold for any parameters and any water: nothing below zero, nitrogen and charge kept, the same for any order of work.
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <thread>

#include "support/plain_tank.h"
#include "tank/prior.h"

namespace redd::tank {
namespace {

double between(int step, double low, double high) { return std::exp(std::log(low) + (std::log(high) - std::log(low)) * step / 1000.0); }

/// Wilder than any tank: rates over several powers of ten, any quantity may be exactly zero.
rc::Gen<tests::RandomCase> wild_case() {
  return rc::gen::map(rc::gen::container<std::vector<int>>(64, rc::gen::inRange(0, 1001)), [](const std::vector<int>& dice) {
    std::size_t next = 0;
    const auto log_between = [&](double low, double high) { return between(dice[next++], low, high); };
    const auto perhaps = [&](double low, double high) {
      const double value = log_between(low, high);
      return dice[next++] < 250 ? 0.0 : value;
    };
    tests::RandomCase c;
    auto& p = c.parameters;
    p.ammonia_oxidiser_growth_per_day = log_between(0.05, 20.0);
    p.ammonia_oxidiser_decay_per_day = log_between(0.001, 2.0);
    p.ammonia_oxidiser_yield_mg_cod_per_mg_n = log_between(0.01, 0.5);
    p.ammonia_half_saturation_mg_n_per_l = log_between(1e-4, 10.0);
    p.ammonia_oxidiser_oxygen_half_saturation_mg_o2_per_l = log_between(0.01, 5.0);
    p.nitrite_oxidiser_growth_per_day = log_between(0.05, 20.0);
    p.nitrite_oxidiser_decay_per_day = log_between(0.001, 2.0);
    p.nitrite_oxidiser_yield_mg_cod_per_mg_n = log_between(0.01, 0.3);
    p.nitrite_half_saturation_mg_n_per_l = log_between(1e-4, 10.0);
    p.free_ammonia_inhibition_mg_n_per_l = log_between(1e-3, 10.0);
    p.alkalinity_half_saturation_meq_per_l = log_between(1e-3, 5.0);
    p.ammonification_per_day = log_between(1e-3, 1e3);
    p.filter_capacity_mg_n_per_l_per_day = log_between(0.01, 1e4);
    p.gas_transfer_per_day = log_between(0.1, 1e4);
    auto& s = c.state;
    s.organic_mg_n_per_l = perhaps(1e-6, 100.0);
    s.total_ammonia_mg_n_per_l = perhaps(1e-9, 100.0);
    s.nitrite_mg_n_per_l = perhaps(1e-9, 100.0);
    s.nitrate_mg_n_per_l = perhaps(1e-3, 300.0);
    s.ammonia_oxidisers_mg_cod_per_l = perhaps(1e-9, 100.0);
    s.nitrite_oxidisers_mg_cod_per_l = perhaps(1e-9, 100.0);
    s.oxygen_mg_o2_per_l = perhaps(1e-3, 15.0);
    s.alkalinity_meq_per_l = perhaps(1e-3, 20.0);
    s.inorganic_carbon_mmol_per_l = s.alkalinity_meq_per_l * 1.03 + log_between(1e-3, 1.0);
    c.volume_l = log_between(10.0, 1000.0);
    const double load = perhaps(0.1, 3000.0), oxygen_use = perhaps(1.0, 1e4), food = perhaps(0.1, 1000.0);
    for (int d = 0; d < 8; ++d) {
      DayForcing day;
      day.temperature_c = 4.0 + 24.0 * dice[40 + static_cast<std::size_t>(d)] / 1000.0;
      (dice[50] < 500 ? day.excretion_mg_n_per_day : day.ammonium_salt_mg_n_per_day) = load;
      day.organic_mg_n_per_day = food;
      day.oxygen_use_mg_o2_per_day = oxygen_use;
      c.forcing.days.push_back(day);
    }
    return c;
  });
}

/// Calls `f` for many wild cases; a failing one is shrunk and shown by the library.
template <class F>
void for_wild_cases(F f) {
  EXPECT_TRUE(rc::check([&] {
    const tests::RandomCase c = *wild_case();
    f(c);
  }));
}

TEST(Tank, IsNeverBelowZeroWhateverItsRates) {
  for_wild_cases([](const tests::RandomCase& c) {
    OneTank one{c.state, c.parameters, c.volume_l};
    for (int d = 0; d < 8; ++d) {
      RC_ASSERT(advance(one, c.forcing, d, d + 1, Tolerance::for_inference()).sound);
      for (const double value : tests::values_of(one.state)) RC_ASSERT(value >= 0.0);
    }
  });
}

TEST(Tank, KeepsNitrogenToRounding) {
  for_wild_cases([](const tests::RandomCase& c) {
    OneTank one{c.state, c.parameters, c.volume_l};
    advance(one, c.forcing, 0.0, 8.0, Tolerance::for_inference());
    double brought = 0.0;
    for (const auto& d : c.forcing.days)
      brought += (d.ammonium_salt_mg_n_per_day + c.parameters.load_factor * (d.excretion_mg_n_per_day + d.organic_mg_n_per_day)) / c.volume_l;
    const double expected = total_nitrogen_mg_n_per_l(c.state) + brought;
    RC_ASSERT(std::fabs(total_nitrogen_mg_n_per_l(one.state) - expected) <= 1e-10 * expected + 1e-13);
  });
}

TEST(Tank, KeepsCharge) {
  for_wild_cases([](const tests::RandomCase& c) {
    OneTank one{c.state, c.parameters, c.volume_l};
    advance(one, c.forcing, 0.0, 8.0, Tolerance::for_inference());
    double salt = 0.0;
    for (const auto& d : c.forcing.days) salt += d.ammonium_salt_mg_n_per_day / c.volume_l;
    const auto charge = [](const TankState& s) {
      return s.alkalinity_meq_per_l - (s.total_ammonia_mg_n_per_l - s.nitrite_mg_n_per_l - s.nitrate_mg_n_per_l) / 14.007;
    };
    const double scale = std::fabs(charge(c.state)) + salt + one.state.nitrate_mg_n_per_l + 1.0;
    RC_ASSERT(std::fabs(charge(one.state) - (charge(c.state) - salt / 14.007)) <= 1e-10 * scale);
  });
}

TEST(Tank, ErrorFallsWithTheTolerance) {
  for (std::uint32_t number = 40; number < 46; ++number) {
    const auto c = tests::random_case(number, 12);
    const auto reached = [&](double tolerance) {
      OneTank one{c.state, c.parameters, c.volume_l};
      advance(one, c.forcing, 0.0, 12.0, {tolerance});
      return tests::values_of(one.state);
    };
    const auto best = reached(1e-10);
    EXPECT_LT(tests::relative_error(reached(1e-7), best), 3e-5) << number;
    EXPECT_LT(tests::relative_error(reached(1e-5), best), 3e-3) << number;
  }
}

/// Does the items from the last to the first, on other threads.
class Contrary final : public numerics::Workers {
 public:
  void run(std::size_t count, Item item, void* data) override {
    std::vector<std::jthread> threads;
    for (std::size_t i = count; i-- > 0;) threads.emplace_back([=] { item(data, i); });
  }
};

TEST(Tank, IsTheSameToTheLastBitWhoeverDoesTheWork) {
  TankState water;
  water.total_ammonia_mg_n_per_l = 2.0;
  water.oxygen_mg_o2_per_l = 8.5;
  water.alkalinity_meq_per_l = 2.5;
  water.inorganic_carbon_mmol_per_l = 2.55;
  Ensemble alone(203, 200.0), shared(203, 200.0);
  sample_prior(alone, {}, water, 3);
  sample_prior(shared, {}, water, 3);
  Forcing forcing;
  for (int d = 0; d < 25; ++d) forcing.days.push_back({.temperature_c = 24.0 - 0.4 * d, .excretion_mg_n_per_day = 50.0, .evaporation_l_per_day = 0.5});
  Contrary contrary;
  advance(alone, forcing, 0.0, 25.0, Tolerance::for_inference());
  advance(shared, forcing, 0.0, 25.0, contrary, Tolerance::for_inference());
  for (std::size_t q = 0; q < quantity_count; ++q) {
    const auto a = alone.column(Quantity{q}), b = shared.column(Quantity{q});
    EXPECT_TRUE(std::equal(a.begin(), a.end(), b.begin())) << q;
  }
}

}  // namespace
}  // namespace redd::tank
