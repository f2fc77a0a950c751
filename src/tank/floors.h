#pragma once
// Amounts below which advance() stops caring about relative error. Assumed: each lies a hundred times or more below
// what any test of an aquarium can show; bacteria have practically none, because a tiny inoculum decides dates.

namespace redd::tank::floors {

inline constexpr double nitrogen_mg_n_per_l = 1e-3;
inline constexpr double biomass_mg_cod_per_l = 1e-12;
inline constexpr double debris_mg_cod_per_l = 1e-3;
inline constexpr double oxygen_mg_o2_per_l = 0.05;
inline constexpr double alkalinity_meq_per_l = 1e-3;
inline constexpr double carbon_mmol_per_l = 1e-3;
inline constexpr double shock_fraction = 1e-3;

/// The error of one step in oxygen and inorganic carbon counts this much less. Exchange with air forgets such errors within minutes, so they
/// do not add up; taken at full weight they would make the step follow every flicker of the gases (docs/decisions, integrator).
inline constexpr double gas_leniency = 0.02;

}  // namespace redd::tank::floors
