// Survival by stage and by day, from the deaths found.

#include <algorithm>
#include <map>

#include "inference/counts.h"

namespace redd::inference {
namespace {

using biology::Stage;
using Verdict = StageSurvival::Verdict;

Verdict verdict_of(SurvivalStage stage, const Estimate<double>& survival) {
  const auto typical = biology::typical_survival(stage);
  if (survival.high < typical.low_fraction) return Verdict::below;
  return survival.low >= typical.low_fraction ? Verdict::not_below : Verdict::cannot_tell;
}

/// In      left_alive: of those that entered, taken out alive on the way; half are counted as at risk (the actuarial rule [cutler1958]).
StageSurvival stage_of(SurvivalStage stage, double entered, int died, double left_alive, bool finished) {
  StageSurvival out{stage};
  out.entered = std::max({1.0, static_cast<double>(died), entered - 0.5 * left_alive});
  out.died = died;
  out.finished = finished;
  const auto lived = numerics::exact_share(out.entered - died, out.entered);
  out.survival_fraction = {lived.low, lived.mid, lived.high, Support::measured};
  out.verdict = verdict_of(stage, out.survival_fraction);
  return out;
}

bool seen(const BroodBelief& brood, biology::Milestone milestone) {
  return std::ranges::any_of(brood.seen, [&](const auto& s) { return s.seen && s.milestone == milestone; });
}
/// Nearly all are past a stage, by what was seen or by the forecast's cautious end.
bool past(const BroodBelief& brood, Stage stage) {
  constexpr double nearly_all = 0.95;
  return brood.forecast && brood.forecast->stage(stage).past_fraction.low >= nearly_all;
}
bool begun(const BroodBelief& brood, Stage stage) {
  constexpr double some = 0.05;
  return brood.forecast && brood.forecast->stage(stage).past_fraction.mid >= some;
}

}  // namespace

std::vector<StageSurvival> stage_survival(const BroodBelief& brood, const AliveAccount& account) {
  std::vector<StageSurvival> out;
  if (account.received <= 0) return out;
  const bool gone = brood.animals == Animals::released;
  const bool hatched = gone || seen(brood, biology::Milestone::hatch_complete) || past(brood, Stage::hatch) || account.dead_fry > 0;
  const bool swum_up = gone || past(brood, Stage::swim_up);
  const double eggs = account.received, alevins = eggs - account.dead_eggs, fry = alevins - account.dead_alevins;
  out.push_back(stage_of(SurvivalStage::egg, eggs, account.dead_eggs, 0.0, hatched));
  if (hatched || begun(brood, Stage::hatch) || account.dead_alevins > 0) out.push_back(stage_of(SurvivalStage::alevin, alevins, account.dead_alevins, 0.0, swum_up));
  if (swum_up || begun(brood, Stage::swim_up) || account.dead_fry > 0) out.push_back(stage_of(SurvivalStage::fry, fry, account.dead_fry, account.released, gone));
  out.push_back(stage_of(SurvivalStage::whole, eggs, account.dead(), account.released, gone));
  return out;
}

std::vector<SurvivalStep> survival_curve(std::span<const records::Record> records, std::span<const LossLook> looks, const ZoneOffsets& zone) {
  std::map<Date, numerics::LotChange> days;
  const auto at = [&](Date day) -> numerics::LotChange& {
    auto& change = days[day];
    change.at = static_cast<double>(day.time_since_epoch().count());
    return change;
  };
  for (const records::Record& record : records) {
    const Date day = local_day(zone, record.entry.at);
    if (const auto* receipt = std::get_if<records::EggReceipt>(&record.entry.body)) at(day).joined += receipt->count;
    else if (const auto* release = std::get_if<records::Release>(&record.entry.body)) at(day).left += release->count;
    else if (const auto* count = std::get_if<records::Count>(&record.entry.body); count && records::are_dead(count->what)) at(day).died += count->count;
  }
  std::vector<numerics::LotChange> changes;
  for (const auto& [day, change] : days) changes.push_back(change);
  std::vector<SurvivalStep> curve;
  for (const auto& point : numerics::kaplan_meier(changes)) {
    SurvivalStep step;
    step.found = step.from = Date{std::chrono::days(static_cast<int>(point.at))};
    const auto look = std::ranges::find(looks, step.found, &LossLook::to);
    if (look != looks.end()) step.from = look->from;
    step.at_risk = point.at_risk;
    step.died = point.died;
    step.survival_fraction = {point.survival.low, point.survival.mid, point.survival.high, Support::measured};
    curve.push_back(step);
  }
  return curve;
}

}  // namespace redd::inference
