#pragma once
// The tank's temperature day by day: measured where it was, filled where it was not, and held at the plan beyond today.

#include "inference/belief.h"

namespace redd::inference {

/// In      records: effective. until: last day wanted, after today.
TemperatureBelief temperature_belief(const records::SeasonSetup& season, std::span<const records::Record> records,
                                     const ZoneOffsets& zone, Instant now, Date until);

}  // namespace redd::inference
