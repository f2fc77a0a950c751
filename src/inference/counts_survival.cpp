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

/// Deaths of a kind, and what else changed the lot, by day. In  counted: whether such dead belong to the stage.
template <class Counted>
std::map<Date, numerics::LotChange> changes_of(std::span<const records::Record> records, const ZoneOffsets& zone, Counted counted) {
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
    else if (const auto* count = std::get_if<records::Count>(&record.entry.body); count && records::are_dead(count->what) && counted(count->what)) at(day).died += count->count;
  }
  return days;
}

std::vector<numerics::LotChange> in_order(const std::map<Date, numerics::LotChange>& days) {
  std::vector<numerics::LotChange> changes;
  for (const auto& [day, change] : days) changes.push_back(change);
  return changes;
}

Estimate<double> estimate_of(const numerics::Range90& share) { return {share.low, share.mid, share.high, Support::measured}; }

StageSurvival stage_of(SurvivalStage stage, double entered, int died, bool finished) {
  StageSurvival out{stage};
  out.entered = std::max({1.0, static_cast<double>(died), entered});
  out.died = died;
  out.finished = finished;
  out.survival_fraction = estimate_of(numerics::exact_share(out.entered - died, out.entered));
  out.verdict = verdict_of(stage, out.survival_fraction);
  return out;
}

/// Where some were taken out alive on the way, the last point of the product-limit curve stands in for the plain share.
void allow_for_releases(StageSurvival& stage, std::vector<numerics::LotChange> changes) {
  const auto curve = numerics::kaplan_meier(changes);
  if (curve.empty()) return;
  stage.survival_fraction = estimate_of(curve.back().survival);
  stage.verdict = verdict_of(stage.stage, stage.survival_fraction);
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

std::vector<StageSurvival> stage_survival(std::span<const records::Record> records, const BroodBelief& brood, const AliveAccount& account, const ZoneOffsets& zone) {
  std::vector<StageSurvival> out;
  if (account.received <= 0) return out;
  const bool gone = brood.animals == Animals::released;
  const bool hatched = gone || seen(brood, biology::Milestone::hatch_complete) || past(brood, Stage::hatch) || account.dead_fry > 0;
  const bool swum_up = gone || past(brood, Stage::swim_up);
  const double eggs = account.received, alevins = eggs - account.dead_eggs, fry = alevins - account.dead_alevins;
  out.push_back(stage_of(SurvivalStage::egg, eggs, account.dead_eggs, hatched));
  if (hatched || begun(brood, Stage::hatch) || account.dead_alevins > 0) out.push_back(stage_of(SurvivalStage::alevin, alevins, account.dead_alevins, swum_up));
  if (swum_up || begun(brood, Stage::swim_up) || account.dead_fry > 0) {
    out.push_back(stage_of(SurvivalStage::fry, fry, account.dead_fry, gone));
    if (account.released > 0) {
      // Only fry are taken out: the stage begins with those that the dead eggs and alevins left.
      auto days = changes_of(records, zone, [](auto what) { return what == records::Count::What::dead_fry; });
      days.begin()->second.joined -= account.dead_eggs + account.dead_alevins;
      allow_for_releases(out.back(), in_order(days));
    }
  }
  out.push_back(stage_of(SurvivalStage::whole, eggs, account.dead(), gone));
  if (account.released > 0) allow_for_releases(out.back(), in_order(changes_of(records, zone, [](auto) { return true; })));
  return out;
}

std::vector<SurvivalStep> survival_curve(std::span<const records::Record> records, std::span<const LossLook> looks, const ZoneOffsets& zone) {
  std::vector<SurvivalStep> curve;
  for (const auto& point : numerics::kaplan_meier(in_order(changes_of(records, zone, [](auto) { return true; })))) {
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
