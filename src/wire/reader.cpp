#include "wire/reader.h"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "quantities/phrase_parts.h"
#include "quantities/verbatim.h"

namespace redd::wire {
namespace {

std::string plain_number(double value) {
  char buffer[400];
  // Plain notation: a limit of 100000 must not read "1e+05".
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed);
  return {buffer, end.ptr};
}

/// Three digits of a bound in another unit, towards what is allowed: whoever gives the number they read is not refused for it.
std::string rounded_inwards(double bound, bool up) {
  if (bound == 0.0) return "0";
  const int places = std::max(0, 2 - static_cast<int>(std::floor(std::log10(std::abs(bound)))));
  const double unit = std::pow(10.0, std::floor(std::log10(std::abs(bound))) - 2.0), steps = bound / unit, nearest = std::round(steps);
  constexpr double hair = 1e-9;  // what the conversion itself adds
  const double whole = std::abs(steps - nearest) < hair * std::abs(steps) ? nearest : up ? std::ceil(steps) : std::floor(steps);
  return as_typed(whole * unit, places);
}

bool has_control_characters(std::string_view text) {
  return std::ranges::any_of(text, [](unsigned char c) { return (c < 0x20 && c != '\n' && c != '\t') || c == 0x7f; });
}

/// Few letters differ: a likely slip of the fingers.
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t cost = std::min({row[j] + 1, row[j - 1] + 1, diagonal + (a[i - 1] == b[j - 1] ? 0 : 1)});
      diagonal = row[j];
      row[j] = cost;
    }
  }
  return row[b.size()];
}

}  // namespace

const Json* Reader::find(std::string_view key) {
  asked_.emplace(key);
  const auto found = object_.find(std::string(key));
  if (found == object_.end() || found->is_null()) return nullptr;
  return &*found;
}

bool Reader::failed_in(const std::string& key) const {
  const std::string stem = key.substr(0, key.find_last_of('_'));
  return std::ranges::any_of(failed_, [&](const std::string& failed) {
    return failed == key || (failed.starts_with(stem + "_") && stem != key);
  });
}

void Reader::problem(std::string_view code, std::string_view key, Phrase sentence) {
  failed_.emplace(key);
  problems_.push_back({std::string(code), base_ + "/" + std::string(key), said("{0} {1}.", verbatim(key), std::move(sentence))});
}

Phrase Reader::shown(const Json& value) {
  std::string text = printed(value);
  if (text.size() > 40) text = text.substr(0, 37) + "...";
  return verbatim(text);
}

std::optional<double> Reader::checked_number(std::string_view key, const Json& value, Range range,
                                             double (*to_primary)(double)) {
  if (!value.is_number()) {
    problem("not_a_number", key, said("must be a number, not {0}", shown(value)));
    return std::nullopt;
  }
  const double v = value.get<double>();
  const double primary = to_primary ? to_primary(v) : v;
  if (!std::isfinite(primary) || primary < range.low || primary > range.high) {
    // Said in the unit that was given: units differ by a factor and, for temperatures, where they begin.
    const double begin = to_primary ? to_primary(0.0) : 0.0, factor = to_primary ? to_primary(1.0) - begin : 1.0;
    const auto given = [&](double bound, bool up) { return to_primary ? rounded_inwards((bound - begin) / factor, up) : plain_number(bound); };
    problem("out_of_range", key,
            said("is {0}, which can't be right: it must be from {1} to {2}", shown(value), given(range.low, true), given(range.high, false)));
    return std::nullopt;
  }
  return v;
}

void Reader::text(std::string_view key, std::optional<std::string>& field, std::string_view) {
  field.reset();
  const Json* value = find(key);
  if (!value) return;
  if (!value->is_string()) return problem("not_text", key, said("must be text, not {0}", shown(*value)));
  std::string text = value->get<std::string>();
  if (text.size() > longest_text)
    return problem("too_long", key, said("is longer than {0} characters: shorten it", longest_text));
  if (has_control_characters(text)) return problem("bad_characters", key, "holds control characters: type it again");
  field = std::move(text);
}

void Reader::date(std::string_view key, std::optional<Date>& field, std::string_view) {
  field.reset();
  const Json* value = find(key);
  if (!value) return;
  if (value->is_string()) field = date_from_iso(value->get_ref<const std::string&>());
  if (!field) problem("not_a_date", key, said("must be a day that exists, written like 2031-02-28, not {0}", shown(*value)));
}

void Reader::word_index(std::string_view key, std::span<const std::string_view> words, std::optional<std::size_t>& index) {
  const Json* value = find(key);
  if (!value) return;
  if (value->is_string()) {
    const auto found = std::ranges::find(words, value->get_ref<const std::string&>());
    if (found != words.end()) {
      index = static_cast<std::size_t>(found - words.begin());
      return;
    }
  }
  std::string accepted;
  for (const std::string_view word : words) accepted += (accepted.empty() ? "" : ", ") + std::string(word);
  problem("unknown_word", key, said("is {0}; it must be one of: {1}", shown(*value), verbatim(accepted)));
}

bool Reader::is_short_list(std::string_view key, const Json& value) {
  if (!value.is_array()) {
    problem("not_a_list", key, said("must be a list, not {0}", shown(value)));
    return false;
  }
  if (value.size() > longest_list) {
    problem("too_long", key, said("has more than {0} items", longest_list));
    return false;
  }
  return true;
}

void Reader::numbers(std::string_view key, std::vector<double>& field, Range range, std::string_view) {
  field.clear();
  const Json* value = find(key);
  if (!value || !is_short_list(key, *value)) return;
  for (std::size_t i = 0; i < value->size(); ++i)
    if (const auto v = checked_number(std::string(key) + "/" + std::to_string(i), (*value)[i], range, nullptr))
      field.push_back(*v);
}

void Reader::texts(std::string_view key, std::vector<std::string>& field, std::string_view) {
  field.clear();
  const Json* value = find(key);
  if (!value || !is_short_list(key, *value)) return;
  for (const Json& item : *value) {
    if (!item.is_string() || item.get_ref<const std::string&>().size() > longest_text ||
        has_control_characters(item.get_ref<const std::string&>()))
      return problem("not_text", key, "must hold short texts only");
    field.push_back(item.get<std::string>());
  }
}

void Reader::finish() {
  for (const auto& [key, value] : object_.items()) {
    if (asked_.contains(key)) continue;
    std::string all, near;
    for (const std::string& known : asked_) {
      all += (all.empty() ? "" : ", ") + known;
      if (edit_distance(key, known) <= 2) near = known;
    }
    const Phrase hint = near.empty() ? said("; known fields are: {0}.", verbatim(all)) : said("; did you mean \"{0}\"?", verbatim(near));
    problems_.push_back({"unknown_field", base_ + "/" + key, said("\"{0}\" is not a field of this record{1}", verbatim(key), hint)});
  }
}

}  // namespace redd::wire
