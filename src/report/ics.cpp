#include "report/ics.h"

#include <algorithm>
#include <cstdint>

namespace redd::report {
namespace {

constexpr std::size_t longest_line = 75;  // octets, without the line break

/// Octets of the well-formed UTF-8 sequence the text begins with, or 0. Source  RFC 3629, section 4.
std::size_t sequence_length(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char lead = byte(0);
  if (lead < 0x80) return 1;
  const std::size_t length = lead >= 0xC2 && lead < 0xE0 ? 2 : lead >= 0xE0 && lead < 0xF0 ? 3 : lead >= 0xF0 && lead < 0xF5 ? 4 : 0;
  if (length == 0 || text.size() < length) return 0;
  for (std::size_t i = 1; i < length; ++i)
    if ((byte(i) & 0xC0) != 0x80) return 0;
  if ((lead == 0xE0 && byte(1) < 0xA0) || (lead == 0xED && byte(1) > 0x9F) || (lead == 0xF0 && byte(1) < 0x90) || (lead == 0xF4 && byte(1) > 0x8F)) return 0;
  return length;
}

std::string escaped(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const std::size_t length = sequence_length(text);
    const char c = text[0];
    if (length == 0) {
      out += "\xEF\xBF\xBD";
    } else if (c == '\\' || c == ';' || c == ',') {
      out += '\\';
      out += c;
    } else if (c == '\n') {
      out += "\\n";
    } else if (length > 1 || c == '\t' || (static_cast<unsigned char>(c) >= 0x20 && c != 0x7F)) {
      out += text.substr(0, length);
    }
    text.remove_prefix(std::max<std::size_t>(length, 1));
  }
  return out;
}

/// Writes lines, folded. In: well-formed UTF-8.
class Lines {
 public:
  void add(std::string_view line) {
    std::size_t room = longest_line;
    while (line.size() > room) {
      std::size_t cut = room;
      while ((static_cast<unsigned char>(line[cut]) & 0xC0) == 0x80) --cut;
      out_ += line.substr(0, cut);
      out_ += "\r\n ";
      line.remove_prefix(cut);
      room = longest_line - 1;  // the space counts
    }
    out_ += line;
    out_ += "\r\n";
  }
  void add(std::string_view name, std::string_view value) { add(std::string(name) + ":" + std::string(value)); }
  std::string take() { return std::move(out_); }

 private:
  std::string out_;
};

std::string without_dashes(std::string text) {
  std::erase_if(text, [](char c) { return c == '-' || c == ':'; });
  return text;
}
std::string date_value(Date day) { return without_dashes(iso_from_date(day)); }
std::string utc_value(Instant at) { return without_dashes(rfc3339_from_instant(at)); }

void add_alarm(Lines& lines, const IcsEvent& event) {
  const long long minutes = *event.alarm_minutes;
  lines.add("BEGIN:VALARM");
  lines.add("ACTION:DISPLAY");
  lines.add("DESCRIPTION", escaped(event.summary));
  lines.add("TRIGGER", std::string(minutes > 0 ? "-" : "") + "PT" + std::to_string(minutes < 0 ? -minutes : minutes) + "M");
  lines.add("END:VALARM");
}

void add_event(Lines& lines, const IcsEvent& event, Instant stamp) {
  lines.add("BEGIN:VEVENT");
  lines.add("UID", escaped(event.uid));
  lines.add("DTSTAMP", utc_value(stamp));
  if (event.sequence) lines.add("SEQUENCE", std::to_string(*event.sequence));
  if (event.day) {
    const Date last = std::max(*event.day, event.last_day.value_or(*event.day));
    lines.add("DTSTART;VALUE=DATE", date_value(*event.day));
    lines.add("DTEND;VALUE=DATE", date_value(last + std::chrono::days(1)));  // the day after: DTEND is not included
    lines.add("TRANSP:TRANSPARENT");
  } else {
    lines.add("DTSTART", utc_value(event.from));
    if (event.to > event.from) lines.add("DTEND", utc_value(event.to));  // an event without an end is a moment
  }
  lines.add("SUMMARY", escaped(event.summary));
  if (!event.description.empty()) lines.add("DESCRIPTION", escaped(event.description));
  if (event.alarm_minutes) add_alarm(lines, event);
  lines.add("END:VEVENT");
}

/// FNV-1a, 64 bits: short, and the same on every machine. Source  constants from memory, held in the tests.
std::uint64_t hashed(std::string_view text, std::uint64_t state) {
  for (const char c : text) state = (state ^ static_cast<unsigned char>(c)) * 0x100000001B3u;
  return state;
}

std::string hexadecimal(std::uint64_t value) {
  std::string text;
  for (int shift = 60; shift >= 0; shift -= 4) text += "0123456789abcdef"[value >> shift & 15];
  return text;
}

}  // namespace

std::string ics_text(std::span<const IcsEvent> events, std::string_view name, Instant stamp) {
  Lines lines;
  lines.add("BEGIN:VCALENDAR");
  lines.add("VERSION:2.0");
  lines.add("PRODID:-//Redd//Season//EN");
  lines.add("CALSCALE:GREGORIAN");
  if (!name.empty()) {
    lines.add("NAME", escaped(name));
    lines.add("X-WR-CALNAME", escaped(name));  // the older spelling most programs read
  }
  for (const IcsEvent& event : events) add_event(lines, event, stamp);
  lines.add("END:VCALENDAR");
  return lines.take();
}

std::string ics_uid(std::string_view season, std::string_view what) {
  constexpr std::uint64_t basis = 0xCBF29CE484222325u;
  const std::uint64_t of_season = hashed(season, basis);
  return hexadecimal(of_season) + "-" + hexadecimal(hashed(what, hashed("\n", of_season))) + "@redd.invalid";
}

}  // namespace redd::report
