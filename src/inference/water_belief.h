#pragma once
// Each quantity of the water from its latest sitting of tests, carried over the water changes and doses made since.

#include "inference/belief.h"

namespace redd::inference {

/// In      records: effective, with kits among them. temperature: of the tank, for the carbonate system. gaps: gets a sentence when
///         readings no longer fit their kit.
std::map<Quantity, QuantityBelief> water_belief(const records::SeasonSetup& season, std::span<const records::Record> records,
                                                const ZoneOffsets& zone, Instant now, Temperature temperature,
                                                std::vector<Sentence>& gaps);

/// The source water of this key, or the one meant when none is named: that of the latest change that named one, else the latest logged that is not only
/// topped up with. Nothing when none is known.
std::optional<records::SourceWater> source_water(std::span<const records::Record> records, const std::optional<std::string>& key,
                                                 RecordId* id = nullptr);

}  // namespace redd::inference
