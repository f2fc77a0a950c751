// Simulation-based calibration of the filter posterior (Talts and others 2018): tanks drawn from the prior, seasons of readings drawn from
// the tanks, and where each truth stands among the posterior's draws. If sampler, model and readings agree, every rank is equally likely,
// and nine in ten of next week's readings fall into their 90 % interval. A wrong sampler shows as a slope, a hump or a bowl.
//
// By itself it tries a handful of seasons, to show that it runs. For the figures of docs/science/inference.md:
//   REDD_CALIBRATION_SEASONS=300 bench_calibration
// REDD_CALIBRATION_WEEKS (10), REDD_CALIBRATION_FIRST (seed of the first season) and REDD_CALIBRATION_CSV (a file for all ranks) are further
// variables.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <thread>
#include <vector>

#include "../tests/inference/ripening_season.h"
#include "inference/outlook.h"

namespace {

using namespace redd;
using namespace redd::inference;
namespace invented = redd::inference::testing;

constexpr std::size_t rank_draws = 99;
constexpr std::size_t bins = 10;

int from_environment(const char* name, int otherwise) {
  const char* text = std::getenv(name);
  return text ? static_cast<int>(std::strtol(text, nullptr, 10)) : otherwise;
}
const int weeks = from_environment("REDD_CALIBRATION_WEEKS", 10);

struct Watched {
  std::string name;
  std::size_t row;
};
const std::vector<Watched>& watched() {
  static const std::vector<Watched> rows{
      {"ammonia_oxidiser_growth", row_of(tank::Parameter::ammonia_oxidiser_growth)},
      {"ammonia_oxidiser_decay", row_of(tank::Parameter::ammonia_oxidiser_decay)},
      {"ammonia_half_saturation", row_of(tank::Parameter::ammonia_half_saturation)},
      {"nitrite_oxidiser_growth", row_of(tank::Parameter::nitrite_oxidiser_growth)},
      {"nitrite_half_saturation", row_of(tank::Parameter::nitrite_half_saturation)},
      {"filter_capacity", row_of(tank::Parameter::filter_capacity)},
      {"gas_transfer", row_of(tank::Parameter::gas_transfer)},
      {"ammonia_oxidisers_at_first", row_of(Unknown::ammonia_oxidisers_at_first)},
      {"nitrite_oxidisers_at_first", row_of(Unknown::nitrite_oxidisers_at_first)},
      {"first_alkalinity", row_of(Unknown::first_alkalinity)},
      {"nitrite_in_nitrate_test", row_of(Unknown::nitrite_in_nitrate_test)},
      {"dose", row_of(Unknown::dose)},
  };
  return rows;
}

struct OneSeason {
  std::vector<double> rank_fraction;                          ///< of watched(), then total ammonia and nitrite at the last sitting
  std::vector<std::pair<std::string, double>> next_readings;  ///< test, and where next week's reading falls (0-1, randomised in its class)
  std::size_t moves = 0;
};

OneSeason try_season(std::uint64_t seed, std::size_t chains) {
  invented::SeasonShape shape;
  // Weeks of warmth and doses differ, so that all phases of ripening are met.
  numerics::RandomStream stream(seed, 91);
  shape.weeks = weeks + 1;
  shape.warm_weeks = 4 + static_cast<int>(stream.index_below(8));
  shape.first_dose_mg_n_per_l = stream.uniform_between(1.0, 4.0);
  const FilterSeason bare = invented::bare_season(shape);
  const SeasonModel whole(bare);
  const numerics::ParticleTable truth = invented::true_unknowns(whole, seed);
  FilterSeason season = invented::with_readings(bare, truth, seed);
  FilterSeason read = season;
  read.sittings.pop_back();
  const FilterPosterior posterior = FilterPosterior::of(read, {.chains = chains, .chain_length = 8, .seed = seed + 1000});

  OneSeason result;
  result.moves = posterior.sampler().moves().size();
  const auto draws = posterior.draws(rank_draws);
  const auto add_rank = [&](std::span<const double> values, double true_value) {
    const double below = static_cast<double>(std::ranges::count_if(values, [&](double v) { return v < true_value; }));
    result.rank_fraction.push_back((below + stream.uniform()) / (rank_draws + 1.0));
  };
  for (const Watched& w : watched()) add_rank(draws.unknowns.row(w.row), truth(w.row, 0));
  SeasonModel::Path true_path = whole.start(truth);
  whole.go_to(true_path, truth, 7.0 * weeks, false);
  for (const tank::Quantity q : {tank::Quantity::total_ammonia, tank::Quantity::nitrite})
    add_rank(draws.path.ensemble.column(q), true_path.ensemble.column(q)[0]);

  OutlookQuestion question;
  question.now_day = 7.0 * weeks;
  question.until_day = question.now_day + 8.0;
  question.every_days = 100.0;
  question.seed = seed;
  const Outlook ahead = outlook(posterior, read, question);
  whole.go_to(true_path, truth, 7.0 * (weeks + 1), false);
  const WaterColumns water = whole.columns(true_path);
  for (const PredictedReading& predicted : ahead.next_readings) {
    const double place = whole.places(predicted.test, water, truth)[0];
    const records::Reading seen = reading_at(predicted.test.test, place, reader_error_steps * stream.normal());
    double below = 0.0, own = 0.0;
    for (const PossibleReading& p : predicted.possible) {
      if (*p.reading.value < *seen.value) below += p.probability;
      if (*p.reading.value == *seen.value) own = p.probability;
    }
    result.next_readings.emplace_back(predicted.test.test.key, below + stream.uniform() * own);
  }
  return result;
}

/// Upper tail of chi-square by the Wilson-Hilferty normal approximation.
double chi_square_tail(double value, double freedom) {
  const double z = (std::cbrt(value / freedom) - (1.0 - 2.0 / (9.0 * freedom))) / std::sqrt(2.0 / (9.0 * freedom));
  return 0.5 * std::erfc(z / std::sqrt(2.0));
}

void print_histogram(const std::string& name, const std::vector<double>& fractions) {
  std::array<int, bins> count{};
  for (const double f : fractions) ++count[std::min(bins - 1, static_cast<std::size_t>(f * bins))];
  const double expected = static_cast<double>(fractions.size()) / bins;
  double chi = 0.0;
  for (const int c : count) chi += (c - expected) * (c - expected) / expected;
  const double inside = static_cast<double>(std::ranges::count_if(fractions, [](double f) { return f >= 0.05 && f <= 0.95; }));
  std::printf("%-28s", name.c_str());
  for (const int c : count) std::printf(" %4d", c);
  std::printf("   p %.3f   90 %% interval holds %.3f\n", chi_square_tail(chi, bins - 1), inside / static_cast<double>(fractions.size()));
}

}  // namespace

int main() {
  const int wanted = from_environment("REDD_CALIBRATION_SEASONS", 0);
  const std::size_t seasons = wanted > 0 ? static_cast<std::size_t>(wanted) : 4, chains = wanted > 0 ? 256 : 64;
  const auto first = static_cast<std::size_t>(from_environment("REDD_CALIBRATION_FIRST", 0));
  std::vector<OneSeason> all(seasons);
  std::vector<std::thread> threads;
  const unsigned at_once = std::max(1u, std::thread::hardware_concurrency());
  for (unsigned t = 0; t < at_once; ++t)
    threads.emplace_back([&, t] {
      for (std::size_t s = t; s < seasons; s += at_once) all[s] = try_season(first + s + 1, chains);
    });
  for (std::thread& thread : threads) thread.join();

  std::printf("%zu seasons of %d weeks, %zu particles; ranks of the truth in ten classes, chi-square probability\n", seasons, weeks, chains * 8);
  std::vector<double> of_all_tests;
  for (std::size_t w = 0; w < watched().size() + 2; ++w) {
    std::vector<double> fractions;
    for (const OneSeason& season : all) fractions.push_back(season.rank_fraction[w]);
    print_histogram(w < watched().size() ? watched()[w].name : w == watched().size() ? "total ammonia now" : "nitrite now", fractions);
  }
  std::printf("\nnext week's readings\n");
  for (const char* test : {"ammonia", "nitrite", "nitrate", "ph", "kh"}) {
    std::vector<double> fractions;
    for (const OneSeason& season : all)
      for (const auto& [key, where] : season.next_readings)
        if (key == test) fractions.push_back(where);
    of_all_tests.insert(of_all_tests.end(), fractions.begin(), fractions.end());
    print_histogram(test, fractions);
  }
  print_histogram("all tests", of_all_tests);
  if (const char* path = std::getenv("REDD_CALIBRATION_CSV"))
    if (std::FILE* file = std::fopen(path, "w")) {
      std::fprintf(file, "season,what,rank_fraction\n");
      for (std::size_t s = 0; s < all.size(); ++s) {
        for (std::size_t w = 0; w < watched().size() + 2; ++w)
          std::fprintf(file, "%zu,%s,%.4f\n", first + s + 1, w < watched().size() ? watched()[w].name.c_str() : w == watched().size() ? "total_ammonia_now" : "nitrite_now",
                       all[s].rank_fraction[w]);
        for (const auto& [key, where] : all[s].next_readings) std::fprintf(file, "%zu,next_%s,%.4f\n", first + s + 1, key.c_str(), where);
      }
      std::fclose(file);
    }
  return 0;
}
