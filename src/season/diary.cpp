#include "season/diary.h"

#include <algorithm>
#include <cmath>

#include "quantities/verbatim.h"

namespace redd::season {
namespace {

using planning::MilestoneWindow;
using planning::PlanStage;
using std::chrono::days;

/// Less is no step a keeper could set.
constexpr double smallest_step_c = 0.05;

/// Days on which something passed long ago or never comes are not shown. Assumed, as the plan's own words have it.
constexpr double passed_already = 0.95, hardly_within = 0.05;

DiaryEntry entry(DiaryKind kind, std::string detail, Date first, Date last, Sentence title, Sentence text) {
  std::string key(word_of(kind));
  if (!detail.empty()) key += " " + detail;
  return {kind, std::move(key), first, last, {}, {}, std::move(title), std::move(text)};
}

/// "2031-01-20", the Monday of its week: a sitting that is moved stays the same entry.
std::string week_of(Date day) {
  return iso_from_date(day - (std::chrono::weekday(day) - std::chrono::Monday));
}

std::string joined(const std::vector<std::string>& labels) {
  std::string out;
  for (const std::string& label : labels) out += (out.empty() ? "" : ", ") + label;
  return out;
}

class Writer {
 public:
  explicit Writer(const DiaryCase& known) : known_(known) {
    out_.now = known.now;
    out_.season = known.season;
    out_.calendar = known.calendar;
    out_.newest = known.newest;
    out_.today = local_day(known.zone, known.now);
    out_.last = std::max(known.last, out_.today);
  }

  void add_plan(const planning::TemperaturePlan& plan) {
    if (!plan.asked.question.days.empty()) out_.last = std::max(out_.today, plan.asked.question.days.back().day);
    if (plan.chill) add_chill(*plan.chill);
    for (const auto& obstacle : plan.chill_obstacles) out_.without_plan.push_back(obstacle.sentence);
    const auto& best = plan.alternatives.best;
    for (const auto& obstacle : best.obstacles) out_.without_plan.push_back(obstacle.sentence);
    if (!best.plan) return;
    for (std::size_t d = 0; d < best.plan->days.size(); ++d) out_.set_points.push_back({best.plan->days[d], best.plan->set_points[d]});
    for (const auto& change : changes_worth_a_word(*best.plan)) add_change(change);
    for (const auto& milestone : best.plan->milestones) add_milestone(milestone, best.plan->days.back());
  }

  void add_why_none(const Phrase& why) { out_.without_plan.push_back({"{0}", {Word{why}}}); }

  Diary finish() {
    add_eggs();
    add_permit();
    add_school();
    add_tests();
    std::ranges::stable_sort(out_.entries, [](const DiaryEntry& a, const DiaryEntry& b) { return a.first != b.first ? a.first < b.first : a.kind < b.kind; });
    return std::move(out_);
  }

 private:
  void add(DiaryEntry e) { out_.entries.push_back(std::move(e)); }

  void add_change(const planning::SetPointChange& change) {
    const Sentence title{"Set the controller to {0}", {change.to}};
    const Sentence text = change.spread_over >= Days(1.0 / 24.0) ? Sentence{"Instead of {0}. Spread the change over {1} at least, and watch the animals.", {change.from, change.spread_over}}
                                                                 : Sentence{"Instead of {0}. Watch the animals afterwards.", {change.from}};
    add(entry(DiaryKind::set_point, iso_from_date(change.day), change.day, change.day, title, text));
  }

  /// Every step of the way down, and the warm days before it as set-points.
  void add_chill(const planning::ChillPlan& chill) {
    for (std::size_t d = 0; d < chill.days.size(); ++d) {
      out_.set_points.push_back({chill.days[d], chill.set_points[d]});
      if (chill.days[d] < chill.start || d == 0 || chill.set_points[d - 1].c() - chill.set_points[d].c() < smallest_step_c) continue;
      add(entry(DiaryKind::chill, iso_from_date(chill.days[d]), chill.days[d], chill.days[d], {"Chill the tank to {0}", {chill.set_points[d]}},
                {"A step of the way from {0} down to {1}, which is to be reached on {2}, before the eggs come.", {chill.set_points[d - 1], chill.set_points.back(), chill.settled}}));
    }
    // The first day's step is from today's water.
    if (!chill.days.empty() && chill.start == chill.days.front())
      add(entry(DiaryKind::chill, iso_from_date(chill.start), chill.start, chill.start, {"Chill the tank to {0}", {chill.set_points.front()}},
                {"The first step down to {0}, which is to be reached on {1}, before the eggs come.", {chill.set_points.back(), chill.settled}}));
  }

  void add_milestone(const MilestoneWindow& m, Date last_planned) {
    if (m.already_probability > passed_already || m.probability_by_end < hardly_within) return;
    const auto day = [](biology::CalendarMoment at) { return biology::day_of(at); };
    const DiaryKind kind = m.stage == PlanStage::hatch ? DiaryKind::hatch : m.stage == PlanStage::swim_up ? DiaryKind::swim_up : DiaryKind::release_size;
    const Sentence title = kind == DiaryKind::hatch     ? Sentence{"Hatch: half of the eggs"}
                           : kind == DiaryKind::swim_up ? Sentence{"Swim-up: half of the fry, first feeding"}
                                                        : Sentence{"Size of release: half of the fry"};
    const Date first = day(m.lot.low_90), last = m.lot.open_ended ? std::max(last_planned, first) : day(m.lot.high_90);
    const Sentence text = m.lot.open_ended ? Sentence{"Not before {0}, perhaps after {1}, the last day planned. It moves with every temperature logged.", {first, last}}
                                           : Sentence{"Most likely on {0}: one chance in two from {1} to {2}, nine in ten from {3} to {4}. It moves with every temperature logged.",
                                                      {day(m.lot.median), day(m.lot.low_50), day(m.lot.high_50), first, last}};
    DiaryEntry window = entry(kind, "", first, last, title, text);
    if (!m.lot.open_ended) {
      window.likely_first = day(m.lot.low_50);
      window.likely_last = day(m.lot.high_50);
    }
    add(std::move(window));
  }

  void add_eggs() {
    if (!known_.eggs_to_come || !known_.season.egg_day || *known_.season.egg_day < out_.today) return;
    const Date day = *known_.season.egg_day;
    add(entry(DiaryKind::eggs, "", day, day, known_.season.egg_day_assumed ? "The eggs come (day assumed)" : "The eggs come",
              {"The tank is to stand at {0}; temper the eggs before they go in. Ask the supplier before they travel when water or temperature are not right.", {known_.season.target}}));
  }

  void add_permit() {
    const auto& s = known_.season;
    if (known_.released || (!s.release_from && !s.release_until)) return;
    const Date last = s.release_until.value_or(std::max(out_.last, *s.release_from));
    const Date first = std::min(s.release_from.value_or(out_.today), last);
    if (last < out_.today) return;
    Sentence text = s.release_until ? Sentence{"The permit allows a release until {0}. Release only as it says and only after asking who gave it.", {last}}
                                    : Sentence{"The permit allows a release from {0}; its last day is not in the set-up. Release only as it says and only after asking who gave it.", {first}};
    if (s.permit && !s.permit->empty()) text = redd::joined(text, {"Permit: {0}", {Word{verbatim(*s.permit)}}});
    add(entry(DiaryKind::release_window, "", first, last, "Release allowed by the permit", text));
    out_.last = std::max(out_.last, std::min(last, out_.today + days(400)));
  }

  void add_school() {
    for (const auto& duty : known_.calendar.duties()) {
      if (records::last_day_of(duty) < out_.today) continue;
      add(entry(DiaryKind::duty, iso_from_date(duty.from) + " " + duty.label, duty.from, records::last_day_of(duty), {"On duty: {0}", {Word{verbatim(duty.label)}}}, "Looks after the tank on these days."));
    }
    for (const auto& closure : known_.calendar.closures()) {
      if (records::last_day_of(closure) < out_.today) continue;
      const std::string key = iso_from_date(closure.from) + " " + closure.name;
      if (closure.shut_from)
        add(entry(DiaryKind::early_closing, key, closure.from, closure.from, {"Early closing at {0}: {1}", {Word{verbatim(*closure.shut_from)}, Word{verbatim(closure.name)}}}, "The school shuts early; what is asked of the day must be done before."));
      else
        add(entry(DiaryKind::closure, key, closure.from, records::last_day_of(closure), {"School closed: {0}", {Word{verbatim(closure.name)}}}, "Nobody comes in unless somebody is on duty."));
    }
  }

  void add_tests() {
    for (const auto& [due, day] : known_.test_days) {
      if (day > out_.last) break;
      Sentence text{"All six tests, and log the temperature. Eye protection, and hands washed afterwards."};
      if (!known_.calendar.is_open(day)) {
        const std::string labels = joined(known_.calendar.on_duty(day));
        text = labels.empty() ? Sentence{"The school is closed and nobody is noted as on duty: agree who comes in. All six tests, and log the temperature."}
                              : Sentence{"The school is closed; on duty: {0}. All six tests, and log the temperature.", {Word{verbatim(labels)}}};
      }
      add(entry(DiaryKind::weekly_test, week_of(due), day, day, "Weekly water test", text));
    }
  }

  const DiaryCase& known_;
  Diary out_{};
};

}  // namespace

std::string_view word_of(DiaryKind kind) {
  switch (kind) {
    case DiaryKind::set_point: return "set_point";
    case DiaryKind::chill: return "chill";
    case DiaryKind::eggs: return "eggs";
    case DiaryKind::hatch: return "hatch";
    case DiaryKind::swim_up: return "swim_up";
    case DiaryKind::release_size: return "release_size";
    case DiaryKind::release_window: return "release_window";
    case DiaryKind::weekly_test: return "weekly_test";
    case DiaryKind::duty: return "duty";
    case DiaryKind::early_closing: return "early_closing";
    case DiaryKind::closure: return "closure";
  }
  broken_promise("word_of", "unknown kind of diary entry");
}

bool is_task(DiaryKind kind) {
  return kind == DiaryKind::set_point || kind == DiaryKind::chill || kind == DiaryKind::eggs || kind == DiaryKind::weekly_test;
}

std::vector<planning::SetPointChange> changes_worth_a_word(const planning::SeasonPlan& plan) {
  std::vector<planning::SetPointChange> changes = plan.changes;
  std::erase_if(changes, [](const planning::SetPointChange& c) { return std::abs((c.to - c.from).c()) < 0.3; });
  return changes;
}

Diary diary_of(const DiaryCase& known, const planning::TemperaturePlan* plan, const Phrase& why_none) {
  Writer writer(known);
  if (plan) writer.add_plan(*plan);
  else writer.add_why_none(why_none);
  return writer.finish();
}

DiaryDay day_of_diary(const Diary& diary, Date day) {
  DiaryDay out{day, diary.calendar.is_open(day), {}, diary.calendar.shut_from(day), diary.calendar.on_duty(day), {}, {}, {}};
  if (const auto closure = diary.calendar.closure_on(day)) out.closed_name = closure->name;
  const auto set = std::ranges::lower_bound(diary.set_points, day, {}, &DaySetPoint::day);
  if (set != diary.set_points.end() && set->day == day) out.set_point = set->water;
  for (const DiaryEntry& e : diary.entries) {
    if (e.first > day) break;
    if (is_task(e.kind)) {
      if (e.first == day) out.tasks.push_back(&e);
    } else if (e.kind <= DiaryKind::release_window && e.last >= day) {
      out.windows.push_back(&e);
    }
  }
  return out;
}

}  // namespace redd::season
