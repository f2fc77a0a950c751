#pragma once
// A case for the emergencies with animals, numbers, water and forecast of a test's choosing.

#include "emergency/emergency.h"
#include "emergency/holds.h"
#include "support/small_season.h"

namespace redd::testing {

/// Its parts live as long as it does.
struct MadeCase {
  SeasonSetup season{};
  inference::Belief belief{};
  std::vector<Record> records{};
  planning::HeatView heat;
  Instant now = on_day(1, 12);
  emergency::Case at() const { return {season, records, belief, heat, now}; }
};

/// What must be in the log for a tank whose warming and cooling are known.
inline TankBuild described_tank(double room_c = 21) {
  TankBuild build;
  build.length_cm = 100, build.width_cm = 50, build.water_height_cm = 40;
  build.wall = TankFace::Wall::glass;
  build.lid = TankBuild::Lid::sheet;
  build.pump = Power::from_w(15);
  build.chiller_cooling = Power::from_w(400);
  build.heater = Power::from_w(100);
  build.room_day = Temperature::from_c(room_c);
  return build;
}

/// In      days_to_next: until the first tenth may hatch (eggs) or swim up (alevins) and for fry since they swam up; without it nobody knows the dates.
inline MadeCase made_case(inference::Animals animals, int count, double water_c, double litres = 200, std::optional<double> days_to_next = {}, double room_c = 21) {
  SmallSeason small;
  small.add(0, described_tank(room_c), 2);
  auto seen = season::look_at_heat({}, small.log(), on_day(1, 12), {.target = Temperature::from_c(water_c)});
  MadeCase made{.heat = std::move(seen).value().view};
  made.records = small.log();
  made.season = std::get<SeasonSetup>(small.log().front().entry.body);
  made.season.volume = Volume::from_l(litres);
  made.heat.water = Temperature::from_c(water_c);
  made.belief.brood.animals = made.belief.brood.most_sensitive = animals;
  made.belief.brood.received_count = count;
  made.belief.brood.species = *biology::find_species("brook_trout");
  if (days_to_next) {
    biology::DevelopmentForecast forecast;
    forecast.today = local_day({}, made.now);
    for (auto& stage : forecast.stages) {
      const auto at = biology::noon_of(forecast.today) + Days(*days_to_next);
      stage.lot = stage.first_tenth = stage.last_tenth = {at, at, at, at, at};
    }
    forecast.batch_fraction[static_cast<std::size_t>(animals == inference::Animals::alevin ? 2 : animals == inference::Animals::fry ? 3 : 1)] = 1.0;
    made.belief.brood.forecast = forecast;
  }
  return made;
}

/// One for each life, in the order of emergency::all_lives.
inline std::vector<MadeCase> cases_of_all_lives(int count = 200, double water_c = 8) {
  using inference::Animals;
  std::vector<MadeCase> all;
  all.push_back(made_case(Animals::none, 0, water_c));
  all.push_back(made_case(Animals::eyed_egg, count, water_c, 200, 20.0));
  all.push_back(made_case(Animals::eyed_egg, count, water_c, 200, 2.0));
  all.push_back(made_case(Animals::alevin, count, water_c, 200, 20.0));
  all.push_back(made_case(Animals::alevin, count, water_c, 200, 5.0));
  all.push_back(made_case(Animals::fry, count, water_c, 200, -10.0));
  return all;
}

}  // namespace redd::testing
