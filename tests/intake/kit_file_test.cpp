#include "intake/kit_file.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "records/record.h"
#include "wire/codec.h"

namespace redd::intake {
namespace {

std::string first(const Result<records::Kit>& kit) {
  return kit ? "no problem" : kit.problems().front().code + " " + kit.problems().front().field + " " + kit.problems().front().sentence;
}

const std::string small = R"toml(key = "class"
name = "Class kit (invented)"

[[tests]]
key = "ammonia"
quantity = "total_ammonia"
method = "colour_steps"
unit = "mg_nh4_per_l"
steps = [0, 0.4, 0.9]
)toml";

TEST(KitFile, ReadsToml) {
  const auto kit = kit_from_text(small);
  ASSERT_TRUE(kit) << first(kit);
  EXPECT_EQ(kit->key, "class");
  ASSERT_EQ(kit->tests.size(), 1u);
  EXPECT_EQ(kit->tests[0].unit, records::TestUnit::mg_nh4_per_l);
  EXPECT_EQ(kit->tests[0].steps, (std::vector<double>{0, 0.4, 0.9}));
}

TEST(KitFile, ReadsTheSameAsJson) {
  const auto kit = kit_from_text(small);
  ASSERT_TRUE(kit);
  const auto same = kit_from_text("\n " + wire::json_from_body(*kit));
  ASSERT_TRUE(same) << first(same);
  EXPECT_EQ(wire::json_from_body(*same), wire::json_from_body(*kit));
}

TEST(KitFile, NamesTheLineOfEveryProblem) {
  std::string text = small;
  text.replace(text.find("mg_nh4_per_l"), 12, "mg_no3_per_l");
  text.replace(text.find("0.9]"), 4, "0.2]");
  const auto kit = kit_from_text(text + "colour = \"red\"\n");
  ASSERT_FALSE(kit);
  EXPECT_EQ(kit.problems().front().field, "/tests/0/colour");
  EXPECT_TRUE(kit.problems().front().sentence.starts_with("Line 10: ")) << first(kit);
  const auto without = kit_from_text(text);
  ASSERT_FALSE(without);
  ASSERT_EQ(without.problems().size(), 2u);
  EXPECT_EQ(without.problems()[0].field, "/tests/0/unit");
  EXPECT_TRUE(without.problems()[0].sentence.starts_with("Line 8: ")) << without.problems()[0].sentence;
  EXPECT_EQ(without.problems()[1].field, "/tests/0/steps");
  EXPECT_TRUE(without.problems()[1].sentence.starts_with("Line 9: ")) << without.problems()[1].sentence;
}

TEST(KitFile, NamesTheLineOfBadToml) {
  const auto kit = kit_from_text("key = \"a\"\nname = \n");
  ASSERT_FALSE(kit);
  EXPECT_EQ(kit.problems().front().code, "not_toml");
  EXPECT_TRUE(kit.problems().front().sentence.starts_with("Line 2")) << first(kit);
}

TEST(KitFile, RefusesWhatIsNoKit) {
  for (const char* text : {"", " \n", "[]", "{", "{}", "key = 1", "key = 2030-01-01\nname = \"x\"", "\xEF\xBB\xBF", "key = \"a\"\nkey = \"b\"",
                           "key = \"a\"\nname = \"b\"", "a.b.c = inf"})
    EXPECT_FALSE(kit_from_text(text)) << text;
  EXPECT_FALSE(kit_from_text(std::string(3 << 20, ' ')));
}

TEST(KitFile, SurvivesHeadersThatBeginWithAWrongCharacter) {
  // Found by fuzzing: the TOML library ends the whole program on these instead of reporting them.
  for (const char* text : {"[[::tests]]\n", "[:]\n", "[[=]]", "[ ]]", "a.=1", "a = {:1}", "[[\xF0\x9F\x90\x9F]]"}) {
    const auto kit = kit_from_text(text);
    ASSERT_FALSE(kit) << text;
    EXPECT_EQ(kit.problems().front().code, "not_toml") << text;
  }
}

TEST(KitFile, WantsForeignLettersInQuotes) {
  // Found by fuzzing: outside quotes the TOML library runs into undefined behaviour on some of them.
  const auto kit = kit_from_text("key = \"é\" # é\nname = \xC7\xA8\n");
  ASSERT_FALSE(kit);
  EXPECT_EQ(kit.problems().front().code, "not_toml");
  EXPECT_TRUE(kit.problems().front().sentence.starts_with("Line 2: ")) << first(kit);
  std::string text = small;
  text.replace(text.find("Class kit"), 9, "Caisse d'école");
  EXPECT_TRUE(kit_from_text(text)) << first(kit_from_text(text));
  text.replace(text.find("\"Caisse"), 1, "\"\"\"\n");
  text.replace(text.find("(invented)\""), 11, "(\"é\")\"\"\"");
  EXPECT_TRUE(kit_from_text(text)) << first(kit_from_text(text));
}

TEST(KitFile, RefusesInfiniteSteps) {
  std::string text = small;
  text.replace(text.find("0.9]"), 4, "inf]");
  const auto kit = kit_from_text(text);
  ASSERT_FALSE(kit);
  EXPECT_EQ(kit.problems().front().field, "/tests/0/steps/2") << first(kit);
}

TEST(KitTemplates, AreWholeAndNameNoMaker) {
  int count = 0;
  for (const auto& file : std::filesystem::directory_iterator(REDD_SOURCE_DIR "/data/kits")) {
    std::ifstream stream(file.path());
    std::ostringstream text;
    text << stream.rdbuf();
    const auto kit = kit_from_text(text.str());
    ASSERT_TRUE(kit) << file.path() << " " << first(kit);
    EXPECT_EQ(kit->key + ".toml", file.path().filename().string());
    EXPECT_NE(kit->name.find("generic"), std::string::npos);
    const auto again = kit_from_text(toml_from_kit(*kit));
    ASSERT_TRUE(again) << first(again);
    EXPECT_EQ(wire::json_from_body(*again), wire::json_from_body(*kit));
    ++count;
  }
  EXPECT_GE(count, 3);
}

/// Any kit that may be kept, with awkward texts and numbers.
rc::Gen<records::Kit> any_kit() {
  using namespace records;
  const auto text = rc::gen::map(rc::gen::container<std::string>(rc::gen::elementOf(std::string("ab \"\\\n\t#'=[]{}.,-"))),
                                 [](std::string s) { return "x" + s; });
  return rc::gen::exec([text] {
    Kit kit{*text, *text, {}};
    const int count = *rc::gen::inRange(1, 5);
    for (int i = 0; i < count; ++i) {
      KitTest t;
      t.key = "t" + std::to_string(i);
      t.method = *rc::gen::element(Method::colour_steps, Method::drop_count, Method::meter);
      t.quantity = *rc::gen::element(Quantity::nitrate, Quantity::alkalinity);
      t.unit = t.quantity == Quantity::nitrate ? TestUnit::mg_no3_per_l : TestUnit::german_degrees;
      if (t.method == Method::colour_steps) {
        double value = 0;
        const int steps = *rc::gen::inRange(2, 8);
        for (int k = 0; k < steps; ++k) {
          t.steps.push_back(value += *rc::gen::inRange(1, 100000) / 1024.0);
          t.swatches.push_back("#0a1b2c");
          t.colour_names.push_back(*text);
        }
      }
      if (t.method == Method::drop_count) t.per_drop = *rc::gen::inRange(1, 1000) / 7.0;
      if (t.method == Method::meter) t.accuracy = *rc::gen::inRange(0, 1000) / 7.0;
      const int timed = *rc::gen::inRange(0, 3);
      for (int k = 0; k < timed; ++k) t.timed_steps.push_back({TimedStep::Do::wait, *text, *rc::gen::inRange(0, 900), {}, *rc::gen::inRange(0, 90)});
      kit.tests.push_back(t);
    }
    return kit;
  });
}

RC_GTEST_PROP(KitFile, WritesWhatItReadsBack, ()) {
  const records::Kit kit = *any_kit();
  const std::string toml = toml_from_kit(kit);
  const auto back = kit_from_text(toml);
  RC_ASSERT(back.has_value());
  RC_ASSERT(wire::json_from_body(*back) == wire::json_from_body(kit));
}

}  // namespace
}  // namespace redd::intake
