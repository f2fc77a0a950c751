#include "server/witness_desk.h"

namespace redd::server {

void WitnessDesk::remember(const records::Appended& appended) {
  if (!appended.already_known) added_.emplace_back(appended.record.id, appended.record.logged_at);
}

Result<records::Appended> WitnessDesk::add(const records::Entry& entry, Instant now) {
  auto kept = behind_.add(entry, now);
  if (kept) remember(*kept);
  return kept;
}

Result<std::vector<records::Appended>> WitnessDesk::add_all(const std::vector<records::Entry>& entries, Instant now) {
  auto kept = behind_.add_all(entries, now);
  if (kept)
    for (const records::Appended& appended : *kept) remember(appended);
  return kept;
}

Result<std::size_t> WitnessDesk::take_in(std::span<const records::Record> file) {
  const auto before = behind_.look();
  auto taken = behind_.take_in(file);
  const auto after = behind_.look();
  // What others added in between is taken along: too many are called taken in over the network, never too few.
  if (taken && before && after)
    for (std::size_t i = (*before)->records.size(); i < (*after)->records.size(); ++i) taken_in_.emplace_back((*after)->records[i].id, (*after)->records[i].logged_at);
  return taken;
}

}  // namespace redd::server
