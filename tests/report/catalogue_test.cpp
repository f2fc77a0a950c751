#include "report/catalogue.h"

#include <gtest/gtest.h>

#include <set>

#include "quantities/pattern.h"
#include "report/numbers.h"

namespace redd::report {
namespace {

struct Entry {
  std::string_view english, words;
};
constexpr Entry spanish[] = {
#define REDD_MESSAGE(english, words) {english, words},
#include "report/messages_es.inc"
#undef REDD_MESSAGE
};

std::set<std::size_t> places_of(std::string_view pattern) {
  std::set<std::size_t> places;
  const auto fault = pattern_fault(pattern, places);
  EXPECT_FALSE(fault) << pattern << "\n" << fault.value_or("");
  return places;
}

TEST(Catalogue, EveryPatternIsSoundAndKeepsItsPlaces) {
  for (const Entry& entry : spanish) EXPECT_EQ(places_of(entry.english), places_of(entry.words)) << entry.english << "\n" << entry.words;
}

TEST(Catalogue, EveryEntryIsFoundAndEndsAsItsEnglishDoes) {
  EXPECT_GT(std::size(spanish), 2500u);
  for (const Entry& entry : spanish) {
    EXPECT_EQ(translation(entry.english, Language::es), entry.words);
    EXPECT_FALSE(translation(entry.english, Language::en));
    // A sentence glued after this one needs its full stop and its blank.
    if (entry.english.ends_with('}') || entry.words.ends_with('}')) continue;
    const auto end = [](std::string_view text) { return text.ends_with(' ') ? ' ' : text.ends_with('.') ? '.' : text.ends_with('\n') ? '\n' : 'x'; };
    EXPECT_EQ(end(entry.english), end(entry.words)) << entry.english << "\n" << entry.words;
  }
  EXPECT_FALSE(translation("words nobody wrote", Language::es));
}

TEST(Catalogue, KnowsItsLanguagesByTag) {
  EXPECT_EQ(language_from_tag("es-MX"), Language::es);
  EXPECT_EQ(language_from_tag("ES"), Language::es);
  EXPECT_EQ(language_from_tag("en"), Language::en);
  EXPECT_FALSE(language_from_tag("est"));
  EXPECT_FALSE(language_from_tag("fr"));
  EXPECT_FALSE(language_from_tag(""));
}

constexpr Reader reader{.language = Language::es}, us{true, true, {}, Language::es};

TEST(Spanish, HasItsOwnNumbersAndDates) {
  const Date day = *date_from_iso("2031-02-14");
  EXPECT_EQ(date_text(day, reader), "viernes 14 de febrero de 2031");
  EXPECT_EQ(short_date_text(day, reader), "14 feb");
  EXPECT_EQ(month_text(day, reader), "febrero 2031");
  EXPECT_EQ(weekday_text(std::chrono::Saturday, reader), "sábado");
  EXPECT_EQ(number_text("0.5", reader), "0,5");
  EXPECT_EQ(number_text("0.5", {}), "0.5");
  EXPECT_EQ(number_text("2031-02-14", reader), "2031-02-14");
  EXPECT_EQ(number_text("1.2.3", reader), "1.2.3");
  EXPECT_EQ(interval_text(0.2, 0.6, false, 1, "mg/L", reader), "0,2–0,6 mg/L");
  EXPECT_EQ(interval_text(0.0, 0.14, false, 2, "mg/L", reader), "como máximo 0,14 mg/L");
  EXPECT_EQ(days_text(1.0 / 24, reader), "1 hora");
  EXPECT_EQ(days_text(3, reader), "3 días");
  EXPECT_EQ(chance_text(0.7, reader), "probabilidad de 7 en 10");
}

TEST(Spanish, KeepsTheReadersUnits) {
  const Sentence s{"{0}: {1}.", {Temperature::from_c(8.5), Volume::from_l(50)}};
  EXPECT_EQ(text_of(s, reader), "8,5 °C: 50 L.");
  EXPECT_EQ(text_of(s, us), "47,3 °F: 13 galones.");
}

TEST(Spanish, WordsInsideASentenceAreItsOwnToo) {
  EXPECT_EQ(text_of(Sentence{"{0} in the {1}", {Temperature::from_c(8), Word{"room"}}}, reader), "8,0 °C en la sala");
  EXPECT_EQ(text_of(said("There is no record {0} to {1}.", 7, "correct"), reader), "No hay ningún registro 7 que corregir.");
  EXPECT_EQ(text_of(said("{0} on the card", said("{0} {1}", "0.25", "mg/L as NO2")), reader), "0,25 mg/L como NO2 en la tarjeta");
  EXPECT_EQ(text_of(Phrase("Team Otter"), reader), "Team Otter");
}

TEST(Spanish, JoinedSentencesAreFoundOneByOne) {
  const Sentence both = joined({"Test again on {0}.", {*date_from_iso("2031-02-14")}}, {"Change {0} of the water.", {Share{0.2}}});
  EXPECT_EQ(text_of(both, reader), "Repita la prueba el viernes 14 de febrero de 2031. Cambie 20 % del agua.");
  EXPECT_EQ(text_of(both, {}), "Test again on Friday 14 February 2031. Change 20 % of the water.");
}

TEST(Units, GoThereAndBack) {
  for (const double c : {-1.0, 0.0, 7.5, 12.3, 37.8}) EXPECT_NEAR(Temperature::from_f(Temperature::from_c(c).f()).c(), c, 1e-9);
  for (const double l : {0.3, 7.0, 210.0}) EXPECT_NEAR(Volume::from_us_gallons(Volume::from_l(l).us_gallons()).l(), l, 1e-9);
  EXPECT_EQ(text_of(Sentence{"{0}", {Volume::from_us_gallons(55)}}, {true, true, {}}), "55 US gal");
  EXPECT_EQ(text_of(Sentence{"{0}", {Volume::from_l(0.3)}}, {true, true, {}}), "0.079 US gal");
  EXPECT_EQ(text_of(Sentence{"{0}", {TemperatureChange::from_c(1)}}, {true, true, {}}), "1.8 °F");
}

TEST(Units, FixedAmountsInWordsAreSaidInTheReadersUnits) {
  const Sentence cool{"Cool back by no more than a degree an hour."};
  EXPECT_EQ(text_of(cool, {}), "Cool back by no more than a degree an hour.");
  EXPECT_EQ(text_of(cool, {true, true, {}}), "Cool back by no more than 1.8 °F an hour.");
  EXPECT_EQ(text_of(cool, us), "Vuelva a enfriar no más de 1,8 °F por hora.");
}

TEST(Capitalised, KnowsLettersOfTwoBytes) {
  EXPECT_EQ(capitalised("un pez"), "Un pez");
  EXPECT_EQ(capitalised("éxito"), "Éxito");
  EXPECT_EQ(capitalised("pH"), "pH");
  EXPECT_EQ(capitalised(""), "");
}

}  // namespace
}  // namespace redd::report
