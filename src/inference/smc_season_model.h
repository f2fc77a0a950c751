#pragma once
// The ripening tank as a model for the sequential sampler: unknown numbers -> rates, path and expected readings.
// Start at FilterSeason (what was done and read) and SeasonModel. Time is days since the season's first instant.
//
// The path is a function of the unknown numbers alone: what a process model leaves out ("process noise") is a pair of unknown factors
// on the two bacterial activities for every four weeks, so that every move of the sampler can replay the season from its first day.
// Why so: docs/decisions, inference.

#include <cstdint>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "inference/observation_model.h"
#include "numerics/weighted_samples.h"
#include "tank/ensemble.h"
#include "tank/jumps.h"
#include "tank/prior.h"

namespace redd::inference {

struct WaterChanged {
  double volume_l = 0;
  tank::SourceWater source{};
};
struct WaterAdded {
  double volume_l = 0;
  tank::SourceWater source{};
};
/// Bacteria taken away with media or washed off.
struct FilterLost {
  double lost_fraction = 0;
  double log_odds_sd = 0;  ///< doubt of it, in ln(lost / kept); the keeper's hand is the same each time, so one season errs one way
};
/// Of a rinse, of which the log tells that it was done and not what it took.
/// Assumed: a third may as well be a ninth or two thirds (90 %).
inline constexpr double rinse_log_odds_sd = 0.85;
/// Living media brought in. Its bacteria, over what the tank's whole load would feed, are unknown around `share_fraction`.
struct FilterSeeded {
  double share_fraction = 0.05;
};
struct FilterEvent {
  double at_day = 0;
  std::variant<WaterChanged, WaterAdded, tank::Dose, FilterLost, FilterSeeded> what{};
};

/// All tests made at one time.
struct FilterSitting {
  double at_day = 0;
  std::vector<SittingTest> tests{};  ///< tests of quantities the model has not are passed over
};

/// Length of one stretch of equal activity, and the spread of its logarithm.
/// Assumed: 0.07 over four weeks. Growth at 0.4 a day then wanders by 0.8 in ln(biomass) over the stretch, above the 0.2-0.4 that 0.03-0.08 a
///         root day make, because what has filled its filter or waits for ammonia no longer wanders by growing.
inline constexpr double activity_stretch_days = 28.0;
inline constexpr double activity_log_sd = 0.07;

/// What a filter has been through and what was read of it. Events and sittings in order of time; an event at the time of a sitting
/// comes after it.
struct FilterSeason {
  Instant begin{};                    ///< day 0
  double volume_l = 200;
  tank::TankState first_water{};      ///< as filled; bacteria are not taken from here but from the prior
  double media_area_m2 = 1.8;         ///< Assumed when not known: 3 L of foam at about 600 m2/m3
  tank::Forcing forcing{};            ///< from day 0 at least to the last sitting
  double activity_spread = activity_log_sd;  ///< 0 holds both activities at one, for comparison with samplers that know none
  std::vector<FilterEvent> events{};
  std::vector<FilterSitting> sittings{};
};

/// A number that is the same for equal seasons up to and with the sitting of this index (events, forcing and readings).
std::uint64_t fingerprint(const FilterSeason& season, std::size_t sitting);

/// Unknown numbers of every season, in the order of their rows: first one for each row of tank::priors, then these. Stretches of
/// activity and kits follow as the season reaches them.
enum class Unknown : std::size_t {
  ammonia_oxidisers_at_first = tank::prior_count, nitrite_oxidisers_at_first, first_alkalinity, first_nitrate, nitrite_in_nitrate_test, dose, seeding, filter_loss
};
inline constexpr std::size_t season_unknown_count = tank::prior_count + 8;
constexpr std::size_t row_of(Unknown unknown) { return static_cast<std::size_t>(unknown); }
/// Row of a parameter with a prior.
constexpr std::size_t row_of(tank::Parameter parameter) { return static_cast<std::size_t>(parameter); }

/// The columns a sitting is read from, one value a particle.
struct WaterColumns {
  std::vector<double> total_ammonia_mg_n_per_l, nitrite_mg_n_per_l, nitrate_mg_n_per_l, ph, alkalinity_meq_per_l, oxygen_mg_o2_per_l;
};

/// Of the integrator inside the sampler. On forty weeks of six tests the log-likelihood then errs by 0.03 (root mean square over draws of the
/// prior), where one reading moves it by about one.
inline constexpr tank::Tolerance quick_tolerance{.relative = 3e-3, .join_days = true, .floor_factor = 50.0, .single_precision = true};

class SeasonModel {
 public:
  /// Particles between two sittings.
  struct Path {
    tank::Ensemble ensemble;
    double at_day = 0;
    std::size_t next_event = 0;
    void take(std::size_t to, const Path& other, std::size_t from) { ensemble.copy_particle(to, other.ensemble, from); }
    Path kept(std::span<const std::uint32_t> particles) const {
      Path path = *this;
      path.ensemble.select(particles);
      return path;
    }
  };
  static constexpr bool never_above_zero = true;  ///< a reading's probability is at most one

  explicit SeasonModel(FilterSeason season, tank::Tolerance tolerance = quick_tolerance);

  std::size_t dimension() const { return dimension_; }
  std::size_t data_count() const { return season_.sittings.size(); }
  std::size_t active_dimension(std::size_t sitting) const { return active_[sitting]; }
  Path start(const numerics::ParticleTable& unknowns) const;
  void score(Path& path, const numerics::ParticleTable& unknowns, std::size_t sitting, std::span<double> log_likelihood) const;

  /// How sharply all data up to `sitting`, that one counted `part`, would tell these unknown numbers from their neighbours: the expected
  /// information (Fisher), from differences of the readings' places along each of the first active_dimension() unknowns.
  ///
  /// In      centre: one column.
  numerics::SquareMatrix information(const numerics::ParticleTable& centre, std::size_t sitting, double part) const;

  /// Moves the path to a day, through all events up to it (and at it, when `through_events_at_end`).
  void go_to(Path& path, const numerics::ParticleTable& unknowns, double day, bool through_events_at_end) const;
  WaterColumns columns(const Path& path) const;
  /// Places on the test's card (observation_model.h), the kit's own lasting error included; of an unknown kit the prior's middle.
  std::vector<double> places(const SittingTest& test, const WaterColumns& columns, const numerics::ParticleTable& unknowns) const;
  /// Row of the lasting error of this kit's test, or dimension() when it was never used.
  std::size_t bias_row(const std::string& kit, const std::string& test) const;

  const FilterSeason& season() const { return season_; }
  /// First row of the activity of the stretch that holds this day; two rows, ammonia then nitrite oxidisers; dimension() when not reached.
  std::size_t activity_row(double day) const;

 private:
  void lay_out_rows();
  void happen(Path& path, const numerics::ParticleTable& unknowns, const FilterEvent& event) const;
  void set_activity(Path& path, const numerics::ParticleTable& unknowns, double day) const;

  struct KitRow {
    std::string kit, test;
    std::size_t row;
  };
  FilterSeason season_;
  tank::Tolerance tolerance_;
  std::size_t dimension_ = 0;
  std::vector<std::size_t> active_;         // by sitting
  std::vector<std::size_t> activity_rows_;  // by stretch
  std::vector<KitRow> kit_rows_;
};

}  // namespace redd::inference
