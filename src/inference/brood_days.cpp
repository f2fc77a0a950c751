#include "inference/brood_days.h"

#include <algorithm>

namespace redd::inference {
namespace {

/// Goes through counts, releases and receipts in order of time.
struct Tally {
  double alive = 0, doubt_fraction = 0.1;
  int lost = 0;
  std::vector<RecordId> records{};
  void take(const records::Record& record) {
    if (const auto* eggs = std::get_if<records::EggReceipt>(&record.entry.body)) {
      alive += eggs->count;
    } else if (const auto* release = std::get_if<records::Release>(&record.entry.body)) {
      alive -= release->count;
    } else if (const auto* count = std::get_if<records::Count>(&record.entry.body); count && records::are_dead(count->what)) {
      alive -= count->count;
    } else if (count && count->what == records::Count::What::alive) {
      alive = count->count;
      doubt_fraction = count->how == records::Count::How::counted ? 0.05 : 0.2;
      records.clear();
    } else {
      return;
    }
    records.push_back(record.id);
  }
};

}  // namespace

AliveNow alive_now(std::span<const records::Record> records) {
  Tally tally;
  for (const auto& record : records) tally.take(record);
  const double alive = std::max(0.0, tally.alive);
  // Nobody sees more than there are; an estimate may be short of the truth as well.
  const double over = tally.doubt_fraction > 0.1 ? tally.doubt_fraction : 0.0;
  return {{alive * (1.0 - tally.doubt_fraction), alive, alive * (1.0 + over), Support::inferred}, std::move(tally.records)};
}

std::optional<SwumUpCount> swum_up_count(std::span<const records::Record> records) {
  Tally tally;
  std::optional<SwumUpCount> newest;
  for (const auto& record : records) {
    tally.take(record);
    if (const auto* count = std::get_if<records::Count>(&record.entry.body); count && count->what == records::Count::What::swum_up && tally.alive > 0)
      newest = SwumUpCount{std::min(1.0, count->count / tally.alive), record.entry.at, record.id};
  }
  return newest;
}

}  // namespace redd::inference
