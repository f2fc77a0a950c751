#include "emergency/failures.h"

#include <gtest/gtest.h>

#include "support/small_season.h"

namespace redd::emergency {
namespace {

using Event = records::EquipmentEvent::Event;
using redd::testing::SmallSeason;

records::EquipmentEvent event(Equipment what, Event which) { return {what, which, {}}; }

TEST(Failures, StayOpenUntilTheThingWorks) {
  SmallSeason season;
  season.add(1, event(Equipment::chiller, Event::failed));
  season.add(2, event(Equipment::chiller, Event::serviced));
  EXPECT_TRUE(open_failures(season.log()).contains(Equipment::chiller));
  season.add(3, event(Equipment::chiller, Event::restored));
  EXPECT_TRUE(open_failures(season.log()).empty());
}

TEST(Failures, OffByChoiceCountsWhereItKeepsAlive) {
  SmallSeason season;
  season.add(1, event(Equipment::light, Event::switched_off));
  EXPECT_TRUE(open_failures(season.log()).empty());
  season.add(1, event(Equipment::air, Event::switched_off));
  EXPECT_TRUE(open_failures(season.log()).contains(Equipment::air));
  season.add(2, event(Equipment::air, Event::switched_on));
  EXPECT_TRUE(open_failures(season.log()).empty());
}

TEST(Failures, EachVitalOneIsAnEmergency) {
  for (const auto each : {Equipment::chiller, Equipment::pump, Equipment::air, Equipment::heater, Equipment::power, Equipment::light, Equipment::other})
    EXPECT_EQ(emergency_of(each).empty(), !keeps_alive(each));
}

}  // namespace
}  // namespace redd::emergency
