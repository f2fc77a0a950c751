// Branch and bound over the order in which tasks begin. First the best length and number of switches, promising orders first; then, in kit
// order, the first order that reaches both.
#include <algorithm>
#include <map>
#include <tuple>

#include "quantities/result.h"
#include "sitting/detail/partial_order.h"

namespace redd::sitting::detail {
namespace {

/// Length and switches, the lesser first.
struct Cost {
  int seconds = 0, switches = 0;
  auto operator<=>(const Cost&) const = default;
};

class Walk {
 public:
  Walk(const Sitting& sitting, std::int64_t most_nodes) : sitting_(sitting), most_nodes_(most_nodes) {}

  /// The best cost below `ceiling`; nothing when there is none.
  void promising_first(Cost ceiling) {
    best_ = ceiling;
    go(PartialOrder(sitting_));
  }
  /// The first order, by task and hands, that costs no more than this.
  void in_kit_order(Cost wanted) {
    kit_order_ = true;
    best_ = {wanted.seconds, wanted.switches + 1};
    go(PartialOrder(sitting_));
  }

  const std::vector<Placed>& found() const { return found_; }
  Cost best() const { return best_; }
  bool cut_short() const { return nodes_ > most_nodes_; }
  std::int64_t nodes() const { return nodes_; }

 private:
  struct Child {
    int task, hands, start, tail;
    PartialOrder order;
  };

  /// Nothing that follows from here is better than what is known.
  bool hopeless(const PartialOrder& order) const {
    const int least = order.least_seconds(sitting_);
    return Cost{least, 0} >= best_ || Cost{least, order.least_switches(sitting_, best_.seconds)} >= best_;
  }

  /// Another partial order with the same tasks, looked at before, leaves at least as much room; if not, this one is remembered.
  bool known(const PartialOrder& order) {
    const bool two = sitting_.hands() == 2;
    if (two && order.last_vial[0] != order.last_vial[1])
      if (const auto mirrored = seen_.find({order.done, order.last_vial[1], order.last_vial[0]}); mirrored != seen_.end())
        for (const PartialOrder& other : mirrored->second)
          if (other.covers(sitting_, order, true)) return true;
    auto& alike = seen_[{order.done, order.last_vial[0], order.last_vial[1]}];
    for (const PartialOrder& other : alike)
      if (other.covers(sitting_, order, false)) return true;
    std::erase_if(alike, [&](const PartialOrder& other) { return order.covers(sitting_, other, false); });
    alike.push_back(order);
    return false;
  }

  std::vector<Child> children_of(const PartialOrder& order) const {
    std::vector<Child> children;
    const bool nobody_has_begun = order.done == 0 && std::ranges::equal(sitting_.free_from, std::vector(sitting_.free_from.size(), sitting_.free_from[0]));
    for (int task = 0; task < sitting_.size(); ++task) {
      if (!order.is_ready(sitting_, task)) continue;
      for (int hands = 0; hands < (nobody_has_begun ? 1 : sitting_.hands()); ++hands)
        if (auto next = order.with(sitting_, task, hands, best_.seconds))
          children.push_back({task, hands, next->last_start(), sitting_.task(task).lasts_seconds + sitting_.tail(task), std::move(*next)});
    }
    if (!kit_order_) std::ranges::stable_sort(children, {}, [](const Child& c) { return std::tuple(c.start, -c.tail, c.order.switches); });
    return children;
  }

  void go(const PartialOrder& order) {
    if (order.is_whole(sitting_)) {
      best_ = std::min(best_, Cost{order.over_seconds, order.switches});
      found_ = path_;
      finished_ = kit_order_;
      return;
    }
    for (const Child& child : children_of(order)) {
      if (finished_ || cut_short()) return;
      ++nodes_;
      if (hopeless(child.order) || known(child.order)) continue;
      path_.push_back({child.task, child.hands, 0});
      go(child.order);
      path_.pop_back();
    }
  }

  const Sitting& sitting_;
  std::int64_t most_nodes_, nodes_ = 0;
  bool kit_order_ = false, finished_ = false;
  Cost best_{};
  std::vector<Placed> path_{}, found_{};
  std::map<std::tuple<std::uint64_t, int, int>, std::vector<PartialOrder>> seen_{};
};

/// Soonest starts of a given order that keeps every window. A later start may push an earlier one, so it goes round until nothing moves.
void set_starts(const Sitting& sitting, std::vector<Placed>& placed) {
  std::vector<int> place(static_cast<std::size_t>(sitting.size()));
  for (std::size_t i = 0; i < placed.size(); ++i) place[static_cast<std::size_t>(placed[i].task)] = static_cast<int>(i);
  for (bool moved = true; moved;) {
    moved = false;
    const auto not_before = [&](Placed& p, int seconds) {
      if (p.start_seconds >= seconds) return;
      p.start_seconds = seconds;
      moved = true;
    };
    for (std::size_t i = 0; i < placed.size(); ++i) {
      Placed& here = placed[i];
      const Task& task = sitting.task(here.task);
      not_before(here, sitting.free_from[static_cast<std::size_t>(here.hands)]);
      if (i > 0) not_before(here, placed[i - 1].start_seconds);
      for (std::size_t k = i; k-- > 0;)
        if (placed[k].hands == here.hands) {
          not_before(here, placed[k].start_seconds + sitting.task(placed[k].task).lasts_seconds);
          break;
        }
      if (task.after < 0) {
        not_before(here, task.wait_seconds);
        continue;
      }
      Placed& parent = placed[static_cast<std::size_t>(place[static_cast<std::size_t>(task.after)])];
      const int lasts = sitting.task(task.after).lasts_seconds;
      not_before(here, parent.start_seconds + lasts + task.wait_seconds);
      if (task.latest_seconds) not_before(parent, here.start_seconds - *task.latest_seconds - lasts);
    }
  }
}

/// More than any order needs that has no pause but the waits.
int ceiling_seconds(const Sitting& sitting) {
  int sum = 1 + *std::ranges::max_element(sitting.free_from);
  for (const Task& task : sitting.tasks) sum += task.lasts_seconds + std::max(0, task.wait_seconds);
  return sum;
}

}  // namespace

Search best_order(std::span<const Task> tasks, std::span<const int> free_from_seconds, std::int64_t most_nodes) {
  require(tasks.size() <= most_tasks && !free_from_seconds.empty() && free_from_seconds.size() <= most_hands, "best_order", "too many tasks or hands");
  Search result;
  if (tasks.empty()) {
    result.shortest = true;
    return result;
  }
  const Sitting sitting(tasks, free_from_seconds);
  const Cost ceiling{ceiling_seconds(sitting), 0};
  Walk first(sitting, most_nodes);
  first.promising_first(ceiling);
  result.nodes = first.nodes();
  result.cut_short = first.cut_short();
  result.possible = first.cut_short() || !first.found().empty();
  if (first.found().empty()) return result;
  result.placed = first.found();
  result.lasts_seconds = first.best().seconds;
  result.switches = first.best().switches;
  result.shortest = !first.cut_short() || result.lasts_seconds == PartialOrder(sitting).least_seconds(sitting);
  if (!first.cut_short()) {
    // A needle among orders that are equally good: not worth as long a search.
    Walk second(sitting, most_nodes / 2);
    second.in_kit_order(first.best());
    if (!second.found().empty()) result.placed = second.found();
    result.cut_short = second.cut_short();
    result.nodes += second.nodes();
  }
  set_starts(sitting, result.placed);
  return result;
}

}  // namespace redd::sitting::detail
