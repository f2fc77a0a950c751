#include "records/food.h"

namespace redd::records {

const Spoon* find_spoon(std::span<const Record> effective_records, const std::optional<std::string>& food) {
  const Spoon* any = nullptr;
  for (std::size_t i = effective_records.size(); i-- > 0;)
    if (const auto* spoon = std::get_if<Spoon>(&effective_records[i].entry.body)) {
      if (!food || spoon->food == food) return spoon;
      if (!any) any = spoon;
    }
  return any;
}

Mass food_mass(std::span<const Record> effective_records, const Feeding& feeding) {
  if (feeding.mass) return *feeding.mass;
  const Spoon* spoon = feeding.spoons ? find_spoon(effective_records, feeding.food) : nullptr;
  return Mass::from_g(spoon ? *feeding.spoons * spoon->mass.g() / spoon->spoons : 0);
}

}  // namespace redd::records
