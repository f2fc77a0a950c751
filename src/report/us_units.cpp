#include "report/us_units.h"

#include <algorithm>
#include <array>

namespace redd::report {
namespace {

struct Entry {
  std::string_view metric, us;
};
constexpr Entry entries[] = {
#define REDD_MESSAGE(metric, us) {metric, us},
#include "report/messages_en_us.inc"
#undef REDD_MESSAGE
};

}  // namespace

std::string_view in_us_units(std::string_view english) {
  const auto found = std::ranges::find(entries, english, &Entry::metric);
  return found == std::end(entries) ? english : found->us;
}

}  // namespace redd::report
