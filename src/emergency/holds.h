#pragma once
// What the files in kinds/ share: who is in the tank, how long oxygen and damp eggs hold, and the sentences every card needs.

#include "emergency/emergency.h"
#include "tank/load.h"

namespace redd::emergency {

/// Volume of water in a still egg basket. Assumed: a litre; no basket is on record.
inline constexpr double basket_l = 1.0;
/// Oxygen below which eggs and alevins suffer, and fish begin to. Assumed: common practice, no source; published limits are in docs/science/water.md.
inline constexpr double basket_limit_mg_per_l = 5.0, tank_limit_mg_per_l = 7.0;

bool has_animals(const Case& now);
bool are_eggs(const Case& now);
/// "eggs", "alevins", "fry"; of the eggs to come while there are none.
std::string animals_word(const Case& now);
/// Animals still alive by the log; the eggs expected when none are in; 200 when nobody said.
int animals_count(const Case& now);
/// The batch as the model of oxygen takes it, at its hungriest stage of what may be in the tank.
tank::Brood brood_of(const Case& now);

/// A basket without flow until its water is down to 5 mg/L.
/// Source  oxygen used by the batch (tank/load.h) from saturated water [benson1984]. Soonest at 2.5 times that: stress, moulds and bacteria
///         (common practice, no source: 2-3 times); latest at half: eggs far from hatch, a little flow by warmth.
HoldTime still_basket(const Case& now);
/// The whole tank without air or flow until 7 mg/L, by what animals breathe, surface left out.
HoldTime still_tank(const Case& now);
/// Eggs kept damp and cold out of water; alevins and fry: no time at all.
/// Source  [becker1982], handling limits h11-h13: over 80 % of chinook eggs lived through 12 days dewatered at 10 C; half of newly hatched
///         alevins died of 4 h a day, nearly all near emergence of 1 h a day.
HoldTime out_of_water(const Case& now);
/// Times of the heat view as hold times; "not known" with the reason when there are none.
std::vector<HoldTime> temperature_times(const std::vector<planning::LimitTime>& times, const Case& now, const Sentence& unknown);

/// Eggs and alevins; fry swim in the tank.
bool in_basket(const Case& now);
/// Oxygen of basket and tank, then temperature, with everything off.
std::vector<HoldTime> without_flow(const Case& now);
/// The first step whenever flow stands still.
Sentence flow_first(const Case& now);
/// Minutes between pourings through a still basket: half of the soonest time, a round number from 10 to 120.
int pour_every_minutes(const Case& now);

Sentence pull_the_plug();        ///< the caution that goes with mains electricity near water
Sentence supplier_by_temperature(const Case& now);
/// "Test ammonia (kit "Hill")": with the keeper's own kit when one has that test, else what to find out.
Sentence test_of(const Case& now, records::Quantity quantity);

}  // namespace redd::emergency
