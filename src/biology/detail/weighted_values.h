#pragma once
// Quantiles of weighted values, and points that fill a cube evenly without chance.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <utility>
#include <vector>

namespace redd::biology::detail {

/// Values with weights, sorted once and then asked for quantiles.
class WeightedValues {
 public:
  explicit WeightedValues(std::vector<std::pair<double, double>> value_and_weight)
      : items_(std::move(value_and_weight)) {
    std::sort(items_.begin(), items_.end());
    for (const auto& [value, weight] : items_) total_ += weight;
  }

  /// Between neighbours a straight line, each value standing in the middle of its own weight.
  double quantile(double probability) const {
    const double wanted = probability * total_;
    double passed = 0.0;
    const std::pair<double, double>* before = nullptr;
    double before_middle = 0.0;
    for (const auto& item : items_) {
      if (item.second <= 0.0) continue;
      const double middle = passed + item.second / 2.0;
      if (middle >= wanted) {
        if (before == nullptr) return item.first;
        return before->first + (wanted - before_middle) / (middle - before_middle) * (item.first - before->first);
      }
      before = &item;
      before_middle = middle;
      passed += item.second;
    }
    return before == nullptr ? 0.0 : before->first;
  }

 private:
  std::vector<std::pair<double, double>> items_;
  double total_ = 0.0;
};

/// The index-th point of an additive lattice in the unit cube; never on its faces.
/// Source  [roberts2018], the R_d sequence: steps are powers of 1/g, g the real root of g^(d+1) = g + 1.
template <std::size_t dimensions>
class EvenPoints {
 public:
  EvenPoints() {
    double root = 1.5;
    for (int i = 0; i < 60; ++i) root = std::pow(1.0 + root, 1.0 / (dimensions + 1.0));
    double step = 1.0;
    for (double& each : steps_) each = step /= root;
  }

  std::array<double, dimensions> point(std::size_t index) const {
    std::array<double, dimensions> result;
    for (std::size_t d = 0; d < dimensions; ++d) {
      const double place = 0.5 + steps_[d] * static_cast<double>(index + 1);
      result[d] = std::clamp(place - std::floor(place), 1e-9, 1.0 - 1e-9);
    }
    return result;
  }

 private:
  std::array<double, dimensions> steps_;
};

}  // namespace redd::biology::detail
