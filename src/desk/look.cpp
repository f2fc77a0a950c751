#include "desk/look.h"

#include <algorithm>
#include <map>
#include <set>

#include "biology/species.h"
#include "quantities/one_or_several.h"
#include "quantities/verbatim.h"
#include "records/reading.h"

namespace redd::desk {
namespace {

/// When a day is asked for by date alone, it is looked at in the evening. Assumed: by then a school's day is in the
/// log.
constexpr std::chrono::hours evening{18};

Date last_logged_day(const Look& look) {
  Date last = look.season->first_day;
  for (const records::Record& record : look.records) last = std::max(last, local_day(look.zone, record.logged_at));
  return last;
}

Instant evening_of(const Look& look, Date day) {
  Instant at = instant_of(look.zone, day + evening);
  const Instant next = start_of_day(look.zone, day + std::chrono::days(1));
  for (const records::Record& record : look.records)
    if (record.logged_at > at && record.logged_at < next) at = record.logged_at;
  return at;
}

/// When the newest entry was written down, as far as it can be believed: an entry more than a day ahead of the clock tells of a clock that is
/// wrong only while it counts. Once it is undone, so that it can be logged again, it no longer holds every answer in the future.
/// Assumed: a day; no other time zone and no other machine's clock differ by more.
Instant newest_entry(const Look& look, Instant clock) {
  constexpr std::chrono::hours believable{24};
  Instant newest{};
  bool is_ahead = false;
  for (const records::Record& record : look.records) {
    if (record.logged_at <= clock + believable) newest = std::max(newest, record.logged_at);
    else is_ahead = true;
  }
  if (!is_ahead) return newest;
  const auto standing = records::standings(look.records);
  for (std::size_t i = 0; i < look.records.size(); ++i)
    if (standing[i].counts() && !std::holds_alternative<records::Undo>(look.records[i].entry.body)) newest = std::max(newest, look.records[i].logged_at);
  return newest;
}

/// When the season was first written down, which may be long after its first day.
std::optional<Instant> first_set_up(const Look& look) {
  std::optional<Instant> first;
  for (const records::Record& record : look.records)
    if (std::holds_alternative<records::SeasonSetup>(record.entry.body) && (!first || record.logged_at < *first))
      first = record.logged_at;
  return first;
}

/// "2031-03-14 at 15:30", at the school's clock.
Phrase day_and_time(const Look& look, Instant at) {
  const std::string text = rfc3339_local(look.zone, at);
  return said("{0} at {1}", text.substr(0, 10), text.substr(11, 5));
}

/// Readings that count and can be read on the kit now in force.
std::set<records::RecordId> readable_readings(std::span<const records::Record> all) {
  const auto counting = records::effective(all, Instant::max());
  std::set<records::RecordId> readable;
  for (const records::Record& record : counting) {
    const auto* reading = std::get_if<records::Reading>(&record.entry.body);
    const records::Kit* kit = reading ? records::find_kit(counting, reading->kit) : nullptr;
    const records::KitTest* test = kit ? records::find_test(*kit, reading->test) : nullptr;
    if (test && records::observed_interval(*test, *reading)) readable.insert(record.id);
  }
  return readable;
}

}  // namespace

std::vector<Phrase> doubts_of(const Look& look, Instant clock) {
  std::vector<Phrase> doubts;
  for (const records::Unreadable& record : look.unreadable)
    doubts.push_back(said("Record {0} of the season file can't be read and is left out of everything shown here.", record.id));
  doubts.insert(doubts.end(), look.of_copies.begin(), look.of_copies.end());
  constexpr std::chrono::minutes other_machines_clock{5};
  if (look.invented()) return doubts;
  const Instant newest = newest_entry(look, clock);
  if (newest > clock + other_machines_clock)
    doubts.push_back(said("This computer's clock ({0}) is behind the newest entry ({1}): set the clock right, then check the times of new entries. If the clock is right, it ran ahead when that entry was logged: undo the entry and log it again.", rfc3339_local(look.zone, clock), rfc3339_local(look.zone, newest)));
  return doubts;
}

Result<Instant> moment_of(const Look& look, std::optional<std::string_view> as_of, Instant clock) {
  const auto story = story_of(look);
  // A clock set back must not hide what was already logged.
  if (!as_of) return story ? evening_of(look, story->today) : std::max(clock, newest_entry(look, clock));
  Instant at{};
  if (const auto day = date_from_iso(*as_of)) {
    at = evening_of(look, *day);
    if (!story && *day == local_day(look.zone, clock)) at = clock;
  } else if (const auto instant = instant_from_rfc3339(*as_of)) {
    at = *instant;
  } else {
    return Problem{"not_an_instant", "as_of",
                   said("\"{0}\" is not a day: write it like 2031-02-14, or with a time like 2031-02-14T15:30:00Z.", verbatim(as_of->substr(0, 40)))};
  }
  if (!story && at > clock)
    return Problem{"not_yet", "as_of", "That moment has not come yet. Ask for today or an earlier day."};
  const auto known = records::effective(look.records, at);
  if (look.season && !records::find_season(known)) {
    const auto written = first_set_up(look);
    if (written && *written > at && local_day(look.zone, at) >= look.season->first_day)
      return Problem{"before_the_season", "as_of",
                     said("The season was set up on {0}; nothing was logged before that moment.", day_and_time(look, *written))};
    return Problem{
        "before_the_season", "as_of",
        said("Nothing was known yet at that moment: the season starts on {0}.", iso_from_date(look.season->first_day))};
  }
  return at;
}

Instant minute_of(const Look& look, Instant now) {
  const Instant minute = std::chrono::floor<std::chrono::minutes>(now);
  const auto between = [&](Instant at) { return at > minute && at <= now; };
  const bool moved = std::ranges::any_of(look.records, [&](const records::Record& r) { return between(r.logged_at) || between(r.entry.at); });
  return moved ? now : minute;
}

std::optional<Story> story_of(const Look& look) {
  if (!look.invented()) return std::nullopt;
  Story story{look.season->first_day, last_logged_day(look), {}};
  story.today = look.opening_day.value_or(story.last_day);
  story.today = std::clamp(story.today, story.first_day, story.last_day);
  return story;
}

Problems problems_of_species(const records::SeasonSetup& season) {
  Problems problems;
  const auto add = [&](const Problems& found, const char* field) {
    for (Problem problem : found) {
      problem.field = field;
      problems.push_back(std::move(problem));
    }
  };
  const auto species = biology::find_species(season.species);
  if (!species) {
    add(species.problems(), "/body/species");
  } else if (season.development_model) {
    const auto hatch = biology::model_for(*species, biology::Stage::hatch, *season.development_model);
    const auto swim_up = biology::model_for(*species, biology::Stage::swim_up, *season.development_model);
    if (!hatch && !swim_up) add(hatch.problems(), "/body/development_model");
  }
  return problems;
}

std::vector<Phrase> lost_readings(std::span<const records::Record> before, std::span<const records::Record> after) {
  const auto readable_before = readable_readings(before), readable_after = readable_readings(after);
  struct Lost {
    std::size_t readings = 0;
    std::set<std::string> tests;
  };
  std::map<std::string, Lost> lost;
  for (const records::Record& record : records::effective(after, Instant::max())) {
    const auto* reading = std::get_if<records::Reading>(&record.entry.body);
    if (!reading || !readable_before.contains(record.id) || readable_after.contains(record.id)) continue;
    ++lost[reading->kit].readings;
    lost[reading->kit].tests.insert(reading->test);
  }
  std::vector<Phrase> sentences;
  for (const auto& [kit, what] : lost) {
    std::string tests;
    for (const std::string& test : what.tests) tests += (tests.empty() ? "" : ", ") + test;
    sentences.push_back(said(one_or_several(static_cast<long long>(what.readings),
                                            "{0} older reading on kit \"{1}\" can't be read any more ({2}): the kit no longer has its test or step. It is left out of every answer until it does again.",
                                            "{0} older readings on kit \"{1}\" can't be read any more ({2}): the kit no longer has their tests or steps. They are left out of every answer until it does again."),
                             what.readings, verbatim(kit), verbatim(tests)));
  }
  return sentences;
}

std::vector<records::Kit> kits_in_force(const Look& look, Instant now) {
  std::map<std::string, records::Kit> newest;
  for (const records::Record& record : records::effective(look.records, now))
    if (const auto* kit = std::get_if<records::Kit>(&record.entry.body)) newest[kit->key] = *kit;
  std::vector<records::Kit> kits;
  for (auto& [key, kit] : newest) kits.push_back(std::move(kit));
  return kits;
}

}  // namespace redd::desk
