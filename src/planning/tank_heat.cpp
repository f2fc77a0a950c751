#include "planning/tank_heat.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "numerics/normal.h"
#include "planning/detail/heat_log.h"
#include "quantities/phrase_parts.h"
#include "quantities/result.h"

namespace redd::planning {
namespace {

using heat::FaceKind;
using records::Record;
using records::TankBuild;
using records::TankFace;

constexpr auto zero_w = Power::from_w(0.0);
constexpr double sd_per_half_width = 1.0 / 1.6448536269514722;  // of a 90 % interval
/// Assumed: the middle of the 30-60 % of a lamp's plug power that published work finds in the water.
constexpr double light_share = 0.45;

struct Build {
  TankBuild body{};
  std::optional<records::RecordId> id{};
  Instant since{};  ///< the tank was another before; the earliest moment when it never was
};

Build newest_build(std::span<const Record> records) {
  Build found;
  for (const Record& record : records)
    if (const auto* build = std::get_if<TankBuild>(&record.entry.body)) {
      if (found.id) found.since = record.entry.at;
      found.body = *build;
      found.id = record.id;
    }
  return found;
}

heat::Layer pane(TankFace::Wall wall, std::optional<double> thickness_mm) {
  namespace k = heat::conductivity_w_per_m_k;
  const auto thick_m = [&](double usual_mm) { return thickness_mm.value_or(usual_mm) / 1000.0; };
  switch (wall) {
    case TankFace::Wall::acrylic: return {thick_m(10.0), k::acrylic};
    case TankFace::Wall::foam: return {thick_m(25.0), k::foam};
    case TankFace::Wall::glass:
    case TankFace::Wall::unknown: break;
  }
  return {thick_m(6.0), k::glass};
}

/// Outside measures in metres: recorded, or of ordinary proportions (twice as long as wide, as high as wide) when only the volume is known.
struct Box {
  double length_m, width_m, depth_m;
  bool measured;
};

Box box_of(const TankBuild& build, Volume water) {
  const double litres_m3 = water.l() / 1000.0;
  if (build.length_cm && build.width_cm) {
    const double plan_m2 = *build.length_cm * *build.width_cm / 1e4;
    return {*build.length_cm / 100.0, *build.width_cm / 100.0, build.water_height_cm ? *build.water_height_cm / 100.0 : litres_m3 / plan_m2, true};
  }
  const double width_m = std::cbrt(litres_m3 / 2.0);
  return {2.0 * width_m, width_m, width_m, false};
}

/// Every face by itself, since each may be made otherwise.
std::vector<heat::Face> faces_of(const TankBuild& build, const Box& box) {
  heat::TankWalls walls;
  walls.length_m = box.length_m, walls.width_m = box.width_m, walls.water_depth_m = box.depth_m;
  const heat::Layer usual = pane(build.wall, build.wall_thickness_mm);
  walls.material = build.wall == TankFace::Wall::acrylic ? heat::WallMaterial::acrylic : heat::WallMaterial::glass;
  walls.wall_m = usual.thickness_m;
  walls.side_foam_m = build.foam_thickness_mm.value_or(0.0) / 1000.0;
  walls.lid = build.lid == TankBuild::Lid::none ? heat::LidKind::none : build.lid == TankBuild::Lid::foam ? heat::LidKind::foam : heat::LidKind::sheet;
  walls.base = build.base == TankBuild::Base::open_frame ? heat::BaseKind::open_frame
               : build.base == TankBuild::Base::foam || build.wall == TankFace::Wall::foam ? heat::BaseKind::foam
                                                                                           : heat::BaseKind::board;
  const auto named = [&](TankFace::Side side) {
    return std::ranges::find(build.faces, side, &TankFace::side);
  };
  const auto side = [&](TankFace::Side which, double width_m, bool left_bare) {
    const auto own = named(which);
    const bool differs = own != build.faces.end();
    const double foam_m = differs ? own->foam_thickness_mm.value_or(0.0) / 1000.0 : left_bare ? 0.0 : walls.side_foam_m;
    const heat::Layer wall = !differs ? usual : pane(own->wall == TankFace::Wall::unknown ? build.wall : own->wall,
                                                     own->wall_thickness_mm ? own->wall_thickness_mm : build.wall_thickness_mm);
    const std::vector<heat::Layer> layers{wall, {foam_m, heat::conductivity_w_per_m_k::foam}};
    return heat::Face{FaceKind::side, width_m * box.depth_m, heat::u_value_w_per_m2_k(layers, heat::air_film_m2_k_per_w(FaceKind::side)),
                      foam_m <= 0.0 && wall.conductivity_w_per_m_k > heat::conductivity_w_per_m_k::foam};
  };
  const int bare = build.bare_long_sides.value_or(0);
  std::vector<heat::Face> all{side(TankFace::Side::front, box.length_m, bare >= 1), side(TankFace::Side::back, box.length_m, bare >= 2),
                              side(TankFace::Side::left, box.width_m, false), side(TankFace::Side::right, box.width_m, false)};
  for (heat::Face face : heat::faces(walls)) {
    if (face.kind == FaceKind::side) continue;
    if (const auto own = named(TankFace::Side::floor); face.kind == FaceKind::floor && own != build.faces.end() && own->foam_thickness_mm) {
      face.u_w_per_m2_k = 1.0 / (1.0 / face.u_w_per_m2_k + *own->foam_thickness_mm / 1000.0 / heat::conductivity_w_per_m_k::foam);
      face.bare = false;
    }
    all.push_back(face);
  }
  return all;
}

bool has_foam(const TankBuild& build) {
  return build.foam_thickness_mm.value_or(0.0) > 0.0 || build.lid == TankBuild::Lid::foam || build.base == TankBuild::Base::foam ||
         build.wall == TankFace::Wall::foam ||
         std::ranges::any_of(build.faces, [](const TankFace& f) { return f.wall == TankFace::Wall::foam || f.foam_thickness_mm.value_or(0.0) > 0.0; });
}

/// The doubt of heat::conductance_estimate(), for faces made one by one.
Estimate<Conductance> estimate_of(const std::vector<heat::Face>& faces, bool foam) {
  Conductance sum = Conductance::from_w_per_k(0.0);
  for (const heat::Face& face : faces) sum = sum + face.conductance();
  return {(1.0 / 1.5) * sum, sum, (foam ? 2.0 : 1.5) * sum, Support::assumed};
}

/// Performance as the plate tells it, when it tells cooling and electric power; nothing where the two can't both be right.
std::optional<double> carnot_share(const heat::Chiller& plate, Power electric) {
  const double at_plate = plate.carnot_share_fraction * (plate.rated.w() / electric.w()) / heat::cop(plate, plate.rated_water, plate.rated_room);
  if (!(at_plate > 0.02 && at_plate < 0.7)) return std::nullopt;
  return at_plate;
}

void read_chiller(TankHeatModel& model, const TankBuild& build) {
  if (!build.chiller_cooling) {
    model.assumed.push_back({"The chiller's cooling power is not on record, so nothing can be said of what it holds. Its plate or maker's sheet has it, in watts."});
    return;
  }
  heat::Chiller plate{*build.chiller_cooling};
  if (build.chiller_rated_water) plate.rated_water = *build.chiller_rated_water;
  if (build.chiller_rated_room) plate.rated_room = *build.chiller_rated_room;
  if (!build.chiller_rated_water || !build.chiller_rated_room)
    model.assumed.push_back({"The chiller's plate is taken to speak of water at {0} in a room at {1}; cold water takes a third of that away.", {plate.rated_water, plate.rated_room}});
  if (build.chiller_electric) {
    if (const auto share = carnot_share(plate, *build.chiller_electric)) plate.carnot_share_fraction = *share;
    else
      model.assumed.push_back({"The chiller's cooling and electric power on record can hardly both be right; its use of electricity is estimated from the cooling alone."});
  } else {
    model.assumed.push_back({"The chiller's electric power is not on record; it is estimated from ordinary machines."});
  }
  model.plate = plate;
}

void read_room(TankHeatModel& model, const TankBuild& build) {
  heat::RoomScenario& room = model.room;
  if (build.room_day) room.occupied = *build.room_day;
  room.occupied_summer = build.room_summer_day.value_or(room.occupied + TemperatureChange::from_c(3.0));
  if (build.room_night) room.night_change = *build.room_night - room.occupied;
  // A building set back at night is taken to be so over the weekend too.
  room.weekend_change = build.room_weekend ? *build.room_weekend - room.occupied : room.night_change;
  if (build.room_used_from_hour) room.used_from_hour = *build.room_used_from_hour;
  if (build.room_used_until_hour) room.used_until_hour = *build.room_used_until_hour;
  if (build.warmest_month) room.warmest_day_of_year = static_cast<int>((*build.warmest_month - 0.5) * 365.0 / 12.0);
  model.room_in_breaks = build.room_break;
  model.room_known = build.room_day.has_value();
  if (!build.room_day) model.assumed.push_back({"The room is taken as {0} in winter and {1} in summer; no room temperature is on record for this building.", {room.occupied, room.occupied_summer}});
  if (!build.room_night) model.assumed.push_back({"The room is taken as no different at night."});
  if (!build.room_break) model.assumed.push_back({"Breaks are taken like weekends. An uncooled building can be far warmer: ask the caretaker."});
}

Estimate<Power> own_heat_before_log(TankHeatModel& model, const TankBuild& build) {
  if (build.pump) {
    model.pump = *build.pump;
    return {0.8 * *build.pump, *build.pump, 1.2 * *build.pump, Support::inferred};
  }
  model.assumed.push_back({"The pump's power is not on record; {0} are taken.", {Measured{model.pump.w(), "W"}}});
  return {Power::from_w(2), model.pump, Power::from_w(22), Support::assumed};
}

/// A log's own heat holds the damp of its weeks already; without one it is reckoned from the room's air.
void read_damp(TankHeatModel& model, Date today) {
  if (model.basis == HeatBasis::log) return;
  model.tank.damp = damp_heat(model, model.set_point, {heat::mean_of(planned_rooms(model, today, 1).front()), usual_humidity_fraction});
}

double log_normal_between(double low, double mid, double high, double z) {
  return mid * std::exp(z * sd_per_half_width * (z < 0.0 ? std::log(mid / low) : std::log(high / mid)));
}

/// Quantiles of the three unknowns against each other: even worlds without a random number.
std::vector<heat::HeatWorld> worlds_before_log(const Estimate<Conductance>& ua, const Estimate<double>& factor, const Estimate<Power>& own) {
  constexpr int n_ua = 15, n_factor = 7, n_own = 3;
  const auto z_of = [](int i, int n) { return numerics::normal_quantile((i + 0.5) / n); };
  std::vector<heat::HeatWorld> all;
  for (int i = 0; i < n_ua; ++i)
    for (int j = 0; j < n_factor; ++j)
      for (int k = 0; k < n_own; ++k)
        all.push_back({Conductance::from_w_per_k(log_normal_between(ua.low.w_per_k(), ua.mid.w_per_k(), ua.high.w_per_k(), z_of(i, n_ua))),
                       log_normal_between(factor.low, factor.mid, factor.high, z_of(j, n_factor)),
                       std::max(zero_w, own.mid + z_of(k, n_own) * sd_per_half_width * 0.5 * (own.high - own.low))});
  return all;
}

/// Learns from the log where that narrows the conductance; true when it did.
bool learn(TankHeatModel& model, const Build& build, const Estimate<Power>& own, std::span<const Record> records, const ZoneOffsets& zone, Instant now) {
  constexpr std::chrono::days looked_back{28};
  // Assumed: fewer than a dozen readings, or an interval hardly narrower than the dimensions give, teach nothing worth replacing them.
  constexpr int fewest = 12;
  constexpr double narrower = 0.75;
  const detail::HeatLogSettings settings{.since = std::max(now - looked_back, build.since),
                                         .has_plate = model.plate.has_value(),
                                         .heater_possible = !build.body.heater || build.body.heater->w() > 0.0,
                                         .band = model.band,
                                         .tank = model.tank};
  const detail::HeatLog log = detail::heat_log(records, zone, now, settings);
  const heat::HeatPrior prior{.conductance = model.conductance, .own_heat = own};
  auto fit = heat::fit_heat(model.tank.capacity, model.plate, prior, log.readings);
  if (!fit || fit->readings_used < fewest) return false;
  if (!fit->follows_model) {
    model.assumed.push_back({"The temperatures of the last weeks follow no tank that stands still (lid opened, sun, ice, unlogged switching?), so nothing is learnt from them."});
    return false;
  }
  const auto width = [](const Estimate<Conductance>& e) { return std::log(e.high.w_per_k() / e.low.w_per_k()); };
  if (width(fit->conductance) > narrower * width(model.conductance)) return false;
  model.basis = HeatBasis::log;
  model.conductance = fit->conductance;
  model.tank.pump = fit->own_heat.mid;
  model.doubt = heat::doubt_of(*fit);
  model.worlds = fit->worlds;
  if (model.plate && fit->chiller_factor.support == Support::assumed) {  // it never ran where it could be watched
    model.doubt.chiller = heat::doubt_without_log.chiller;
    model.assumed.push_back({"The log never shows the chiller running clear of its band, so its plate is taken, with a third less as possible."});
    for (std::size_t i = 0; i < model.worlds.size(); ++i) {
      const auto& doubt = model.doubt.chiller;
      // An order that walks evenly through the worlds (the golden section), so that factor and conductance do not rise together.
      const double share = std::fmod(0.5 + 0.6180339887498949 * static_cast<double>(i), 1.0);
      model.worlds[i].chiller_factor = log_normal_between(doubt.low, doubt.mid, doubt.high, numerics::normal_quantile(std::clamp(share, 0.001, 0.999)));
    }
  } else if (model.plate) {
    model.equipment.chiller->rated = fit->chiller_factor.mid * model.plate->rated;
  }
  model.fit = std::move(fit).value();
  model.records.insert(model.records.end(), log.records.begin(), log.records.end());
  return true;
}

/// Takes out the worlds that could not have held what was held: in dry air, so that damp nobody measured takes out none. Where hardly one is
/// left, something is described wrongly and that is said; what was held still counts for day_abilities() when a thermometer told the room.
void heed_held_water(TankHeatModel& model, std::span<const Record> records, const ZoneOffsets& zone, const Build& build, Instant now) {
  constexpr std::chrono::days looked_back{28};
  constexpr std::size_t one_in = 20;
  if (!model.plate) return;
  std::function<Temperature(Date)> planned;
  if (model.room_known) planned = [&](Date day) { return heat::coldest_of(planned_rooms(model, day, 1).front()); };
  model.held = detail::held_water(records, zone, std::max(now - looked_back, build.since), now, planned);
  if (!model.held) return;
  const auto [water, room, room_read, from, until] = *model.held;
  std::vector<heat::HeatWorld> able;
  for (const heat::HeatWorld& world : model.worlds)
    if (heat::settles_at(model.tank_of(world), model.chiller_of(world), room) <= water + held_within) able.push_back(world);
  if (able.size() == model.worlds.size()) return;
  if (able.size() * one_in < model.worlds.size()) {
    model.assumed.push_back({"From {0} to {1} the water stood at {2}, which tank, chiller and room as they are described could hardly do: check the chiller's cooling power, the room and the insulation.",
                             {from, until, water}});
    if (!room_read) model.held.reset();
    return;
  }
  model.assumed.push_back({"From {0} to {1} the water was held at {2} in a room at {3}: what could not have done that is left out.", {from, until, water, room}});
  model.worlds = std::move(able);
  const auto ua = over_worlds(model, [](const heat::HeatWorld& w) { return w.conductance.w_per_k(); });
  const auto factor = over_worlds(model, [](const heat::HeatWorld& w) { return w.chiller_factor; });
  model.conductance = {Conductance::from_w_per_k(ua.low), Conductance::from_w_per_k(ua.mid), Conductance::from_w_per_k(ua.high), model.conductance.support};
  model.equipment.chiller->rated = factor.mid * model.plate->rated;
  model.doubt = {{ua.low / ua.mid, 1.0, ua.high / ua.mid, model.conductance.support}, {factor.low / factor.mid, 1.0, factor.high / factor.mid, factor.support}};
}

Sentence basis_sentence(const TankHeatModel& model, const TankBuild& build, const Box& box, bool foam) {
  const auto measure = [](double cm) { return amount(Length{cm}, 0); };
  const auto& [low, mid, high, support] = model.conductance;
  switch (model.basis) {
    case HeatBasis::log:
      return {"Learnt from {0} temperature readings of tank and room: {1} flow in for each degree the room is warmer ({2} to {3}).",
              {Number{model.fit->readings_used}, mid, low, high}};
    case HeatBasis::dimensions:
      return {"Worked out from the tank's dimensions, {0} x {1} and {2} of water: {3} flow in for each degree the room is warmer ({4} to {5}). "
              "An hourly log of tank and room replaces this.",
              {Word{measure(*build.length_cm)}, Word{measure(*build.width_cm)}, Word{measure(100.0 * box.depth_m)}, mid, low, high}};
    case HeatBasis::volume: break;
  }
  if (foam)
    return {"Only the volume, {0}, and the insulation are on record; with ordinary proportions {1} flow in for each degree the room is warmer ({2} to {3}).", {model.water, mid, low, high}};
  return {"Only the volume, {0}, is on record. An ordinary bare tank with a lid lets in {1} for each degree the room is warmer ({2} to {3}). "
          "The tank's dimensions or an hourly log make it surer.",
          {model.water, mid, low, high}};
}

std::optional<Temperature> fresh(std::span<const Record> records, records::TemperatureReading::Place place, Instant now) {
  constexpr auto fresh_for = std::chrono::hours(36);
  std::optional<Temperature> found;
  for (const Record& record : records)
    if (const auto* t = std::get_if<records::TemperatureReading>(&record.entry.body); t && t->place == place && now - record.entry.at <= fresh_for) found = t->temperature;
  return found;
}

std::size_t place_in(std::size_t n, double share) {
  return static_cast<std::size_t>(std::clamp(std::lround(share * static_cast<double>(n) - 0.5), 0L, static_cast<long>(n) - 1));
}

}  // namespace

heat::TankHeat TankHeatModel::tank_of(const heat::HeatWorld& world) const {
  heat::TankHeat each = tank;
  each.conductance = world.conductance;
  each.pump = world.own_heat;
  return each;
}

std::optional<heat::Chiller> TankHeatModel::chiller_of(const heat::HeatWorld& world) const {
  std::optional<heat::Chiller> each = plate;
  if (each) each->rated = world.chiller_factor * each->rated;
  return each;
}

heat::TankHeat TankHeatModel::without_power(const heat::HeatWorld& world) const {
  heat::TankHeat each = tank_of(world);
  each.pump = std::max(zero_w, each.pump - pump);
  each.light = zero_w;
  return each;
}

Power damp_heat(const TankHeatModel& model, Temperature water, const heat::RoomAir& air) {
  Power sum = heat::surface_gain(model.faces.back().area_m2, !model.open_top, water, air);
  for (const heat::Face& face : model.faces)
    if (face.kind != FaceKind::top || !model.open_top) sum = sum + heat::condensation_on(face, water, air);
  return sum;
}

TankHeatModel tank_heat(const records::SeasonSetup& season, std::span<const Record> records, const inference::Belief& belief, const ZoneOffsets& zone,
                        Instant now) {
  const Build build = newest_build(records);
  const bool foam = has_foam(build.body);
  const Box box = box_of(build.body, season.volume);
  const bool told = box.measured || foam || build.body.lid != TankBuild::Lid::unknown;
  std::vector<heat::Face> faces = faces_of(build.body, box);
  const auto conductance = told ? estimate_of(faces, foam) : heat::conductance_from_volume(season.volume);

  TankHeatModel model{.water = season.volume,
                      .tank = {.capacity = heat::heat_capacity(season.volume), .conductance = conductance.mid},
                      .conductance = conductance,
                      .doubt = heat::doubt_without_log,
                      .basis = box.measured ? HeatBasis::dimensions : HeatBasis::volume,
                      .faces = std::move(faces)};
  if (build.id) model.records.push_back(*build.id);
  model.open_top = build.body.lid == TankBuild::Lid::none;
  if (box.measured && std::abs(box.length_m * box.width_m * box.depth_m * 1000.0 - season.volume.l()) > 0.35 * season.volume.l())
    model.assumed.push_back({"The dimensions on record hold {0}, the season's water is {1}: one of them needs a correction (or a large filter stands beside the tank).",
                             {Volume::from_l(box.length_m * box.width_m * box.depth_m * 1000.0), season.volume}});
  if (build.body.lid == TankBuild::Lid::unknown) model.assumed.push_back({"A lid of a single sheet is taken."});
  if (told && build.body.wall == TankFace::Wall::unknown) model.assumed.push_back({"Walls of glass are taken."});
  if (build.body.light) model.tank.light = light_share * *build.body.light;
  if (build.body.light_from_hour) model.tank.light_from_hour = *build.body.light_from_hour;
  if (build.body.light_until_hour) model.tank.light_until_hour = *build.body.light_until_hour;
  if (build.body.controller_band) model.band = *build.body.controller_band;
  model.price_per_kwh = build.body.price_per_kwh;
  model.currency = build.body.currency.value_or("");
  read_chiller(model, build.body);
  read_room(model, build.body);
  model.heater_known = build.body.heater.has_value();
  if (model.heater_known) model.equipment.heater = *build.body.heater;
  else model.assumed.push_back({"Whether there is a heater is not on record (0 W says there is none); plans take one that keeps the ripening filter warm."});
  model.equipment.chiller = model.plate;
  const Estimate<Power> own = own_heat_before_log(model, build.body);
  model.tank.pump = own.mid;
  model.doubt.conductance = {conductance.low.w_per_k() / conductance.mid.w_per_k(), 1.0, conductance.high.w_per_k() / conductance.mid.w_per_k(), Support::assumed};
  if (!learn(model, build, own, records, zone, now)) model.worlds = worlds_before_log(model.conductance, model.doubt.chiller, own);
  model.calendar = records::SchoolCalendar(records);
  heed_held_water(model, records, zone, build, now);
  model.tank.conductance = model.conductance.mid;
  model.rests_on = basis_sentence(model, build.body, box, foam);

  using enum records::EquipmentEvent::Equipment;
  model.power_down = detail::is_down(records, power, now);
  model.chiller_down = model.power_down || detail::is_down(records, chiller, now);
  model.water_now = fresh(records, records::TemperatureReading::Place::tank, now);
  model.room_now = fresh(records, records::TemperatureReading::Place::room, now);
  model.set_point = belief.temperature.set_point.value_or(season.target);
  model.set_point_logged = belief.temperature.set_point.has_value();
  read_damp(model, local_day(zone, now));
  return model;
}

std::vector<heat::RoomDay> planned_rooms(const TankHeatModel& model, Date first, int days) {
  constexpr int fewest_in_break = 5;
  std::vector<heat::RoomDay> rooms;
  heat::RoomScenario level = model.room;  // the yearly wave alone
  level.night_change = level.weekend_change = TemperatureChange::from_c(0.0);
  for (int i = 0; i < days; ++i) {
    const Date day = first + std::chrono::days(i);
    const Temperature in_use = heat::room_day(level, day).front();
    if (model.calendar.is_open(day)) {
      heat::RoomDay hours = heat::steady_room(in_use);
      for (int hour = 0; hour < 24; ++hour)
        if (hour < model.room.used_from_hour || hour >= model.room.used_until_hour) hours[static_cast<std::size_t>(hour)] = in_use + model.room.night_change;
      rooms.push_back(hours);
      continue;
    }
    const auto opened = model.calendar.last_open_day_before(day);
    const int closed = opened ? model.calendar.closed_days_from(*opened + std::chrono::days(1)) : fewest_in_break;
    rooms.push_back(heat::steady_room(closed >= fewest_in_break && model.room_in_breaks ? *model.room_in_breaks : in_use + model.room.weekend_change));
  }
  return rooms;
}

namespace {

/// What was held can be held again.
void heed(const HeldWater& held, Temperature warmest_room, Temperature set_point, heat::DayAbility& day) {
  const auto warmer = std::max(TemperatureChange::from_c(0.0), warmest_room - held.room);
  const Temperature shown = held.water + held_within + held_per_room_c * warmer;
  day.coldest = std::min(day.coldest, shown);
  if (set_point >= shown && day.holding < heat::Holding::tight) day.holding = heat::Holding::tight;
}

}  // namespace

std::vector<heat::DayAbility> day_abilities(const TankHeatModel& model, Date first, int days, std::span<const Temperature> set_points) {
  const auto rooms = planned_rooms(model, first, days);
  const std::array present{model.set_point};
  // A tank at its leakiest with a chiller at its weakest is one case in four hundred, not in twenty: independent doubts add as squares, so
  // each is taken at 1/sqrt(2) of its way (in logarithms), where two alike together are exceeded once in twenty.
  const auto part_way = [](const Estimate<double>& e) {
    return Estimate<double>{std::pow(e.low, std::numbers::sqrt2 / 2.0), e.mid, std::pow(e.high, std::numbers::sqrt2 / 2.0), e.support};
  };
  const heat::HeatDoubt doubt{part_way(model.doubt.conductance), part_way(model.doubt.chiller)};
  if (set_points.empty()) set_points = present;
  require(set_points.size() == 1 || set_points.size() == rooms.size(), "day_abilities", "one set-point, or one for each day");
  std::vector<heat::DayAbility> all;
  all.reserve(rooms.size());
  heat::TankHeat tank = model.tank;
  for (std::size_t i = 0; i < rooms.size(); ++i) {
    const auto set_point = set_points.subspan(set_points.size() == 1 ? 0 : i, 1);
    if (model.basis != HeatBasis::log) tank.damp = damp_heat(model, set_point.front(), {heat::mean_of(rooms[i]), usual_humidity_fraction});
    all.push_back(heat::holdable_range(tank, model.equipment, doubt, std::span(rooms).subspan(i, 1), set_point).front());
    if (model.held) heed(*model.held, heat::warmest_of(rooms[i]), set_point.front(), all.back());
  }
  return all;
}

std::vector<PlanDay> plan_abilities(const TankHeatModel& model, Date first) {
  constexpr int longest_season_days = 420;
  if (!model.plate) return {};
  const auto rooms = planned_rooms(model, first, longest_season_days);
  const auto abilities = day_abilities(model, first, longest_season_days);
  // Nobody ripens a filter in a room colder than that without a heater: one not on record is taken to be there, and is said to be.
  const Temperature warm_anyway = Temperature::from_c(model.equipment.heater.w() > 0.0 || model.heater_known ? -273.0 : 26.0);
  std::vector<PlanDay> days;
  for (std::size_t i = 0; i < abilities.size(); ++i) {
    const Temperature room = heat::mean_of(rooms[i]);
    const double below_room_c = (room - model.set_point).c();
    const double kwh_each_c = below_room_c > 1.0 && abilities[i].duty_fraction < 1.0 ? abilities[i].electric.kwh() / below_room_c : 0.0;
    days.push_back({first + std::chrono::days(i), abilities[i].coldest, std::max(abilities[i].warmest, warm_anyway), room, kwh_each_c});
  }
  return days;
}

std::vector<Sentence> plan_cautions(const TankHeatModel& model, Date first, std::span<const Temperature> set_points) {
  std::vector<Sentence> cautions;
  if (model.chiller_down) cautions.push_back({"The chiller is logged as failed or off. The plan is for when it works again: set nothing colder before, and see to the animals first."});
  if (!model.plate || set_points.empty()) return cautions;
  const auto abilities = day_abilities(model, first, static_cast<int>(set_points.size()), set_points);
  const auto hard = [](const heat::DayAbility& day) { return day.holding <= heat::Holding::tight; };
  const auto days = std::ranges::count_if(abilities, hard);
  if (days == 0) return cautions;
  const auto begin = std::ranges::find_if(abilities, hard) - abilities.begin();
  cautions.push_back({"Cautiously reckoned the chiller runs more than {0} of the time in the warmest hour of {1} of the planned days, first on {2}: little is left for a warm spell or dust on it. "
                      "Clean it, shade and insulate the tank, or plan warmer water.",
                      {Share{heat::tight_duty}, Number{days}, first + std::chrono::days(begin)}});
  return cautions;
}

Estimate<double> over_worlds(const TankHeatModel& model, const std::function<double(const heat::HeatWorld&)>& value) {
  std::vector<double> values;
  for (const auto& world : model.worlds) values.push_back(value(world));
  std::ranges::sort(values);
  const auto at = [&](double share) { return values[place_in(values.size(), share)]; };
  return {at(0.05), at(0.5), at(0.95), model.basis == HeatBasis::log ? Support::inferred : Support::assumed};
}

HoldSpan span_over_worlds(const TankHeatModel& model, const std::function<std::optional<Hours>(const heat::HeatWorld&)>& value) {
  std::vector<std::optional<Hours>> values;
  for (const auto& world : model.worlds) values.push_back(value(world));
  std::ranges::sort(values, [](const auto& a, const auto& b) { return a && (!b || *a < *b); });
  const auto at = [&](double share) { return values[place_in(values.size(), share)]; };
  return {at(0.05), at(0.5), at(0.95)};
}

}  // namespace redd::planning
