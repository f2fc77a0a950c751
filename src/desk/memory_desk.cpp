#include "desk/memory_desk.h"

#include <algorithm>

#include "ledger/season_file.h"
#include "quantities/fixed_zone.h"
#include "quantities/verbatim.h"
#include "records/labels.h"

namespace redd::desk {
namespace {

constexpr std::size_t most_problems = 200;

Problem no_season(const char* field) { return {"no_season", field, "There is no season yet. Set one up first."}; }

}  // namespace

MemoryDesk::MemoryDesk(std::vector<records::Kit> kit_templates, std::optional<Date> opening_day)
    : kit_templates_(std::move(kit_templates)),
      opening_day_(opening_day),
      ledger_([this](const records::SeasonSetup& season) { return zone_of(season); }) {
  (void)renew();
}

void MemoryDesk::know_zone(ZoneOffsets zone) {
  std::string name = zone.name;
  zones_.insert_or_assign(std::move(name), std::move(zone));
}

Result<ZoneOffsets> MemoryDesk::zone_of(const records::SeasonSetup& season) const {
  if (const auto fixed = fixed_zone(season.time_zone)) return *fixed;
  const auto found = zones_.find(season.time_zone);
  if (found != zones_.end()) return found->second;
  return Problem{"unknown_time_zone", "/body/time_zone",
                 said("\"{0}\" is not a time zone that this browser knows. Write it like America/Denver, or as a fixed offset such as UTC-07:00.", verbatim(season.time_zone.substr(0, 64)))};
}

Problems MemoryDesk::problems_of_names(const records::Entry& entry) const {
  const auto* season = std::get_if<records::SeasonSetup>(&entry.body);
  if (!season) return {};
  Problems problems = problems_of_species(*season);
  if (const auto zone = zone_of(*season); !zone) problems.insert(problems.end(), zone.problems().begin(), zone.problems().end());
  return problems;
}

Problems MemoryDesk::renew() {
  auto next = std::make_shared<Look>();
  next->records = ledger_.records();
  next->opening_day = opening_day_;
  const auto counting = records::effective(next->records, Instant::max());
  if (const records::SeasonSetup* season = records::find_season(counting)) {
    auto zone = zone_of(*season);
    if (!zone) return zone.problems();
    next->zone = std::move(zone).value();
    next->season = *season;
  }
  look_ = std::move(next);
  return {};
}

Result<std::vector<records::Appended>> MemoryDesk::keep(const std::vector<Dated>& entries, bool in_a_batch) {
  const auto mark = ledger_.mark();
  std::vector<records::Appended> result;
  Problems problems;
  for (std::size_t i = 0; i < entries.size() && problems.size() < most_problems; ++i) {
    Problems names = problems_of_names(entries[i].entry);
    auto next = names.empty() ? ledger_.next(entries[i].entry, entries[i].logged_at, static_cast<records::RecordId>(ledger_.records().size()) + 1)
                              : Result<records::Appended>(std::move(names));
    if (next) {
      if (!next->already_known) ledger_.take(next->record);
      result.push_back(std::move(next).value());
      continue;
    }
    for (Problem p : next.problems()) {
      if (in_a_batch) p.field = "/entries/" + std::to_string(i) + p.field;
      problems.push_back(std::move(p));
    }
  }
  if (problems.empty()) problems = renew();
  if (problems.empty()) return result;
  ledger_.back_to(mark);
  return problems;
}

Result<records::Appended> MemoryDesk::add(const records::Entry& entry, Instant now) {
  if (Problems problems = records::problems_of_labels(entry); !problems.empty()) return problems;
  if (!look_->season && look_->records.empty() && !std::holds_alternative<records::SeasonSetup>(entry.body)) return no_season("/kind");
  auto kept = keep({{entry, now}}, false);
  if (!kept) return kept.problems();
  return std::move(kept.value().front());
}

Result<std::vector<records::Appended>> MemoryDesk::add_all(const std::vector<records::Entry>& entries, Instant now) {
  if (Problems problems = records::problems_of_labels(entries); !problems.empty()) return problems;
  if (look_->records.empty()) return no_season("");
  std::vector<Dated> dated;
  for (const records::Entry& entry : entries) dated.push_back({entry, now});
  return keep(dated, true);
}

Result<std::size_t> MemoryDesk::take_in(std::span<const records::Record> file) {
  const auto fresh = ledger::new_records(look_->records, file);
  if (!fresh) return fresh.problems();
  std::vector<Dated> dated;
  for (const records::Record& record : *fresh) dated.push_back({record.entry, record.logged_at});
  const auto kept = keep(dated, true);
  if (!kept) return kept.problems();
  require(std::ranges::none_of(*kept, &records::Appended::already_known) || fresh->empty(), "MemoryDesk::take_in", "a saved season holds one key twice");
  return fresh->size();
}

std::vector<records::Record> MemoryDesk::added() {
  const auto& all = ledger_.records();
  std::vector<records::Record> result(all.begin() + static_cast<std::ptrdiff_t>(handed_over_), all.end());
  handed_over_ = all.size();
  return result;
}

Result<std::size_t> MemoryDesk::restore(std::vector<records::Record> kept) {
  const std::size_t count = kept.size();
  const auto mark = ledger_.mark();
  for (records::Record& record : kept) {
    if (record.id != static_cast<records::RecordId>(ledger_.records().size()) + 1) {
      ledger_.back_to(mark);
      return Problem{"ids_not_in_order", "/records", "The records kept in this browser are not numbered 1, 2, 3 without a gap. Open the file you saved last."};
    }
    ledger_.take(std::move(record));
  }
  if (Problems problems = renew(); !problems.empty()) {
    ledger_.back_to(mark);
    return problems;
  }
  handed_over_ = ledger_.records().size();
  return count;
}

}  // namespace redd::desk
