#include "quantities/pattern.h"

#include <charconv>
#include <vector>

namespace redd {
namespace {

bool blank(char c) { return c == ' ' || c == '\n' || c == '\t'; }
std::string_view trimmed(std::string_view text) {
  while (!text.empty() && blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && blank(text.back())) text.remove_suffix(1);
  return text;
}

/// Where the brace opened at the front closes; npos: never.
std::size_t closing(std::string_view text) {
  int depth = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '{') ++depth;
    if (text[i] == '}' && --depth == 0) return i;
  }
  return std::string_view::npos;
}

struct Form {
  std::string_view key;  ///< "=0", "one", "other", or a word
  std::string_view text;
};
struct Place {
  std::size_t index = 0;
  std::string_view kind{};  ///< "", "plural" or "select"
  std::vector<Form> forms{};
  bool sound = true;
  std::size_t length = 0;  ///< in the pattern, with its braces
};

/// The place a text begins with; nothing when its brace stands for itself.
std::optional<Place> place_at(std::string_view text) {
  Place place;
  const auto [end, error] = std::from_chars(text.data() + 1, text.data() + text.size(), place.index);
  if (error != std::errc{} || end == text.data() + text.size() || (*end != '}' && *end != ',')) return std::nullopt;
  const std::size_t close = closing(text);
  if (close == std::string_view::npos) return std::nullopt;
  place.length = close + 1;
  std::string_view rest = text.substr(0, close).substr(static_cast<std::size_t>(end - text.data()));
  if (rest.empty()) return place;
  rest.remove_prefix(1);  // the comma
  const std::size_t comma = rest.find(',');
  place.kind = trimmed(rest.substr(0, comma));
  place.sound = comma != std::string_view::npos && (place.kind == "plural" || place.kind == "select");
  if (!place.sound) return place;
  rest = trimmed(rest.substr(comma + 1));
  bool other = false;
  while (!rest.empty()) {
    const std::size_t open = rest.find('{');
    const std::size_t shut = open == std::string_view::npos ? open : closing(rest.substr(open));
    if (shut == std::string_view::npos) {
      place.sound = false;
      return place;
    }
    place.forms.push_back({trimmed(rest.substr(0, open)), rest.substr(open + 1, shut - 1)});
    other = other || place.forms.back().key == "other";
    rest = trimmed(rest.substr(open + shut + 1));
  }
  place.sound = other;
  return place;
}

bool fits(const Form& form, const Place& place, const Filling& filling) {
  if (place.kind == "select") return form.key == filling.word;
  if (!filling.count) return false;
  if (form.key.starts_with('=')) return form.key.substr(1) == std::to_string(*filling.count);
  return form.key == "one" && *filling.count == 1;  // English and Spanish alike
}

const Form& form_for(const Place& place, const Filling& filling) {
  const Form* other = &place.forms.front();
  for (const Form& form : place.forms) {
    if (fits(form, place, filling)) return form;
    if (form.key == "other") other = &form;
  }
  return *other;
}

std::string with_number(std::string_view form, std::string_view number) {
  std::string out;
  int depth = 0;
  for (const char c : form) {
    depth += c == '{' ? 1 : c == '}' ? -1 : 0;
    if (c == '#' && depth == 0) out += number;
    else out += c;
  }
  return out;
}

}  // namespace

std::string filled(std::string_view pattern, const std::function<Filling(std::size_t)>& filling) {
  std::string out;
  while (!pattern.empty()) {
    const std::size_t brace = pattern.find('{');
    out += pattern.substr(0, brace);
    if (brace == std::string_view::npos) break;
    pattern.remove_prefix(brace);
    const auto place = place_at(pattern);
    if (!place) {
      out += '{';
      pattern.remove_prefix(1);
      continue;
    }
    const Filling given = filling(place->index);
    if (place->forms.empty()) out += given.text;
    else if (place->kind == "plural") out += filled(with_number(form_for(*place, given).text, given.text), filling);
    else out += filled(form_for(*place, given).text, filling);
    pattern.remove_prefix(place->length);
  }
  return out;
}

std::optional<std::string> pattern_fault(std::string_view pattern, std::set<std::size_t>& places) {
  while (true) {
    const std::size_t brace = pattern.find('{');
    if (brace == std::string_view::npos) return std::nullopt;
    pattern.remove_prefix(brace);
    const auto place = place_at(pattern);
    if (!place) {
      if (pattern.size() > 1 && pattern[1] >= '0' && pattern[1] <= '9') return "a place is not closed: " + std::string(pattern);
      pattern.remove_prefix(1);
      continue;
    }
    if (!place->sound) return "neither a plural nor a select with a form for other: " + std::string(pattern.substr(0, place->length));
    places.insert(place->index);
    for (const Form& form : place->forms) {
      const bool number = form.key == "one" || form.key == "other" || (form.key.size() > 1 && form.key[0] == '=' && form.key.find_first_not_of("0123456789", 1) == std::string_view::npos);
      if (form.key.empty() || (place->kind == "plural" && !number)) return "not a form: \"" + std::string(form.key) + "\"";
      if (auto fault = pattern_fault(form.text, places)) return fault;
    }
    pattern.remove_prefix(place->length);
  }
}

}  // namespace redd
