#pragma once
// How much food fry want, and what it costs the water. Start at ration(). Amounts are dry starter food, as a share of the fish's own mass a day.

#include <optional>
#include <string_view>

#include "quantities/estimate.h"
#include "quantities/temperature.h"
#include "quantities/water.h"

namespace redd::biology {

/// Published chart of a trout hatchery: share of the body mass a day, to fish of under one inch (0.178 g) and of one to two inches (1.49 g).
///
/// Out     nothing beyond the chart read: under 3.9 or over 13.9 C, or fish over 1.49 g. Straight lines between its temperatures.
/// Source  [leitritz1976] chart of trout, as an extension service prints it (39, 41, 45, 53, 57 F); under one inch at 50 F from memory.
std::optional<double> chart_ration_leitritz1976(Mass weight, Temperature water);

/// Share of the body mass a day that lets fish grow along the published line: 300 conversion GC (T/1000) / W^(1/3) percent.
///
/// In      weight > 0. conversion: g food a g of growth, > 0. growth_coefficient: times 1000, > 0.
/// Out     0-1; water beyond 14 C counts as 14 C, below 0 C as 0 C.
/// Source  the derivative of W^(1/3) = W0^(1/3) + GC (T/1000) t [iwama1981].
double growth_ration_iwama1981(Mass weight, Temperature water, double conversion = 1.0, double growth_coefficient = 1.0);

/// What published tables would have a fish fed in a day, as a share of its mass: the middle by the growth line (GC 1, a gram of food a gram of fish), both sources in the range.
struct RationShare {
  Estimate<double> fraction_per_day{0, 0, 0};
  bool in_table = true;  ///< false: outside the temperatures or weights that the sources cover
};
/// In      weight > 0.
RationShare ration(Mass weight, Temperature water);

/// Part of the published ration that is fed in a school's tank.
/// Assumed: half to seven tenths, since the filter and not the fish sets the limit; the rest of the food would only be ammonia.
inline constexpr double school_share_of_table = 0.6;

/// Feedings a day: eight to ten small ones in the first three weeks, later five [hinshaw1999]. A school manages four to six (common practice, no source).
struct FeedingsADay {
  int wanted = 8;
  int least = 4;
};
FeedingsADay feedings_a_day(bool first_weeks);

/// Grain of the food, in words. Source  first particle below 0.5 mm (FAO); sizes by weight: extension chart (West Virginia).
std::string_view food_grain(Mass weight);

/// Longest time without food to plan for, in days: one in the first three weeks of feeding and below 0.3 g, two to 1 g, then four.
/// Source  Unfed salmon fry whose yolk is gone starve in about four days [letcher2001]; weekends without food cost 30 g trout an eighth of their
///         growth and no life (Aquaculture 543, 2021). No trial with fry of first feeding could be read: common practice, no source.
int longest_gap_days(Mass weight, bool first_weeks);
inline constexpr int first_weeks_days = 21;

/// Protein of starter food. Source  starter food holds about half protein [hinshaw1999].
inline constexpr double starter_protein_fraction = 0.5;

/// Ammonia that a gram of food of this protein (a fraction) sets free when it is eaten, mg N. Source  0.092 x protein [timmons2007], from memory.
constexpr double ammonia_of_food_mg_n_per_g(double protein_fraction) { return 1000.0 * 0.092 * protein_fraction; }
/// All nitrogen in it: protein holds 16 %.
constexpr double nitrogen_of_food_mg_n_per_g(double protein_fraction) { return 1000.0 * 0.16 * protein_fraction; }

/// Ammonia set free by a gram of starter food eaten, mg N.
/// Source  0.092 x protein [timmons2007] (from memory): 46 at half protein; 25-40 g N a kilogram in trout handbooks (from memory): 25 to 51.
Estimate<double> ammonia_of_eaten_mg_n_per_g();
/// Nitrogen that a gram of starter food left lying sets free as it rots, mg N: 0.45-0.55 protein.
Estimate<double> nitrogen_of_uneaten_mg_n_per_g();
/// Oxygen used for a gram of food by fish (0.25 g) and the whole tank with its bacteria (0.5 g), mg. Source  [timmons2007], from memory.
Estimate<double> oxygen_of_food_mg_o2_per_g();

/// Ammonia of unfed fish as a share of fed ones'. Source  0.07 against 0.30 g N/(kg d) in rainbow trout [vanweerd1995].
inline constexpr double unfed_ammonia_share = 0.07 / 0.30;

}  // namespace redd::biology
