// What eggs did in published studies against the default curves. The curves are not fitted to these rows (but see
// rainbow's rival): the rows check the error model, an sd of 8 % between lots, and that nothing lies wildly off.
#include <gtest/gtest.h>

#include <cmath>

#include "biology/development_forecast.h"
#include "biology/species.h"
#include "numerics/normal.h"
#include "reference/development_rows.h"

namespace redd::reference {
namespace {

using namespace biology;

/// ln(observed / model).
double departure(const DevelopmentRow& row, std::string_view key = {}) {
  const auto model = model_for(*find_species(row.species), *stage_named(row.stage), key);
  return std::log(row.days / days_at(*model, Temperature::from_c(row.temperature_c))->count());
}

double error_sd(const DevelopmentRow& row) {
  const auto species = *find_species(row.species);
  const Stage stage = *stage_named(row.stage);
  const double outside_c = outside_test_range(*model_for(species, stage), Temperature::from_c(row.temperature_c)).c();
  return std::hypot(lot_log_sd(species, stage), extrapolation_log_sd_per_c * outside_c);
}

struct Summary {
  std::size_t count = 0;
  double bias = 0.0, sd = 0.0;
};

Summary summary_of(const std::vector<double>& values) {
  Summary s{values.size()};
  for (const double each : values) s.bias += each / static_cast<double>(values.size());
  for (const double each : values) s.sd += (each - s.bias) * (each - s.bias) / static_cast<double>(values.size() - 1);
  s.sd = std::sqrt(s.sd);
  return s;
}

std::vector<DevelopmentRow> rows_of(std::string_view species, std::string_view stage,
                                    std::string_view source_begins = {}) {
  std::vector<DevelopmentRow> chosen;
  for (const DevelopmentRow& row : development_rows("development_observed.csv"))
    if (row.species == species && row.stage == stage && row.source.starts_with(source_begins)) chosen.push_back(row);
  return chosen;
}

Summary summary_of(const std::vector<DevelopmentRow>& rows, std::string_view key = {}) {
  std::vector<double> departures;
  for (const DevelopmentRow& row : rows) departures.push_back(departure(row, key));
  return summary_of(departures);
}

// Velsen 1987: bias +2 %, sd 8 % (positive: observed later than the curve).
TEST(DevelopmentObserved, RainbowHatchInVelsenIsTwoPercentLate) {
  const Summary s = summary_of(rows_of("rainbow_trout", "hatch", "Velsen"));
  EXPECT_EQ(s.count, 42u);
  EXPECT_NEAR(s.bias, 0.02, 0.005);
  EXPECT_NEAR(s.sd, 0.08, 0.005);
}

// The rival was fitted to these very rows: no bias by construction, and its own sd of 0.069.
TEST(DevelopmentObserved, RainbowRivalFitsTheRowsItWasFittedTo) {
  const Summary s = summary_of(rows_of("rainbow_trout", "hatch", "Velsen"), "velsen1987");
  EXPECT_NEAR(s.bias, 0.0, 0.005);
  EXPECT_NEAR(s.sd, 0.069, 0.005);
}

TEST(DevelopmentObserved, AtlanticHatchIsThreePercentLate) {
  const Summary s = summary_of(rows_of("atlantic_salmon", "hatch"));
  EXPECT_EQ(s.count, 16u);
  EXPECT_NEAR(s.bias, 0.03, 0.005);
  EXPECT_NEAR(s.sd, 0.07, 0.01);
}

// Heming 1982, unfed alevins from large eggs: hatch 3-5.5 % and greatest weight 13-17 % later than Beacham & Murray.
TEST(DevelopmentObserved, ChinookOfHemingAreLaterThanTheCurve) {
  for (const DevelopmentRow& row : rows_of("chinook", "hatch")) {
    EXPECT_GT(std::expm1(departure(row)), 0.025) << row.shown();
    EXPECT_LT(std::expm1(departure(row)), 0.06) << row.shown();
  }
  for (const DevelopmentRow& row : rows_of("chinook", "swim_up")) {
    EXPECT_GT(std::expm1(departure(row)), 0.125) << row.shown();
    EXPECT_LT(std::expm1(departure(row)), 0.175) << row.shown();
  }
}

// First feeding against 1.7 x hatch: within 1.3 % for rainbow at 5 and 10 C and Atlantic salmon at 4, 4.8 and 8.1 C.
TEST(DevelopmentObserved, FirstFeedingIsWhereTheShareOfHatchPutsIt) {
  std::size_t count = 0;
  for (const std::string_view species : {"rainbow_trout", "atlantic_salmon"})
    for (const DevelopmentRow& row : rows_of(species, "swim_up")) {
      EXPECT_NEAR(departure(row), 0.0, 0.013) << row.shown();
      ++count;
    }
  EXPECT_EQ(count, 5u);
  for (const DevelopmentRow& row : rows_of("coho", "swim_up")) EXPECT_NEAR(departure(row), 0.0, 0.015) << row.shown();
}

TEST(DevelopmentObserved, NineTenthsLieInsideTheNinetyPercentInterval) {
  const double z_90 = numerics::normal_quantile(0.95);
  std::size_t count = 0, inside = 0;
  for (const DevelopmentRow& row : development_rows("development_observed.csv")) {
    if (!stage_named(row.stage)) continue;
    const double z = departure(row) / error_sd(row);
    EXPECT_LT(std::abs(z), 3.0) << row.shown() << " is far from the default curve";
    ++count;
    inside += std::abs(z) <= z_90;
  }
  EXPECT_EQ(count, 76u);
  // Binomial with 76 trials at 0.9: 62 to 74 hold 98 %.
  EXPECT_GE(inside, 62u);
}

// Baird et al. 2002: when the last egg of a strain had hatched. The curve's interval for the last of a wild lot must
// reach them, and the bias at 9.4 C is why brook trout carry a wider error than the others.
TEST(DevelopmentObserved, LastBrookHatchIsReachedByTheWiderWindow) {
  const auto rows = rows_of("brook_trout", "hatch_complete");
  ASSERT_EQ(rows.size(), 8u);
  const auto species = *find_species("brook_trout");
  const double last_z = 2.7;  // the last of a few hundred
  for (DevelopmentRow row : rows) {
    row.stage = "hatch";
    const double z = (departure(row) - last_z * batch_log_sd(EggOrigin::wild)) / species.lot_log_sd;
    EXPECT_LT(std::abs(z), 1.9) << row.shown();
  }
}

// Hatch to emergence, thermal units after hatch. Read in a report of the Norwegian Institute of Marine Research.
TEST(DevelopmentObserved, AtlanticHatchToEmergenceLiesInThePublishedRange) {
  const auto species = *find_species("atlantic_salmon");
  for (const double t : {4.0, 6.0, 8.0}) {
    const double days = days_at(*model_for(species, Stage::swim_up), Temperature::from_c(t))->count() -
                        days_at(*model_for(species, Stage::hatch), Temperature::from_c(t))->count();
    EXPECT_GE(days * t, 325.0) << t << " C";  // printed 335-400; the curve's 8 % error allows 3 % below
    EXPECT_LE(days * t, 400.0) << t << " C";
  }
}

}  // namespace
}  // namespace redd::reference
