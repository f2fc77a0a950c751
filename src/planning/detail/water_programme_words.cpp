#include "planning/detail/water_programme_words.h"

#include <algorithm>

#include "planning/water_change.h"

namespace redd::planning {
namespace {

using inference::Quantity;
using std::chrono::days;

/// The eggs come later than this looks.
bool nothing_to_keep(const WaterLimits& limits, double until_day) { return !limits.from_day || *limits.from_day >= until_day; }

double share_in_order(const WaterForecast& f) { return 1.0 - f.broken_probability; }

/// The list's change as the programme takes it: what it brings by itself, and what is open.
std::optional<Sentence> headline_on_list(const WaterProgramme& p) {
  const auto& f = p.programme.forecast;
  if (p.programme.changes.empty() || !p.programme.changes.front().asked_today) return std::nullopt;
  const PlannedChange& first = p.programme.changes.front();
  const Share part{first.fraction};
  if (p.programme.changes.size() == 1 && p.reached)
    return Sentence{"The change that today's list asks for, {0} by {1}, is enough until {2}: {3} that all limits are kept; without any change {4}.",
                    {part, first.day, p.last, Chance{share_in_order(f)}, Chance{share_in_order(p.none.forecast)}}};
  if (!p.worth_asking())
    return Sentence{"Do first what today's list asks, {0} by {1}. By the last tests alone it is open whether more is needed: {2} that a limit is broken by {3} without any change, {4} with this programme.",
                    {part, first.day, Chance{p.none.forecast.broken_probability}, p.last, Chance{f.broken_probability}}};
  if (p.programme.changes.size() == 1)
    return Sentence{"Beside the change that today's list asks for, {0} by {1}, no programme that was tried would help: {2} that a limit is broken by {3}, most often {4}.",
                    {part, first.day, Chance{f.broken_probability}, p.last, Word{std::string(limit_name(f.first.value_or(WaterLimitKind::nitrate)))}}};
  return std::nullopt;
}

Sentence headline_of(const WaterProgramme& p, const WaterCase& made) {
  if (!p.limits_from) return {"Nothing lives in the tank and no egg day is set: no change is needed."};
  const auto& f = p.programme.forecast;
  if (nothing_to_keep(p.limits, p.until_day)) return {"No animals come before {0}: until then nothing has to be kept, and this looks ahead to them from three weeks before.", {*p.limits_from}};
  if (p.stale && !p.programme.changes.empty())
    return {"Test first: ammonia or pH was not tested lately. By what was known then {0} would be changed on {1}; today's list asks for the test before any such programme.",
            {Share{p.programme.changes.front().fraction}, p.programme.changes.front().day}};
  if (p.stale && p.programme.changes.empty()) return {"Test first: ammonia or pH was not tested lately, so nobody can say whether water must be changed."};
  if (auto on_list = headline_on_list(p)) return *on_list;
  if (p.programme.changes.empty() && p.reached) return {"No water change is needed until {0} to keep the limits: {1} that none is broken.", {p.last, Chance{share_in_order(f)}}};
  if (p.programme.changes.empty())
    return {"No programme of changes that was tried would help: {0} that a limit is broken by {1}, most often {2}.", {Chance{f.broken_probability}, p.last, Word{std::string(limit_name(f.first.value_or(WaterLimitKind::nitrate)))}}};
  const PlannedChange& next = p.programme.changes.front();
  if (!p.worth_asking())
    return {"By the last tests alone it is open whether changes are needed: {0} that a limit is broken by {1} without any, {2} with this programme. The filter's outlook or the next tests will say more.",
            {Chance{p.none.forecast.broken_probability}, p.last, Chance{f.broken_probability}}};
  const std::size_t count = p.programme.changes.size();
  const Word changes{count == 1 ? "One change" : said("{0} changes", count)};
  const Chance kept{share_in_order(f)}, without{share_in_order(p.none.forecast)};
  if (p.reached) return {"{0} until {1}, first {2} on {3}: {4} that all limits are kept; without any change {5}.", {changes, p.last, Share{next.fraction}, next.day, kept, without}};
  const auto& again = f.kept_from_day;
  const auto& by_itself = p.none.forecast.kept_from_day;
  if (again && by_itself)
    return {"Not all limits can be kept from the start. {0} would help most, first {1} on {2}: nineteen chances in twenty that all are kept from {3} on, without any change from {4} on.",
            {changes, Share{next.fraction}, next.day, made.date_of(*again), made.date_of(*by_itself)}};
  if (again)
    return {"Not all limits can be kept from the start. {0} would help most, first {1} on {2}: nineteen chances in twenty that all are kept from {3} on; without any change not by {4}.",
            {changes, Share{next.fraction}, next.day, made.date_of(*again), p.last}};
  return {"No programme keeps all limits with nineteen chances in twenty. {0} would help most, first {1} on {2}: some limit is then broken {3} of the time, without any change {4}.",
          {changes, Share{next.fraction}, next.day, Share{f.exposure}, Share{p.none.forecast.exposure}}};
}

/// What of the new water itself is beyond a limit, so that changing with it cannot mend the tank, or mends one thing by breaking another.
void say_what_the_source_brings(WaterProgramme& p, const inference::Belief& belief) {
  const NewWater& water = p.source;
  const auto n = [&](Quantity quantity, double v) { return inference::on_card(belief, quantity, v); };
  constexpr double much_ammonia_mg_n_per_l = 0.2;  // Assumed: what a card shows
  if (water.nitrate_mg_n_per_l.mid > p.limits.nitrate_mg_n_per_l)
    p.cautions.push_back({"The source water itself holds {0} of nitrate: changes with it cannot bring the tank below that.", {n(Quantity::nitrate, water.nitrate_mg_n_per_l.mid)}});
  if (water.total_ammonia_mg_n_per_l.mid > much_ammonia_mg_n_per_l)
    p.cautions.push_back({"The source water brings ammonia, {0} with what its chloramine sets free: the filter must turn it over.", {n(Quantity::total_ammonia, water.total_ammonia_mg_n_per_l.mid)}});
  if (water.alkalinity_meq_per_l.mid < p.limits.alkalinity_low_meq_per_l)
    p.cautions.push_back({"The source water's KH, {0}, is below the least that holds pH up, {1}: each change lowers the tank's.",
                          {Alkalinity::from_meq_per_l(water.alkalinity_meq_per_l.mid), Alkalinity::from_meq_per_l(p.limits.alkalinity_low_meq_per_l)}});
  if (const auto& gh = water.hardness_meq_per_l; gh && p.limits.hardness_low_meq_per_l && (gh->mid < *p.limits.hardness_low_meq_per_l || gh->mid > *p.limits.hardness_high_meq_per_l))
    p.cautions.push_back({"The source water's GH, {0}, is far from what the brood came into.", {Hardness::from_meq_per_l(gh->mid)}});
}

void say_cautions(WaterProgramme& p, const WaterCase& made) {
  if (p.asked_today)
    p.cautions.push_back({"Today's list asks for this first: Change {0} of the water by {1}. The programme counts on it and adds only what else is needed.",
                          {Share{p.programme.changes.front().fraction}, p.programme.changes.front().day}});
  for (const auto& [quantity, known] : made.asked.belief.water)
    if (known.doubt)
      p.cautions.push_back(joined({"The {0} readings are in doubt, and the programme reckons with both what was read and what else may be true.", {Word{records::quantity_text(quantity)}}}, known.doubt->why));
  for (std::size_t k = 0; k < water_limit_count; ++k)
    if (p.animals && p.now_broken[k] > 1.0 - wanted_safe_probability)
      p.cautions.push_back({"{0} may be beyond its limit already ({1}). What to do about that today is in today's list; this programme looks at what comes after.",
                            {Word{std::string(limit_name(static_cast<WaterLimitKind>(k)))}, Chance{p.now_broken[k]}}});
  if (!p.reached && p.limits_from) {
    say_what_the_source_brings(p, made.asked.belief);
    const auto first = p.programme.forecast.first;
    if (first == WaterLimitKind::un_ionized_ammonia || first == WaterLimitKind::nitrite) {
      if (p.animals && made.asked.belief.brood.animals == inference::Animals::fry)
        p.cautions.push_back({"Less food puts less ammonia in: see what today's list and the feeding say. Take out leftovers and dead fish, and test ammonia and nitrite every other day."});
      else if (p.animals) p.cautions.push_back({"Take out dead eggs and shells, and test ammonia and nitrite every other day."});
      p.cautions.push_back({"More or larger changes would stress the animals more than they help: ask your egg supplier, agency or veterinarian."});
    } else if (first == WaterLimitKind::temperature) {
      p.cautions.push_back({"Water changes do not cure the temperature: see the chiller and its set-point."});
    } else if (first == WaterLimitKind::ph) {
      p.cautions.push_back({"pH near the end of its range, or of its card: read it again with a finer card or a meter before anything is changed."});
    } else {
      p.cautions.push_back({"Ask your egg supplier or agency, and look for other water to change with."});
    }
  }
  int closed = 0;
  for (Date day = p.today; day <= p.last; day += days(1)) closed = std::max(closed, made.school.closed_days_from(day));
  if (closed > 4) p.cautions.push_back({"The school is closed for {0} days running: nothing is planned in them, so agree who comes in and tests.", {Number{closed}}});
  if (p.stale) p.cautions.push_back({"Ammonia or pH was not tested lately: test first, the programme may change."});
}

void say_notes(WaterProgramme& p, const WaterCase& made) {
  if (p.usual_assumed) p.notes.push_back({"Your usual change is not on record: {0} a week is taken, common practice without a source.", {Share{p.usual_fraction}}});
  constexpr double shown_l = 0.05;
  if (p.evaporation.l_per_day.high < shown_l) p.notes.push_back({"Evaporation takes less than a tenth of a litre a day. Topping up is not a water change: it dilutes nothing, and the salts stay and gather."});
  else p.notes.push_back({"Evaporation takes {0} to {1} a day. Topping up is not a water change: it dilutes nothing, and the salts stay and gather.",
                     {Volume::from_l(p.evaporation.l_per_day.low), Volume::from_l(p.evaporation.l_per_day.high)}});
  if (p.hardness_rise_meq_per_l_per_week > 0.02)
    p.notes.push_back({"Topped up as now, evaporation alone raises GH by about {0} a week: top up with distilled or other soft water, and change water with the usual one.",
                       {Hardness::from_meq_per_l(p.hardness_rise_meq_per_l_per_week)}});
  const auto& temperature = p.source.temperature;
  if (temperature) {
    const double gas = gas_fraction_on_warming(*temperature, made.tank_on(p.now_day));
    if (gas > most_gas_fraction)
      p.notes.push_back({"This source's water, at {0}, would hold {1} of the gas it can keep once it is as warm as the tank: let it stand and bubble for {2} hours at the tank's temperature.",
                         {*temperature, Share{gas}, Number{static_cast<long long>(standing_hours)}}});
  }
}

void say_assumed(WaterProgramme& p, const WaterCase& made) {
  p.rests_on = made.tanks.basis == WaterTanks::Basis::posterior
                   ? Sentence{"{0} tanks drawn from the filter's posterior, held to the latest readings.", {Number{static_cast<long long>(made.tanks.size())}}}
                   : Sentence{"{0} tanks drawn from published ranges and told by the last three sittings only: wider than the filter's outlook.", {Number{static_cast<long long>(made.tanks.size())}}};
  p.assumed = made.tanks.assumed;
  if (auto assumed = inference::egg_day_assumed(made.asked.season, made.asked.belief.brood)) p.assumed.push_back(std::move(*assumed));
  p.assumed.insert(p.assumed.end(), made.source.unknown.begin(), made.source.unknown.end());
  p.assumed.push_back(p.evaporation.rests_on);
  p.assumed.push_back({"New water is dechlorinated, has stood a day with an air stone, and is within a degree of the tank."});
  if (made.asked.belief.brood.animals == inference::Animals::fry) p.assumed.push_back({"Food goes on as logged, or as usual for their size."});
  for (const Sentence& s : made.asked.now.assumed)
    if (s.pattern.find("Water changes go on") == std::string::npos && s.pattern.find("filter media") == std::string::npos) p.assumed.push_back(s);
}

}  // namespace

Sentence sentence_of(const WaterAlternative& a, const WaterCase& made) {
  const Date last = made.date_of(made.until_day);
  if (nothing_to_keep(made.limits, made.until_day)) return {"No animals are in the tank by {0}: there is nothing yet that has to be kept.", {last}};
  if (a.forecast.broken_probability <= 0.0 || !a.forecast.first || !a.forecast.first_mid_day)
    return {"All limits are kept until {0} in each of {1} tanks that may be yours.", {last, Number{static_cast<long long>(a.forecast.tanks)}}};
  const Word first{std::string(limit_name(*a.forecast.first))};
  const Date mid = made.date_of(*a.forecast.first_mid_day), early = made.date_of(*a.forecast.first_early_day);
  if (mid <= made.date_of(made.watch_from_day)) {
    if (a.forecast.kept_from_day)
      return {"{0} that a limit is broken by {1}, most often {2}, and that from the start; all are kept again from {3} on (nineteen chances in twenty).",
              {Chance{a.forecast.broken_probability}, last, first, made.date_of(*a.forecast.kept_from_day)}};
    return {"{0} that a limit is broken by {1}, most often {2}, and that from the start; some limit is broken {3} of the time.", {Chance{a.forecast.broken_probability}, last, first, Share{a.forecast.exposure}}};
  }
  if (early == mid) return {"{0} that a limit is broken by {1}, most often {2} first, about {3}.", {Chance{a.forecast.broken_probability}, last, first, mid}};
  return {"{0} that a limit is broken by {1}, most often {2} first, about {3} (perhaps {4}).", {Chance{a.forecast.broken_probability}, last, first, mid, early}};
}

void say_programme(WaterProgramme& p, const WaterCase& made) {
  p.headline = headline_of(p, made);
  say_cautions(p, made);
  say_notes(p, made);
  say_assumed(p, made);
}

}  // namespace redd::planning
