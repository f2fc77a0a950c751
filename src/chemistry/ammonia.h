#pragma once
// Ammonia in fresh water: how the total divides into harmless ammonium and toxic un-ionized ammonia, and the published limits
// of the total. Start at un_ionized_fraction(). Pure functions: no state, no files, safe from any thread.

#include "quantities/nitrogen.h"
#include "quantities/temperature.h"
#include "quantities/water.h"

namespace redd::chemistry {

/// Acid constant of ammonium in pure water, negative base-10 logarithm.
///
/// In      temperature: fresh water, 0-50 C.
/// Out     10.08 at 0 C, falling to 8.54 at 50 C.
/// Source  [emerson1975]: 0.09018 + 2729.92 / kelvin.  Differs: kelvin = C + 273.15, which reproduces the printed table
///         (273.2 gives 0.4 % more).  Erratum: one public manual prints the slope as 2727.92.
double ammonium_pka(Temperature temperature);

/// Fraction of total ammonia that is un-ionized.
///
/// In      temperature: 0-50 C.  ph: activity scale, about 5-12.  ionic_strength_mol_per_l: 0-0.1; zero is the published table
///         and errs to the safe side (more un-ionized).
/// Out     0-1, rising with temperature and pH, falling with ionic strength.
/// Errors  none. Outside the range the value extrapolates and ammonia_in_fitted_range() is false.
/// Source  [emerson1975]; ionic strength by the activity of ammonium, [davies1962].
double un_ionized_fraction(Temperature temperature, Ph ph, double ionic_strength_mol_per_l = 0.0);

/// Un-ionized part of this total.
NitrogenConc un_ionized(NitrogenConc total, Temperature temperature, Ph ph, double ionic_strength_mol_per_l = 0.0);

/// The total that holds this much un-ionized ammonia.
NitrogenConc total_with_un_ionized(NitrogenConc un_ionized, Temperature temperature, Ph ph, double ionic_strength_mol_per_l = 0.0);

bool ammonia_in_fitted_range(Temperature temperature, Ph ph, double ionic_strength_mol_per_l = 0.0);

/// US criteria as total ammonia. The chronic criterion protects early life stages of fish everywhere (the 2013 document makes no
/// allowance for their absence); it still lies above concentrations that killed newly fertilised trout eggs, see limits.h.
///
/// In      temperature: 0-30 C.  ph: 6.5-9.0.
/// Out     acute: one-hour mean.  chronic: thirty-day mean; the highest four-day mean within it may reach 2.5 times as much.
///         Neither to be exceeded more than once in three years.
/// Source  [epa2013], national acute criterion with and without salmonids (genus Oncorhynchus) and national chronic criterion; the
///         equations were read in a public transcription of the Oregon rule that adopts them, and its tables are reproduced.
NitrogenConc acute_criterion_epa2013(Temperature temperature, Ph ph, bool salmonids);
NitrogenConc chronic_criterion_epa2013(Temperature temperature, Ph ph);
inline constexpr double four_day_over_chronic_epa2013 = 2.5;
bool epa2013_in_fitted_range(Temperature temperature, Ph ph);

/// Older US chronic criterion (four-day mean) with salmonids present, still used in British Columbia.
///
/// In      temperature: 0-30 C (constant from 15 C up, salmonids' cap).  ph: 6.5-9.0.
/// Source  [epa1985].  Differs: 273.15 instead of 273.2, see ammonium_pka().
NitrogenConc chronic_criterion_epa1985_salmonids(Temperature temperature, Ph ph);

/// Canadian long-term guideline as total ammonia: 0.019 mg/L un-ionized (as NH3) at this temperature and pH.
/// Source  [ccme2010].
NitrogenConc long_term_guideline_ccme(Temperature temperature, Ph ph);

}  // namespace redd::chemistry
