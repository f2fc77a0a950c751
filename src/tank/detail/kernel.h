#pragma once
// The work that advance() hands out: four particles (eight in single precision) carried through several days. What crosses to and from the vector-unit-specific
// files is this plain description; blocks do not touch one another.

#include <cstddef>
#include <cstdint>

#include "tank/state.h"

namespace redd::tank {

/// What temperature makes of water and air.
struct WaterConstants {
  double temperature_c;
  double k1, k2, kw;             ///< mmol/L, at ionic strength zero
  double ammonium_k;             ///< mmol/L, likewise
  double oxygen_saturation, carbon_dioxide_saturation;
  double ammonification_factor, gas_transfer_factor;
};

/// What all particles share in one stretch within a day.
struct Stretch {
  double days;
  WaterConstants at_start, at_end;   ///< conditions run straight from one to the other
  bool steady;                   ///< both are the same
  double sudden_cooling_c;       ///< cooling in this stretch beyond what counts as gradual
  double debye_huckel;           ///< activity constant, natural logarithm
  double excretion, ammonium_salt, organic, oxygen_use;  ///< per litre and day, mean of the stretch
  double excretion_ramp, organic_ramp;  ///< how they rise, per litre and day squared
  double concentrating;          ///< factor by evaporation over the stretch
};

struct BlockJob {
  double* quantities;            ///< column after column, `stride` apart
  const double* parameters;
  double* step_days;
  std::size_t stride;
  const Stretch* stretches;
  std::size_t stretch_count;
  double relative_tolerance;
  double floor_factor;           ///< floors.h times this; bacteria apart
};

struct BlockReport {
  std::int64_t steps = 0, rejected = 0, cautious = 0;
  bool sound = true;
};

/// Carries the four particles of a block through all stretches. The two do the same sums; see advance.cpp for which is used.
BlockReport advance_block_plain(const BlockJob& job, std::size_t block);
BlockReport advance_block_wide(const BlockJob& job, std::size_t block);
/// The same for blocks of eight, in single precision.
BlockReport advance_block_plain_single(const BlockJob& job, std::size_t block);
BlockReport advance_block_wide_single(const BlockJob& job, std::size_t block);

}  // namespace redd::tank
