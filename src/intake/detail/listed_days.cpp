#include "intake/detail/listed_days.h"

#include <algorithm>

#include "intake/detail/cells.h"
#include "records/school_calendar.h"

namespace redd::intake::detail {
namespace {

constexpr std::size_t most_lines = 5000;
constexpr std::string_view separators = " ,;\t\"'";

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// A stretch of a line between separators.
struct Token {
  std::string_view text{};
  std::size_t begin = 0;
};

std::vector<Token> tokens_of(std::string_view line) {
  std::vector<Token> tokens;
  for (std::size_t at = line.find_first_not_of(separators); at != std::string_view::npos; at = line.find_first_not_of(separators, at)) {
    const std::size_t end = std::min(line.find_first_of(separators, at), line.size());
    tokens.push_back({line.substr(at, end - at), at});
    at = end;
  }
  return tokens;
}

bool joins_days(std::string_view word) {
  const std::string low = lower(word);
  return low == "to" || low == "until" || low == "till" || low == "through" || low == "bis" || low == "-" || low == "\u2013" || low == ".." || low == "/";
}

/// "2030-12-23" itself, or the two of "2030-12-23/2031-01-03", "2030-12-23..2031-01-03".
std::vector<Date> days_in(std::string_view word) {
  constexpr std::size_t length = 10;
  if (word.size() < length) return {};
  const auto first = date_from_iso(word.substr(0, length));
  if (!first) return {};
  if (word.size() == length) return {*first};
  const std::string_view rest = word.substr(length);
  for (const std::string_view between : {"/", "..", "\u2013", "-"})
    if (rest.starts_with(between))
      if (const auto last = date_from_iso(rest.substr(between.size()))) return {*first, *last};
  return {};
}

bool looks_like_iso(std::string_view word) { return word.size() >= 10 && word[4] == '-' && word[7] == '-' && is_digit(word[0]) && is_digit(word[9]); }

/// What a line says; `problem` when it can't be read.
struct Line {
  std::vector<Date> days{};
  std::optional<std::chrono::minutes> shut_from{};
  std::string name{};
  std::string problem{};
};

Line line_of(std::string_view text) {
  Line line;
  std::string_view wrong;
  for (const Token& token : tokens_of(text)) {
    if (const auto days = days_in(token.text); !days.empty()) {
      line.days.insert(line.days.end(), days.begin(), days.end());
    } else if (looks_like_iso(token.text)) {
      wrong = token.text;
    } else if (const auto time = records::clock_from_text(token.text); time && !line.shut_from) {
      line.shut_from = time;
    } else if (!(joins_days(token.text) && line.days.size() == 1 && line.name.empty())) {
      line.name += (line.name.empty() ? "" : " ") + std::string(token.text);
    }
  }
  if (!wrong.empty()) line.problem = said("There is no day {0}.", shown(wrong));
  else if (line.days.empty()) line.problem = "It names no day: write days like 2030-12-23.";
  else if (line.days.size() > 2) line.problem = "It names more than two days: give the first and the last, and one closure a line.";
  else if (line.days.size() == 2 && line.days[1] < line.days[0]) line.problem = "It ends before it begins.";
  else if (line.shut_from && line.days.size() == 2 && line.days[0] != line.days[1]) line.problem = "A time of closing fits one day only: give each day its line.";
  return line;
}

}  // namespace

bool lists_days(std::string_view text) {
  const std::string_view start = trimmed(text.substr(0, 200));
  if (start.starts_with('<') || start.starts_with('{')) return false;  // a page or data of a program, whatever dates stand in it
  for (std::size_t i = 0; i + 10 <= text.size(); ++i)
    if (looks_like_iso(text.substr(i, 10)) && date_from_iso(text.substr(i, 10))) return true;
  return false;
}

Result<CalendarFile> listed_days(std::string_view text, const CalendarContext& context) {
  CalendarFile file;
  file.notes.push_back("The file is a list of days: each of them is taken as closed.");
  std::size_t number = 0;
  while (!text.empty()) {
    ++number;
    const std::size_t end = std::min(text.find('\n'), text.size());
    const std::string_view row = trimmed(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
    if (row.empty() || row.starts_with('#')) continue;
    if (file.events.empty() && std::ranges::none_of(row, is_digit)) continue;  // a header
    if (file.events.size() >= most_lines) return Problem{"too_many_events", "line " + std::to_string(number), "The list has more than 5,000 lines: give one school year only."};
    const Line line = line_of(row);
    CalendarEvent event;
    event.line = number;
    event.listed = true;
    event.shut_from = line.shut_from;
    event.summary = line.name.empty() ? line.shut_from ? "Early closing" : "School closed" : line.name;
    event.uid = "listed " + event.summary;
    event.problem = line.problem;
    if (line.problem.empty()) {
      const Span span{true, line.days.front(), line.days.back(), {}, {}};
      if (span.last >= context.first_day && span.first <= context.last_day) event.spans.push_back(span);
    } else {
      event.summary = shown(row);
    }
    file.events.push_back(std::move(event));
  }
  return file;
}

}  // namespace redd::intake::detail
