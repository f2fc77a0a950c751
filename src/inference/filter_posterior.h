#pragma once
// What all readings of a season together say of the ripening filter. Start at FilterPosterior::of(); when a reading
// arrives, updated() does only the new work and gives the same answer to the last digit.

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "inference/smc.h"
#include "inference/smc_season_model.h"
#include "quantities/estimate.h"
#include "quantities/sentence.h"

namespace redd::inference {

/// Beyond this two-sided probability a reading is called surprising: one sound reading in fifty is.
/// Assumed: a season holds some 150 readings, so that about three alarms are false; each costs one repeated test.
inline constexpr double surprising_probability = 0.02;

/// One reading against what the readings before it led to expect.
struct ReadingCheck {
  std::size_t sitting = 0;
  double at_day = 0;
  records::Quantity quantity = records::Quantity::ph;
  std::string kit{}, test{};
  records::RecordId record = 0;
  Expectation before{};   ///< from all earlier sittings
  Expectation after{};    ///< with its own sitting taken in: still improbable = at odds with the other readings
  bool surprising = false;
  bool irreconcilable = false;
};

/// The lasting error of one kit's test.
struct KitCheck {
  std::string kit{}, test{};
  records::Quantity quantity = records::Quantity::ph;
  Estimate<double> error{0, 0, 0};  ///< reads this many times the truth; for pH this much above it
  std::size_t readings = 0;
  double mean_shift_sd = 0;         ///< mean of the readings' normal scores times the root of their number: beyond 3 is too much for chance
  bool suspect = false;
};

enum class FilterDoubt { surprising_reading, readings_disagree, suspect_kit, few_particles, stopped_early, no_readings };
struct DoubtedThing {
  FilterDoubt what = FilterDoubt::no_readings;
  Sentence sentence{};
  std::vector<records::RecordId> records{};
  std::optional<records::Quantity> kit_quantity{};  ///< of a kit that is off
  double kit_error = 0;                             ///< it reads this many times the truth; for pH this much above it
  std::string kit{}, test{};
};

class FilterPosterior {
 public:
  /// Out     a posterior at the last sitting (or at day 0, then it is the prior).
  /// Errors  none. Stopped by smc.keep_going: complete() is false, and the answer is that of the sittings absorbed so far.
  /// Shape   about 1.5 MB a thousand particles.
  static FilterPosterior of(FilterSeason season, SmcSettings smc, tank::Tolerance tolerance = quick_tolerance);
  /// As of(season, …), taking over what was worked out before as far as nothing in it has changed.
  FilterPosterior updated(FilterSeason season) const;

  bool complete() const { return sampler().absorbed() == model_->data_count(); }
  const SeasonModel& model() const { return *model_; }
  const Smc<SeasonModel>& sampler() const { return *states_.back().sampler; }
  /// Day up to which readings were taken in; 0 when none.
  double at_day() const;
  const std::vector<ReadingCheck>& checks() const { return checks_; }
  std::vector<KitCheck> kit_checks() const;
  /// What to doubt, most important first; the readings of the last fortnight, and kits.
  std::vector<DoubtedThing> doubts() const;

  /// One particle's unknown numbers and its tank at at_day(), equally weighted: `count` drawn evenly by weight.
  struct Draws {
    numerics::ParticleTable unknowns;
    SeasonModel::Path path;
  };
  Draws draws(std::size_t count) const;
  /// 90 % interval of a state now (mg N/L and so on).
  Estimate<double> estimate_of(tank::Quantity quantity) const;

 private:
  struct State {
    std::uint64_t fingerprint = 0;  ///< of the season up to the sittings absorbed
    std::shared_ptr<const Smc<SeasonModel>> sampler;
  };
  void absorb_rest();
  void check_sitting(const Smc<SeasonModel>& sampler, std::size_t sitting, bool after);

  std::shared_ptr<const SeasonModel> model_;
  tank::Tolerance tolerance_;
  std::vector<State> states_;  ///< rising numbers of sittings; the last is the answer
  std::vector<ReadingCheck> checks_;
};

}  // namespace redd::inference
