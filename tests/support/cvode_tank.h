#pragma once
// The second statement of the tank solved by CVODE (SUNDIALS), for comparisons of accuracy and cost. Only where SUNDIALS is installed.

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#include <algorithm>
#include <cstdio>
#include <vector>

#include "support/plain_tank.h"

namespace redd::tests {

inline constexpr int cvode_days = 60;
inline constexpr int look_every_days = 5;

class Cvode {
 public:
  Cvode() {
    SUNContext_Create(nullptr, &context_);
    y_ = N_VNew_Serial(tank::integrated_count, context_);
    tolerance_ = N_VNew_Serial(tank::integrated_count, context_);
    matrix_ = SUNDenseMatrix(tank::integrated_count, tank::integrated_count, context_);
    solver_ = SUNLinSol_Dense(y_, matrix_, context_);
    memory_ = CVodeCreate(CV_BDF, context_);
    CVodeInit(memory_, &right_side, 0.0, y_);
  }
  ~Cvode() {
    CVodeFree(&memory_);
    SUNLinSolFree(solver_);
    SUNMatDestroy(matrix_);
    N_VDestroy(y_);
    N_VDestroy(tolerance_);
    SUNContext_Free(&context_);
  }

  /// Values every look_every_days days. `restart`: begin anew at each day's change of conditions (needed for high accuracy);
  /// otherwise the solver steps over the changes and finds them by its error control, which is cheaper at low accuracy.
  std::vector<Values> solve(const RandomCase& c, double relative, double floor_factor, bool restart) {
    double volume_l = c.volume_l;
    const auto stretches = tank::stretches_of(c.forcing, 0.0, cvode_days, volume_l);
    const Values floors{1e-3, 1e-3, 1e-3, 1e-3, 1e-12, 1e-12, 1e-3, 0.05, 1e-3, 1e-3, 1e-3};
    for (std::size_t i = 0; i < floors.size(); ++i) NV_Ith_S(tolerance_, i) = relative * floor_factor * floors[i];
    Values y = values_of(c.state);
    std::vector<Values> seen;
    double day = 0.0;
    bool first = true;
    for (std::size_t s = 0; s < stretches.size(); ++s) {
      begin(y, c.parameters, stretches[s]);
      Problem problem{PlainTank(c.parameters, stretches[s], y), day};
      const bool jumped = stretches[s].sudden_cooling_c > 0.0;  // then y was changed and the history is of no use
      if (restart || first || jumped) {
        std::copy(y.begin(), y.end(), NV_DATA_S(y_));
        CVodeReInit(memory_, day, y_);
        CVodeSVtolerances(memory_, relative, tolerance_);
        if (first) CVodeSetLinearSolver(memory_, solver_, matrix_);
        CVodeSetMaxNumSteps(memory_, 1000000);
        CVodeSetErrFile(memory_, nullptr);
        first = false;
      }
      CVodeSetUserData(memory_, &problem);
      CVodeSetStopTime(memory_, day + stretches[s].days);
      double reached = day;
      if (CVode(memory_, day + stretches[s].days, y_, &reached, CV_NORMAL) < 0) std::fprintf(stderr, "CVODE failed\n");
      day += stretches[s].days;
      std::copy(NV_DATA_S(y_), NV_DATA_S(y_) + y.size(), y.begin());
      if ((s + 1) % look_every_days == 0) seen.push_back(y);
    }
    return seen;
  }

 private:
  struct Problem {
    PlainTank model;
    double begin;
  };
  static int right_side(double t, N_Vector y, N_Vector dy, void* problem) {
    const auto& p = *static_cast<Problem*>(problem);
    p.model.rates_of_change(t - p.begin, NV_DATA_S(y), NV_DATA_S(dy));
    return 0;
  }
  SUNContext context_ = nullptr;
  N_Vector y_, tolerance_;
  SUNMatrix matrix_;
  SUNLinearSolver solver_;
  void* memory_;
};

}  // namespace redd::tests
