#pragma once
// How likely readings on the keeper's own kits are, for many possible tanks at once. Start at SittingTest and add_log_likelihood().
//
// A value is first put on the card: "place" 0 is the first printed step, 1 the second, straight in between and beyond (for drop
// counts the place is the number of drops). The eye errs by about half a place; a reading names a stretch of places. Places and not
// logarithms, because a maker spaces the colours so that they can be told apart, because the lowest step is often zero, and because the
// reading by itself is believed in the same way (card_reading.h), so that the two can be compared.

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "records/reading.h"
#include "records/record.h"

namespace redd::inference {

/// Of the half step by which a reading errs, the part all teams share because they share the vial, the water and the bottle, and the
/// part of each pair of eyes; squares add to reader_error_steps squared.
/// Assumed: 0.3 and 0.4; no source divides the error. Two teams that agree then count for more than one and less than two.
inline constexpr double vial_error_steps = 0.3;
inline constexpr double eye_error_steps = 0.4;

/// Standard deviation of a test's own lasting error (old bottle, printed colours, timing), one factor a test and season.
/// Assumed: 0.25 of the logarithm for colours, wide enough for most of the disagreement of published comparisons (a visual nitrate kit
///         read twofold low in Loperfido and others 2010, others read high in Ali and others 2019); 0.2 pH; 0.05 for drop counts, whose drop is the unit.
inline constexpr double colour_bias_log_sd = 0.25;
inline constexpr double ph_bias_sd = 0.2;
inline constexpr double drop_bias_log_sd = 0.05;

/// All readings on one test at one sitting: one, or one a team.
struct SittingTest {
  records::KitTest test{};
  std::string kit{};
  std::vector<records::Reading> readings{};
  std::vector<records::RecordId> records{};
};

/// Standard deviation of the lasting error of this test; of a logarithm, but of a pH unit for pH.
double bias_sd(const records::KitTest& test);

/// What the test sees where the water holds `canonical`, with its own lasting error; never below zero.
///
/// In      bias: in the terms of bias_sd().
/// Shape   spans of one length, one value a particle; `seen` may be `canonical`.
void seen_values(const records::KitTest& test, std::span<const double> canonical, std::span<const double> bias, std::span<double> seen);

/// Place of each value on the card (steps, or drops, or the meter's own unit).
void places_on_card(const records::KitTest& test, std::span<const double> seen, std::span<double> places);

/// Adds, for each particle, the logarithm of the probability of all the readings; each at most 0.
///
/// In      places: as places_on_card() gives them, one a particle.
/// Out     never below log(misread_probability / 30) a reading: any reading may be a slip.
/// Errors  a reading that does not fit its test adds nothing.
/// Shape   vectorised over particles; allocates one row of scratch.
void add_log_likelihood(const SittingTest& sitting, std::span<const double> places, std::span<double> log_likelihood);

/// Fisher information on its place that all readings of the sitting's test carry, each particle's place taken as true: how sharply they
/// would tell that place from its neighbours. About 3 in the middle of a card, nothing far beyond its ends.
///
/// Out     slips left out; readings that fit no test tell nothing.
/// Shape   one value a particle.
void reading_information(const SittingTest& sitting, std::span<const double> places, std::span<double> information);

/// Where a reading stands in what was expected of it.
struct Expectation {
  double below = 0.5;      ///< probability that the reading would have been lower, half of its own class included (mid-rank)
  double surprise = 1.0;   ///< two-sided tail probability: 0.02 = one reading in fifty would have been so far out
  double own_class = 1.0;  ///< probability of just this class
};
/// In      weights: of the particles, sum one.  Errors  nothing when the reading does not fit its test.
std::optional<Expectation> expectation(const records::KitTest& test, const records::Reading& reading, std::span<const double> places,
                                       std::span<const double> weights);

/// One possible reading and how probable it is.
struct PossibleReading {
  records::Reading reading;
  double probability = 0;
};
/// The readings the keeper's own card could give next, most of them improbable: every step of a colour card, or the drop counts
/// with a probability of at least 0.1 %. Empty for a meter. Slips left out.
std::vector<PossibleReading> possible_readings(const records::KitTest& test, std::span<const double> places, std::span<const double> weights);

/// A reading as a person would make it of this place, for simulation: the class the erring eye falls into.
/// In      error: of the eye and the vial, in steps.
records::Reading reading_at(const records::KitTest& test, double place, double error);

}  // namespace redd::inference
