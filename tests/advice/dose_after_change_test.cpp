#include "advice/dose_after_change.h"

#include <gtest/gtest.h>

#include "advice/made_situation.h"
#include "chemistry/limits.h"

namespace redd::advice {
namespace {

using namespace redd::advice::testing;
using inference::Quantity;

/// KH of `kh` meq/L with a tap of `tap`; the list asks for bicarbonate tomorrow and for a change in some days.
struct Low {
  Made tank{};
  Low(double kh, Tone tone) : kh_(kh), tone_(tone) {
    tank.belief.brood.animals = inference::Animals::fry;
    tank.belief.source.emplace().alkalinity = Alkalinity::from_meq_per_l(2.0);
  }
  std::vector<Action> after(double after_change, int change_in_days, double fraction = 0.3) {
    Situation s = tank.situation();
    Assessment& kh = s.water[WaterKey::alkalinity];
    kh.value = Estimate<double>{0.9 * kh_, kh_, 1.1 * kh_, Support::measured};
    kh.tone = tone_;
    Action dose = made(s, "buffer", tone_, Aim::animals, {Deed::dose}, 1);
    Action asked = change(s, "nitrate", fraction, Tone::watch, change_in_days);
    asked.water_change->after[Quantity::alkalinity] = {after_change, after_change, after_change, Support::inferred};
    std::vector<Action> actions{dose, asked};
    dose_only_the_rest(s, actions);
    return actions;
  }
  double kh_;
  Tone tone_;
};

constexpr double need = chemistry::limits::alkalinity_for_nitrification.meq_per_l();

TEST(DoseOnlyTheRest, AChangeThatLiftsKhEnoughNeedsNoBicarbonate) {
  const auto actions = Low(0.8 * need, Tone::watch).after(1.1 * need, 3);
  ASSERT_EQ(actions.size(), 1u);
  EXPECT_EQ(actions.front().key, "buffer+nitrate");
  EXPECT_TRUE(actions.front().water_change);
  EXPECT_EQ(local_day({}, actions.front().by), local_day({}, Made().now) + std::chrono::days(3));
}

TEST(DoseOnlyTheRest, WhatTheChangeDoesNotLiftIsDosedAfterIt) {
  const auto actions = Low(0.6 * need, Tone::watch).after(0.9 * need, 3);
  ASSERT_EQ(actions.size(), 2u);
  const Action& dose = of_key(actions, "buffer");
  EXPECT_EQ(dose.deeds, std::vector{Deed::wait});
  EXPECT_GE(dose.by, of_key(actions, "nitrate").by);
  EXPECT_NEAR(std::get<Alkalinity>(dose.how_much.values.at(0)).meq_per_l(), 0.3 * need, 1e-9);
}

TEST(DoseOnlyTheRest, AKhThatMayCrashWaitsForNoChangeDaysOff) {
  EXPECT_EQ(of_key(Low(0.3 * need, Tone::act).after(1.1 * need, 5), "buffer").deeds, std::vector{Deed::dose});
  const auto soon = Low(0.3 * need, Tone::act).after(1.1 * need, 1);
  ASSERT_EQ(soon.size(), 1u);
  EXPECT_EQ(soon.front().tone, Tone::act);  // the change now stands in for it
}

TEST(DoseOnlyTheRest, AChangeThatLiftsNothingOrIsUnknownChangesNothing) {
  EXPECT_EQ(of_key(Low(0.8 * need, Tone::watch).after(0.7 * need, 1), "buffer").deeds, std::vector{Deed::dose});
  Low unknown(0.8 * need, Tone::watch);
  unknown.tank.belief.source->alkalinity.reset();
  EXPECT_EQ(of_key(unknown.after(1.1 * need, 1), "buffer").deeds, std::vector{Deed::dose});
}

}  // namespace
}  // namespace redd::advice
