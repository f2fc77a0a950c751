#include "report/numbers.h"

#include <gtest/gtest.h>

#include <limits>

#include "quantities/phrase_parts.h"
#include "quantities/rough_count.h"
#include "quantities/verbatim.h"

namespace redd::report {
namespace {

TEST(TwoDigits, ShowsNoMoreThanIsKnown) {
  EXPECT_EQ(two_digits(0.0137845), "0.014");
  EXPECT_EQ(two_digits(3.9612), "4.0");
  EXPECT_EQ(two_digits(127.3), "130");
  EXPECT_EQ(two_digits(0), "0");
}

TEST(TwoDigits, KeepsAPublishedMarkWhole) {
  EXPECT_EQ(two_digits(0.0125), "0.0125");
  EXPECT_EQ(two_digits(0.025), "0.025");
  EXPECT_EQ(two_digits(13.0), "13");
}

TEST(IntervalText, SaysWhatIsKnownAndNoMore) {
  EXPECT_EQ(interval_text(0.2, 0.6, false, 1, "mg/L"), "0.2–0.6 mg/L");
  EXPECT_EQ(interval_text(0.0, 0.14, false, 2, "mg/L"), "at most 0.14 mg/L");
  EXPECT_EQ(interval_text(4.0, std::numeric_limits<double>::infinity(), true, 0, "mg/L"), "at least 4 mg/L");
  EXPECT_EQ(interval_text(7.96, 8.04, false, 1, ""), "about 8.0");
}

TEST(Decimals, HasNoMinusZero) { EXPECT_EQ(decimals(-0.0001, 1), "0.0"); }

TEST(TextOf, UsesTheReadersUnits) {
  const Sentence s{"{0} and {1} in {2}", {Temperature::from_c(8), TemperatureChange::from_c(1), Volume::from_l(50)}};
  EXPECT_EQ(text_of(s, {}), "8.0 °C and 1.0 °C in 50 L");
  EXPECT_EQ(text_of(s, {true, true, {}}), "46.4 °F and 1.8 °F in 13 US gal");
}

TEST(TextOf, SaysHeatForADegreeOfTheReaders) {
  const Sentence s{"{0} for each degree", {Conductance::from_w_per_k(5.7613)}};
  EXPECT_EQ(text_of(s, {}), "5.8 W for each degree");
  EXPECT_EQ(text_of(s, {.fahrenheit = true}), "3.2 W for each degree");
}

TEST(DateText, IsPlain) {
  const Date day = *date_from_iso("2031-02-14");
  EXPECT_EQ(date_text(day), "Friday 14 February 2031");
  EXPECT_EQ(short_date_text(day), "14 Feb");
}

TEST(Verbatim, IsChangedByNoLanguageNorDecimalSign) {
  Reader spanish;
  spanish.language = Language::es;
  EXPECT_EQ(text_of(Phrase("Fry"), spanish), "Alevines");
  EXPECT_EQ(text_of(verbatim("Fry"), spanish), "Fry");
  EXPECT_EQ(text_of(said("To go on with it: redd restore {0}", verbatim("1.5")), spanish), "Para continuar con él: redd restore 1.5");
}

TEST(AmountInAPhrase, IsSaidInTheReadersUnitAsItWasTyped) {
  const Reader us{.fahrenheit = true, .us_gallons = true}, spanish{.language = Language::es}, us_spanish{.fahrenheit = true, .us_gallons = true, .language = Language::es};
  const Phrase typed = said("{0}; {1}; {2}", Temperature::from_f(77.5), Volume::from_us_gallons(12.25), Length{30.48});
  EXPECT_EQ(text_of(typed, {}), "25.278 °C; 46.371 L; 30.48 cm");
  EXPECT_EQ(text_of(typed, us), "77.5 °F; 12.25 US gal; 12 inches");
  EXPECT_EQ(text_of(typed, spanish), "25,278 °C; 46,371 L; 30,48 cm");
  EXPECT_EQ(text_of(typed, us_spanish), "77,5 °F; 12,25 galones; 12 pulgadas");
  // Of another unit no more digits than were typed.
  EXPECT_EQ(text_of(said("{0}; {1}", Volume::from_l(200), Length{45}), us), "52.8 US gal; 17.7 inches");
  EXPECT_EQ(text_of(said("{0} and {1} more", said("{0}", Temperature::from_c(10)), 2), us), "50 °F and 2 more");
  EXPECT_EQ(text_of(Sentence{"{0}", {Word{amount(Length{60.4}, 0)}}}, {}), "60 cm");
}

TEST(NumberText, SaysThatThereIsNoBound) {
  const Reader spanish{.language = Language::es};
  const double open = std::numeric_limits<double>::infinity();
  EXPECT_EQ(text_of(Sentence{"{0}", {Measured{open, "mg/L"}}}, {}), "no upper bound");
  EXPECT_EQ(text_of(Sentence{"{0}", {Measured{open, "mg/L"}}}, spanish), "sin límite superior");
}

TEST(DaysText, PicksTheNaturalUnit) {
  EXPECT_EQ(days_text(1.0 / 48), "30 minutes");
  EXPECT_EQ(days_text(0.25), "6 hours");
  EXPECT_EQ(days_text(1.2), "1 day");
  EXPECT_EQ(days_text(9), "9 days");
}

TEST(Numbers, RoundUpToTheNextPowerOfTenWithoutAThirdDigit) {
  EXPECT_EQ(two_digits(0.099634), "0.10");
  EXPECT_EQ(two_digits(0.0123456), "0.012");
  EXPECT_EQ(two_digits(3.9612), "4.0");
}

TEST(Numbers, ASpanOfOneDayIsThatDay) {
  EXPECT_EQ(date_span_text(*date_from_iso("2031-02-05"), *date_from_iso("2031-02-05")), "5 Feb");
  EXPECT_EQ(date_span_text(*date_from_iso("2031-02-05"), *date_from_iso("2031-02-07")), "5 Feb to 7 Feb");
}

TEST(Numbers, CountsShowNoMoreDigitsThanTheirDoubtSupports) {
  const auto rough = rough_count({4877, 5000, 5123, Support::inferred});
  EXPECT_EQ(rough.low, 4870);
  EXPECT_EQ(rough.mid, 5000);
  EXPECT_EQ(rough.high, 5130);
  EXPECT_EQ(rough_count({178, 183, 188, Support::inferred}).low, 178);
  EXPECT_EQ(rough_count({12000, 20500, 29000, Support::inferred}).high, 29000);
}

}  // namespace
}  // namespace redd::report
