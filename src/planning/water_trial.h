#pragma once
// What a change the keeper proposes would do: before and after, the day after, the weeks after, and what speaks against it. Nothing is kept. Start at try_change().

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "planning/water_programme.h"

namespace redd::planning {

struct ChangeWished {
  double fraction = 0;                              ///< 0-1 of the tank
  std::optional<std::string> source{};              ///< key of a source water on record; the newest when absent
  std::optional<Temperature> new_water{};           ///< as it is poured; tempered to the tank when absent
  bool vacuum = false;
  bool stood = true;                                ///< a day with an air stone at the tank's temperature
  bool dechlorinated = true;
};

enum class TriedQuantity { un_ionized_ammonia, total_ammonia, nitrite, nitrate, ph, alkalinity, hardness, temperature, gas, chlorine };
inline constexpr std::size_t tried_quantity_count = 10;
std::string_view tried_key(TriedQuantity quantity);

/// Canonical units; un-ionized ammonia as N, gas as a share of balance, chlorine mg/L.
struct TriedRow {
  TriedQuantity quantity;
  Estimate<double> before{}, after{};
  std::optional<Estimate<double>> next_day{};
};

struct TriedWater {
  ChangeWished wished{};
  PlannedChange change{};
  NewWater source{};
  std::vector<TriedRow> rows{};
  Estimate<double> vacuumed_mg_n{};                 ///< of the whole tank; zero without vacuuming
  WaterForecast with{}, without{};                  ///< over the programme's weeks, this change alone
  Date day{}, last{};
  std::vector<Sentence> warnings{};                 ///< what speaks against it, worst first; empty: nothing that is known
  std::vector<Sentence> notes{};
};

/// In      wished: fraction above 0 and at most 1; source on record.
/// Errors  unknown_source; out_of_range. Fields "/source", "/fraction".
Result<TriedWater> try_change(const WaterCase& made, const ChangeWished& wished);

}  // namespace redd::planning
