#include "emergency/emergency.h"

#include <algorithm>

#include "quantities/verbatim.h"

namespace redd::emergency {

std::vector<Emergency> emergencies(const Case& now) {
  std::vector<Emergency> all{
#define REDD_ITEM(name) kinds::name(now),
#include "emergency/kinds_list.inc"
#undef REDD_ITEM
  };
  std::ranges::stable_sort(all, {}, [](const Emergency& e) { return std::pair(!e.now, e.rank); });
  return all;
}

Result<Emergency> emergency(const std::vector<Emergency>& all, std::string_view key) {
  std::string wanted(key), known;
  std::ranges::replace(wanted, '-', '_');
  for (const Emergency& each : all) {
    if (each.key == wanted) return each;
    known += (known.empty() ? "" : ", ") + each.key;
  }
  std::ranges::replace(known, '_', '-');
  return Problem{"unknown_emergency", "which", said("There is no emergency \"{0}\". Known: {1}.", verbatim(key), verbatim(known))};
}

}  // namespace redd::emergency
