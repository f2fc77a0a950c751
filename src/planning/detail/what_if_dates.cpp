#include "planning/detail/what_if_dates.h"

#include <algorithm>
#include <cmath>

#include "biology/species.h"
#include "biology/development_forecast.h"

namespace redd::planning::detail {
namespace {

/// A curve's progress a day by temperature, straight between quarters of a degree.
class ProgressTable {
 public:
  explicit ProgressTable(const biology::DevelopmentModel& model) {
    for (int i = 0; i <= 4 * warmest_c + 1; ++i) a_day_.push_back(biology::progress_per_day(model, Temperature::from_c(0.25 * i)));
  }
  double at(double c) const {
    const double position = std::clamp(4.0 * c, 0.0, 4.0 * warmest_c);
    const auto i = static_cast<std::size_t>(position);
    const double rest = position - static_cast<double>(i);
    return (1.0 - rest) * a_day_[i] + rest * a_day_[i + 1];
  }

 private:
  static constexpr int warmest_c = 30;
  std::vector<double> a_day_{};
};

/// Progress since `from`, by the beginning of each day.
std::vector<std::vector<double>> progress_of(const biology::DevelopmentModel& model, const WorldPaths& paths, std::size_t from) {
  const ProgressTable table(model);
  std::vector<std::vector<double>> all;
  for (const auto& path : paths) {
    std::vector<double> sum(path.size(), 0.0);
    for (std::size_t i = from; i + 1 < path.size(); ++i) sum[i + 1] = sum[i] + table.at(0.5 * (path[i] + path[i + 1]));
    all.push_back(std::move(sum));
  }
  return all;
}

WhatIfWindow window_of(const std::vector<Lot>& lots, StageNeed Lot::*stage, const std::vector<std::vector<double>>& progress, std::size_t from) {
  struct At {
    double day, weight;
  };
  std::vector<At> all;
  all.reserve(lots.size() * progress.size());
  double whole = 0.0, past = 0.0;
  for (const Lot& lot : lots) {
    const double left = (lot.*stage).need - (lot.*stage).done;
    for (const auto& sum : progress) {
      whole += lot.weight;
      if (left <= 0.0) past += lot.weight;
      const auto begin = sum.begin() + static_cast<std::ptrdiff_t>(from);
      const auto reached = std::lower_bound(begin, sum.end(), left);
      if (reached == sum.end()) continue;
      double day = static_cast<double>(reached - sum.begin());
      if (reached != begin) day -= (*reached - left) / (*reached - *(reached - 1));
      all.push_back({day, lot.weight});
    }
  }
  WhatIfWindow window;
  window.past = past > 0.5 * whole;
  if (window.past) return window;
  std::ranges::sort(all, {}, &At::day);
  const auto at = [&](double share) -> std::optional<double> {
    double sum = 0.0;
    for (const At& each : all)
      if ((sum += each.weight) >= share * whole) return each.day;
    return std::nullopt;
  };
  window.low = at(0.05);
  window.mid = at(0.5);
  window.high = at(0.95);
  return window;
}

}  // namespace

void foretell_dates(const WhatIfDates& dates, const WorldPaths& paths, WhatIfWindow& hatch, WhatIfWindow& swim_up) {
  const auto species = biology::find_species(dates.species);
  if (!species || paths.empty()) return;
  const auto from = static_cast<std::size_t>(std::clamp(dates.from_index, 0, static_cast<int>(paths.front().size()) - 1));
  const auto tell = [&](biology::Stage stage, const std::string& key, StageNeed Lot::*need, WhatIfWindow& window) {
    const auto model = biology::model_for(*species, stage, key);
    if (model) window = window_of(dates.lots, need, progress_of(*model, paths, from), from);
  };
  tell(biology::Stage::hatch, dates.hatch_model, &Lot::hatch, hatch);
  tell(biology::Stage::swim_up, dates.swim_up_model, &Lot::swim_up, swim_up);
}

}  // namespace redd::planning::detail
