#pragma once
// What lives in the tank and how far it has come, from the egg receipt, the temperatures and what was seen.

#include "inference/belief.h"

namespace redd::inference {

/// In      records: effective. temperature: with the plan beyond today. gaps: gets a sentence for what could not be worked out.
BroodBelief brood_belief(const records::SeasonSetup& season, std::span<const records::Record> records, const ZoneOffsets& zone,
                         Instant now, const TemperatureBelief& temperature, std::vector<Sentence>& gaps);

}  // namespace redd::inference
