#pragma once
// Random inputs for the laws: plain numbers in a range, and only finite ones.

#include <gtest/gtest.h>
// after GoogleTest, which it expects
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace redd::properties {

/// A number between low and high, on a grid of a million steps (so that failing cases shrink to readable ones).
inline rc::Gen<double> between(double low, double high) {
  return rc::gen::map(rc::gen::inRange(0, 1000001), [low, high](int step) { return low + (high - low) * step / 1e6; });
}

}  // namespace redd::properties
