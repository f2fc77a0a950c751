#include "intake/detail/calendar_lines.h"

#include <algorithm>
#include <array>

#include "intake/detail/cells.h"

namespace redd::intake::detail {
namespace {

constexpr std::size_t most_events = 20'000;
constexpr std::size_t longest_value = 20'000;  ///< of a line that is kept; dates and summaries are far shorter

constexpr std::array<std::string_view, 10> event_fields{"uid", "summary", "status", "dtstart", "dtend", "duration", "rrule", "rdate", "exdate", "recurrence-id"};
constexpr std::array<std::string_view, 7> zone_fields{"tzid", "dtstart", "tzoffsetfrom", "tzoffsetto", "rrule", "rdate", "tzname"};

struct Line {
  std::size_t number = 0;
  std::string text{};
};

/// Folded lines joined. Source  RFC 5545, 3.1; single line feeds are taken too.
std::vector<Line> unfolded(std::string_view text) {
  std::vector<Line> lines;
  std::size_t number = 0;
  while (!text.empty()) {
    ++number;
    const std::size_t end = text.find_first_of("\r\n");
    std::string_view line = text.substr(0, end);
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + (text.substr(end).starts_with("\r\n") ? 2 : 1));
    if (!lines.empty() && (line.starts_with(' ') || line.starts_with('\t'))) lines.back().text += line.substr(1);
    else if (!line.empty()) lines.push_back({number, std::string(line)});
  }
  return lines;
}

template <std::size_t N>
bool holds(const std::array<std::string_view, N>& fields, std::string_view name) {
  return std::ranges::find(fields, name) != fields.end();
}

Problem broken(std::size_t line, const Phrase& sentence) {
  return {"broken_structure", "line " + std::to_string(line), said("Line {0}: {1} Export the calendar anew.", line, sentence)};
}

/// Escapes of a text value undone. Source  RFC 5545, 3.3.11.
std::string unescaped(std::string_view value) {
  std::string out;
  for (std::size_t i = 0; i < value.size(); ++i) {
    if (value[i] == '\\' && i + 1 < value.size()) ++i, out += value[i] == 'n' || value[i] == 'N' ? ' ' : value[i];
    else out += value[i];
  }
  return out;
}

}  // namespace

Result<CalendarLines> calendar_lines(std::string_view text) {
  const std::vector<Line> lines = unfolded(text);
  CalendarLines result;
  std::string zones, events;
  std::vector<std::string> open;  // components we are in, lower case
  bool any_calendar = false;
  for (const Line& line : lines) {
    const std::string name = lower(line.text.substr(0, line.text.find_first_of(";:")));
    const std::size_t colon = line.text.find(':');
    const std::string value = colon == std::string::npos ? "" : line.text.substr(colon + 1);
    if (name == "begin") {
      const std::string what = lower(trimmed(value));
      if (open.empty() && what != "vcalendar") continue;
      if (what == "vcalendar" && !open.empty()) return broken(line.number, "a calendar begins inside another one.");
      any_calendar = any_calendar || what == "vcalendar";
      if (open.size() > 6) return broken(line.number, "too many parts inside each other.");
      open.push_back(what);
      if (open.size() == 2 && what != "vevent" && what != "vtimezone") ++result.without_place;
      if (open.size() == 2 && what == "vevent") {
        if (result.event_lines.size() >= most_events)
          return Problem{"too_many_events", "line " + std::to_string(line.number), "The file has more than 20,000 events: export one school year only."};
        result.event_lines.push_back(line.number);
        events += "BEGIN:VEVENT\r\n";
      }
      if (open.size() == 2 && what == "vtimezone") zones += "BEGIN:VTIMEZONE\r\n";
      if (open.size() == 3 && open[1] == "vtimezone" && (what == "standard" || what == "daylight")) zones += "BEGIN:" + what + "\r\n";
      continue;
    }
    if (open.empty()) continue;
    if (name == "end") {
      const std::string what = lower(trimmed(value));
      if (what != open.back() && &line == &lines.back() && open.back().starts_with(what)) break;  // the file ends within the word
      if (what != open.back()) return broken(line.number, said("\"{0}\" ends where \"{1}\" is open.", shown(what), shown(open.back())));
      if (open.size() == 2 && what == "vevent") events += "END:VEVENT\r\n";
      if (open.size() == 2 && what == "vtimezone") zones += "END:VTIMEZONE\r\n";
      if (open.size() == 3 && open[1] == "vtimezone" && (what == "standard" || what == "daylight")) zones += "END:" + what + "\r\n";
      open.pop_back();
      continue;
    }
    if (open.size() == 1 && (name == "x-wr-calname" || name == "name") && result.name.empty()) result.name = unescaped(value).substr(0, 200);
    const bool is_wanted = open.size() == 2 && open[1] == "vevent" ? holds(event_fields, name)
                           : (open.size() == 2 || open.size() == 3) && open[1] == "vtimezone" && holds(zone_fields, name);
    if (!is_wanted) continue;
    // Left out, a repetition would silently happen once.
    if (line.text.size() > longest_value) return broken(line.number, "a date, key or summary of more than 20,000 characters.");
    // Clocks change at most by a yearly rule; anything else is no zone of a school.
    if (open[1] == "vtimezone" && name == "rrule" && lower(value).find("freq=yearly") == std::string::npos)
      return broken(line.number, "a time zone changes by a rule that is not yearly.");
    (open[1] == "vevent" ? events : zones) += line.text + "\r\n";
  }
  if (!any_calendar)
    return Problem{"not_a_calendar", "", "This is no iCalendar file: it has no line BEGIN:VCALENDAR. In the school's calendar look for \"export\" or \"subscribe\" and take the file that ends in .ics, or write the closed days in a text file, one a line: 2030-12-23 to 2031-01-03, Winter break."};
  if (!open.empty()) return Problem{"cut_off", "", said("The file breaks off: \"{0}\" is begun and never ended. Download it again, or events at its end would be missing.", shown(open.back()))};
  result.text = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Redd//Import//EN\r\n" + zones + events + "END:VCALENDAR\r\n";
  return result;
}

}  // namespace redd::intake::detail
