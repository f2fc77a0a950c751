#include "tank/conditions.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "chemistry/activity.h"
#include "chemistry/ammonia.h"
#include "chemistry/oxygen.h"
#include "tank/processes.h"

namespace redd::tank {
namespace {

/// A tank never dries up altogether; below this share of its volume in one day evaporation is not believed.
constexpr double least_share_left = 0.05;
/// Stretches shorter than this are rounding of day numbers.
constexpr double least_stretch_days = 1e-9;

/// Part of one entry of the forcing.
struct Piece {
  DayForcing day;
  double days, from_c, to_c;
};

double length_of(const std::vector<Piece>& run) {
  double days = 0.0;
  for (const Piece& piece : run) days += piece.days;
  return days;
}

/// Loads of a run as one day, so that what they bring in all stays the same. Of breathing the last piece counts: gases forget the rest
/// within the hour, and a reading is taken at the end.
DayForcing mean_of(const std::vector<Piece>& run) {
  DayForcing mean = run.front().day;
  if (run.size() == 1) return mean;
  const double days = length_of(run);
  for (double DayForcing::*load : {&DayForcing::excretion_mg_n_per_day, &DayForcing::ammonium_salt_mg_n_per_day, &DayForcing::organic_mg_n_per_day,
                                   &DayForcing::evaporation_l_per_day}) {
    mean.*load = 0.0;
    for (const Piece& piece : run) mean.*load += piece.day.*load * (piece.days / days);
  }
  mean.oxygen_use_mg_o2_per_day = run.back().day.oxygen_use_mg_o2_per_day;
  return mean;
}

/// Slope of the straight line that brings as much as a load's pieces, and as late in the mean, a day.
double ramp_of(const std::vector<Piece>& run, double DayForcing::*load) {
  if (run.size() == 1) return 0.0;
  const double days = length_of(run);
  double at = -0.5 * days, moment = 0.0;
  for (const Piece& piece : run) {
    moment += piece.days * (at + 0.5 * piece.days) * piece.day.*load;
    at += piece.days;
  }
  return 12.0 * moment / (days * days * days);
}

/// Whether days can be taken as one stretch without a difference that matters to a sampler.
/// Assumed: temperature within 0.25 C of a straight line (2 % of a rate for part of a day) that spans at most 2 C (the straight line of
///         the rates then lies within 0.5 % of their curve); loads of nitrogen within 0.0005 mg N/L/day and 2 % of a straight line, which the step
///         follows; oxygen use within a third, evaporation within a fifth; at most a week.
bool may_be_one(const std::vector<Piece>& run, double volume_l) {
  constexpr double most_days = 7.0 + 1e-6, most_span_c = 2.0, most_off_c = 0.25, little_mg_n_per_l = 0.0005;
  const double days = length_of(run), from_c = run.front().from_c, span_c = run.back().to_c - from_c;
  if (days > most_days || std::abs(span_c) > most_span_c) return false;
  const DayForcing mean = mean_of(run);
  const double excretion_ramp = ramp_of(run, &DayForcing::excretion_mg_n_per_day), organic_ramp = ramp_of(run, &DayForcing::organic_mg_n_per_day);
  double at = 0.0;
  for (const Piece& piece : run) {
    const double from_middle = at + 0.5 * (piece.days - days);
    at += piece.days;
    if (std::abs(from_c + span_c * at / days - piece.to_c) > most_off_c) return false;
    if (piece.from_c - piece.to_c > kinetics::gradual_cooling_c_per_day * piece.days) return false;
    if (piece.day.air_co2_uatm != mean.air_co2_uatm || piece.day.air_pressure_mmhg != mean.air_pressure_mmhg) return false;
    const auto alike = [&](double DayForcing::*load, double ramp, double near, double little) {
      return std::abs(piece.day.*load - mean.*load - ramp * from_middle) <= near * std::abs(mean.*load) + little * volume_l;
    };
    if (!alike(&DayForcing::excretion_mg_n_per_day, excretion_ramp, 0.02, little_mg_n_per_l) ||
        !alike(&DayForcing::organic_mg_n_per_day, organic_ramp, 0.02, little_mg_n_per_l) ||
        !alike(&DayForcing::ammonium_salt_mg_n_per_day, 0.0, 0.0, little_mg_n_per_l) ||
        !alike(&DayForcing::oxygen_use_mg_o2_per_day, 0.0, 0.3, 0.02) || !alike(&DayForcing::evaporation_l_per_day, 0.0, 0.2, 1e-3))
      return false;
  }
  return true;
}

}  // namespace

DayForcing forcing_at(const Forcing& forcing, double day) {
  if (forcing.days.empty()) return {};
  const double index = std::floor(day - forcing.first_day);
  const double last = static_cast<double>(forcing.days.size() - 1);
  return forcing.days[static_cast<std::size_t>(std::clamp(index, 0.0, last))];
}

double temperature_c_at(const Forcing& forcing, double day) {
  const double index = std::floor(day - forcing.first_day);
  const double from_c = forcing_at(forcing, forcing.first_day + index).temperature_c;
  const double to_c = forcing_at(forcing, forcing.first_day + index + 1.0).temperature_c;
  return from_c + (day - forcing.first_day - index) * (to_c - from_c);
}

WaterConstants water_constants(double temperature_c, const DayForcing& air) {
  const Temperature temperature = Temperature::from_c(temperature_c);
  const auto k = chemistry::carbonate_constants(temperature, 0.0);
  const double above = temperature_c - kinetics::reference_temperature_c;
  const double dry = (air.air_pressure_mmhg - chemistry::vapor_pressure_mmhg(temperature)) / chemistry::standard_pressure_mmhg;
  return {.temperature_c = temperature_c,
          .k1 = 1e3 * k.k1_mixed,
          .k2 = 1e3 * k.k2_mixed,
          .kw = 1e6 * k.kw_mixed,
          .ammonium_k = 1e3 * std::exp(-std::numbers::ln10 * chemistry::ammonium_pka(temperature)),
          .oxygen_saturation = chemistry::oxygen_saturation(temperature, air.air_pressure_mmhg).mg_o2_per_l(),
          .carbon_dioxide_saturation = 1e-3 * air.air_co2_uatm * k.kh * dry,
          .ammonification_factor = std::pow(kinetics::ammonification_theta, above),
          .gas_transfer_factor = std::pow(kinetics::gas_transfer_theta, above)};
}

Stretch stretch_of(const DayForcing& day, double length_days, double from_c, double to_c, double volume_l) {
  const double per_l = 1.0 / volume_l;
  const double left = std::max(least_share_left, 1.0 - day.evaporation_l_per_day * length_days * per_l);
  Stretch s{};
  s.days = length_days;
  s.at_start = water_constants(from_c, day);
  s.at_end = water_constants(to_c, day);
  s.steady = from_c == to_c;
  s.sudden_cooling_c = std::max(0.0, from_c - to_c - kinetics::gradual_cooling_c_per_day * length_days);
  s.debye_huckel = std::numbers::ln10 * chemistry::debye_huckel_a(Temperature::from_c(0.5 * (from_c + to_c)));
  s.excretion = day.excretion_mg_n_per_day * per_l;
  s.ammonium_salt = day.ammonium_salt_mg_n_per_day * per_l;
  s.organic = day.organic_mg_n_per_day * per_l;
  s.oxygen_use = day.oxygen_use_mg_o2_per_day * per_l;
  s.concentrating = 1.0 / left;
  return s;
}

std::vector<Stretch> stretches_of(const Forcing& forcing, double from_day, double to_day, double& volume_l, bool join_days) {
  std::vector<Piece> run;  // pieces not yet made a stretch
  std::vector<Stretch> stretches;
  const auto finish_run = [&] {
    if (run.empty()) return;
    const DayForcing day = mean_of(run);
    stretches.push_back(stretch_of(day, length_of(run), run.front().from_c, run.back().to_c, volume_l));
    stretches.back().excretion_ramp = ramp_of(run, &DayForcing::excretion_mg_n_per_day) / volume_l;
    stretches.back().organic_ramp = ramp_of(run, &DayForcing::organic_mg_n_per_day) / volume_l;
    volume_l /= stretches.back().concentrating;
    run.clear();
  };
  double day = from_day;
  while (to_day - day > least_stretch_days) {
    const double border = forcing.first_day + std::floor(day - forcing.first_day + least_stretch_days) + 1.0;
    const double end = to_day - border < least_stretch_days ? to_day : border;
    run.push_back({forcing_at(forcing, day + least_stretch_days), end - day, temperature_c_at(forcing, day), temperature_c_at(forcing, end)});
    if (run.size() > 1 && !(join_days && may_be_one(run, volume_l))) {
      const Piece next = run.back();
      run.pop_back();
      finish_run();
      run.push_back(next);
    }
    day = end;
  }
  finish_run();
  return stretches;
}

}  // namespace redd::tank
