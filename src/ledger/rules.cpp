#include "ledger/rules.h"

namespace redd::ledger {

using records::Entry;
using records::Record;

bool governs(const records::Body& body) {
  return std::holds_alternative<records::SeasonSetup>(body) || std::holds_alternative<records::Kit>(body) ||
         std::holds_alternative<records::SourceWater>(body) || std::holds_alternative<records::EggReceipt>(body) ||
         std::holds_alternative<records::Spoon>(body) ||
         std::holds_alternative<records::Undo>(body);
}

void Rules::add(const Record& record) {
  if (governs(record.entry.body)) governing_.push_back(record);
}

Problems Rules::problems_of(const Entry& entry, std::span<const Record> all, Instant now) {
  using namespace std::chrono;
  constexpr Instant earliest{sys_days{year(1900) / January / 2}}, latest{sys_days{year(2199) / December / 30}};
  for (const auto& [moment, field] : {std::pair(entry.at, "/at"), std::pair(now, "/logged_at")})
    if (moment < earliest || moment > latest)
      return {{"out_of_range", field, "The year must lie between 1900 and 2199: check the date, and this computer's clock."}};
  const auto zone = zone_for(entry);
  if (!zone) return zone.problems();
  const bool points_at_a_record = entry.supersedes || std::holds_alternative<records::Undo>(entry.body);
  return records::problems_of(entry, points_at_a_record ? all : std::span<const Record>(governing_), *zone, now);
}

Result<ZoneOffsets> Rules::zone_for(const Entry& entry) {
  const auto* season = std::get_if<records::SeasonSetup>(&entry.body);
  if (!season) {
    const auto standing = records::standings(governing_);
    for (std::size_t i = 0; i < governing_.size(); ++i)
      if (const auto* found = std::get_if<records::SeasonSetup>(&governing_[i].entry.body); found && standing[i].counts()) season = found;
  }
  if (!season) return ZoneOffsets{};
  const std::string key = season->time_zone + " " + iso_from_date(season->first_day);
  if (const auto known = zones_.find(key); known != zones_.end()) return known->second;
  auto zone = zone_of_(*season);
  if (zone) zones_[key] = *zone;
  return zone;
}

}  // namespace redd::ledger
