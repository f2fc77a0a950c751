#include "desk/reader.h"

#include <gtest/gtest.h>

namespace redd::desk {
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

TEST(ReaderIn, IsWhatStandsBesideAQuestion) {
  const auto given = reader_in({{"ping", 1}, {"reader", {{"language", "es-CO"}, {"units", "us"}}}});
  EXPECT_EQ(given.language, Language::es);
  EXPECT_TRUE(given.fahrenheit && given.us_gallons);
  for (const wire::Json& other : {wire::Json{{"ping", 1}}, wire::Json{{"reader", 7}}, wire::Json{{"reader", {{"language", "fr"}, {"units", 1}}}}}) {
    const auto plain = reader_in(other);
    EXPECT_EQ(plain.language, Language::en);
    EXPECT_FALSE(plain.fahrenheit || plain.us_gallons);
  }
}

}  // namespace
}  // namespace redd::desk
