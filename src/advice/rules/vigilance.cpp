// Times when a week between tests is too long: an unproven filter, media replaced, hatch, the first weeks of food.

#include <algorithm>
#include <cmath>

#include "advice/rule.h"

namespace redd::advice::rules {
namespace {

using inference::Quantity;

constexpr double clearly_mg_n_per_l = 0.3;  // Assumed: above what a card's first step may hide

/// The filter has shown that it works: ammonia or nitrite was once clearly there and later clearly less, or nitrate has
/// gathered beyond what the source water brings.
bool filter_proven(const Situation& s) {
  for (const Quantity quantity : {Quantity::total_ammonia, Quantity::nitrite}) {
    const auto* known = s.belief.find(quantity);
    if (!known) continue;
    bool was_high = false;
    for (const auto& sitting : known->sittings) {
      was_high = was_high || sitting.value.low > clearly_mg_n_per_l;
      if (was_high && sitting.value.high < clearly_mg_n_per_l) return true;
    }
  }
  const auto* nitrate = s.belief.find(Quantity::nitrate);
  if (!nitrate) return false;
  const double source = s.belief.source && s.belief.source->nitrate ? s.belief.source->nitrate->mg_n_per_l() : 1.0;
  return std::ranges::any_of(nitrate->sittings, [&](const auto& sitting) { return sitting.value.low > source + clearly_mg_n_per_l; });
}

using Equipment = records::EquipmentEvent::Equipment;
using Event = records::EquipmentEvent::Event;

/// Water stood still or unaired for hours in the last days: the restoring record and how long it lasted. Assumed: two hours cost a filter little.
std::vector<std::pair<const records::Record*, Days>> stoppages(const Situation& s) {
  constexpr double short_days = 2.0 / 24.0, recent_days = 2.0;
  std::map<Equipment, Instant> since;
  std::vector<std::pair<const records::Record*, Days>> found;
  for (const auto& record : s.records) {
    const auto* e = std::get_if<records::EquipmentEvent>(&record.entry.body);
    if (!e || (e->equipment != Equipment::pump && e->equipment != Equipment::power)) continue;
    if (e->event == Event::failed || e->event == Event::switched_off) since.try_emplace(e->equipment, record.entry.at);
    else if (const auto stopped = since.find(e->equipment); stopped != since.end() && e->event != Event::serviced) {
      const Days span = days_between(stopped->second, record.entry.at);
      if (span.count() > short_days && days_between(record.entry.at, s.now).count() < recent_days) found.emplace_back(&record, span);
      since.erase(stopped);
    }
  }
  return found;
}

struct Cause {
  Sentence why;
  std::vector<records::RecordId> ids{};
  double every_days = 1.0;
};

std::vector<Cause> causes(const Situation& s) {
  std::vector<Cause> found;
  if (const auto* tan = s.belief.find(Quantity::total_ammonia); filter_proven(s) && tan && !tan->sittings.empty() && tan->sittings.back().value.low > clearly_mg_n_per_l)
    found.push_back({{"Ammonia is there ({0}), where a ripe filter leaves none: something feeds it, or the filter has grown weak.", {Word{tan->raw_text}}}, tan->records, 2.0});
  for (const auto& [record, span] : stoppages(s))
    found.push_back({{"Water stood still for {0}, which filter bacteria bear badly.", {span}}, {record->id}, 1.0});
  if (!filter_proven(s)) found.push_back({{"Nothing logged shows yet that this filter removes ammonia."}, filter_readings(s), 2.0});
  for (const auto& record : s.records) {
    const double age_days = days_between(record.entry.at, s.now).count();
    if (const auto* work = std::get_if<records::FilterWork>(&record.entry.body);
        work && age_days < 10.0 && work->work != records::FilterWork::Work::seeded && work->work != records::FilterWork::Work::media_added && work->fraction.value_or(1.0) >= 0.4)
      found.push_back({{"Much of the filter was {0} {1} ago, and bacteria went with it.",
                        {Word{work->work == records::FilterWork::Work::rinsed ? "rinsed" : "replaced"}, Days(age_days)}}, {record.id}, 1.0});
    if (const auto* m = std::get_if<records::Milestone>(&record.entry.body);
        m && m->seen && age_days < 3.0 && (m->which == records::Milestone::Which::half_hatched || m->which == records::Milestone::Which::all_hatched))
      found.push_back({{"They hatched {0} ago, which sets ammonia free.", {Days(age_days)}}, {record.id}, 1.0});
    if (const auto* m = std::get_if<records::Milestone>(&record.entry.body);
        m && m->seen && age_days < 21.0 && (m->which == records::Milestone::Which::first_feed || m->which == records::Milestone::Which::half_swim_up))
      found.push_back({{"Feeding began {0} ago, and food becomes ammonia.", {Days(age_days)}}, {record.id}, 3.5});
  }
  return found;
}

}  // namespace

std::vector<Action> vigilance(const Situation& s) {
  if (!inference::has_animals(s.belief.brood.animals)) return {};
  const auto* tan = s.belief.find(Quantity::total_ammonia);
  const auto* no2 = s.belief.find(Quantity::nitrite);
  if (!tan || !no2 || inference::is_stale(*tan) || inference::is_stale(*no2)) return {};  // the weekly test is asked for first
  const auto found = causes(s);
  if (found.empty()) return {};
  const double every_days = std::ranges::min_element(found, {}, &Cause::every_days)->every_days;
  const double oldest_days = std::max(tan->age_days, no2->age_days);
  const Date due = open_day_from(s, local_day(s.zone, std::min(tan->read_at, no2->read_at)) + std::chrono::days(std::max(1L, std::lround(every_days))));
  const bool now = due <= s.today();
  Action a;
  a.rule = "vigilance";
  a.deeds = {Deed::test};
  a.again = Days(1);
  if (every_days < 1.5) a.benefit = "In a tank like this ammonia or nitrite can pass its mark between two weekly tests: a test every day finds it within a day.";
  else a.benefit = {"In a tank like this ammonia or nitrite can pass its mark between two weekly tests: a test every {0} finds it within that time.", {Days(every_days)}};
  a.tone = now && oldest_days > every_days + 1.0 ? Tone::act : Tone::watch;
  a.concern = {"Ammonia and nitrite need testing more often than weekly."};
  a.what = now ? Sentence{"Test ammonia and nitrite."} : Sentence{"Test ammonia and nitrite again {0}.", {due}};
  a.how_much = every_days < 1.5 ? Sentence{"Every day until three tests in a row are low."} : Sentence{"Every two to four days until the cause is past."};
  a.by = s.end_of(std::max(due, s.today()));
  a.by_text = by_text(s, std::max(due, s.today()));
  a.effort_minutes = 15;
  for (const Cause& cause : found) a.because.push_back({cause.why, cause.ids});
  std::vector<records::RecordId> ids = tan->records;
  ids.insert(ids.end(), no2->records.begin(), no2->records.end());
  a.because.push_back({{"The latest tests are {0} old.", {Days(oldest_days)}}, ids});
  a.would_change_if.push_back({{"Low ammonia and nitrite, test after test."}, ids});
  a.sources = {"common practice, no source"};
  return {a};
}

}  // namespace redd::advice::rules
