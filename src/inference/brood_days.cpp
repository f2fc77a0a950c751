#include "inference/brood_days.h"

#include <algorithm>

#include "inference/counts_account.h"

namespace redd::inference {

AliveNow alive_now(std::span<const records::Record> records, const ZoneOffsets& zone) {
  const AliveAccount account = alive_account(records, zone);
  AliveNow alive{account.alive, account.receipt_records};
  const auto living = std::ranges::find(account.counts.rbegin(), account.counts.rend(), records::Count::What::alive, &CountTaken::what);
  if (living != account.counts.rend()) alive.records = living->records;
  return alive;
}

std::optional<SwumUpCount> swum_up_count(std::span<const records::Record> records, const ZoneOffsets& zone) {
  for (std::size_t i = records.size(); i-- > 0;) {
    const auto* count = std::get_if<records::Count>(&records[i].entry.body);
    if (!count || count->what != records::Count::What::swum_up) continue;
    const double alive = alive_account(records, zone).alive_on(local_day(zone, records[i].entry.at));
    if (alive > 0) return SwumUpCount{std::min(1.0, count->count / alive), records[i].entry.at, records[i].id};
  }
  return std::nullopt;
}

}  // namespace redd::inference
