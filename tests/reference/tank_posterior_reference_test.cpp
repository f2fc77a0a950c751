// The posterior of a ripening tank against a second statement of the model, outside this project's library (tools/reference: lsoda of the R
// package deSolve). Values: data/tank_posterior.
#include "support/reference_season.h"

namespace redd::reference {
namespace {

using namespace inference;

/// The draws of a table, one column each.
numerics::ParticleTable unknowns_of(const SeasonModel& model, const std::vector<Row>& rows) {
  numerics::ParticleTable unknowns(model.dimension(), rows.size());
  for (std::size_t i = 0; i < rows.size(); ++i)
    for (const auto& [name, row] : tests::reference_unknowns(model)) unknowns(row, i) = rows[i].number(name);
  return unknowns;
}

/// Log-likelihood of the whole season; the path is left at the last sitting.
std::vector<double> log_likelihoods(const SeasonModel& model, const numerics::ParticleTable& unknowns, SeasonModel::Path& path) {
  std::vector<double> sum(unknowns.columns()), one(unknowns.columns());
  for (std::size_t sitting = 0; sitting < model.data_count(); ++sitting) {
    model.score(path, unknowns, sitting, one);
    for (std::size_t i = 0; i < sum.size(); ++i) sum[i] += one[i];
  }
  return sum;
}

// Both solve to 1e-7 and better here. What is left are short cuts of ours that the other statement does not take: pH in closed form, ionic strength
// by the day. Found: 0.03 at most of log-likelihoods of -55 to -152 (0.009 root mean square), water within 0.3 %, pH within 2e-5.
TEST(TankPosterior, BothStatementsOfTheModelAgreeOnDrawsOfThePrior) {
  const auto rows = table("tank_posterior/points");
  const SeasonModel model(tests::reference_season(), {1e-7});
  const auto unknowns = unknowns_of(model, rows);
  SeasonModel::Path path = model.start(unknowns);
  const auto log_likelihood = log_likelihoods(model, unknowns, path);
  const auto water = model.columns(path);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const std::string& point = rows[i].text("point");
    EXPECT_NEAR(log_likelihood[i], rows[i].number("log_likelihood"), 0.05) << "point " << point;
    EXPECT_NEAR(water.total_ammonia_mg_n_per_l[i] / rows[i].number("ammonia_mg_n_per_l"), 1.0, 5e-3) << "point " << point;
    EXPECT_NEAR(water.nitrite_mg_n_per_l[i] / rows[i].number("nitrite_mg_n_per_l"), 1.0, 5e-3) << "point " << point;
    EXPECT_NEAR(water.nitrate_mg_n_per_l[i] / rows[i].number("nitrate_mg_n_per_l"), 1.0, 5e-3) << "point " << point;
    EXPECT_NEAR(water.ph[i], rows[i].number("ph"), 1e-4) << "point " << point;
  }
}

}  // namespace
}  // namespace redd::reference
