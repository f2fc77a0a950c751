#include "records/school_calendar.h"

#include <algorithm>
#include <charconv>

namespace redd::records {
namespace {

using std::chrono::days;
using std::chrono::minutes;

/// Nobody plans further than this, and a slip in a closure's dates must not make a search endless.
constexpr days farthest{3 * 366};

constexpr std::array<std::string_view, 7> weekday_names{"sunday", "monday", "tuesday", "wednesday", "thursday", "friday", "saturday"};

std::optional<std::size_t> weekday_from_word(std::string_view word) {
  if (word.size() < 3) return std::nullopt;
  std::string lower(word);
  for (char& c : lower)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  for (std::size_t i = 0; i < weekday_names.size(); ++i)
    if (weekday_names[i].starts_with(lower)) return i;
  return std::nullopt;
}

bool holds(Date from, Date to, Date day) { return from <= day && day <= to; }

}  // namespace

std::optional<Weekdays> weekdays_from_text(std::string_view text) {
  Weekdays result{};
  bool any = false;
  while (true) {
    const std::size_t begin = text.find_first_not_of(" ,");
    if (begin == std::string_view::npos) break;
    text.remove_prefix(begin);
    const std::string_view word = text.substr(0, text.find_first_of(" ,"));
    text.remove_prefix(word.size());
    const std::size_t dash = word.find('-');
    const auto first = weekday_from_word(word.substr(0, dash));
    const auto last = dash == std::string_view::npos ? first : weekday_from_word(word.substr(dash + 1));
    if (!first || !last) return std::nullopt;
    for (std::size_t i = *first;; i = (i + 1) % 7) {
      result[i] = any = true;
      if (i == *last) break;
    }
  }
  return any ? std::optional(result) : std::nullopt;
}

std::optional<minutes> clock_from_text(std::string_view text) {
  const std::size_t colon = text.find(':');
  if (colon == std::string_view::npos || colon < 1 || colon > 2 || text.size() != colon + 3) return std::nullopt;
  const auto number = [](std::string_view digits) -> std::optional<int> {
    int value = 0;
    if (digits.find_first_not_of("0123456789") != std::string_view::npos) return std::nullopt;
    std::from_chars(digits.data(), digits.data() + digits.size(), value);
    return value;
  };
  const auto hour = number(text.substr(0, colon)), minute = number(text.substr(colon + 1));
  if (!hour || !minute || *hour > 23 || *minute > 59) return std::nullopt;
  return std::chrono::hours(*hour) + minutes(*minute);
}

std::string clock_text(minutes time) {
  const auto pad = [](long long v) { return (v < 10 ? "0" : "") + std::to_string(v); };
  return pad(time / std::chrono::hours(1)) + ":" + pad((time % std::chrono::hours(1)).count());
}

Date last_day_of(const Closure& closure) { return std::max(closure.from, closure.to.value_or(closure.from)); }
Date last_day_of(const Duty& duty) { return std::max(duty.from, duty.to.value_or(duty.from)); }

SchoolCalendar::SchoolCalendar(std::span<const Record> effective_records) {
  if (const SeasonSetup* season = find_season(effective_records); season && season->school_weekdays)
    weekdays_ = weekdays_from_text(*season->school_weekdays).value_or(monday_to_friday);
  for (const Record& record : effective_records) {
    if (const auto* closure = std::get_if<Closure>(&record.entry.body)) closures_.push_back(*closure);
    if (const auto* duty = std::get_if<Duty>(&record.entry.body)) duties_.push_back(*duty);
  }
}

bool SchoolCalendar::is_school_weekday(Date day) const { return weekdays_[std::chrono::weekday(day).c_encoding()]; }

std::optional<Closure> SchoolCalendar::closure_on(Date day) const {
  const auto found = std::ranges::find_if(closures_, [&](const Closure& c) { return !c.shut_from && holds(c.from, last_day_of(c), day); });
  return found == closures_.end() ? std::nullopt : std::optional(*found);
}

bool SchoolCalendar::is_open(Date day) const { return is_school_weekday(day) && !closure_on(day); }

std::optional<Date> SchoolCalendar::next_open_day(Date day) const {
  for (Date each = day + days(1); each <= day + farthest; each += days(1))
    if (is_open(each)) return each;
  return std::nullopt;
}

std::optional<Date> SchoolCalendar::last_open_day_before(Date day) const {
  for (Date each = day - days(1); each >= day - farthest; each -= days(1))
    if (is_open(each)) return each;
  return std::nullopt;
}

int SchoolCalendar::closed_days_from(Date day) const {
  int count = 0;
  while (count < farthest.count() && !is_open(day + days(count))) ++count;
  return count;
}

std::optional<minutes> SchoolCalendar::shut_from(Date day) const {
  if (!is_open(day)) return std::nullopt;
  std::optional<minutes> earliest;
  for (const Closure& c : closures_)
    if (c.shut_from && c.from == day)
      if (const auto time = clock_from_text(*c.shut_from)) earliest = std::min(earliest.value_or(*time), *time);
  return earliest;
}

std::vector<std::string> SchoolCalendar::on_duty(Date day) const {
  std::vector<std::string> labels;
  for (const Duty& duty : duties_)
    if (holds(duty.from, last_day_of(duty), day) && std::ranges::find(labels, duty.label) == labels.end()) labels.push_back(duty.label);
  return labels;
}

}  // namespace redd::records
