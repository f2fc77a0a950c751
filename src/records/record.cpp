#include "records/record.h"

#include <algorithm>
#include <array>
#include <map>

namespace redd::records {
namespace {

constexpr std::array<std::string_view, std::variant_size_v<Body>> kinds{
    "season_setup", "kit",   "source_water", "reading",     "temperature", "water_change", "dose", "set_point", "egg_receipt",
    "count",        "feeding", "filter_work", "equipment", "milestone",   "note",         "release", "closure",
    "duty",         "tank_build", "top_up", "spoon", "fish_sample", "advice_answer", "guess", "undo"};

template <std::size_t I = 0>
std::optional<Body> body_at(std::size_t index) {
  if constexpr (I == std::variant_size_v<Body>) {
    return std::nullopt;
  } else {
    return index == I ? std::optional<Body>(Body(std::in_place_index<I>)) : body_at<I + 1>(index);
  }
}

}  // namespace

std::string_view kind_name(const Body& body) { return kinds[body.index()]; }

std::vector<std::string_view> kind_names() { return {kinds.begin(), kinds.end()}; }

std::optional<Body> body_of_kind(std::string_view kind) {
  const auto found = std::ranges::find(kinds, kind);
  return body_at(static_cast<std::size_t>(found - kinds.begin()));
}

std::vector<Standing> standings(std::span<const Record> records) {
  std::vector<Standing> result(records.size());
  std::map<RecordId, std::size_t> index_of;
  for (std::size_t i = 0; i < records.size(); ++i) index_of[records[i].id] = i;
  // A record can only point at an earlier one, so walking back from the newest settles each pointer's own standing
  // before it is applied: an undone undo or an undone correction has no effect.
  for (std::size_t i = records.size(); i-- > 0;) {
    if (result[i].undone_by) continue;
    const Entry& entry = records[i].entry;
    if (const auto* undo = std::get_if<Undo>(&entry.body)) {
      const auto target = index_of.find(undo->target);
      if (target != index_of.end() && target->second < i) result[target->second].undone_by = records[i].id;
    } else if (entry.supersedes) {
      const auto target = index_of.find(*entry.supersedes);
      if (target != index_of.end() && target->second < i) result[target->second].superseded_by = records[i].id;
    }
  }
  return result;
}

std::vector<Record> effective(std::span<const Record> records, Instant now) {
  std::vector<Record> known;
  for (const Record& record : records)
    if (record.logged_at <= now) known.push_back(record);
  const std::vector<Standing> standing = standings(known);
  std::vector<Record> result;
  for (std::size_t i = 0; i < known.size(); ++i)
    if (standing[i].counts() && known[i].entry.at <= now && !std::holds_alternative<Undo>(known[i].entry.body))
      result.push_back(known[i]);
  std::ranges::stable_sort(result, {}, [](const Record& r) { return std::pair(r.entry.at, r.id); });
  return result;
}

const Kit* find_kit(std::span<const Record> effective_records, std::string_view key) {
  for (std::size_t i = effective_records.size(); i-- > 0;)
    if (const auto* kit = std::get_if<Kit>(&effective_records[i].entry.body); kit && kit->key == key) return kit;
  return nullptr;
}

const SeasonSetup* find_season(std::span<const Record> effective_records) {
  for (std::size_t i = effective_records.size(); i-- > 0;)
    if (const auto* season = std::get_if<SeasonSetup>(&effective_records[i].entry.body)) return season;
  return nullptr;
}

const TankBuild* find_tank_build(std::span<const Record> effective_records) {
  for (std::size_t i = effective_records.size(); i-- > 0;)
    if (const auto* build = std::get_if<TankBuild>(&effective_records[i].entry.body)) return build;
  return nullptr;
}

}  // namespace redd::records
