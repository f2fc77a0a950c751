#include "planning/wish_obstacles.h"

#include <algorithm>

#include "quantities/verbatim.h"

namespace redd::planning {
namespace {

using std::chrono::days;

constexpr std::string_view hatch_key = "hatch_on_school_days", feeding_key = "feeding_outside_breaks", window_key = "swim_up_in_window";

/// "Long break, Summer and 2 more".
Phrase names_between(const records::SchoolCalendar& calendar, Date first, Date last) {
  constexpr int most_named = 3;
  std::string out;
  int count = 0;
  for (const auto& closure : calendar.closures()) {
    if (closure.shut_from || closure.from > last || records::last_day_of(closure) < first) continue;
    if (++count <= most_named) out += (out.empty() ? "" : ", ") + closure.name;
  }
  return count > most_named ? said("{0} and {1} more", verbatim(out), count - most_named) : verbatim(out);
}

PlanObstacle closed_all_along(const std::string& key, const SeasonQuestion& q, const records::SchoolCalendar& calendar) {
  const Date first = q.days.front().day, last = q.days.back().day;
  const Word names{names_between(calendar, first, last)};
  if (key == hatch_key)
    return {"holiday_covers_season", key,
            {"The school is closed on every day from {0} to {1} ({2}), so no hatch can fall on a school day. Correct the closure's days, or take other days for the eggs.", {first, last, names}}};
  return {"holiday_covers_season", key,
          {"From {0} to {1} there are no days on which somebody feeds ({2}). Correct the closure's days, log who is on duty in the break, or take other days for the eggs.", {first, last, names}}};
}

std::optional<PlanObstacle> outside_window(const SeasonQuestion& q, const records::SeasonSetup& season) {
  const Date first = q.days.front().day, last = q.days.back().day;
  if (!season.release_until) return std::nullopt;
  if (*season.release_until < first)
    return PlanObstacle{"release_window_past", std::string(window_key),
                        {"The permit's time for a release ended on {0}, before {1}, the first day that can be planned. Ask for a later one and correct the set-up.", {*season.release_until, first}}};
  if (season.release_from && *season.release_from > last)
    return PlanObstacle{"release_window_far", std::string(window_key),
                        {"The permit allows a release only from {0}, long after {1}, the last day that can be planned. Check the year in the set-up, or take the eggs later.", {*season.release_from, last}}};
  return std::nullopt;
}

/// A permit that the fry come too late or too early for, by the days the wish would have to give way.
std::optional<Sentence> about_the_permit(const OutOfReach& out, const records::SeasonSetup& season, const MilestoneWindow& swim_up) {
  if (out.key != window_key || !season.release_until) return std::nullopt;
  const Date likely = biology::day_of(swim_up.lot.median);
  if (likely > *season.release_until) {
    if (out.by_days == 0)
      return Sentence{"The permit's time for a release ends on {0}, long before the fry swim up, however warm the eggs are kept within what they bear. Ask for another time, or for eggs that come earlier.",
                      {*season.release_until}};
    return Sentence{"The permit's time for a release ends on {0}, before the fry swim up: {1} at best, however warm the eggs are kept within what they bear. Ask for a time that lasts to {2} at least, or "
                    "for eggs that come {3} earlier.",
                    {*season.release_until, Chance{out.best_probability}, *season.release_until + days(out.by_days), Days(out.by_days)}};
  }
  if (season.release_from && out.by_days > 0 && likely < *season.release_from)
    return Sentence{"The permit allows a release only from {0}, too long after the fry swim up: {1} at best, however cold the eggs are kept within what they bear. Ask for a time that begins on {2} or earlier, "
                    "or take the eggs {3} later.",
                    {*season.release_from, Chance{out.best_probability}, *season.release_from - days(out.by_days), Days(out.by_days)}};
  return std::nullopt;
}

}  // namespace

std::vector<PlanObstacle> wishes_without_days(const SeasonQuestion& q, const records::SchoolCalendar& calendar, const records::SeasonSetup& season) {
  std::vector<PlanObstacle> found;
  if (q.days.empty()) return found;
  for (const Wish& wish : q.wishes) {
    if (std::ranges::find(wish.good, true) != wish.good.end()) continue;
    if (wish.key == hatch_key || wish.key == feeding_key) found.push_back(closed_all_along(wish.key, q, calendar));
    if (wish.key == window_key)
      if (auto obstacle = outside_window(q, season)) found.push_back(std::move(*obstacle));
  }
  return found;
}

void explain(WishConflicts& conflicts, const std::vector<PlanObstacle>& without_days, const records::SeasonSetup& season, const std::optional<MilestoneWindow>& swim_up) {
  for (PlanObstacle& general : conflicts.obstacles)
    if (general.code == "wish_without_days")
      if (const auto own = std::ranges::find(without_days, general.field, &PlanObstacle::field); own != without_days.end()) general = *own;
  if (!swim_up) return;
  for (OutOfReach& out : conflicts.out_of_reach)
    if (auto sentence = about_the_permit(out, season, *swim_up)) out.sentence = std::move(*sentence);
}

}  // namespace redd::planning
