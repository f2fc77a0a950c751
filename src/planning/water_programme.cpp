#include "planning/water_programme.h"

#include <algorithm>
#include <cmath>

#include "chemistry/dosing.h"
#include "inference/water_belief.h"
#include "planning/detail/water_search.h"
#include "planning/water_change.h"
#include "tank/conditions.h"

namespace redd::planning {
namespace {

using inference::Quantity;
using std::chrono::days;

/// From tomorrow, so that new water can stand a day; today too where the next open day is further off, for water that stands ready.
std::vector<Date> days_for_change(const WaterCase& made) {
  std::vector<Date> open;
  const Date today = made.today(), last = today + days(static_cast<int>(programme_days) - 1);
  constexpr std::chrono::hours latest{14};  // Assumed: later no change is begun
  const auto local = local_time(made.asked.zone, made.asked.at);
  const bool in_time = local - std::chrono::local_seconds{today} < latest;
  if (in_time && made.school.is_open(today) && !made.school.is_open(today + days(1))) open.push_back(today);
  for (Date day = today + days(1); day <= last; day += days(1))
    if (made.school.is_open(day)) open.push_back(day);
  return open;
}

/// KH and GH of what is topped up with: as last logged, else the water to change with.
void set_top_up(WaterCase& made) {
  made.top_up_hardness_meq_per_l = made.source.hardness_meq_per_l ? made.source.hardness_meq_per_l->mid : 0.0;
  made.top_up_alkalinity_meq_per_l = made.source.alkalinity_meq_per_l.mid;
  std::optional<std::string> key;
  for (const auto& record : made.asked.records)
    if (const auto* top_up = std::get_if<records::TopUp>(&record.entry.body); top_up && top_up->source_water) key = top_up->source_water;
  const auto water = key ? inference::source_water(made.asked.records, key) : std::nullopt;
  if (water && water->hardness) made.top_up_hardness_meq_per_l = water->hardness->meq_per_l();
  if (water && water->alkalinity) made.top_up_alkalinity_meq_per_l = water->alkalinity->meq_per_l();
}

/// The free bottom is vacuumed under fry only. Source  common practice: not under eggs or alevins, which lie on it; no source.
bool may_vacuum(const inference::Belief& belief) {
  using inference::Animals;
  return !inference::has_animals(belief.brood.animals) || (belief.brood.animals == Animals::fry && belief.brood.most_sensitive == Animals::fry);
}

/// The eggs come later than this looks.
bool nothing_to_keep(const WaterLimits& limits, double until_day) { return !limits.from_day || *limits.from_day >= until_day; }

double share_in_order(const WaterForecast& f) { return 1.0 - f.broken_probability; }

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

WaterAlternative alternative(const WaterCase& made, std::string key, std::span<const WaterDeed> deeds) {
  WaterAlternative a;
  a.key = std::move(key);
  a.forecast = forecast_water(made.tanks, made.course(), deeds, {.bands = true});
  for (std::size_t i = 0; i < deeds.size(); ++i) {
    a.changes.push_back(planned_change(made, deeds[i].at_day, deeds[i].fraction, deeds[i].vacuum));
    if (i < a.forecast.changes.size()) a.changes.back().bands = a.forecast.changes[i];
    a.total = Volume::from_l(a.total.l() + a.changes.back().volume.l());
  }
  a.sentence = sentence_of(a, made);
  return a;
}

/// The keeper's usual change once a week, beginning a week after the last one that was logged.
std::vector<WaterDeed> usual_deeds(const WaterCase& made, double fraction) {
  std::vector<WaterDeed> deeds;
  if (made.open_days.empty() || fraction <= 0.0) return deeds;
  Date due = made.open_days.front();
  for (const auto& record : made.asked.records)
    if (std::holds_alternative<records::WaterChange>(record.entry.body)) due = local_day(made.asked.zone, record.entry.at) + days(7);
  due = std::max(due, made.open_days.front());
  for (; due <= made.open_days.back(); due += days(7)) {
    const Date day = *std::ranges::lower_bound(made.open_days, due);
    deeds.push_back(deed_of(planned_change(made, made.noon_of(day), fraction, false)));
    due = std::max(due, day);
  }
  return deeds;
}

std::optional<Sentence> cap_of(const WaterCase& made, double largest) {
  if (largest >= planning::largest_fraction) return std::nullopt;
  return Sentence{"At most {0} at once: more of this source's water would move pH by more than half a unit, or KH or GH by more than {1}.",
                  {Share{largest}, Hardness::from_meq_per_l(made.limits.jump.hardness_meq_per_l)}};
}

Sentence headline_of(const WaterProgramme& p, const WaterCase& made) {
  if (!p.limits_from) return {"Nothing lives in the tank and no egg day is set: no change is needed."};
  const auto& f = p.programme.forecast;
  if (nothing_to_keep(p.limits, p.until_day)) return {"No animals come before {0}: until then nothing has to be kept, and this looks ahead to them from three weeks before.", {*p.limits_from}};
  if (p.stale && p.programme.changes.empty()) return {"Test first: ammonia or pH was not tested lately, so nobody can say whether water must be changed."};
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
void say_what_the_source_brings(WaterProgramme& p) {
  const NewWater& water = p.source;
  const auto n = [](double v, NitrogenBasis basis) { return ShownNitrogen{NitrogenConc::from_mg_n_per_l(v), basis}; };
  constexpr double much_ammonia_mg_n_per_l = 0.2;  // Assumed: what a card shows
  if (water.nitrate_mg_n_per_l.mid > p.limits.nitrate_mg_n_per_l)
    p.cautions.push_back({"The source water itself holds {0} of nitrate: changes with it cannot bring the tank below that.", {n(water.nitrate_mg_n_per_l.mid, NitrogenBasis::no3)}});
  if (water.total_ammonia_mg_n_per_l.mid > much_ammonia_mg_n_per_l)
    p.cautions.push_back({"The source water brings ammonia, {0} with what its chloramine sets free: the filter must turn it over.", {n(water.total_ammonia_mg_n_per_l.mid, NitrogenBasis::n)}});
  if (water.alkalinity_meq_per_l.mid < p.limits.alkalinity_low_meq_per_l)
    p.cautions.push_back({"The source water's KH, {0}, is below the least that holds pH up, {1}: each change lowers the tank's.",
                          {Alkalinity::from_meq_per_l(water.alkalinity_meq_per_l.mid), Alkalinity::from_meq_per_l(p.limits.alkalinity_low_meq_per_l)}});
  if (const auto& gh = water.hardness_meq_per_l; gh && p.limits.hardness_low_meq_per_l && (gh->mid < *p.limits.hardness_low_meq_per_l || gh->mid > *p.limits.hardness_high_meq_per_l))
    p.cautions.push_back({"The source water's GH, {0}, is far from what the brood came into.", {Hardness::from_meq_per_l(gh->mid)}});
}

void say_cautions(WaterProgramme& p, const WaterCase& made) {
  for (std::size_t k = 0; k < water_limit_count; ++k)
    if (p.animals && p.now_broken[k] > 1.0 - wanted_safe_probability)
      p.cautions.push_back({"{0} may be beyond its limit already ({1}). What to do about that today is in today's list; this programme looks at what comes after.",
                            {Word{std::string(limit_name(static_cast<WaterLimitKind>(k)))}, Chance{p.now_broken[k]}}});
  if (!p.reached && p.limits_from) {
    say_what_the_source_brings(p);
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
  p.assumed.insert(p.assumed.end(), made.source.unknown.begin(), made.source.unknown.end());
  p.assumed.push_back(p.evaporation.rests_on);
  p.assumed.push_back({"New water is dechlorinated, has stood a day with an air stone, and is within a degree of the tank."});
  if (made.asked.belief.brood.animals == inference::Animals::fry) p.assumed.push_back({"Food goes on as logged, or as usual for their size."});
  for (const Sentence& s : made.asked.now.assumed)
    if (s.pattern.find("Water changes go on") == std::string::npos && s.pattern.find("filter media") == std::string::npos) p.assumed.push_back(s);
}

bool too_old(const inference::Belief& belief) {
  for (const Quantity quantity : {Quantity::total_ammonia, Quantity::ph})
    if (const auto* read = belief.find(quantity); !read || inference::is_stale(*read)) return true;
  return false;
}

}  // namespace

double WaterCase::noon_of(Date day) const {
  const Instant noon = instant_of(asked.zone, std::chrono::local_seconds{day} + std::chrono::hours(12));
  return std::max(asked.now.now_day, days_between(asked.now.season.begin, noon).count());
}

Date WaterCase::date_of(double day) const { return local_day(asked.zone, after_days(asked.now.season.begin, day)); }

WaterCourse WaterCase::course() const {
  return {asked.now, limits, new_water, top_up_hardness_meq_per_l, top_up_alkalinity_meq_per_l, watch_from_day, until_day};
}

Temperature WaterCase::tank_on(double day) const { return Temperature::from_c(tank::temperature_c_at(asked.now.season.forcing, day)); }

WaterCase water_case(const WaterAsked& asked, const TankDraws* draws) {
  const TankDraws own{.seed = static_cast<std::uint64_t>(asked.season.seed.value_or(1))};
  const TankDraws& drawn = draws ? *draws : own;
  Evaporation evaporation = evaporation_of(asked.season, asked.records, asked.belief, asked.at);
  WaterCase made{.asked = asked, .tanks = water_tanks(asked.belief, asked.now, asked.filter, evaporation, drawn)};
  made.evaporation = std::move(evaporation);
  made.school = records::SchoolCalendar(asked.records);
  made.limits = water_limits(asked.season, asked.belief, asked.now, asked.zone);
  made.source = new_water(asked.belief.source, asked.belief.source_record, asked.belief);
  set_top_up(made);
  made.new_water = new_water_draws(made.source, made.tanks.size(), drawn.seed);
  made.open_days = days_for_change(made);
  made.watch_from_day = asked.now.now_day + 1.0;
  if (!made.open_days.empty()) made.watch_from_day = std::min(made.watch_from_day, made.noon_of(made.open_days.front()));
  made.until_day = asked.now.now_day + programme_days;
  return made;
}

double largest_fraction_without_jump(const WaterCase& made) {
  constexpr double step = 0.05, allowed = 0.02;
  WaterCourse course = made.course();
  WaterLimits always = made.limits;
  always.from_day = made.tanks.at_day;
  const WaterCourse now{course.now, always, course.new_water, course.hardness_of_top_up_meq_per_l, course.alkalinity_of_top_up_meq_per_l, made.tanks.at_day + 2.0, made.tanks.at_day};
  double largest = 0.0;
  for (int i = 1; i <= static_cast<int>(std::lround(planning::largest_fraction / step)); ++i) {
    const WaterDeed deed{made.tanks.at_day, step * i, false, 0.0};
    if (forecast_water(made.tanks, now, std::span(&deed, 1)).by_limit[static_cast<std::size_t>(WaterLimitKind::jump)] > allowed) break;
    largest = deed.fraction;
  }
  return largest;
}

PlannedChange planned_change(const WaterCase& made, double at_day, double fraction, bool vacuum) {
  constexpr double thermometers_c = 1.0;  // Assumed: tempered water is within a degree
  PlannedChange c;
  c.at_day = at_day;
  c.day = made.date_of(at_day);
  c.fraction = fraction;
  c.volume = Volume::from_l(fraction * made.asked.season.volume.l());
  c.tank = made.tank_on(at_day);
  c.temper = tempering(fraction, c.tank, made.source.temperature);
  if (made.source.temperature) c.gas_as_it_comes = gas_fraction_on_warming(*made.source.temperature, c.tank);
  if (made.source.chlorine_mg_per_l > 0.0) c.thiosulfate = chemistry::thiosulfate_for(c.volume, made.source.chlorine_mg_per_l);
  c.must_stand = c.thiosulfate.has_value() || (c.gas_as_it_comes && gas_fraction_after(fraction, *c.gas_as_it_comes) > most_gas_fraction);
  c.freed_ammonia_mg_n_per_l = fraction * made.source.freed_ammonia_mg_n_per_l;
  const double gap_c = c.temper.as_it_comes ? (c.temper.aim - c.tank).c() : thermometers_c;
  c.refill_minutes = minutes_to_refill(TemperatureChange::from_c(fraction * gap_c));
  c.vacuum = vacuum;
  return c;
}

WaterDeed deed_of(const PlannedChange& c) {
  const double gap_c = c.temper.as_it_comes ? (c.temper.aim - c.tank).c() : 1.0;
  return {c.at_day, c.fraction, c.vacuum, c.fraction * gap_c};
}

std::optional<WaterProgramme> water_programme(const WaterAsked& asked) {
  if (asked.belief.brood.animals == inference::Animals::released) return std::nullopt;
  return water_programme(water_case(asked));
}

std::optional<WaterProgramme> water_programme(const WaterCase& made) {
  WaterProgramme p;
  p.begin = made.asked.now.season.begin;
  p.now_day = made.asked.now.now_day;
  p.watch_from_day = made.watch_from_day;
  p.until_day = made.until_day;
  p.today = made.today();
  p.last = made.date_of(made.until_day);
  p.animals = inference::has_animals(made.asked.belief.brood.animals);
  if (made.limits.from_day) p.limits_from = made.date_of(*made.limits.from_day);
  p.limits = made.limits;
  p.source = made.source;
  p.evaporation = made.evaporation;
  p.hardness_rise_meq_per_l_per_week = 7.0 * made.evaporation.l_per_day.mid * made.top_up_hardness_meq_per_l / made.asked.season.volume.l();
  p.stale = too_old(made.asked.belief);
  const bool vacuum = may_vacuum(made.asked.belief);

  WaterCourse today = made.course();
  today.watch_from_day = today.until_day = made.asked.now.now_day;
  p.now_broken = forecast_water(made.tanks, today, {}).by_limit;

  p.none = alternative(made, "none", {});
  if (!p.none.forecast.sound) return std::nullopt;
  p.usual_assumed = !made.asked.season.usual_change_fraction;
  p.usual_fraction = made.asked.season.usual_change_fraction.value_or(usual_change_fraction);
  p.usual = alternative(made, "usual", usual_deeds(made, p.usual_fraction));
  p.largest_fraction = largest_fraction_without_jump(made);
  p.cap = cap_of(made, p.largest_fraction);
  const FoundProgramme found = search_programme(made, p.largest_fraction, vacuum, p.none.forecast);
  p.from_posterior = made.tanks.basis == WaterTanks::Basis::posterior;
  p.programme = alternative(made, "programme", found.deeds);
  p.reached = p.programme.forecast.broken_probability <= 1.0 - wanted_safe_probability;
  p.helps = !p.programme.changes.empty();
  p.headline = headline_of(p, made);
  say_cautions(p, made);
  say_notes(p, made);
  say_assumed(p, made);
  return p;
}

}  // namespace redd::planning
