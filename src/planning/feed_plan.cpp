#include "planning/feed_plan.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "numerics/normal.h"
#include "planning/fed_days.h"
#include "planning/tank_heat.h"
#include "records/food.h"

namespace redd::planning {
namespace {

using records::Record;
using std::chrono::days;

constexpr double half = 0.5, most_of_them = 0.9;
constexpr days ready_ahead{14}, gaps_ahead{14}, pinch_lasts{7}, sample_every{14};
constexpr double z90 = 1.6448536269514722;

struct LogSpread {
  double mid, sd;
};
LogSpread log_spread(const Estimate<double>& e) {
  constexpr double least = 1e-4;  // mg N/L a day: a filter that can do less does nothing
  const double low = std::max(least, e.low), high = std::max(low, e.high);
  return {std::log(std::clamp(e.mid, low, high)), std::log(high / low) / (2.0 * z90)};
}

/// Since when half swim up or food is given; nothing before.
std::optional<Date> fed_since(const inference::Belief& belief, std::span<const Record> records, const inference::GrowthBelief& growth, const ZoneOffsets& zone, Date today) {
  for (const Record& record : records)
    if (const auto* m = std::get_if<records::Milestone>(&record.entry.body); m && m->seen && m->which == records::Milestone::Which::half_swim_up)
      return local_day(zone, record.entry.at);
  const auto& swim_up = belief.brood.forecast->stage(biology::Stage::swim_up);
  if (growth.begun_is_known && growth.begun <= today && swim_up.past_fraction.mid > half) return growth.begun;
  for (const auto& seen : belief.brood.seen)
    if (seen.milestone == biology::Milestone::half_swum_up && seen.seen) return seen.day;
  if (swim_up.past_fraction.mid < most_of_them) return std::nullopt;
  return std::min(today, biology::day_of(swim_up.lot.median));
}

FeedStage stage_of(const FeedPlan& plan) {
  if (plan.since && (plan.swum_up_fraction.mid >= most_of_them || plan.today - *plan.since >= pinch_lasts)) return FeedStage::routine;
  if (plan.since || plan.swum_up_fraction.mid >= half) return FeedStage::pinch;
  return biology::day_of(plan.swim_up.low_90) - plan.today <= ready_ahead ? FeedStage::near : FeedStage::waiting;
}

Temperature water_on(const inference::Belief& belief, Date day, Temperature fallback) {
  const auto found = std::ranges::find(belief.temperature.days, day, &biology::DailyTemperature::day);
  return found == belief.temperature.days.end() ? fallback : found->mean;
}

/// Share of them that eats on a day: while they come up, only who has.
double eating_share(const FeedPlan& plan) { return plan.stage == FeedStage::pinch ? std::clamp(plan.swum_up_fraction.mid, half, 1.0) : 1.0; }

Ration ration_on(const FeedPlan& plan, const inference::Belief& belief, const records::SeasonSetup& season, Date day, bool first_weeks) {
  Ration r{.day = day, .fish = inference::weight_on(plan.growth, day).weight, .water = water_on(belief, day, season.target), .feedings = biology::feedings_a_day(first_weeks)};
  if (day == plan.today) r.fish = plan.growth.now;
  const auto table = biology::ration(r.fish.mid, r.water);
  r.table_fraction_per_day = table.fraction_per_day;
  r.in_table = table.in_table;
  const double fish_g = plan.alive.count.mid * r.fish.mid.g() * eating_share(plan);
  r.wanted = r.planned = Mass::from_g(biology::school_share_of_table * table.fraction_per_day.mid * fish_g);
  r.most = Mass::from_g(table.fraction_per_day.high * plan.alive.count.high * r.fish.mid.g());
  return r;
}

void limit_and_spoon(Ration& ration, double share, const records::Spoon* spoon) {
  ration.planned = Mass::from_g(share * ration.wanted.g());
  if (spoon && spoon->mass.g() > 0) ration.spoons = ration.planned.g() / (spoon->mass.g() / spoon->spoons);
}

void look_at_feedings(FeedPlan& plan, std::span<const Record> records, const ZoneOffsets& zone) {
  for (const Record& record : records) {
    const auto* feeding = std::get_if<records::Feeding>(&record.entry.body);
    if (!feeding) continue;
    const Date day = local_day(zone, record.entry.at);
    if (day == plan.today) plan.fed_today = Mass::from_g(plan.fed_today.g() + records::food_mass(records, *feeding).g());
    if (plan.today - day <= days(3)) plan.feedings.push_back(record.id);
    if (plan.since && day >= *plan.since) plan.last_fed = record.entry.at;
  }
}

/// Mean food a day of the seven days before today; nothing when it was logged on fewer than four of them.
std::optional<Mass> fed_lately(std::span<const Record> records, const ZoneOffsets& zone, Date today) {
  constexpr int days_back = 7, fewest = 4;
  std::map<Date, double> fed_g;
  for (const Record& record : records)
    if (const auto* feeding = std::get_if<records::Feeding>(&record.entry.body)) {
      const Date day = local_day(zone, record.entry.at);
      if (day < today && today - day <= days(days_back)) fed_g[day] += records::food_mass(records, *feeding).g();
    }
  if (fed_g.size() < fewest) return std::nullopt;
  double sum_g = 0.0;
  for (const auto& [day, g] : fed_g) sum_g += g;
  return sum_g > 0.0 ? std::optional(Mass::from_g(sum_g / static_cast<double>(fed_g.size()))) : std::nullopt;
}

/// Food of yesterday or today that is far beyond the tables.
std::optional<Overfed> overfed(const FeedPlan& plan, std::span<const Record> records, Volume water, const ZoneOffsets& zone) {
  // Assumed: half as much again as the higher table, and a gram in 500 L more, lies on the bottom.
  constexpr double too_much = 1.5, least_g_per_l = 0.002;
  if (!plan.today_ration) return std::nullopt;
  for (const Date day : {plan.today, plan.today - days(1)}) {
    Overfed found{.day = day, .most = plan.today_ration->most};
    for (const Record& record : records)
      if (const auto* feeding = std::get_if<records::Feeding>(&record.entry.body); feeding && local_day(zone, record.entry.at) == day) {
        found.fed = Mass::from_g(found.fed.g() + records::food_mass(records, *feeding).g());
        found.records.push_back(record.id);
      }
    const double excess_g = found.fed.g() - found.most.g();
    if (found.fed.g() < too_much * found.most.g() || excess_g < least_g_per_l * water.l()) continue;
    const auto rots = biology::nitrogen_of_uneaten_mg_n_per_g();
    found.to_come_mg_n_per_l = {excess_g * rots.low / water.l(), excess_g * rots.mid / water.l(), excess_g * rots.high / water.l(), Support::inferred};
    return found;
  }
  return std::nullopt;
}

/// Longest run of days in the gap on which nobody on duty feeds.
int longest_uncovered(const FeedGap& gap) {
  int run = 0, longest = 0;
  for (const auto& day : gap.days) {
    run = day.on_duty.empty() ? run + 1 : 0;
    longest = std::max(longest, run);
  }
  return longest;
}

std::vector<FeedGap> gaps_ahead_of(const FeedPlan& plan, const records::SchoolCalendar& calendar, const inference::Belief& belief, const records::SeasonSetup& season) {
  std::vector<FeedGap> gaps;
  const Date first_food = plan.since.value_or(biology::day_of(plan.swim_up.median));
  for (Date day = plan.today; day <= plan.today + gaps_ahead; day += days(1)) {
    const int closed = calendar.closed_days_from(day);
    if (closed == 0) continue;
    const Date last = day + days(closed - 1);
    if (last >= first_food) {
      FeedGap gap{.from = std::max(day, first_food), .to = last};
      if (const auto closure = calendar.closure_on(gap.from)) gap.name = closure->name;
      constexpr int most_listed = 60;
      for (Date d = gap.from; d <= last && gap.days.size() < most_listed; d += days(1)) gap.days.push_back({d, calendar.on_duty(d)});
      gap.first_weeks = gap.from - first_food < days(biology::first_weeks_days);
      const auto weight = inference::weight_on(plan.growth, gap.from).weight;
      const Mass fish = weight.mid;
      gap.may_miss_days = biology::longest_gap_days(weight.low, gap.first_weeks);  // the light ones can't wait
      gap.covered = longest_uncovered(gap) <= gap.may_miss_days;
      const Ration a_day = ration_on(plan, belief, season, gap.from, gap.first_weeks);
      gap.a_day = a_day.wanted;
      const auto cost = food_cost(a_day.wanted, Mass::from_g(fish.g() * plan.alive.count.mid), season.volume, nullptr).ammonia_mg_n_per_l_per_day;
      const auto n = static_cast<double>(gap.days.size());
      gap.adds_mg_n_per_l = {n * cost.low, n * cost.mid, n * cost.high, Support::inferred};
      gaps.push_back(std::move(gap));
    }
    day = last;
  }
  return gaps;
}

std::optional<Date> next_sample(const FeedPlan& plan, const records::SchoolCalendar& calendar) {
  if (!plan.since) return std::nullopt;
  const Date due = (plan.growth.samples.empty() ? *plan.since : std::max(*plan.since, plan.growth.samples.back().day)) + sample_every;
  const Date day = std::max(due, plan.today);
  return calendar.is_open(day) ? day : calendar.next_open_day(day);
}

void say_what_was_assumed(FeedPlan& plan, const inference::Belief& belief) {
  plan.assumed.push_back({"Fed in a school's tank: {0} of what published tables give, since filter and not fish set the limit (assumed).", {Share{biology::school_share_of_table}}});
  if (plan.growth.samples.empty()) plan.assumed.push_back("No fish have been weighed: their weight is that of the species at swim-up, grown by two published models.");
  if (!plan.growth.begun_is_known) plan.assumed.push_back("When they began to feed is not logged and is taken from the development clock.");
  if (plan.alive.count.low < 0.93 * plan.alive.count.mid) plan.assumed.push_back("Nobody counted the living lately: losses nobody saw are allowed for with a tenth.");
  if (!belief.temperature.latest) plan.assumed.push_back("No temperature has been logged: the set-point or target is taken.");
}

}  // namespace

FoodCost food_cost(Mass food, Mass all_fish, Volume water, const FilterOutlook* filter) {
  FoodCost cost;
  // What fish give off without any food. Source  0.07 g N/(kg d), rainbow trout [vanweerd1995].
  constexpr double unfed_mg_n_per_g = 0.07;
  const auto eaten = biology::ammonia_of_eaten_mg_n_per_g();
  const auto oxygen = biology::oxygen_of_food_mg_o2_per_g();
  const double base = unfed_mg_n_per_g * all_fish.g(), g = food.g(), l = water.l();
  cost.ammonia_mg_n_per_day = {base + g * eaten.low, base + g * eaten.mid, base + g * eaten.high, Support::inferred};
  const auto& daily = cost.ammonia_mg_n_per_day;
  cost.ammonia_mg_n_per_l_per_day = {daily.low / l, daily.mid / l, daily.high / l, Support::inferred};
  cost.oxygen_mg_o2_per_l_per_day = {g * oxygen.low / l, g * oxygen.mid / l, g * oxygen.high / l, Support::inferred};
  if (!filter || !filter->outlook.sound) return cost;
  cost.capacity_mg_n_per_l_per_day = filter->outlook.capacity_now_mg_n_per_l_per_day;
  const LogSpread carries = log_spread(*cost.capacity_mg_n_per_l_per_day);
  const auto probability = [&](double share) {
    const LogSpread load = log_spread({(base + share * g * eaten.low) / l, (base + share * g * eaten.mid) / l, (base + share * g * eaten.high) / l});
    return numerics::normal_cdf((carries.mid - load.mid) / std::max(1e-6, std::hypot(carries.sd, load.sd)));
  };
  cost.carried_probability = probability(1.0);
  constexpr double step = 0.05;
  while (cost.carried_share > least_share && probability(cost.carried_share) < carried_enough) cost.carried_share -= step;
  cost.carried_share = std::max(cost.carried_share, least_share);
  return cost;
}

std::optional<FeedPlan> feed_plan(const records::SeasonSetup& season, std::span<const Record> records, const inference::Belief& belief,
                                  const records::SchoolCalendar& calendar, const FilterOutlook* filter, const ZoneOffsets& zone, Instant now) {
  auto growth = inference::growth_belief(records, belief, zone, now);
  if (!growth) return std::nullopt;
  FeedPlan plan;
  plan.today = local_day(zone, now);
  plan.growth = std::move(*growth);
  const auto& swim_up = belief.brood.forecast->stage(biology::Stage::swim_up);
  plan.swim_up = swim_up.lot;
  plan.swum_up_fraction = swim_up.past_fraction;
  if (const auto counted = inference::swum_up_count(records, zone); counted && plan.today - local_day(zone, counted->at) <= days(1)) {
    plan.counted = counted;
    plan.swum_up_fraction = {counted->fraction, counted->fraction, counted->fraction, Support::measured};
  }
  plan.since = fed_since(belief, records, plan.growth, zone, plan.today);
  plan.first_weeks = !plan.since || plan.today - *plan.since < days(biology::first_weeks_days);
  plan.alive = inference::alive_now(records, zone);
  plan.stage = stage_of(plan);
  plan.grain = biology::food_grain(plan.growth.now.mid);
  const records::Spoon* spoon = records::find_spoon(records, std::nullopt);
  plan.spoon_known = spoon != nullptr;
  look_at_feedings(plan, records, zone);
  if (plan.stage >= FeedStage::pinch) {
    plan.today_ration = ration_on(plan, belief, season, plan.today, plan.first_weeks);
    plan.tomorrow = ration_on(plan, belief, season, plan.today + days(1), plan.first_weeks);
    plan.cost = food_cost(plan.tomorrow->wanted, Mass::from_g(plan.alive.count.mid * plan.tomorrow->fish.mid.g()), season.volume, filter);
    const auto lately = fed_lately(records, zone, plan.today);
    for (Ration* ration : {&*plan.today_ration, &*plan.tomorrow}) {
      const double step = lately ? largest_step_up * lately->g() / std::max(1e-9, ration->wanted.g()) : 1.0;
      if (step < plan.cost.carried_share) plan.stepped_from = lately;
      limit_and_spoon(*ration, std::min(plan.cost.carried_share, step), spoon);
    }
    plan.overfed = overfed(plan, records, season.volume, zone);
    plan.sample_due = next_sample(plan, calendar);
  } else {
    plan.break_risk = break_risk(season, belief, calendar, plan.today);
    // What the equipment holds costs some milliseconds: only when there is something to move.
    if (plan.break_risk) plan.break_risk = break_risk(season, belief, calendar, plan.today, plan_abilities(tank_heat(season, records, belief, zone, now), plan.today + days(1)));
  }
  if (plan.stage >= FeedStage::near) plan.gaps = gaps_ahead_of(plan, calendar, belief, season);
  say_what_was_assumed(plan, belief);
  return plan;
}

}  // namespace redd::planning
