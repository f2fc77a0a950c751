// What this program is faster than, each measured in the same run: the ensemble of tanks against CVODE (SUNDIALS) at equal measured accuracy,
// and the posterior against the random walks of tools/reference/tank_posterior.R at equal effective sample size. Wanted: 20-fold and 50-fold.
//
// Without SUNDIALS, or without R and the package deSolve, that half is left out and said to be. With any argument (how it is run as a test) all is small.

#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <optional>
#include <string>

#include "support/reference_season.h"
#ifdef REDD_WITH_CVODE
#include "support/cvode_tank.h"
#endif

namespace {

using namespace redd;

/// Processor time of all threads, so that a busy machine spoils the comparison less.
double processor_seconds() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

#ifdef REDD_WITH_CVODE
using tests::Values;

double median(std::vector<double> values) {
  std::ranges::nth_element(values, values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2));
  return values[values.size() / 2];
}

struct Spent {
  double seconds_a_trajectory = 0, median_error = 0;
};

/// Four like tanks side by side are what an ensemble of particles holds, so each case is run as four near copies.
Spent carried_by_ensemble(const std::vector<tests::RandomCase>& cases, const std::vector<std::vector<Values>>& exact, double tolerance) {
  double seconds = 0.0;
  std::vector<double> errors;
  for (std::size_t i = 0; i < cases.size(); ++i) {
    tank::Ensemble four(4, cases[i].volume_l);
    for (std::size_t lane = 0; lane < 4; ++lane) {
      auto p = cases[i].parameters;
      p.ammonia_oxidiser_growth_per_day *= 1.0 + 0.05 * static_cast<double>(lane);
      four.set(lane, cases[i].state, p);
    }
    double worst = 0.0;
    for (int day = 0, look = 0; day < tests::cvode_days; day += tests::look_every_days, ++look) {
      const double start = processor_seconds();
      tank::advance(four, cases[i].forcing, day, day + tests::look_every_days, tank::Tolerance{tolerance});
      seconds += processor_seconds() - start;
      worst = std::max(worst, tests::relative_error(tests::values_of(four.state(0)), exact[i][static_cast<std::size_t>(look)]));
    }
    errors.push_back(worst);
  }
  return {seconds / (4.0 * static_cast<double>(cases.size())), median(errors)};
}

Spent carried_by_cvode(const std::vector<tests::RandomCase>& cases, const std::vector<std::vector<Values>>& exact, double tolerance, bool restart) {
  tests::Cvode cvode;
  double seconds = 0.0;
  std::vector<double> errors;
  for (std::size_t i = 0; i < cases.size(); ++i) {
    const double start = processor_seconds();
    const auto seen = cvode.solve(cases[i], tolerance, 1.0, restart);
    seconds += processor_seconds() - start;
    double worst = 0.0;
    for (std::size_t look = 0; look < seen.size(); ++look) worst = std::max(worst, tests::relative_error(seen[look], exact[i][look]));
    errors.push_back(worst);
  }
  return {seconds / static_cast<double>(cases.size()), median(errors)};
}

void compare_with_cvode(std::uint32_t count) {
  std::vector<tests::RandomCase> cases;
  std::vector<std::vector<Values>> exact;
  tests::Cvode cvode;
  for (std::uint32_t i = 0; i < count; ++i) {
    cases.push_back(tests::random_case(i, tests::cvode_days));
    exact.push_back(cvode.solve(cases.back(), 1e-10, 1e-3, true));
  }
  // CVODE either begins anew at each day's change of conditions or steps over it and finds it by its error control: whichever is cheaper counts.
  std::vector<Spent> theirs;
  for (const bool restart : {true, false})
    for (const double tolerance : {1e-3, 1e-4, 1e-5, 1e-6, 1e-7, 1e-8}) theirs.push_back(carried_by_cvode(cases, exact, tolerance, restart));
  std::printf("%u random tanks over %d days, a trajectory each; error: median over tanks of the largest\n", count, tests::cvode_days);
  for (const double tolerance : {1e-3, 1e-4, tank::Tolerance::for_inference().relative, 1e-6, tank::Tolerance{}.relative}) {
    const Spent ours = carried_by_ensemble(cases, exact, tolerance);
    std::optional<Spent> like;  // the cheapest that is at least as good
    for (const Spent& t : theirs)
      if (t.median_error <= ours.median_error && (!like || t.seconds_a_trajectory < like->seconds_a_trajectory)) like = t;
    std::printf("  tolerance %.0e: %6.1f us, error %.1e", tolerance, 1e6 * ours.seconds_a_trajectory, ours.median_error);
    if (like)
      std::printf("; CVODE %7.1f us, error %.1e: %.0f-fold\n", 1e6 * like->seconds_a_trajectory, like->median_error, like->seconds_a_trajectory / ours.seconds_a_trajectory);
    else
      std::printf("; no tolerance of CVODE tried is as good\n");
  }
}
#endif

/// Processor seconds R takes for one log-likelihood of the second statement of the model, now; nothing where R or deSolve is missing.
std::optional<double> seconds_of_reference_model() {
  const std::string command = "Rscript '" REDD_SOURCE_DIR "/tools/reference/time_model.R' 2>/dev/null";
  std::FILE* pipe = popen(command.c_str(), "r");
  if (!pipe) return {};
  double seconds = 0.0;
  const bool read = std::fscanf(pipe, "%lf", &seconds) == 1;
  return pclose(pipe) == 0 && read && seconds > 0.0 ? std::optional(seconds) : std::nullopt;
}

/// How the stored sample was made: evaluations of the model a sampler needs for one effective draw, with and without finding the walk's shape first.
struct ReferenceSampler {
  double evaluations_a_draw, with_adaptation;
};
ReferenceSampler reference_sampler(const std::vector<reference::Row>& rows) {
  double effective = 0.0;
  for (const auto& row : rows) effective += row.number("effective") / static_cast<double>(rows.size());
  constexpr double states = 4.0 * 108380.0, sampling_seconds = 1209.0, adapting_seconds = 400.0;  // head of posterior.csv
  return {states / effective, states * (1.0 + adapting_seconds / sampling_seconds) / effective};
}

void compare_with_reference_sampler(std::size_t seeds, std::size_t chains) {
  const auto rows = reference::table("tank_posterior/posterior");
  const auto season = tests::reference_season();
  const double start = processor_seconds();
  std::vector<inference::FilterPosterior> found;
  for (std::uint64_t seed = 1; seed <= seeds; ++seed) found.push_back(inference::FilterPosterior::of(season, {.chains = chains, .seed = seed}));
  const double seconds = (processor_seconds() - start) / static_cast<double>(seeds);
  // Effective draws: the posterior's variance over the mean square distance from the other sampler's mean, its own error taken off.
  double distance = 0.0, count = 0.0;
  for (const auto& [name, unknown] : tests::reference_unknowns(found.front().model()))
    for (const auto& row : rows) {
      if (row.text("what") != name) continue;
      for (const auto& posterior : found) {
        const double off = (numerics::weighted_mean(posterior.sampler().unknown(unknown), posterior.sampler().weights()) - row.number("mean")) / row.number("sd");
        distance += off * off - 1.0 / row.number("effective");
        count += 1.0;
      }
    }
  const double effective = count / distance;
  std::printf("\nposterior of the ten-week season of tests/reference/data/tank_posterior, %zu particles, mean of %zu seeds\n", 8 * chains, seeds);
  std::printf("  here: %.2f s of processor time, worth %.0f draws: %.1f ms a draw\n", seconds, effective, 1e3 * seconds / effective);
  const auto model_seconds = seconds_of_reference_model();
  if (!model_seconds) {
    std::printf("  no comparison: Rscript with the package deSolve (r-base-core, r-cran-desolve, gcc) is not here\n");
    return;
  }
  const ReferenceSampler theirs = reference_sampler(rows);
  const double plain = theirs.evaluations_a_draw * *model_seconds, all = theirs.with_adaptation * *model_seconds;
  std::printf("  random walks of the package mcmc over lsoda: %.2f ms an evaluation now, %.0f evaluations a draw: %.0f ms a draw, %.0f with finding their shape\n",
              1e3 * *model_seconds, theirs.evaluations_a_draw, 1e3 * plain, 1e3 * all);
  std::printf("  at equal effective sample size: %.0f-fold, %.0f-fold with finding their shape\n", plain * effective / seconds, all * effective / seconds);
}

}  // namespace

int main(int argc, char**) {
  const bool small = argc > 1;
#ifdef REDD_WITH_CVODE
  compare_with_cvode(small ? 4 : 200);
#else
  std::printf("no comparison with CVODE: SUNDIALS (libsundials-dev) was not here at configuration\n");
#endif
  compare_with_reference_sampler(small ? 2 : 24, small ? 64 : 256);
  return 0;
}
