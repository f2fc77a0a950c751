// Asks a general-purpose solver (GLPK's branch and cut) and the planner's search for the best set-points of the same small seasons, on the same
// set-points and the same nodes of progress. Prints the table tests/reference/data/season_plan_optima.csv ("store") or the differences and both times.
//   glpk_season_plan [how many seasons, 60] [store]

#include <glpk.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <map>
#include <string>
#include <vector>

#include "planning/whole_node_question.h"

namespace redd::planning {
namespace {

double seconds_since(std::clock_t start) { return static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC; }

/// A mixed-integer program built row by row.
class Program {
 public:
  Program() : problem_(glp_create_prob()) { glp_set_obj_dir(problem_, GLP_MAX); }
  ~Program() { glp_delete_prob(problem_); }
  Program(const Program&) = delete;
  Program& operator=(const Program&) = delete;
  int binary(double worth) {
    const int column = glp_add_cols(problem_, 1);
    glp_set_col_kind(problem_, column, GLP_BV);
    glp_set_obj_coef(problem_, column, worth);
    return column;
  }
  int share(double worth) {
    const int column = glp_add_cols(problem_, 1);
    glp_set_col_bnds(problem_, column, GLP_LO, 0.0, 0.0);
    glp_set_obj_coef(problem_, column, worth);
    return column;
  }
  /// Some columns times factors, equal to (or at most) a number.
  void row(const std::map<int, double>& factors, double value, bool equal) {
    const int r = glp_add_rows(problem_, 1);
    glp_set_row_bnds(problem_, r, equal ? GLP_FX : GLP_UP, value, value);
    std::vector<int> columns{0};
    std::vector<double> values{0.0};
    for (const auto& [column, factor] : factors) columns.push_back(column), values.push_back(factor);
    glp_set_mat_row(problem_, r, static_cast<int>(factors.size()), columns.data(), values.data());
  }
  bool solve() {
    glp_iocp settings;
    glp_init_iocp(&settings);
    settings.presolve = GLP_ON;
    settings.gmi_cuts = settings.mir_cuts = GLP_ON;
    settings.msg_lev = GLP_MSG_OFF;
    settings.mip_gap = 0.0;
    return glp_intopt(problem_, &settings) == 0 && glp_mip_status(problem_) == GLP_OPT;
  }
  double optimum() const { return glp_mip_obj_val(problem_); }

 private:
  glp_prob* problem_;
};

/// The optimum, or nothing when no set-points keep the limits.
bool solve_with_glpk(const testing::WholeNodeQuestion& w, double* optimum) {
  const SeasonQuestion& q = w.question;
  const detail::PlanModel model(q);
  const std::vector<double> grid = detail::grid_of(model);
  const int days = static_cast<int>(q.days.size()), temperatures = static_cast<int>(grid.size());
  Program program;

  std::vector<std::vector<int>> held(static_cast<std::size_t>(days));
  for (int d = 0; d < days; ++d) {
    std::map<int, double> one;
    for (int t = 0; t < temperatures; ++t) {
      const int x = program.binary(-q.costs.kwh * model.kwh(grid[static_cast<std::size_t>(t)], static_cast<std::size_t>(d)));
      held[static_cast<std::size_t>(d)].push_back(x);
      one[x] = 1.0;
      if (!model.equipment_holds(grid[static_cast<std::size_t>(t)], static_cast<std::size_t>(d))) program.row({{x, 1.0}}, 0.0, true);
    }
    program.row(one, 1.0, true);
  }
  // Changes and the largest step.
  for (int d = 0; d < days; ++d) {
    const int changed = program.binary(-q.costs.change);
    for (int t = 0; t < temperatures; ++t) {
      const int x = held[static_cast<std::size_t>(d)][static_cast<std::size_t>(t)];
      std::map<int, double> step{{x, 1.0}}, change{{x, 1.0}, {changed, -1.0}};
      double step_from_now = 0.0, same_as_now = 0.0;
      for (int before = 0; before < temperatures; ++before) {
        const double from = grid[static_cast<std::size_t>(before)], to = grid[static_cast<std::size_t>(t)];
        if (d > 0) {
          if (model.step_allowed(from, to)) step[held[static_cast<std::size_t>(d - 1)][static_cast<std::size_t>(before)]] = -1.0;
          if (before == t) change[held[static_cast<std::size_t>(d - 1)][static_cast<std::size_t>(before)]] = -1.0;
        } else if (std::abs(from - q.water_now->c()) < 1e-9) {
          step_from_now = model.step_allowed(from, to) ? 1.0 : 0.0;
          same_as_now = before == t ? 1.0 : 0.0;
        }
      }
      program.row(step, step_from_now, false);
      program.row(change, same_as_now, false);
    }
  }
  // The clocks: which count of nodes a day begins with, and from there one set-point to the count of the next day.
  const auto add_clock = [&](const std::vector<int>& a_day, bool hatch) {
    const PlanStage stage = hatch ? PlanStage::hatch : PlanStage::swim_up;
    const detail::Passed& animals = hatch ? model.hatched_animals() : model.swum_up_animals();
    const auto& band = hatch ? model.bands()[0] : model.bands()[2];
    const auto worth = [&](int d, int nodes) {
      const double before = d == 0 ? 0.0 : model.good_weight(stage, static_cast<std::size_t>(d - 1));
      const double after = d == days ? 0.0 : model.good_weight(stage, static_cast<std::size_t>(d));
      return (before - after) * model.passed(stage).at(static_cast<double>(nodes) / q.precision.nodes);
    };
    std::map<int, std::map<int, double>> arriving{{0, {}}};  // nodes -> shares that lead there
    for (int d = 0; d <= days; ++d) {
      std::map<int, std::map<int, double>> next;
      std::map<int, double> one;
      std::vector<std::map<int, double>> by_set_point(static_cast<std::size_t>(temperatures));
      for (const auto& [nodes, shares] : arriving) {
        const int here = program.binary(worth(d, nodes));
        one[here] = 1.0;
        if (d > 0) {
          std::map<int, double> arrives = shares;
          arrives[here] = -1.0;
          program.row(arrives, 0.0, true);
        }
        if (d == days) continue;
        const double passed = animals.at(static_cast<double>(nodes) / q.precision.nodes);
        // What lives in the tank bars some set-points: eggs by the hatch clock, fry by the swim-up clock (alevins bear all of these set-points).
        const bool barring = (hatch ? 1.0 - passed : passed) >= q.limits.least_share;
        std::map<int, double> leaves{{here, -1.0}};
        for (int t = 0; t < temperatures; ++t) {
          const double c = grid[static_cast<std::size_t>(t)];
          if (barring && (c < band.red_below.c() - 1e-9 || c > band.red_above.c() + 1e-9)) continue;
          // Amber: eggs + hatched (alevins - eggs) + swum up (fry - alevins).
          const auto amber = model.amber_c(c);
          const int arc = program.share(-q.costs.amber_c_day * (hatch ? amber[0] + passed * (amber[1] - amber[0]) : passed * (amber[2] - amber[1])));
          leaves[arc] = 1.0;
          by_set_point[static_cast<std::size_t>(t)][arc] = 1.0;
          next[nodes + a_day[static_cast<std::size_t>(t)]][arc] = 1.0;
        }
        program.row(leaves, 0.0, true);
      }
      program.row(one, 1.0, true);
      if (d == days) break;
      for (int t = 0; t < temperatures; ++t) {
        auto& shares = by_set_point[static_cast<std::size_t>(t)];
        shares[held[static_cast<std::size_t>(d)][static_cast<std::size_t>(t)]] = -1.0;
        program.row(shares, 0.0, true);
      }
      arriving = std::move(next);
    }
  };
  add_clock(w.hatch_nodes, true);
  add_clock(w.swim_up_nodes, false);
  if (!program.solve()) return false;
  *optimum = program.optimum();
  return true;
}

}  // namespace
}  // namespace redd::planning

int main(int argc, char** argv) {
  using namespace redd::planning;
  namespace detail = redd::planning::detail;
  const int count = argc > 1 ? std::atoi(argv[1]) : 60;
  const bool store = argc > 2 && std::string(argv[2]) == "store";
  if (store)
    std::printf("# Best scores of the seasons of tests/planning/whole_node_question.h, found by GLPK %s (branch and cut, gap 0) with\n"
                "# tests/oracles/glpk_season_plan.cpp. Empty: no set-points keep the limits. Odd seeds have two clocks.\nseed,optimum\n", glp_version());
  glp_term_out(GLP_OFF);
  double ours_seconds = 0.0, theirs_seconds = 0.0, worst = 0.0;
  int equal = 0, none = 0, different = 0;
  for (int seed = 0; seed < count; ++seed) {
    const auto w = testing::whole_node_question(static_cast<std::uint64_t>(seed));
    double optimum = 0.0;
    auto start = std::clock();
    const bool solved = solve_with_glpk(w, &optimum);
    theirs_seconds += seconds_since(start);
    if (store) {
      if (solved) std::printf("%d,%.12g\n", seed, optimum);
      else std::printf("%d,\n", seed);
      std::fflush(stdout);
      continue;
    }
    start = std::clock();
    const detail::PlanModel model(w.question);
    const auto found = detail::search(model, detail::grid_of(model), w.nodes, w.question.costs.change, true);
    ours_seconds += seconds_since(start);
    if (found.water_c.empty() != !solved) {
      std::printf("season %d: only one of the two found a plan\n", seed);
      ++different;
    } else if (!solved) {
      ++none;
    } else {
      const double difference = std::abs(model.verdict(found.water_c).score.score - optimum);
      worst = std::max(worst, difference);
      if (difference < 1e-5) ++equal;
      else ++different, std::printf("season %d: %.9f, GLPK %.9f\n", seed, model.verdict(found.water_c).score.score, optimum);
    }
  }
  if (!store)
    std::printf("%d seasons: %d equal (worst difference %.1e), %d without a plan for both, %d different. Planner %.3f ms a season, GLPK %.1f ms: %.0f times.\n", count, equal, worst, none,
                different, 1e3 * ours_seconds / count, 1e3 * theirs_seconds / count, theirs_seconds / ours_seconds);
  return different == 0 ? 0 : 1;
}
