#include "intake/calendar.h"

#include <algorithm>
#include <map>
#include <set>

#include "intake/detail/calendar_events.h"
#include "intake/detail/cells.h"
#include "intake/detail/closure_words.h"
#include "records/school_calendar.h"
#include "wire/codec.h"

namespace redd::intake {
namespace {

using namespace std::chrono;
using detail::CalendarEvent;
using detail::Sounds;
using detail::Span;

/// A school day is hardly shorter; a concert called "holiday" hardly longer. Assumed.
constexpr hours whole_day_from{6};
/// Most closures and left-out rows of one file; a weekly early closing is about forty.
constexpr std::size_t most_closures = 2000;
/// As the log's own check: longer is a slip of a year.
constexpr days longest_closure{200};
constexpr std::size_t longest_name = 200;

/// What an event's time becomes, or why nothing.
struct Taken {
  std::optional<records::Closure> closure{};
  std::string reason{};
};

/// Cut at a character, not inside one.
std::string short_name(std::string_view summary) {
  std::size_t end = std::min(summary.size(), longest_name);
  while (end > 0 && end < summary.size() && (static_cast<unsigned char>(summary[end]) & 0xC0) == 0x80) --end;
  return std::string(summary.substr(0, end));
}

Taken whole_days(const std::string& name, Date first, Date last) {
  records::Closure closure{name, first, {}, {}};
  if (last > first) closure.to = last;
  return {closure, ""};
}

Taken early_closing(const CalendarEvent& event, const Span& span, const ZoneOffsets& zone) {
  records::Closure closure{short_name(event.summary), {}, {}, {}};
  if (span.whole_days) {
    const auto time = detail::time_in(event.summary);
    if (!time) return {{}, "It sounds like an early closing but names no time: log it with its time."};
    if (span.first != span.last) return {{}, "An early closing of several days: log each day."};
    closure.from = span.first;
    closure.shut_from = records::clock_text(*time);
    return {closure, ""};
  }
  closure.from = local_day(zone, span.begin);
  if (span.end > span.begin && local_day(zone, span.end - seconds(1)) != closure.from) return {{}, "It sounds like an early closing but lasts past midnight."};
  const auto time_of = [&](Instant at) { return floor<minutes>(local_time(zone, at) - local_seconds{closure.from}); };
  // "Early release 8:00 to 12:30" is the school's day, "12:30 to 15:30" what is cut from it.
  const bool begins_with_school = time_of(span.begin) < hours(10) && span.end > span.begin;
  closure.shut_from = records::clock_text(time_of(begins_with_school ? span.end : span.begin));
  return {closure, ""};
}

Taken timed_closure(const CalendarEvent& event, const Span& span, const ZoneOffsets& zone) {
  if (span.end - span.begin < whole_day_from) return {{}, "It lasts less than six hours: only whole days and early closings are taken."};
  const local_seconds begin = local_time(zone, span.begin), end = local_time(zone, span.end);
  Date first = floor<days>(begin), last = floor<days>(end - seconds(1));
  // From the last bell to the first: the days at both ends have school.
  if (last > first && begin - local_seconds{first} >= hours(12)) first += days(1);
  if (last > first && end - local_seconds{last} <= hours(9)) last -= days(1);
  return whole_days(short_name(event.summary), first, last);
}

Taken taken(const CalendarEvent& event, const Span& span, bool all, const ZoneOffsets& zone) {
  if (event.listed) {
    records::Closure closure = *whole_days(short_name(event.summary), span.first, span.last).closure;
    if (event.shut_from) closure.shut_from = records::clock_text(*event.shut_from);
    return {closure, ""};
  }
  if (event.cancelled) return {{}, "It is cancelled."};
  const auto sound = detail::sound_of(event.summary);
  if (sound.sounds == Sounds::early_closing) return early_closing(event, span, zone);
  if (sound.sounds == Sounds::otherwise && (!all || event.summary.empty())) return {{}, sound.reason};
  return span.whole_days ? whole_days(short_name(event.summary), span.first, span.last) : timed_closure(event, span, zone);
}

std::string series_key(const CalendarEvent& event) { return "ics-" + detail::stable_hash(event.uid) + "-"; }

/// What earlier imports brought, by their keys.
class Earlier {
 public:
  explicit Earlier(const std::vector<records::Record>& log) : log_(log), standing_(records::standings(log)) {
    for (std::size_t i = 0; i < log.size(); ++i)
      if (const auto& key = log[i].entry.entry_key; key && key->starts_with("ics-")) index_of_[*key] = i;
  }

  /// The newest record of this key: a changed event carries it with an ending.
  std::optional<std::size_t> find(const std::string& key) const {
    std::optional<std::size_t> found;
    for (auto it = index_of_.lower_bound(key); it != index_of_.end() && it->first.starts_with(key); ++it) found = std::max(found.value_or(0), it->second);
    return found;
  }
  bool counts(std::size_t i) const { return standing_[i].counts(); }
  /// Whether a closure of just these days is in the log, wherever it came from: typed by hand, or from another file.
  bool has_days_of(const records::Closure& wanted) const {
    for (std::size_t i = 0; i < log_.size(); ++i)
      if (const auto* closure = std::get_if<records::Closure>(&log_[i].entry.body); closure && counts(i) && closure->from == wanted.from &&
          records::last_day_of(*closure) == records::last_day_of(wanted) && closure->shut_from == wanted.shut_from)
        return true;
    return false;
  }
  const records::Record& record(std::size_t i) const { return log_[i]; }

  /// Records that count, of a series this file holds, on days it no longer has.
  std::vector<records::RecordId> left_behind(const std::set<std::string>& series, const std::set<std::string>& keys) const {
    std::vector<records::RecordId> ids;
    for (const auto& [key, i] : index_of_) {
      const std::size_t own = std::string_view("ics-0123456789abcdef-").size();
      if (key.size() >= own + 10 && series.contains(key.substr(0, own)) && !keys.contains(key.substr(0, own + 10)) && counts(i)) ids.push_back(log_[i].id);
    }
    return ids;
  }

 private:
  const std::vector<records::Record>& log_;
  std::vector<records::Standing> standing_;
  std::map<std::string, std::size_t> index_of_{};
};

class Previewer {
 public:
  Previewer(const CalendarSettings& settings, const CalendarContext& context) : settings_(settings), context_(context), earlier_(context.records) {}

  Result<CalendarPreview> preview(const detail::CalendarFile& file) {
    out_.name = file.name;
    out_.notes = file.notes;
    int outside = 0;
    for (const CalendarEvent& event : file.events) {
      if (!event.problem.empty()) add_unreadable(event);
      else if (event.spans.empty()) ++outside;
      else add(event);
      if (found_.size() > most_closures)
        return Problem{"too_many_events", "", "The file gives more than 2,000 closures: export one school year, or leave --all out."};
    }
    if (outside > 0) out_.notes.push_back(said("{0, plural, one {# event lies} other {# events lie}} outside the season ({1} to {2}).", outside, iso_from_date(context_.first_day), iso_from_date(context_.last_day)));
    if (file.events.empty()) out_.notes.push_back("The calendar has no events.");
    for (const records::RecordId id : earlier_.left_behind(series_, keys_))
      out_.notes.push_back(said("Record {0} came from an event that is no longer on its day in this file. If it was moved or dropped, take the record back: redd undo {1}.", id, id));
    std::ranges::stable_sort(found_, {}, [](const auto& found) { return found.first.closure.from; });
    for (auto& [row, entry] : found_) {
      if (row.standing == RowStanding::added || row.standing == RowStanding::changed) out_.entries.push_back(std::move(entry));
      out_.closures.push_back(std::move(row));
    }
    return std::move(out_);
  }

 private:
  void add_unreadable(const CalendarEvent& event) {
    const bool may_close = settings_.all || event.listed || event.summary.empty() || detail::sound_of(event.summary).sounds != Sounds::otherwise;
    if (event.cancelled || !may_close) out_.left_out.push_back({event.line, event.summary, {}, 0, event.problem});
    else out_.bad.push_back({event.line, "event", event.summary, {"bad_event", "line " + std::to_string(event.line), said("\"{0}\": {1}", detail::shown(event.summary), event.problem)}});
  }

  void add(const CalendarEvent& event) {
    std::map<std::string, LeftOut> left_out;  // by reason
    for (const Span& span : event.spans) {
      Taken one = taken(event, span, settings_.all, context_.zone);
      const Date day = span.whole_days ? span.first : local_day(context_.zone, span.begin);
      if (!one.closure) {
        const auto [it, is_new] = left_out.try_emplace(one.reason, LeftOut{event.line, event.summary, day, 0, one.reason});
        ++it->second.times;
        continue;
      }
      if (records::last_day_of(*one.closure) - one.closure->from > longest_closure) {
        out_.bad.push_back({event.line, "event", event.summary, {"too_long", "line " + std::to_string(event.line), said("\"{0}\": it lasts from {1} to {2}, more than 200 days.", detail::shown(event.summary), iso_from_date(one.closure->from), iso_from_date(records::last_day_of(*one.closure)))}});
        continue;
      }
      add_closure(event, std::move(*one.closure));
    }
    for (auto& [reason, row] : left_out) out_.left_out.push_back(std::move(row));
  }

  void add_closure(const CalendarEvent& event, records::Closure closure) {
    const std::string series = series_key(event), key = series + iso_from_date(closure.from);
    series_.insert(series);
    if (!keys_.insert(key).second) return;  // the same event twice in the file
    records::Entry entry{context_.now, settings_.author, {}, key, closure};
    RowStanding standing = RowStanding::added;
    if (const auto known = earlier_.find(key)) {
      const records::Record& record = earlier_.record(*known);
      const std::string body = wire::json_from_body(entry.body);
      if (!earlier_.counts(*known)) {
        standing = RowStanding::settled;
      } else if (wire::json_from_body(record.entry.body) == body) {
        standing = RowStanding::known;
      } else {
        standing = RowStanding::changed;
        entry.supersedes = record.id;
        entry.entry_key = key + "-" + detail::stable_hash(body + std::to_string(record.id));
      }
    } else if (earlier_.has_days_of(closure)) {
      standing = RowStanding::known;
    }
    found_.emplace_back(ClosureRow{event.line, std::move(closure), standing}, std::move(entry));
  }

  const CalendarSettings& settings_;
  const CalendarContext& context_;
  Earlier earlier_;
  CalendarPreview out_{};
  std::vector<std::pair<ClosureRow, records::Entry>> found_{};
  std::set<std::string> series_{}, keys_{};
};

}  // namespace

Result<CalendarPreview> preview_calendar(std::string_view bytes, const CalendarSettings& settings, const CalendarContext& context) {
  const auto file = detail::events_of(bytes, context);
  if (!file) return file.problems();
  return Previewer(settings, context).preview(*file);
}

Result<std::vector<records::Entry>> closures_to_keep(const CalendarPreview& preview, Decision decision) {
  Problems problems;
  if (!decision.accept_guesses && !preview.entries.empty()) problems.push_back({"not_confirmed", "", "Please confirm that these closures are right."});
  if (!decision.keep_good_rows)
    for (const BadRow& bad : preview.bad) problems.push_back(bad.problem);
  if (!problems.empty()) return problems;
  return preview.entries;
}

std::string_view standing_text(RowStanding standing) {
  switch (standing) {
    case RowStanding::added: return "added";
    case RowStanding::known: return "known";
    case RowStanding::changed: return "changed";
    case RowStanding::settled: return "settled";
  }
  broken_promise("standing_text", "unknown standing");
}

}  // namespace redd::intake
