#pragma once
// Small dense linear systems and Gauss-Legendre quadrature, for integral equations of a few hundred unknowns.

#include <cstddef>
#include <optional>
#include <vector>

namespace redd::numerics {

/// A square matrix, row by row.
class SquareMatrix {
 public:
  explicit SquareMatrix(std::size_t size) : size_(size), entries_(size * size, 0.0) {}
  std::size_t size() const { return size_; }
  double& operator()(std::size_t row, std::size_t column) { return entries_[row * size_ + column]; }
  double operator()(std::size_t row, std::size_t column) const { return entries_[row * size_ + column]; }

 private:
  std::size_t size_;
  std::vector<double> entries_;
};

/// x with matrix * x = right_side, by elimination with row pivoting; nothing when the matrix is singular to rounding.
std::optional<std::vector<double>> solved(SquareMatrix matrix, std::vector<double> right_side);

/// Eigenvalues, falling, and eigenvectors (column k belongs to value k) of a symmetric matrix.
///
/// Shape   by Jacobi rotations: exact to rounding, quick where most entries are zero; a millisecond or two for 50.
/// Errors  none: a matrix with NaN gives NaN.
struct Eigen {
  std::vector<double> values;
  SquareMatrix vectors;
};
Eigen symmetric_eigen(SquareMatrix matrix);

struct Quadrature {
  std::vector<double> nodes;    ///< increasing
  std::vector<double> weights;  ///< sum to high - low
};

/// Gauss-Legendre rule of `count` nodes on [low, high]: exact for polynomials of degree 2 count - 1.
Quadrature gauss_legendre(std::size_t count, double low, double high);

}  // namespace redd::numerics
