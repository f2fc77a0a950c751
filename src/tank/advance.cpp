#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "chemistry/activity.h"
#include "numerics/lanes.h"
#include "quantities/result.h"
#include "tank/conditions.h"
#include "tank/detail/kernel.h"
#include "tank/detail/rates.h"
#include "tank/ensemble.h"

namespace redd::tank {
namespace {

/// Blocks handed to a worker at once: about a millisecond of work for a season.
constexpr std::size_t blocks_at_once = 16;

using Kernel = BlockReport (*)(const BlockJob&, std::size_t);

Kernel kernel_of_this_machine(bool single_precision) {
#if defined(__x86_64__)
  if (__builtin_cpu_supports("avx2")) return single_precision ? advance_block_wide_single : advance_block_wide;
#endif
  return single_precision ? advance_block_plain_single : advance_block_plain;
}

void add_to(AdvanceReport& total, const BlockReport& part) {
  total.steps += part.steps;
  total.rejected += part.rejected;
  total.cautious += part.cautious;
  total.sound = total.sound && part.sound;
}

}  // namespace

AdvanceReport advance(Ensemble& ensemble, const Forcing& forcing, double from_day, double to_day, numerics::Workers& workers,
                      Tolerance tolerance) {
  AdvanceReport report;
  double volume_l = ensemble.volume_l();
  const std::vector<Stretch> stretches = stretches_of(forcing, from_day, to_day, volume_l, tolerance.join_days);
  if (stretches.empty() || ensemble.size() == 0) return report;

  const BlockJob job{ensemble.padded(Quantity{}), ensemble.padded(Parameter{}), ensemble.step_days(), ensemble.stride(),
                     stretches.data(), stretches.size(), tolerance.relative, tolerance.floor_factor};
  const std::size_t block_size = tolerance.single_precision ? numerics::float_lane_count : numerics::lane_count;
  const std::size_t blocks = (ensemble.size() + block_size - 1) / block_size;
  const std::size_t groups = (blocks + blocks_at_once - 1) / blocks_at_once;
  const Kernel kernel = kernel_of_this_machine(tolerance.single_precision);
  std::vector<BlockReport> reports(blocks);
  workers.for_each(groups, [&](std::size_t group) {
    const std::size_t end = std::min(blocks, (group + 1) * blocks_at_once);
    for (std::size_t block = group * blocks_at_once; block < end; ++block) reports[block] = kernel(job, block);
  });
  for (const BlockReport& part : reports) add_to(report, part);

  double concentrating = 1.0;
  for (const Stretch& stretch : stretches) concentrating *= stretch.concentrating;
  if (concentrating != 1.0)
    for (double& hardness : ensemble.column(Quantity::hardness)) hardness *= concentrating;
  ensemble.set_volume_l(volume_l);
  ensemble.set_temperature_c(stretches.back().at_end.temperature_c);
  return report;
}

AdvanceReport advance(Ensemble& ensemble, const Forcing& forcing, double from_day, double to_day, Tolerance tolerance) {
  numerics::SerialWorkers alone;
  return advance(ensemble, forcing, from_day, to_day, alone, tolerance);
}

AdvanceReport advance(OneTank& tank, const Forcing& forcing, double from_day, double to_day, Tolerance tolerance) {
  Ensemble one(1, tank.volume_l);
  one.set(0, tank.state, tank.parameters);
  const AdvanceReport report = advance(one, forcing, from_day, to_day, tolerance);
  tank.state = one.state(0);
  tank.volume_l = one.volume_l();
  return report;
}

namespace {

double ph_for(double alkalinity_meq_per_l, double carbon_mmol_per_l, const WaterConstants& water, double debye_huckel) {
  const double ionic = 1e-3 * alkalinity_meq_per_l;
  const double root = std::sqrt(ionic);
  const double screening = std::exp(debye_huckel * (root / (1.0 + root) - 0.3 * ionic));
  Moment<double> now{};
  now.k1 = water.k1 * screening;
  now.k2 = water.k2 * screening * screening * screening;
  now.kw = water.kw * screening;
  return 3.0 - std::log10(hydrogen_for(alkalinity_meq_per_l, carbon_mmol_per_l, now, screening));
}

double debye_huckel_at(double temperature_c) {
  return std::numbers::ln10 * chemistry::debye_huckel_a(Temperature::from_c(temperature_c));
}

}  // namespace

void ph_of(const Ensemble& ensemble, double temperature_c, std::span<double> ph) {
  require(ph.size() == ensemble.size(), "ph_of", "the result has another size than the ensemble");
  const WaterConstants water = water_constants(temperature_c, {});
  const double debye_huckel = debye_huckel_at(temperature_c);
  const auto alkalinity = ensemble.column(Quantity::alkalinity);
  const auto carbon = ensemble.column(Quantity::inorganic_carbon);
  for (std::size_t i = 0; i < ph.size(); ++i) ph[i] = ph_for(alkalinity[i], carbon[i], water, debye_huckel);
}

Ph ph_of(const TankState& state, Temperature temperature) {
  return Ph::from_ph(ph_for(state.alkalinity_meq_per_l, state.inorganic_carbon_mmol_per_l, water_constants(temperature.c(), {}),
                             debye_huckel_at(temperature.c())));
}

}  // namespace redd::tank
