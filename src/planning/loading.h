#pragma once
// How many eggs or fry this tank can carry on each day of the season to come: by the oxygen its air brings in, by the ammonia its filter turns over, by
// the room in it; which of these binds first, and what could be done. Start at loading_view().

#include <array>
#include <optional>
#include <span>
#include <vector>

#include "biology/stages.h"
#include "planning/animal_load.h"
#include "planning/filter_outlook.h"
#include "planning/oxygen_budget.h"
#include "planning/oxygen_reserve.h"
#include "planning/stocking.h"

namespace redd::planning {

enum class LoadLimit { oxygen, ammonia, space };
inline constexpr std::array all_load_limits{LoadLimit::oxygen, LoadLimit::ammonia, LoadLimit::space};

/// What is known of the air: written down, told by an oxygen reading, or the poorest that may be there.
enum class AirBasis { on_record, read, assumed };

/// Number of animals a limit lets the tank carry, and the chance that the expected number is more.
struct Carried {
  Estimate<double> animals{};
  double over_probability = 0.0;
};

/// One day, or one size of animal.
struct LoadRow {
  std::optional<Date> day{};
  biology::LifeStage stage = biology::LifeStage::fry;
  Temperature water = Temperature::from_c(10);
  int animals = 0;                                   ///< expected; none of a size
  Estimate<double> each_g{};                         ///< wet mass of one
  AnimalLoad one{};                                  ///< load of one animal
  OxygenConc saturation = OxygenConc::from_mg_o2_per_l(0), oxygen_limit = OxygenConc::from_mg_o2_per_l(0);
  Estimate<OxygenConc> oxygen{saturation, saturation, saturation};  ///< where the water settles with the animals expected
  std::array<std::optional<Carried>, 3> carried{};   ///< by LoadLimit; nothing where it says nothing (room of a basket nobody measured)
  std::optional<SpaceRule> space_rule{};
  LoadLimit binding = LoadLimit::oxygen;             ///< the one that lets carry least; ammonia only while the filter is known

  const std::optional<Carried>& by(LoadLimit limit) const { return carried[static_cast<std::size_t>(limit)]; }
  const Carried& least() const { return *by(binding); }
};

enum class LoadOptionKind { early_release, fewer_eggs, larger_filter, ripen_filter, more_air, feed_less, colder_water, measure_oxygen, describe_air };
struct LoadOption {
  LoadOptionKind kind = LoadOptionKind::fewer_eggs;
  Sentence what{};
};

/// The first day on which more animals are expected than a limit probably lets carry (one chance in two).
struct LoadReached {
  Date day{};
  LoadLimit limit = LoadLimit::oxygen;
  int carried = 0, expected = 0;                     ///< on that day
  Date worst_day{};                                  ///< of the days from then on, the one that lets carry least by that limit
  int carried_then = 0;
  std::vector<LoadOption> options{};                 ///< what could be done before it, gladly done ones first
};

/// Rounded down to what is known of it and what anybody orders by: fives above twenty, tens above a hundred.
int round_animals(double animals);

/// Hours until oxygen is short once pump and air stop.
struct OxygenHold {
  Sentence what{};
  OxygenConc limit = OxygenConc::from_mg_o2_per_l(0);
  std::optional<HoldSpan> span{};  ///< nothing: beyond longest_told, not before something else decides
};

struct LoadingView {
  enum class State { nothing_planned, to_come, in_tank, released };
  State state = State::nothing_planned;
  int animals = 0;
  bool animals_assumed = false;                      ///< nobody said how many
  std::vector<LoadRow> days{};                       ///< a day each, from today or egg day
  std::vector<LoadRow> sizes{};                      ///< by size at the season's target, whatever is planned
  std::array<std::optional<LoadReached>, 3> reached_by{};  ///< by LoadLimit; ammonia only while the filter is known
  std::optional<LoadReached> reached{};              ///< of the limits that bind, the first
  std::optional<LoadReached> by_changes_alone{};     ///< while it is not: when ammonia would be too much if the filter did nothing
  std::optional<Date> first_possible{};              ///< from here on one chance in five at least that a binding limit is passed
  std::optional<Date> release_from{}, release_until{};  ///< the permit's window, when it is on record

  AirSupply air{};
  AirBasis air_basis = AirBasis::assumed;
  Estimate<double> transfer_l_per_h{};               ///< at today's temperature
  std::vector<records::RecordId> oxygen_records{};   ///< the reading the transfer was learnt from
  bool filter_known = false;                         ///< false: ammonia is reckoned by water changes alone, as if the filter did nothing
  bool filter_doubted = false;                       ///< the outlook itself is in doubt
  bool filter_lost = false;                          ///< there is an outlook, and it has lost track of the tank
  Estimate<double> filter_mg_n_per_day{};            ///< what the filter of today would turn over at the target within the limit
  double changed_fraction_per_week = 0.0;
  Estimate<double> total_ammonia_limit_mg_n_per_l{}; ///< total that holds the un-ionized limit, at the target and the tank's pH
  std::vector<OxygenHold> reserve{};                 ///< see oxygen_holds(); empty until asked for
  std::vector<Sentence> assumed{};

  const LoadRow* today() const { return days.empty() || state != State::in_tank ? nullptr : &days.front(); }
};

struct LoadingCase {
  const records::SeasonSetup& season;
  std::span<const records::Record> records;          ///< effective
  const inference::Belief& belief;
  const FilterOutlook* filter = nullptr;             ///< of the same moment
  const ZoneOffsets& zone;
  Instant now{};
};

/// Oxygen that animals of a stage should have while the pump runs: 8 mg/L before swim-up ([epa_oxygen1986], from memory), 7 after (common practice, no
/// source); where water in balance with air hardly holds that, nine tenths of what it holds (assumed).
OxygenConc planned_oxygen(biology::LifeStage stage, OxygenConc saturation);

/// Out     always an answer. Nobody is taken to die or go from now on: the load is never told too small for that. More animals, heavier or warmer ones never
///         load less.
/// Shape   some milliseconds; up to ten more while eggs are still to come, for their dates.
LoadingView loading_view(const LoadingCase& now);

/// Hours of the basket and of the tank at each limit of the stage. Empty without animals.
std::vector<OxygenHold> oxygen_holds(const ReserveCase& now);

}  // namespace redd::planning
