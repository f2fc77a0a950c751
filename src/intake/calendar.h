#pragma once
// A school's calendar (iCalendar) as closures of the log. Start at preview_calendar(): it changes nothing and says for every event
// what it would become or why it is left out. closures_to_keep() gives the entries once the keeper has agreed.
// Source  RFC 5545 (iCalendar), read with libical.

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "intake/import.h"
#include "records/record.h"

namespace redd::intake {

/// What the program knows besides the file.
struct CalendarContext {
  ZoneOffsets zone{};   ///< of the school
  Date first_day{};     ///< events over before it are left out
  Date last_day{};      ///< events and repetitions that begin after it are left out
  Instant now{};        ///< the entries' time
  std::vector<records::Record> records{};  ///< the whole log: what an earlier import brought is recognised
};

struct CalendarSettings {
  bool all = false;               ///< take every whole-day event, not only those that sound like a closed school
  std::string author = "import";  ///< label the entries carry
};

/// What keeping a row would do to the log.
enum class RowStanding {
  added,    ///< new
  known,    ///< in the log already: word for word, or as a closure of the same days from elsewhere
  changed,  ///< in the log with other words or days: a correction
  settled   ///< in the log once, and since corrected or taken back by the keeper: left as it is
};

/// One closure, as shown for confirmation.
struct ClosureRow {
  std::size_t line = 0;  ///< of the event in the file, counted from 1
  records::Closure closure{};
  RowStanding standing = RowStanding::added;
};

/// An event that becomes no closure.
struct LeftOut {
  std::size_t line = 0;
  std::string summary{};
  Date day{};
  int times = 1;         ///< repetitions within the season
  Phrase reason{};       ///< one sentence
};

struct CalendarPreview {
  std::string name{};                  ///< of the calendar, where it has one
  std::vector<ClosureRow> closures{};  ///< in order of their days
  std::vector<LeftOut> left_out{};
  std::vector<BadRow> bad{};           ///< events that can't be read although they may be closures
  std::vector<Phrase> notes{};
  std::vector<records::Entry> entries{};  ///< what added and changed rows become
};

/// Reads a calendar.
///
/// In      bytes: a plain list of closed days, one a line ("2030-12-23 to 2031-01-03, Winter break"), or an .ics file: UTF-8, UTF-16 with a byte-order mark or Windows-1252, up to 4 MB. Whole-day and timed events, zones by
///         name or as the file describes them, repetitions with their exceptions.
/// Out     an event whose words sound like a closed school becomes a closure from day to day; one that sounds like an early end becomes
///         an early closing. Only dates, summaries and keys of events are looked at; descriptions, places and people are not read.
/// Errors  empty_file, file_too_large, not_text, not_a_calendar, cut_off, broken_structure, too_many_events.
Result<CalendarPreview> preview_calendar(std::string_view bytes, const CalendarSettings& settings, const CalendarContext& context);

/// The entries to append.
/// Errors  not_confirmed unless the closures are accepted; bad_rows while there are bad rows and they were not waived.
Result<std::vector<records::Entry>> closures_to_keep(const CalendarPreview& preview, Decision decision);

/// {"kind":"calendar","name","closures":[{"line","name","from","to","shut_from"?,"standing"}],"left_out":[{"line","summary","day","times",
/// "reason"}],"bad":[as json_from_preview()],"notes":[…],"closure_count","left_out_count","bad_count","entry_count"}. At most `rows` of each.
std::string json_from_calendar_preview(const CalendarPreview& preview, std::size_t rows = 500, const Worded& worded = in_english);

/// "added", "known", "changed", "settled".
std::string_view standing_text(RowStanding standing);

}  // namespace redd::intake
