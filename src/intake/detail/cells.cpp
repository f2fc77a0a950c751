#include "intake/detail/cells.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdint>

#include "quantities/verbatim.h"

namespace redd::intake::detail {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

}  // namespace

std::string_view trimmed(std::string_view text) {
  const auto is_space = [](char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; };
  while (!text.empty() && is_space(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_space(text.back())) text.remove_suffix(1);
  if (text.starts_with("\xC2\xA0")) return trimmed(text.substr(2));  // no-break space
  return text;
}

std::string lower(std::string_view text) {
  std::string result(text);
  for (char& c : result)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return result;
}

namespace {

/// Latin letters without their accents, so that "Fecha de recolección" and "Fecha de recoleccion" are the same words. In: the second
/// byte of a two-byte character that begins with C3, as Latin-1 has it.
char without_accent(unsigned char second) {
  constexpr std::string_view plain = "aaaaaaaceeeeiiiidnooooo*ouuuuy*saaaaaaaceeeeiiiidnooooo*ouuuuy*y";
  return second >= 0x80 && second < 0xC0 ? plain[second - 0x80u] : '*';
}

}  // namespace

std::string plain_key(std::string_view header) {
  std::string key;
  const std::string low = lower(header);
  for (std::size_t i = 0; i < low.size(); ++i) {
    char c = low[i];
    if (c == '\xC3' && i + 1 < low.size()) c = without_accent(static_cast<unsigned char>(low[++i]));
    if ((c >= 'a' && c <= 'z') || is_digit(c)) key += c;
    else if (!key.empty() && key.back() != '_') key += '_';
  }
  if (key.ends_with('_')) key.pop_back();
  return key;
}

std::string_view without_unit(std::string_view header) { return trimmed(header.substr(0, header.find_first_of("([,"))); }

bool is_missing(std::string_view cell) {
  constexpr std::array<std::string_view, 13> words{"", "-", "--", "---", ".", "na", "n/a", "nan", "null", "none", "missing", "\xE2\x80\x93", "?"};
  return std::ranges::find(words, std::string_view(lower(trimmed(cell)))) != words.end();
}

std::optional<double> number(std::string_view cell, char decimal_mark) {
  cell = trimmed(cell);
  std::string text(cell);
  if (text.starts_with("\xE2\x88\x92")) text.replace(0, 3, "-");  // the typographer's minus
  if (text.starts_with('+')) text.erase(0, 1);
  if (text.empty() || text.size() > 40) return std::nullopt;
  for (char& c : text) {
    if (c == decimal_mark) c = '.';
    else if (!is_digit(c) && c != '-' && c != 'e' && c != 'E' && c != '+') return std::nullopt;
  }
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

char decimal_mark_in(std::string_view cell) {
  for (std::size_t i = 1; i + 1 < cell.size(); ++i)
    if ((cell[i] == ',' || cell[i] == '.') && is_digit(cell[i - 1]) && is_digit(cell[i + 1])) return cell[i];
  return '\0';
}

MarkedTemperature marked_temperature(std::string_view cell, char decimal_mark) {
  cell = trimmed(cell);
  MarkedTemperature found;
  if (!cell.empty())
    if (const char last = lower(cell.substr(cell.size() - 1))[0]; last == 'c' || last == 'f') {
      found.unit = last;
      cell.remove_suffix(1);
      for (const std::string_view sign : {"\xC2\xB0", "\xC2\xBA"}) {
        cell = trimmed(cell);
        if (cell.ends_with(sign)) cell.remove_suffix(sign.size());
      }
    }
  found.value = number(cell, decimal_mark);
  return found;
}

std::string_view without_unit_behind(std::string_view cell) {
  cell = trimmed(cell);
  const std::string low = lower(cell);
  for (const std::string_view word : {"ppm", "mg/l", "dkh", "dgh", "\xC2\xB0" "dh", "\xC2\xBA" "dh"})
    if (low.size() > word.size() && low.ends_with(word)) return trimmed(cell.substr(0, cell.size() - word.size()));
  return cell;
}

Phrase shown(std::string_view cell) {
  if (cell.size() <= 40) return verbatim(cell);
  std::size_t cut = 37;
  while (cut > 0 && (static_cast<unsigned char>(cell[cut]) & 0xC0) == 0x80) --cut;  // not inside a character
  return verbatim(std::string(cell.substr(0, cut)) + "...");
}

std::string stable_hash(std::string_view text) {
  // 64-bit FNV-1a (from memory), finished by a multiply-shift so that short texts spread over all digits.
  std::uint64_t hash = 14695981039346656037ULL;
  for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
  hash ^= hash >> 32;
  hash *= 0x9E3779B97F4A7C15ULL;
  hash ^= hash >> 29;
  std::string digits(16, '0');
  for (std::size_t i = 16; i-- > 0; hash >>= 4) digits[i] = "0123456789abcdef"[hash & 15];
  return digits;
}

}  // namespace redd::intake::detail
