#include "planning/life.h"

#include <algorithm>
#include <cmath>

namespace redd::planning {
namespace {

using biology::Stage;
using inference::Animals;

constexpr Days near_hatch(3.0), near_emergence(7.0);

/// Whether the first tenth may pass the stage within so many days, by its 90 % window; dates nobody knows may be now.
bool may_come_within(const inference::BroodBelief& brood, Stage stage, Days days) {
  if (!brood.forecast) return true;
  return brood.forecast->stage(stage).first_tenth.low_90 <= biology::noon_of(brood.forecast->today) + days;
}

double use_mg_o2_per_h(tank::Stage stage, int count, double fry_g, double water_c) {
  tank::Brood brood;
  brood.stage = stage;
  brood.count = count;
  brood.stage_share_fraction = 1.0;  // the end of the egg stage asks most
  brood.fry_mass_g = fry_g;
  return tank::oxygen_use_mg_o2_per_day(brood, water_c) / 24.0;
}

}  // namespace

Life life_of(const inference::Belief& belief) {
  const auto& brood = belief.brood;
  switch (brood.animals) {
    case Animals::none:
    case Animals::released: return Life::none;
    case Animals::green_egg: return brood.forecast ? Life::eggs : Life::eggs_near_hatch;
    case Animals::eyed_egg: return may_come_within(brood, Stage::hatch, near_hatch) ? Life::eggs_near_hatch : Life::eggs;
    case Animals::alevin: return may_come_within(brood, Stage::swim_up, near_emergence) ? Life::alevins_near_emergence : Life::alevins;
    case Animals::fry: break;
  }
  return Life::fry;
}

std::string_view word_of(Life life) {
  switch (life) {
    case Life::none:
    case Life::eggs: return "eggs";
    case Life::eggs_near_hatch: return "eggs near hatch";
    case Life::alevins: return "alevins";
    case Life::alevins_near_emergence: return "alevins near emergence";
    case Life::fry: break;
  }
  return "fry";
}

bool are_eggs(Life life) { return life == Life::eggs || life == Life::eggs_near_hatch; }
bool in_basket(Life life) { return life != Life::fry && life != Life::none; }

int count_of(const records::SeasonSetup& season, const inference::Belief& belief) {
  const auto& brood = belief.brood;
  if (inference::has_animals(brood.animals) && brood.received_count > 0) return std::max(1, inference::animals_left(brood));
  return season.egg_count.value_or(200);
}

bool count_is_assumed(const records::SeasonSetup& season, const inference::Belief& belief) {
  return !(inference::has_animals(belief.brood.animals) && belief.brood.received_count > 0) && !season.egg_count;
}

Estimate<double> oxygen_use_mg_o2_per_h(Life life, int count, const Estimate<double>& fry_g, double hatched_fraction, Temperature water) {
  constexpr double emerging_g = 0.1665;
  const auto use = [&](tank::Stage stage, double g) { return use_mg_o2_per_h(stage, count, g, water.c()); };
  const double eggs = use(tank::Stage::egg, 0.0), alevins = use(tank::Stage::alevin, 0.0);
  switch (life) {
    case Life::none: return {0.0, 0.0, 0.0, Support::assumed};
    case Life::eggs: return {eggs, eggs, eggs, Support::assumed};
    case Life::eggs_near_hatch: {
      const double out = std::clamp(hatched_fraction, 0.0, 1.0);
      return {eggs, out * alevins + (1.0 - out) * eggs, alevins, Support::assumed};
    }
    case Life::alevins: return {alevins, alevins, alevins, Support::assumed};
    case Life::alevins_near_emergence: {
      const double swimming = std::max(alevins, use(tank::Stage::fry, emerging_g));
      return {alevins, swimming, swimming, Support::assumed};
    }
    case Life::fry: break;
  }
  return {use(tank::Stage::fry, fry_g.low), use(tank::Stage::fry, fry_g.mid), use(tank::Stage::fry, fry_g.high), Support::assumed};
}

}  // namespace redd::planning
