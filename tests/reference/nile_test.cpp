// The sequential sampler against models whose answer is known: the Nile's local level (Durbin and Koopman 2012), exact and read in
// classes of 100 as a coarse kit would; expected values in data/nile.csv.
#include <cmath>

#include "inference/smc.h"
#include "numerics/normal.h"
#include "reference/table.h"

namespace redd::reference {
namespace {

using namespace inference;
using numerics::ParticleTable;

constexpr double flow[] = {1120, 1160, 963, 1210, 1160, 1160, 813, 1230, 1370, 1140, 995, 935, 1110, 994, 1020, 960, 1180, 799, 958, 1140,
                           1100, 1210, 1150, 1250, 1260, 1220, 1030, 1100, 774, 840, 874, 694, 940, 833, 701, 916, 692, 1020, 1050, 969,
                           831, 726, 456, 824, 702, 1120, 1100, 832, 764, 821, 768, 845, 864, 862, 698, 845, 744, 796, 1040, 759,
                           781, 865, 845, 944, 984, 897, 822, 1010, 771, 676, 649, 846, 812, 742, 801, 1040, 860, 874, 848, 890,
                           744, 749, 838, 1050, 918, 986, 797, 923, 975, 815, 1020, 906, 901, 1170, 912, 746, 919, 718, 714, 740};
constexpr std::size_t years = std::size(flow);
constexpr double log_two_pi = 1.8378770664093454836;

double expected(const std::string& data, const std::string& quantity, std::size_t time) {
  for (const Row& row : table("nile"))
    if (row.text("data") == data && row.text("quantity") == quantity && row.number("time") == static_cast<double>(time)) return row.number("expected");
  ADD_FAILURE() << "no row " << data << " " << quantity << " " << time;
  return NAN;
}

/// Level as a function of its first value and its yearly steps: as many unknowns as years.
struct LevelModel {
  bool binned = false;
  double first_mean = 1000.0, first_variance = 1e5;
  bool read_first = true;  ///< false: the first flow has already made the first level's mean and variance
  struct Path {
    std::vector<double> level;
    void take(std::size_t to, const Path& other, std::size_t from) { level[to] = other.level[from]; }
  };
  std::size_t dimension() const { return years; }
  std::size_t data_count() const { return years; }
  std::size_t active_dimension(std::size_t datum) const { return datum + 1; }
  Path start(const ParticleTable& unknowns) const { return {std::vector<double>(unknowns.columns(), first_mean)}; }
  double step_sd(std::size_t year) const { return std::sqrt(year == 0 ? first_variance : 1469.1); }
  void score(Path& path, const ParticleTable& unknowns, std::size_t datum, std::span<double> log_likelihood) const {
    const double sd = std::sqrt(15099.0);
    for (std::size_t i = 0; i < log_likelihood.size(); ++i) {
      path.level[i] += step_sd(datum) * unknowns(datum, i);
      if (datum == 0 && !read_first) {
        log_likelihood[i] = 0.0;
        continue;
      }
      const double low = 100.0 * std::floor(flow[datum] / 100.0), z = (flow[datum] - path.level[i]) / sd;
      log_likelihood[i] = binned ? numerics::log_normal_probability_between((low - path.level[i]) / sd, (low + 100.0 - path.level[i]) / sd)
                                 : -0.5 * (z * z + log_two_pi) - std::log(sd);
    }
  }
};

std::pair<double, double> mean_and_sd_of_level(const Smc<LevelModel>& smc) {
  std::vector<double> level;
  for (std::size_t b = 0; b < smc.block_count(); ++b) level.insert(level.end(), smc.block_path(b).level.begin(), smc.block_path(b).level.end());
  const auto w = smc.weights();
  return {numerics::weighted_mean(level, w), numerics::weighted_sd(level, w)};
}

void check_level_model(const std::string& data) {
  const LevelModel model{data == "binned"};
  Smc<LevelModel> smc(model, {.chains = 512, .chain_length = 8, .seed = 7});
  for (std::size_t year = 1; year <= years; ++year) {
    ASSERT_TRUE(smc.absorb_next());
    if (year != 1 && year != 50 && year != 100) continue;
    const auto [mean, sd] = mean_and_sd_of_level(smc);
    const double exact_sd = std::sqrt(expected(data, "filter_var", year));
    // Some two hundred independent chains and 50 years of unknown steps: a seventh of the spread, and a quarter in the spread itself.
    EXPECT_NEAR(mean, expected(data, "filter_mean", year), exact_sd / 7.0) << data << " year " << year;
    EXPECT_NEAR(sd / exact_sd, 1.0, 0.25) << data << " year " << year;
  }
  EXPECT_NEAR(smc.log_evidence(), expected(data, "log_likelihood", years), 1.0) << data;
  if (data == "binned") return;
  // All unknown steps are kept, so the levels of earlier years given all flows ("smoothed") can be read off as well.
  const auto w = smc.weights();
  std::vector<double> level(smc.particle_count(), model.first_mean);
  for (std::size_t year = 1; year <= 50; ++year) {
    const std::vector<double> step = smc.unknown(year - 1);
    for (std::size_t i = 0; i < level.size(); ++i) level[i] += model.step_sd(year - 1) * step[i];
    if (year != 1 && year != 50) continue;
    const double exact_sd = std::sqrt(expected(data, "smoothed_var", year));
    EXPECT_NEAR(numerics::weighted_mean(level, w), expected(data, "smoothed_mean", year), exact_sd / 4.0) << year;
    EXPECT_NEAR(numerics::weighted_sd(level, w) / exact_sd, 1.0, 0.25) << year;
  }
}

TEST(Nile, TheLevelFromExactFlowsIsThatOfTheKalmanFilter) { check_level_model("exact"); }
TEST(Nile, TheLikelihoodGivenTheFirstFlowIsThatOfTheKalmanFilter) {
  LevelModel model;
  model.first_mean = flow[0];
  model.first_variance = 15099.0;
  model.read_first = false;
  Smc<LevelModel> smc(model, {.chains = 512, .chain_length = 8, .seed = 7});
  ASSERT_TRUE(smc.absorb_all());
  EXPECT_NEAR(smc.log_evidence(), expected("after_first", "log_likelihood", years), 1.0);
}
TEST(Nile, TheLevelFromFlowsReadInClassesIsThatOfTheGridFilter) { check_level_model("binned"); }

/// The two variances as unknowns, the level integrated out exactly.
struct VarianceModel {
  struct Path {
    std::vector<double> mean, variance;
    void take(std::size_t to, const Path& other, std::size_t from) {
      mean[to] = other.mean[from];
      variance[to] = other.variance[from];
    }
  };
  static double log_var_eps(double z) { return 9.5 + 0.5 * z; }
  static double log_var_eta(double z) { return 7.3 + z; }
  std::size_t dimension() const { return 2; }
  std::size_t data_count() const { return years; }
  std::size_t active_dimension(std::size_t) const { return 2; }
  Path start(const ParticleTable& u) const { return {std::vector<double>(u.columns(), 1000.0), std::vector<double>(u.columns(), 1e5)}; }
  void score(Path& path, const ParticleTable& unknowns, std::size_t datum, std::span<double> log_likelihood) const {
    for (std::size_t i = 0; i < log_likelihood.size(); ++i) {
      const double noise = std::exp(log_var_eps(unknowns(0, i)));
      if (datum > 0) path.variance[i] += std::exp(log_var_eta(unknowns(1, i)));
      const double spread = path.variance[i] + noise, miss = flow[datum] - path.mean[i];
      log_likelihood[i] = -0.5 * (miss * miss / spread + std::log(spread) + log_two_pi);
      path.mean[i] += path.variance[i] / spread * miss;
      path.variance[i] *= noise / spread;
    }
  }
};

TEST(Nile, EvidenceAndPosteriorOfTheVariancesAreThoseOfTheGrid) {
  const VarianceModel model;
  Smc<VarianceModel> smc(model, {.seed = 3});
  ASSERT_TRUE(smc.absorb_all());
  const auto w = smc.weights();
  const auto check = [&](std::size_t row, double (*from)(double), const char* quantity) {
    std::vector<double> values = smc.unknown(row);
    for (double& v : values) v = from(v);
    // Three Monte-Carlo standard errors with 128 counted as independent draws, and nothing more.
    EXPECT_NEAR(numerics::weighted_mean(values, w), expected("exact", quantity, years), 3.0 * numerics::weighted_sd(values, w) / std::sqrt(128.0));
  };
  check(0, &VarianceModel::log_var_eps, "mean_log_var_eps");
  check(1, &VarianceModel::log_var_eta, "mean_log_var_eta");
  EXPECT_NEAR(smc.log_evidence(), expected("exact", "log_evidence", years), 0.2);
}

}  // namespace
}  // namespace redd::reference
