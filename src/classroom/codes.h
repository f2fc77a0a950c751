#pragma once
// Bench codes: short words for a short while, with which a team may add readings. A value; time is given. Start at BenchCodes::add().

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "classroom/digest.h"
#include "quantities/result.h"
#include "quantities/time.h"

namespace redd::classroom {

/// Signs of a code: capitals and digits that are not taken for one another, and no vowels, so that none spells a word.
inline constexpr std::string_view code_signs = "CDFGHJKMNPQRTVWXY2346789";
inline constexpr std::size_t code_length = 8;

inline constexpr std::chrono::minutes usual_code_life{120};
inline constexpr std::chrono::minutes shortest_code_life{5};
inline constexpr std::chrono::minutes longest_code_life{600};  ///< a school day
inline constexpr std::size_t most_codes = 40;

/// What somebody typed as it was made: capitals, without blanks and hyphens. Nothing when it can't be a code.
std::optional<std::string> code_from_typed(std::string_view typed);
/// "CDFG-HJKM".
std::string code_as_shown(std::string_view code);

struct BenchCode {
  long long id = 0;
  Digest digest{};
  std::string label{};  ///< the team it is bound to; empty: any
  Instant made_at{};
  Instant ends_at{};
};

class BenchCodes {
 public:
  /// Errors  out_of_range (life), too_many (end some first).
  Result<BenchCode> add(const Digest& digest, std::string label, std::chrono::minutes life, Instant now);
  /// The code of this digest while it lasts, or nullptr.
  const BenchCode* find(const Digest& digest, Instant now);
  /// Whether there was such a code.
  bool end(long long id, Instant now);
  void end_all() { codes_.clear(); }
  /// Those that last, oldest first.
  const std::vector<BenchCode>& open(Instant now);

 private:
  void let_go(Instant now);
  std::vector<BenchCode> codes_{};
  long long last_id_ = 0;
};

}  // namespace redd::classroom
