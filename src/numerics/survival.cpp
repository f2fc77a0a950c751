#include "numerics/survival.h"

#include <algorithm>
#include <cmath>

#include "numerics/normal.h"

namespace redd::numerics {
namespace {

/// The interval of log(-log S), turned back. With nobody dead or nobody left it has none, and the exact one of the lot stands in;
/// with nobody at risk nothing is known.
Range90 interval_of(double survival, double greenwood_sum, double at_risk, double level) {
  if (survival >= 1.0) return at_risk > 0.0 ? exact_share(at_risk, at_risk, level) : Range90{0.0, 1.0, 1.0};
  if (survival <= 0.0) return exact_share(0.0, std::max(1.0, at_risk), level);
  const double z = normal_quantile(0.5 + 0.5 * level), log_survival = std::log(survival);
  const double spread = std::exp(z * std::sqrt(greenwood_sum) / std::fabs(log_survival));
  return {std::pow(survival, spread), survival, std::pow(survival, 1.0 / spread)};
}

}  // namespace

std::vector<SurvivalPoint> kaplan_meier(std::span<const LotChange> changes, double level) {
  std::vector<SurvivalPoint> points;
  double at_risk = 0.0, survival = 1.0, greenwood_sum = 0.0;
  for (std::size_t i = 0; i < changes.size();) {
    LotChange now{changes[i].at};
    for (; i < changes.size() && changes[i].at == now.at; ++i) {
      now.joined += changes[i].joined;
      now.died += changes[i].died;
      now.left += changes[i].left;
    }
    at_risk += now.joined;
    if (now.died > 0.0) {
      SurvivalPoint point{now.at, at_risk, std::min(now.died, at_risk)};
      point.capped = now.died > at_risk;
      if (at_risk > 0.0) survival *= 1.0 - point.died / at_risk;
      if (at_risk > point.died) greenwood_sum += point.died / (at_risk * (at_risk - point.died));
      point.survival = interval_of(survival, greenwood_sum, at_risk, level);
      point.standard_error = survival * std::sqrt(greenwood_sum);
      points.push_back(point);
      at_risk -= point.died;
    }
    at_risk = std::max(0.0, at_risk - now.left);
  }
  return points;
}

}  // namespace redd::numerics
