#include "inference/filter_season.h"

#include <algorithm>
#include <cmath>

#include "chemistry/dosing.h"
#include "chemistry/oxygen.h"
#include "inference/counts_account.h"
#include "inference/water_belief.h"
#include "quantities/one_or_several.h"
#include "records/food.h"
#include "tank/load.h"

namespace redd::inference {
namespace {

using records::Record;
using std::chrono::days;

/// What the water is taken to be where the source is not described.
/// Assumed: soft drinking water, in balance with air.
constexpr double usual_alkalinity_meq_per_l = 1.5;

/// Cold when the eggs come, and for two days before; no faster than a degree a day. Assumed: what keepers plan (see planning).
constexpr days cold_before_eggs{2};
constexpr double chill_c_per_day = 1.0;

tank::SourceWater source_as_filled(const std::optional<records::SourceWater>& source, double alkalinity_meq_per_l, Temperature temperature) {
  tank::SourceWater water;
  water.alkalinity_meq_per_l = alkalinity_meq_per_l;
  if (source) {
    if (source->alkalinity) water.alkalinity_meq_per_l = source->alkalinity->meq_per_l();
    if (source->hardness) water.hardness_meq_per_l = source->hardness->meq_per_l();
    if (source->total_ammonia) water.total_ammonia_mg_n_per_l = source->total_ammonia->mg_n_per_l();
    if (source->nitrite) water.nitrite_mg_n_per_l = source->nitrite->mg_n_per_l();
    if (source->nitrate) water.nitrate_mg_n_per_l = source->nitrate->mg_n_per_l();
    if (source->chloramine && source->chlorine_mg_per_l) water.chloramine_mg_per_l = *source->chlorine_mg_per_l;
  }
  water.inorganic_carbon_mmol_per_l = tank::air_balanced_carbon_mmol_per_l(temperature, water.alkalinity_meq_per_l);
  water.oxygen_mg_o2_per_l = chemistry::oxygen_saturation(temperature).mg_o2_per_l();
  return water;
}

tank::Dose dose_of(const records::Dose& dose) {
  using enum records::Substance;
  tank::Dose result;
  switch (dose.substance) {
    case sodium_bicarbonate: result.bicarbonate_meq = dose.mass.mg() / chemistry::bicarbonate_mg_per_meq; break;
    case calcium_chloride_dihydrate: result.hardness_meq = dose.mass.mg() / chemistry::calcium_chloride_mg_per_meq; break;
    case magnesium_sulfate_heptahydrate: result.hardness_meq = dose.mass.mg() / chemistry::magnesium_sulfate_mg_per_meq; break;
    case ammonium_chloride: result.ammonium_chloride_mg_n = dose.mass.mg() / chemistry::ammonium_chloride_mg_per_mg_n; break;
    case sodium_thiosulfate_pentahydrate:
    case other: break;
  }
  return result;
}

/// Goes through the log once and sorts it into events and sittings.
class LogReader {
 public:
  LogReader(std::span<const Record> records, const ZoneOffsets& zone, FilterCase& into)
      : records_(records), zone_(zone), into_(into) {
    for (const Record& record : records)
      if (const auto* kit = std::get_if<records::Kit>(&record.entry.body)) kits_[kit->key] = kit;
  }

  void read(double alkalinity_meq_per_l, Temperature temperature) {
    alkalinity_meq_per_l_ = alkalinity_meq_per_l;
    temperature_ = temperature;
    for (const Record& record : records_) {
      if (record.entry.at < into_.season.begin) continue;
      at_day_ = days_between(into_.season.begin, record.entry.at).count();
      std::visit([&](const auto& body) { take(record, body); }, record.entry.body);
    }
    if (other_doses_ > 0)
      into_.assumed.push_back({one_or_several(other_doses_, "{0} dose of something the model does not know is passed over.", "{0} doses of something the model does not know are passed over."), {Number{other_doses_}}});
  }

 private:
  template <class Body>
  void take(const Record&, const Body&) {}

  void take(const Record& record, const records::Reading& reading) {
    const auto kit = kits_.find(reading.kit);
    const records::KitTest* test = kit == kits_.end() ? nullptr : records::find_test(*kit->second, reading.test);
    if (!test || !records::observed_interval(*test, reading)) return;
    // Tests of one day are one sitting, unless something was done to the water in between.
    auto& sittings = into_.season.sittings;
    const Date day = local_day(zone_, record.entry.at);
    const auto& events = into_.season.events;
    const bool goes_on = !sittings.empty() && sitting_day_ == day && (events.empty() || events.back().at_day < sittings.back().at_day);
    // A test written down after a deed of the same minute was made of the water after it; the model takes a deed at the time of a sitting to come after.
    constexpr double a_second = 1.0 / 86400.0;
    if (!goes_on) sittings.push_back({!events.empty() && events.back().at_day >= at_day_ ? events.back().at_day + a_second : at_day_, {}});
    sitting_day_ = day;
    auto& tests = sittings.back().tests;
    auto found = std::ranges::find_if(tests, [&](const SittingTest& t) { return t.kit == reading.kit && t.test.key == reading.test; });
    if (found == tests.end()) {
      tests.push_back({*test, reading.kit, {}, {}});
      found = tests.end() - 1;
    }
    found->readings.push_back(reading);
    found->records.push_back(record.id);
  }

  void take(const Record&, const records::WaterChange& change) {
    const auto source = source_water(records_, change.source_water);
    happened(WaterChanged{change.volume.l(), source_as_filled(source, alkalinity_meq_per_l_, temperature_)});
  }
  /// What evaporated since the last top-up, at most a fortnight, as the day's forcing; then the water that replaced it.
  void take(const Record&, const records::TopUp& top_up) {
    constexpr double longest_days = 14.0;
    const double from = std::max({0.0, last_top_up_day_, at_day_ - longest_days}), days_lost = std::floor(at_day_) - std::floor(from);
    const auto first = static_cast<std::size_t>(std::floor(from));
    if (days_lost >= 1.0)  // of whole days that are over; what is topped up twice a day is left out with its vapour
      for (std::size_t d = first; d < first + static_cast<std::size_t>(days_lost) && d < into_.season.forcing.days.size(); ++d)
        into_.season.forcing.days[d].evaporation_l_per_day += top_up.volume.l() / days_lost;
    if (days_lost >= 1.0) happened(WaterAdded{top_up.volume.l(), source_as_filled(source_water(records_, top_up.source_water), alkalinity_meq_per_l_, temperature_)});
    last_top_up_day_ = at_day_;
  }
  void take(const Record&, const records::Dose& dose) {
    if (dose.substance == records::Substance::other) {
      ++other_doses_;
      return;
    }
    happened(dose_of(dose));
  }
  void take(const Record&, const records::FilterWork& work) {
    using enum records::FilterWork::Work;
    switch (work.work) {
      case rinsed: happened(FilterLost{rinse_loss_fraction * work.fraction.value_or(1.0), rinse_log_odds_sd}); break;
      case media_replaced: happened(FilterLost{work.fraction.value_or(0.5)}); break;
      case seeded: happened(FilterSeeded{work.fraction.value_or(0.05)}); break;
      case media_added: break;
    }
  }
  /// Deeds and sittings stay in the order in which they were written where their times are the same.
  void happened(auto what) {
    double at_day = at_day_;
    if (!into_.season.sittings.empty()) at_day = std::max(at_day, into_.season.sittings.back().at_day);
    if (!into_.season.events.empty()) at_day = std::max(at_day, into_.season.events.back().at_day);
    into_.season.events.push_back({at_day, std::move(what)});
  }

  std::span<const Record> records_;
  const ZoneOffsets& zone_;
  FilterCase& into_;
  std::map<std::string, const records::Kit*, std::less<>> kits_;
  double alkalinity_meq_per_l_ = usual_alkalinity_meq_per_l;
  Temperature temperature_ = Temperature::from_c(15);
  double at_day_ = 0;
  double last_top_up_day_ = 0;
  Date sitting_day_{};
  int other_doses_ = 0;
};

/// Mean temperature of each day: as believed, then as planned with the chill before the eggs.
std::vector<double> mean_temperatures(const records::SeasonSetup& setup, const Belief& belief, Date today) {
  std::vector<double> means;
  for (const auto& day : belief.temperature.days) means.push_back(day.mean.c());
  if (!setup.egg_day || *setup.egg_day <= today || has_animals(belief.brood.animals)) return means;
  for (std::size_t i = 0; i < means.size(); ++i) {
    const Date day = belief.temperature.days[i].day;
    if (day <= today) continue;
    const double days_left = std::max(0.0, static_cast<double>((*setup.egg_day - cold_before_eggs - day).count()));
    means[i] = std::min(means[i], setup.target.c() + chill_c_per_day * days_left);
  }
  return means;
}

struct BroodDays {
  BroodCourse course{};
  int count = 0;
};

std::optional<BroodDays> brood_days(const records::SeasonSetup& setup, std::span<const Record> records, const Belief& belief, const ZoneOffsets& zone,
                                    std::span<const double> means, Date today) {
  BroodDays result;
  BroodCourse& brood = result.course;
  const biology::DevelopmentForecast* forecast = belief.brood.forecast ? &*belief.brood.forecast : nullptr;
  std::optional<biology::DevelopmentForecast> foreseen;
  if (belief.brood.receipt) {
    for (const Record& record : records)
      if (record.id == *belief.brood.receipt) {
        brood.received = local_day(zone, record.entry.at);
        const auto& receipt = std::get<records::EggReceipt>(record.entry.body);
        if (receipt.fertilised_on) brood.begun = *receipt.fertilised_on;
      }
    result.count = belief.brood.received_count;
  } else if (setup.egg_day && setup.egg_count && *setup.egg_day > today && belief.brood.species) {
    brood.received = *setup.egg_day;
    result.count = *setup.egg_count;
    std::vector<biology::DailyTemperature> planned;
    for (std::size_t i = 0; i < means.size(); ++i)
      if (belief.temperature.days[i].day >= brood.received)
        planned.push_back({belief.temperature.days[i].day, Temperature::from_c(means[i]), TemperatureChange::from_c(0.7), false});
    if (planned.empty()) return std::nullopt;
    biology::ModelChoice choice;
    if (setup.development_model) choice.hatch = *setup.development_model;
    const auto made = biology::forecast_development(*belief.brood.species, choice, {biology::ReceivedEyed{brood.received}}, planned, {}, brood.received);
    if (!made) return std::nullopt;
    foreseen = *made;
    forecast = &*foreseen;
  } else {
    return std::nullopt;
  }
  if (!forecast) return std::nullopt;
  brood.hatch = biology::day_of(forecast->stage(biology::Stage::hatch).lot.median);
  brood.swim_up = biology::day_of(forecast->stage(biology::Stage::swim_up).lot.median);
  if (brood.begun == Date{}) brood.begun = brood.received - (brood.hatch - brood.received);  // Assumed: half-way when nobody says
  if (belief.brood.species && belief.brood.species->swim_up_weight.mid.g() > 0) brood.fry_mass_g = belief.brood.species->swim_up_weight.mid.g();
  return result;
}

/// Who lived and what was fed on each day.
struct DailyHusbandry {
  AliveAccount account;
  std::map<Date, double> fed_g;
};
DailyHusbandry husbandry_of(std::span<const Record> records, const ZoneOffsets& zone) {
  DailyHusbandry result{alive_account(records, zone), {}};
  for (const Record& record : records) {
    const Date day = local_day(zone, record.entry.at);
    if (const auto* feeding = std::get_if<records::Feeding>(&record.entry.body)) {
      result.fed_g[day] += records::food_mass(records, *feeding).g();
    }
  }
  return result;
}

/// Food a day as a share of their mass, from what was logged in the last week; nothing when it was logged on fewer than two days of it.
class LoggedRation {
 public:
  void add(Date day, Date today, double fed_g, double fish_g) {
    constexpr days looked_at{7};
    if (day >= today || today - day > looked_at || fish_g <= 0.0) return;
    ++days_;
    fed_g_ += fed_g;
    fish_g_ += fish_g;
  }
  std::optional<double> share() const {
    if (days_ < 2) return std::nullopt;
    return std::min(fed_g_ / fish_g_, most);
  }
  bool more_than_is_eaten() const { return days_ >= 2 && fed_g_ / fish_g_ > most; }

 private:
  static constexpr double most = 3.0 * usual_ration_fraction;  // Assumed: nobody goes on with what lies uneaten
  int days_ = 0;
  double fed_g_ = 0.0, fish_g_ = 0.0;
};

void add_load(FilterCase& into, const BroodDays& brood, const DailyHusbandry& husbandry, Date first_day, Date today) {
  auto& forcing = into.season.forcing.days;
  double fry_g = brood.course.fry_mass_g;
  const auto alive_on = [&](Date day) { return husbandry.account.receipts.empty() ? brood.count : static_cast<int>(std::lround(husbandry.account.alive_on(day))); };
  BroodCourse course = brood.course;
  LoggedRation logged;
  into.alive = alive_on(std::max(today, course.received));
  for (std::size_t i = 0; i < forcing.size(); ++i) {
    const Date day = first_day + days(i);
    const int alive = alive_on(day);
    if (day == today) into.fry_mass_now_g = fry_g;
    if (day > today) course.ration_fraction = logged.share().value_or(usual_ration_fraction);
    if (day < course.received || alive == 0) continue;
    const auto fed = husbandry.fed_g.find(day);
    std::optional<double> fed_g;
    if (fed != husbandry.fed_g.end()) fed_g = fed->second;
    else if (day <= today && !husbandry.fed_g.empty()) fed_g = 0.0;
    const tank::Brood now = course.on(day, alive, fry_g, fed_g);
    if (now.stage == tank::Stage::fry) {
      if (fed != husbandry.fed_g.end()) logged.add(day, today, fed->second, fry_g * alive);
      fry_g += grown_by_food_g(now);
    }
    tank::add_brood(forcing[i], now);
  }
  if (const auto share = logged.share())
    into.assumed.push_back({logged.more_than_is_eaten() ? "More food was logged in the last week than {0} of the fish's mass a day; the days to come are reckoned with that much."
                                                        : "Food goes on as logged in the last week: {0} of the fish's mass a day.", {Share{*share}}});
  into.brood = course;
}

/// The keeper's routine goes on: what was done at least twice in the last four weeks is done every week from now on, in the same amount a
/// week. Ammonia and bicarbonate for the ripening filter stop before the eggs come.
void repeat_routine(FilterCase& into, const records::SeasonSetup& setup, bool animals, Date today) {
  constexpr double weeks_looked_at = 4.0, week = 7.0;
  constexpr days without_dose_before_eggs{3};
  const double since = into.now_day - weeks_looked_at * week;
  tank::Dose weekly;
  WaterChanged change;
  int ammonia_doses = 0, bicarbonate_doses = 0, changes = 0;
  for (const FilterEvent& event : into.season.events) {
    if (event.at_day <= since) continue;
    if (const auto* dose = std::get_if<tank::Dose>(&event.what)) {
      ammonia_doses += dose->ammonium_chloride_mg_n > 0;
      bicarbonate_doses += dose->bicarbonate_meq > 0;
      weekly.ammonium_chloride_mg_n += dose->ammonium_chloride_mg_n / weeks_looked_at;
      weekly.bicarbonate_meq += dose->bicarbonate_meq / weeks_looked_at;
    } else if (const auto* changed = std::get_if<WaterChanged>(&event.what)) {
      ++changes;
      change.source = changed->source;
      change.volume_l += changed->volume_l / weeks_looked_at;
    }
  }
  if (animals || ammonia_doses < 2) weekly.ammonium_chloride_mg_n = 0.0;
  if (bicarbonate_doses < 2) weekly.bicarbonate_meq = 0.0;
  double last_dose = into.until_day;
  if (!animals && setup.egg_day && *setup.egg_day > today)
    last_dose = into.now_day + static_cast<double>((*setup.egg_day - without_dose_before_eggs - today).count());
  const bool doses_on = weekly.ammonium_chloride_mg_n > 0 || weekly.bicarbonate_meq > 0, changes_on = changes >= 2;
  for (double day = into.now_day + week; day < into.until_day; day += week) {
    if (doses_on && day <= last_dose) into.season.events.push_back({day, weekly});
    if (changes_on) into.season.events.push_back({day, change});
  }
  if (doses_on && weekly.ammonium_chloride_mg_n > 0)
    into.assumed.push_back({"The filter goes on being fed as in the last four weeks: {0} of ammonia (as N) a week, until three days before the eggs.",
                            {Measured{weekly.ammonium_chloride_mg_n / into.season.volume_l, "mg/L"}}});
  else if (!animals && setup.egg_day && *setup.egg_day > today + days(14))
    into.assumed.push_back("No ammonia is fed regularly, and none is planned: an unfed filter dwindles until the eggs come.");
  if (changes_on) into.assumed.push_back({"Water changes go on as in the last four weeks: {0} a week.", {Volume::from_l(change.volume_l)}});
}

}  // namespace

double grown_by_food_g(const tank::Brood& fry) { return fry.eaten_fraction * fry.feed_g_per_day / fry.count; }

tank::Brood BroodCourse::on(Date day, double alive, double fry_g, std::optional<double> fed_g) const {
  tank::Brood now;
  now.count = alive;
  if (day < hatch) {
    const double way = static_cast<double>((day - begun).count()) / std::max(1.0, static_cast<double>((hatch - begun).count()));
    // In tenths, so that a hatch expected a day later leaves most of the past as it was.
    now.stage_share_fraction = std::clamp(std::round(way * 10.0) / 10.0, 0.0, 1.0);
  } else if (day < swim_up) {
    now.stage = tank::Stage::alevin;
  } else {
    now.stage = tank::Stage::fry;
    now.fry_mass_g = fry_g;
    now.feed_g_per_day = fed_g.value_or(ration_fraction * fry_g * alive);
  }
  return now;
}

FilterCase filter_case(const records::SeasonSetup& setup, std::span<const Record> records, const Belief& belief, const ZoneOffsets& zone, Instant now) {
  FilterCase result;
  FilterSeason& season = result.season;
  const Date today = local_day(zone, now);
  season.begin = start_of_day(zone, setup.first_day);
  season.volume_l = setup.volume.l();
  if (setup.filter_media) season.media_area_m2 = media_area_m2_per_l * setup.filter_media->l();
  else result.assumed.push_back({"How much filter media there is was not said: {0} of foam are taken.", {Volume::from_l(season.media_area_m2 / media_area_m2_per_l)}});

  const std::vector<double> means = mean_temperatures(setup, belief, today);
  for (std::size_t i = 0; i < means.size(); ++i) {
    // A day's mean stands at its noon; the day begins half-way from the day before.
    tank::DayForcing day;
    day.temperature_c = 0.5 * (means[i > 0 ? i - 1 : 0] + means[i]);
    season.forcing.days.push_back(day);
  }
  const Temperature first = means.empty() ? setup.target : Temperature::from_c(means.front());

  // The first water is the source's; without one, what the first test of alkalinity found.
  double alkalinity = usual_alkalinity_meq_per_l;
  const QuantityBelief* read = belief.find(Quantity::alkalinity);
  if (read && !read->sittings.empty()) alkalinity = std::max(0.05, read->sittings.front().value.mid);
  else if (!belief.source || !belief.source->alkalinity)
    result.assumed.push_back({"The alkalinity of the first water is not known: {0} is taken.", {Alkalinity::from_meq_per_l(alkalinity)}});
  const tank::SourceWater filled = source_as_filled(belief.source, alkalinity, first);
  season.first_water.total_ammonia_mg_n_per_l = filled.total_ammonia_mg_n_per_l + chemistry::ammonia_released_by(filled.chloramine_mg_per_l).mg_n_per_l();
  season.first_water.nitrite_mg_n_per_l = filled.nitrite_mg_n_per_l;
  season.first_water.nitrate_mg_n_per_l = belief.source && belief.source->nitrate ? filled.nitrate_mg_n_per_l : 0.5;
  season.first_water.alkalinity_meq_per_l = filled.alkalinity_meq_per_l;
  season.first_water.inorganic_carbon_mmol_per_l = filled.inorganic_carbon_mmol_per_l;
  season.first_water.oxygen_mg_o2_per_l = filled.oxygen_mg_o2_per_l;
  season.first_water.hardness_meq_per_l = filled.hardness_meq_per_l;

  LogReader(records, zone, result).read(alkalinity, first);

  // The full hour, so that everybody who looks within it sees the same; but nothing logged lies ahead of it.
  result.now_day = std::max(0.0, days_between(season.begin, std::chrono::floor<std::chrono::hours>(now)).count());
  if (!season.sittings.empty()) result.now_day = std::max(result.now_day, season.sittings.back().at_day);
  if (!season.events.empty()) result.now_day = std::max(result.now_day, season.events.back().at_day);

  double until = result.now_day + 42.0;
  if (const auto brood = brood_days(setup, records, belief, zone, means, today)) {
    add_load(result, *brood, husbandry_of(records, zone), setup.first_day, today);
    result.hatch = brood->course.hatch;
    result.swim_up = brood->course.swim_up;
    until = std::max(until, static_cast<double>((brood->course.swim_up - setup.first_day).count()) + 42.0);
  }
  if (setup.egg_day) until = std::max(until, static_cast<double>((*setup.egg_day - setup.first_day).count()) + 14.0);
  result.until_day = std::min({until, result.now_day + 180.0, static_cast<double>(season.forcing.days.size())});
  repeat_routine(result, setup, has_animals(belief.brood.animals), today);
  return result;
}

}  // namespace redd::inference
