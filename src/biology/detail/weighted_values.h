#pragma once
// Quantiles of weighted values, and points that fill a cube evenly without chance.

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
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

/// Points that fill the seven-dimensional unit cube evenly: the first 2^log2_count of a Sobol sequence, each in the
/// middle of its cell, so that every side is divided into equal steps exactly. Source  [joe2008], primitive polynomials
/// and initial numbers of dimensions 1-7 (from memory; the tests check the evenness they give).
class EvenPoints {
 public:
  static constexpr std::size_t dimensions = 7;
  explicit EvenPoints(unsigned log2_count);
  std::size_t count() const { return std::size_t{1} << bits_; }
  /// index < count(). Never on a face of the cube.
  std::array<double, dimensions> point(std::size_t index) const;

 private:
  unsigned bits_;
  std::array<std::array<std::uint32_t, 32>, dimensions> directions_{};
};

}  // namespace redd::biology::detail
