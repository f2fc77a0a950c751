#include "biology/ration.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

namespace redd::biology {
namespace {

constexpr double grams_per_pound = 453.59237;
/// Fish a pound at one and at two inches, as the chart heads its columns.
constexpr double one_inch_per_pound = 2542.0, two_inches_per_pound = 304.0;

struct ChartRow {
  double temperature_f, percent;
};
constexpr std::array<ChartRow, 6> under_one_inch{{{39, 3.0}, {41, 3.3}, {45, 4.0}, {50, 5.2}, {53, 5.6}, {57, 6.7}}};
constexpr std::array<ChartRow, 5> one_to_two_inches{{{39, 2.5}, {41, 2.8}, {45, 3.3}, {53, 4.7}, {57, 5.5}}};

std::optional<double> between(std::span<const ChartRow> rows, double f) {
  constexpr double slip_f = 1e-9;  // 41 F may have come through Celsius
  if (f < rows.front().temperature_f - slip_f || f > rows.back().temperature_f + slip_f) return std::nullopt;
  std::size_t i = 1;
  while (i + 1 < rows.size() && f > rows[i].temperature_f) ++i;
  const double way = (f - rows[i - 1].temperature_f) / (rows[i].temperature_f - rows[i - 1].temperature_f);
  return (rows[i - 1].percent + way * (rows[i].percent - rows[i - 1].percent)) / 100.0;
}

/// Where the growth line's table stands on published ground.
constexpr double table_low_c = 4.0, table_high_c = 14.0, table_lightest_g = 0.1, table_heaviest_g = 5.0;

}  // namespace

std::optional<double> chart_ration_leitritz1976(Mass weight, Temperature water) {
  const double per_pound = grams_per_pound / weight.g();
  if (per_pound < two_inches_per_pound) return std::nullopt;
  return per_pound >= one_inch_per_pound ? between(under_one_inch, water.f()) : between(one_to_two_inches, water.f());
}

double growth_ration_iwama1981(Mass weight, Temperature water, double conversion, double growth_coefficient) {
  const double percent = conversion * 300.0 * growth_coefficient * std::clamp(water.c(), 0.0, 14.0) / 1000.0 / std::cbrt(weight.g());
  return std::min(1.0, percent / 100.0);
}

RationShare ration(Mass weight, Temperature water) {
  RationShare share;
  const double grown = growth_ration_iwama1981(weight, water);
  const double charted = chart_ration_leitritz1976(weight, water).value_or(grown);
  share.fraction_per_day = {std::min(grown, charted), grown, std::max(grown, charted), Support::inferred};
  share.in_table = water.c() >= table_low_c && water.c() <= table_high_c && weight.g() >= table_lightest_g && weight.g() <= table_heaviest_g;
  return share;
}

FeedingsADay feedings_a_day(bool first_weeks) { return first_weeks ? FeedingsADay{8, 4} : FeedingsADay{5, 3}; }

std::string_view food_grain(Mass weight) {
  if (weight.g() < 0.3) return "the finest starter food, grains under 0.5 mm";
  if (weight.g() < 0.76) return "the second grain of starter food, the next size up";
  return "the third grain of starter food";
}

int longest_gap_days(Mass weight, bool first_weeks) {
  if (first_weeks || weight.g() < 0.3) return 1;
  return weight.g() < 1.0 ? 2 : 4;
}

Estimate<double> ammonia_of_eaten_mg_n_per_g() {
  return {25.0, ammonia_of_food_mg_n_per_g(starter_protein_fraction), ammonia_of_food_mg_n_per_g(0.55), Support::inferred};
}

Estimate<double> nitrogen_of_uneaten_mg_n_per_g() {
  return {nitrogen_of_food_mg_n_per_g(0.45), nitrogen_of_food_mg_n_per_g(starter_protein_fraction), nitrogen_of_food_mg_n_per_g(0.55), Support::inferred};
}

Estimate<double> oxygen_of_food_mg_o2_per_g() { return {250.0, 350.0, 500.0, Support::inferred}; }

}  // namespace redd::biology
