#include "cli/flags.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "wire/codec.h"

namespace redd::cli {
namespace {

std::string json_of(std::string_view kind, const Typed& typed) {
  const auto json = body_json(kind, typed);
  return json ? *json : json.problems().front().field + " " + json.problems().front().code;
}

TEST(FlagsOf, EveryKindHasTheFlagsItsPositionalsName) {
  for (const auto kind : records::kind_names()) {
    const auto flags = flags_of(kind);
    for (const auto& name : positionals_of(kind))
      EXPECT_NE(std::ranges::find(flags, name, &Flag::name), flags.end()) << kind << " " << name;
    const auto positionals = positionals_of(kind);
    for (std::size_t i = 0; i < positionals.size(); ++i)
      EXPECT_EQ(flags[i].name, positionals[i]) << "positionals come first, in order";
  }
}

TEST(FlagsOf, EveryUnitOfEveryQuantityCanBeTyped) {
  for (const auto kind : records::kind_names())
    for (const Flag& flag : flags_of(kind))
      if (flag.units.size() > 1)
        for (const UnitSpelling& unit : flag.units)
          EXPECT_FALSE(unit.spellings.empty()) << kind << " --" << flag.name << " " << unit.suffix;
}

TEST(BodyJson, UnitsChooseTheKey) {
  EXPECT_EQ(json_of("temperature", {{"temperature", {"8.4C"}}}), R"({"temperature_c":8.4})");
  EXPECT_EQ(json_of("temperature", {{"temperature", {"47F"}}}), R"({"temperature_f":47.0})");
  EXPECT_EQ(json_of("temperature", {{"temperature", {"-2 °C"}}}), R"({"temperature_c":-2.0})");
  EXPECT_EQ(json_of("water_change", {{"volume", {"5gal"}}}), R"({"volume_us_gal":5.0})");
  EXPECT_EQ(json_of("source_water", {{"alkalinity", {"3dH"}}}), R"({"alkalinity_german_degrees":3.0})");
  EXPECT_EQ(json_of("source_water", {{"ph", {"7.2"}}}), R"({"ph":7.2})");
  EXPECT_EQ(json_of("egg_receipt", {{"thermal-sum", {"250Cdays"}}}), R"({"thermal_sum_c_days":250.0})");
}

TEST(BodyJson, AMissingOrWrongUnitIsAProblem) {
  EXPECT_EQ(json_of("temperature", {{"temperature", {"8"}}}), "--temperature needs_unit");
  EXPECT_EQ(json_of("fish_sample", {{"lengths-mm", {"27 28.5,30"}}}), R"({"lengths_mm":[27.0,28.5,30.0]})");
  EXPECT_EQ(json_of("fish_sample", {{"lengths-mm", {"27 long"}}}), "--lengths-mm not_a_number");
  EXPECT_EQ(json_of("temperature", {{"temperature", {"8L"}}}), "--temperature unknown_unit");
  EXPECT_EQ(json_of("temperature", {{"temperature", {"warm"}}}), "--temperature not_a_number");
  EXPECT_EQ(json_of("water_change", {{"volume", {"20,5L"}}}), "--volume not_a_number");
  EXPECT_EQ(json_of("count", {{"count", {"1.5"}}}), "--count not_a_whole_number");
  EXPECT_EQ(json_of("count", {{"drops", {"1"}}}), "--drops unknown_flag");
}

TEST(BodyJson, AReadingHasOneAnswer) {
  EXPECT_EQ(json_of("reading", {{"between", {"0.1", "0.25"}}}), R"({"form":"between","value":0.1,"upper_value":0.25})");
  EXPECT_EQ(json_of("reading", {{"below", {}}}), R"({"form":"below_first"})");
  EXPECT_EQ(json_of("reading", {{"drops", {"7"}}}), R"({"form":"drops","value":7.0})");
  EXPECT_EQ(json_of("reading", {{"step", {"0.1"}}, {"drops", {"7"}}}), "--step exclusive_flags");
}

TEST(BodyJson, ACorrectionKeepsWhatIsNotTyped) {
  const auto json =
      body_json("reading", {{"below", {}}},
                R"({"kit":"card","test":"nitrite","form":"between","value":0.1,"upper_value":0.25,"team":"Otter"})");
  ASSERT_TRUE(json.has_value());
  EXPECT_EQ(*json, R"({"kit":"card","test":"nitrite","team":"Otter","form":"below_first"})");
  const auto other_unit = body_json("water_change", {{"volume", {"5gal"}}}, R"({"volume_l":20,"vacuumed":true})");
  ASSERT_TRUE(other_unit.has_value());
  EXPECT_EQ(*other_unit, R"({"vacuumed":true,"volume_us_gal":5.0})");
}

TEST(AsFlags, JsonFieldsBecomeTheFlagsThatWereTyped) {
  const auto problems = as_flags(
      "water_change", {{"x", "/body/volume_us_gal", ""}, {"x", "/volume_l", ""}, {"x", "/at", ""}, {"x", "", ""}});
  EXPECT_EQ(problems[0].field, "--volume");
  EXPECT_EQ(problems[1].field, "--volume");
  EXPECT_EQ(problems[2].field, "--at");
  EXPECT_EQ(problems[3].field, "");
}

}  // namespace
}  // namespace redd::cli
