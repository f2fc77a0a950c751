#pragma once
// What the files in kinds/ share: how long oxygen and damp eggs hold, how long ago it began, and the sentences every card needs.

#include "emergency/emergency.h"
#include "emergency/failures.h"
#include "planning/life.h"

namespace redd::emergency {

using planning::Life;

Life life_of(const Case& now);
bool has_animals(const Case& now);
std::string animals_word(const Case& now);

/// Since the first of these failures that is still open and that nobody met since (for the water: read its temperature); zero without one.
Hours since_failure(const Case& now, std::initializer_list<Equipment> which, bool water_read_counts = false);
/// The same time counted from now: what has gone by already is taken off, down to nothing.
planning::HoldSpan less(planning::HoldSpan span, Hours gone);

/// A basket without flow until its water is down to 5 mg/L; see planning/oxygen_reserve.h.
HoldTime still_basket(const Case& now);
/// The whole tank without air or flow until 7 mg/L; see there.
HoldTime still_tank(const Case& now);
/// Eggs kept damp and cold out of water; from hatch on no time at all.
/// Source  [becker1982]: over 80 % of chinook eggs lived through 12 days dewatered at 10 C; half of newly hatched alevins died of 4 h a day, nearly all
///         near emergence of 1 h a day.
HoldTime out_of_water(const Case& now);
/// A filter without flow, when there are no animals yet.
HoldTime still_filter();
/// Times of the heat view as hold times, less what has gone by since the failure; "not known" with the reason when there are none.
std::vector<HoldTime> temperature_times(const std::vector<planning::LimitTime>& times, const Case& now, const Sentence& unknown, Hours gone = Hours(0.0));

/// Oxygen of basket and tank (of the filter while there are no animals), then temperature, with everything off since the first of these failed.
std::vector<HoldTime> without_flow(const Case& now, std::initializer_list<Equipment> which);
/// The first step whenever flow stands still.
Sentence flow_first(const Case& now);
/// Eggs well before hatch bear to lie damp: the way out when no flow can be made. Nothing for others.
std::vector<Sentence> eggs_into_the_damp(const Case& now);
/// Minutes between pourings through a still basket: half of the soonest time, a round number from 5 to 120.
int pour_every_minutes(const Case& now);

Sentence pull_the_plug();        ///< the caution that goes with mains electricity near water
Sentence moving_needs_the_permit();
/// By temperature while there are animals; before them, when egg day is near.
Sentence supplier_by_temperature(const Case& now);
/// "Test ammonia (kit "Hill")": with the keeper's own kit when one has that test, else what to find out.
Sentence test_of(const Case& now, records::Quantity quantity);

/// The newest water change of the last two days; nullptr when none was logged.
const records::WaterChange* recent_change(const Case& now);

/// "likely after 5 hours, at the soonest after 2", and what to say where it is past, or may never be. In: soonest known.
Sentence time_sentence(const planning::HoldSpan& span);

}  // namespace redd::emergency
