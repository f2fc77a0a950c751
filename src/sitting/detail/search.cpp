// Branch and bound over the order in which tasks begin, three times: for the least length; of that length for the fewest switches; and, in kit
// order, for the first order that reaches both.
#include <algorithm>
#include <map>
#include <tuple>

#include "quantities/result.h"
#include "sitting/detail/partial_order.h"

namespace redd::sitting::detail {
namespace {

/// Partial orders of the same tasks that are remembered; comparing with more costs more than it saves.
constexpr std::size_t most_alike = 64;

struct Cost {
  int seconds = 0, switches = 0;
};

/// What one walk over the orders is after.
enum class Aim {
  length,     ///< a shorter order; switches do not count
  switches,   ///< of orders no longer than wanted one with fewer switches
  kit_order,  ///< the first order, by task and hands, that costs no more than wanted
};

class Walk {
 public:
  /// In      known: of an order that is known already; one better is looked for (kit_order: one as good).
  Walk(const Sitting& sitting, Aim aim, Cost known, std::int64_t most_nodes)
      : sitting_(sitting), aim_(aim), best_(known), most_nodes_(most_nodes) {
    go(PartialOrder(sitting));
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

  int most_seconds() const { return aim_ == Aim::length ? best_.seconds - 1 : best_.seconds; }

  /// Nothing that follows from here is what is looked for.
  bool hopeless(const PartialOrder& order) const {
    if (order.least_seconds(sitting_) > most_seconds()) return true;
    if (aim_ == Aim::length) return false;
    const int least = order.least_switches(sitting_, best_.seconds);
    return aim_ == Aim::switches ? least >= best_.switches : least > best_.switches;
  }

  /// Another partial order with the same tasks, looked at before, leaves at least as much room; if not, this one is remembered.
  bool known(const PartialOrder& order) {
    const bool switches_count = aim_ != Aim::length, two = sitting_.hands() == 2;
    const auto key = [&](int first, int second) { return switches_count ? std::tuple(order.done, first, second) : std::tuple(order.done, 0, 0); };
    const auto covered = [&](const std::vector<PartialOrder>& others, bool crossed) {
      return std::ranges::any_of(others, [&](const PartialOrder& other) { return (!switches_count || other.switches <= order.switches) && other.covers(sitting_, order, crossed); });
    };
    if (two)
      if (const auto mirrored = seen_.find(key(order.last_vial[1], order.last_vial[0])); mirrored != seen_.end() && covered(mirrored->second, true)) return true;
    auto& alike = seen_[key(order.last_vial[0], order.last_vial[1])];
    if (covered(alike, false)) return true;
    std::erase_if(alike, [&](const PartialOrder& other) { return (!switches_count || order.switches <= other.switches) && order.covers(sitting_, other, false); });
    if (alike.size() < most_alike) alike.push_back(order);
    return false;
  }

  std::vector<Child> children_of(const PartialOrder& order) const {
    std::vector<Child> children;
    const bool hands_are_alike = order.done == 0 && std::ranges::count(sitting_.free_from, sitting_.free_from[0]) == sitting_.hands();
    for (int task = 0; task < sitting_.size(); ++task) {
      if (!order.is_ready(sitting_, task)) continue;
      for (int hands = 0; hands < (hands_are_alike ? 1 : sitting_.hands()); ++hands)
        if (auto next = order.with(sitting_, task, hands, most_seconds()))
          children.push_back({task, hands, next->last_start(), sitting_.task(task).lasts_seconds + sitting_.tail(task), std::move(*next)});
    }
    // What can begin soonest first, of those what has most behind it: the first order found is mostly as short as any.
    if (aim_ != Aim::kit_order) std::ranges::stable_sort(children, {}, [](const Child& c) { return std::tuple(c.start, -c.tail, c.order.switches); });
    return children;
  }

  void go(const PartialOrder& order) {
    if (order.is_whole(sitting_)) {
      best_ = {order.over_seconds, order.switches};
      found_ = path_;
      finished_ = aim_ == Aim::kit_order;
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
  Aim aim_;
  Cost best_;
  std::int64_t most_nodes_, nodes_ = 0;
  bool finished_ = false;
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
  const Walk shorter(sitting, Aim::length, {ceiling_seconds(sitting), 0}, most_nodes);
  result.nodes = shorter.nodes();
  result.cut_short = shorter.cut_short();
  result.possible = shorter.cut_short() || !shorter.found().empty();
  if (shorter.found().empty()) return result;
  Cost best = shorter.best();
  result.placed = shorter.found();
  result.shortest = !shorter.cut_short() || best.seconds == PartialOrder(sitting).least_seconds(sitting);
  for (const Aim aim : {Aim::switches, Aim::kit_order}) {
    if (result.cut_short) break;
    // A choice among equally short orders: not worth as long a search.
    const Walk next(sitting, aim, best, most_nodes / 4);
    result.nodes += next.nodes();
    result.cut_short = next.cut_short();
    if (next.found().empty()) continue;
    best = next.best();
    result.placed = next.found();
  }
  result.lasts_seconds = best.seconds;
  result.switches = best.switches;
  set_starts(sitting, result.placed);
  return result;
}

}  // namespace redd::sitting::detail
