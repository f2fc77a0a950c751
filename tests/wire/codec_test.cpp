#include "wire/codec.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "wire/any_record.h"
#include "wire/json.h"

namespace redd::wire {
namespace {

using records::Body;

Instant at(const char* text) { return *instant_from_rfc3339(text); }
const Instant now = at("2031-02-14T18:00:00Z");

std::string codes(const Problems& problems) {
  std::string text;
  for (const Problem& p : problems) text += p.code + " " + p.field + "; ";
  return text;
}
template <class T>
std::string codes(const Result<T>& result) { return result ? "" : codes(result.problems()); }

class EveryKind : public ::testing::TestWithParam<std::string_view> {};
INSTANTIATE_TEST_SUITE_P(Kinds, EveryKind, ::testing::ValuesIn(records::kind_names()), [](const auto& info) { return std::string(info.param); });

TEST_P(EveryKind, ReadsBackEqual) {
  for (unsigned seed = 0; seed < 200; ++seed) {
    const Body body = test::any_body(GetParam(), seed);
    const std::string json = json_from_body(body);
    const auto back = body_from_json(GetParam(), json);
    ASSERT_TRUE(back) << json << "\n" << codes(back);
    EXPECT_EQ(json_from_body(*back), json);
    EXPECT_EQ(records::kind_name(*back), GetParam());
  }
}

TEST_P(EveryKind, RefusesWhatItDoesNotKnow) {
  const Body body = test::any_body(GetParam(), 1);
  Json tree = *parsed(json_from_body(body));
  tree["colour_of_the_sky"] = "blue";
  EXPECT_EQ(codes(body_from_json(GetParam(), printed(tree), "/body")), "unknown_field /body/colour_of_the_sky; ");
}

TEST_P(EveryKind, RefusesEveryFieldOfAWrongType) {
  const Body body = test::any_body(GetParam(), 2);
  const Json whole = *parsed(json_from_body(body));
  for (const auto& [key, value] : whole.items()) {
    for (const Json& wrong : {Json(std::vector<Json>{Json::object()}), Json::object(), Json(std::vector<int>{})}) {
      if (value.is_array() && wrong.is_array() && wrong.empty()) continue;
      Json tree = whole;
      tree[key] = wrong;
      const auto result = body_from_json(GetParam(), printed(tree));
      ASSERT_FALSE(result) << key << " = " << wrong;
      EXPECT_TRUE(result.problems().front().field.starts_with("/" + key)) << codes(result);
    }
  }
}

TEST_P(EveryKind, NamesEveryMissingField) {
  // The schema says what is required; leaving out any one such field must be said by name.
  const Json schemas = *parsed(json_schemas());
  const Json& schema = schemas.at(std::string(GetParam()));
  const Json whole = *parsed(json_from_body(test::any_body(GetParam(), 3)));
  for (const Json& key : schema.at("required")) {
    Json tree = whole;
    tree.erase(key.get<std::string>());
    EXPECT_EQ(codes(body_from_json(GetParam(), printed(tree))), "missing /" + key.get<std::string>() + "; ");
  }
}

TEST_P(EveryKind, EnforcesTheRangesOfItsSchema) {
  const Json schemas = *parsed(json_schemas());
  const Json whole = *parsed(json_from_body(test::any_body(GetParam(), 4)));
  for (const auto& [key, property] : schemas.at(std::string(GetParam())).at("properties").items()) {
    if (!property.contains("maximum")) continue;
    const double low = property.at("minimum").get<double>(), high = property.at("maximum").get<double>();
    const bool is_whole = property.at("type") == "integer";
    for (const double value : {low - 1, high * 2 + 1}) {
      Json tree = whole;
      if (is_whole) tree[key] = static_cast<long long>(value);
      else tree[key] = value;
      EXPECT_EQ(codes(body_from_json(GetParam(), printed(tree))).substr(0, 12), "out_of_range") << key << " = " << value;
    }
    if (is_whole) {
      Json tree = whole;
      tree[key] = low + 0.5;
      EXPECT_EQ(codes(body_from_json(GetParam(), printed(tree))).substr(0, 18), "not_a_whole_number") << key;
    }
  }
}

TEST(Body, TakesTheOtherUnitsOfAField) {
  const auto f = body_from_json("temperature", R"({"temperature_f":46.4})");
  ASSERT_TRUE(f);
  EXPECT_NEAR(std::get<records::TemperatureReading>(*f).temperature.c(), 8.0, 1e-12);
  const auto gallons = body_from_json("water_change", R"({"volume_us_gal":10})");
  ASSERT_TRUE(gallons);
  // NIST Handbook 44: one US gallon is 3.785411784 L.
  EXPECT_DOUBLE_EQ(std::get<records::WaterChange>(*gallons).volume.l(), 37.85411784);
  const auto ounces = body_from_json("feeding", R"({"mass_oz":1})");
  ASSERT_TRUE(ounces);
  EXPECT_DOUBLE_EQ(std::get<records::Feeding>(*ounces).mass->g(), 28.349523125);
}

TEST(Body, IsNotGivenInTwoUnitsAtOnce) {
  EXPECT_EQ(codes(body_from_json("temperature", R"({"temperature_c":8,"temperature_f":46.4})")), "given_twice /temperature_f; ");
}

TEST(Body, JudgesAnotherUnitAfterConversion) {
  EXPECT_EQ(codes(body_from_json("temperature", R"({"temperature_f":200})")), "out_of_range /temperature_f; ");
  // The range in °C, said in the unit that was given.
  EXPECT_TRUE(body_from_json("temperature", R"({"temperature_f":200})").problems().front().sentence.ends_with("it must be from -40 to 140."));
  EXPECT_TRUE(body_from_json("set_point", R"({"temperature_f":200})").problems().front().sentence.ends_with("it must be from 28.4 to 113."));
  // 0.01 to 20000 L are 0.00264172 to 5283.44 gallons: what is named as allowed is allowed.
  EXPECT_TRUE(body_from_json("top_up", R"({"volume_us_gal":0})").problems().front().sentence.ends_with("is 0, which can't be right: it must be from 0.00265 to 5280."));
  EXPECT_TRUE(body_from_json("top_up", R"({"volume_us_gal":0.00265})"));
  EXPECT_TRUE(body_from_json("top_up", R"({"volume_us_gal":5280})"));
  EXPECT_EQ(codes(body_from_json("set_point", R"({"temperature_f":"cold"})")), "not_a_number /temperature_f; ");
}

TEST(Body, ReportsEverythingAtOnce) {
  EXPECT_EQ(codes(body_from_json("reading", R"({"kit":7,"form":"sideways","value":-1,"x":1})", "/body")),
            "not_text /body/kit; missing /body/test; unknown_word /body/form; out_of_range /body/value; unknown_field /body/x; ");
}

TEST(Body, RefusesImpossibleNumbers) {
  for (const char* json : {R"({"temperature_c":1e999})", R"({"temperature_c":NaN})", R"({"temperature_c":null})", R"({"temperature_c":true})", R"({"temperature_c":"8"})"})
    EXPECT_FALSE(body_from_json("temperature", json)) << json;
}

TEST(Body, RefusesTextThatIsNoText) {
  EXPECT_EQ(codes(body_from_json("note", "{\"text\":\"a\\u0000b\"}")), "bad_characters /text; ");
  EXPECT_EQ(codes(body_from_json("note", "{\"text\":\"\"}")), "missing /text; ");
  EXPECT_EQ(codes(body_from_json("note", "{\"text\":\"" + std::string(2001, 'x') + "\"}")), "too_long /text; ");
  EXPECT_TRUE(body_from_json("note", "{\"text\":\"" + std::string(2000, 'x') + "\"}"));
  EXPECT_FALSE(body_from_json("note", "{\"text\":\"\xFF\"}"));
}

TEST(Body, OfAnUnknownKindNamesTheKnownOnes) {
  const auto result = body_from_json("weather", "{}");
  ASSERT_FALSE(result);
  EXPECT_NE(result.problems().front().sentence.find("water_change"), std::string::npos);
}

TEST(Body, OffersTheWordThatWasMeant) {
  const auto result = body_from_json("note", R"({"text":"a","texts":"b"})");
  ASSERT_FALSE(result);
  EXPECT_NE(result.problems().front().sentence.find("did you mean \"text\""), std::string::npos);
}

TEST(Parsed, RefusesDoubledKeysDepthAndRubbish) {
  EXPECT_EQ(codes(parsed(R"({"a":1,"b":{"a":1,"a":2}})")), "given_twice a; ");
  EXPECT_TRUE(parsed(R"({"a":1,"b":{"a":1},"c":[{"a":1},{"a":2}]})"));
  EXPECT_FALSE(parsed(std::string(100000, '[')));
  EXPECT_FALSE(parsed(std::string(40, '[') + std::string(40, ']')));
  for (const char* text : {"", "{", "{'a':1}", "{\"a\":1,}", "{\"a\":01}", "nul", "[1 2]", "\"\x01\"", "{} {}", "{\"a\":1}//x"}) EXPECT_FALSE(parsed(text)) << text;
}

TEST(Entry, TakesNowWhenItHasNoTime) {
  const auto entry = entry_from_json(R"({"kind":"note","author":"Team Otter","body":{"text":"hello"}})", now);
  ASSERT_TRUE(entry);
  EXPECT_EQ(entry->at, now);
  const auto dated = entry_from_json(R"({"kind":"note","at":"2031-02-14T07:50:00-07:00","author":"A","supersedes":4,"entry_key":"k","body":{"text":"hello"}})", now);
  ASSERT_TRUE(dated);
  EXPECT_EQ(dated->at, at("2031-02-14T14:50:00Z"));
  EXPECT_EQ(dated->supersedes, 4);
  EXPECT_EQ(dated->entry_key, "k");
}

TEST(Entry, ReportsEnvelopeAndBodyTogether) {
  EXPECT_EQ(codes(entry_from_json(R"({"kind":"temperature","at":"yesterday","author":"A","body":{"temperature_c":200},"extra":1})", now)),
            "not_an_instant /at; out_of_range /body/temperature_c; unknown_field /extra; ");
  EXPECT_EQ(codes(entry_from_json(R"({"author":"A","body":{}})", now)), "missing /kind; ");
  EXPECT_EQ(codes(entry_from_json("[]", now)), "not_an_object ; ");
  EXPECT_EQ(codes(entry_from_json(R"({"kind":"note","author":")" + std::string(65, 'x') + R"(","body":{"text":"a"}})", now)), "too_long /author; ");
  EXPECT_EQ(codes(entry_from_json(R"({"kind":"note","author":"A","supersedes":0,"body":{"text":"a"}})", now)), "out_of_range /supersedes; ");
  EXPECT_EQ(codes(entry_from_json(R"({"kind":"note","author":"A","body":"text"})", now)), "not_an_object /body; ");
}

RC_GTEST_PROP(Record, ReadsBackEqual, (unsigned seed)) {
  test::RandomFill fill(seed);
  const auto kinds = records::kind_names();
  records::Record record{1 + seed % 100000, now + std::chrono::seconds(seed % 1000), {}};
  record.entry = {now - std::chrono::seconds(seed % 100000), fill.any_text().substr(0, 20), {}, {}, test::any_body(kinds[seed % kinds.size()], seed)};
  while (!record.entry.author.empty() && (static_cast<unsigned char>(record.entry.author.back()) & 0x80)) record.entry.author.pop_back();
  if (fill.coin()) record.entry.supersedes = 1 + seed % 1000;
  if (fill.coin()) record.entry.entry_key = "tablet/" + std::to_string(seed);
  const std::string json = json_from_record(record);
  const auto back = record_from_json(json);
  RC_ASSERT(back.has_value());
  RC_ASSERT(json_from_record(*back) == json);
  RC_ASSERT(back->id == record.id);
  RC_ASSERT(back->logged_at == record.logged_at);
  RC_ASSERT(back->entry.at == record.entry.at);
  RC_ASSERT(json.find('\n') == std::string::npos);
}

TEST(Record, NeedsItsOwnTimes) {
  EXPECT_EQ(codes(record_from_json(R"({"id":1,"kind":"note","author":"A","body":{"text":"a"}})")), "missing /logged_at; missing /at; ");
}

TEST(Schemas, AreDraft2020ForEveryKind) {
  const auto schemas = parsed(json_schemas());
  ASSERT_TRUE(schemas);
  for (const auto kind : records::kind_names()) {
    const auto& schema = schemas->at(std::string(kind));
    EXPECT_EQ(schema.at("additionalProperties"), false);
    for (const auto& key : schema.at("required")) EXPECT_TRUE(schema.at("properties").contains(key.get<std::string>())) << kind;
  }
}

TEST(JsonQuoted, IsAJsonString) {
  EXPECT_EQ(json_quoted("a\"\\\n"), "\"a\\\"\\\\\\n\"");
  EXPECT_TRUE(parsed(json_quoted("\xFF")));
}

}  // namespace
}  // namespace redd::wire
