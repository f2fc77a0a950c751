#pragma once
// Linearly implicit (Rosenbrock) steps for stiff ordinary differential equations: every stage solves one linear system with the
// derivative of the right-hand side, no iteration. Linear sums that the equations conserve are conserved to rounding.
// Start at solve_stiff() for one small system; the tables of coefficients serve the steppers for many systems too.

#include <cstddef>
#include <cstdint>
#include <functional>
#include <span>
#include <vector>

namespace redd::numerics {

/// Coefficients in the form that needs no product with the derivative:
///   (1/(h gamma) - J) k_i = f(y + sum a_ij k_j) + sum c_ij/h k_j,   y_new = y + sum m_i k_i,   error = sum e_i k_i.
struct RosenbrockMethod {
  int stages;
  int order;            ///< of the accepted solution; the error estimate is one order lower
  double gamma;
  double a[6][6];
  double c[6][6];
  double m[6];
  double e[6];
  bool new_evaluation[6];  ///< false: this stage uses the right-hand side of the stage before
};

/// Order 4, L-stable, four stages, three evaluations.
/// Source  [hairer1996], Table IV.7.2, L-stable method, in the form of the KPP library [sandu2006]; from memory, order checked by test.
inline constexpr RosenbrockMethod ros4{
    4, 4, 0.5728200000000000,
    {{}, {2.0}, {1.867943637803922, 0.2344449711399156}, {1.867943637803922, 0.2344449711399156, 0.0}},
    {{},
     {-7.137615036412310},
     {2.580708087951457, 0.6515950076447975},
     {-2.137148994382534, -0.3214669691237626, -0.6949742501781779}},
    {2.255570073418735, 0.2870493262186792, 0.4353179431840180, 1.093502252409163},
    {-0.2815431932141155, -0.07276199124934920, -0.1082196201495311, -1.093502252409163},
    {true, true, true, false}};

/// Order 3, L-stable and stiffly accurate, four stages, three evaluations.
/// Source  RODAS3 of [sandu1997]; from memory, order checked by test.
inline constexpr RosenbrockMethod rodas3{
    4, 3, 0.5,
    {{}, {0.0}, {2.0, 0.0}, {2.0, 0.0, 1.0}},
    {{}, {4.0}, {1.0, -1.0}, {1.0, -1.0, -8.0 / 3.0}},
    {2.0, 0.0, 1.0, 1.0},
    {0.0, 0.0, 0.0, 1.0},
    {true, false, true, true}};

/// Order 4, L-stable and stiffly accurate, six stages.
/// Source  RODAS of [hairer1996], section IV.7, in the form of the KPP library [sandu2006]; from memory, order checked by test.
inline constexpr RosenbrockMethod rodas4{
    6, 4, 0.25,
    {{},
     {1.544},
     {0.9466785280815826, 0.2557011698983284},
     {3.314825187068521, 2.896124015972201, 0.9986419139977817},
     {1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950},
     {1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950, 1.0}},
    {{},
     {-5.6688},
     {-2.430093356833875, -0.2063599157091915},
     {-0.1073529058151375, -9.594562251023355, -20.47028614809616},
     {7.496443313967647, -10.24680431464352, -33.99990352819905, 11.70890893206160},
     {8.083246795921522, -7.981132988064893, -31.52159432874371, 16.31930543123136, -6.058818238834054}},
    {1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950, 1.0, 1.0},
    {0.0, 0.0, 0.0, 0.0, 0.0, 1.0},
    {true, true, true, true, true, true}};

/// A small autonomous system y' = f(y).
struct StiffSystem {
  std::size_t size;
  std::function<void(std::span<const double> y, std::span<double> dy)> f;
  /// df_i/dy_j, row by row; without it differences of f are used.
  std::function<void(std::span<const double> y, std::span<double> jacobian)> jacobian;
};

struct SolveTolerance {
  double relative = 1e-6;
  double absolute = 1e-12;
};

struct SolveReport {
  std::int64_t steps = 0;
  std::int64_t rejected = 0;
  bool reached = false;  ///< the end was reached; false when the step shrank to nothing or a value was not finite
};

/// Moves y from one time to another with error control.
///
/// In      y: size() values, overwritten.  A system with time in it carries time as one more value.
/// Out     error of each step below relative x |y| + absolute, in the largest component.
/// Errors  none thrown; see SolveReport::reached.
SolveReport solve_stiff(const RosenbrockMethod& method, const StiffSystem& system, std::span<double> y, double from, double to,
                        SolveTolerance tolerance = {});

/// The same with `count` equal steps and no error control, for checks of order.
SolveReport solve_stiff_in_equal_steps(const RosenbrockMethod& method, const StiffSystem& system, std::span<double> y, double from,
                                       double to, std::int64_t count);

}  // namespace redd::numerics
