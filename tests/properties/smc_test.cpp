// Laws of the sequential sampler: simulation-based calibration (Talts and others 2018), on a cheap model in full and on the tank in
// little. The seeds are fixed, so that a pass stays a pass; bench/calibration_bench.cpp does the tank in full.
#include "inference/smc.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "inference/ripening_season.h"
#include "numerics/normal.h"

namespace redd::inference {
namespace {

using numerics::ParticleTable;
using numerics::RandomStream;

/// A crowd that grows to a limit, looked at weekly on a card of steps 0, 1, 2, …: start, growth and limit unknown.
struct CrowdModel {
  std::vector<int> steps;
  static constexpr bool never_above_zero = true;
  struct Path {
    std::vector<double> crowd;
    void take(std::size_t to, const Path& other, std::size_t from) { crowd[to] = other.crowd[from]; }
    Path kept(std::span<const std::uint32_t> particles) const {
      Path path;
      for (const std::uint32_t p : particles) path.crowd.push_back(crowd[p]);
      return path;
    }
  };
  std::size_t dimension() const { return 3; }
  std::size_t data_count() const { return steps.size(); }
  std::size_t active_dimension(std::size_t) const { return 3; }
  Path start(const ParticleTable& z) const {
    Path path;
    for (std::size_t i = 0; i < z.columns(); ++i) path.crowd.push_back(0.05 * std::exp(z(0, i)));
    return path;
  }
  static double next(double crowd, double z_growth, double z_limit) {
    const double factor = std::exp(std::exp(-0.2 + 0.4 * z_growth)), limit = 6.0 * std::exp(0.4 * z_limit);
    return limit * crowd * factor / (limit + crowd * (factor - 1.0));
  }
  static double probability(double crowd, int step) {
    const double low = step == 0 ? -1e9 : step - 0.5, high = step == 10 ? 1e9 : step + 0.5;
    return numerics::normal_probability_between((low - crowd) / 0.5, (high - crowd) / 0.5);
  }
  void score(Path& path, const ParticleTable& z, std::size_t n, std::span<double> log_likelihood) const {
    for (std::size_t i = 0; i < log_likelihood.size(); ++i) {
      path.crowd[i] = next(path.crowd[i], z(1, i), z(2, i));
      log_likelihood[i] = std::log(0.002 + 0.978 * probability(path.crowd[i], steps[n]));  // one of eleven steps by mistake, 2.2 %
    }
  }
};

double chi_square(const std::vector<double>& fractions, std::size_t bins) {
  std::vector<double> count(bins, 0.0);
  for (const double f : fractions) ++count[std::min(bins - 1, static_cast<std::size_t>(f * static_cast<double>(bins)))];
  const double expected = static_cast<double>(fractions.size()) / static_cast<double>(bins);
  double sum = 0.0;
  for (const double c : count) sum += (c - expected) * (c - expected) / expected;
  return sum;
}

/// Rank of the truth among draws by weight, as a fraction with chance between its neighbours.
double rank_of(double truth, const std::vector<double>& values, const std::vector<double>& weights, RandomStream& stream) {
  constexpr std::size_t count = 49;
  const auto kept = numerics::systematic_resample(weights, stream.uniform(), count);
  double below = 0.0;
  for (const std::size_t i : kept) below += values[i] < truth ? 1.0 : 0.0;
  return (below + stream.uniform()) / (count + 1.0);
}

TEST(Calibration, OfTheSamplerOnACheapModelIsEven) {
  constexpr std::size_t runs = 200;
  std::array<std::vector<double>, 3> ranks;
  for (std::uint32_t run = 0; run < runs; ++run) {
    RandomStream stream(17, 1, run);
    ParticleTable truth(3, 1);
    for (std::size_t row = 0; row < 3; ++row) truth(row, 0) = stream.normal();
    CrowdModel model;
    double crowd = 0.05 * std::exp(truth(0, 0));
    for (int week = 0; week < 8; ++week) {
      crowd = CrowdModel::next(crowd, truth(1, 0), truth(2, 0));
      const double eye = crowd + 0.5 * stream.normal();
      int step = static_cast<int>(std::clamp(std::floor(eye + 0.5), 0.0, 10.0));
      if (stream.uniform() < 0.022) step = static_cast<int>(stream.index_below(11));
      model.steps.push_back(step);
    }
    Smc<CrowdModel> smc(model, {.chains = 64, .chain_length = 6, .block = 32, .full_cost_data = 4, .seed = run});
    ASSERT_TRUE(smc.absorb_all());
    const auto w = smc.weights();
    for (std::size_t row = 0; row < 3; ++row) ranks[row].push_back(rank_of(truth(row, 0), smc.unknown(row), w, stream));
  }
  // Chi-square of ten classes, nine degrees of freedom: 27.9 is passed once in a thousand (standard table, from memory).
  for (const auto& of_row : ranks) EXPECT_LT(chi_square(of_row, 10), 27.9);
}

TEST(Calibration, OfTheTankIsNotAwry) {
  constexpr std::uint64_t runs = 20;
  const std::array rows{row_of(tank::Parameter::ammonia_oxidiser_growth), row_of(Unknown::ammonia_oxidisers_at_first), row_of(Unknown::first_alkalinity)};
  std::vector<double> ranks;
  for (std::uint64_t run = 1; run <= runs; ++run) {
    testing::SeasonShape shape;
    shape.weeks = 3;
    const FilterSeason bare = testing::bare_season(shape);
    const SeasonModel model(bare);
    const ParticleTable truth = testing::true_unknowns(model, run);
    const auto posterior = FilterPosterior::of(testing::with_readings(bare, truth, run), {.chains = 64, .chain_length = 6, .block = 32, .full_cost_data = 8, .seed = run});
    RandomStream stream(18, 1, static_cast<std::uint32_t>(run));
    for (const std::size_t row : rows) ranks.push_back(rank_of(truth(row, 0), posterior.sampler().unknown(row), posterior.sampler().weights(), stream));
  }
  EXPECT_LT(chi_square(ranks, 6), 20.5);  // five degrees of freedom, once in a thousand
}

/// The same model without the promise that its log-likelihoods stay below zero.
struct Patient : CrowdModel {
  static constexpr bool never_above_zero = false;
};

TEST(EarlyRejection, ChangesNoAnswer) {
  static_assert(EarlyRejecting<CrowdModel> && !EarlyRejecting<Patient>);
  Patient patient;
  patient.steps = {0, 0, 1, 2, 4, 5, 6, 5};
  CrowdModel quick;
  quick.steps = patient.steps;
  Smc<CrowdModel> a(quick, {.chains = 64, .block = 32, .seed = 4});
  Smc<Patient> b(patient, {.chains = 64, .block = 32, .seed = 4});
  ASSERT_TRUE(a.absorb_all() && b.absorb_all());
  EXPECT_EQ(a.unknown(1), b.unknown(1));
  EXPECT_EQ(a.weights(), b.weights());
}

}  // namespace
}  // namespace redd::inference
