#include "print/charts.h"

#include "print/made.h"

namespace redd::print {
namespace {

TEST(Charts, AreThereByEveryNameAndDrawableInEveryUnit) {
  const auto season = told_season();
  report::Reader us = spanish();
  us.fahrenheit = us.us_gallons = true;
  for (const auto& reader : {report::Reader{}, us})
    for (const auto name : chart_names()) {
      const Chart made = chart(season, name, reader);
      EXPECT_EQ(made.name, name);
      EXPECT_FALSE(made.title.empty()) << name;
      EXPECT_FALSE(made.description.empty()) << name;
      if (!made.empty.empty()) continue;
      EXPECT_LT(made.low, made.high) << name;
      EXPECT_LT(made.first_day, made.last_day) << name;
      EXPECT_GE(made.values.size(), 2u) << name;
      EXPECT_LE(made.values.size(), 7u) << name;
      EXPECT_GE(made.days.size(), 2u) << name;
      EXPECT_FALSE(made.key.empty()) << name;
    }
}

TEST(Charts, HoldEachReadingAsTheRangeItAllows) {
  const Chart made = chart(told_season(), "nitrite");
  std::size_t read = 0;
  for (const auto& reading : made.readings) {
    EXPECT_LE(reading.low, reading.mid);
    if (reading.high) EXPECT_LE(reading.mid, *reading.high);
    if (!reading.worked_out) ++read;
  }
  EXPECT_EQ(read, 12u);
  EXPECT_EQ(made.unit, "mg/L as N");
  EXPECT_FALSE(made.limits.empty());
  for (const auto& limit : made.limits) EXPECT_FALSE(limit.text.empty());
}

TEST(Charts, AReadingBeyondTheCardHasNoUpperEnd) {
  SmallSeason season = told_season();
  season.add(90, SmallSeason::reading("nitrite", records::Reading::Form::above_last, std::nullopt));
  const Chart made = chart(season, "nitrite");
  EXPECT_TRUE(std::ranges::any_of(made.readings, [](const auto& reading) { return !reading.high; }));
  EXPECT_TRUE(std::ranges::any_of(made.key, [](const auto& key) { return key.sample == Chart::Sample::open_reading; }));
}

TEST(Charts, TemperaturesAreInTheReadersUnitAndGapsAreNotMeasured) {
  const auto season = told_season();
  report::Reader us;
  us.fahrenheit = true;
  const Chart c = chart(season, "temperature"), f = chart(season, "temperature", us);
  ASSERT_EQ(c.bands.size(), f.bands.size());
  EXPECT_EQ(f.unit, "°F");
  EXPECT_NEAR(f.bands[1].points[0].mid, 32 + 1.8 * c.bands[1].points[0].mid, 1e-9);
  EXPECT_TRUE(has(f.description, "°F")) << f.description;
  const auto kinds = [&](Chart::Band::Kind kind) { return std::ranges::count(c.bands, kind, &Chart::Band::kind); };
  EXPECT_GT(kinds(Chart::Band::Kind::measured), 10);
  EXPECT_GT(kinds(Chart::Band::Kind::assumed), 10);
}

TEST(Charts, SayWhenThereIsNothingToDraw) {
  for (const char* name : {"nitrite", "survival", "losses", "oxygen"}) {
    const Chart made = chart(SmallSeason(), name, {}, 3);
    EXPECT_FALSE(made.empty.empty()) << name;
  }
}

TEST(Charts, RefuseAnUnknownName) {
  const auto season = told_season();
  const auto made = chart_of("weather", season.look(91), *season::look_at_counts({}, season.log(), on_day(91, 12)), {});
  ASSERT_FALSE(made.has_value());
  EXPECT_EQ(made.problems().front().code, "no_such_chart");
  EXPECT_TRUE(has(made.problems().front().sentence, "nitrite"));
}

}  // namespace
}  // namespace redd::print
