#pragma once
// Whether a test dose has shown that the filter works, and in how cold water.

#include <optional>

#include "advice/situation.h"

namespace redd::advice {

struct FilterProof {
  Instant at{};                            ///< of the clear test after the dose
  std::optional<Temperature> water{};      ///< as last read before it; absent: not read within three days
  std::vector<records::RecordId> records{};  ///< dose and tests
};

/// The newest ammonia dose that shows on a card and was gone, nitrite with it, at a test half a day to two days later; no water change of a tenth or more between.
std::optional<FilterProof> latest_proof(const Situation& s);

/// A proof of the last ten days in water no warmer than two degrees above the target. Assumed: an unfed filter keeps its strength about so long.
bool proven_cold(const Situation& s, const std::optional<FilterProof>& proof);

}  // namespace redd::advice
