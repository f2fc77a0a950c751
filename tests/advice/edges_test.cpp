#include "advice/edges.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "support/small_season.h"

namespace redd::advice {
namespace {

using redd::testing::SmallSeason;
using records::Reading;
using Form = Reading::Form;

std::optional<Reading> next(const char* test, Form form, std::optional<double> value, bool up, std::optional<double> upper = {}) {
  const records::Kit kit = SmallSeason::kit();
  Reading reading = SmallSeason::reading(test, form, value);
  reading.upper_value = upper;
  return neighbour(*records::find_test(kit, test), reading, up);
}

TEST(Neighbour, IsTheNextStepOfTheCard) {
  EXPECT_EQ(next("nitrite", Form::step, 0.1, true)->value, 0.2);
  EXPECT_EQ(next("nitrite", Form::step, 0.1, false)->value, 0.05);
  EXPECT_FALSE(next("nitrite", Form::step, 0.0, false).has_value());
  EXPECT_EQ(next("nitrite", Form::step, 0.8, true)->form, Form::above_last);
  EXPECT_EQ(next("nitrite", Form::above_last, {}, false)->value, 0.8);
  EXPECT_EQ(next("nitrite", Form::below_first, {}, true)->value, 0.0);
  EXPECT_EQ(next("nitrite", Form::between, 0.1, true, 0.2)->value, 0.2);
  EXPECT_EQ(next("nitrite", Form::between, 0.1, false, 0.2)->value, 0.1);
  EXPECT_FALSE(next("nitrite", Form::between, 0.1, false, 0.2)->upper_value.has_value());
  EXPECT_FALSE(next("nitrite", Form::step, 0.15, true).has_value()) << "no step of this card";
}

TEST(Neighbour, IsADropOrTheMetersAccuracy) {
  EXPECT_EQ(next("kh", Form::drops, 6, true)->value, 7.0);
  EXPECT_EQ(next("kh", Form::drops, 6, false)->value, 5.0);
  EXPECT_FALSE(next("kh", Form::drops, 1, false).has_value());
  records::KitTest meter;
  meter.method = records::Method::meter;
  EXPECT_FALSE(neighbour(meter, SmallSeason::reading("ph", Form::number, 7.4), true).has_value()) << "of unknown accuracy";
  meter.accuracy = 0.1;
  EXPECT_NEAR(*neighbour(meter, SmallSeason::reading("ph", Form::number, 7.4), true)->value, 7.5, 1e-12);
}

SmallSeason with_eggs() {
  SmallSeason season;
  season.step(2, "nitrite", 0.8);
  season.step(5, "nitrite", 0);
  season.temperature(7, 8);
  season.eggs(8);
  season.quiet_tests(14);
  return season;
}

const Reason* edge_of(const Action& a, records::RecordId id, std::string_view words) {
  const auto found = std::ranges::find_if(a.would_change_if, [&](const Reason& r) {
    return r.sentence.pattern.starts_with("Had ") && r.sentence.pattern.find(words) != std::string::npos && std::ranges::find(r.records, id) != r.records.end();
  });
  return found == a.would_change_if.end() ? nullptr : &*found;
}

TEST(Edges, SayWhichStepWouldPutAnotherThingFirst) {
  SmallSeason season = with_eggs();
  const auto id = season.step(15, "ammonia", 0.8);
  season.step(15, "ph", 7.6);
  const auto advice = season.look(15).advice;
  ASSERT_EQ(advice.actions.front().rule, "ammonia");
  EXPECT_NE(edge_of(advice.actions.front(), id, "Had {0} read"), nullptr);
}

TEST(Edges, AreTrue) {
  SmallSeason season = with_eggs();
  const auto id = season.step(15, "nitrite", 0.1);
  const auto first = season.look(15).advice.actions.front();
  for (const auto& [value, up] : {std::pair(0.05, false), {0.2, true}}) {
    SmallSeason moved = season;
    std::get<Reading>(moved.log()[static_cast<std::size_t>(id) - 1].entry.body).value = value;
    const auto then = moved.look(15).advice.actions.front();
    const bool said = std::ranges::any_of(first.would_change_if, [&](const Reason& r) { return r.sentence.pattern.starts_with("Had {0} read") && std::get<Word>(r.sentence.values[1]).text.starts_with(up ? "0.2" : "0.05"); });
    EXPECT_EQ(said, then.key != first.key || then.tone != first.tone) << value;
  }
}

TEST(Edges, NameAllTeamsThatReadTheSame) {
  SmallSeason season = with_eggs();
  const auto one = season.step(15, "nitrite", 0.4, 8), two = season.step(15, "nitrite", 0.4, 9);
  const auto first = season.look(15).advice.actions.front();
  int edges = 0;
  for (const Reason& r : first.would_change_if)
    if (r.sentence.pattern.starts_with("Had {0} read") && std::ranges::find(r.records, one) != r.records.end()) {
      EXPECT_NE(std::ranges::find(r.records, two), r.records.end());
      ++edges;
    }
  EXPECT_LE(edges, 2);
}

TEST(Edges, TheThermometersHalfDegreeIsOne) {
  SmallSeason season = with_eggs();
  const double red = season.look(14).belief.brood.species->band(biology::LifeStage::eyed_egg).red_above.c();
  const auto id = season.temperature(15, red - 0.2);
  const auto advice = season.look(15).advice;
  EXPECT_NE(edge_of(advice.actions.front(), id, "thermometer"), nullptr);
}

TEST(Edges, StandOnlyOnTheFirstAction) {
  SmallSeason season = with_eggs();
  season.step(15, "nitrite", 0.4);
  season.step(15, "ph", 6.4);
  const auto advice = season.look(15).advice;
  for (std::size_t i = 1; i < advice.actions.size(); ++i)
    for (const Reason& r : advice.actions[i].would_change_if) EXPECT_FALSE(r.sentence.pattern.starts_with("Had "));
}

}  // namespace
}  // namespace redd::advice
