#include "advice/dose_after_change.h"

#include "advice/answers.h"
#include "advice/rule.h"
#include "chemistry/dosing.h"
#include "chemistry/limits.h"

namespace redd::advice {
namespace {

using inference::Quantity;

bool is_dose(const Action& a) { return a.rule == "buffer" && std::ranges::find(a.deeds, Deed::dose) != a.deeds.end(); }

/// KH after the change; nothing where the new water's KH is not known or the change comes too late to be waited for.
std::optional<double> lifted_meq_per_l(const Situation& s, const Action& change, const Assessment& kh) {
  if (!s.belief.source || !s.belief.source->alkalinity) return std::nullopt;
  const auto after = change.water_change->after.find(Quantity::alkalinity);
  if (after == change.water_change->after.end() || after->second.mid <= kh.value->mid) return std::nullopt;
  const Date day = std::max(s.today(), local_day(s.zone, change.by));
  const bool may_crash = kh.value->low < chemistry::limits::alkalinity_least.meq_per_l();
  const Date latest = may_crash ? next_school_day(s) : s.today() + waited_for_change;
  return day <= latest ? std::optional(after->second.mid) : std::nullopt;
}

Reason lift_of(const Situation& s, const Assessment& kh, double after_meq_per_l) {
  auto records = kh.records;
  if (s.belief.source_record) records.push_back(s.belief.source_record);
  return {{"The change alone lifts KH from about {0} to about {1}; the filter needs {2}.",
           {Alkalinity::from_meq_per_l(kh.value->mid), Alkalinity::from_meq_per_l(after_meq_per_l), chemistry::limits::alkalinity_for_nitrification}}, std::move(records)};
}

void wait_for(const Situation& s, Action& dose, Action& change, const Assessment& kh, double after_meq_per_l) {
  const bool animals = inference::has_animals(s.belief.brood.animals);
  const double one_degree = Alkalinity::from_german_degrees(1.0).meq_per_l(), missing = 1.2 * chemistry::limits::alkalinity_for_nitrification.meq_per_l() - after_meq_per_l;
  const auto raise = Alkalinity::from_meq_per_l(animals ? std::min(missing, one_degree) : missing);
  change.tone = std::max(change.tone, dose.tone);  // which now depends on it
  dose.deeds = {Deed::wait};
  dose.tone = Tone::watch;
  dose.what = {"After the water change test KH, and add sodium bicarbonate only for what is still missing."};
  dose.how_much = {"About {0}: {1} sodium bicarbonate, dissolved in a litre of tank water and added slowly.", {raise, chemistry::sodium_bicarbonate_for(s.season.volume, raise)}};
  dose.because.push_back(lift_of(s, kh, after_meq_per_l));
  const Date day = std::max(s.today(), local_day(s.zone, change.by));
  dose.by = std::max(dose.by, s.end_of(day));
  dose.by_text = by_text(s, local_day(s.zone, dose.by));
}

}  // namespace

void dose_only_the_rest(const Situation& s, std::vector<Action>& actions) {
  const auto dose = std::ranges::find_if(actions, is_dose);
  const auto change = std::ranges::find_if(actions, [](const Action& a) { return a.water_change.has_value(); });
  const Assessment& kh = s.of(WaterKey::alkalinity);
  if (dose == actions.end() || change == actions.end() || !kh.value) return;
  const auto after = lifted_meq_per_l(s, *change, kh);
  if (!after) return;
  if (*after < chemistry::limits::alkalinity_for_nitrification.meq_per_l()) return wait_for(s, *dose, *change, kh, *after);
  change->because.push_back(lift_of(s, kh, *after));
  change->cautions.push_back({"No bicarbonate before this change: test KH after it."});
  change->key = joined_keys(change->key, dose->key);
  change->tone = std::max(change->tone, dose->tone);
  actions.erase(dose);
}

}  // namespace redd::advice
