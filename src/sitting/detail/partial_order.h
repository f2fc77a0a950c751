#pragma once
// A sitting half laid out: which tasks have been given to which hands in which order, and all moments at which they could still happen.
// The moments are a set of difference bounds (x - y <= c), kept closed, so that a start can still move when a later window asks for it.

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "sitting/detail/tasks.h"

namespace redd::sitting::detail {

inline constexpr int most_hands = 2;

/// The tasks with what follows from them alone.
class Sitting {
 public:
  Sitting(std::span<const Task> tasks, std::span<const int> free_from_seconds);

  int size() const { return static_cast<int>(tasks.size()); }
  int hands() const { return static_cast<int>(free_from.size()); }
  const Task& task(int i) const { return tasks[static_cast<std::size_t>(i)]; }
  int tail(int i) const { return tails[static_cast<std::size_t>(i)]; }
  std::uint64_t children(int i) const { return children_of[static_cast<std::size_t>(i)]; }
  bool is_chain(int vial) const { return chain[static_cast<std::size_t>(vial)]; }
  bool child_has_window(int i) const { return windowed[static_cast<std::size_t>(i)]; }

  int common_span() const { return common; }  ///< the longest of which every given span is a multiple

  std::vector<Task> tasks;
  std::vector<int> free_from;

 private:
  int common = 1;
  std::vector<int> tails;  ///< least time from a task's end to the end of all that waits for it
  std::vector<std::uint64_t> children_of;
  std::vector<char> windowed, chain;
};

class PartialOrder {
 public:
  explicit PartialOrder(const Sitting& sitting);

  /// This order with one more task, begun not before the last one; nothing when no moments are left that end by `most_seconds`.
  std::optional<PartialOrder> with(const Sitting& sitting, int task, int hands, int most_seconds) const;

  bool is_ready(const Sitting& sitting, int task) const {
    const int after = sitting.task(task).after;
    return !has(task) && (after < 0 || has(after));
  }
  bool has(int task) const { return (done >> task & 1U) != 0; }
  bool is_whole(const Sitting& sitting) const { return done + 1 == std::uint64_t{1} << sitting.size(); }

  /// Soonest the order can be over: exact when whole, else no completion is sooner.
  int least_seconds(const Sitting& sitting) const;
  /// No completion within `most_seconds` has fewer switches.
  int least_switches(const Sitting& sitting, int most_seconds) const;

  /// Every completion of `other`, an order of the same tasks, completes this one too, no later (the hands named the other way round if `crossed`).
  bool covers(const Sitting& sitting, const PartialOrder& other, bool crossed) const;

  int earliest(int variable) const { return -at(0, variable); }
  int last_start() const { return earliest(1); }

  std::uint64_t done = 0;
  std::array<int, most_hands> last_vial{-1, -1}, last_task{-1, -1};
  int switches = 0;
  int over_seconds = 0;  ///< soonest end of what has been given out

 private:
  // Variables: 0 the beginning, 1 the last start, 2.. when each pair of hands is free, then the end of every task somebody still waits for.
  int at(int i, int j) const { return bound[static_cast<std::size_t>(i * variables + j)]; }
  int& at(int i, int j) { return bound[static_cast<std::size_t>(i * variables + j)]; }
  int free_variable(int hands) const { return 2 + hands; }
  int end_variable(const Sitting& sitting, int task) const;
  std::vector<int> heads(const Sitting& sitting) const;
  bool windows_can_be_met(const Sitting& sitting) const;

  int variables = 0;
  std::vector<int> awaited{};  ///< tasks done that somebody waits for, rising
  std::vector<int> bound{};    ///< x_i - x_j <= bound(i, j)
};

}  // namespace redd::sitting::detail
