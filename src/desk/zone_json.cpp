#include "desk/zone_json.h"

namespace redd::desk {

using wire::Json;

std::optional<Instant> instant_in(const Json& object, const char* key) {
  const auto found = object.find(key);
  if (found == object.end() || !found->is_string()) return std::nullopt;
  return instant_from_rfc3339(found->get_ref<const std::string&>());
}

Result<ZoneOffsets> zone_from(const Json& given, std::string field) {
  ZoneOffsets zone;
  const Problem malformed{"not_a_zone", field, "A zone is {\"name\", \"changes\": [{\"from\", \"offset_seconds\"}]}, oldest first."};
  if (!given.is_object() || !given.contains("name") || !given["name"].is_string() || !given.contains("changes") || !given["changes"].is_array())
    return malformed;
  zone.name = given["name"].get<std::string>();
  for (const Json& change : given["changes"]) {
    const auto from = change.is_object() ? instant_in(change, "from") : std::nullopt;
    if (!from || !change.contains("offset_seconds") || !change["offset_seconds"].is_number_integer()) return malformed;
    if (!zone.changes.empty() && *from <= zone.changes.back().from) return malformed;
    zone.changes.push_back({*from, std::chrono::seconds(change["offset_seconds"].get<int>())});
  }
  return zone;
}

}  // namespace redd::desk
