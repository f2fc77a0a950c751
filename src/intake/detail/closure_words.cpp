#include "intake/detail/closure_words.h"

#include <algorithm>
#include <array>

#include "quantities/verbatim.h"

namespace redd::intake::detail {
namespace {

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || static_cast<unsigned char>(c) >= 0x80; }
bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// Lower case for ASCII and the accented letters of western Europe (U+00C0 to U+00DE).
std::string folded(std::string_view text) {
  std::string result(text);
  for (std::size_t i = 0; i < result.size(); ++i) {
    if (result[i] >= 'A' && result[i] <= 'Z') result[i] = static_cast<char>(result[i] - 'A' + 'a');
    const auto byte = static_cast<unsigned char>(result[i]);
    if (i > 0 && result[i - 1] == '\xC3' && byte >= 0x80 && byte <= 0x9E && byte != 0x97) result[i] = static_cast<char>(byte + 0x20);
  }
  return result;
}

/// The phrase as whole words.
bool has_words(std::string_view text, std::string_view phrase) {
  for (std::size_t at = text.find(phrase); at != std::string_view::npos; at = text.find(phrase, at + 1)) {
    const std::size_t end = at + phrase.size();
    if ((at == 0 || !is_letter(text[at - 1])) && (end == text.size() || !is_letter(text[end]))) return true;
  }
  return false;
}

template <std::size_t N>
bool any_words(std::string_view text, const std::array<std::string_view, N>& phrases) {
  return std::ranges::any_of(phrases, [&](std::string_view p) { return has_words(text, p); });
}
template <std::size_t N>
bool any_part(std::string_view text, const std::array<std::string_view, N>& parts) {
  return std::ranges::any_of(parts, [&](std::string_view p) { return text.find(p) != std::string_view::npos; });
}

/// Found anywhere, also inside longer words ("Weihnachtsferien").
constexpr std::array<std::string_view, 28> closed_parts{
    "holiday", "vacation", "no school", "no classes", "no students", "school closed", "schools closed", "school closure", "closed for", "ferien", "feiertag",
    "schulfrei", "unterrichtsfrei", "vacacion", "festivo", "feriado", "asueto", "vacances", "férié", "vacanz", "vakantie", "férias", "helligdag", "skolefri",
    "skollov", "lomat", "wakacje", "sin clases"};
constexpr std::array<std::string_view, 14> closed_words{"break", "recess", "no class", "day off", "half-term", "half term", "congé", "lov", "ferie", "fridag", "loma",
                                                       "no hay clases", "pupil-free day", "chiuso"};
/// Closed alone may be a pool or a library.
constexpr std::array<std::string_view, 2> closed_itself{"closed", "closure"};
constexpr std::array<std::string_view, 6> of_the_school{"school", "schools", "campus", "district", "building", "buildings"};

constexpr std::array<std::string_view, 19> early_words{
    "early dismissal", "early release", "early closing", "early closure", "early out", "early end", "half day", "half-day", "minimum day", "noon dismissal", "dismissal at",
    "closes at", "closing at", "close early", "closes early", "unterrichtsschluss", "hitzefrei", "salida temprana", "sortie anticipée"};

/// With these the event is about a closure, or beside one, but is none.
constexpr std::array<std::string_view, 30> counter_words{
    "before", "after", "resume", "resumes", "return", "returns", "back to school", "begins", "starts", "ends", "last day", "first day", "concert", "party", "camp", "fair",
    "market", "sale", "lunch", "coffee", "childcare", "practice", "tournament", "letzter schultag", "erster schultag", "not closed", "homework", "deadline", "delayed opening",
    "library"};

}  // namespace

ClosureSound sound_of(std::string_view summary) {
  const std::string text = folded(summary);
  if (text.find_first_not_of(" \t") == std::string::npos) return {Sounds::otherwise, "It has no words."};
  const bool closed = any_part(text, closed_parts) || any_words(text, closed_words) ||
                      (any_words(text, closed_itself) && (text.starts_with("closed") || any_words(text, of_the_school)));
  const bool early = any_words(text, early_words);
  if (!closed && !early) return {Sounds::otherwise, "It does not sound like a closed school."};
  for (const std::string_view word : counter_words)
    if (has_words(text, word)) return {Sounds::otherwise, said("With \"{0}\" in it, it may be no closure.", verbatim(word))};
  return {early ? Sounds::early_closing : Sounds::closed, ""};
}

std::optional<std::chrono::minutes> time_in(std::string_view summary) {
  const std::string text = folded(summary);
  for (std::size_t i = 1; i + 2 < text.size(); ++i) {
    if ((text[i] != ':' && text[i] != '.') || !is_digit(text[i - 1]) || !is_digit(text[i + 1]) || !is_digit(text[i + 2])) continue;
    if (i + 3 < text.size() && (is_digit(text[i + 3]) || text[i + 3] == '.')) continue;  // "24.12.2031"
    int hour = text[i - 1] - '0';
    if (i >= 2 && is_digit(text[i - 2])) hour += 10 * (text[i - 2] - '0');
    if (i >= 3 && is_digit(text[i - 3])) continue;
    const int minute = 10 * (text[i + 1] - '0') + (text[i + 2] - '0');
    std::size_t after = i + 3;
    while (after < text.size() && text[after] == ' ') ++after;
    const std::string_view rest = std::string_view(text).substr(after);
    const bool pm = rest.starts_with("pm") || rest.starts_with("p.m"), am = rest.starts_with("am") || rest.starts_with("a.m");
    // A point may also stand in a date or a price: only with a word that says it is a time.
    if (text[i] == '.' && !pm && !am && !rest.starts_with("uhr") && !rest.starts_with("h")) continue;
    if (hour > 23 || minute > 59 || ((pm || am) && (hour == 0 || hour > 12))) continue;
    if (pm || am) hour = hour % 12 + (pm ? 12 : 0);
    else if (hour >= 1 && hour <= 6) hour += 12;
    return std::chrono::hours(hour) + std::chrono::minutes(minute);
  }
  return std::nullopt;
}

}  // namespace redd::intake::detail
