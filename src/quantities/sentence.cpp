#include "quantities/sentence.h"

namespace redd {
namespace {

bool digit(char c) { return c >= '0' && c <= '9'; }

/// The pattern with every place moved by so many.
std::string moved(std::string_view pattern, std::ptrdiff_t by) {
  std::string out;
  for (std::size_t i = 0; i < pattern.size(); ++i) {
    out += pattern[i];
    if (pattern[i] != '{' || i + 1 == pattern.size() || !digit(pattern[i + 1])) continue;
    std::ptrdiff_t place = 0;
    while (i + 1 < pattern.size() && digit(pattern[i + 1])) place = 10 * place + (pattern[++i] - '0');
    out += std::to_string(place + by);
  }
  return out;
}

}  // namespace

Sentence joined(Sentence first, const Sentence& second) {
  if (first.empty()) return second;
  for (const Sentence& part : parts_of(second)) {
    first.seams.push_back({first.pattern.size() + 1, first.values.size()});
    first.pattern += ' ' + moved(part.pattern, static_cast<std::ptrdiff_t>(first.values.size()));
    first.values.insert(first.values.end(), part.values.begin(), part.values.end());
  }
  return first;
}

std::vector<Sentence> parts_of(const Sentence& sentence) {
  std::vector<Sentence> parts;
  Sentence::Seam from{0, 0};
  for (std::size_t i = 0; i <= sentence.seams.size(); ++i) {
    const bool last = i == sentence.seams.size();
    const Sentence::Seam to = last ? Sentence::Seam{sentence.pattern.size() + 1, sentence.values.size()} : sentence.seams[i];
    Sentence part(moved(std::string_view(sentence.pattern).substr(from.at, to.at - from.at - 1), -static_cast<std::ptrdiff_t>(from.value)));
    part.values.assign(sentence.values.begin() + static_cast<std::ptrdiff_t>(from.value), sentence.values.begin() + static_cast<std::ptrdiff_t>(to.value));
    parts.push_back(std::move(part));
    from = to;
  }
  return parts;
}

}  // namespace redd
