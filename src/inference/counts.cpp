#include "inference/counts.h"

#include <algorithm>
#include <cmath>

namespace redd::inference {
namespace {

using biology::Stage;
using std::chrono::days;

/// Share of the received that the newest count of living accounts for, with those released; the dead found since are not in it.
void add_counted(Counts& counts) {
  const auto& account = counts.account;
  const auto newest = std::find_if(account.counts.rbegin(), account.counts.rend(), [](const CountTaken& c) { return c.what == records::Count::What::alive; });
  if (newest == account.counts.rend() || account.received <= 0) return;
  const auto share = [&](double alive) { return std::clamp((alive + account.released) / account.received, 0.0, 1.0); };
  counts.counted_on = newest->day;
  counts.counted_fraction = Estimate<double>{share(account.alive.low), share(account.alive.mid), share(account.alive.high), Support::measured};
  // Those missing and never found dead count against the whole way, too.
  if (!counts.stages.empty() && counts.counted_fraction->high < biology::typical_survival(SurvivalStage::whole).low_fraction)
    counts.stages.back().verdict = StageSurvival::Verdict::below;
}

/// Where nobody looked for dead, and no count of the living fits, the dead found say only that at least so many died.
void allow_for_unseen(Counts& counts) {
  constexpr days unseen{14};  // Assumed: longer than any break with a rota
  const bool looked = counts.losses.looked && counts.today - *counts.losses.looked <= unseen;
  if (looked || counts.today - *counts.received_on <= unseen) return;
  for (StageSurvival& stage : counts.stages)
    if (stage.verdict == StageSurvival::Verdict::not_below) stage.verdict = StageSurvival::Verdict::not_looked;
}

}  // namespace

LossPhase loss_phase(const BroodBelief& brood, std::span<const Date> receipts, Date day) {
  constexpr days arrival{3};
  for (const Date receipt : receipts)
    if (day >= receipt && day < receipt + arrival) return LossPhase::arrival;
  if (!brood.forecast) return LossPhase::alevin;
  const auto& hatch = brood.forecast->stage(Stage::hatch);
  const auto& swim_up = brood.forecast->stage(Stage::swim_up);
  // Assumed: eggs that fail to hatch are found up to three days after the last; losses at first feeding go on for four weeks.
  if (day < biology::day_of(hatch.first_tenth.median) - days(1)) return LossPhase::egg;
  if (day <= biology::day_of(hatch.last_tenth.median) + days(3)) return LossPhase::hatching;
  if (day < biology::day_of(swim_up.first_tenth.median)) return LossPhase::alevin;
  return day <= biology::day_of(swim_up.lot.median) + days(28) ? LossPhase::first_feeding : LossPhase::fry;
}

Counts counts_of(std::span<const records::Record> records, const Belief& belief, const ZoneOffsets& zone, Instant now) {
  Counts counts;
  counts.today = local_day(zone, now);
  counts.account = alive_account(records, zone);
  if (counts.account.receipts.empty()) return counts;
  counts.received_on = counts.account.receipts.front();
  counts.released = belief.brood.animals == Animals::released;
  counts.losses = loss_watch(records, belief, counts.account, zone, now);
  counts.stages = stage_survival(records, belief.brood, counts.account, zone);
  counts.curve = survival_curve(records, counts.losses.looks, zone);
  add_counted(counts);
  allow_for_unseen(counts);
  return counts;
}

}  // namespace redd::inference
