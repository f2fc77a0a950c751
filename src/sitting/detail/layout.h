#pragma once
// From tests with their steps to the tasks of the search, and what each task stands for.

#include <vector>

#include "quantities/result.h"
#include "sitting/detail/tasks.h"
#include "sitting/timetable.h"

namespace redd::sitting::detail {

/// The steps [first_step, end_step) of a test.
struct Stretch {
  std::size_t test = 0;
  int first_step = 0, end_step = 0;
  std::optional<int> read_by_after_start_seconds{};  ///< see Task::latest_seconds: how long after the latest start the last bound read is over
};

struct Layout {
  std::vector<std::size_t> tests{};         ///< that take part, in kit order
  std::vector<std::vector<Step>> steps{};   ///< one entry a test of the kit
  std::vector<std::optional<std::size_t>> strip{};  ///< one entry a test of the kit: whose dip it shares
  std::vector<Task> tasks{};
  std::vector<Stretch> stretches{};         ///< one a task
};

/// Errors  those of timetable() and continue_from() but windows_collide.
Result<Layout> layout(const records::Kit& kit, const Asked& asked, const std::vector<std::size_t>& tests, const std::vector<Standing>& standing);

/// The tasks of some tests alone; what waited for a task left out counts from the beginning, without a window.
std::vector<Task> tasks_of(const Layout& all, const std::vector<std::size_t>& tests);

}  // namespace redd::sitting::detail
