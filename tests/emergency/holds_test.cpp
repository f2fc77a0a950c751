#include "emergency/holds.h"

#include <gtest/gtest.h>

#include "chemistry/oxygen.h"
#include "support/made_case.h"

namespace redd::emergency {
namespace {

using inference::Animals;
using redd::testing::cases_of_all_lives;
using redd::testing::made_case;
using redd::testing::on_day;

/// Nothing counts as never: later than any time.
double hours(const std::optional<Hours>& time) { return time ? time->count() : 1e12; }

/// In all three ends `a` holds no longer than `b`.
void expect_no_longer(const planning::HoldSpan& a, const planning::HoldSpan& b, const std::string& of) {
  EXPECT_LE(hours(a.soonest), hours(b.soonest) + 1e-9) << of;
  EXPECT_LE(hours(a.likely), hours(b.likely) + 1e-9) << of;
  EXPECT_LE(hours(a.latest), hours(b.latest) + 1e-9) << of;
}

TEST(Holds, MoreAnimalsNeverHoldLonger) {
  for (const auto animals : {Animals::eyed_egg, Animals::alevin, Animals::fry})
    for (const double days : {20.0, 2.0, -20.0}) {
      std::optional<planning::HoldSpan> basket, tank;
      for (const int count : {10, 50, 200, 1000, 5000}) {
        const auto made = made_case(animals, count, 8, 200, days);
        const auto now_basket = *still_basket(made.at()).span;
        const auto now_tank = still_tank(made.at()).span;
        if (basket) expect_no_longer(now_basket, *basket, "basket of " + std::to_string(count));
        if (tank) {
          ASSERT_TRUE(now_tank) << count;  // once a number is given, more animals give one too
          expect_no_longer(*now_tank, *tank, "tank with " + std::to_string(count));
        }
        basket = now_basket, tank = now_tank;
      }
    }
}

TEST(Holds, WarmerWaterAndThinnerAirHoldNoLonger) {
  for (const auto animals : {Animals::eyed_egg, Animals::alevin, Animals::fry}) {
    expect_no_longer(*still_basket(made_case(animals, 200, 12, 200, 20.0).at()).span, *still_basket(made_case(animals, 200, 5, 200, 20.0).at()).span, "warmer");
    auto high = made_case(animals, 200, 8, 200, 20.0);
    const auto low = *still_basket(high.at()).span;
    high.season.elevation_m = 2000;
    expect_no_longer(*still_basket(high.at()).span, low, "higher");
    EXPECT_LT(hours(still_basket(high.at()).span->likely), hours(low.likely));
  }
}

TEST(Holds, AWarmerRoomNeverHoldsTheColdLonger) {
  std::optional<planning::HoldSpan> before;
  for (const double room : {15.0, 18.0, 21.0, 27.0, 32.0}) {
    const auto made = made_case(Animals::alevin, 200, 8, 200, 20.0, room);
    for (const auto& limit : made.heat.power_cut) EXPECT_LE(hours(limit.span.soonest), hours(limit.span.likely));
    const auto span = made.heat.power_cut.back().span;
    if (before) expect_no_longer(span, *before, std::to_string(room));
    before = span;
  }
}

TEST(Holds, AreOrderedForEveryLife) {
  for (const auto& made : cases_of_all_lives())
    for (const HoldTime& hold : without_flow(made.at(), {Equipment::power})) {
      if (!hold.span) continue;
      EXPECT_LE(hours(hold.span->soonest), hours(hold.span->likely)) << hold.what.pattern << animals_word(made.at());
      EXPECT_LE(hours(hold.span->likely), hours(hold.span->latest)) << hold.what.pattern << animals_word(made.at());
    }
}

TEST(Holds, HatchingAndSwimmingUpShortenEveryTime) {
  const auto all = cases_of_all_lives();
  const auto basket = [&](std::size_t i) { return *still_basket(all[i].at()).span; };
  const auto dry = [&](std::size_t i) { return *out_of_water(all[i].at()).span; };
  for (std::size_t i = 2; i < 5; ++i) {
    expect_no_longer(basket(i), basket(i - 1), animals_word(all[i].at()));
    expect_no_longer(dry(i), dry(i - 1), animals_word(all[i].at()));
  }
}

TEST(Holds, AReadingOfLittleOxygenShortensAndOfMuchNeverLengthens) {
  const auto with_oxygen = [](double mg_per_l, double age_days) {
    auto made = made_case(Animals::alevin, 200, 8, 200, 20.0);
    inference::QuantityBelief read;
    read.value = {mg_per_l - 0.5, mg_per_l, mg_per_l + 0.5};
    read.age_days = age_days;
    made.belief.water[records::Quantity::oxygen] = read;
    return *still_basket(made.at()).span;
  };
  const auto unread = *still_basket(made_case(Animals::alevin, 200, 8, 200, 20.0).at()).span;
  EXPECT_LT(hours(with_oxygen(8, 0.2).likely), hours(unread.likely));
  EXPECT_EQ(hours(with_oxygen(4, 0.2).likely), 0.0);
  expect_no_longer(with_oxygen(15, 0.2), unread, "more than water holds");
  EXPECT_EQ(hours(with_oxygen(6, 20).likely), hours(unread.likely));  // too old to tell
}

TEST(Holds, WhatHasGoneBySinceTheFailureIsTakenOff) {
  auto made = made_case(Animals::alevin, 200, 8, 200, 20.0);
  const auto fresh = without_flow(made.at(), {Equipment::power});
  records::Record power;
  power.id = 900;
  power.entry.at = made.now - std::chrono::hours(3);
  power.entry.body = records::EquipmentEvent{Equipment::power, records::EquipmentEvent::Event::failed, {}};
  made.records.push_back(power);
  const auto later = without_flow(made.at(), {Equipment::power});
  ASSERT_EQ(later.size(), fresh.size());
  for (std::size_t i = 0; i < fresh.size(); ++i)
    if (fresh[i].span && fresh[i].span->likely) EXPECT_NEAR(hours(later[i].span->likely), std::max(0.0, hours(fresh[i].span->likely) - 3.0), 1e-9) << fresh[i].what.pattern;
  // A reading since then begins the water's time anew, not the basket's.
  records::Record read;
  read.id = 901;
  read.entry.at = made.now - std::chrono::hours(1);
  read.entry.body = records::TemperatureReading{Temperature::from_c(8)};
  made.records.push_back(read);
  const auto known = without_flow(made.at(), {Equipment::power});
  EXPECT_EQ(hours(known.front().span->likely), hours(later.front().span->likely));
  EXPECT_NEAR(hours(known.back().span->likely), hours(fresh.back().span->likely) - 1.0, 1e-9);
}

TEST(Holds, PourSoonerThanTheBasketRunsShort) {
  for (const int count : {20, 200, 800, 1500}) {
    const auto made = made_case(Animals::alevin, count, 10, 200, 20.0);
    const double soonest = 60.0 * still_basket(made.at()).span->soonest->count();
    EXPECT_GE(pour_every_minutes(made.at()), 5);
    if (soonest >= 10.0) EXPECT_LE(pour_every_minutes(made.at()), 0.5 * soonest + 1e-9) << count;
  }
}

TEST(Holds, AWholeTankThatWouldHoldForDaysPromisesNothing) {
  EXPECT_FALSE(still_tank(made_case(Animals::eyed_egg, 50, 8, 200, 20.0).at()).span);
  EXPECT_TRUE(still_tank(made_case(Animals::fry, 400, 10, 200, -30.0).at()).span);
}

TEST(Holds, OnlyEggsWellBeforeHatchAreSentIntoTheDamp) {
  const auto all = cases_of_all_lives();
  for (std::size_t i = 0; i < all.size(); ++i) EXPECT_EQ(eggs_into_the_damp(all[i].at()).empty(), planning::all_lives[i] != Life::eggs);
  EXPECT_TRUE(eggs_into_the_damp(made_case(Animals::eyed_egg, 100, 8).at()).empty());  // dates unknown
}

TEST(TimeSentence, ALatestThatMayNeverComeIsNoCertainEnd) {
  const auto pattern = [](std::optional<Hours> soonest, std::optional<Hours> likely, std::optional<Hours> latest) { return time_sentence({soonest, likely, latest}).pattern; };
  EXPECT_EQ(pattern(Hours(8), Hours(12), std::nullopt), "after {0} or more, perhaps never; at the soonest after {1}.");
  EXPECT_EQ(pattern(Hours(8), Hours(12), Hours(30)), "likely after {0}, at the soonest after {1}.");
  EXPECT_EQ(pattern(Hours(0), Hours(12), std::nullopt), "perhaps already, else after {0} or more, perhaps never.");
  EXPECT_EQ(pattern(Hours(0), Hours(12), Hours(30)), "perhaps already, else likely after {0}.");
}

TEST(Joined, KeepsTheNumbersOfBoth) {
  const Sentence both = joined({"{0} and {1}", {Number{1}, Number{2}}}, {"then {1}, {0}.", {Number{3}, Number{4}}});
  EXPECT_EQ(both.pattern, "{0} and {1} then {3}, {2}.");
  ASSERT_EQ(both.values.size(), 4u);
  EXPECT_EQ(std::get<Number>(both.values[2]).count, 3);
  EXPECT_EQ(joined({}, "Alone.").pattern, "Alone.");
}

}  // namespace
}  // namespace redd::emergency
