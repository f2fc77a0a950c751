#pragma once
// How much nitrite fish bear, which depends on chloride: both enter through the same gate in the gill.

#include <optional>

#include "quantities/nitrogen.h"

namespace redd::chemistry {

struct NitriteLimit {
  NitrogenConc mean;     ///< thirty-day mean
  NitrogenConc maximum;  ///< at no time
};

/// Nitrite guideline for fresh-water life.
///
/// In      chloride_mg_per_l: >= 0; nothing when unknown, which is taken as the strictest class (below 2 mg/L).
/// Out     mean 0.02 mg N/L below 2 mg/L chloride, 0.02 more for each further 2 mg/L up to 0.10, and 0.20 above 10; maximum three times the mean.
/// Source  [meays2009], nitrite table.  Differs: a chloride on a class border belongs to the upper class, except 10.
NitriteLimit nitrite_limit(std::optional<double> chloride_mg_per_l);

}  // namespace redd::chemistry
