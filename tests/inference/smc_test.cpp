#include "inference/smc.h"

#include <gtest/gtest.h>

#include <cmath>
#include <memory>
#include <thread>

namespace redd::inference {
namespace {

using numerics::ParticleTable;

/// Mean of a normal value, sd 1 before, read `data` times with sd `error`: the answer is known exactly.
struct MeanModel {
  std::vector<double> data;
  double error = 0.5;
  bool poisoned = false;  ///< half of the particles give no number
  struct Path {
    std::vector<double> nothing;
    void take(std::size_t, const Path&, std::size_t) {}
  };
  std::size_t dimension() const { return 1; }
  std::size_t data_count() const { return data.size(); }
  std::size_t active_dimension(std::size_t) const { return 1; }
  Path start(const ParticleTable&) const { return {}; }
  void score(Path&, const ParticleTable& unknowns, std::size_t n, std::span<double> log_likelihood) const {
    for (std::size_t i = 0; i < log_likelihood.size(); ++i) {
      const double z = (data[n] - unknowns(0, i)) / error;
      log_likelihood[i] = poisoned && unknowns(0, i) < 0.0 ? std::nan("") : -0.5 * z * z - std::log(error) - 0.91893853320467274;
    }
  }
};

struct Exact {
  double mean, sd, log_evidence;
};
Exact exact(const MeanModel& model) {
  double precision = 1.0, mean = 0.0, log_evidence = 0.0;
  for (const double x : model.data) {
    const double variance = 1.0 / precision + model.error * model.error;
    log_evidence += -0.5 * (x - mean) * (x - mean) / variance - 0.5 * std::log(variance) - 0.91893853320467274;
    const double next = precision + 1.0 / (model.error * model.error);
    mean = (mean * precision + x / (model.error * model.error)) / next;
    precision = next;
  }
  return {mean, std::sqrt(1.0 / precision), log_evidence};
}

/// Pieces in reverse order on as many threads.
class Threads final : public numerics::Workers {
 public:
  explicit Threads(std::size_t count) : count_(count) {}
  void run(std::size_t count, Item item, void* data) override {
    std::vector<std::thread> threads;
    for (std::size_t t = 0; t < count_; ++t)
      threads.emplace_back([=, this] {
        for (std::size_t i = count; i-- > 0;)
          if (i % count_ == t) item(data, i);
      });
    for (std::thread& thread : threads) thread.join();
  }

 private:
  std::size_t count_;
};

TEST(Smc, FindsAKnownMeanItsSpreadAndTheEvidence) {
  const MeanModel model{{1.1, 0.4, 0.9, 1.6, 0.7, 1.2}};
  Smc<MeanModel> smc(model, {.seed = 11});
  ASSERT_TRUE(smc.absorb_all());
  const auto [mean, sd, log_evidence] = exact(model);
  const auto z = smc.unknown(0), w = smc.weights();
  EXPECT_NEAR(numerics::weighted_mean(z, w), mean, 3.0 * sd / std::sqrt(128.0));
  EXPECT_NEAR(numerics::weighted_sd(z, w) / sd, 1.0, 0.1);
  EXPECT_NEAR(smc.log_evidence(), log_evidence, 0.1);
}

TEST(Smc, LetsAStartlingDatumInByParts) {
  const MeanModel model{{5.0}, 0.02};  // five standard deviations out, and sharp
  Smc<MeanModel> smc(model, {.seed = 12});
  ASSERT_TRUE(smc.absorb_all());
  const auto [mean, sd, log_evidence] = exact(model);
  EXPECT_GT(smc.moves().size(), 2u);
  EXPECT_LT(smc.diagnostics().front().plain_effective_share, 0.01);
  EXPECT_GT(smc.diagnostics().front().effective_share, 0.3);
  EXPECT_NEAR(numerics::weighted_mean(smc.unknown(0), smc.weights()), mean, 3.0 * sd / std::sqrt(128.0));
  EXPECT_NEAR(smc.log_evidence(), log_evidence, 0.5);
}

TEST(Smc, GivesTheSameAnswerForAnyNumberOfThreads) {
  const MeanModel model{{1.1, 3.4, 0.9, 2.6}, 0.2};
  Threads three(3);
  Smc<MeanModel> alone(model, {.seed = 5}), together(model, {.seed = 5, .workers = &three}), other_seed(model, {.seed = 6});
  ASSERT_TRUE(alone.absorb_all() && together.absorb_all() && other_seed.absorb_all());
  EXPECT_EQ(alone.unknown(0), together.unknown(0));
  EXPECT_EQ(alone.weights(), together.weights());
  EXPECT_NE(alone.unknown(0), other_seed.unknown(0));
}

TEST(Smc, TakesALaterDatumAsIfItHadBeenThereFromTheStart) {
  const MeanModel all{{1.1, 0.4, 0.9, 1.6, 0.7}, 0.2};
  MeanModel first = all;
  first.data.resize(3);
  Smc<MeanModel> at_once(all, {.seed = 5}), in_two(first, {.seed = 5});
  ASSERT_TRUE(at_once.absorb_all() && in_two.absorb_all());
  in_two.set_model(all);
  ASSERT_TRUE(in_two.absorb_all());
  EXPECT_EQ(at_once.unknown(0), in_two.unknown(0));
  EXPECT_EQ(at_once.weights(), in_two.weights());
}

TEST(Smc, StopsWhenToldAndGoesOnToTheSameAnswer) {
  const MeanModel model{{1.1, 0.4, 5.9, 1.6, 0.7}, 0.1};
  Smc<MeanModel> whole(model, {.seed = 5});
  ASSERT_TRUE(whole.absorb_all());
  int calls = 0;
  double latest = -1.0;
  Smc<MeanModel> stopped(model, {.seed = 5, .keep_going = [&](double done) {
                                   EXPECT_GE(done, latest);
                                   latest = done;
                                   return ++calls < 4;
                                 }});
  EXPECT_FALSE(stopped.absorb_all());
  EXPECT_LT(stopped.absorbed(), 5u);
  stopped.set_keep_going({});
  ASSERT_TRUE(stopped.absorb_all());
  EXPECT_EQ(whole.unknown(0), stopped.unknown(0));
}

TEST(Smc, CountsNoNumberAsImpossible) {
  MeanModel model{{0.3, 0.4}, 0.3, true};
  Smc<MeanModel> smc(model, {.seed = 5});
  ASSERT_TRUE(smc.absorb_all());
  const auto z = smc.unknown(0), w = smc.weights();
  for (std::size_t i = 0; i < z.size(); ++i) EXPECT_TRUE(w[i] == 0.0 || z[i] >= 0.0);
  EXPECT_TRUE(std::isfinite(smc.log_evidence()));
}

TEST(Smc, SaysSoWhenNoParticleCanHaveGivenTheData) {
  MeanModel model{{std::nan("")}};
  Smc<MeanModel> smc(model, {.seed = 5});
  EXPECT_TRUE(smc.absorb_all());
  EXPECT_FALSE(std::isfinite(smc.log_evidence()));
  for (const double w : smc.weights()) EXPECT_NEAR(w, 1.0 / 2048.0, 1e-12);
}

}  // namespace
}  // namespace redd::inference
