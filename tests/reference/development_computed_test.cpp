// Day values the published constants must give, to the last printed digit. They check the arithmetic, not the eggs.
#include <gtest/gtest.h>

#include "biology/species.h"
#include "reference/development_rows.h"

namespace redd::reference {
namespace {

using namespace biology;

double days(std::string_view species, Stage stage, double temperature_c, std::string_view key = {}) {
  return days_at(*model_for(*find_species(species), stage, key), Temperature::from_c(temperature_c))->count();
}

TEST(DevelopmentComputed, AgreesWithEveryRowToItsLastDigit) {
  const auto rows = development_rows("development_computed.csv");
  EXPECT_EQ(rows.size(), 36u);
  for (const DevelopmentRow& row : rows) {
    const auto stage = stage_named(row.stage);
    ASSERT_TRUE(stage) << row.shown();
    EXPECT_NEAR(days(row.species, *stage, row.temperature_c), row.days, row.half_last_digit * 1.0001) << row.shown();
  }
}

// Thermal units to hatch, worked out by another program from the same constants: they rise with temperature in the cold
// and fall again.
TEST(DevelopmentComputed, GivesTheThermalUnitsToHatch) {
  const auto units = [](std::string_view species, double t) { return t * days(species, Stage::hatch, t); };
  EXPECT_NEAR(units("chinook", 4), 519, 0.5);
  EXPECT_NEAR(units("chinook", 8), 539, 0.5);
  EXPECT_NEAR(units("chinook", 12), 524, 0.5);
  EXPECT_NEAR(units("coho", 4), 431, 0.5);
  EXPECT_NEAR(units("coho", 8), 464, 0.5);
  EXPECT_NEAR(units("coho", 12), 449, 0.5);
  EXPECT_NEAR(units("atlantic_salmon", 1), 211, 0.5);
  EXPECT_NEAR(units("atlantic_salmon", 4), 467, 0.5);
  EXPECT_NEAR(units("atlantic_salmon", 8), 498, 0.5);
}

// Crisp 1988, summary: eyed 0.5 and swim-up 1.7 of the days to hatch.
TEST(DevelopmentComputed, DerivesEyedAndSwimUpByTheSharesOfCrisp1988) {
  for (const double t : {2.0, 5.0, 9.0}) {
    EXPECT_DOUBLE_EQ(days("rainbow_trout", Stage::eyed, t), 0.5 * days("rainbow_trout", Stage::hatch, t));
    EXPECT_DOUBLE_EQ(days("atlantic_salmon", Stage::swim_up, t), 1.7 * days("atlantic_salmon", Stage::hatch, t));
    EXPECT_DOUBLE_EQ(days("coho", Stage::eyed, t), 0.5 * days("coho", Stage::hatch, t));
  }
}

// Rivals held for one species: how far apart the sources of the defaults were found to be.
TEST(DevelopmentRivals, OfChinookHatchAgreeWithin3Percent) {
  for (double t = 4.0; t <= 14.0; t += 1.0) {
    const double ratio = days("chinook", Stage::hatch, t, "crisp1981") / days("chinook", Stage::hatch, t);
    EXPECT_NEAR(ratio, 1.0, 0.03) << t << " C";
  }
}

TEST(DevelopmentRivals, OfSockeyeHatchAgreeWithin5Percent) {
  for (double t = 4.0; t <= 12.0; t += 1.0) {
    const double ratio = days("sockeye", Stage::hatch, t, "beacham1990_thermal_sum") / days("sockeye", Stage::hatch, t);
    EXPECT_NEAR(ratio, 1.0, 0.05) << t << " C";
  }
}

// Rombough 1985, abstract: at 12 C his two equations give 66-69 d where Beacham & Murray give 76.
TEST(DevelopmentRivals, OfChinookSwimUpPartWhenWarm) {
  EXPECT_NEAR(days("chinook", Stage::swim_up, 12.0), 76.0, 0.5);
  EXPECT_NEAR(days("chinook", Stage::swim_up, 12.0, "rombough1985_ponding"), 66.0, 0.5);
  EXPECT_NEAR(days("chinook", Stage::swim_up, 12.0, "rombough1985"), 67.5, 1.5);
}

// Heming, McInerney & Alderdice 1982, abstract: best first feeding from 905 to 1201.1 - 20.3 T thermal units, below 12
// C.
TEST(DevelopmentRivals, ChinookSwimUpLiesInThePublishedFeedingWindow) {
  for (double t = 6.0; t <= 12.0; t += 0.5) {
    const double units = t * days("chinook", Stage::swim_up, t);
    EXPECT_GE(units, 905.0) << t << " C";
    EXPECT_LE(units, 1201.1 - 20.3 * t) << t << " C";
  }
}

}  // namespace
}  // namespace redd::reference
