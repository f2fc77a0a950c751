#include "sitting/detail/partial_order.h"

#include <algorithm>
#include <numeric>
#include <utility>

namespace redd::sitting::detail {

namespace {

/// When this much work is over at the soonest if it can be cut at will.
int soonest_end(const std::array<int, most_hands>& free, int hands, int work) {
  if (hands == 1) return free[0] + work;
  const int first = std::min(free[0], free[1]), second = std::max(free[0], free[1]);
  return first + work <= second ? first + work : (first + second + work + 1) / 2;
}

}  // namespace

Sitting::Sitting(std::span<const Task> given, std::span<const int> free_from_seconds)
    : tasks(given.begin(), given.end()), free_from(free_from_seconds.begin(), free_from_seconds.end()) {
  const std::size_t n = tasks.size();
  tails.assign(n, 0);
  children_of.assign(n, 0);
  windowed.assign(n, 0);
  common = 0;
  for (const int free : free_from) common = std::gcd(common, free);
  int vials = 0;
  for (const Task& task : tasks) vials = std::max(vials, task.vial + 1);
  chain.assign(static_cast<std::size_t>(vials), 1);
  std::vector<char> has_root(static_cast<std::size_t>(vials), 0);
  for (std::size_t i = n; i-- > 0;) {
    const Task& task = tasks[i];
    const auto vial = static_cast<std::size_t>(task.vial);
    for (const int span : {task.lasts_seconds, task.wait_seconds, task.latest_seconds.value_or(0)}) common = std::gcd(common, span);
    if (task.after < 0) {
      if (std::exchange(has_root[vial], 1) != 0) chain[vial] = 0;
      continue;
    }
    const auto parent = static_cast<std::size_t>(task.after);
    if (children_of[parent] != 0) chain[vial] = 0;
    children_of[parent] |= std::uint64_t{1} << i;
    if (task.latest_seconds) windowed[parent] = 1;
    tails[parent] = std::max(tails[parent], task.wait_seconds + task.lasts_seconds + tails[i]);
  }
  common = std::max(common, 1);
}

PartialOrder::PartialOrder(const Sitting& sitting) : variables(2 + sitting.hands()) {
  // Nothing has begun: the hands are free from known moments on, the last start is the beginning itself.
  std::vector<int> when(static_cast<std::size_t>(variables), 0);
  for (int h = 0; h < sitting.hands(); ++h) when[static_cast<std::size_t>(free_variable(h))] = sitting.free_from[static_cast<std::size_t>(h)];
  bound.resize(static_cast<std::size_t>(variables * variables));
  for (int i = 0; i < variables; ++i)
    for (int j = 0; j < variables; ++j) at(i, j) = when[static_cast<std::size_t>(i)] - when[static_cast<std::size_t>(j)];
}

int PartialOrder::end_variable(const Sitting& sitting, int task) const {
  const auto found = std::ranges::lower_bound(awaited, task);
  return 2 + sitting.hands() + static_cast<int>(found - awaited.begin());
}

std::optional<PartialOrder> PartialOrder::with(const Sitting& sitting, int task, int hands, int most_seconds) const {
  const Task& added = sitting.task(task);
  const int lasts = added.lasts_seconds, parent = added.after < 0 ? 0 : end_variable(sitting, added.after);
  // Bounds of the new start against what stands already: above[y]: start - y, below[y]: y - start.
  std::vector<int> above(static_cast<std::size_t>(variables)), below(static_cast<std::size_t>(variables));
  for (int y = 0; y < variables; ++y) {
    int up = most_seconds - lasts - sitting.tail(task) + at(0, y);
    if (added.latest_seconds) up = std::min(up, *added.latest_seconds + at(parent, y));
    above[static_cast<std::size_t>(y)] = up;
    below[static_cast<std::size_t>(y)] =
        std::min({at(y, 1), at(y, free_variable(hands)), at(y, parent) - added.wait_seconds});
    if (up + below[static_cast<std::size_t>(y)] < 0) return std::nullopt;
  }

  PartialOrder next = *this;
  next.done |= std::uint64_t{1} << task;
  const auto h = static_cast<std::size_t>(hands);
  if (last_vial[h] >= 0 && last_vial[h] != added.vial) ++next.switches;
  next.last_vial[h] = added.vial;
  next.last_task[h] = task;
  if (added.after >= 0 && (sitting.children(added.after) & ~next.done) == 0) std::erase(next.awaited, added.after);
  if (sitting.children(task) != 0) next.awaited.insert(std::ranges::lower_bound(next.awaited, task), task);

  // Each new variable is an old one or the new start moved by `plus`.
  struct Origin {
    int variable, plus;
  };
  constexpr int the_start = -1;
  std::vector<Origin> from{{0, 0}, {the_start, 0}};
  for (int k = 0; k < sitting.hands(); ++k) from.push_back(k == hands ? Origin{the_start, lasts} : Origin{free_variable(k), 0});
  for (const int each : next.awaited) from.push_back(each == task ? Origin{the_start, lasts} : Origin{end_variable(sitting, each), 0});
  next.variables = static_cast<int>(from.size());
  next.bound.assign(from.size() * from.size(), 0);
  for (int i = 0; i < next.variables; ++i)
    for (int j = 0; j < next.variables; ++j) {
      const Origin a = from[static_cast<std::size_t>(i)], b = from[static_cast<std::size_t>(j)];
      int known = 0;
      if (a.variable == the_start) known = b.variable == the_start ? 0 : above[static_cast<std::size_t>(b.variable)];
      else if (b.variable == the_start) known = below[static_cast<std::size_t>(a.variable)];
      else known = std::min(at(a.variable, b.variable), below[static_cast<std::size_t>(a.variable)] + above[static_cast<std::size_t>(b.variable)]);
      next.at(i, j) = known + a.plus - b.plus;
    }
  next.over_seconds = 0;
  for (int k = 0; k < sitting.hands(); ++k)
    if (next.last_task[static_cast<std::size_t>(k)] >= 0) next.over_seconds = std::max(next.over_seconds, next.earliest(next.free_variable(k)));
  if (!next.windows_can_be_met(sitting)) return std::nullopt;
  return next;
}

bool PartialOrder::windows_can_be_met(const Sitting& sitting) const {
  for (int i = 0; i < sitting.size(); ++i) {
    const Task& task = sitting.task(i);
    if (!task.latest_seconds || has(i) || (task.after >= 0 && !has(task.after))) continue;
    const int opened = task.after < 0 ? 0 : end_variable(sitting, task.after);
    // It begins after the last start and when some hands are free; at(opened, x) bounds opened - x, so this asks for x - opened <= latest.
    bool some_hands = false;
    for (int h = 0; h < sitting.hands(); ++h) some_hands = some_hands || *task.latest_seconds + at(opened, free_variable(h)) >= 0;
    if (!some_hands || *task.latest_seconds + at(opened, 1) < 0) return false;
  }
  return true;
}

std::vector<int> PartialOrder::heads(const Sitting& sitting) const {
  int first_free = earliest(free_variable(0));
  for (int h = 0; h < sitting.hands(); ++h) first_free = std::min(first_free, earliest(free_variable(h)));
  const int now = std::max(first_free, last_start());
  std::vector<int> found(static_cast<std::size_t>(sitting.size()), -1);
  for (int i = 0; i < sitting.size(); ++i) {
    if (has(i)) continue;
    const Task& task = sitting.task(i);
    const int opened = task.after < 0 ? 0 : has(task.after) ? earliest(end_variable(sitting, task.after))
                                                            : found[static_cast<std::size_t>(task.after)] + sitting.task(task.after).lasts_seconds;
    found[static_cast<std::size_t>(i)] = std::max(now, opened + task.wait_seconds);
  }
  return found;
}

int PartialOrder::least_seconds(const Sitting& sitting) const {
  const std::vector<int> head = heads(sitting);
  int least = over_seconds;
  std::vector<int> left;
  for (int i = 0; i < sitting.size(); ++i)
    if (!has(i)) left.push_back(i);
  for (const int i : left) least = std::max(least, head[static_cast<std::size_t>(i)] + sitting.task(i).lasts_seconds + sitting.tail(i));
  // All work that begins no earlier than h and is followed by q at least, shared out evenly over the hands.
  std::ranges::sort(left, {}, [&](int i) { return -sitting.tail(i); });
  for (const int from : left) {
    const int h = head[static_cast<std::size_t>(from)];
    std::array<int, most_hands> free{};
    for (int k = 0; k < sitting.hands(); ++k) free[static_cast<std::size_t>(k)] = std::max({h, last_start(), earliest(free_variable(k))});
    int work = 0;
    for (const int i : left) {
      if (head[static_cast<std::size_t>(i)] < h) continue;
      work += sitting.task(i).lasts_seconds;
      least = std::max(least, soonest_end(free, sitting.hands(), work) + sitting.tail(i));
    }
  }
  // Soonest ends are sums of the given spans: what divides all of those divides them too.
  return (least + sitting.common_span() - 1) / sitting.common_span() * sitting.common_span();
}

int PartialOrder::least_switches(const Sitting& sitting, int most_seconds) const {
  // Hands that stay at a vial stand idle through its wait; only so many waits fit into the time that no work fills.
  int idle = sitting.hands() * most_seconds, left = 0, fresh_hands = 0;
  for (int k = 0; k < sitting.hands(); ++k) {
    idle -= earliest(free_variable(k));
    fresh_hands += last_task[static_cast<std::size_t>(k)] < 0 ? 1 : 0;
  }
  std::vector<int> stays;  // what each stay that is still possible would cost
  for (int i = 0; i < sitting.size(); ++i) {
    if (has(i)) continue;
    const Task& task = sitting.task(i);
    ++left;
    idle -= task.lasts_seconds;
    if (!sitting.is_chain(task.vial)) stays.push_back(0);
    else if (task.after >= 0 && (!has(task.after) || std::ranges::find(last_task, task.after) != last_task.end())) stays.push_back(task.wait_seconds);
  }
  std::ranges::sort(stays);
  int kept = 0;
  for (const int cost : stays) {
    if ((idle -= cost) < 0) break;
    ++kept;
  }
  return switches + std::max(0, left - kept - fresh_hands);
}

bool PartialOrder::covers(const Sitting& sitting, const PartialOrder& other, bool crossed) const {
  const int first_end = 2 + sitting.hands();
  const auto theirs = [&](int variable) { return crossed && variable >= 2 && variable < first_end ? 5 - variable : variable; };
  // Sooner is never worse for what only holds later starts back; an end that opens a window must allow all the moments of the other's.
  for (int i = 0; i < variables; ++i) {
    if (i != 0 && (i < first_end || !sitting.child_has_window(awaited[static_cast<std::size_t>(i - first_end)]))) continue;
    for (int j = 0; j < variables; ++j)
      if (at(i, j) < other.at(theirs(i), theirs(j))) return false;
  }
  return true;
}

}  // namespace redd::sitting::detail
