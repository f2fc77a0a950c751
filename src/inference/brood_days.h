#pragma once
// How many animals are alive, as far as counts tell. Start at alive_now().

#include <span>
#include <vector>

#include "inference/belief.h"

namespace redd::inference {

struct AliveNow {
  Estimate<double> count{0, 0, 0, Support::assumed};
  std::vector<RecordId> records{};
};

/// Animals in the tank: the newest count of living ones less what died or was released since; without one, the eggs received less all of them.
///
/// In      effective records.
/// Out     the low end allows for deaths nobody saw. Assumed: a tenth of what was received and never counted since; a twentieth of a count,
///         a fifth of an estimate.
AliveNow alive_now(std::span<const records::Record> records);

/// Share of the living that were last counted as swum up, and when. Nothing without such a count.
struct SwumUpCount {
  double fraction = 0;
  Instant at{};
  RecordId record = 0;
};
std::optional<SwumUpCount> swum_up_count(std::span<const records::Record> records);

}  // namespace redd::inference
