#pragma once
// How much water the tank loses to the air, and what the salts left behind do to its hardness. Topping up is not a water change. Start at evaporation_of().

#include <span>
#include <vector>

#include "inference/belief.h"

namespace redd::planning {

struct Evaporation {
  enum class Basis { top_ups, surface };
  Estimate<double> l_per_day{0, 0, 0, Support::assumed};
  Basis basis = Basis::surface;
  Sentence rests_on{};
  std::vector<records::RecordId> records{};
};

/// In      records: effective.
/// Out     by the top-ups of the last four weeks when there are two or more, else by the open surface and the room.
/// Source  surface: [shah2014], see heat::surface_exchange().
/// Assumed: a room of 30 to 60 % relative humidity; a lid keeps nine tenths in; water half a metre deep where nobody measured the tank.
Evaporation evaporation_of(const records::SeasonSetup& season, std::span<const records::Record> records, const inference::Belief& belief, Instant now);

}  // namespace redd::planning
