#pragma once
// What could be done before a load meets its limit, and what the view had to take for granted. In order of how gladly a keeper should do them.

#include "planning/loading.h"

namespace redd::planning {

/// In      view: with days, sizes, air and filter filled in.
std::vector<LoadOption> load_options(const LoadingView& view, const LoadReached& reached, const LoadingCase& now);
/// In      view: with everything else filled in.
std::vector<Sentence> load_assumptions(const LoadingView& view, const LoadingCase& now);

}  // namespace redd::planning
