// Compares advance() with CVODE (SUNDIALS) on random tanks, many of them stiff, and times both. Built only where SUNDIALS is found; not
// part of the ordinary tests, which check against a stored part of its result.
//
//   cvode_tank 1000            accuracy on 1,000 tanks over 60 days, against CVODE at rtol 1e-10
//   cvode_tank 1000 time       the cost of each way at several tolerances, each with its measured accuracy
//   cvode_tank 24 store        reference values of 24 tanks as CSV, for tests/reference/data/tank_reference.csv

#include <ctime>
#include <cstdio>
#include <cstdlib>
#include <string>

#include "support/cvode_tank.h"

namespace {

using namespace redd;
using tests::Values;

constexpr int days = tests::cvode_days;
using tests::look_every_days;
using tests::Cvode;

/// All cases as ensembles of four copies would hide what sharing a step costs, so each is an ensemble of one, plus three of padding.
std::vector<Values> advanced(const tests::RandomCase& c, double relative, tank::AdvanceReport& total) {
  tank::Ensemble one(1, c.volume_l);
  one.set(0, c.state, c.parameters);
  std::vector<Values> seen;
  for (int day = 0; day < days; day += look_every_days) {
    const auto report = tank::advance(one, c.forcing, day, day + look_every_days, tank::Tolerance{relative});
    total.steps += report.steps;
    total.rejected += report.rejected;
    total.cautious += report.cautious;
    total.sound = total.sound && report.sound;
    seen.push_back(tests::values_of(one.state(0)));
  }
  return seen;
}

double worst_error(const std::vector<Values>& got, const std::vector<Values>& reference) {
  double worst = 0.0;
  for (std::size_t i = 0; i < got.size(); ++i) worst = std::max(worst, tests::relative_error(got[i], reference[i]));
  return worst;
}

/// Processor time, so that a busy machine does not spoil the comparison.
double seconds_since(std::clock_t start) { return static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC; }

void print_quantiles(const char* name, std::vector<double> errors) {
  std::sort(errors.begin(), errors.end());
  std::printf("%s: median %.1e, 90 %% %.1e, 99 %% %.1e, largest %.1e\n", name, errors[errors.size() / 2], errors[errors.size() * 9 / 10],
              errors[errors.size() * 99 / 100], errors.back());
}

}  // namespace

int main(int argc, char** argv) {
  const int count = argc > 1 ? std::atoi(argv[1]) : 100;
  const std::string what = argc > 2 ? argv[2] : "accuracy";
  std::vector<tests::RandomCase> cases;
  for (int i = 0; i < count; ++i) cases.push_back(tests::random_case(static_cast<std::uint32_t>(i), days));
  Cvode cvode;
  std::vector<std::vector<Values>> reference;
  for (const auto& c : cases) reference.push_back(cvode.solve(c, 1e-10, 1e-3, true));

  if (what == "store") {
    std::printf("case,day,organic,ammonia,nitrite,nitrate,ammonia_oxidisers,nitrite_oxidisers,debris,oxygen,alkalinity,carbon,shock\n");
    for (std::size_t i = 0; i < cases.size(); ++i)
      for (std::size_t s = 3; s < reference[i].size(); s += 4) {
        std::printf("%zu,%zu", i, (s + 1) * look_every_days);
        for (const double x : reference[i][s]) std::printf(",%.10g", x);
        std::printf("\n");
      }
    return 0;
  }
  if (what == "accuracy") {
    for (const double tolerance : {tank::Tolerance{}.relative, tank::Tolerance::for_inference().relative}) {
      std::vector<double> errors;
      tank::AdvanceReport total;
      std::size_t worst = 0;
      for (std::size_t i = 0; i < cases.size(); ++i) {
        errors.push_back(worst_error(advanced(cases[i], tolerance, total), reference[i]));
        if (errors[i] > errors[worst]) worst = i;
      }
      // Where the worst case is worst, to tell a steep front from a fault.
      const auto again = advanced(cases[worst], tolerance, total);
      for (std::size_t s = 0; s < again.size(); ++s)
        for (std::size_t q = 0; q < again[s].size(); ++q)
          if (std::fabs(again[s][q] - reference[worst][s][q]) > 0.9 * errors[worst] * std::fabs(reference[worst][s][q]))
            std::printf("  case %zu, day %zu, quantity %zu: %.8g, reference %.8g\n", worst, (s + 1) * look_every_days, q, again[s][q],
                        reference[worst][s][q]);
      std::printf("tolerance %.0e: %.2f steps a day, %.2f rejected, %ld cautious, %s, worst case %zu; ", tolerance,
                  static_cast<double>(total.steps) / (days * count), static_cast<double>(total.rejected) / (days * count),
                  static_cast<long>(total.cautious), total.sound ? "sound" : "NOT SOUND", worst);
      print_quantiles("error", errors);
    }
    return 0;
  }
  // Timing: four like cases side by side are what an ensemble of particles holds, so each case is run as a block of four near copies.
  for (const double tolerance : {1e-3, 1e-4, tank::Tolerance::for_inference().relative, 1e-5, 1e-6, tank::Tolerance{}.relative}) {
    double spent = 0.0;
    std::vector<double> errors;
    for (std::size_t i = 0; i < cases.size(); ++i) {
      tank::Ensemble four(4, cases[i].volume_l);
      for (std::size_t lane = 0; lane < 4; ++lane) {
        auto p = cases[i].parameters;
        p.ammonia_oxidiser_growth_per_day *= 1.0 + 0.05 * static_cast<double>(lane);
        four.set(lane, cases[i].state, p);
      }
      std::vector<Values> seen;
      const auto start = std::clock();
      for (int day = 0; day < days; day += look_every_days) {
        tank::advance(four, cases[i].forcing, day, day + look_every_days, tank::Tolerance{tolerance});
        seen.push_back(tests::values_of(four.state(0)));
      }
      spent += seconds_since(start);
      errors.push_back(worst_error(seen, reference[i]));
    }
    std::printf("advance, tolerance %.0e: %.2f us a trajectory; ", tolerance, 1e6 * spent / (4.0 * count));
    print_quantiles("error", errors);
  }
  if (what == "ours") return 0;
  for (const bool restart : {true, false})
    for (const double tolerance : {1e-3, 1e-4, 1e-5, 1e-6, 1e-7}) {
      std::vector<double> errors;
      const auto start = std::clock();
      std::vector<std::vector<Values>> got;
      for (const auto& c : cases) got.push_back(cvode.solve(c, tolerance, 1.0, restart));
      const double spent = seconds_since(start);
      for (std::size_t i = 0; i < got.size(); ++i) errors.push_back(worst_error(got[i], reference[i]));
      std::printf("CVODE, rtol %.0e, %s: %.2f us a trajectory; ", tolerance, restart ? "restarted daily" : "running on", 1e6 * spent / count);
      print_quantiles("error", errors);
    }
  return 0;
}
