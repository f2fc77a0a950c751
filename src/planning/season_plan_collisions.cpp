#include "planning/season_plan_collisions.h"

#include <algorithm>

namespace redd::planning {
namespace {

// Assumed: what a keeper would call "cannot have both": a quarter of a wish lost. Met again: all but a tenth.
constexpr double lost_together = 0.25, found_again = 0.1;
constexpr double reachable_alone = 0.5;
constexpr int most_days = 60;

Wish widened(const Wish& wish, int by_days) {
  Wish wide = wish;
  const auto n = static_cast<std::ptrdiff_t>(wish.good.size());
  for (std::ptrdiff_t d = 0; d < n; ++d)
    for (std::ptrdiff_t k = std::max<std::ptrdiff_t>(0, d - by_days); k <= std::min(n - 1, d + by_days) && !wide.good[static_cast<std::size_t>(d)]; ++k)
      if (wish.good[static_cast<std::size_t>(k)]) wide.good[static_cast<std::size_t>(d)] = true;
  return wide;
}

/// What a wish is called inside a sentence: its name where that is whole without numbers, else the words of its key.
Word called(const Wish& wish) {
  if (wish.name.values.empty()) return {wish.name.pattern};
  std::string words = wish.key;
  std::ranges::replace(words, '_', ' ');
  return {words};
}

/// The question with these wishes alone, coarser: conflicts of days need no finer search.
SeasonQuestion only(const SeasonQuestion& question, std::vector<Wish> wishes) {
  SeasonQuestion q = question;
  q.wishes = std::move(wishes);
  q.precision.nodes = std::min(q.precision.nodes, 1024);
  return q;
}

double probability(const PlanAnswer& answer, std::size_t wish) {
  return answer.plan ? answer.plan->score.wishes[wish].probability : 0.0;
}

/// Smallest widening for which `enough` holds, or nothing up to most_days. `enough` may only turn from false to true.
template <class Enough>
std::optional<int> smallest(Enough enough) {
  if (!enough(most_days)) return std::nullopt;
  int low = 0, high = most_days;
  while (high - low > 1) {
    const int middle = (low + high) / 2;
    (enough(middle) ? high : low) = middle;
  }
  return high;
}

}  // namespace

WishConflicts conflicts(const SeasonQuestion& question) {
  WishConflicts result;
  const PlanAnswer whole = plan_season(question);
  result.obstacles = whole.obstacles;
  if (!whole.plan) return result;
  std::vector<std::size_t> open;
  std::vector<double> alone(question.wishes.size(), 0.0);
  for (std::size_t i = 0; i < question.wishes.size(); ++i) {
    const Wish& wish = question.wishes[i];
    if (wish.weight <= 0.0 || whole.plan->score.wishes[i].over) continue;
    if (std::ranges::find(wish.good, true) == wish.good.end()) {
      result.obstacles.push_back({"wish_without_days", wish.key,
                                  {"Not one day from {0} to {1} is good for this wish ({2}): a holiday or a window may cover the whole season. Correct the calendar or the window, or drop the wish.",
                                   {question.days.front().day, question.days.back().day, called(wish)}}});
      continue;
    }
    alone[i] = probability(plan_season(only(question, {wish})), 0);
    if (alone[i] >= reachable_alone) {
      open.push_back(i);
      continue;
    }
    OutOfReach out{wish.key, alone[i], 0, {}};
    const auto by = smallest([&](int days) { return probability(plan_season(only(question, {widened(wish, days)})), 0) >= reachable_alone; });
    out.by_days = by.value_or(0);
    if (by)
      out.sentence = {"Even alone this wish ({0}) has {1} at best: within what the animals bear and the equipment holds, its days would have to reach {2} further.",
                      {called(wish), Chance{alone[i]}, Days(*by)}};
    else
      out.sentence = {"Even alone this wish ({0}) has {1} at best, and {2} more on either side would not be enough: choose other days.",
                      {called(wish), Chance{alone[i]}, Days(most_days)}};
    result.out_of_reach.push_back(std::move(out));
  }

  for (std::size_t a = 0; a < open.size(); ++a)
    for (std::size_t b = a + 1; b < open.size(); ++b) {
      const std::size_t i = open[a], j = open[b];
      const Wish &first = question.wishes[i], &second = question.wishes[j];
      const auto lost = [&](const PlanAnswer& answer) { return alone[i] + alone[j] - probability(answer, 0) - probability(answer, 1); };
      // If the plan for all wishes keeps both, no search for the pair is needed.
      if (alone[i] + alone[j] - whole.plan->score.wishes[i].probability - whole.plan->score.wishes[j].probability < lost_together) continue;
      const PlanAnswer both = plan_season(only(question, {first, second}));
      if (!both.plan || lost(both) < lost_together) continue;
      Collision collision{first.key, second.key, alone[i], alone[j], probability(both, 0), probability(both, 1), {}, {}};
      for (const bool first_gives_way : {true, false}) {
        const auto relaxed = [&](int days) {
          return only(question, {first_gives_way ? widened(first, days) : first, first_gives_way ? second : widened(second, days)});
        };
        const auto by = smallest([&](int days) { return lost(plan_season(relaxed(days))) <= found_again; });
        if (!by) continue;
        if (PlanAnswer found = plan_season(relaxed(*by)); found.plan)
          collision.ways_out.push_back({first_gives_way ? first.key : second.key, *by, std::move(*found.plan)});
      }
      if (collision.ways_out.empty()) {
        collision.sentence = {"Two wishes collide: {0} and {1}. Alone they are met with {2} and {3}, together with {4} and {5}. Not even {6} of grace for one of them would reconcile them.",
                              {called(first), called(second), Share{alone[i]}, Share{alone[j]}, Share{collision.first_together}, Share{collision.second_together}, Days(most_days)}};
      } else {
        const auto least = std::ranges::min_element(collision.ways_out, {}, &RelaxedWish::by_days);
        collision.sentence = {"Two wishes collide: {0} and {1}. Alone they are met with {2} and {3}, together with {4} and {5}. If {6} gave way by {7}, both could be met.",
                              {called(first), called(second), Share{alone[i]}, Share{alone[j]}, Share{collision.first_together}, Share{collision.second_together}, called(least->key == first.key ? first : second),
                               Days(least->by_days)}};
      }
      result.collisions.push_back(std::move(collision));
    }
  return result;
}

}  // namespace redd::planning
