// Small seasons with the advice a careful fish-health manual would give, through the real program; and the format of their files.

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>

#include "scenarios/program.h"
#include "scenarios/scenario.h"

namespace redd::scenarios {
namespace {

namespace fs = std::filesystem;

const fs::path folder = fs::path(REDD_SOURCE_DIR) / "tests/scenarios";

std::vector<fs::path> season_files() {
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(folder / "seasons"))
    if (entry.path().extension() == ".toml") files.push_back(entry.path());
  std::ranges::sort(files);
  return files;
}

std::string test_name(const ::testing::TestParamInfo<fs::path>& info) { return info.param.stem().string(); }

class Seasons : public ::testing::TestWithParam<fs::path> {};

TEST_P(Seasons, AdviseAsAManualWould) {
  const Scenario scenario = read_scenario(GetParam(), folder / "backgrounds");
  Program redd;
  redd.take(scenario.log);
  for (const Ask& ask : scenario.asks)
    for (const std::string& shortfall : shortfalls(ask, redd.today(ask.at, ask.outlook)))
      ADD_FAILURE() << scenario.name << "\n  " << ask.at_text << ": " << shortfall << "\n  (" << scenario.shows << " Source: " << scenario.source << ")";
}

INSTANTIATE_TEST_SUITE_P(, Seasons, ::testing::ValuesIn(season_files()), test_name);

TEST(SeasonFiles, AreManyShortAndEachNamedOnce) {
  std::set<std::string> names;
  for (const fs::path& file : season_files()) {
    const Scenario scenario = read_scenario(file, folder / "backgrounds");
    EXPECT_TRUE(names.insert(scenario.name).second) << scenario.name;
  }
  EXPECT_GE(names.size(), 40U);
}

// --- The format: what can't be meant is refused, so that an expectation can't be missed by a slip of the pen. -----------------

const std::string small = R"(
name = "A"
shows = "B"
source = "common practice, no source"
season = { first_day = "2030-10-07", volume_l = 210, species = "brook_trout", target_c = 8 }
log = [ { on = "Mon 2030-10-07 09:00", ammonia = 0.4, ph_low = 7.2 } ]
[[ask]]
at = "Mon 2030-10-07 12:00"
top = { rule = "weekly_test" }
)";

std::string with(std::string text, const std::string& old_words, const std::string& new_words) {
  const auto at = text.find(old_words);
  EXPECT_NE(at, std::string::npos) << old_words;
  return text.replace(at, old_words.size(), new_words);
}

std::string refusal(const std::string& text) {
  try {
    scenario_from_text(text, folder / "backgrounds");
  } catch (const Refused& refused) {
    return refused.what();
  }
  return "taken";
}

TEST(SeasonFiles, ASmallOneIsTaken) { EXPECT_EQ(refusal(small), "taken"); }

TEST(SeasonFiles, WhatTheFormatDoesNotKnowIsRefused) {
  EXPECT_NE(refusal(with(small, "top =", "tip =")).find("tip"), std::string::npos);
  EXPECT_NE(refusal(with(small, "rule =", "rul =")).find("rul"), std::string::npos);
  EXPECT_NE(refusal(with(small, "rule = \"weekly_test\"", "tone = \"loud\"")).find("loud"), std::string::npos);
  EXPECT_NE(refusal(with(small, "rule = \"weekly_test\"", "deed = \"pray\"")).find("pray"), std::string::npos);
  EXPECT_NE(refusal(with(small, "{ rule = \"weekly_test\" }", "{}")).find("something"), std::string::npos);
  EXPECT_NE(refusal(with(small, "name =", "nmae =")).find("name"), std::string::npos);
  EXPECT_NE(refusal(with(small, "shows =", "note = \"x\"\nshows =")).find("note"), std::string::npos);
  EXPECT_NE(refusal(with(small, "ammonia =", "amonia =")).find("amonia"), std::string::npos);
  EXPECT_NE(refusal(with(small, "[[ask]]", "[ask2]")).find("ask"), std::string::npos);
  EXPECT_NE(refusal(with(small, "volume_l", "volume")).find("volume"), std::string::npos);
}

TEST(SeasonFiles, WhatCantHaveBeenIsRefused) {
  EXPECT_NE(refusal(with(small, "Mon 2030-10-07 09:00", "Tue 2030-10-07 09:00")).find("Mon"), std::string::npos);
  EXPECT_NE(refusal(with(small, "ammonia = 0.4", "ammonia = 0.5")).find("0.5"), std::string::npos);
  EXPECT_NE(refusal(with(small, "ammonia = 0.4, ph_low = 7.2", "seen = \"half_hatched\"")).find("egg"), std::string::npos);
  EXPECT_NE(refusal(with(small, "ammonia = 0.4, ph_low = 7.2", "undo = \"x\"")).find("x"), std::string::npos);
}

// --- The judgement: each expectation can fail. ---------------------------------------------------------------------------------

wire::Json answer() {
  return *wire::parsed(R"({"headline":{"tone":"act","sentence":"S"},"actions":[
    {"rule":"nitrite","tone":"act","deeds":["change_water"],"by":"2031-02-03T21:00:00Z","by_text":"today","what":"Change half of the water.","how_much":"100 L","because":[{"sentence":"Too high."}],"cautions":["Use no salt."]},
    {"rule":"weekly_test","tone":"watch","deeds":["test"],"what":"Test.","how_much":"All six.","because":[{"sentence":"Due."}]}]})");
}

Ask asked(Wanted top) {
  Ask ask;
  ask.top = {std::move(top)};
  return ask;
}

TEST(Shortfalls, NoneWhenAllIsAsExpected) {
  Ask ask = asked({.rule = "ammonia|nitrite", .tone = "act", .deed = "change_water", .does = {"water", "litres|l"}, .says = {"no salt"}, .when = "today", .by = *instant_from_rfc3339("2031-02-03T21:00:00Z")});
  ask.also = {{.rule = "weekly_test"}};
  ask.never = {{.does = {"salt"}}, {.rule = "feeding"}};
  ask.headline = "act|alarm";
  ask.headline_not = "good";
  EXPECT_EQ(shortfalls(ask, answer()), std::vector<std::string>{});
}

TEST(Shortfalls, EachExpectationCanFail) {
  const auto fails = [](const Ask& ask) { return shortfalls(ask, answer()).size() == 1; };
  EXPECT_TRUE(fails(asked({.rule = "weekly_test"})));  // there, but not first
  EXPECT_TRUE(fails(asked({.rule = "nitrite", .tone = "alarm"})));
  EXPECT_TRUE(fails(asked({.deed = "dose"})));
  EXPECT_TRUE(fails(asked({.aim = "animals"})));
  EXPECT_TRUE(fails(asked({.does = {"water", "salt"}})));
  EXPECT_TRUE(fails(asked({.says = {"sugar"}})));
  EXPECT_TRUE(fails(asked({.when = "tomorrow"})));
  EXPECT_TRUE(fails(asked({.by = *instant_from_rfc3339("2031-02-03T20:59:00Z")})));
  Ask ask = asked({.rule = "nitrite"});
  ask.also = {{.rule = "feeding"}};
  EXPECT_TRUE(fails(ask));
  ask.also = {};
  ask.never = {{.says = {"salt"}}};
  EXPECT_TRUE(fails(ask));
  ask.never = {};
  ask.headline = "alarm";
  EXPECT_TRUE(fails(ask));
  ask.headline = "";
  ask.headline_not = "act";
  EXPECT_TRUE(fails(ask));
}

TEST(Shortfalls, SomeThingsAreNeverWell) {
  const Ask ask = asked({.rule = "nitrite"});
  wire::Json medicine = answer(), groundless = answer(), many = answer(), gap = answer();
  medicine["actions"][1]["how_much"] = "A bath in formalin.";
  groundless["actions"][1]["because"] = wire::Json::array();
  gap["actions"][1]["what"] = "Add {0}.";
  for (int i = 0; i < 4; ++i) many["actions"].push_back(many["actions"][1]);
  for (const wire::Json& today : {medicine, groundless, many, gap}) EXPECT_EQ(shortfalls(ask, today).size(), 1U);
}

}  // namespace
}  // namespace redd::scenarios
