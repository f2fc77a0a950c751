// When many die: what to look at, in which order, and what was done shortly before. No diagnosis; what can be tested and what changed.

#include <algorithm>

#include "quantities/one_or_several.h"
#include "quantities/verbatim.h"

#include "inference/counts.h"

namespace redd::inference {
namespace {

using records::Record;

Finding temperature_check(const Belief& belief) {
  const auto& t = belief.temperature;
  if (!t.latest || t.record == 0) return {{"Temperature: never read in this season, so read it now."}, {}};
  return {{"Temperature: last read {0} ago, {1}. Read it again, and feel whether chiller and pump run.", {Days(t.age_days), *t.latest}}, {t.record}};
}

Finding tested(const Belief& belief, Quantity quantity, const char* never, const char* last) {
  const QuantityBelief* known = belief.find(quantity);
  if (!known) return {{never}, {}};
  return {{last, {Days(known->age_days)}}, known->records};
}

Finding chlorine_check(std::span<const Record> records, const ZoneOffsets& zone, Instant now) {
  constexpr double window_days = 7.0;
  const Record* newest = nullptr;
  for (const Record& record : records)
    if (std::holds_alternative<records::WaterChange>(record.entry.body) || std::holds_alternative<records::TopUp>(record.entry.body)) newest = &record;
  if (!newest || days_between(newest->entry.at, now).count() > window_days)
    return {{"Total chlorine: no new water is logged for a week; test it if any went in."}, {}};
  const auto* change = std::get_if<records::WaterChange>(&newest->entry.body);
  const Date day = local_day(zone, newest->entry.at);
  if (change && change->dechlorinated) return {{"Total chlorine: new water went in on {0}, noted as dechlorinated. Test it all the same.", {day}}, {newest->id}};
  return {{"Total chlorine: new water went in on {0} and is not noted as dechlorinated. Test it first.", {day}}, {newest->id}};
}

constexpr const char* substances[] = {"sodium bicarbonate", "calcium chloride", "magnesium sulfate", "ammonium chloride", "sodium thiosulfate", "a substance"};
constexpr const char* filter_works[] = {"filter media rinsed", "filter media replaced", "filter media added", "filter seeded"};
constexpr const char* machines[] = {"chiller", "pump", "air", "heater", "power", "light", "equipment"};
constexpr const char* events[] = {"failed", "restored", "switched off", "switched on", "serviced"};
template <std::size_t N, class Enum>
Word word_of(const char* const (&words)[N], Enum value) {
  return {words[static_cast<std::size_t>(value)]};
}

/// An event as the list of changes names it; nothing for what is no change.
struct ChangeSentence {
  Date day;
  std::optional<Sentence> operator()(const records::WaterChange& c) const {
    return Sentence{c.dechlorinated ? "{0}: water change of {1}, dechlorinated." : "{0}: water change of {1}, not noted as dechlorinated.", {day, c.volume}};
  }
  std::optional<Sentence> operator()(const records::TopUp& t) const { return Sentence{"{0}: topped up with {1}.", {day, t.volume}}; }
  std::optional<Sentence> operator()(const records::Dose& d) const { return Sentence{"{0}: {1} of {2} dosed.", {day, d.mass, d.name && !d.name->empty() ? Word{verbatim(*d.name)} : word_of(substances, d.substance)}}; }
  std::optional<Sentence> operator()(const records::SetPoint& s) const { return Sentence{"{0}: set-point moved to {1}.", {day, s.temperature}}; }
  std::optional<Sentence> operator()(const records::FilterWork& f) const { return Sentence{"{0}: {1}.", {day, word_of(filter_works, f.work)}}; }
  std::optional<Sentence> operator()(const records::EquipmentEvent& e) const {
    return Sentence{"{0}: {1} {2}.", {day, word_of(machines, e.equipment), word_of(events, e.event)}};
  }
  std::optional<Sentence> operator()(const records::EggReceipt& e) const { return Sentence{one_or_several(e.count, "{0}: {1} egg arrived.", "{0}: {1} eggs arrived."), {day, Number{e.count}}}; }
  std::optional<Sentence> operator()(const records::FishSample& s) const { return Sentence{one_or_several(s.count, "{0}: {1} animal was handled to measure it.", "{0}: {1} animals were handled to measure them."), {day, Number{s.count}}}; }
  std::optional<Sentence> operator()(const records::Milestone& m) const {
    return m.seen && m.which == records::Milestone::Which::first_feed ? std::optional(Sentence{"{0}: feeding began.", {day}}) : std::nullopt;
  }
  template <class Other>
  std::optional<Sentence> operator()(const Other&) const {
    return std::nullopt;
  }
};

}  // namespace

std::vector<Finding> loss_checks(std::span<const Record> records, const Belief& belief, const ZoneOffsets& zone, Instant now) {
  std::vector<Finding> checks;
  checks.push_back(temperature_check(belief));
  checks.push_back(tested(belief, Quantity::oxygen, "Air and flow: bubbles and current at the eggs or fish; oxygen was never tested.",
                          "Air and flow: bubbles and current at the eggs or fish; oxygen was last tested {0} ago."));
  checks.push_back(tested(belief, Quantity::total_ammonia, "Ammonia and pH together: ammonia was never tested, test both now.", "Ammonia and pH together: last tested {0} ago, test both now."));
  checks.push_back(tested(belief, Quantity::nitrite, "Nitrite: never tested, test it now.", "Nitrite: last tested {0} ago, test it now."));
  checks.push_back(chlorine_check(records, zone, now));
  checks.push_back({{"More dead: look under the lid, on the intake and in the filter, in the gravel and behind the basket."}, {}});
  return checks;
}

std::vector<Finding> changes_before(std::span<const Record> records, const ZoneOffsets& zone, Date since, Instant now) {
  // Assumed: what kills shows within four days; more than six lines nobody reads.
  constexpr std::chrono::days before{4};
  constexpr std::size_t most = 6;
  std::vector<Finding> changes;
  for (auto record = records.rbegin(); record != records.rend() && changes.size() < most; ++record) {
    const Date day = local_day(zone, record->entry.at);
    if (record->entry.at > now || day < since - before) continue;
    if (auto sentence = std::visit(ChangeSentence{day}, record->entry.body)) changes.push_back({std::move(*sentence), {record->id}});
  }
  return changes;
}

}  // namespace redd::inference
