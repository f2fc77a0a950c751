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

/// Animals in the tank, as alive_account() has them, with the records they rest on: the newest count of living ones, else the receipts.
///
/// In      effective records.
AliveNow alive_now(std::span<const records::Record> records, const ZoneOffsets& zone);

/// Share of the living that were last counted as swum up, and when. Nothing without such a count.
struct SwumUpCount {
  double fraction = 0;
  Instant at{};
  RecordId record = 0;
};
std::optional<SwumUpCount> swum_up_count(std::span<const records::Record> records, const ZoneOffsets& zone);

}  // namespace redd::inference
