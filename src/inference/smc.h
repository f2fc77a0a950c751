#pragma once
// Sequential Monte Carlo over the unknown numbers of a model whose data come one after the other. Start at Smc.
// A particle is a guess of all unknown numbers; it is weighed by each datum in turn. When too few particles carry the weight, the
// datum is let in only in part ("tempered"), the heavy particles are drawn anew, and each runs a short Markov chain whose every
// state is kept as a particle. The unknown numbers are standard normal before any datum; the model turns them into its own.
// Knows no water and no fish, so that it can be checked on models whose answer is known exactly.
//
// Source  from memory: iterated batch importance sampling, Chopin 2002; adaptive tempering, Jasra and others 2011; keeping all states of
//         the chains ("waste-free"), Dau and Chopin 2022; autoregressive proposals, Neal 1999, recentred on a fitted normal.

#include <algorithm>
#include <cmath>
#include <concepts>
#include <cstdint>
#include <functional>
#include <limits>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "inference/smc_reference.h"
#include "numerics/random.h"
#include "numerics/resampling.h"
#include "numerics/weighted_samples.h"
#include "numerics/workers.h"

namespace redd::inference {

/// What Smc asks of a model. Particles come in blocks; a Path holds what a block's particles need to go on to the next datum.
template <class M>
concept SequentialModel = requires(const M& model, typename M::Path& path, const typename M::Path& other,
                                   const numerics::ParticleTable& unknowns, std::size_t n, std::span<double> log_likelihood) {
  { model.dimension() } -> std::convertible_to<std::size_t>;       ///< how many unknown numbers
  { model.data_count() } -> std::convertible_to<std::size_t>;
  { model.active_dimension(n) } -> std::convertible_to<std::size_t>;  ///< unknowns that can matter for data 0 … n: the first so many
  { model.start(unknowns) } -> std::same_as<typename M::Path>;       ///< path of each column before the first datum
  /// Moves the path over datum n and writes each particle's log-likelihood of it. Paths are always taken 0, 1, 2, …
  { model.score(path, unknowns, n, log_likelihood) };
  { path.take(n, other, n) };  ///< particle `first` becomes particle `last` of the other path
};

/// A model whose log-likelihoods are never above zero (readings in classes) says so with
///   static constexpr bool never_above_zero = true;   and   Path Path::kept(std::span<const std::uint32_t> particles) const;
/// Then a proposal is dropped as soon as the data seen so far rule it out, whatever the rest may say.
template <class M>
concept EarlyRejecting = requires(const typename M::Path& path, std::span<const std::uint32_t> particles) {
  requires M::never_above_zero;
  { path.kept(particles) } -> std::same_as<typename M::Path>;
};

/// A model that can say how sharply data 0 … n, the last counted `part`, would tell one guess from its neighbours (Fisher information,
/// active_dimension(n) square). Proposals then follow the sample only in the directions the data tell something of (smc_reference.h).
template <class M>
concept Informing = requires(const M& model, const numerics::ParticleTable& centre, std::size_t n, double part) {
  { model.information(centre, n, part) } -> std::same_as<numerics::SquareMatrix>;
};

struct SmcSettings {
  std::size_t chains = 256;        ///< particles drawn anew at a move; a multiple of block
  std::size_t chain_length = 8;   ///< states kept of each; particles = chains * chain_length
  std::size_t block = 64;          ///< particles in one piece of work
  /// While there are fewer data than this, chains make several steps for each state kept, so that every move costs about as much as one
  /// over this many data: short histories are cheap to replay, and what is lost in them is not found again later.
  std::size_t full_cost_data = 24;
  double least_effective_share = 0.35;
  std::uint64_t seed = 1;
  numerics::Workers* workers = nullptr;  ///< who shares out the work; on the caller's own thread when nobody. Never changes an answer
  /// Called after each datum and each move with the share of data done; false stops the work there.
  std::function<bool(double done_fraction)> keep_going = {};
  std::size_t particles() const { return chains * chain_length; }
};

/// One move: which datum, how far it was let in, and how the chains ran.
struct SmcMove {
  std::size_t datum = 0;
  double let_in = 0;       ///< tempering exponent reached, 0-1
  double accepted = 0;     ///< share of proposals accepted
};

/// How well the work went for one datum.
struct DatumDiagnostics {
  double log_evidence = 0;     ///< log of the probability of this datum given those before it
  double effective_share = 1;  ///< effective sample size after it, as a share of the particles
  std::size_t moves = 0;
  double least_accepted = 1;
  /// Effective share the datum would have left without tempering: near zero for a datum that hardly any particle expected.
  double plain_effective_share = 1;
};

template <SequentialModel Model>
class Smc {
 public:
  using Path = typename Model::Path;

  /// In      settings: chains a multiple of block. The model must outlive the sampler or be replaced by set_model().
  Smc(const Model& model, SmcSettings settings) : model_(&model), settings_(std::move(settings)) {
    const std::size_t blocks = settings_.particles() / settings_.block;
    log_weights_.assign(settings_.particles(), -std::log(static_cast<double>(settings_.particles())));
    blocks_.reserve(blocks);
    for (std::size_t b = 0; b < blocks; ++b) {
      Block block;
      block.unknowns = numerics::ParticleTable(model.dimension(), settings_.block);
      fill_rows(block.unknowns, b, 0, active(0), purpose_prior, 0);
      blocks_.push_back(std::move(block));
    }
    drawn_ = active(0);
    run(blocks, [&](std::size_t b) {
      blocks_[b].absorbed.assign(settings_.block, 0.0);
      blocks_[b].latest.assign(settings_.block, 0.0);
      blocks_[b].path.emplace(model_->start(blocks_[b].unknowns));
    });
  }

  /// The same model with more data at its end. What was absorbed must be unchanged.
  void set_model(const Model& model) { model_ = &model; }
  void set_workers(numerics::Workers* workers) { settings_.workers = workers; }
  void set_keep_going(std::function<bool(double)> keep_going) { settings_.keep_going = std::move(keep_going); }

  /// Absorbs all data not yet absorbed. False when stopped by keep_going: absorbed() then says how far it came.
  bool absorb_all() {
    while (absorbed_ < model_->data_count())
      if (!absorb_next()) return false;
    return true;
  }

  /// Absorbs one datum. False when stopped half-way; the sampler is then as before the datum.
  bool absorb_next() {
    Smc before = settings_.keep_going ? *this : Smc(Empty{});
    activate();
    extend();
    if (settle()) {
      ++absorbed_;
      return report_progress();
    }
    *this = std::move(before);
    return false;
  }

  /// Draws the unknowns that begin to matter with the coming datum, so that it can be foretold. absorb_next() does it by itself.
  void prepare_next() {
    if (absorbed_ < model_->data_count()) activate();
  }

  std::size_t absorbed() const { return absorbed_; }
  std::size_t particle_count() const { return settings_.particles(); }
  std::size_t drawn_dimension() const { return drawn_; }
  /// Unknown number `row` of every particle. Rows from drawn_dimension() on are zero.
  std::vector<double> unknown(std::size_t row) const {
    std::vector<double> values;
    values.reserve(particle_count());
    for (const Block& block : blocks_) {
      const auto in_block = block.unknowns.row(row);
      values.insert(values.end(), in_block.begin(), in_block.end());
    }
    return values;
  }
  /// Sum to one.
  std::vector<double> weights() const { return numerics::normalised_weights(log_weights_); }
  double log_evidence() const {
    double sum = 0.0;
    for (const DatumDiagnostics& d : diagnostics_) sum += d.log_evidence;
    return sum;
  }
  double effective_share() const { return numerics::effective_sample_size(log_weights_) / static_cast<double>(particle_count()); }
  const std::vector<SmcMove>& moves() const { return moves_; }
  const std::vector<DatumDiagnostics>& diagnostics() const { return diagnostics_; }

  std::size_t block_count() const { return blocks_.size(); }
  std::size_t block_size() const { return settings_.block; }
  const numerics::ParticleTable& block_unknowns(std::size_t b) const { return blocks_[b].unknowns; }
  const Path& block_path(std::size_t b) const { return *blocks_[b].path; }
  const SmcSettings& settings() const { return settings_; }

 private:
  static constexpr std::uint32_t purpose_prior = 1, purpose_chain = 2, purpose_resample = 3, purpose_centre = 4;
  static constexpr std::size_t information_centres = 4;  ///< Assumed: particles at which the information is worked out, for its mean
  static constexpr double negative_infinity = -std::numeric_limits<double>::infinity();

  struct Block {
    numerics::ParticleTable unknowns;
    std::optional<Path> path;
    std::vector<double> absorbed;  ///< log-likelihood of the data before the current one
    std::vector<double> latest;    ///< of the current one
  };
  struct Empty {};
  explicit Smc(Empty) {}

  std::size_t active(std::size_t datum) const {
    return model_->data_count() == 0 ? model_->dimension() : std::min<std::size_t>(model_->active_dimension(std::min(datum, model_->data_count() - 1)), model_->dimension());
  }
  template <class Piece>
  void run(std::size_t count, const Piece& piece) const {
    numerics::SerialWorkers alone;
    (settings_.workers ? *settings_.workers : alone).for_each(count, piece);
  }

  void fill_rows(numerics::ParticleTable& table, std::size_t b, std::size_t from, std::size_t to, std::uint32_t purpose, std::uint32_t step) const {
    for (std::size_t i = 0; i < settings_.block; ++i) {
      numerics::RandomStream stream(settings_.seed, purpose, static_cast<std::uint32_t>(b * settings_.block + i), step);
      for (std::size_t row = from; row < to; ++row) table(row, i) = stream.normal();
    }
  }

  void activate() {
    const std::size_t needed = active(absorbed_);
    if (needed <= drawn_) return;
    for (Block& block : blocks_) {
      if (block.unknowns.rows() == model_->dimension()) continue;
      numerics::ParticleTable wider(model_->dimension(), settings_.block);
      for (std::size_t row = 0; row < drawn_; ++row) std::ranges::copy(block.unknowns.row(row), wider.row(row).begin());
      block.unknowns = std::move(wider);
    }
    run(blocks_.size(), [&](std::size_t b) { fill_rows(blocks_[b].unknowns, b, drawn_, needed, purpose_prior, static_cast<std::uint32_t>(absorbed_ + 1)); });
    drawn_ = needed;
  }

  void extend() {
    run(blocks_.size(), [&](std::size_t b) {
      Block& block = blocks_[b];
      for (std::size_t i = 0; i < settings_.block; ++i) block.absorbed[i] += block.latest[i];
      model_->score(*block.path, block.unknowns, absorbed_, block.latest);
      for (double& value : block.latest)
        if (!(value > negative_infinity)) value = negative_infinity;  // NaN counts as impossible, never as likely
    });
  }

  std::vector<double> tempered(double by) const {
    std::vector<double> result(log_weights_);
    std::size_t i = 0;
    for (const Block& block : blocks_)
      for (const double value : block.latest) result[i++] += by * value;
    return result;
  }

  /// Lets the current datum in, in as many parts as it takes.
  bool settle() {
    DatumDiagnostics report;
    const double n = static_cast<double>(particle_count());
    report.plain_effective_share = numerics::effective_sample_size(tempered(1.0)) / n;
    double let_in = 0.0;
    for (;;) {
      const double part = largest_part(1.0 - let_in);
      const std::vector<double> next = tempered(part);
      const double gain = numerics::log_sum_exp(next);
      report.log_evidence += gain;
      if (!std::isfinite(gain)) break;  // no particle can have given this datum; the weights are left as they were
      log_weights_ = next;
      for (double& w : log_weights_) w -= gain;
      let_in = let_in + part >= 1.0 ? 1.0 : let_in + part;
      if (let_in >= 1.0) break;
      const double accepted = move(let_in);
      moves_.push_back({absorbed_, let_in, accepted});
      ++report.moves;
      report.least_accepted = std::min(report.least_accepted, accepted);
      if (settings_.keep_going && !settings_.keep_going(done_fraction())) return false;
      if (report.moves >= most_moves_for_a_datum) {  // a datum at odds with everything: take it as it is and let the diagnostics say so
        const std::vector<double> rest = tempered(1.0 - let_in);
        const double last = numerics::log_sum_exp(rest);
        report.log_evidence += last;
        if (std::isfinite(last)) {
          log_weights_ = rest;
          for (double& w : log_weights_) w -= last;
        }
        break;
      }
    }
    report.effective_share = effective_share();
    diagnostics_.push_back(report);
    return true;
  }
  static constexpr std::size_t most_moves_for_a_datum = 60;

  /// Largest part of the datum, at most `rest`, that leaves enough effective particles.
  double largest_part(double rest) const {
    const double wanted = settings_.least_effective_share * static_cast<double>(particle_count());
    if (numerics::effective_sample_size(tempered(rest)) >= wanted) return rest;
    double low = 0.0, high = rest;
    for (int i = 0; i < 40 && high - low > 1e-4 * high; ++i) {
      const double middle = 0.5 * (low + high);
      (numerics::effective_sample_size(tempered(middle)) >= wanted ? low : high) = middle;
    }
    return low > 0.0 ? low : high;
  }

  double done_fraction() const {
    const double all = static_cast<double>(std::max<std::size_t>(model_->data_count(), 1));
    return static_cast<double>(absorbed_) / all;
  }
  bool report_progress() const { return !settings_.keep_going || settings_.keep_going(done_fraction()); }

  double move(double let_in);
  Reference reference_for(const numerics::ParticleTable& all, std::span<const double> weights, double let_in, std::uint32_t move_number) const;
  std::vector<std::uint32_t> replay(Block& proposed, const Block& now, double let_in, std::span<const double> log_ratio,
                                    std::span<const double> log_uniform) const;
  void run_chains(std::size_t group, double let_in, const Reference& reference, std::uint32_t move_number,
                  const std::vector<std::size_t>& ancestors, std::vector<Block>& out, double& accepted) const;

  const Model* model_ = nullptr;
  SmcSettings settings_;
  std::vector<Block> blocks_;
  std::vector<double> log_weights_;
  std::size_t absorbed_ = 0;  ///< data fully let in
  std::size_t drawn_ = 0;     ///< unknowns drawn so far
  double stride_ = 0.8;       ///< length of the usual proposal, adapted from move to move
  std::vector<SmcMove> moves_;
  std::vector<DatumDiagnostics> diagnostics_;
};

/// Draws the heavy particles anew and runs a chain from each; every state of every chain becomes a particle of equal weight.
template <SequentialModel Model>
double Smc<Model>::move(double let_in) {
  const auto move_number = static_cast<std::uint32_t>(moves_.size());
  const std::vector<double> w = weights();
  numerics::ParticleTable all(drawn_, particle_count());
  for (std::size_t row = 0; row < drawn_; ++row) {
    const std::vector<double> values = unknown(row);
    std::ranges::copy(values, all.row(row).begin());
  }
  const Reference reference = reference_for(all, w, let_in, move_number);
  numerics::RandomStream stream(settings_.seed, purpose_resample, 0, move_number);
  const std::vector<std::size_t> ancestors = numerics::systematic_resample(w, stream.uniform(), settings_.chains);

  const std::size_t groups = settings_.chains / settings_.block;
  std::vector<Block> moved(blocks_.size());
  std::vector<double> accepted(groups, 0.0);
  run(groups, [&](std::size_t g) { run_chains(g, let_in, reference, move_number, ancestors, moved, accepted[g]); });
  blocks_ = std::move(moved);
  std::ranges::fill(log_weights_, -std::log(static_cast<double>(particle_count())));
  double mean = 0.0;
  for (const double a : accepted) mean += a / static_cast<double>(groups);
  // Assumed: about a quarter accepted is a good pace (long random walks do best at 0.234).
  stride_ = std::clamp(stride_ * std::exp(mean - 0.25), 0.1, 0.8);
  return mean;
}

template <SequentialModel Model>
Reference Smc<Model>::reference_for(const numerics::ParticleTable& all, std::span<const double> weights, double let_in, std::uint32_t move_number) const {
  if constexpr (Informing<Model>) {
    numerics::RandomStream stream(settings_.seed, purpose_centre, 0, move_number);
    const std::vector<std::size_t> centres = numerics::systematic_resample(weights, stream.uniform(), information_centres);
    std::vector<numerics::SquareMatrix> told(centres.size(), numerics::SquareMatrix(0));
    run(centres.size(), [&](std::size_t c) {
      numerics::ParticleTable centre(model_->dimension(), 1);
      for (std::size_t row = 0; row < drawn_; ++row) centre(row, 0) = all(row, centres[c]);
      told[c] = model_->information(centre, absorbed_, let_in);
    });
    numerics::SquareMatrix mean(drawn_);
    for (const numerics::SquareMatrix& one : told)
      for (std::size_t row = 0; row < drawn_; ++row)
        for (std::size_t column = 0; column < drawn_; ++column) mean(row, column) += one(row, column) / static_cast<double>(told.size());
    return informed_reference(all, weights, mean);
  } else {
    return fitted_reference(all, weights);
  }
}

/// Runs proposals through all data so far. Returns those not yet ruled out: column j of the path is particle result[j].
template <SequentialModel Model>
std::vector<std::uint32_t> Smc<Model>::replay(Block& proposed, const Block& now, double let_in, std::span<const double> log_ratio,
                                              std::span<const double> log_uniform) const {
  const std::size_t size = settings_.block;
  proposed.absorbed.assign(size, 0.0);
  proposed.latest.assign(size, 0.0);
  proposed.path.emplace(model_->start(proposed.unknowns));
  std::vector<std::uint32_t> alive(size);
  for (std::size_t i = 0; i < size; ++i) alive[i] = static_cast<std::uint32_t>(i);
  numerics::ParticleTable narrowed;  // unknowns of those alive, once some have been dropped
  std::vector<double> score(size);
  for (std::size_t datum = 0; datum <= absorbed_; ++datum) {
    const std::span<double> scores(score.data(), alive.size());
    model_->score(*proposed.path, alive.size() == size ? proposed.unknowns : narrowed, datum, scores);
    for (std::size_t at = 0; at < alive.size(); ++at) (datum < absorbed_ ? proposed.absorbed : proposed.latest)[alive[at]] += scores[at];
    if constexpr (EarlyRejecting<Model>) {
      std::vector<std::uint32_t> columns, still;
      for (std::size_t at = 0; at < alive.size(); ++at) {
        const std::size_t i = alive[at];
        const double most = proposed.absorbed[i] - now.absorbed[i] + let_in * (proposed.latest[i] - now.latest[i]) + log_ratio[i];
        if (!(most >= log_uniform[i])) continue;
        columns.push_back(static_cast<std::uint32_t>(at));
        still.push_back(alive[at]);
      }
      if (still.empty()) return still;
      if (datum < absorbed_ && still.size() * 8 > alive.size() * 7) continue;  // too few to be worth the copying
      if (still.size() == alive.size()) continue;
      proposed.path.emplace(proposed.path->kept(columns));
      alive = std::move(still);
      narrowed = numerics::ParticleTable(proposed.unknowns.rows(), alive.size());
      for (std::size_t row = 0; row < drawn_; ++row)
        for (std::size_t at = 0; at < alive.size(); ++at) narrowed(row, at) = proposed.unknowns(row, alive[at]);
    }
  }
  return alive;
}

template <SequentialModel Model>
void Smc<Model>::run_chains(std::size_t group, double let_in, const Reference& reference, std::uint32_t move_number,
                            const std::vector<std::size_t>& ancestors, std::vector<Block>& out, double& accepted) const {
  const std::size_t size = settings_.block, groups = settings_.chains / size;
  Block now;
  now.unknowns = numerics::ParticleTable(model_->dimension(), size);
  now.absorbed.resize(size);
  now.latest.resize(size);
  now.path = *blocks_[group].path;
  numerics::ParticleTable place(drawn_, size), place_to(drawn_, size), offset(drawn_, size);
  std::vector<numerics::RandomStream> streams;
  for (std::size_t i = 0; i < size; ++i) {
    const std::size_t from = ancestors[group * size + i];
    const Block& source = blocks_[from / size];
    const std::size_t at = from % size;
    now.path->take(i, *source.path, at);
    now.absorbed[i] = source.absorbed[at];
    now.latest[i] = source.latest[at];
    for (std::size_t row = 0; row < drawn_; ++row) {
      now.unknowns(row, i) = source.unknowns(row, at);
      place_to(row, i) = now.unknowns(row, i) - reference.mean[row];
    }
    streams.emplace_back(settings_.seed, purpose_chain, static_cast<std::uint32_t>(group * size + i), move_number);
  }
  multiply(reference.in, place_to, place);
  out[group] = now;
  std::size_t accepted_count = 0;
  const std::size_t steps_a_state = std::max<std::size_t>(1, settings_.full_cost_data / (absorbed_ + 1));
  const std::size_t steps = (settings_.chain_length - 1) * steps_a_state;
  for (std::size_t s = 1; s <= steps; ++s) {
    // Most are drawn anew from the reference; now and then a stride that keeps part of the old place, and a plain random walk, which also
    // serves particles that lie where the reference is too thin. The rhythm was chosen by the spread of answers over seeds. What the data
    // tell nothing of is drawn anew each time.
    const bool walk = s % 4 == 3, part_way = s % 4 == 1;
    const double stride = walk ? 0.75 * stride_ : part_way ? stride_ : 1.0;
    const double keep = walk ? 1.0 : std::sqrt(1.0 - stride * stride);
    Block proposed;
    proposed.unknowns = numerics::ParticleTable(model_->dimension(), size);
    std::vector<double> log_ratio(size), log_uniform(size);
    for (std::size_t i = 0; i < size; ++i) {
      double gain = 0.0;
      for (std::size_t row = 0; row < drawn_; ++row) {
        const bool told = row < reference.informed;
        const double to = told ? keep * place(row, i) + stride * streams[i].normal() : streams[i].normal();
        if (!told || !walk) gain += 0.5 * (to * to - place(row, i) * place(row, i));
        place_to(row, i) = to;
      }
      log_ratio[i] = gain;
      log_uniform[i] = std::log(streams[i].uniform());
    }
    multiply(reference.out, place_to, offset);
    for (std::size_t row = 0; row < drawn_; ++row)
      for (std::size_t i = 0; i < size; ++i) {
        const double before = now.unknowns(row, i), after = offset(row, i) + reference.mean[row];
        proposed.unknowns(row, i) = after;
        log_ratio[i] += 0.5 * (before * before - after * after);
      }
    const std::vector<std::uint32_t> alive = replay(proposed, now, let_in, log_ratio, log_uniform);
    for (std::size_t at = 0; at < alive.size(); ++at) {
      const std::size_t i = alive[at];
      const double gain = proposed.absorbed[i] - now.absorbed[i] + let_in * (proposed.latest[i] - now.latest[i]) + log_ratio[i];
      if (!(gain >= log_uniform[i])) continue;  // also when NaN
      ++accepted_count;
      now.absorbed[i] = proposed.absorbed[i];
      now.latest[i] = proposed.latest[i];
      now.path->take(i, *proposed.path, at);
      for (std::size_t row = 0; row < drawn_; ++row) {
        now.unknowns(row, i) = proposed.unknowns(row, i);
        place(row, i) = place_to(row, i);
      }
    }
    if (s % steps_a_state == 0) out[s / steps_a_state * groups + group] = now;
  }
  accepted = static_cast<double>(accepted_count) / static_cast<double>(size * steps);
}

}  // namespace redd::inference
