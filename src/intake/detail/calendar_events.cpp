#include "intake/detail/calendar_events.h"

#include <libical/ical.h>

#include <algorithm>
#include <map>
#include <memory>
#include <set>

#include "intake/csv.h"
#include "intake/detail/calendar_lines.h"
#include "intake/detail/cells.h"
#include "intake/detail/listed_days.h"
#include "zones/zones.h"

namespace redd::intake::detail {
namespace {

using namespace std::chrono;

constexpr std::size_t largest_calendar = 4u << 20;
/// Repetitions looked at for one event: daily for a century and more.
constexpr int most_repetitions = 100'000;

struct FreeComponent {
  void operator()(icalcomponent* c) const { icalcomponent_free(c); }
};
struct FreeIterator {
  void operator()(icalrecur_iterator* i) const { icalrecur_iterator_free(i); }
};

/// The zone a time of an event is written in: of the file itself, of the machine's zone files, or the school's own.
struct Clock {
  icaltimezone* of_file = nullptr;
  const ZoneOffsets* offsets = nullptr;

  Instant instant(local_seconds local) const;
  local_seconds local(Instant at) const;
};

bool in_range(const icaltimetype& t) {
  if (t.year < 1900 || t.year > 2199 || t.month < 1 || t.month > 12 || t.day < 1 || t.day > 31) return false;
  const year_month_day date{year(t.year), month(static_cast<unsigned>(t.month)), std::chrono::day(static_cast<unsigned>(t.day))};
  return date.ok() && t.hour >= 0 && t.hour <= 23 && t.minute >= 0 && t.minute <= 59 && t.second >= 0 && t.second <= 60;
}

local_seconds local_of(const icaltimetype& t) {
  const auto day = local_days{year(t.year) / month(static_cast<unsigned>(t.month)) / std::chrono::day(static_cast<unsigned>(t.day))};
  return local_seconds{day} + (t.is_date ? seconds(0) : hours(t.hour) + minutes(t.minute) + seconds(t.second));
}

icaltimetype time_of(local_seconds local, bool is_date) {
  const auto midnight = floor<days>(local);
  const year_month_day date{midnight};
  const hh_mm_ss time{local - midnight};
  icaltimetype t = icaltime_null_time();
  t.year = static_cast<int>(date.year());
  t.month = static_cast<int>(static_cast<unsigned>(date.month()));
  t.day = static_cast<int>(static_cast<unsigned>(date.day()));
  t.is_date = is_date ? 1 : 0;
  if (is_date) return t;
  t.hour = static_cast<int>(time.hours().count());
  t.minute = static_cast<int>(time.minutes().count());
  t.second = static_cast<int>(time.seconds().count());
  return t;
}

Instant Clock::instant(local_seconds local) const {
  if (!of_file) return instant_of(*offsets, local);
  return Instant{seconds(icaltime_as_timet_with_zone(time_of(local, false), of_file))};
}

local_seconds Clock::local(Instant at) const {
  if (!of_file) return local_time(*offsets, at);
  return local_of(icaltime_from_timet_with_zone(static_cast<time_t>(at.time_since_epoch().count()), 0, of_file));
}

/// Reads the events of one calendar.
class Reader {
 public:
  Reader(icalcomponent* calendar, const CalendarLines& lines, const CalendarContext& context, CalendarFile& file)
      : calendar_(calendar), lines_(lines), context_(context), file_(file) {}

  void read_all() {
    find_moved();
    std::size_t i = 0;
    for (icalcomponent* c = icalcomponent_get_first_component(calendar_, ICAL_VEVENT_COMPONENT); c;
         c = icalcomponent_get_next_component(calendar_, ICAL_VEVENT_COMPONENT), ++i) {
      CalendarEvent event;
      event.line = i < lines_.event_lines.size() ? lines_.event_lines[i] : 0;
      read(c, event);
      file_.events.push_back(std::move(event));
    }
    for (const auto& [tzid, clock] : clocks_)
      if (clock.offsets == &context_.zone)
        file_.notes.push_back(said("The file names the time zone \"{0}\" without describing it; its times are read as the school's own.", shown(tzid)));
  }

 private:
  /// A time written in a property, in the clock it is written in.
  struct Written {
    bool is_date = false;
    local_seconds local{};
    Clock clock{};
    Instant instant() const { return clock.instant(local); }
  };

  Clock school() const { return {nullptr, &context_.zone}; }

  Clock clock_named(const std::string& tzid) {
    if (const auto known = clocks_.find(tzid); known != clocks_.end()) return known->second;
    Clock clock = school();
    clock.of_file = icalcomponent_get_timezone(calendar_, tzid.c_str());
    // Some programs put their own path before the name: /example.org/2031/Europe/Berlin.
    for (std::string_view name = tzid; !clock.of_file && !name.empty();) {
      if (auto zone = zones::zone_offsets(name, context_.first_day - days(400), context_.last_day + days(400))) {
        zones_.push_back(std::make_unique<ZoneOffsets>(std::move(zone).value()));
        clock.offsets = zones_.back().get();
        break;
      }
      const std::size_t slash = name.find('/');
      name = slash == std::string_view::npos ? std::string_view() : name.substr(slash + 1);
    }
    if (clock.of_file) clock.offsets = nullptr;
    return clocks_[tzid] = clock;
  }

  std::optional<Written> written(icalproperty* property, const icaltimetype& t) {
    if (icaltime_is_null_time(t) || !in_range(t)) return std::nullopt;
    Written w{t.is_date != 0, local_of(t), school()};
    if (w.is_date) return w;
    icalparameter* parameter = icalproperty_get_first_parameter(property, ICAL_TZID_PARAMETER);
    const char* tzid = parameter ? icalparameter_get_tzid(parameter) : nullptr;
    if (icaltime_is_utc(t)) w.clock.offsets = &utc_;
    else if (tzid) w.clock = clock_named(tzid);
    return w;
  }

  static std::string text_of(const char* text) { return text ? text : ""; }

  static std::string uid_of(icalcomponent* c) {
    std::string uid = text_of(icalcomponent_get_uid(c));
    return uid.empty() ? text_of(icalcomponent_get_summary(c)) : uid;
  }

  static icalproperty* property(icalcomponent* c, icalproperty_kind kind) { return icalcomponent_get_first_property(c, kind); }

  /// Repetitions that an event of their own replaces: key of the series and their written time.
  void find_moved() {
    for (icalcomponent* c = icalcomponent_get_first_component(calendar_, ICAL_VEVENT_COMPONENT); c; c = icalcomponent_get_next_component(calendar_, ICAL_VEVENT_COMPONENT))
      if (icalproperty* p = property(c, ICAL_RECURRENCEID_PROPERTY))
        if (const auto w = written(p, icalproperty_get_recurrenceid(p))) moved_[uid_of(c)].push_back(*w);
  }

  void read(icalcomponent* c, CalendarEvent& event) {
    event.uid = uid_of(c);
    event.summary = std::string(trimmed(text_of(icalcomponent_get_summary(c))));
    std::ranges::replace_if(event.summary, [](char ch) { return ch == '\n' || ch == '\r' || ch == '\t'; }, ' ');
    if (icalproperty* p = property(c, ICAL_STATUS_PROPERTY)) event.cancelled = icalproperty_get_status(p) == ICAL_STATUS_CANCELLED;
    if (icalproperty* wrong = property(c, ICAL_XLICERROR_PROPERTY)) {
      event.problem = said("The event can't be read ({0}).", shown(text_of(icalproperty_get_xlicerror(wrong))));
      return;
    }
    icalproperty* start = property(c, ICAL_DTSTART_PROPERTY);
    const auto begin = start ? written(start, icalproperty_get_dtstart(start)) : std::nullopt;
    if (!begin) {
      event.problem = start ? "Its beginning is no date between 1900 and 2199." : "It has no beginning (DTSTART).";
      return;
    }
    const auto length = length_of(c, *begin, event);
    if (!length) return;
    const auto begins = repetitions(c, *begin, *length, event);
    for (const local_seconds local : begins) {
      Span span{begin->is_date};
      if (begin->is_date) {
        span.first = floor<days>(local);
        span.last = span.first + ceil<days>(*length) - days(1);
        if (span.last < context_.first_day || span.first > context_.last_day) continue;
      } else {
        span.begin = begin->clock.instant(local);
        span.end = span.begin + *length;
        if (local_day(context_.zone, span.end) < context_.first_day || local_day(context_.zone, span.begin) > context_.last_day) continue;
      }
      event.spans.push_back(span);
    }
  }

  /// How long each time lasts: whole days for dates (at least one), seconds otherwise.
  std::optional<seconds> length_of(icalcomponent* c, const Written& begin, CalendarEvent& event) {
    seconds length = begin.is_date ? seconds(days(1)) : seconds(0);
    if (icalproperty* p = property(c, ICAL_DTEND_PROPERTY)) {
      const auto end = written(p, icalproperty_get_dtend(p));
      if (!end || end->is_date != begin.is_date) {
        event.problem = "Its end does not fit its beginning.";
        return std::nullopt;
      }
      length = begin.is_date ? duration_cast<seconds>(end->local - begin.local) : duration_cast<seconds>(end->instant() - begin.instant());
      // Some programs write the same day twice for one whole day.
      if (begin.is_date && length == seconds(0)) length = days(1);
    } else if (icalproperty* q = property(c, ICAL_DURATION_PROPERTY)) {
      length = seconds(icaldurationtype_as_int(icalproperty_get_duration(q)));
      if (begin.is_date) length = std::max<seconds>(ceil<days>(length), days(1));
    }
    if (length < seconds(0) || length > days(3660)) {
      event.problem = length < seconds(0) ? "It ends before it begins." : "It lasts longer than ten years.";
      return std::nullopt;
    }
    return length;
  }

  /// Local times the event begins at, without exceptions and without those another event replaces.
  std::vector<local_seconds> repetitions(icalcomponent* c, const Written& begin, seconds length, CalendarEvent& event) {
    std::set<local_seconds> all{begin.local};
    const local_seconds last = local_seconds{context_.last_day} + days(2), first = local_seconds{context_.first_day} - length - days(2);
    for (icalproperty* p = property(c, ICAL_RRULE_PROPERTY); p; p = icalcomponent_get_next_property(c, ICAL_RRULE_PROPERTY)) {
      icalrecurrencetype rule = icalproperty_get_rrule(p);
      if (rule.freq == ICAL_SECONDLY_RECURRENCE || rule.freq == ICAL_MINUTELY_RECURRENCE || rule.freq == ICAL_HOURLY_RECURRENCE) {
        event.problem = "It repeats more than once a day.";
        return {};
      }
      if (!icaltime_is_null_time(rule.until)) {
        if (!in_range(rule.until)) {
          event.problem = "Its repetition ends at no date between 1900 and 2199.";
          return {};
        }
        // The end is given in UTC, the repetitions follow the event's own clock. A day as the end includes all of it.
        local_seconds until = local_of(rule.until);
        if (rule.until.is_date) until += days(1) - seconds(1);
        else if (icaltime_is_utc(rule.until) && !begin.is_date) until = begin.clock.local(Instant{until.time_since_epoch()});
        rule.until = time_of(until, begin.is_date);
      }
      const std::unique_ptr<icalrecur_iterator, FreeIterator> each(icalrecur_iterator_new(rule, time_of(begin.local, begin.is_date)));
      if (!each) {
        event.problem = "Its repetition (RRULE) makes no sense.";
        return {};
      }
      int seen = 0;
      for (icaltimetype t = icalrecur_iterator_next(each.get()); !icaltime_is_null_time(t) && in_range(t); t = icalrecur_iterator_next(each.get())) {
        const local_seconds local = local_of(t);
        if (local > last) break;
        if (local >= first) all.insert(local);
        if (++seen < most_repetitions) continue;
        event.problem = "It repeats too often to be read.";
        return {};
      }
    }
    for (icalproperty* p = property(c, ICAL_RDATE_PROPERTY); p; p = icalcomponent_get_next_property(c, ICAL_RDATE_PROPERTY)) {
      const icaldatetimeperiodtype more = icalproperty_get_rdate(p);
      if (const auto w = written(p, icaltime_is_null_time(more.time) ? more.period.start : more.time)) all.insert(in_clock_of(begin, *w));
    }
    std::vector<Written> exceptions;
    for (icalproperty* p = property(c, ICAL_EXDATE_PROPERTY); p; p = icalcomponent_get_next_property(c, ICAL_EXDATE_PROPERTY))
      if (const auto w = written(p, icalproperty_get_exdate(p))) exceptions.push_back(*w);
    if (!property(c, ICAL_RECURRENCEID_PROPERTY))
      if (const auto moved = moved_.find(event.uid); moved != moved_.end()) exceptions.insert(exceptions.end(), moved->second.begin(), moved->second.end());
    for (const Written& e : exceptions)
      std::erase_if(all, [&](local_seconds local) { return e.is_date ? floor<days>(local) == floor<days>(e.local) : local == in_clock_of(begin, e); });
    return {all.begin(), all.end()};
  }

  static local_seconds in_clock_of(const Written& begin, const Written& other) {
    return begin.is_date || other.is_date ? other.local : begin.clock.local(other.instant());
  }

  icalcomponent* calendar_;
  const CalendarLines& lines_;
  const CalendarContext& context_;
  CalendarFile& file_;
  const ZoneOffsets utc_{};
  std::map<std::string, Clock> clocks_{};
  std::vector<std::unique_ptr<ZoneOffsets>> zones_{};
  std::map<std::string, std::vector<Written>> moved_{};
};

}  // namespace

namespace {

/// A fold may cut a character in two (RFC 5545, 3.1 counts octets): it is moved behind the character, so that the bytes are text and lines keep their numbers.
std::string with_whole_characters(std::string_view bytes) {
  std::string out;
  out.reserve(bytes.size());
  for (std::size_t i = 0; i < bytes.size();) {
    const std::string_view rest = bytes.substr(i);
    const std::size_t fold = rest.starts_with("\r\n ") || rest.starts_with("\r\n\t") ? 3 : rest.starts_with("\n ") || rest.starts_with("\n\t") ? 2 : 0;
    std::size_t next = i + std::max<std::size_t>(fold, 1);
    while (fold > 0 && next < bytes.size() && (static_cast<unsigned char>(bytes[next]) & 0xC0) == 0x80) out += bytes[next++];
    out += bytes.substr(i, std::max<std::size_t>(fold, 1));
    i = next;
  }
  return out;
}

}  // namespace

Result<CalendarFile> events_of(std::string_view bytes, const CalendarContext& context) {
  if (bytes.size() > largest_calendar)
    return Problem{"file_too_large", "", "The file is larger than 4 MB: export one school year of one calendar only."};
  const auto text = decoded(with_whole_characters(bytes));
  if (!text) return text.problems();
  const auto lines = calendar_lines(text->text);
  if (!lines && lines.problems().front().code == "not_a_calendar" && lists_days(text->text)) return listed_days(text->text, context);
  if (!lines) return lines.problems();
  CalendarFile file;
  file.name = lines->name;
  icalerror_set_errors_are_fatal(0);
  const std::unique_ptr<icalcomponent, FreeComponent> calendar(icalparser_parse_string(lines->text.c_str()));
  if (!calendar || icalcomponent_isa(calendar.get()) != ICAL_VCALENDAR_COMPONENT)
    return Problem{"not_a_calendar", "", "The file's lines can't be read as an iCalendar file. Export the calendar anew."};
  if (text->encoding != "UTF-8") file.notes.push_back(said("The file is written in {0}.", text->encoding));
  if (lines->without_place > 0) file.notes.push_back(said("{0} tasks, journal entries and the like were not looked at.", lines->without_place));
  Reader(calendar.get(), *lines, context, file).read_all();
  return file;
}

}  // namespace redd::intake::detail
