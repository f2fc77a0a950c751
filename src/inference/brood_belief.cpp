#include "inference/brood_belief.h"

#include <algorithm>
#include <cmath>

#include "inference/counts_account.h"
#include "quantities/verbatim.h"

namespace redd::inference {
namespace {

using biology::LifeStage;
using records::Record;

Animals animals_of(LifeStage stage) {
  switch (stage) {
    case LifeStage::green_egg: return Animals::green_egg;
    case LifeStage::eyed_egg: return Animals::eyed_egg;
    case LifeStage::alevin: return Animals::alevin;
    case LifeStage::fry: break;
  }
  return Animals::fry;
}

std::optional<biology::IncubationTemperature> incubation_of(const records::EggReceipt& receipt) {
  if (!receipt.incubation) return std::nullopt;
  return biology::IncubationTemperature{*receipt.incubation, TemperatureChange::from_c(1.0)};  // Assumed: a hatchery's stated mean, +- 1 C
}

biology::BatchStart batch_start(const records::EggReceipt& receipt, Date received) {
  using Start = records::EggReceipt::Start;
  biology::BatchStart start{biology::ReceivedEyed{received, 0.5, 0.9, incubation_of(receipt)}};
  if (receipt.start == Start::fertilised_on && receipt.fertilised_on)
    start.known = biology::Fertilised{*receipt.fertilised_on, Days(receipt.start_doubt_days.value_or(1.0)), incubation_of(receipt)};
  if (receipt.start == Start::thermal_sum && receipt.thermal_sum)
    // Assumed: an unstated doubt of the hatchery's sum is 15 C-days, about two days' worth.
    start.known = biology::ThermalUnitsSoFar{*receipt.thermal_sum, receipt.thermal_sum_doubt.value_or(ThermalSum::from_c_days(15.0)), received, incubation_of(receipt)};
  start.origin = receipt.origin == records::EggReceipt::Origin::farmed ? biology::EggOrigin::farmed : biology::EggOrigin::wild;
  start.egg_count = receipt.count;
  return start;
}

/// First feeding says nothing new of the clock: the keeper decides it.
std::optional<biology::Milestone> milestone_of(records::Milestone::Which which) {
  using enum records::Milestone::Which;
  switch (which) {
    case first_eyes: return biology::Milestone::first_eyes;
    case half_eyed: return biology::Milestone::half_eyed;
    case first_hatch: return biology::Milestone::first_hatch;
    case half_hatched: return biology::Milestone::half_hatched;
    case all_hatched: return biology::Milestone::hatch_complete;
    case first_swim_up: return biology::Milestone::first_swim_up;
    case half_swim_up: return biology::Milestone::half_swum_up;
    case first_feed: break;
  }
  return std::nullopt;
}

/// A number seen swimming up is a look for the first and for the half of those alive.
std::vector<biology::ObservedMilestone> swim_up_seen(const records::Count& count, Date day, int alive) {
  if (alive <= 0) return {};
  return {{biology::Milestone::first_swim_up, day, count.count > 0}, {biology::Milestone::half_swum_up, day, 2 * count.count >= alive}};
}

/// Dates each sighting by the look before it: what nobody watched may have come about any time since.
/// In      seen: in order of day.
void date_by_looks(std::vector<biology::ObservedMilestone>& seen, Date received) {
  for (std::size_t i = 0; i < seen.size(); ++i) {
    if (!seen[i].seen) continue;
    const biology::Stage stage = biology::stage_of(seen[i].milestone);
    // Eyes may have shown at the hatchery, long before anybody here looked. Assumed: at most two months before.
    Date before = received - (stage == biology::Stage::eyed ? std::chrono::days(60) : std::chrono::days(0));
    for (std::size_t j = 0; j < i; ++j)
      if (biology::stage_of(seen[j].milestone) == stage && seen[j].day < seen[i].day) before = std::max(before, seen[j].day);
    seen[i].since_last_look = std::max(Days(1.0), Days(seen[i].day - before));
  }
}

}  // namespace

int animals_left(const BroodBelief& brood) {
  if (brood.alive) return static_cast<int>(std::lround(brood.alive->mid));
  return std::max(0, brood.received_count - brood.dead_count - brood.released_count);
}

BroodBelief brood_belief(const records::SeasonSetup& season, std::span<const Record> records, const ZoneOffsets& zone, Instant now,
                         const TemperatureBelief& temperature, std::vector<Sentence>& gaps) {
  BroodBelief brood;
  const auto species = biology::find_species(season.species);
  if (species) brood.species = *species;
  else gaps.push_back({"The species \"{0}\" is not known, so no dates are forecast: correct the season's set-up.", {Word{verbatim(season.species)}}});

  const AliveAccount account = alive_account(records, zone);
  const records::EggReceipt* receipt = nullptr;
  Date received{};
  std::vector<biology::ObservedMilestone> seen;
  for (const Record& record : records) {
    const Date day = local_day(zone, record.entry.at);
    if (const auto* r = std::get_if<records::EggReceipt>(&record.entry.body)) {
      if (!receipt) {
        receipt = r;
        received = day;
        brood.receipt = record.id;
      }
    } else if (const auto* m = std::get_if<records::Milestone>(&record.entry.body)) {
      if (const auto which = milestone_of(m->which)) {
        seen.push_back({*which, day, m->seen});
        brood.milestone_records.push_back(record.id);
      }
    } else if (const auto* c = std::get_if<records::Count>(&record.entry.body); c && c->what == records::Count::What::swum_up) {
      for (const auto& look : swim_up_seen(*c, day, static_cast<int>(std::lround(account.alive_on(day))))) {
        // A later count of the same says nothing of when it came about.
        if (std::ranges::any_of(seen, [&](const auto& before) { return before.milestone == look.milestone && before.seen; })) continue;
        seen.push_back(look);
        if (brood.milestone_records.empty() || brood.milestone_records.back() != record.id) brood.milestone_records.push_back(record.id);
      }
    }
  }
  brood.received_count = account.received;
  brood.dead_count = account.dead();
  brood.released_count = account.released;
  if (!receipt) return brood;
  // Whatever is left after a release that leaves fewer than one in twenty is a counting difference, not a brood.
  brood.alive = account.alive;
  if (account.released > 0 && account.alive.mid * 20.0 < account.received) {
    brood.animals = brood.most_sensitive = Animals::released;
  } else {
    brood.animals = brood.most_sensitive = Animals::eyed_egg;
  }
  if (!species) return brood;

  date_by_looks(seen, received);
  std::vector<biology::DailyTemperature> since;
  std::ranges::copy_if(temperature.days, std::back_inserter(since), [&](const auto& d) { return d.day >= received; });
  biology::ModelChoice choice;
  if (season.development_model) choice.hatch = *season.development_model;
  brood.received = received;
  brood.start = batch_start(*receipt, received);
  brood.seen = seen;
  const auto forecast = biology::forecast_development(*species, choice, *brood.start, since, seen, local_day(zone, now));
  if (!forecast) {
    gaps.push_back({"No dates can be forecast: {0}", {Word{forecast.problems().front().sentence}}});
    return brood;
  }
  brood.forecast = *forecast;
  if (brood.animals == Animals::released) return brood;
  const auto most = std::ranges::max_element(forecast->lot_stage_probability);
  brood.animals = animals_of(static_cast<LifeStage>(most - forecast->lot_stage_probability.begin()));
  constexpr double share_that_counts = 0.05;
  const auto youngest = std::ranges::find_if(forecast->batch_fraction, [](double f) { return f >= share_that_counts; });
  brood.most_sensitive = youngest == forecast->batch_fraction.end() ? brood.animals
                         : animals_of(static_cast<LifeStage>(youngest - forecast->batch_fraction.begin()));
  return brood;
}

}  // namespace redd::inference
