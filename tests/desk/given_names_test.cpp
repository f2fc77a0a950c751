// What somebody named or typed is shown as it is, in every language, wherever the desk says it; amounts in a refusal are said in the
// reader's unit.
#include <gtest/gtest.h>

#include "desk/memory_desk.h"
#include "desk/plan_memory.h"
#include "desk/routes.h"
#include "wire/json.h"

namespace redd::desk {
namespace {

using report::Language;
using wire::Json;

const Instant noon = *instant_from_rfc3339("2030-10-01T18:00:00Z");

class Asked {
 public:
  explicit Asked(report::Reader reader) : reader_(std::move(reader)) {
    desk_.set_clock(noon);
    keep("season_setup", *wire::parsed(R"({"name":"Invented season","time_zone":"UTC-07:00","first_day":"2030-09-02","volume_l":200,"species":"brook_trout","egg_day":"2030-11-15","target_c":8})"));
  }

  Response get(const std::string& path, Pairs query = {}) { return answer({.path = path, .query = std::move(query)}); }
  Response post(const std::string& path, const Json& body) {
    return answer({.method = "POST", .path = path, .headers = {{"content-type", "application/json"}}, .body = wire::printed(body)});
  }
  Response record(const std::string& kind, const Json& body) { return post("/api/records", {{"kind", kind}, {"author", "Team Otter"}, {"body", body}}); }
  void keep(const std::string& kind, const Json& body) {
    const Response kept = record(kind, body);
    ASSERT_EQ(kept.status, 201) << kept.bytes();
  }
  static std::string refusal(const Response& response) {
    EXPECT_EQ(response.status, 422) << response.bytes();
    return tree(response)["problems"][0]["sentence"];
  }
  static Json tree(const Response& response) { return *wire::parsed(response.bytes()); }

 private:
  Response answer(const Request& request) {
    auto response = answer_by(routes(), request, desk_, nullptr, plans_, reader_);
    EXPECT_TRUE(response.has_value()) << request.path;
    word_problems(*response, reader_);
    return std::move(*response);
  }

  report::Reader reader_;
  MemoryDesk desk_{{}, std::nullopt};
  PlanMemory plans_;
};

Json kit(const std::string& name) {
  return {{"key", name}, {"name", name}, {"tests", {{{"key", name}, {"quantity", "nitrite"}, {"method", "colour_steps"}, {"unit", "mg_no2_per_l"}, {"steps", {0.1, 0.5, 2}}}}}};
}

/// "{0}" is a place, "Fry" and "Closed" have translations, "1.5" a decimal sign.
class GivenName : public ::testing::TestWithParam<std::tuple<std::string, Language>> {};

TEST_P(GivenName, IsShownAsItIs) {
  const auto& [name, language] = GetParam();
  const bool english = language == Language::en;
  Asked asked({.language = language});
  const auto says = [](const Response& response, const std::string& text) {
    EXPECT_EQ(response.status, 200) << response.bytes();
    EXPECT_NE(response.bytes().find(text), std::string_view::npos) << text << " is not in " << response.bytes();
  };
  asked.keep("closure", Json{{"name", name}, {"from", "2030-10-14"}, {"to", "2030-10-18"}});
  asked.keep("duty", Json{{"label", name}, {"from", "2030-10-15"}});
  const Response calendar = asked.get("/api/plan.ics", {{"closures", "1"}});
  says(calendar, (english ? "SUMMARY:School closed: " : "SUMMARY:Escuela cerrada: ") + name + "\r\n");
  says(calendar, (english ? "SUMMARY:On duty: " : "SUMMARY:De turno: ") + name + "\r\n");

  asked.keep("kit", kit(name));
  Json reading{{"kit", name}, {"test", name}, {"form", "step"}, {"value", 0.5}, {"team", name}};
  asked.keep("reading", reading);
  says(asked.get("/api/day"), "\"" + name + ": " + (english ? "0.5" : "0,5"));
  reading["test"] = "iron";
  EXPECT_EQ(Asked::refusal(asked.record("reading", reading)),
            (english ? "Kit \"" + name + "\" has no test \"iron\"; it has: " : "El kit \"" + name + "\" no tiene la prueba \"iron\"; tiene: ") + name + ".");

  const Response sitting = asked.post("/api/bench", {{"bench_schedule", {{"kit", kit(name)}}}});
  EXPECT_EQ(Asked::tree(sitting)["bench_schedule"]["turns"][0]["sentence"].get<std::string>().substr(0, name.size() + 2), name + ": ") << sitting.bytes();
}

INSTANTIATE_TEST_SUITE_P(Names, GivenName, ::testing::Combine(::testing::Values("{0}", "Fry", "Closed", "1.5"), ::testing::Values(Language::en, Language::es)));

struct Refused {
  const char* kind;
  const char* body;
  const char* metric;
  const char* us;
  const char* us_spanish;
};
class RefusedAmount : public ::testing::TestWithParam<Refused> {};

TEST_P(RefusedAmount, IsSaidInTheReadersUnit) {
  const Refused& row = GetParam();
  const report::Reader us{.fahrenheit = true, .us_gallons = true}, us_spanish{.fahrenheit = true, .us_gallons = true, .language = Language::es};
  for (const auto& [reader, said] : {std::pair{report::Reader{}, row.metric}, std::pair{us, row.us}, std::pair{us_spanish, row.us_spanish}}) {
    const std::string sentence = Asked::refusal(Asked(reader).record(row.kind, *wire::parsed(row.body)));
    EXPECT_EQ(sentence.substr(0, std::string_view(said).size()), said) << sentence;
  }
}

INSTANTIATE_TEST_SUITE_P(
    Records, RefusedAmount,
    ::testing::Values(Refused{"temperature", R"({"temperature_f":110})", "43.333 °C can't be the tank's water:", "110 °F can't be the tank's water:", "110 °F no puede ser el agua del acuario:"},
                      Refused{"temperature", R"({"temperature_c":41})", "41 °C can't", "105.8 °F can't", "105,8 °F no puede"},
                      Refused{"water_change", R"({"volume_us_gal":60})", "227.125 L is more than the tank holds (200 L).", "60 US gal is more than the tank holds (52.8 US gal).",
                              "60 galones es más de lo que cabe en el acuario (52,8 galones)."},
                      Refused{"top_up", R"({"volume_l":80})", "80 L is more than a third", "21.1 US gal is more than a third", "21,1 galones es más de un tercio"},
                      Refused{"tank_build", R"({"length_cm":60,"width_cm":30,"water_height_cm":30})", "These measures hold 54 L, but the season's water is 200 L:",
                              "These measures hold 14.3 US gal, but the season's water is 52.8 US gal:", "Con estas medidas caben 14,3 galones, pero el agua de la temporada son 52,8 galones:"}));

TEST(RefusedField, IsNamedInTheReadersLanguage) {
  Asked asked({.language = Language::es});
  const auto sentence = [&](const char* body) { return Asked::tree(asked.record("duty", *wire::parsed(body)))["problems"][0]["sentence"].get<std::string>(); };
  EXPECT_EQ(sentence(R"({"label":"Fry","from":"2030-10-15","Closed":1})"), "\"Closed\" no es un campo de este registro; los campos conocidos son: from, label, to.");
  EXPECT_EQ(sentence(R"({"label":"Fry","from":"2030-10-15","frm":1})"), "\"frm\" no es un campo de este registro; ¿quiso decir \"from\"?");
  EXPECT_EQ(sentence(R"({"label":1.5,"from":"2030-10-15"})"), "label debe ser texto, no 1.5.");
}

TEST(RefusedTarget, IsSaidInTheReadersUnit) {
  const Json warm = *wire::parsed(R"({"name":"Invented","time_zone":"UTC","first_day":"2030-09-02","volume_l":200,"species":"brook_trout","target_c":25})");
  for (const auto& [reader, sentence] : {std::pair{report::Reader{}, "A target of 25 °C is outside 0.5 °C to 20 °C,"}, std::pair{report::Reader{.fahrenheit = true}, "A target of 77 °F is outside 32.9 °F to 68 °F,"}}) {
    const auto problems = Asked::tree(Asked(reader).record("season_setup", warm))["problems"];
    const std::string said = problems.back()["sentence"];
    EXPECT_TRUE(said.starts_with(sentence)) << said;
  }
}

}  // namespace
}  // namespace redd::desk
