#include "intake/detail/dates.h"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "intake/detail/cells.h"
#include "quantities/verbatim.h"

namespace redd::intake::detail {
namespace {

using namespace std::chrono;

constexpr std::array<std::string_view, 5> order_words{"ymd", "dmy", "mdy", "serial_1900", "serial_1904"};

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

/// Takes digits off the front; nothing when there are none or more than `most`.
std::optional<int> take_number(std::string_view& text, std::size_t most, int* width = nullptr) {
  std::size_t n = 0;
  int value = 0;
  while (n < text.size() && is_digit(text[n])) {
    if (++n > most) return std::nullopt;
    value = value * 10 + (text[n - 1] - '0');
  }
  if (n == 0) return std::nullopt;
  if (width) *width = static_cast<int>(n);
  text.remove_prefix(n);
  return value;
}

bool take(std::string_view& text, std::string_view what) {
  if (!lower(text.substr(0, what.size())).starts_with(what)) return false;
  text.remove_prefix(what.size());
  return true;
}

/// English and Spanish month names, whole or at least their first three letters. No beginning means two months.
std::optional<int> take_month(std::string_view& text) {
  constexpr std::array<std::string_view, 24> names{"january", "february", "march", "april", "may", "june",
                                                   "july", "august", "september", "october", "november", "december",
                                                   "enero", "febrero", "marzo", "abril", "mayo", "junio",
                                                   "julio", "agosto", "septiembre", "octubre", "noviembre", "diciembre"};
  std::size_t n = 0;
  while (n < text.size() && is_letter(text[n])) ++n;
  const std::string word = lower(text.substr(0, n));
  if (n < 3) return std::nullopt;
  for (std::size_t i = 0; i < names.size(); ++i)
    if (names[i].starts_with(word) || (word == "setiembre" && i == 8)) {
      text.remove_prefix(n);
      if (text.starts_with('.')) text.remove_prefix(1);
      return static_cast<int>(i % 12) + 1;
    }
  return std::nullopt;
}

/// "Mon ", "Monday, ": said twice, so not needed.
void skip_weekday(std::string_view& text) {
  constexpr std::array<std::string_view, 14> names{"monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday",
                                                   "lunes", "martes", "miercoles", "jueves", "viernes", "sabado", "domingo"};
  std::size_t n = 0;
  while (n < text.size() && (is_letter(text[n]) || static_cast<unsigned char>(text[n]) >= 0x80)) ++n;
  const std::string word = plain_key(text.substr(0, n));
  if (n < 3 || !std::ranges::any_of(names, [&](std::string_view name) { return name.starts_with(word); })) return;
  text.remove_prefix(n);
  while (!text.empty() && (text[0] == ' ' || text[0] == ',' || text[0] == '.')) text.remove_prefix(1);
}

/// "3 de febrero de 2031" as "3 febrero 2031".
std::string without_spanish_of(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const std::string next = lower(text.substr(i, 5));
    const std::size_t skip = next.starts_with(" del ") ? 4 : next.starts_with(" de ") ? 3 : 0;
    i += skip;
    out += text[i];
  }
  return out;
}

std::optional<seconds> take_time(std::string_view& text) {
  const auto hour = take_number(text, 2);
  // "14h05" as well as "14:05"; a point would make a decimal number a time.
  if (!hour || !(take(text, ":") || take(text, "h"))) return std::nullopt;
  int width = 0;
  const auto minute = take_number(text, 2, &width);
  if (!minute || width != 2 || *minute > 59) return std::nullopt;
  int second = 0;
  if (take(text, ":")) {
    const auto read = take_number(text, 2, &width);
    if (!read || width != 2 || *read > 59) return std::nullopt;
    second = *read;
    // A fraction of a second is below what a log needs.
    if ((text.starts_with('.') || text.starts_with(',')) && text.size() > 1 && is_digit(text[1])) {
      text.remove_prefix(1);
      if (!take_number(text, 9)) return std::nullopt;
    }
  }
  int full_hour = *hour;
  std::string_view rest = trimmed(text);
  const auto half_of_day = [&](std::string_view letter) {
    for (const std::string_view form : {"m", ".m.", ". m.", ".\xC2\xA0m."})
      if (take(rest, std::string(letter) + std::string(form))) return true;
    return false;
  };
  const bool am = half_of_day("a"), pm = !am && half_of_day("p");
  if (am || pm) {
    if (full_hour < 1 || full_hour > 12) return std::nullopt;
    full_hour = full_hour % 12 + (pm ? 12 : 0);
    text = rest;
  }
  if (full_hour > 23) return std::nullopt;
  return hours(full_hour) + minutes(*minute) + seconds(second);
}

std::optional<seconds> take_offset(std::string_view& text) {
  if (take(text, "z") || take(text, "utc") || take(text, "gmt")) return seconds(0);
  if (text.empty() || (text[0] != '+' && text[0] != '-')) return std::nullopt;
  const int sign = text[0] == '-' ? -1 : 1;
  text.remove_prefix(1);
  int width = 0;
  const auto hour = take_number(text, 4, &width);
  if (!hour) return std::nullopt;
  if (width == 4) return *hour / 100 > 14 || *hour % 100 > 59 ? std::nullopt : std::optional<seconds>(sign * (hours(*hour / 100) + minutes(*hour % 100)));
  int minute = 0;
  if (take(text, ":")) {
    const auto read = take_number(text, 2, &width);
    if (!read || width != 2 || *read > 59) return std::nullopt;
    minute = *read;
  }
  return *hour > 14 ? std::nullopt : std::optional<seconds>(sign * (hours(*hour) + minutes(minute)));
}

/// Three parts with one separator, one of them perhaps a month's name.
bool take_date(std::string_view& text, Stamp& stamp) {
  char separator = '\0';
  for (int i = 0; i < 3; ++i) {
    if (i > 0) {
      if (text.empty()) return false;
      const char c = text[0];
      if (c != '-' && c != '/' && c != '.' && c != ' ' && c != ',') return false;
      const std::size_t next = text.find_first_not_of(' ', 1);
      const bool named = stamp.named_month >= 0 || (next != std::string_view::npos && is_letter(text[next]));
      // "Feb 3, 2031" and "3. Feb 2031" mix their separators; numbers alone do not.
      if (separator != '\0' && c != separator && !named) return false;
      if ((c == ' ' || c == ',') && !named) return false;
      separator = c;
      text.remove_prefix(1);
      while (named && text.starts_with(' ')) text.remove_prefix(1);
    }
    const auto at = static_cast<std::size_t>(i);
    if (const auto month = stamp.named_month < 0 ? take_month(text) : std::nullopt) {
      stamp.parts[at] = *month;
      stamp.widths[at] = 2;
      stamp.named_month = i;
    } else if (const auto part = take_number(text, 4, &stamp.widths[at])) {
      stamp.parts[at] = *part;
    } else {
      return false;
    }
  }
  stamp.separator = separator;
  return true;
}

struct Positions {
  std::size_t year, month, day;
};
Positions positions(DateOrder order) {
  switch (order) {
    case DateOrder::dmy: return {2, 1, 0};
    case DateOrder::mdy: return {2, 0, 1};
    default: return {0, 1, 2};
  }
}

/// Spreadsheets count days from a day that makes 1970-01-01 number 25569, or 24107 in the 1904 system.
/// Source  Microsoft, "Differences between the 1900 and the 1904 date system in Excel" (the two differ by 1,462 days).
double first_of_1970(DateOrder order) { return order == DateOrder::serial_1904 ? 24107 : 25569; }

std::optional<DateOrder> order_in_header(std::string_view header) {
  const std::string text = lower(header);
  const auto has = [&](std::string_view word) { return text.find(word) != std::string::npos; };
  for (const char* word : {"yyyy-mm", "yyyy/mm", "y-m-d", "yy-mm-dd", "yy/mm/dd"})
    if (has(word)) return DateOrder::ymd;
  for (const char* word : {"dd/mm", "dd-mm", "dd.mm", "d/m/y", "d.m.y"})
    if (has(word)) return DateOrder::dmy;
  for (const char* word : {"mm/dd", "mm-dd", "m/d/y"})
    if (has(word)) return DateOrder::mdy;
  return std::nullopt;
}

std::string text_of(const Stamp& s) {
  const std::string mark(1, s.separator);
  return std::to_string(s.parts[0]) + mark + std::to_string(s.parts[1]) + mark + std::to_string(s.parts[2]);
}

}  // namespace

std::string_view word_of(DateOrder order) { return order_words[static_cast<std::size_t>(order)]; }

std::optional<DateOrder> order_named(std::string_view word) {
  const auto found = std::ranges::find(order_words, word);
  if (found == order_words.end()) return std::nullopt;
  return static_cast<DateOrder>(found - order_words.begin());
}

std::optional<Stamp> stamp(std::string_view cell) {
  const std::string without_of = without_spanish_of(cell);
  std::string_view text = trimmed(without_of);
  if (text.size() < 6 || text.size() > 48) return std::nullopt;
  skip_weekday(text);
  Stamp result;
  if (!take_date(text, result)) return std::nullopt;
  const bool t = take(text, "t");
  while (!t && !text.empty() && (text[0] == ' ' || text[0] == ',')) text.remove_prefix(1);
  if (text.empty()) return t ? std::nullopt : std::optional(result);
  result.time = take_time(text);
  if (!result.time) return std::nullopt;
  text = trimmed(text);
  if (!text.empty()) {
    result.offset = take_offset(text);
    if (!result.offset || !text.empty()) return std::nullopt;
  }
  return result;
}

std::optional<Stamp> serial_stamp(std::string_view cell, char decimal_mark) {
  const auto value = number(cell, decimal_mark);
  if (!value || *value < 20000 || *value > 80000) return std::nullopt;
  Stamp result;
  result.serial = *value;
  const double day_fraction = *value - std::floor(*value);
  if (day_fraction > 0) result.time = seconds(static_cast<long long>(std::llround(day_fraction * 86400)));
  return result;
}

std::optional<seconds> time_of_day(std::string_view cell) {
  std::string_view text = trimmed(cell);
  const auto time = take_time(text);
  return text.empty() ? time : std::nullopt;
}

std::optional<local_seconds> local_time_of(const Stamp& s, DateOrder order) {
  if (s.serial) {
    if (order != DateOrder::serial_1900 && order != DateOrder::serial_1904) return std::nullopt;
    return local_seconds{seconds(static_cast<long long>(std::llround((*s.serial - first_of_1970(order)) * 86400)))};
  }
  if (order == DateOrder::serial_1900 || order == DateOrder::serial_1904) return std::nullopt;
  const Positions at = positions(order);
  if (s.named_month >= 0 && static_cast<std::size_t>(s.named_month) != at.month) return std::nullopt;
  // A year has four digits, or two where a two-digit year is usual; a day or month has one or two.
  if (s.widths[at.year] != 4 && s.widths[at.year] != 2) return std::nullopt;
  if (s.widths[at.month] > 2 || s.widths[at.day] > 2) return std::nullopt;
  const int y = s.parts[at.year] + (s.widths[at.year] == 2 ? 2000 : 0);
  const year_month_day ymd{year(y), month(static_cast<unsigned>(s.parts[at.month])), day(static_cast<unsigned>(s.parts[at.day]))};
  if (y < 1900 || y > 2199 || !ymd.ok()) return std::nullopt;
  return local_seconds{sys_days{ymd}.time_since_epoch()} + s.time.value_or(seconds(0));
}

Result<OrderVerdict> order_of(std::span<const Stamp> stamps, std::string_view header, Date from, Date to) {
  struct Tally {
    DateOrder order;
    std::size_t fits = 0, in_season = 0;
  };
  constexpr std::array orders{DateOrder::ymd, DateOrder::dmy, DateOrder::mdy, DateOrder::serial_1900, DateOrder::serial_1904};
  std::vector<Tally> tallies;
  for (const DateOrder order : orders) {
    Tally tally{order};
    for (const Stamp& s : stamps) {
      const auto local = local_time_of(s, order);
      tally.fits += local.has_value();
      tally.in_season += local && *local >= local_seconds{from} && *local < local_seconds{to + days(1)};
    }
    tallies.push_back(tally);
  }
  std::ranges::stable_sort(tallies, std::greater<>{}, [](const Tally& t) { return std::pair(t.fits, t.in_season); });
  const Tally& best = tallies.front();
  // A day that exists in no order is one bad cell. Days that exist in another order only mean that no one order holds.
  std::size_t in_another_order = 0;
  const Stamp* misfit = stamps.data();
  for (const Stamp& s : stamps)
    if (!local_time_of(s, best.order) && std::ranges::any_of(orders, [&](DateOrder other) { return local_time_of(s, other).has_value(); })) {
      ++in_another_order;
      misfit = &s;
    }
  if (in_another_order * 10 > stamps.size() || best.fits == 0)
    return Problem{"mixed_date_orders", "date_order",
                   said("The dates are not all written in one order ({0} does not fit {1}): write them all the same way, best as 2031-02-28.", verbatim(text_of(*misfit)), word_of(best.order))};
  OrderVerdict verdict{best.order, {}, {}, false};
  for (const Tally& tally : tallies)
    if (tally.fits == best.fits) verdict.possible.push_back(tally.order);
  const auto stated = order_in_header(header);
  if (stated && std::ranges::find(verdict.possible, *stated) != verdict.possible.end()) {
    verdict.order = *stated;
    verdict.by_header = true;
    verdict.reason = "the header says so";
  } else if (verdict.possible.size() == 1) {
    verdict.reason = "only this order gives days that exist";
  } else if (best.in_season > tallies[1].in_season) {
    verdict.reason = "the dates fit more than one order; this one puts more of them inside the season";
  } else {
    verdict.reason = "the dates fit more than one order";
  }
  return verdict;
}

}  // namespace redd::intake::detail
