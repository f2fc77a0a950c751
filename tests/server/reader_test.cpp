#include "server/reader.h"

#include "fixture.h"

namespace redd::server {
namespace {

using report::Language;

TEST(LanguageAccepted, IsTheHeaviestOneThatIsWritten) {
  EXPECT_EQ(language_accepted(""), Language::en);
  EXPECT_EQ(language_accepted("es"), Language::es);
  EXPECT_EQ(language_accepted("fr, es-MX;q=0.8, en;q=0.5"), Language::es);
  EXPECT_EQ(language_accepted("es;q=0.3, en-GB;q=0.9"), Language::en);
  EXPECT_EQ(language_accepted("es;q=0"), Language::en);
  EXPECT_EQ(language_accepted("es;q=nonsense, de"), Language::en);
}

Request asked(const char* target, Pairs headers = {}) {
  Request request = *request_from_target("GET", target);
  request.headers = std::move(headers);
  return request;
}

TEST(ReaderOf, GoesByTheAddressBeforeTheHeaders) {
  const auto by_header = reader_of(asked("/api/day", {{"accept-language", "es"}, {"redd-units", "us"}}));
  ASSERT_TRUE(by_header);
  EXPECT_EQ(by_header->language, Language::es);
  EXPECT_TRUE(by_header->fahrenheit && by_header->us_gallons);
  const auto by_address = reader_of(asked("/api/plan.ics?language=en&units=metric", {{"accept-language", "es"}, {"redd-units", "us"}}));
  ASSERT_TRUE(by_address);
  EXPECT_EQ(by_address->language, Language::en);
  EXPECT_FALSE(by_address->fahrenheit || by_address->us_gallons);
  EXPECT_EQ(reader_of(asked("/api/day?language=xx")).problems().front().field, "language");
  EXPECT_EQ(reader_of(asked("/api/day?units=stone")).problems().front().field, "units");
}

TEST_F(AppTest, WordsAnswersForTheReader) {
  ASSERT_EQ(post_record("season_setup", setup_body).status, 201);
  const auto day = get("/api/day?language=es&units=us");
  EXPECT_EQ(day.header("content-language"), "es");
  const auto view = json(day);
  EXPECT_EQ(view["season"]["target_text"], "46,4 °F");
  EXPECT_EQ(view["season"]["target_c"], 8.0) << "exact numbers do not change with the reader";
  EXPECT_EQ(view["season"]["species_name"], "trucha de arroyo");
  EXPECT_EQ(view["stage"]["sentence"], "No se han recibido huevos.");
  const auto english = get("/api/day");
  EXPECT_EQ(english.header("content-language"), "en");
  EXPECT_EQ(json(english)["season"]["target_text"], "8.0 °C");
}

TEST_F(AppTest, WordsRefusalsForTheReader) {
  EXPECT_EQ(json(get("/api/day?language=es"))["problems"][0]["sentence"], "Todavía no hay temporada. Configure una primero.");
  EXPECT_EQ(json(get("/api/day"))["problems"][0]["sentence"], "There is no season yet. Set one up first.");
  EXPECT_EQ(get("/api/day?language=de").status, 400);
}

TEST_F(AppTest, ReaderParametersAreNoInputsOfAFormula) {
  const auto answer = get("/api/calc/oxygen_saturation?temperature_c=8&elevation_m=640&language=es");
  EXPECT_EQ(answer.status, 200) << answer.body;
}

}  // namespace
}  // namespace redd::server
