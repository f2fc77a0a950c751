#include "inference/filter_posterior.h"

#include <algorithm>
#include <cmath>

#include "numerics/normal.h"
#include "quantities/verbatim.h"

namespace redd::inference {
namespace {

/// Every so many sittings a state is kept, so that an old reading corrected later does not start the season anew.
constexpr std::size_t keep_every = 8;

Word name_of(records::Quantity quantity) { return Word{records::quantity_text(quantity)}; }

std::vector<records::RecordId> records_of(const ReadingCheck& check) {
  return check.record == 0 ? std::vector<records::RecordId>{} : std::vector{check.record};
}

}  // namespace

FilterPosterior FilterPosterior::of(FilterSeason season, SmcSettings smc, tank::Tolerance tolerance) {
  FilterPosterior posterior;
  posterior.tolerance_ = tolerance;
  posterior.model_ = std::make_shared<const SeasonModel>(std::move(season), tolerance);
  posterior.states_.push_back({0, std::make_shared<const Smc<SeasonModel>>(*posterior.model_, std::move(smc))});
  posterior.absorb_rest();
  return posterior;
}

FilterPosterior FilterPosterior::updated(FilterSeason season) const {
  FilterPosterior posterior;
  posterior.tolerance_ = tolerance_;
  posterior.model_ = std::make_shared<const SeasonModel>(std::move(season), tolerance_);
  const FilterSeason& now = posterior.model_->season();
  for (const State& state : states_) {
    const std::size_t absorbed = state.sampler->absorbed();
    if (absorbed == 0 || absorbed > now.sittings.size() || fingerprint(now, absorbed - 1) != state.fingerprint) continue;
    posterior.states_.push_back(state);
  }
  if (posterior.states_.empty()) return of(now, sampler().settings(), tolerance_);
  const std::size_t kept = posterior.states_.back().sampler->absorbed();
  for (const ReadingCheck& check : checks_)
    if (check.sitting < kept) posterior.checks_.push_back(check);
  // Ids of records may differ where readings are equal; the checks name the new ones.
  posterior.absorb_rest();
  return posterior;
}

void FilterPosterior::absorb_rest() {
  auto sampler = std::make_shared<Smc<SeasonModel>>(*states_.back().sampler);
  sampler->set_model(*model_);
  while (sampler->absorbed() < model_->data_count()) {
    const std::size_t sitting = sampler->absorbed();
    sampler->prepare_next();
    check_sitting(*sampler, sitting, false);
    if (!sampler->absorb_next() && sampler->absorbed() == sitting) {
      std::erase_if(checks_, [&](const ReadingCheck& c) { return c.sitting == sitting; });
      break;
    }
    check_sitting(*sampler, sitting, true);
    const std::size_t done = sampler->absorbed();
    if (done + 1 >= model_->data_count() || done % keep_every == 0)
      states_.push_back({fingerprint(model_->season(), done - 1), std::make_shared<const Smc<SeasonModel>>(*sampler)});
    if (sampler->settings().keep_going && !sampler->settings().keep_going(static_cast<double>(done) / static_cast<double>(model_->data_count()))) break;
  }
  if (states_.back().sampler->absorbed() != sampler->absorbed())
    states_.push_back({fingerprint(model_->season(), sampler->absorbed() - 1), sampler});
  // Of the older states only those kept for corrections stay, and the one before the last sitting.
  const std::size_t last = states_.back().sampler->absorbed();
  std::erase_if(states_, [&](const State& s) {
    const std::size_t n = s.sampler->absorbed();
    return n + 1 < last && n % keep_every != 0;
  });
}

void FilterPosterior::check_sitting(const Smc<SeasonModel>& sampler, std::size_t sitting, bool after) {
  const FilterSitting& made = model_->season().sittings[sitting];
  const std::vector<double> weights = sampler.weights();
  std::vector<std::vector<double>> places(made.tests.size());
  for (std::size_t b = 0; b < sampler.block_count(); ++b) {
    SeasonModel::Path path = sampler.block_path(b);
    if (!after) model_->go_to(path, sampler.block_unknowns(b), made.at_day, false);
    const WaterColumns water = model_->columns(path);
    for (std::size_t t = 0; t < made.tests.size(); ++t) {
      const auto part = model_->places(made.tests[t], water, sampler.block_unknowns(b));
      places[t].insert(places[t].end(), part.begin(), part.end());
    }
  }
  for (std::size_t t = 0; t < made.tests.size(); ++t) {
    if (places[t].empty()) continue;
    const SittingTest& test = made.tests[t];
    for (std::size_t r = 0; r < test.readings.size(); ++r) {
      const auto expected = expectation(test.test, test.readings[r], places[t], weights);
      if (!expected) continue;
      const records::RecordId record = r < test.records.size() ? test.records[r] : 0;
      if (!after) {
        ReadingCheck check{sitting, made.at_day, test.test.quantity, test.kit, test.test.key, record, *expected, *expected};
        check.surprising = expected->surprise < surprising_probability;
        checks_.push_back(std::move(check));
        continue;
      }
      for (ReadingCheck& check : checks_)
        if (check.sitting == sitting && check.kit == test.kit && check.test == test.test.key && check.record == record) {
          check.after = *expected;
          check.irreconcilable = expected->surprise < surprising_probability;
        }
    }
  }
}

double FilterPosterior::at_day() const {
  const std::size_t absorbed = sampler().absorbed();
  return absorbed == 0 ? 0.0 : model_->season().sittings[absorbed - 1].at_day;
}

std::vector<KitCheck> FilterPosterior::kit_checks() const {
  std::vector<KitCheck> result;
  const std::vector<double> weights = sampler().weights();
  for (const ReadingCheck& check : checks_) {
    auto found = std::ranges::find_if(result, [&](const KitCheck& k) { return k.kit == check.kit && k.test == check.test; });
    if (found == result.end()) {
      KitCheck kit{check.kit, check.test, check.quantity};
      const std::size_t row = model_->bias_row(check.kit, check.test);
      const records::KitTest* test = nullptr;
      for (const FilterSitting& sitting : model_->season().sittings)
        for (const SittingTest& t : sitting.tests)
          if (!test && t.kit == check.kit && t.test.key == check.test) test = &t.test;
      if (test && row < sampler().drawn_dimension()) {
        const std::vector<double> z = sampler().unknown(row);
        const auto in_words = [&](double share) {
          const double bias = bias_sd(*test) * numerics::weighted_quantile(z, weights, share);
          return check.quantity == records::Quantity::ph ? bias : std::exp(bias);
        };
        kit.error = {in_words(0.05), in_words(0.5), in_words(0.95), Support::inferred};
        // The test's own error lies where the prior puts one kit in thirty, and its sign is sure.
        const double middle = numerics::weighted_quantile(z, weights, 0.5);
        const double none = check.quantity == records::Quantity::ph ? 0.0 : 1.0;
        kit.suspect = std::abs(middle) > 2.1 && (kit.error.low > none || kit.error.high < none);
      }
      result.push_back(std::move(kit));
      found = result.end() - 1;
    }
    ++found->readings;
    found->mean_shift_sd += numerics::normal_quantile(std::clamp(check.before.below, 1e-4, 1.0 - 1e-4));
  }
  for (KitCheck& kit : result) {
    kit.mean_shift_sd /= std::sqrt(static_cast<double>(kit.readings));
    // Readings follow on one another (the belief learns from each), so chance alone goes less far than three.
    if (kit.readings >= 3 && std::abs(kit.mean_shift_sd) > 3.0) kit.suspect = true;
  }
  return result;
}

std::vector<DoubtedThing> FilterPosterior::doubts() const {
  std::vector<DoubtedThing> doubts;
  const FilterSeason& season = model_->season();
  if (!complete())
    doubts.push_back({FilterDoubt::stopped_early, {"The work was stopped before all readings were taken in; what is said rests on the readings up to {0}.",
                                                   {after_days(season.begin, at_day())}}, {}});
  if (sampler().absorbed() == 0)
    doubts.push_back({FilterDoubt::no_readings, "There is no reading yet: what is said of the filter is what is usual, and very wide.", {}});
  const auto recent = [&](const ReadingCheck& c) { return c.at_day > at_day() - 14.0; };
  // Of readings of one sitting that cannot all be right, the least probable is to be repeated first.
  std::vector<const ReadingCheck*> worst;
  for (const ReadingCheck& check : checks_) {
    if (!check.irreconcilable || !recent(check)) continue;
    if (worst.empty() || worst.back()->sitting != check.sitting) worst.push_back(&check);
    else if (check.after.surprise < worst.back()->after.surprise) worst.back() = &check;
  }
  for (const ReadingCheck* check : worst)
    doubts.push_back({FilterDoubt::readings_disagree, {"The readings of {0} disagree with each other and with those before: repeat the test of {1} first.",
                                                       {after_days(season.begin, check->at_day), name_of(check->quantity)}}, records_of(*check)});
  for (const ReadingCheck& check : checks_) {
    if (!check.surprising || check.irreconcilable || !recent(check)) continue;
    doubts.push_back({FilterDoubt::surprising_reading,
                      {check.before.below > 0.5 ? "The {0} reading of {1} is far higher than the readings before it led to expect; if a repeat agrees, something changed in the tank."
                                                : "The {0} reading of {1} is far lower than the readings before it led to expect; if a repeat agrees, something changed in the tank.",
                       {name_of(check.quantity), after_days(season.begin, check.at_day)}}, records_of(check)});
  }
  for (const KitCheck& kit : kit_checks()) {
    if (!kit.suspect) continue;
    DoubtedThing doubt{FilterDoubt::suspect_kit, {}, {}, kit.quantity, kit.error.mid, kit.kit, kit.test};
    if (kit.quantity == records::Quantity::ph)
      doubt.sentence = {"The test of {0} in the kit \"{1}\" seems to be off by {2} time after time: compare it with another kit or a fresh bottle.",
                        {name_of(kit.quantity), Word{verbatim(kit.kit)}, Measured{kit.error.mid, "pH"}}};
    else
      doubt.sentence = {"The test of {0} in the kit \"{1}\" seems to read {2} times the truth time after time: compare it with another kit, and check whether its card counts "
                        "nitrogen or the whole molecule.",
                        {name_of(kit.quantity), Word{verbatim(kit.kit)}, Measured{kit.error.mid, ""}}};
    for (const ReadingCheck& check : checks_)
      if (check.kit == kit.kit && check.test == kit.test && check.record != 0) doubt.records.push_back(check.record);
    doubts.push_back(std::move(doubt));
  }
  // Assumed: under a tenth of effective particles, or chains that hardly move, the windows can no longer be trusted to be wide enough.
  const auto& work = sampler().diagnostics();
  const bool few = std::ranges::any_of(work, [](const DatumDiagnostics& d) { return d.effective_share < 0.1 || d.least_accepted < 0.03 || !std::isfinite(d.log_evidence); });
  if (few)
    doubts.push_back({FilterDoubt::few_particles, "The readings fit so few of the possibilities tried that the windows given may be too narrow: go by the tests, not by the forecast.", {}});
  return doubts;
}

FilterPosterior::Draws FilterPosterior::draws(std::size_t count) const {
  const Smc<SeasonModel>& s = sampler();
  const std::vector<double> weights = s.weights();
  const auto kept = numerics::systematic_resample(weights, 0.5, count);
  Draws draws{numerics::ParticleTable(model_->dimension(), count), SeasonModel::Path{tank::Ensemble(count, model_->season().volume_l)}};
  const SeasonModel::Path& like = s.block_path(0);
  draws.path.at_day = like.at_day;
  draws.path.next_event = like.next_event;
  draws.path.ensemble.set_volume_l(like.ensemble.volume_l());
  draws.path.ensemble.set_temperature_c(like.ensemble.temperature_c());
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t block = kept[i] / s.block_size(), at = kept[i] % s.block_size();
    const auto& unknowns = s.block_unknowns(block);
    for (std::size_t row = 0; row < std::min(unknowns.rows(), draws.unknowns.rows()); ++row) draws.unknowns(row, i) = unknowns(row, at);
    draws.path.take(i, s.block_path(block), at);
  }
  return draws;
}

Estimate<double> FilterPosterior::estimate_of(tank::Quantity quantity) const {
  std::vector<double> values;
  for (std::size_t b = 0; b < sampler().block_count(); ++b) {
    const auto column = sampler().block_path(b).ensemble.column(quantity);
    values.insert(values.end(), column.begin(), column.end());
  }
  const auto weights = sampler().weights();
  const auto at = [&](double share) { return numerics::weighted_quantile(values, weights, share); };
  return {at(0.05), at(0.5), at(0.95), Support::inferred};
}

}  // namespace redd::inference
