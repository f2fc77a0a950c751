#pragma once
// What the search sees of a sitting: tasks of hands without names, in whole seconds.

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace redd::sitting::detail {

/// Hands-on steps done in one go. Tasks come in kit order, and a task stands after the one it waits for.
struct Task {
  int lasts_seconds = 0;
  int vial = 0;                        ///< tasks at one vial (or strip) share it
  int after = -1;                      ///< the task whose end starts the wait; -1: none, times count from the beginning
  int wait_seconds = 0;                ///< begins not earlier than this after it
  std::optional<int> latest_seconds{}; ///< and not later than this
};

struct Placed {
  int task = 0, hands = 0, start_seconds = 0;
};

struct Search {
  std::vector<Placed> placed{};  ///< in order of start; empty when none was found
  bool possible = true;          ///< false: proven that no order keeps every window
  int lasts_seconds = 0, switches = 0;
  bool shortest = false;         ///< proven that no order is over sooner
  bool cut_short = false;        ///< of equally short orders a calmer one, or one earlier in kit order, may have been missed
  std::int64_t nodes = 0;        ///< partial orders looked at
};

/// Most tasks of one search.
inline constexpr int most_tasks = 40;

/// The best order: shortest, then fewest switches of a pair of hands between vials, then the first in order of (task, hands) by start.
///
/// In      free_from_seconds: one entry a pair of hands, one or two; not before it the hands can begin.
/// Shape   branch and bound, about a microsecond for a partial order; exact unless cut short after `most_nodes` of them. Ten tests mostly take thousands.
Search best_order(std::span<const Task> tasks, std::span<const int> free_from_seconds, std::int64_t most_nodes);

}  // namespace redd::sitting::detail
