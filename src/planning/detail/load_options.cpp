#include "planning/detail/load_options.h"

#include <algorithm>
#include <cmath>

#include "planning/fry_mass.h"
#include "quantities/one_or_several.h"

namespace redd::planning {
namespace {

using enum LoadLimit;

const LoadRow* row_on(const LoadingView& view, Date day) {
  const auto found = std::ranges::find(view.days, std::optional(day), &LoadRow::day);
  return found == view.days.end() ? nullptr : &*found;
}

/// Only fry can be released: not eggs or alevins, though the limit comes while they are in the tank.
bool could_go(const LoadingView& view, const LoadReached& reached, Date today) {
  const LoadRow* then = row_on(view, std::max({reached.day, view.release_from.value_or(today), today}));
  return !then || then->stage == biology::LifeStage::fry;
}

/// The permit decides; only days inside its window are named.
Sentence early_release(const LoadingView& view, const LoadReached& reached, Date today) {
  const int too_many = reached.expected - round_animals(reached.carried_then);
  if (!view.release_from && !view.release_until)
    return {"Ask the permit's agency whether about {0} may go early. The permit's days for a release are not on record: nothing leaves the tank without its word.", {Number{too_many}}};
  const Date from = std::max(view.release_from.value_or(today), today);
  if (view.release_until && from > *view.release_until)
    return {"Ask the permit's agency what to do with about {0} too many: its days for a release are over.", {Number{too_many}}};
  if (from == reached.day) return {"Ask the permit's agency for an early partial release of about {0} on {1}: inside the permit's days and before the limit.", {Number{too_many}, from}};
  if (from < reached.day)
    return {"Ask the permit's agency for an early partial release of about {0}, between {1} and {2}: inside the permit's days and before the limit.", {Number{too_many}, from, reached.day}};
  return {"Ask the permit's agency about a release of {2} on the first of the permit's days, {0}, and about the {1} from the limit until then.",
          {from, Days(static_cast<double>((from - reached.day).count())), Number{too_many}}};
}

Sentence fewer_eggs(const LoadingView& view, const LoadReached& reached) {
  const Number fit{round_animals(reached.carried_then)};
  if (view.state == LoadingView::State::to_come && view.animals_assumed)
    return {reached.limit == ammonia ? "Nobody has said how many eggs come. With the filter as it is this tank probably carries about {0} until {1}: tell the supplier."
                                     : "Nobody has said how many eggs come. This tank probably carries about {0} until {1}: tell the supplier.",
            {fit, *view.days.back().day}};
  if (view.state == LoadingView::State::to_come)
    return {reached.limit == ammonia ? one_or_several(fit.count, "If the filter stays as it is: ask the supplier for {0} egg instead of {1}. So many it probably carries until {2}.", "If the filter stays as it is: ask the supplier for {0} eggs instead of {1}. So many it probably carries until {2}.")
                                     : one_or_several(fit.count, "Ask the supplier for {0} egg instead of {1}: so many the tank probably carries until {2}.", "Ask the supplier for {0} eggs instead of {1}: so many the tank probably carries until {2}."),
            {fit, Number{reached.expected}, *view.days.back().day}};
  return {one_or_several(fit.count, "Next season: {0} animal is what this tank probably carries to the end.", "Next season: {0} animals are what this tank probably carries to the end."), {fit}};
}

/// A ration at which the ammonia or the oxygen of the worst day fits; nothing when even a quarter of the planned one does not.
std::optional<double> fitting_ration(const LoadRow& row, LoadLimit limit) {
  const double allowed = row.by(limit)->animals.mid / row.animals;
  const auto need = [&](double ration) {
    const auto one = load_of_one({.stage = tank::Stage::fry, .each_g = row.each_g, .water = row.water, .ration_fraction = ration});
    return limit == oxygen ? one.oxygen_mg_o2_per_h().mid : one.nitrogen_mg_n_per_day.mid;
  };
  const double most = allowed * need(planned_ration_fraction), nothing = need(0.0), planned = need(planned_ration_fraction);
  if (planned <= nothing) return std::nullopt;
  const double ration = planned_ration_fraction * (most - nothing) / (planned - nothing);  // both needs rise straight with the ration
  if (ration < 0.25 * planned_ration_fraction || ration >= planned_ration_fraction) return std::nullopt;
  return ration;
}

std::optional<LoadOption> feed_less(const LoadRow& worst, LoadLimit limit) {
  if (worst.stage != biology::LifeStage::fry || limit == space) return std::nullopt;
  const auto ration = fitting_ration(worst, limit);
  if (!ration) return std::nullopt;
  return LoadOption{LoadOptionKind::feed_less,
                    {"Feed less when it comes to that: at most {0} a day around {1}, {2} of their mass instead of {3}. They grow slower for it; in the first three weeks of feeding leave out no day.",
                     {Mass::from_g(*ration * worst.each_g.mid * worst.animals), *worst.day, Share{*ration}, Share{planned_ration_fraction}}}};
}

/// Air helps as far as full water lies above the limit.
std::vector<LoadOption> about_oxygen(const LoadingView& view, const LoadReached& reached, const LoadRow& worst) {
  std::vector<LoadOption> options;
  const double spare = worst.saturation.mg_o2_per_l() - worst.oxygen_limit.mg_o2_per_l();
  if (view.air_basis == AirBasis::assumed) {
    options.push_back({LoadOptionKind::measure_oxygen, "Measure oxygen now and then, first thing in the morning: it tells what the air really brings in, and this answer with it."});
    options.push_back({LoadOptionKind::describe_air, "Write down what the air pump blows, in litres a minute: without it the poorest small stone is taken."});
  }
  if (spare < 1.0) {
    options.push_back({LoadOptionKind::colder_water, {"Colder water holds more: at {0} even full water holds only {1}, and more air can't lift it above that.", {worst.water, worst.saturation}}});
  } else {
    const double factor = static_cast<double>(worst.animals) / std::max(1.0, worst.by(oxygen)->animals.mid);
    options.push_back({LoadOptionKind::more_air, {"More air before {0}: about {1} times of what comes in now, by more or finer stones and a return that splashes.", {reached.day, Measured{factor}}}});
  }
  return options;
}

/// The filter of today is what is counted, and it can still grow.
std::vector<LoadOption> about_filter(const LoadingView& view, const LoadReached& reached, const LoadRow& worst) {
  const double factor = static_cast<double>(worst.animals) / std::max(1.0, worst.by(ammonia)->animals.mid);
  std::vector<LoadOption> options;
  if (view.state == LoadingView::State::to_come)
    options.push_back({LoadOptionKind::ripen_filter, {"Ripen the filter further before the eggs come: as it is today it probably carries {0} of the {1} on {2}.",
                                                      {Number{reached.carried_then}, Number{reached.expected}, reached.worst_day}}});
  options.push_back({LoadOptionKind::larger_filter, {"A larger filter, begun now: about {0} times the media, with what it holds kept. New media ripen slowly in the cold.", {Measured{factor}}}});
  return options;
}

}  // namespace

std::vector<LoadOption> load_options(const LoadingView& view, const LoadReached& reached, const LoadingCase& now) {
  const LoadRow* worst = row_on(view, reached.worst_day);
  if (!worst) return {};
  const bool to_come = view.state == LoadingView::State::to_come;
  std::vector<LoadOption> options;
  if (reached.limit == oxygen) options = about_oxygen(view, reached, *worst);
  if (reached.limit == ammonia) options = about_filter(view, reached, *worst);
  // A number that nobody said is asked for before anything is done about it.
  if (to_come) options.insert(view.animals_assumed ? options.begin() : options.end(), {LoadOptionKind::fewer_eggs, fewer_eggs(view, reached)});
  if (const auto less = feed_less(*worst, reached.limit)) options.push_back(*less);
  const Date today = local_day(now.zone, now.now);
  // Today's filter says little of the weeks in which it will have grown with its food: no fish is sent away for that. Assumed: six weeks.
  if (reached.limit == ammonia && reached.day - today > std::chrono::days(42)) return options;
  if (could_go(view, reached, today)) options.push_back({LoadOptionKind::early_release, early_release(view, reached, today)});
  if (!to_come) options.push_back({LoadOptionKind::fewer_eggs, fewer_eggs(view, reached)});
  return options;
}

std::vector<Sentence> load_assumptions(const LoadingView& view, const LoadingCase& now) {
  std::vector<Sentence> assumed;
  if (auto day = inference::egg_day_assumed(now.season, now.belief.brood)) assumed.push_back(std::move(*day));
  if (view.animals_assumed) assumed.push_back({"Nobody said how many eggs: {0} are taken.", {Number{view.animals}}});
  if (!view.days.empty()) {
    assumed.push_back("No losses are taken off from now on, so that the load is not told too small.");
    assumed.push_back({"Fry grow as food and growth have it for eight weeks, then by a thermal line with a coefficient of {0} (between {1} and {2}), and eat {3} of their mass a day.",
                       {Measured{growth_coefficient.mid}, Measured{growth_coefficient.low}, Measured{growth_coefficient.high}, Share{planned_ration_fraction}}});
  }
  switch (view.air_basis) {
    case AirBasis::assumed:
      assumed.push_back({"What the air pump blows is not on record: the poorest small stone is taken, {0} barely fed. A better one carries far more.", {Measured{poorest_stone_l_per_min, "L/min"}}});
      break;
    case AirBasis::on_record:
      assumed.push_back({"Of the air that is blown ({0}) fine bubbles give up 0.5 to 3 %: common practice, no source.", {Measured{*view.air.air_l_per_min, "L/min"}}});
      break;
    case AirBasis::read: assumed.push_back("What the air brings in was learnt from the last oxygen reading."); break;
  }
  if (view.filter_known)
    assumed.push_back({"The filter counts as it is today, at {0}; it grows with what it is fed, slowly in the cold.", {now.season.target}});
  else if (view.filter_lost)
    assumed.push_back({"The filter's outlook has lost track of this tank, so ammonia is reckoned as if the filter did nothing and {0} of the water were changed a week.", {Share{view.changed_fraction_per_week}}});
  else
    assumed.push_back({"How much the filter turns over is not known here: ammonia is reckoned as if it did nothing and {0} of the water were changed a week. A working filter carries far more.",
                       {Share{view.changed_fraction_per_week}}});
  if (view.filter_known && view.filter_doubted) assumed.push_back("The filter's outlook itself stands on readings that do not fit together.");
  if (!now.belief.find(inference::Quantity::ph)) assumed.push_back("pH was never tested: 6.5 to 8.5 is taken.");
  assumed.push_back("Room for fry: 1 fry a litre until 0.3 g, half of that from 1 g, at most 1 g a litre. Common practice for a recirculated tank, no source; published indices for troughs with new "
                    "water running through allow more.");
  assumed.push_back({"Room for eggs goes by the basket, which is not on record: one layer, {0} to {1} eggs on 100 cm2.", {Number{static_cast<long long>(eggs_per_100_cm2.low)}, Number{static_cast<long long>(eggs_per_100_cm2.high)}}});
  return assumed;
}

}  // namespace redd::planning
