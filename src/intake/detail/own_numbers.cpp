#include "intake/detail/own_numbers.h"

#include <algorithm>
#include <string>

namespace redd::intake::detail {
namespace {

using records::Kit;
using records::KitTest;
using records::Quantity;
using records::TestUnit;

constexpr std::string_view key_start = "older_log_";

/// Assumed: a number of an unknown kit is no surer than the nearer half of a step of a coarse colour card, drop count or plain meter
/// in the range a cold tank shows. The kit's own card, added as a kit, is always better.
Kit kit_of(const char* word, const char* name, Quantity quantity, TestUnit unit, double accuracy) {
  return {std::string(key_start) + word, name, {KitTest{.key = word, .quantity = quantity, .method = records::Method::meter, .unit = unit, .accuracy = accuracy}}};
}

}  // namespace

const std::vector<Kit>& own_number_kits() {
  static const std::vector<Kit> all{
      kit_of("ammonia_as_n", "Older log: total ammonia as N", Quantity::total_ammonia, TestUnit::mg_n_per_l, 0.2),
      kit_of("ammonia_as_nh3", "Older log: total ammonia as NH3", Quantity::total_ammonia, TestUnit::mg_nh3_per_l, 0.25),
      kit_of("ammonia_as_nh4", "Older log: total ammonia as NH4", Quantity::total_ammonia, TestUnit::mg_nh4_per_l, 0.25),
      kit_of("nitrite_as_n", "Older log: nitrite as N", Quantity::nitrite, TestUnit::mg_n_per_l, 0.1),
      kit_of("nitrite_as_no2", "Older log: nitrite as NO2", Quantity::nitrite, TestUnit::mg_no2_per_l, 0.3),
      kit_of("nitrate_as_n", "Older log: nitrate as N", Quantity::nitrate, TestUnit::mg_n_per_l, 2.5),
      kit_of("nitrate_as_no3", "Older log: nitrate as NO3", Quantity::nitrate, TestUnit::mg_no3_per_l, 10),
      kit_of("ph_as_written", "Older log: pH", Quantity::ph, TestUnit::ph, 0.3),
      kit_of("alkalinity_german_degrees", "Older log: carbonate hardness in German degrees", Quantity::alkalinity, TestUnit::german_degrees, 1),
      kit_of("alkalinity_mg_caco3", "Older log: alkalinity as CaCO3", Quantity::alkalinity, TestUnit::mg_caco3_per_l, 18),
      kit_of("hardness_german_degrees", "Older log: general hardness in German degrees", Quantity::hardness, TestUnit::german_degrees, 1),
      kit_of("hardness_mg_caco3", "Older log: general hardness as CaCO3", Quantity::hardness, TestUnit::mg_caco3_per_l, 18),
      kit_of("oxygen_as_written", "Older log: dissolved oxygen", Quantity::oxygen, TestUnit::mg_per_l, 1)};
  return all;
}

const Kit* own_numbers_named(std::string_view word) {
  const auto found = std::ranges::find_if(own_number_kits(), [&](const Kit& kit) { return kit.tests.front().key == word; });
  return found == own_number_kits().end() ? nullptr : &*found;
}

std::vector<const Kit*> own_numbers_of(Quantity quantity) {
  std::vector<const Kit*> kits;
  for (const Kit& kit : own_number_kits())
    if (kit.tests.front().quantity == quantity) kits.push_back(&kit);
  return kits;
}

const Kit* own_numbers_in(Quantity quantity, TestUnit unit) {
  for (const Kit* kit : own_numbers_of(quantity))
    if (kit->tests.front().unit == unit) return kit;
  return nullptr;
}

bool is_own_numbers(const Kit& kit) { return kit.key.starts_with(key_start); }

}  // namespace redd::intake::detail
