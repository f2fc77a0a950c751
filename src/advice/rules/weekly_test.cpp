// When to test next: overdue, due, or nothing to do until then.

#include <algorithm>

#include "advice/rule.h"

namespace redd::advice::rules {
namespace {

Action closing_action(const Situation& s) {
  Action a;
  a.rule = "weekly_test";
  a.key = "weekly_test/close_season";
  a.aim = Aim::deadline;
  a.deeds = {Deed::plan};
  a.benefit = {"The permit's report is written from {0} records while somebody still remembers them.", {Number{static_cast<long long>(s.records.size())}}};
  a.tone = Tone::good;
  a.concern = {"The season is over."};
  a.what = {"The brood is released: close the season."};
  a.how_much = {"Send the report the permit asks for; clean and dry the gear; correct the log while it is fresh."};
  a.by = s.end_of(next_school_day(s));
  a.by_text = by_text(s, next_school_day(s));
  a.effort_minutes = 60;
  std::vector<records::RecordId> ids;
  for (const auto& record : s.records)
    if (std::holds_alternative<records::Release>(record.entry.body)) ids.push_back(record.id);
  a.because.push_back({{"A release is logged and fewer than one in twenty animals are left by the counts."}, ids});
  a.would_change_if.push_back({{"A count of animals still in the tank."}, ids});
  a.cautions.push_back({"Tank water and dead fish never go to a stream or storm drain: follow the local rule."});
  return a;
}

}  // namespace

std::vector<Action> weekly_test(const Situation& s) {
  if (s.belief.brood.animals == inference::Animals::released) return {closing_action(s)};
  std::string missing;
  std::vector<records::RecordId> latest;
  double oldest_days = 0;
  for (const auto quantity : weekly_quantities) {
    const auto* known = s.belief.find(quantity);
    if (known) {
      latest.insert(latest.end(), known->records.begin(), known->records.end());
      oldest_days = std::max(oldest_days, known->age_days);
    }
    if (!known || inference::is_stale(*known)) missing += (missing.empty() ? "" : ", ") + records::quantity_text(quantity);
  }
  std::ranges::sort(latest);
  latest.erase(std::ranges::unique(latest).begin(), latest.end());
  const Date rhythm = next_weekly_test(s), due = weekly_test_day(s, rhythm);
  const Date tomorrow = s.today() + std::chrono::days(1);
  const bool animals = inference::has_animals(s.belief.brood.animals);
  Action a;
  a.rule = "weekly_test";
  a.aim = Aim::deadline;
  a.deeds = {Deed::test};
  a.effort_minutes = 25;
  a.benefit = {"Without it nobody can say how the water is once the tests are {0} old; every week it finds a rise while a water change still answers it.", {Days(inference::stale_after_days)}};
  if (due <= s.today() || !missing.empty()) {
    const bool overdue = !missing.empty() && !latest.empty();
    const bool unknown = !missing.empty() && animals;  // never tested is no better than tested too long ago
    a.tone = unknown ? Tone::act : Tone::watch;
    if (unknown) a.aim = Aim::animals;
    a.again = Days(1);
    a.concern = overdue ? Sentence{"Nobody can say how the water is now."} : Sentence{"The weekly test is due."};
    a.what = {"Test the water."};
    a.how_much = missing.empty() ? Sentence{"All six tests, and log the temperature."} : Sentence{"At least: {0}.", {Word{missing}}};
    a.by = s.end_of(s.today());
    a.by_text = {"today"};
    if (latest.empty()) a.because.push_back({{"Nothing has been tested yet this season."}, setup_records(s)});
    else if (overdue) a.because.push_back({{"These are untested or older than {0}, so nobody can say how the water is.", {Days(inference::stale_after_days)}}, latest});
    else a.because.push_back({{"The last sitting was {0} ago; a week is the rhythm.", {Days(oldest_days)}}, latest});
  } else if (due == tomorrow) {
    a.tone = Tone::watch;
    a.concern = {"The weekly test is due tomorrow."};
    a.what = {"Test the water tomorrow."};
    a.how_much = {"All six tests, and log the temperature."};
    a.by = s.end_of(due);
    a.by_text = by_text(s, due);
    a.because.push_back({{"The last sitting was {0} ago; a week is the rhythm.", {Days(oldest_days)}}, latest});
  } else {
    a.tone = Tone::good;
    a.concern = {"As far as the tests can tell, all is well."};
    a.what = {"Nothing to do for the water now; test again {0}.", {due}};
    a.how_much = {"All six tests."};
    a.by = s.end_of(due);
    a.by_text = by_text(s, due);
    a.because.push_back({{"Every weekly test is recent, the oldest {0} old.", {Days(oldest_days)}}, latest});
  }
  if (auto habit = habit_reason(s, rhythm)) a.because.push_back(std::move(*habit));
  a.would_change_if.push_back({{"Cloudy water, a smell, dead eggs or fish, or a failed pump: then test at once."}, latest});
  a.cautions.push_back({"Eye protection and washed hands with the reagents; nothing from a test tube goes back into the tank."});
  a.sources = {"weekly rhythm: common practice, no source"};
  return {a};
}

}  // namespace redd::advice::rules
