#include "season/what_if_look.h"

#include <algorithm>

#include "season/day_looks.h"

namespace redd::season {
namespace {

using planning::WaterTanks;

bool tested_lately(const inference::Belief& belief) {
  for (const auto quantity : {inference::Quantity::total_ammonia, inference::Quantity::ph, inference::Quantity::nitrite})
    if (const auto* read = belief.find(quantity); !read || inference::is_stale(*read)) return false;
  return true;
}

bool readings_in_doubt(const inference::Belief& belief) {
  return std::ranges::any_of(belief.water, [](const auto& known) { return known.second.doubt || known.second.disagree; });
}

void say(WhatIfLook& look, const planning::WaterCase& water, const planning::TankHeatModel& heat, const planning::LoadingView& loading) {
  const Number tanks{static_cast<long long>(look.base.tanks.size())};
  look.rests_on = look.base.tanks.basis == WaterTanks::Basis::posterior
                      ? Sentence{"{0} tanks drawn from the filter's posterior, held to the latest readings, with the same chance for every place of the sliders.", {tanks}}
                      : Sentence{"{0} tanks drawn from published ranges and told by the last three sittings only, with the same chance for every place of the sliders: wider than the filter's outlook.", {tanks}};
  if (look.filter_working) look.cautions.push_back({"The filter's outlook is still being worked out: this answer rests on published ranges, and its bands are wide. A better one may follow."});
  const bool untested = !tested_lately(look.day.belief), in_doubt = readings_in_doubt(look.day.belief);
  look.doubted = untested || in_doubt;
  if (untested) look.cautions.push_back({"Ammonia, pH or nitrite was not tested lately: test first, all this may change."});
  if (in_doubt) look.cautions.push_back({"Readings are in doubt or contradict each other: today's list says which. Repeat them first."});
  if (heat.chiller_down) look.cautions.push_back({"The chiller is logged as failed or off. This asks what would be once it works again: see to the animals first."});
  if (!heat.plate) look.cautions.push_back({"The chiller's cooling power is not on record, so nobody can say what a warmer room does: the water is taken as planned. Describe tank and chiller."});
  look.assumed.push_back(heat.rests_on);
  const auto add = [&](const std::vector<Sentence>& all) { look.assumed.insert(look.assumed.end(), all.begin(), all.end()); };
  add(heat.assumed);
  add(water.tanks.assumed);
  add(water.source.unknown);
  add(loading.assumed);
  look.assumed.push_back({"The limits of each stage stand on the days as planned, also where a slider moves hatch and first feeding."});
  look.assumed.push_back({"The room is that much warmer or colder on every day and at every hour; within a day its mean counts."});
  look.assumed.push_back({"More animals are as old and as heavy as these, and fed alike; none dies and none goes. The filter gets no new media and grows as it does."});
  look.assumed.push_back({"New water is dechlorinated, has stood a day with an air stone, and is within a degree of the tank."});
}

}  // namespace

Result<WhatIfLook> look_at_what_if(const Setup& setup, std::span<const records::Record> log, Instant now, const planning::FilterOutlook* filter, bool filter_working) {
  auto believed = doubted_day(setup, log, now, filter);
  if (!believed) return believed.problems();
  DayView day = std::move(believed).value();
  const auto filter_now = inference::filter_case(day.season, day.records, day.belief, day.zone, now);
  const planning::TankDraws draws{planning::what_if_tanks, static_cast<std::uint64_t>(day.season.seed.value_or(1))};
  const planning::WaterCase water = planning::water_case({day.season, day.records, day.belief, filter_now, filter, day.zone, now}, &draws);
  const auto heat = planning::tank_heat(day.season, day.records, day.belief, day.zone, now);
  const auto loading = planning::loading_view({day.season, day.records, day.belief, filter, day.zone, now});
  auto base = planning::what_if_base(water, heat, loading);
  if (!base) return base.problems();
  WhatIfLook look{.base = std::move(base).value()};
  look.filter_working = filter_working && !filter;
  look.usual_change_assumed = !day.season.usual_change_fraction;
  look.day = std::move(day);
  say(look, water, heat, loading);
  return look;
}

}  // namespace redd::season
