// The program itself, as a person at a terminal uses it: each command and each way to get it wrong.
#include "cli/program.h"

#include <cmath>

#include "wire/json.h"

namespace redd::cli {
namespace {

TEST_F(Program, AloneShowsTheWay) {
  EXPECT_TRUE(has(good({}).out, "redd init"));
  EXPECT_TRUE(has(good({"--help"}).out, "calc"));
  EXPECT_TRUE(has(good({"--version"}).out, "redd "));
  EXPECT_TRUE(has(good({"log", "reading", "--help"}).out, "redd log reading"));
  const std::string spanish = good({"log", "count", "--help", "--language", "es"}).out;
  EXPECT_TRUE(has(spanish, "Conteo de animales")) << spanish;
  EXPECT_TRUE(has(spanish, "Uso:")) << spanish;
  EXPECT_FALSE(has(spanish, "who logs this")) << spanish;
}

TEST_F(Program, TellsOfItselfToManAndToShells) {
  const std::string page = good({"manual", "log"}).out;
  EXPECT_TRUE(has(page, ".SS redd log water\\-change")) << page.substr(0, 2000);
  EXPECT_TRUE(has(page, "\\fB\\-\\-dechlorinated\\fR"));
  EXPECT_TRUE(has(good({"manual", "log", "--language", "es"}).out, ".SH NOMBRE"));
  bad({"manual", "poem"}, "poem: There is no such command", 1);
  good({"manual", "--into", (folder / "man").string(), "--date", "2031-02-14"});
  EXPECT_TRUE(has(text_of(folder / "man" / "redd-today.1"), "\"2031-02-14\""));
  EXPECT_TRUE(has(text_of(folder / "man" / "redd.1"), "redd\\-today"));
  EXPECT_TRUE(has(good({"completion", "bash"}).out, "'redd log count 1') printf '%s\\n' 'dead-eggs"));
  bad({"completion", "poem"}, "poem", 2);
}

TEST_F(Program, WrongWordsAreUsageProblems) {
  bad({"nonsense"}, "nonsense", 2);
  bad({"log"}, "redd log --help", 2);
  bad({"log", "poem"}, "redd log --help", 2);
  bad({"today", "--sideways"}, "--sideways", 2);
  bad({"log", "reading", "nitrite", "--between", "0.1"}, "--between", 2);
  bad({"undo"}, "id", 2);
  bad({"undo", "x"}, "id", 2);
  bad({"calc"}, "--list", 2);
}

TEST_F(Program, WhatSomebodyNamedOrTypedIsInNoLanguage) {
  init();
  const auto says = [&](std::vector<std::string> words, const std::string& name) {
    words.insert(words.end(), {"--language", "es"});
    const auto run = redd(words);
    EXPECT_TRUE(has(run.out + run.err, name)) << run.out << run.err;
  };
  // All of these are words the catalogue knows, or numbers that Spanish writes with a comma.
  says({"kit", "show", "Fry"}, "\"Fry\"");
  good({"kit", "use", "dip_strips"});
  says({"bench", "--kit", "Eyed eggs"}, "\"Eyed eggs\"");
  says({"done", "Nitrite"}, "\"Nitrite\"");
  says({"calc", "oxygen_saturation", "1.5"}, "\"1.5\"");
  says({"log", "note", "Fry"}, "Fry");
  says({"today", "--as-of", "1.5"}, "\"1.5\"");
}

TEST_F(Program, WithoutASeasonSaysHowToBegin) {
  for (const std::vector<std::string>& words :
       {std::vector<std::string>{"today"}, {"list"}, {"milestones"}, {"export"}, {"undo", "1"}, {"log", "note", "x"}})
    bad(words, "redd init");
  EXPECT_TRUE(has(good({"kit", "list"}).out, "Templates"));
}

TEST_F(Program, AnAssumedEggDayIsSaidUntilItIsSet) {
  init();
  const auto says = [&] { return has(good({"today", "--quick", "--json"}).out, "arrive is not known"); };
  EXPECT_FALSE(says());
  good({"correct", "1", "--egg-day", day(20), "--egg-day-assumed"});
  EXPECT_TRUE(says());
  good({"correct", "2", "--egg-day", day(21)});
  EXPECT_FALSE(says());
}

TEST_F(Program, ASeasonIsSetUpOnce) {
  init();
  EXPECT_TRUE(fs::exists(folder / "data/season.redd"));
  bad({"init", "--name", "Second", "--time-zone", "UTC", "--first-day", day(-3), "--volume", "100L", "--species",
       "coho", "--target", "8C"},
      "already");
  good({"init", "--data", file("other"), "--name", "Second", "--time-zone", "UTC", "--first-day", day(-3), "--volume",
        "26gal", "--species", "coho", "--target", "46F"});
  EXPECT_TRUE(fs::exists(folder / "other/season.redd"));
}

TEST_F(Program, AWrongSetUpNamesTheFlagAndLeavesNoFile) {
  const auto with = [&](const char* flag, const std::string& value) {
    std::vector<std::string> words{"init",     "--name", "T",         "--time-zone", "UTC",      "--first-day", day(-3),
                                   "--volume", "100L",   "--species", "coho",        "--target", "8C"};
    const auto at = std::ranges::find(words, flag);
    if (at != words.end())
      *(at + 1) = value;
    else
      words.insert(words.end(), {flag, value});
    return words;
  };
  bad(with("--species", "moon_trout"), "--species");
  bad(with("--time-zone", "America/Denvr"), "--time-zone");
  bad(with("--volume", "100"), "--volume");
  bad(with("--volume", "-5L"), "--volume");
  bad(with("--target", "200C"), "--target");
  bad(with("--first-day", "2031-02-30"), "--first-day");
  bad(with("--egg-day", day(-10)), "--egg-day");
  bad({"init", "--name", "T"}, "--volume");
  EXPECT_FALSE(fs::exists(folder / "data/season.redd"));
}

TEST_F(Program, EveryKindCanBeLogged) {
  init();
  use_kit();
  good({"log", "source-water", "tap", "--name", "Tap water", "--ph", "7.2", "--alkalinity", "3dH",
        "--chlorine-mg-per-l", "0.8", "--chloramine"});
  good({"log", "reading", "nitrite", "--step", "0.1"});
  good({"log", "reading", "--test", "nitrite", "--between", "0.1", "0.25", "--kit", "card", "--team", "Otter"});
  good({"log", "reading", "nitrite", "--below"});
  good({"log", "reading", "nitrite", "--above"});
  good({"log", "reading", "kh", "--drops", "7"});
  good({"log", "reading", "ph", "--number", "7.4"});
  good({"log", "temperature", "8.4C"});
  good({"log", "temperature", "-2C", "--place", "room"});
  good({"log", "water-change", "20L", "--dechlorinated", "--vacuumed", "--source-water", "tap", "--new-water", "50F"});
  good({"log", "water_change", "5gal"});
  good({"log", "dose", "sodium-bicarbonate", "12g"});
  good({"log", "set-point", "46F"});
  good({"log", "egg-receipt", "100", "--start", "thermal-sum", "--thermal-sum", "250Cdays", "--origin", "farmed"});
  good({"log", "count", "dead-eggs", "3", "--author", "Team Otter"});
  good({"log", "count", "swum-up", "20"});
  good({"log", "feeding", "0.5g"});
  good({"log", "filter-work", "rinsed", "--fraction", "0.3"});
  good({"log", "equipment", "chiller", "failed"});
  good({"log", "milestone", "first-eyes", "--not-seen"});
  good({"log", "note", "Water", "looks", "cloudy"});
  good({"log", "release", "40", "Cold Creek", "--tank", "9C", "--site", "10C"});
  good({"log", "note", "--json", R"({"text":"as JSON"})"});
  const auto rows = wire::parsed(good({"list", "--all", "--json"}).out);
  ASSERT_TRUE(rows.has_value());
  EXPECT_EQ((*rows)["records"].size(), 25u);
  EXPECT_TRUE(has(good({"list", "--kind", "milestone"}).out, "Milestone") ||
              has(good({"list", "--kind", "milestone"}).out, "ilestone"));
  EXPECT_FALSE(has(good({"list", "--kind", "milestone"}).out, "cloudy"));
  EXPECT_NE(good({"today"}).out, "");
  EXPECT_NE(good({"milestones"}).out, "");
  EXPECT_TRUE(wire::parsed(good({"today", "--json"}).out).has_value());
  EXPECT_TRUE(wire::parsed(good({"milestones", "--json"}).out).has_value());
  EXPECT_NE(good({"feed", "--quick"}).out, "");
  EXPECT_TRUE(wire::parsed(good({"feed", "--json"}).out).has_value());
}

TEST_F(Program, WrongRecordsNameTheFlagAndKeepNothing) {
  init();
  bad({"log", "reading", "nitrite", "--step", "0.1"}, "--kit");
  use_kit();
  const std::string before = good({"list", "--all"}).out;
  bad({"log", "reading", "nitrate", "--step", "5"}, "--test");
  bad({"log", "reading", "nitrate", "--step", "5", "--kit", "card"}, "--test");
  bad({"log", "reading", "nitrite", "--step", "0.17"}, "0.25");
  bad({"log", "reading", "nitrite", "--between", "0.1", "0.3"}, "--between");
  bad({"log", "reading", "nitrite"}, "--step");
  bad({"log", "reading", "nitrite", "--step", "0.1", "--drops", "3"}, "--drops");
  bad({"log", "reading", "ph", "--number", "15"}, "14");
  bad({"log", "reading", "kh", "--drops", "-3"}, "--drops");
  bad({"log", "temperature", "8"}, "8C");
  bad({"log", "temperature", "200C"}, "--temperature");
  bad({"log", "temperature"}, "--temperature");
  bad({"log", "water-change", "20l", "--source-water", "moon"}, "--source-water");
  bad({"log", "count", "dead-unicorns", "3"}, "--what");
  bad({"log", "note", "x", "--at", day(-60)}, "--at");
  bad({"log", "note", "x", "--at", day(30)}, "--at");
  bad({"log", "note", "x", "--at", "25:00"}, "--at");
  bad({"log", "note", "x", "--author", std::string(65, 'a')}, "--author");
  bad({"log", "note", "--json", "{"}, "JSON");
  bad({"log", "note", "x", "--json", "{}"}, "--json");
  bad({"correct", "2", "--drops", "3"}, "--drops");
  bad({"correct", "99", "--at", "07:50"}, "99");
  bad({"correct", "2"}, "redd correct 2");
  bad({"undo", "99"}, "99");
  bad({"list", "--kind", "poem"}, "--kind");
  bad({"today", "--as-of", "soon"}, "--as-of");
  bad({"today", "--as-of", day(3)}, "--as-of");
  bad({"today", "--as-of", day(-60)}, "--as-of");
  EXPECT_EQ(good({"list", "--all"}).out, before);
}

TEST_F(Program, ARecordIsCorrectedAndTakenBack) {
  init();
  use_kit();
  good({"log", "reading", "nitrite", "--between", "0.1", "0.25", "--team", "Otter"});
  good({"correct", "3", "--step", "0.25"});
  const auto rows = wire::parsed(good({"list", "--json"}).out).value()["records"];
  EXPECT_EQ(rows[0]["supersedes"], 3);
  EXPECT_EQ(rows[0]["body"]["form"], "step");
  EXPECT_EQ(rows[0]["body"]["team"], "Otter") << "what was not typed stays";
  EXPECT_EQ(rows[1]["status"], "corrected");
  EXPECT_EQ(rows[0]["at"], rows[1]["at"]) << "the time stays";
  bad({"correct", "3", "--step", "0.1"}, "3");
  good({"undo", "4"});
  EXPECT_EQ(wire::parsed(good({"list", "--json"}).out).value()["records"][2]["status"], "current");
  bad({"undo", "4"}, "4");
}

TEST_F(Program, AnswersInTheReadersLanguageAndUnits) {
  const auto spanish = redd({"--demo", "milestones", "--language", "es", "--units", "us"});
  EXPECT_EQ(spanish.code, 0) << spanish.err;
  EXPECT_TRUE(has(spanish.out, "Suma térmica hasta ahora")) << spanish.out;
  EXPECT_TRUE(has(spanish.out, "unidades °F")) << spanish.out;
  EXPECT_TRUE(has(redd({"today", "--language", "es"}).err, "Todavía no hay temporada"));
  EXPECT_EQ(redd({"today", "--language", "fr"}).code, 2);
  EXPECT_EQ(redd({"today", "--units", "stone"}).code, 2);
}

TEST_F(Program, AnEmergencyIsAnsweredAtOnce) {
  init();
  const Ran all = good({"emergency"});
  for (const char* key : {"power-cut", "chiller-failed", "chiller-stuck-on", "socket-tripped", "heater-stuck", "lid-off", "chlorine-added", "gas-supersaturated", "sudden-deaths"})
    EXPECT_TRUE(has(all.out, key)) << key;
  EXPECT_TRUE(has(good({"emergency", "power-cut"}).out, "How long it holds"));
  EXPECT_EQ(good({"emergency", "power_cut"}).out, good({"emergency", "power-cut"}).out);
  EXPECT_EQ(wire::parsed(good({"emergency", "--json"}).out).value()["kinds"].size(), 9u);
  EXPECT_EQ(wire::parsed(good({"emergency", "lid-off", "--json"}).out).value()["key"], "lid_off");
  EXPECT_TRUE(has(good({"emergency", "--card"}).out, "Egg supplier ____"));
  bad({"emergency", "fire"}, "socket-tripped");
  bad({"emergency", "power-cut", "--card"}, "--card");
  // A failure in the log comes first there, and its first step is today's advice.
  good({"log", "equipment", "power", "failed"});
  const Ran failed = good({"emergency"});
  EXPECT_TRUE(has(failed.out, "power-cut  (logged as happening now)")) << failed.out;
  EXPECT_TRUE(has(good({"today"}).out, "All steps:"));
}

TEST_F(Program, AdviceIsAnsweredByNumberOrKey) {
  init();
  use_kit();
  const auto day_now = [&] { return wire::parsed(good({"today", "--json"}).out).value(); };
  const std::string first = day_now()["actions"][0]["key"];
  EXPECT_TRUE(has(good({"today"}).out, "key: " + first));
  EXPECT_TRUE(has(good({"later", "1", "--until", day(3), "--remark", "No reagent left"}).out, "Kept as record"));
  EXPECT_EQ(day_now()["put_aside"][0]["key"], first);
  EXPECT_EQ(day_now()["put_aside"][0]["answer"]["answer"], "not_now");
  EXPECT_TRUE(has(good({"today", "--all"}).out, "Put aside"));
  good({"skip", first});
  EXPECT_EQ(day_now()["put_aside"][0]["answer"]["answer"], "skipped");
  bad({"done", "77"}, "no action 77");
  bad({"done", "no_such_thing"}, first);
  bad({"later", first, "--until", "soon"}, "--until");
  bad({"later", first, "--until", day(-3)}, "--until");
  bad({"done", first, "--until", day(3)}, "--until", 2);
  good({"log", "equipment", "chiller", "failed"});
  good({"done", "equipment/chiller"});
  EXPECT_TRUE(has(good({"list"}).out, "equipment/chiller") || has(good({"list"}).out, "chiller"));
}

TEST_F(Program, NumbersAreThoseOfTheListLastShown) {
  // In the demo on that evening the list with the filter's outlook and the one without it are not the same.
  const std::vector<std::string> quick{"--demo", "--as-of", "2030-11-05", "today", "--quick", "--all"}, whole{"--demo", "--as-of", "2030-11-05", "today", "--all"};
  const auto keys_of = [&](std::vector<std::string> words) {
    std::vector<std::string> keys;
    words.push_back("--json");
    const wire::Json seen = wire::parsed(good(words).out).value();
    for (const auto& action : seen["actions"]) keys.push_back(action["key"]);
    return keys;
  };
  const auto without = keys_of(quick), with = keys_of(whole);
  std::size_t apart = 0;
  while (apart < std::min(without.size(), with.size()) && without[apart] == with[apart]) ++apart;
  ASSERT_LT(apart, std::min(without.size(), with.size())) << "the two lists must differ for this to show anything";
  const auto skip = [&] { return good({"--demo", "--as-of", "2030-11-05", "skip", std::to_string(apart + 1)}).out; };
  const auto newest = [&] { return wire::parsed(good({"--demo", "--as-of", "2030-11-05", "list", "--kind", "advice-answer", "--json"}).out).value().dump(); };
  good(quick);
  skip();
  EXPECT_TRUE(has(newest(), without[apart])) << newest();
  EXPECT_FALSE(has(newest(), with[apart])) << newest();
  bad({"--demo", "--as-of", "2030-11-05", "skip", "99"}, "there are " + std::to_string(without.size()));
}

TEST_F(Program, AnsweringOneLeavesTheNumbersOfTheOthers) {
  init();
  use_kit();
  std::vector<std::string> keys;
  const wire::Json asked = wire::parsed(good({"today", "--quick", "--json"}).out).value();
  for (const auto& action : asked["actions"]) keys.push_back(action["key"]);
  ASSERT_GE(keys.size(), 2U);
  good({"today", "--quick"});
  good({"later", "1"});
  good({"later", "2"});
  std::vector<std::string> aside;
  const wire::Json answered = wire::parsed(good({"today", "--json"}).out).value();
  for (const auto& action : answered["put_aside"]) aside.push_back(action["key"]);
  EXPECT_NE(std::ranges::find(aside, keys[0]), aside.end());
  EXPECT_NE(std::ranges::find(aside, keys[1]), aside.end()) << "number 2 is still what it was when it was read";
}

TEST_F(Program, KitsComeFromFilesAndAreChecked) {
  init();
  const auto text = good({"kit", "template", "drop_and_card"}).out;
  std::ofstream(folder / "my.toml") << text;
  good({"kit", "check", file("my.toml")});
  good({"kit", "use", file("my.toml")});
  EXPECT_EQ(good({"kit", "show", "drop_and_card"}).out, text);
  EXPECT_TRUE(has(good({"kit", "list"}).out, "In use"));
  bad({"kit", "check", file("missing.toml")}, "missing.toml");
  bad({"kit", "check", folder.string()}, "folder");
  std::ofstream(folder / "bad.toml")
      << "key = \"x\"\nname = \"x\"\n[[tests]]\nkey = \"a\"\nquantity = \"nitrite\"\nmethod = \"colour_steps\"\nunit = "
         "\"mg_no3_per_l\"\nsteps = [1, 0.5]\n";
  bad({"kit", "use", file("bad.toml")}, "test 1, unit");
  bad({"kit", "template", "moon"}, "drop_and_card");
  bad({"kit", "show", "moon"}, "drop_and_card");
  good({"kit", "check", "-"}, text);
}

TEST_F(Program, ATableIsShownBeforeItIsKept) {
  init();
  use_kit();
  std::ofstream(folder / "t.csv") << "time,temperature C\n"
                                  << day(-2) << " 08:00,8.4\n"
                                  << day(-2) << " 09:00,8.5\n"
                                  << day(-2) << " 10:00,8.4\n";
  const Ran shown = redd({"import", "temperatures", file("t.csv")});
  EXPECT_EQ(shown.code, 1);
  EXPECT_TRUE(has(shown.out, "--unit")) << shown.out;
  EXPECT_TRUE(has(shown.err, "--yes")) << shown.err;
  EXPECT_EQ(wire::parsed(good({"list", "--json"}).out).value()["records"].size(), 2u);
  const Ran kept =
      redd({"import", "temperatures", file("t.csv"), "--yes", "--time-zone", "America/Denver", "--unit", "c"});
  EXPECT_EQ(kept.code, 0) << kept.err << kept.out;
  const auto count = wire::parsed(good({"list", "--all", "--json"}).out).value()["records"].size();
  EXPECT_GT(count, 2u);
  good({"import", "temperatures", file("t.csv"), "--yes", "--time-zone", "America/Denver", "--unit", "c"});
  EXPECT_EQ(wire::parsed(good({"list", "--all", "--json"}).out).value()["records"].size(), count)
      << "again adds nothing";
  bad({"import", "temperatures", file("t.csv"), "--unit", "kelvin"}, "--unit");
  bad({"import", "temperatures", file("missing.csv")}, "missing.csv");
  bad({"import", "temperatures", file("t.csv"), "--column", "oops"}, "--column");
}

/// A command line as a shell splits it: spaces divide, double quotes hold together.
std::vector<std::string> shell_words(const std::string& line) {
  std::vector<std::string> words;
  bool quoted = false, inside = false;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const char c = line[i];
    if (c == '"') {
      quoted = !quoted;
    } else if (c == ' ' && !quoted) {
      inside = false;
      continue;
    }
    if (!inside) words.emplace_back();
    inside = true;
    if (c == '"') continue;
    words.back() += c == '\\' && quoted && i + 1 < line.size() ? line[++i] : c;
  }
  return words;
}

TEST_F(Program, EveryFlagAPreviewNamesCanBeTyped) {
  init();
  good({"kit", "use", "drop_and_card"});
  const std::string at = day(-2);
  const std::vector<std::pair<std::string, std::string>> files{
      {"readings", "date,ammonia,pH,Free \"nitrite\" (mg/L),Nitrite (mg/L),water temp\n" + at + " 08:00,0,6.8,1,0.3,8.1\n"},
      {"readings", "date,test,value\n" + at + ",pH,6.8\n" + at + ",kh,5\n" + at + ",temperature,8.1\n"},
      {"temperatures", "Time,Water temp,Air temp\n" + at + " 08:00,8.1,20\n" + at + " 09:00,8.2,21\n"}};
  for (const auto& [what, text] : files) {
    std::ofstream(folder / "t.csv") << text;
    const Ran shown = redd({"import", what, file("t.csv")});
    EXPECT_EQ(shown.code, 1) << shown.out;
    EXPECT_TRUE(has(shown.out, "OPEN")) << shown.out;
    const std::string help = good({"import", what, "--help"}).out;
    for (const std::string& said : {shown.out, shown.err})
      for (std::size_t i = said.find("--"); i != std::string::npos; i = said.find("--", i + 2)) {
        const std::size_t end = said.find_first_not_of("abcdefghijklmnopqrstuvwxyz-", i);
        EXPECT_TRUE(has(help, said.substr(i, end - i) + " ")) << said.substr(i, end - i) << "\n" << said;
      }
    std::vector<std::string> words{"import", what, file("t.csv"), "--yes"};
    std::istringstream lines(shown.out);
    for (std::string line; std::getline(lines, line);) {
      if (!line.starts_with("  --")) continue;
      std::ranges::copy(shell_words(line.substr(2, line.find("  ", 2) - 2)), std::back_inserter(words));
    }
    const Ran kept = redd(words);
    EXPECT_EQ(kept.code, 0) << kept.err << kept.out;
    EXPECT_TRUE(has(kept.out, "as you said")) << kept.out;
    EXPECT_FALSE(has(kept.out, "likely")) << kept.out;
    EXPECT_FALSE(has(kept.out, "OPEN")) << kept.out;
  }
}

TEST_F(Program, RefusalsSpeakNoJson) {
  init();
  use_kit();
  good({"log", "note", "hello"});
  good({"undo", "3"});
  for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
           {"undo", "3"}, {"undo", "1"}, {"correct", "3", "--at", "07:50"}}) {
    const Ran ran = redd(words);
    EXPECT_EQ(ran.code, 1) << ran.out;
    EXPECT_FALSE(has(ran.err, ": /")) << ran.err;
    EXPECT_FALSE(has(ran.err, "redd: /")) << ran.err;
  }
  EXPECT_TRUE(has(good({"undo", "4"}).out, "Record 3 counts again."));
  EXPECT_TRUE(has(good({"undo", "5"}).out, "Record 3 no longer counts"));
  good({"log", "note", "one", "--entry-key", "k"});
  bad({"log", "note", "two", "--entry-key", "k"}, "--entry-key");
}

TEST_F(Program, AMomentIsWrittenAsAfterAt) {
  EXPECT_TRUE(has(good({"--demo", "today", "--as-of", "2031-03-10 07:45"}).out, "Monday 10 March 2031"));
  bad({"--demo", "today", "--as-of", "2031-03-10 25:00"}, "--as-of");
}

TEST_F(Program, BeforeTheSetUpWasWrittenNothingWasLogged) {
  init();
  bad({"today", "--as-of", day(-3)}, "nothing was logged before that moment");
  bad({"today", "--as-of", day(-60)}, "the season starts on " + day(-30));
}

TEST_F(Program, AKitThatLosesATestInUseSaysSo) {
  init();
  use_kit();
  good({"log", "reading", "nitrite", "--step", "0.25"});
  std::string text = text_of(kit());
  text.replace(text.find("0.25"), 4, "0.3");
  std::ofstream(folder / "kit.json") << text;
  const Ran used = redd({"kit", "use", kit()});
  EXPECT_EQ(used.code, 0);
  EXPECT_TRUE(has(used.err, "nitrite")) << used.err;
  EXPECT_TRUE(has(used.err, "1 older reading ")) << used.err;
  EXPECT_EQ(good({"undo", "4"}).err, "") << "bringing it back loses nothing";
}

TEST_F(Program, BadRowsAreNamedAndKeptOutOnlyOnRequest) {
  init();
  use_kit();
  std::ofstream(folder / "r.csv") << "date,test,value\n" << day(-2) << ",kh,7\n" << day(-2) << ",kh,many\n";
  const std::vector<std::string> words{"import", "readings",     file("r.csv"), "--kit",         "card",
                                       "--yes",  "--drop-cells", "drops",       "--time-of-day", "08:00"};
  const Ran refused = redd(words);
  EXPECT_EQ(refused.code, 1);
  EXPECT_TRUE(has(refused.out, "line 3")) << refused.out << refused.err;
  EXPECT_TRUE(has(refused.err, "--keep-good-rows")) << refused.err;
  auto more = words;
  more.push_back("--keep-good-rows");
  const Ran kept = redd(more);
  EXPECT_EQ(kept.code, 0) << kept.err << kept.out;
}

TEST_F(Program, ASeasonGoesOutAsTablesAndComesBackTheSame) {
  init();
  use_kit();
  good({"log", "reading", "nitrite", "--step", "0.1"});
  good({"log", "note", "=1+1, said \"Team Otter\""});
  const std::string text = good({"export"}).out;
  good({"export", "--csv", file("tables")});
  EXPECT_TRUE(has(text_of(folder / "tables/data/note.csv"), "'=1+1")) << text_of(folder / "tables/data/note.csv");
  bad({"export", "--csv", file("tables")}, "--force");
  good({"export", "--csv", file("tables"), "--force"});
  good({"export", "--csv", file("tables.zip")});
  for (const char* from : {"tables", "tables.zip"}) {
    const std::string into = file((std::string("from-") + from).c_str());
    good({"import", "season", file(from), "--data", into});
    EXPECT_EQ(good({"export", "--data", into}).out, text) << from;
  }
  std::filesystem::remove(folder / "tables/data/reading.csv");
  bad({"import", "season", file("tables"), "--data", file("third")}, "data/reading.csv");
  bad({"import", "season", file("no such folder"), "--data", file("third")}, "no such folder");
  bad({"export", "--csv", file("tables/data/note.csv")}, "note.csv");
}

TEST_F(Program, NextYearSaysWhatIsNotKnown) {
  init();
  const std::string text = good({"next-year"}).out;
  EXPECT_TRUE(has(text, "Was the filter ready for the eggs? Not known.")) << text;
  EXPECT_TRUE(has(good({"next-year", "--json"}).out, "\"readiness\""));
}

TEST_F(Program, TheTestsGoOutAsTheLongTableOfAgencies) {
  init();
  use_kit();
  good({"log", "reading", "nitrite", "--step", "0.1"});
  const std::string text = good({"export", "--wqx", "-", "--organization", "ORG1"}).out;
  EXPECT_TRUE(has(text, "ORG1,REDD-")) << text;
  EXPECT_TRUE(has(text, ",Nitrite,")) << text;
  good({"export", "--wqx", file("water.csv"), "--organization", "ORG1"});
  EXPECT_EQ(text_of(folder / "water.csv"), text);
  bad({"export", "--wqx", file("water.csv")}, "--force");
}

TEST_F(Program, ASeasonGoesOutAndComesBackTheSame) {
  init();
  use_kit();
  good({"log", "reading", "nitrite", "--step", "0.1"});
  good({"undo", "3"});
  const std::string text = good({"export"}).out;
  good({"export", file("season.json")});
  EXPECT_EQ(text_of(folder / "season.json"), text);
  bad({"export", file("season.json")}, "--force");
  good({"export", file("season.json"), "--force"});
  bad({"export", file("no/such/folder.json")}, "folder.json");
  good({"import", "season", file("season.json"), "--data", file("restored")});
  EXPECT_EQ(good({"export", "--data", file("restored")}).out, text);
  // The same season again adds nothing; continued elsewhere it comes back; another one is refused.
  EXPECT_NE(good({"import", "season", file("season.json")}).out.find("0 records"), std::string::npos);
  good({"log", "reading", "nitrite", "--step", "0.25", "--data", file("restored")});
  good({"export", file("longer.json"), "--data", file("restored")});
  EXPECT_NE(good({"import", "season", file("longer.json")}).out.find("1 records"), std::string::npos);
  EXPECT_EQ(good({"export"}).out, text_of(folder / "longer.json"));
  good({"init", "--name", "Another", "--data", file("another"), "--first-day", day(-3), "--volume", "100L", "--species", "coho", "--target", "8C", "--time-zone", "UTC"});
  good({"export", file("another.json"), "--data", file("another")});
  bad({"import", "season", file("another.json")}, "another season");
  std::ofstream(folder / "broken.json") << text.substr(0, text.size() / 2);
  bad({"import", "season", file("broken.json"), "--data", file("third")}, "JSON");
  EXPECT_FALSE(fs::exists(folder / "third/season.redd"));
}

TEST_F(Program, TheEditionInOneFileIsWritten) {
  good({"edition", file("redd.html")});
  EXPECT_NE(text_of(folder / "redd.html").find("id=\"redd-core\""), std::string::npos);
  bad({"edition", file("redd.html")}, "--force");
}

TEST_F(Program, ThePlanIsWrittenAsACalendar) {
  const std::string text = good({"--demo", "--as-of", "2031-01-30", "plan", "--ics", "-"}).out;
  EXPECT_TRUE(text.starts_with("BEGIN:VCALENDAR\r\n"));
  EXPECT_TRUE(text.ends_with("END:VCALENDAR\r\n"));
  EXPECT_TRUE(has(good({"--demo", "--as-of", "2031-01-30", "plan", "--ics", file("plan.ics")}).out, "plan.ics"));
  EXPECT_EQ(text_of(folder / "plan.ics"), text);
  bad({"--demo", "plan", "--ics", file("plan.ics")}, "--force");
  good({"--demo", "plan", "--ics", file("plan.ics"), "--force"});
  bad({"--demo", "plan", "--ics", file("no/such/plan.ics")}, "plan.ics");
  EXPECT_TRUE(has(good({"--demo", "--as-of", "2031-01-30", "plan", "--ics", "-", "--closures"}).out, "Winter week"));
  EXPECT_EQ(redd({"--demo", "plan", "--ics", "-", "--json"}).code, 2);
  EXPECT_EQ(redd({"--demo", "plan", "--closures"}).code, 2) << "closures of what";
}

TEST_F(Program, AListOfDaysIsACalendarToo) {
  init();
  std::ofstream(folder / "days.txt") << day(20) << " to " << day(24) << ", Winter week\n11 November, Staff day\n";
  const Ran refused = redd({"import", "calendar", file("days.txt"), "--yes"});
  EXPECT_EQ(refused.code, 1);
  EXPECT_TRUE(has(refused.out, "line 2")) << refused.out;
  EXPECT_TRUE(has(good({"import", "calendar", file("days.txt"), "--yes", "--keep-good-rows"}).out, "1 records added"));
  EXPECT_TRUE(has(good({"import", "calendar", file("days.txt"), "--yes", "--keep-good-rows"}).out, "0 records added"));
}

TEST_F(Program, ADamagedOrForeignFileIsLeftAlone) {
  fs::create_directories(folder / "data");
  std::ofstream(folder / "data/season.redd") << "this is no season at all";
  const std::string before = text_of(folder / "data/season.redd");
  for (const std::vector<std::string>& words :
       {std::vector<std::string>{"today"}, {"log", "note", "x"}, {"init", "--name", "x"}, {"serve", "--port", "7000"}})
    bad(words, "season.redd");
  EXPECT_EQ(text_of(folder / "data/season.redd"), before);
}

TEST_F(Program, FormulasAnswerByTheContract) {
  const auto answer = wire::parsed(good({"calc", "un_ionized_ammonia", "temperature_c=10", "ph=8", "--json"}).out);
  ASSERT_TRUE(answer.has_value());
  EXPECT_EQ((*answer)["name"], "un_ionized_ammonia");
  EXPECT_EQ((*answer)["inputs"]["temperature_c"], 10.0);
  // Emerson et al. 1975, their equation 6 at 10 C: pKa = 0.09018 + 2729.92/283.15 (from memory of the printed
  // constants).
  EXPECT_NEAR((*answer)["outputs"]["un_ionized_fraction"].get<double>(),
              1 / (1 + std::pow(10, 0.09018 + 2729.92 / 283.15 - 8)), 1e-4);
  EXPECT_EQ((*answer)["in_range"], true);
  EXPECT_TRUE((*answer)["source"].is_string());
  EXPECT_TRUE(has(good({"calc", "un_ionized_ammonia", "temperature_c=10", "ph=8"}).out, "un_ionized_fraction"));
  EXPECT_TRUE(has(good({"calc", "--list"}).out, "oxygen_saturation"));
  EXPECT_TRUE(wire::parsed(good({"calc", "--list", "--json"}).out).has_value());
  bad({"calc", "nope"}, "oxygen_saturation");
  bad({"calc", "oxygen_saturation", "temperature_c=warm"}, "temperature_c");
  bad({"calc", "oxygen_saturation", "temp=8"}, "temp");
  bad({"calc", "oxygen_saturation", "8"}, "key=value");
  bad({"calc", "oxygen_saturation"}, "temperature_c");
  EXPECT_EQ(redd({"calc", "nope", "--json"}).out, "") << "errors go to stderr";
}

TEST_F(Program, TheEngineAnswersALineAQuestion) {
  EXPECT_EQ(good({"engine"}, "{\"ping\":1}\n\nnonsense\n").out.substr(0, 11), "{\"pong\":1}\n");
}

TEST_F(Program, HeatAnswersForTheTankAsItIsDescribed) {
  init();
  EXPECT_TRUE(has(good({"heat"}).out, "not on record"));
  const std::vector<std::string> build{"log", "tank-build", "--length", "100cm", "--width", "50cm", "--water-height", "42cm", "--wall", "glass", "--lid", "sheet",
                                       "--pump", "14W", "--room-day", "20.5C", "--chiller-cooling", "150W"};
  good(build);
  EXPECT_TRUE(has(good({"heat", "--target", "9C", "--room", "27C"}).out, "Never reached"));
  auto strong = build;
  strong.back() = "1500W";
  good(strong);
  const auto told = wire::parsed(good({"heat", "--target", "48.2F", "--room", "27C", "--humidity", "70", "--json"}).out);
  ASSERT_TRUE(told.has_value());
  EXPECT_EQ((*told)["hold"]["state"], "held");
  EXPECT_NEAR((*told)["target_c"].get<double>(), 9.0, 1e-9);
  EXPECT_EQ((*told)["damp"]["humidity_fraction"], 0.7);
  bad({"heat", "--target", "9"}, "--target");
  bad({"heat", "--room", "300C"}, "--room");
  bad({"heat", "--humidity", "3"}, "--humidity");
}

TEST_F(Program, CountsSaysHowManyLiveAndTakesASample) {
  init();
  EXPECT_TRUE(has(good({"counts"}).out, "No eggs have been received"));
  good({"log", "egg-receipt", "--count", "200", "--start", "eyed"});
  good({"log", "count", "--what", "dead-eggs", "--count", "2"});
  good({"log", "count", "--what", "alive", "--count", "48", "--method", "sampled", "--looked-at-fraction", "0.25"});
  EXPECT_TRUE(has(good({"counts"}).out, "200 received, 2 found dead"));
  const auto told = wire::parsed(good({"counts", "--json"}).out);
  ASSERT_TRUE(told.has_value());
  EXPECT_NEAR((*told)["counts"][0]["mid"].get<double>(), 192.0, 1e-9);
  bad({"log", "count", "--what", "alive", "--count", "48", "--method", "sampled"}, "what part");
  bad({"log", "count", "--what", "dead-eggs", "--count", "4", "--method", "sampled", "--looked-at-fraction", "0.5"}, "taken out");
}

TEST_F(Program, WaterPlansChangesAndTriesOne) {
  init();
  EXPECT_TRUE(has(good({"water", "--quick"}).out, "What this rests on"));
  const auto plan = wire::parsed(good({"water", "--quick", "--json"}).out);
  ASSERT_TRUE(plan.has_value());
  EXPECT_EQ((*plan)["alternatives"].size(), 3u);
  EXPECT_TRUE(has(good({"water", "--quick", "--change", "30 %", "--temp", "48F"}).out, "Before, just after, the day after"));
  const auto tried = wire::parsed(good({"water", "--quick", "--change", "10gal", "--vacuum", "--straight-from-tap", "--with-chlorine", "--json"}).out);
  ASSERT_TRUE(tried.has_value());
  EXPECT_NEAR((*tried)["change"]["volume_l"].get<double>(), 37.85, 0.01);
  EXPECT_TRUE(has((*tried)["warnings"][0].get<std::string>(), "Not dechlorinated"));
  bad({"water", "--change", "130 %"}, "--change");
  bad({"water", "--change", "30"}, "--change");
  bad({"water", "--change", "20%", "--temp", "9"}, "--temp");
  bad({"water", "--change", "20%", "--source", "pond"}, "pond");
  bad({"water", "--vacuum"}, "--change");
}

TEST_F(Program, LoadingTellsBySizeAndDayWhatTheTankCarries) {
  init();
  good({"log", "tank-build", "--length", "100cm", "--width", "50cm", "--water-height", "42cm", "--air-l-per-min", "4", "--flow-l-per-min", "12"});
  const auto told = wire::parsed(good({"loading", "--json"}).out);
  ASSERT_TRUE(told.has_value());
  EXPECT_EQ((*told)["oxygen"]["air"], "on_record");
  EXPECT_EQ((*told)["sizes"].size(), 7u);
  EXPECT_TRUE(has(good({"loading", "--quick"}).out, "By size"));
}

TEST_F(Program, AGuessIsKeptOnlyWhileItCanCount) {
  init();
  good({"log", "temperature", "8C"});
  bad({"lessons", "--answers"}, "--level", 2);
  bad({"lessons", "--sheet", "1000"}, "--sheet", 2);
  const auto open = [&] { return wire::parsed(good({"lessons", "--json"}).out).value()["game"]["open"].at(0); };
  const std::string key = open()["key"], before = good({"list", "--all"}).out;
  bad({"log", "guess", "temperature/2031-01-01", "Team Otter", "--low", "7", "--high", "8"}, "--question");
  bad({"log", "guess", key, "Team Otter", "--chips", "4 6"}, "--low");
  EXPECT_EQ(good({"list", "--all"}).out, before);
  good({"export"});
  good({"log", "guess", key, "Team Otter", "--low", "7", "--high", "8"});
  bad({"log", "guess", key, "Team Heron", "--low", "45", "--high", "47", "--units", "us"}, "lacks its unit");
  good({"log", "guess", key, "Team Heron", "--low", "45F", "--high", "8C", "--units", "us"});
  EXPECT_TRUE(has(redd({"export"}).err, "still hidden from the class"));
  EXPECT_TRUE(has(redd({"export"}).out, "\"low\":7"));  // and yet nothing is left out
  EXPECT_TRUE(has(redd({"export"}).out, "\"low\":7.2222"));
  EXPECT_EQ(open()["teams_in"], wire::Json::array({"Team Heron", "Team Otter"}));
}

TEST_F(Program, BenchLaysOutTheNextSitting) {
  init();
  bad({"bench"}, "No kit");
  use_kit();
  EXPECT_TRUE(has(good({"bench"}).out, "3 tests with one pair of hands"));
  const auto told = wire::parsed(good({"bench", "--hands", "2", "--tests", "kh,ph", "--json"}).out);
  ASSERT_TRUE(told.has_value());
  EXPECT_EQ((*told)["turns"].size(), 2U);
  bad({"bench", "--tests", "nope"}, "nope");
  bad({"bench", "--kit", "nope"}, "nope");
  bad({"bench", "--hands", "3"}, "--hands", 2);
  EXPECT_TRUE(has(good({"--demo", "bench"}).out, "All read."));
}

TEST_F(Program, TheDemoStandsReadyForEveryLook) {
  EXPECT_TRUE(has(good({"--demo", "today"}).out, "INVENTED"));
  EXPECT_TRUE(fs::exists(folder / "data/demo.redd"));
  EXPECT_FALSE(fs::exists(folder / "data/season.redd"));
  good({"--demo", "milestones"});
  EXPECT_TRUE(has(good({"--demo", "counts", "--as-of", "2031-01-27"}).out, "More have died than expected"));
  const std::string report = good({"--demo", "report", "--as-of", "2031-06-01"}).out;
  for (const char* part : {"INVENTED season", "162 released", "Half hatched: foretold 21 Jan 2031", "chiller failed", "Weekend rota"}) EXPECT_TRUE(has(report, part)) << part;
  EXPECT_TRUE(has(good({"--demo", "heat"}).out, "Worked out from the tank's dimensions"));
  EXPECT_TRUE(has(good({"--demo", "water", "--quick"}).out, "No change"));
  good({"--demo", "--as-of", "2031-01-30", "log", "note", "a heron at the window"});
  EXPECT_TRUE(has(good({"--demo", "list", "--as-of", "2031-01-30"}).out, "heron"));
  EXPECT_FALSE(has(good({"--demo", "list", "--all", "--as-of", "2031-01-29"}).out, "heron"));
  bad({"--demo", "init", "--name", "x"}, "--demo");
  bad({"--demo", "today", "--as-of", "2030-01-01"}, "2030-08-05");
}

TEST_F(Program, ServesUntilItIsToldToStop) {
  init();
  const std::string port = std::to_string(20000 + getpid() % 20000);
  std::ofstream(folder / "in.txt") << "";
  const pid_t child = start({"serve", "--port", port, "--no-browser"});
  for (int i = 0; i < 200 && !has(text_of(folder / "out.txt"), "ready"); ++i)
    std::this_thread::sleep_for(std::chrono::milliseconds(20));
  EXPECT_TRUE(has(text_of(folder / "out.txt"), "http://127.0.0.1:" + port));
  fs::rename(folder / "out.txt", folder / "serving.txt");
  fs::rename(folder / "err.txt", folder / "serving_err.txt");
  bad({"serve", "--port", port, "--no-browser"}, "--port");
  bad({"serve", "--port", "0"}, "--port");
  bad({"serve", "--port", "x"}, "--port", 2);
  bad({"serve", "--new", "--demo"}, "--new");
  kill(child, SIGTERM);
  int status = 0;
  waitpid(child, &status, 0);
  EXPECT_TRUE(WIFEXITED(status) && WEXITSTATUS(status) == 0);
  EXPECT_TRUE(has(text_of(folder / "serving.txt"), "stopped"));
}

}  // namespace
}  // namespace redd::cli
