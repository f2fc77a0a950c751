#pragma once
// Food given, as grams.

#include <span>

#include "records/record.h"

namespace redd::records {

/// The newest spoon weighed of that food; of any food when none is named or none of it was weighed. nullptr when no spoon was ever weighed.
const Spoon* find_spoon(std::span<const Record> effective_records, const std::optional<std::string>& food);

/// Grams of one feeding, of spoons as they were last weighed. 0 when it was logged in spoons that nobody has weighed (a spoon taken back later).
Mass food_mass(std::span<const Record> effective_records, const Feeding& feeding);

}  // namespace redd::records
