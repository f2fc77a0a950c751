#pragma once
// Classic small systems with published solutions, and the five-quantity nitrogen model at fixed temperature and oxygen.

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "numerics/patankar.h"
#include "numerics/rosenbrock.h"

namespace redd::tests {

struct Problem {
  std::string name;
  numerics::StiffSystem system;
  std::vector<double> start;
};

/// Robertson's three reactions.
inline Problem robertson() {
  return {"robertson",
          {3,
           [](auto y, auto dy) {
             dy[0] = -0.04 * y[0] + 1e4 * y[1] * y[2];
             dy[2] = 3e7 * y[1] * y[1];
             dy[1] = -dy[0] - dy[2];
           },
           [](auto y, auto j) {
             const double full[9] = {-0.04, 1e4 * y[2], 1e4 * y[1], 0.04, -1e4 * y[2] - 6e7 * y[1], -1e4 * y[1], 0.0, 6e7 * y[1], 0.0};
             std::copy(full, full + 9, j.begin());
           }},
          {1.0, 0.0, 0.0}};
}

/// High irradiance response of a plant: eight reactions.
inline Problem hires() {
  return {"hires",
          {8,
           [](auto y, auto dy) {
             dy[0] = -1.71 * y[0] + 0.43 * y[1] + 8.32 * y[2] + 0.0007;
             dy[1] = 1.71 * y[0] - 8.75 * y[1];
             dy[2] = -10.03 * y[2] + 0.43 * y[3] + 0.035 * y[4];
             dy[3] = 8.32 * y[1] + 1.71 * y[2] - 1.12 * y[3];
             dy[4] = -1.745 * y[4] + 0.43 * y[5] + 0.43 * y[6];
             dy[5] = -280.0 * y[5] * y[7] + 0.69 * y[3] + 1.71 * y[4] - 0.43 * y[5] + 0.69 * y[6];
             dy[6] = 280.0 * y[5] * y[7] - 1.81 * y[6];
             dy[7] = -dy[6];
           },
           {}},
          {1.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0057}};
}

inline Problem brusselator() {
  return {"brusselator",
          {2,
           [](auto y, auto dy) {
             const double made = y[0] * y[0] * y[1];
             dy[0] = 1.0 + made - 4.0 * y[0];
             dy[1] = 3.0 * y[0] - made;
           },
           [](auto y, auto j) {
             j[0] = 2.0 * y[0] * y[1] - 4.0;
             j[1] = y[0] * y[0];
             j[2] = 3.0 - 2.0 * y[0] * y[1];
             j[3] = -y[0] * y[0];
           }},
          {1.5, 3.0}};
}

/// Constants of the nitrogen problem: 24 C, oxygen 8 mg/L, input 0.3 mg N/L/day; dead bacteria go straight to ammonia.
struct NitrogenConstants {
  double mu_a = 0.75 * std::pow(1.08, 4.0), mu_n = 0.70 * std::pow(1.06, 4.0);
  double b_a = 0.10 * std::pow(1.04, 4.0), b_n = 0.08 * std::pow(1.04, 4.0);
  double oxygen_a = 8.0 / 8.5, oxygen_n = 8.0 / 8.8;
  double y_a = 0.18, y_n = 0.06, k_t = 0.7, k_n = 0.5, i_n = 0.086, f_p = 0.08, input = 0.3;
};

inline Problem nitrogen() {
  return {"nitrogen",
          {5,
           [k = NitrogenConstants{}](auto y, auto dy) {
             const double a = k.mu_a * k.oxygen_a * y[0] / (k.k_t + y[0]) * y[3];
             const double n = k.mu_n * k.oxygen_n * y[1] / (k.k_n + y[1]) * y[4];
             const double died_a = k.b_a * y[3], died_n = k.b_n * y[4];
             dy[0] = k.input - (1.0 / k.y_a + k.i_n) * a - k.i_n * n + k.i_n * (1.0 - k.f_p) * (died_a + died_n);
             dy[1] = a / k.y_a - n / k.y_n;
             dy[2] = n / k.y_n;
             dy[3] = a - died_a;
             dy[4] = n - died_n;
           },
           {}},
          {3.0, 0.0, 5.0, 2e-4, 5e-5}};
}

/// The same as flows of nitrogen between ammonia, nitrite, nitrate and the two groups of bacteria (these as nitrogen).
inline numerics::FlowSystem nitrogen_flows() {
  return {5, [k = NitrogenConstants{}](auto y, auto flow, auto inflow, auto outflow) {
            std::fill(flow.begin(), flow.end(), 0.0);
            const double x_a = y[3] / k.i_n, x_n = y[4] / k.i_n;
            const double a = k.mu_a * k.oxygen_a * y[0] / (k.k_t + y[0]) * x_a;
            const double n = k.mu_n * k.oxygen_n * y[1] / (k.k_n + y[1]) * x_n;
            flow[1 * 5 + 0] = a / k.y_a;
            flow[2 * 5 + 1] = n / k.y_n;
            flow[3 * 5 + 0] = k.i_n * a;
            flow[4 * 5 + 0] = k.i_n * n;
            flow[0 * 5 + 3] = k.i_n * (1.0 - k.f_p) * k.b_a * x_a;
            flow[0 * 5 + 4] = k.i_n * (1.0 - k.f_p) * k.b_n * x_n;
            inflow[0] = k.input;
            inflow[1] = inflow[2] = inflow[3] = inflow[4] = 0.0;
            outflow[0] = outflow[1] = outflow[2] = 0.0;
            outflow[3] = k.i_n * k.f_p * k.b_a * x_a;
            outflow[4] = k.i_n * k.f_p * k.b_n * x_n;
          }};
}

inline numerics::FlowSystem robertson_flows() {
  return {3, [](auto y, auto flow, auto inflow, auto outflow) {
            std::fill(flow.begin(), flow.end(), 0.0);
            std::fill(inflow.begin(), inflow.end(), 0.0);
            std::fill(outflow.begin(), outflow.end(), 0.0);
            flow[1 * 3 + 0] = 0.04 * y[0];
            flow[0 * 3 + 1] = 1e4 * y[1] * y[2];
            flow[2 * 3 + 1] = 3e7 * y[1] * y[1];
          }};
}

}  // namespace redd::tests
