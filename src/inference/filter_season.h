#pragma once
// The log as the ripening filter saw it: records -> what was done, read and fed, day by day, and the plan from now on.
// Start at filter_case(). Pure: the same records and moment give the same season.

#include <span>
#include <vector>

#include "inference/belief.h"
#include "inference/smc_season_model.h"
#include "tank/load.h"

namespace redd::inference {

/// Surface that bacteria find on a litre of filter media.
/// Assumed: open-pored foam, some 600 m2 a cubic metre; the prior's doubt of a factor of two covers other media.
inline constexpr double media_area_m2_per_l = 0.6;

/// The share of the bacteria on the media touched that a rinse takes.
/// Assumed: a third, for a rinse in tank water; nobody has measured it in a school's tank. The share logged scales it.
inline constexpr double rinse_loss_fraction = 0.33;

/// Food a day as a share of the animals' mass where none was logged in the last week; else what was logged is taken to go on. Assumed: common practice for first feeding in cold water, no source.
inline constexpr double usual_ration_fraction = 0.02;

/// The brood by day, as it loads the water: from the forecast, or from what the plan says will come.
struct BroodCourse {
  Date received{}, begun{}, hatch{}, swim_up{};  ///< half of the batch; begun: fertilised
  double fry_mass_g = 0.15;                      ///< when they begin to feed
  double ration_fraction = usual_ration_fraction;  ///< food a day from tomorrow on, as a share of their mass
  /// In      fed_g: for all of them; nothing: `ration_fraction`. fry_g: of one, once it feeds.
  tank::Brood on(Date day, double alive, double fry_g, std::optional<double> fed_g) const;
};

/// What one fry gains in a day. Assumed: a gram of food eaten makes a gram of fry, as in starter feeds.
double grown_by_food_g(const tank::Brood& fry);

struct FilterCase {
  FilterSeason season{};          ///< forcing reaches to `until_day`
  double now_day = 0;             ///< days since season.begin, of the full hour before `now` or the last test or deed after it
  double until_day = 0;           ///< last day of the plan
  std::optional<Date> hatch{}, swim_up{};  ///< half of the batch, as expected
  std::optional<BroodCourse> brood{};      ///< nothing without animals in the tank or to come
  double alive = 0;                        ///< animals that the load of the days to come is reckoned with
  double fry_mass_now_g = 0;               ///< of one, as the load has it on the day of `now`
  std::vector<Sentence> assumed{};  ///< what the log does not say and was filled in
};

/// In      records: effective ones. belief: of the same moment.
/// Out     what is past up to `now`, then the plan: the set-point held, chilled to the target before the eggs come, doses and water changes as in
///         the last four weeks, the brood growing and fed as usual, until six weeks after swim-up (at most 180 days on, at least 42).
FilterCase filter_case(const records::SeasonSetup& season, std::span<const records::Record> records, const Belief& belief, const ZoneOffsets& zone,
                       Instant now);

}  // namespace redd::inference
