#pragma once
// What the water must keep to over the coming weeks, by what lives in the tank on each day. Start at water_limits().

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "inference/filter_season.h"

namespace redd::planning {

/// What can be broken. `jump`: one water change moves something further at once than animals should bear.
enum class WaterLimitKind { un_ionized_ammonia, nitrite, nitrate, ph, alkalinity, hardness, temperature, jump };
inline constexpr std::size_t water_limit_count = 8;
/// Stable word: "un_ionized_ammonia", …
std::string_view limit_key(WaterLimitKind kind);
/// As a word in sentences: "un-ionized ammonia", …
std::string_view limit_name(WaterLimitKind kind);

/// Most that one change may move at once.
/// Source  pH: man-made change in salmonid waters, Directive 2006/44/EC, annex I. Temperature: 1 C an hour, common hatchery practice, from memory.
/// Assumed: KH and GH by two German degrees; salts in and out of eggs and gills then follow within hours.
struct LargestJump {
  double ph = 0.5;
  double temperature_c = 1.0;
  double hardness_meq_per_l = 2.0 * 0.35664;
};

/// Temperatures that the animals bear from a day on.
struct StageTemperatures {
  double from_day = 0;  ///< days since the season's begin
  double low_c = 0, high_c = 0;
  std::string animals{};
};

struct WaterLimits {
  std::optional<double> from_day{};  ///< limits hold from here on, days since the season's begin; never: nothing will live in the tank
  double un_ionized_mg_n_per_l = 0;
  double nitrite_mg_n_per_l = 0;
  double nitrate_mg_n_per_l = 0;
  double ph_low = 0, ph_high = 0;
  double alkalinity_low_meq_per_l = 0;
  std::optional<double> alkalinity_high_meq_per_l{};  ///< drift from the water the brood came into; nothing: not known
  std::optional<double> hardness_low_meq_per_l{}, hardness_high_meq_per_l{};
  std::vector<StageTemperatures> temperatures{};      ///< in order of day; never empty
  LargestJump jump{};

  const StageTemperatures& temperatures_on(double day) const;
  bool hold_on(double day) const { return from_day && day >= *from_day; }
};

/// Largest drift of KH or GH from the water the brood came into: half of it, at least two German degrees.
/// Assumed: no trial was found; streams move by as much within a season.
double largest_drift_meq_per_l(double normal_meq_per_l);

/// In      belief, now: of the same moment.
WaterLimits water_limits(const records::SeasonSetup& season, const inference::Belief& belief, const inference::FilterCase& now, const ZoneOffsets& zone);

/// One limit with where it comes from, to be shown.
struct LimitLine {
  WaterLimitKind kind;
  Sentence sentence{};
  std::string source{};
};
/// In      belief: nitrogen is shown as its cards print it.
std::vector<LimitLine> limit_lines(const WaterLimits& limits, const inference::Belief& belief);

}  // namespace redd::planning
