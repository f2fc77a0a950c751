#include "tank/ensemble.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <limits>

#include "numerics/lanes.h"
#include "quantities/result.h"
#include "tank/processes.h"

namespace redd::tank {
namespace {

constexpr std::size_t column_count = quantity_count + parameter_count + 1;  // and the step

constexpr double first_step_days = 0.01;

std::size_t padded_size(std::size_t size) {
  return std::max<std::size_t>(1, (size + numerics::float_lane_count - 1) / numerics::float_lane_count) * numerics::float_lane_count;
}

// Both structs are plain rows of doubles in the order of the enumerations, so a particle is read and written as a row.
using StateRow = std::array<double, quantity_count>;
using ParameterRow = std::array<double, parameter_count>;
static_assert(sizeof(StateRow) == sizeof(TankState) && sizeof(ParameterRow) == sizeof(TankParameters));

}  // namespace

Ensemble::Ensemble(std::size_t size, double volume_l)
    : size_(size), stride_(padded_size(size)), volume_l_(volume_l), temperature_c_(std::numeric_limits<double>::quiet_NaN()),
      values_(column_count * stride_) {
  require(volume_l > 0.0, "Ensemble", "the volume is not above zero");
  for (std::size_t i = 0; i < stride_; ++i) {
    // Padding holds harmless values, so that it never shortens the steps of the particles beside it.
    const auto p = std::bit_cast<ParameterRow>(TankParameters{});
    for (std::size_t c = 0; c < parameter_count; ++c) values_[(quantity_count + c) * stride_ + i] = p[c];
    step_days()[i] = first_step_days;
  }
}

std::span<double> Ensemble::column(Quantity quantity) { return {padded(quantity), size_}; }
std::span<const double> Ensemble::column(Quantity quantity) const {
  return {values_.data() + static_cast<std::size_t>(quantity) * stride_, size_};
}
std::span<double> Ensemble::column(Parameter parameter) {
  return {values_.data() + (quantity_count + static_cast<std::size_t>(parameter)) * stride_, size_};
}
std::span<const double> Ensemble::column(Parameter parameter) const { return {padded(parameter), size_}; }

TankState Ensemble::state(std::size_t particle) const {
  StateRow row;
  for (std::size_t c = 0; c < quantity_count; ++c) row[c] = values_[c * stride_ + particle];
  return std::bit_cast<TankState>(row);
}

TankParameters Ensemble::parameters(std::size_t particle) const {
  ParameterRow row;
  for (std::size_t c = 0; c < parameter_count; ++c) row[c] = values_[(quantity_count + c) * stride_ + particle];
  return std::bit_cast<TankParameters>(row);
}

void Ensemble::set(std::size_t particle, const TankState& state, const TankParameters& parameters) {
  const auto s = std::bit_cast<StateRow>(state);
  const auto p = std::bit_cast<ParameterRow>(parameters);
  for (std::size_t c = 0; c < quantity_count; ++c) values_[c * stride_ + particle] = s[c];
  for (std::size_t c = 0; c < parameter_count; ++c) values_[(quantity_count + c) * stride_ + particle] = p[c];
  step_days()[particle] = first_step_days;
}

void Ensemble::select(std::span<const std::uint32_t> ancestors) {
  Ensemble next(ancestors.size(), volume_l_);
  next.temperature_c_ = temperature_c_;
  for (std::size_t c = 0; c < column_count; ++c)
    for (std::size_t i = 0; i < ancestors.size(); ++i)
      next.values_[c * next.stride_ + i] = values_[c * stride_ + ancestors[i]];
  *this = std::move(next);
}

void Ensemble::copy_particle(std::size_t to, const Ensemble& source, std::size_t from) {
  for (std::size_t c = 0; c < column_count; ++c) values_[c * stride_ + to] = source.values_[c * source.stride_ + from];
}

double total_nitrogen_mg_n_per_l(const TankState& state) {
  const auto row = std::bit_cast<StateRow>(state);
  double sum = 0.0;
  for (std::size_t i = 0; i < integrated_count; ++i) sum += content::nitrogen[i] * row[i];
  return sum;
}

void capacity_of(const Ensemble& ensemble, double temperature_c, std::span<double> capacity_mg_n_per_l_per_day) {
  require(capacity_mg_n_per_l_per_day.size() == ensemble.size(), "capacity_of", "the result has another size than the ensemble");
  const double above = temperature_c - kinetics::reference_temperature_c;
  for (std::size_t i = 0; i < ensemble.size(); ++i) {
    const TankState s = ensemble.state(i);
    const TankParameters p = ensemble.parameters(i);
    const double awake = 1.0 - s.cold_shock_fraction;
    const double full_a = p.ammonia_oxidiser_growth_per_day * s.ammonia_oxidisers_mg_cod_per_l / p.ammonia_oxidiser_yield_mg_cod_per_mg_n;
    const double full_n = p.nitrite_oxidiser_growth_per_day * s.nitrite_oxidisers_mg_cod_per_l / p.nitrite_oxidiser_yield_mg_cod_per_mg_n;
    const double a = full_a / (1.0 + full_a / p.filter_capacity_mg_n_per_l_per_day) * std::pow(p.ammonia_oxidiser_growth_theta, above) *
                     p.ammonia_oxidiser_activity;
    const double n = full_n / (1.0 + full_n / p.filter_capacity_mg_n_per_l_per_day) * std::pow(p.nitrite_oxidiser_growth_theta, above) *
                     p.nitrite_oxidiser_activity;
    capacity_mg_n_per_l_per_day[i] = awake * std::min(a, n);
  }
}

}  // namespace redd::tank
