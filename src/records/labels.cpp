#include "records/labels.h"

#include <algorithm>
#include <string>

namespace redd::records {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

/// Blanks and dashes of print as their plain kin, full-width digits and signs as narrow ones: what is pasted looks the same and is other bytes.
std::string plain(std::string_view text) {
  static constexpr std::pair<std::string_view, char> kin[] = {
      {"\u00a0", ' '}, {"\u202f", ' '}, {"\u2009", ' '}, {"\u2010", '-'}, {"\u2011", '-'}, {"\u2012", '-'}, {"\u2013", '-'}, {"\u2014", '-'},
      {"\u2212", '-'}, {"\uff20", '@'}, {"\uff0e", '.'}, {"\uff0b", '+'}, {"\uff0d", '-'},
      {"\uff10", '0'}, {"\uff11", '1'}, {"\uff12", '2'}, {"\uff13", '3'}, {"\uff14", '4'}, {"\uff15", '5'}, {"\uff16", '6'}, {"\uff17", '7'},
      {"\uff18", '8'}, {"\uff19", '9'}};
  std::string out;
  while (!text.empty()) {
    const auto found = std::ranges::find_if(kin, [&](const auto& each) { return text.starts_with(each.first); });
    if (found == std::end(kin)) {
      out += text.front();
      text.remove_prefix(1);
    } else {
      out += found->second;
      text.remove_prefix(found->first.size());
    }
  }
  return out;
}

bool has_email(std::string_view text) {
  const auto in_address = [](char c) { return is_letter(c) || is_digit(c) || c == '.' || c == '-' || c == '_' || c == '+' || (c & 0x80) != 0; };
  for (std::size_t at = text.find('@'); at != std::string_view::npos; at = text.find('@', at + 1)) {
    if (at == 0 || !in_address(text[at - 1])) continue;
    std::string_view host = text.substr(at + 1);
    host = host.substr(0, static_cast<std::size_t>(std::ranges::find_if_not(host, in_address) - host.begin()));
    while (host.ends_with('.')) host.remove_suffix(1);
    const std::size_t dot = host.rfind('.');
    if (dot == std::string_view::npos || dot == 0) continue;
    const std::string_view ending = host.substr(dot + 1);
    if (ending.size() >= 2 && std::ranges::none_of(ending, is_digit)) return true;
  }
  return false;
}

/// Digits of a text as 'd', all else as it is: shapes of days and times are compared with it.
bool fits(std::string_view text, std::string_view shape) {
  if (text.size() < shape.size()) return false;
  for (std::size_t i = 0; i < shape.size(); ++i)
    if (shape[i] == 'd' ? !is_digit(text[i]) : text[i] != shape[i]) return false;
  return text.size() == shape.size() || !is_digit(text[shape.size()]);
}

int number(std::string_view digits) {
  int value = 0;
  for (const char c : digits) value = 10 * value + (c - '0');
  return value;
}
bool is_year(std::string_view digits) { return number(digits) >= 1900 && number(digits) < 2200; }
bool is_day_and_month(int a, int b) { return a >= 1 && b >= 1 && std::min(a, b) <= 12 && std::max(a, b) <= 31; }

/// Length of a day, a school year or a time that begins here, or 0.
std::size_t calendar_length(std::string_view text) {
  for (const char sign : {'-', '/', '.', ' '}) {
    const std::string between(1, sign);
    const auto shape = [&](std::initializer_list<const char*> parts) {
      std::string joined;
      for (const char* part : parts) joined += (joined.empty() ? "" : between) + part;
      return joined;
    };
    for (const char* month : {"dd", "d"})
      for (const char* day : {"dd", "d"}) {
        const std::size_t a = std::string_view(month).size(), b = std::string_view(day).size();
        if (const auto ymd = shape({"dddd", month, day}); fits(text, ymd) && is_year(text.substr(0, 4)) && is_day_and_month(number(text.substr(5, a)), number(text.substr(6 + a, b)))) return ymd.size();
        if (const auto dmy = shape({day, month, "dddd"}); fits(text, dmy) && is_year(text.substr(a + b + 2, 4)) && is_day_and_month(number(text.substr(0, b)), number(text.substr(b + 1, a)))) return dmy.size();
      }
    if (const auto years = shape({"dddd", "dddd"}); fits(text, years) && is_year(text.substr(0, 4)) && number(text.substr(5, 4)) == number(text.substr(0, 4)) + 1) return years.size();
  }
  if (fits(text, "dddddddd") && is_year(text.substr(0, 4)) && number(text.substr(4, 2)) >= 1 && number(text.substr(4, 2)) <= 12 && is_day_and_month(number(text.substr(4, 2)), number(text.substr(6, 2)))) return 8;
  for (const char* time : {"dd:dd", "d:dd"})
    if (fits(text, time)) return std::string_view(time).size();
  return 0;
}

/// The longest row of digits with at most two joining signs between neighbours; days and times end a row.
std::size_t longest_row(std::string_view text) {
  std::size_t longest = 0, digits = 0, apart = 0;
  for (std::size_t i = 0; i < text.size();) {
    const bool begins = is_digit(text[i]) && (i == 0 || !is_digit(text[i - 1]));
    if (const std::size_t length = begins ? calendar_length(text.substr(i)) : 0; length > 0) {
      i += length;
      digits = apart = 0;
      continue;
    }
    const char c = text[i++];
    if (is_digit(c)) {
      longest = std::max(longest, ++digits);
      apart = 0;
    } else if (digits > 0 && (c == ' ' || c == '-' || c == '.' || c == '/' || c == '(' || c == ')') && ++apart <= 2) {
      continue;
    } else {
      digits = apart = 0;
    }
  }
  return longest;
}

}  // namespace

std::optional<PersonalShape> personal_shape(std::string_view label) {
  const std::string text = plain(label);
  if (has_email(text)) return PersonalShape::email;
  if (longest_row(text) >= 7) return PersonalShape::telephone;
  return std::nullopt;
}

std::optional<Problem> problem_of_label(std::string_view label, std::string_view field) {
  const auto shape = personal_shape(label);
  if (!shape) return std::nullopt;
  // The words given are not repeated: they may stand on a wall a moment later.
  return Problem{"personal_data", std::string(field),
                 *shape == PersonalShape::email ? "This looks like an e-mail address. A label names a team or a role, never a person: for example \"Team Newt\" or \"keeper\"."
                                                : "This looks like a telephone number. A label names a team or a role, never a person: for example \"Team Newt\" or \"keeper\"."};
}

Problems problems_of_labels(const Entry& entry) {
  Problems problems;
  const auto look_at = [&](std::string_view label, std::string_view field) {
    if (auto problem = problem_of_label(label, field)) problems.push_back(std::move(*problem));
  };
  look_at(entry.author, "/author");
  if (const auto* reading = std::get_if<Reading>(&entry.body); reading && reading->team) look_at(*reading->team, "/body/team");
  if (const auto* guess = std::get_if<Guess>(&entry.body)) look_at(guess->team, "/body/team");
  if (const auto* duty = std::get_if<Duty>(&entry.body)) look_at(duty->label, "/body/label");
  return problems;
}

Problems problems_of_labels(std::span<const Entry> entries) {
  Problems problems;
  for (std::size_t i = 0; i < entries.size() && problems.size() < 200; ++i)
    for (Problem& problem : problems_of_labels(entries[i])) {
      problem.field = "/entries/" + std::to_string(i) + problem.field;
      problems.push_back(std::move(problem));
    }
  return problems;
}

std::size_t personal_labels(std::span<const Record> records) {
  return static_cast<std::size_t>(std::ranges::count_if(records, [](const Record& record) { return !problems_of_labels(record.entry).empty(); }));
}

}  // namespace redd::records
