#include "planning/loading.h"

#include <algorithm>
#include <cmath>

#include "chemistry/ammonia.h"
#include "chemistry/limits.h"
#include "chemistry/oxygen.h"
#include "planning/detail/load_brood.h"
#include "planning/detail/load_options.h"
#include "planning/detail/log_estimates.h"

namespace redd::planning {
namespace {

using biology::LifeStage;
using std::chrono::days;

/// Ammonia at half the filter's rate, mg N/L. Source  tank/prior.h, its median and 90 % of its spread.
constexpr Estimate<double> half_rate_mg_n_per_l{0.16, 0.5, 1.6, Support::assumed};
/// Where nobody tested pH. Assumed, as inference::un_ionized_ammonia() takes it.
constexpr Estimate<double> unknown_ph{6.5, 7.5, 8.5, Support::assumed};
/// A limit that is passed with at least this chance is reached; with the other it may be.
constexpr double probably = 0.5, possibly = 0.2;

/// What holds for every row: the tank and what moves oxygen and nitrogen in it.
class Tank {
 public:
  explicit Tank(const LoadingCase& now) : now_(now) {
    const auto* build = records::find_tank_build(now.records);
    const auto known = [&](auto member) { return build && (build->*member) && *(build->*member) > 0.0; };
    depth_m_ = known(&records::TankBuild::water_height_cm) ? *build->water_height_cm / 100.0 : usual_depth_m;
    air.stone_depth_m = depth_m_;
    air.surface_m2 = litres() / 1000.0 / depth_m_;
    air.elevation_m = now.season.elevation_m;
    if (known(&records::TankBuild::air_l_per_min)) air.air_l_per_min = *build->air_l_per_min;
    if (known(&records::TankBuild::flow_l_per_min)) flow_l_per_min = *build->flow_l_per_min;
  }

  double litres() const { return std::max(1.0, now_.season.volume.l()); }
  OxygenConc full(Temperature water) const { return chemistry::oxygen_saturation(water, chemistry::pressure_mmhg_at_elevation(now_.season.elevation_m)); }

  /// Total ammonia that holds the un-ionized limit: the more acid and the colder the more.
  Estimate<double> ammonia_limit_mg_n_per_l(Temperature water) const {
    const auto* read = now_.belief.find(inference::Quantity::ph);
    const Estimate<double> ph = read ? read->value : unknown_ph;
    const auto total = [&](double at) { return chemistry::total_with_un_ionized(chemistry::limits::action_un_ionized_ammonia, water, Ph::from_ph(at)).mg_n_per_l(); };
    return {total(ph.high), total(ph.mid), total(ph.low), ph.support};
  }

  /// Nitrogen a day that keeps total ammonia within the limit.
  Estimate<double> nitrogen_mg_n_per_day(Temperature water) const {
    const auto limit = ammonia_limit_mg_n_per_l(water);
    if (!filter_known) return times(litres() * changed_fraction_per_week / 7.0, limit);
    const auto share = [](double total, double half) { return total / (total + half); };
    const Estimate<double> worked{share(limit.low, half_rate_mg_n_per_l.high), share(limit.mid, half_rate_mg_n_per_l.mid), share(limit.high, half_rate_mg_n_per_l.low), Support::inferred};
    return times(litres(), product(now_.filter->outlook.capacity_at_target_mg_n_per_l_per_day, worked));
  }

  static constexpr double usual_depth_m = 0.4;  ///< Assumed
  AirSupply air{};
  std::optional<double> flow_l_per_min{};
  AirBasis air_basis = AirBasis::assumed;
  Estimate<double> transfer_l_per_h{};          ///< at `transfer_at`
  Temperature transfer_at = Temperature::from_c(10);
  bool filter_known = false;
  double changed_fraction_per_week = 0.2;

 private:
  const LoadingCase& now_;
  double depth_m_ = usual_depth_m;
};

void carry(LoadRow& row, LoadLimit limit, const Estimate<double>& animals, bool may_bind = true) {
  row.carried[static_cast<std::size_t>(limit)] = Carried{animals, chance_above(row.animals, animals)};
  if (may_bind && animals.mid < row.least().animals.mid) row.binding = limit;
}

LoadRow row_of(const Tank& tank, const LoadingCase& now, LifeStage stage, const Estimate<double>& each_g, Temperature water, int animals) {
  LoadRow row;
  row.stage = stage;
  row.water = water;
  row.animals = animals;
  row.each_g = each_g;
  row.one = load_of_one({.stage = load_stage(stage), .each_g = each_g, .water = water});
  row.saturation = tank.full(water);
  row.oxygen_limit = planned_oxygen(stage, row.saturation);
  const auto transfer = times(transfer_warmth(water) / transfer_warmth(tank.transfer_at), tank.transfer_l_per_h);
  const auto use_of_one = row.one.oxygen_mg_o2_per_h();
  row.oxygen = steady_oxygen(row.saturation, times(animals, use_of_one), transfer);
  carry(row, LoadLimit::oxygen, carried_by_oxygen(row.saturation, row.oxygen_limit, transfer, use_of_one));
  carry(row, LoadLimit::ammonia, quotient(tank.nitrogen_mg_n_per_day(water), row.one.nitrogen_mg_n_per_day), tank.filter_known);
  if (stage == LifeStage::fry) {
    const auto species = now.belief.brood.species ? now.belief.brood.species->key : std::string_view{};
    const auto space = carried_by_space(each_g.mid, now.season.volume, species, tank.flow_l_per_min, row.saturation, chemistry::oxygen_saturation(Temperature::from_c(10)));
    row.space_rule = space.rule;
    carry(row, LoadLimit::space, space.animals);
  }
  return row;
}

LoadRow row_on(const Tank& tank, const LoadingCase& now, const LoadBrood& brood, Date day) {
  LoadRow row = row_of(tank, now, stage_on(brood, day), each_g_on(now, brood, day), water_on(now, brood, day), brood.count);
  row.day = day;
  return row;
}

/// What equipment and the last oxygen reading say of the air.
void settle_air(Tank& tank, LoadingView& view, const LoadingCase& now, const std::optional<LoadBrood>& brood, Date today) {
  tank.transfer_at = brood ? water_on(now, *brood, today) : now.season.target;
  tank.transfer_l_per_h = air_transfer_l_per_h(tank.air, tank.transfer_at);
  tank.air_basis = tank.air.air_l_per_min ? AirBasis::on_record : AirBasis::assumed;
  const auto* read = now.belief.find(inference::Quantity::oxygen);
  if (!read || inference::is_stale(*read) || read->open_above || !brood || brood->to_come) return;
  const Date day = local_day(now.zone, read->read_at);
  if (!now.belief.brood.receipt || day < now.belief.brood.received) return;
  const LoadRow then = row_on(tank, now, *brood, day);
  const auto mg = [](double v) { return OxygenConc::from_mg_o2_per_l(v); };
  const auto learnt = learnt_transfer_l_per_h(tank.transfer_l_per_h, then.saturation, {mg(read->as_read.low), mg(read->as_read.mid), mg(read->as_read.high)},
                                              times(brood->count, then.one.oxygen_mg_o2_per_h()));
  if (learnt.low == tank.transfer_l_per_h.low && learnt.high == tank.transfer_l_per_h.high) return;  // it says nothing new
  tank.transfer_l_per_h = learnt;
  tank.air_basis = AirBasis::read;
  view.oxygen_records = read->records;
}

/// The permit's last day where there is one, else eight weeks of feeding.
Date last_day(const LoadingCase& now, const LoadBrood& brood) {
  constexpr days longest{400}, after_swim_up{56}, at_least{28};
  Date last = brood.swim_up.value_or(brood.from) + after_swim_up;
  if (now.season.release_until) last = *now.season.release_until;
  else if (now.season.release_from) last = *now.season.release_from + at_least;
  return std::clamp(last, brood.from + at_least, brood.from + longest);
}

std::optional<LoadReached> reached_by(LoadLimit limit, const std::vector<LoadRow>& rows) {
  const auto first = std::ranges::find_if(rows, [&](const LoadRow& row) { return row.by(limit) && row.by(limit)->over_probability >= probably; });
  if (first == rows.end()) return std::nullopt;
  const auto carried = [&](const LoadRow& row) { return row.by(limit) ? row.by(limit)->animals.mid : static_cast<double>(row.animals); };
  const auto worst = std::ranges::min_element(first, rows.end(), {}, carried);
  const auto whole = [&](const LoadRow& row) { return static_cast<int>(std::floor(carried(row))); };
  return LoadReached{*first->day, limit, whole(*first), first->animals, *worst->day, whole(*worst), {}};
}

/// The earliest; of one day the one that lets carry least.
std::optional<LoadReached> first_of(const std::array<std::optional<LoadReached>, 3>& all) {
  std::optional<LoadReached> first;
  for (const auto& reached : all)
    if (reached && (!first || reached->day < first->day || (reached->day == first->day && reached->carried < first->carried))) first = reached;
  return first;
}

std::optional<Date> first_possible(const std::vector<LoadRow>& rows, bool filter_known) {
  for (const LoadRow& row : rows)
    for (const LoadLimit limit : all_load_limits)
      if ((limit != LoadLimit::ammonia || filter_known) && row.by(limit) && row.by(limit)->over_probability >= possibly) return row.day;
  return std::nullopt;
}

std::vector<LoadRow> rows_by_size(const Tank& tank, const LoadingCase& now) {
  std::vector<LoadRow> rows;
  for (const LifeStage stage : {LifeStage::eyed_egg, LifeStage::alevin}) rows.push_back(row_of(tank, now, stage, unfed_g(stage, now.belief), now.season.target, 0));
  for (const double g : {0.15, 0.3, 0.5, 1.0, 2.0}) rows.push_back(row_of(tank, now, LifeStage::fry, {g, g, g, Support::assumed}, now.season.target, 0));
  return rows;
}

void settle_filter(Tank& tank, LoadingView& view, const LoadingCase& now) {
  tank.filter_known = now.filter && !now.filter->lost_track;
  tank.changed_fraction_per_week = now.season.usual_change_fraction.value_or(0.2);
  if (now.filter) view.filter_doubted = !now.filter->complete || now.filter->lost_track || !now.filter->doubts.empty();
  view.filter_lost = now.filter && now.filter->lost_track;
  view.filter_known = tank.filter_known;
  view.changed_fraction_per_week = tank.changed_fraction_per_week;
  view.total_ammonia_limit_mg_n_per_l = tank.ammonia_limit_mg_n_per_l(now.season.target);
  view.filter_mg_n_per_day = tank.nitrogen_mg_n_per_day(now.season.target);
}

LoadingView::State state_of(const LoadingCase& now) {
  using enum LoadingView::State;
  if (now.belief.brood.animals == inference::Animals::released) return released;
  if (inference::has_animals(now.belief.brood.animals)) return in_tank;
  return now.season.egg_day ? to_come : nothing_planned;
}

}  // namespace

int round_animals(double animals) {
  const int whole = std::max(0, static_cast<int>(std::floor(animals)));
  const int step = whole >= 1000 ? 100 : whole >= 100 ? 10 : whole > 20 ? 5 : 1;
  return whole - whole % step;
}

OxygenConc planned_oxygen(LifeStage stage, OxygenConc saturation) {
  const auto wanted = stage == LifeStage::fry ? OxygenConc::from_mg_o2_per_l(tank_limit_mg_per_l) : chemistry::limits::oxygen_early_stage_minimum;
  return std::min(wanted, OxygenConc::from_mg_o2_per_l(0.9 * saturation.mg_o2_per_l()));
}

LoadingView loading_view(const LoadingCase& now) {
  const Date today = local_day(now.zone, now.now);
  LoadingView view;
  view.state = state_of(now);
  view.release_from = now.season.release_from;
  view.release_until = now.season.release_until;
  const auto brood = load_brood(now, today);
  Tank tank(now);
  settle_air(tank, view, now, brood, today);
  settle_filter(tank, view, now);
  view.air = tank.air;
  view.air_basis = tank.air_basis;
  view.transfer_l_per_h = tank.transfer_l_per_h;
  view.sizes = rows_by_size(tank, now);
  if (brood) {
    view.animals = brood->count;
    view.animals_assumed = brood->count_assumed;
    for (Date day = brood->from; day <= last_day(now, *brood); day += days(1)) view.days.push_back(row_on(tank, now, *brood, day));
    for (const LoadLimit limit : all_load_limits) {
      auto reached = reached_by(limit, view.days);
      if (limit == LoadLimit::ammonia && !view.filter_known) {
        view.by_changes_alone = std::move(reached);
        continue;
      }
      if (reached) reached->options = load_options(view, *reached, now);
      view.reached_by[static_cast<std::size_t>(limit)] = std::move(reached);
    }
    view.reached = first_of(view.reached_by);
    view.first_possible = first_possible(view.days, view.filter_known);
  }
  view.assumed = load_assumptions(view, now);
  return view;
}

std::vector<OxygenHold> oxygen_holds(const ReserveCase& at) {
  namespace marks = chemistry::limits;
  std::vector<OxygenHold> holds;
  if (at.life == Life::none || at.count <= 0) return holds;
  const auto mg = [](double v) { return OxygenConc::from_mg_o2_per_l(v); };
  const auto told = [](HoldSpan span) { return may_be_told(span) ? std::optional(span) : std::nullopt; };
  const Word who{std::string(word_of(at.life))};
  if (in_basket(at.life)) holds.push_back({{"a still basket of {0}", {who}}, mg(basket_limit_mg_per_l), told(basket_reserve(at))});
  const bool early = at.life != Life::fry;
  std::vector<OxygenConc> limits{mg(tank_limit_mg_per_l), mg(basket_limit_mg_per_l)};
  if (early) limits.insert(limits.begin(), marks::oxygen_early_stage_minimum);
  else limits.push_back(marks::oxygen_later_stage_minimum);
  for (const OxygenConc limit : limits) holds.push_back({"the whole tank", limit, told(tank_reserve(at, limit))});
  return holds;
}

}  // namespace redd::planning
