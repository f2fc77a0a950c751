#include "planning/detail/water_search.h"

#include <algorithm>
#include <cmath>

namespace redd::planning {
namespace {

using ChangeDays = std::vector<Date>;
using std::chrono::days;

constexpr double allowed = 1.0 - searched_safe_probability;
/// Where none keeps the limits: share of the days beyond a limit that a programme must save to be worth its stir, and what is as good as the best. Assumed.
constexpr double worth_a_stir = 0.05, as_good = 0.02;
/// How much likelier a programme may make any one limit broken: the noise of the draws.
constexpr double noise = 0.03;

/// Open days `apart` days from each other, from open[first] on. Of a due day that is closed the last open one before it, unless that follows too soon.
ChangeDays rhythm(const std::vector<Date>& open, std::size_t first, int apart, std::size_t most) {
  ChangeDays chosen;
  if (first >= open.size()) return chosen;
  chosen.push_back(open[first]);
  const days least(std::max(fewest_days_between, apart - 3));
  constexpr days beyond{3};  // a due day in the weekend after the last open day still counts for that day
  while (chosen.size() < most && chosen.back() + days(apart) <= open.back() + beyond) {
    auto next = std::ranges::upper_bound(open, chosen.back() + days(apart)) - 1;
    while (next != open.end() && *next - chosen.back() < least) ++next;
    if (next == open.end()) break;
    chosen.push_back(*next);
  }
  return chosen;
}

double total_of(const std::vector<WaterDeed>& deeds) {
  double total = 0.0;
  for (const WaterDeed& deed : deeds) total += deed.fraction;
  return total;
}

std::vector<double> sizes_up_to(double largest) {
  std::vector<double> sizes;
  for (const double size : {0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5})
    if (size <= largest + 1e-9) sizes.push_back(size);
  if (sizes.empty() && largest > 0.0) sizes.push_back(largest);
  return sizes;
}

/// What a programme must do: keep the limits, or where none does be beyond them for no longer than this share of the days.
struct Goal {
  std::optional<double> exposure{};
  double give_up_above = allowed;
  bool is_met(const FoundProgramme& f) const { return exposure ? f.exposure <= *exposure : f.broken_probability <= allowed; }
};

class Search {
 public:
  /// In      first: what is done in any case, before the rest. base: the forecast with it alone.
  Search(const WaterCase& made, const SearchRoom& room, std::optional<WaterDeed> first, const WaterForecast& base)
      : made_(made), course_(made.course()), sizes_(sizes_up_to(room.largest)), vacuum_(room.vacuum), first_(std::move(first)), base_(base) {}

  const std::vector<double>& sizes() const { return sizes_; }
  /// Index of the largest size that this rhythm allows: no more than most_a_week in any seven days.
  std::size_t sizes_for(const ChangeDays& on) const {
    std::ptrdiff_t in_a_week = 1;
    for (auto first = on.begin(); first != on.end(); ++first)
      in_a_week = std::max(in_a_week, std::ranges::lower_bound(on, *first + days(7)) - first);
    std::ptrdiff_t after_first = 0;
    if (first_) after_first = std::ranges::lower_bound(on, made_.date_of(first_->at_day) + days(7)) - on.begin();
    const auto fits = [&](double size) {
      return size * static_cast<double>(in_a_week) <= most_a_week + 1e-9 && (after_first == 0 || first_->fraction + size * static_cast<double>(after_first) <= most_a_week + 1e-9);
    };
    std::size_t index = sizes_.size() - 1;
    while (index > 0 && !fits(sizes_[index])) --index;
    return index;
  }

  FoundProgramme run(const ChangeDays& on, double size, double give_up_above) {
    std::vector<WaterDeed> deeds;
    for (const Date day : on)
      if (const double part = made_.asked_today.largest_on(day, size); part > 0.0) deeds.push_back(deed_of(planned_change(made_, made_.noon_of(day), part, vacuum_)));
    return run(std::move(deeds), give_up_above);
  }
  FoundProgramme run(std::vector<WaterDeed> deeds, double give_up_above) {
    ++runs;
    std::vector<WaterDeed> all = deeds;
    if (first_) all.insert(all.begin(), *first_);
    const WaterForecast found = forecast_water(made_.tanks, course_, all, {.give_up_above = give_up_above});
    if (harms(found)) return {std::move(deeds), 1.0, 1.0, runs};
    return {std::move(deeds), found.broken_probability, found.exposure, runs};
  }

  /// The smallest size of this rhythm that holds, by halving; `known` holds at sizes()[known_index].
  FoundProgramme smallest(const ChangeDays& on, FoundProgramme known, std::size_t known_index, const Goal& goal) {
    std::size_t low = 0, high = known_index;  // high holds
    while (low < high) {
      const std::size_t middle = (low + high) / 2;
      FoundProgramme tried = run(on, sizes_[middle], goal.give_up_above);
      if (goal.is_met(tried)) {
        known = std::move(tried);
        high = middle;
      } else {
        low = middle + 1;
      }
    }
    return known;
  }

  /// Leaves out or lessens one change after the other as long as it holds.
  void trim(FoundProgramme& found, const Goal& goal) {
    for (std::size_t i = found.deeds.size(); i-- > 0;) {
      auto without = found.deeds;
      without.erase(without.begin() + static_cast<std::ptrdiff_t>(i));
      if (keep_if_holds(found, std::move(without), goal)) continue;
      auto less = found.deeds;
      const double smaller = less[i].fraction > 0.25 ? less[i].fraction - 0.1 : less[i].fraction - 0.05;
      if (smaller < 0.09) continue;
      less[i] = deed_of(planned_change(made_, less[i].at_day, smaller, vacuum_));
      keep_if_holds(found, std::move(less), goal);
    }
  }

  int runs = 0;

 private:
  /// A change must not mend one limit by breaking another.
  bool harms(const WaterForecast& found) const {
    for (std::size_t k = 0; k < water_limit_count; ++k)
      if (found.by_limit[k] > std::max(base_.by_limit[k] + noise, allowed) || found.exposure_by_limit[k] > base_.exposure_by_limit[k] + noise) return true;
    return !found.sound;
  }
  bool keep_if_holds(FoundProgramme& found, std::vector<WaterDeed> deeds, const Goal& goal) {
    FoundProgramme tried = run(std::move(deeds), goal.give_up_above);
    if (!goal.is_met(tried)) return false;
    found = std::move(tried);
    return true;
  }

  const WaterCase& made_;
  WaterCourse course_;
  std::vector<double> sizes_;
  bool vacuum_;
  std::optional<WaterDeed> first_;
  const WaterForecast& base_;
};

struct Tried {
  ChangeDays on{};
  FoundProgramme found{};
};

/// None holds: of those that are beyond a limit hardly longer than the best the one that takes least water, made as small as that allows.
FoundProgramme best_of(Search& search, std::vector<Tried> tried, FoundProgramme none) {
  double best = none.exposure;
  for (const Tried& t : tried) best = std::min(best, t.found.exposure);
  if (none.exposure <= best + worth_a_stir) return none;
  const Goal goal{best + as_good, 2.0};
  std::erase_if(tried, [&](const Tried& t) { return !goal.is_met(t.found); });
  const Tried least = *std::ranges::min_element(tried, {}, [](const Tried& t) { return total_of(t.found.deeds); });
  FoundProgramme found = search.smallest(least.on, least.found, search.sizes_for(least.on), goal);
  search.trim(found, goal);
  return found;
}

}  // namespace

std::vector<std::vector<Date>> change_rhythms(const std::vector<Date>& open) {
  std::vector<ChangeDays> all;
  const auto add = [&](ChangeDays on) {
    if (!on.empty() && std::ranges::find(all, on) == all.end()) all.push_back(std::move(on));
  };
  if (open.empty()) return all;
  const std::size_t next = open.size() > 1 ? 1 : 0;
  for (std::size_t i = 0; i + 1 < open.size(); ++i)
    if (open[i + 1] - open[i] > days(3)) add({open[i]});  // before a break
  for (const std::size_t first : {next, std::size_t{0}})  // rather the day after
    for (const std::size_t most : {1u, 2u, 3u}) add(rhythm(open, first, 7, most));
  if (const auto later = std::ranges::lower_bound(open, open.front() + days(7)); later != open.end()) add({*later});
  add(rhythm(open, 0, 4, 99));
  // Pressing: twice within a few days, then weekly; at last three times a week.
  ChangeDays pressing = rhythm(open, 0, fewest_days_between, 2);
  for (const Date day : rhythm(open, static_cast<std::size_t>(std::ranges::find(open, pressing.back()) - open.begin()), 7, 3))
    if (day > pressing.back()) pressing.push_back(day);
  add(pressing);
  add(rhythm(open, 0, fewest_days_between, 99));
  std::ranges::stable_sort(all, {}, [](const ChangeDays& on) { return on.size(); });
  return all;
}

namespace {

/// What today's list asks, on the day it is made, with its forecast.
struct FirstStep {
  WaterDeed deed;
  WaterForecast alone;
};

/// On the list's day; earlier where limits are broken else and the earlier day keeps them, or shortens the time beyond them by enough to be worth it.
FirstStep first_step(const WaterCase& made, const AskedToday::Change& asked, const SearchRoom& room) {
  const auto on = [&](Date day) {
    const WaterDeed deed = deed_of(planned_change(made, made.noon_of(day), asked.fraction, room.vacuum));
    return FirstStep{deed, forecast_water(made.tanks, made.course(), std::span(&deed, 1))};
  };
  FirstStep first = on(asked.by);
  if (!room.may_come_earlier || first.alone.broken_probability <= allowed) return first;
  for (auto day = made.open_days.rbegin(); day != made.open_days.rend(); ++day) {
    if (*day >= asked.by || made.asked_today.largest_on(*day, asked.fraction) < asked.fraction) continue;
    FirstStep earlier = on(*day);
    if (earlier.alone.broken_probability > allowed && earlier.alone.exposure > first.alone.exposure - as_good) continue;
    first = std::move(earlier);
    if (first.alone.broken_probability <= allowed) break;
  }
  return first;
}

/// The days left for more changes.
std::vector<Date> days_after(const WaterCase& made, const std::optional<FirstStep>& first) {
  std::vector<Date> open = made.open_days;
  if (first) std::erase_if(open, [earliest = made.date_of(first->deed.at_day) + days(fewest_days_between)](Date day) { return day < earliest; });
  return open;
}

FoundProgramme searched(const WaterCase& made, const SearchRoom& room, const std::optional<FirstStep>& first, const WaterForecast& base) {
  const FoundProgramme none{{}, base.broken_probability, base.exposure, 0};
  if (none.broken_probability <= allowed) return none;
  Search search(made, room, first ? std::optional(first->deed) : std::nullopt, base);
  if (search.sizes().empty()) return none;
  std::vector<Tried> tried;
  std::optional<FoundProgramme> best;
  for (const ChangeDays& on : change_rhythms(days_after(made, first))) {
    if (best && search.sizes().front() * static_cast<double>(on.size()) >= total_of(best->deeds) - 1e-9) continue;
    std::size_t index = search.sizes_for(on);
    FoundProgramme found = search.run(on, search.sizes()[index], 2.0);
    if (found.broken_probability > allowed && index > 2) {
      // Too much of a water that brings its own trouble can be what breaks a limit.
      FoundProgramme middling = search.run(on, search.sizes()[2], 2.0);
      if (middling.broken_probability <= allowed || (found.broken_probability >= 1.0 && middling.exposure < found.exposure)) {
        found = std::move(middling);
        index = 2;
      }
    }
    if (found.broken_probability > allowed) {
      tried.push_back({on, std::move(found)});
      continue;
    }
    found = search.smallest(on, std::move(found), index, {});
    if (!best || total_of(found.deeds) < total_of(best->deeds) - 1e-9) best = std::move(found);
  }
  if (best) search.trim(*best, {});
  else best = best_of(search, std::move(tried), none);
  best->runs = search.runs;
  return *best;
}

}  // namespace

FoundProgramme search_programme(const WaterCase& made, const SearchRoom& room, const WaterForecast& without) {
  std::optional<FirstStep> first;
  if (const auto& asked = made.asked_today.change; asked && made.noon_of(asked->by) < made.until_day) first = first_step(made, *asked, room);
  FoundProgramme found = searched(made, room, first, first ? first->alone : without);
  if (!first) return found;
  found.deeds.insert(found.deeds.begin(), first->deed);
  // Where the list's size does not lead to kept limits, one that begins with more and no later does what the list asks too.
  if (room.may_come_earlier && found.broken_probability > allowed) {
    FoundProgramme more = searched(made, room, std::nullopt, without);
    const bool covers = !more.deeds.empty() && more.deeds.front().fraction >= first->deed.fraction - 1e-9 && more.deeds.front().at_day <= first->deed.at_day + 1e-9;
    if (covers && (more.broken_probability <= allowed || more.exposure < found.exposure - as_good)) found = std::move(more);
  }
  found.on_list = true;
  return found;
}

}  // namespace redd::planning
