#include "classroom/codes.h"

#include <algorithm>

namespace redd::classroom {

std::optional<std::string> code_from_typed(std::string_view typed) {
  std::string code;
  for (char c : typed) {
    if (c == ' ' || c == '-' || c == '\t') continue;
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
    if (code_signs.find(c) == std::string_view::npos || code.size() == code_length) return std::nullopt;
    code += c;
  }
  return code.size() == code_length ? std::optional(code) : std::nullopt;
}

std::string code_as_shown(std::string_view code) { return std::string(code.substr(0, 4)) + "-" + std::string(code.substr(4)); }

Result<BenchCode> BenchCodes::add(const Digest& digest, std::string label, std::chrono::minutes life, Instant now) {
  if (life < shortest_code_life || life > longest_code_life)
    return Problem{"out_of_range", "/minutes", said("A bench code lasts from {0} to {1} minutes.", shortest_code_life.count(), longest_code_life.count())};
  let_go(now);
  if (codes_.size() >= most_codes) return Problem{"too_many", "", said("There are {0} bench codes already. End some of them first.", most_codes)};
  codes_.push_back({++last_id_, digest, std::move(label), now, now + life});
  return codes_.back();
}

const BenchCode* BenchCodes::find(const Digest& digest, Instant now) {
  let_go(now);
  const BenchCode* found = nullptr;
  for (const BenchCode& code : codes_)
    if (same_digest(code.digest, digest)) found = &code;
  return found;
}

bool BenchCodes::end(long long id, Instant now) {
  let_go(now);
  return std::erase_if(codes_, [&](const BenchCode& code) { return code.id == id; }) > 0;
}

const std::vector<BenchCode>& BenchCodes::open(Instant now) {
  let_go(now);
  return codes_;
}

/// A clock that was set back would lengthen a life: then it ends.
void BenchCodes::let_go(Instant now) {
  std::erase_if(codes_, [&](const BenchCode& code) { return now >= code.ends_at || now < code.made_at - std::chrono::minutes(1); });
}

}  // namespace redd::classroom
