#pragma once
// The normal distribution around which the sampler's proposals move. Start at informed_reference(); fitted_reference() serves models that
// cannot say what their data tell.

#include <cstddef>
#include <span>
#include <vector>

#include "numerics/linear.h"
#include "numerics/weighted_samples.h"

namespace redd::inference {

/// unknowns = mean + out * place, where the places are standard normal; place = in * (unknowns - mean).
struct Reference {
  std::vector<double> mean;
  numerics::SquareMatrix out, in;
  std::size_t informed = 0;  ///< the first so many places are what the data tell of; the others are as before all data
};

/// For unknown numbers that are standard normal before all data.
///
/// In      unknowns, weights: a weighted sample, one row an unknown.  information: how sharply the data tell each combination of unknowns from
///         its neighbours, as a mean over the sample (Fisher information).
/// Out     in the directions the data tell something of, mean and covariance of the sample; in all others the prior itself. A sample
///         worth some hundreds then fits some ten directions well, where it would fit all fifty badly, and the directions nobody
///         knows anything of move freely.
/// Source  The subspace is that of Cui and others 2014 (likelihood-informed dimension reduction; from memory).
Reference informed_reference(const numerics::ParticleTable& unknowns, std::span<const double> weights, const numerics::SquareMatrix& information);

/// Mean and covariance of the sample in all directions.
Reference fitted_reference(const numerics::ParticleTable& unknowns, std::span<const double> weights);

/// out = matrix * in, particle by particle. Shape: `matrix.size()` rows of each table.
void multiply(const numerics::SquareMatrix& matrix, const numerics::ParticleTable& from, numerics::ParticleTable& to);

}  // namespace redd::inference
