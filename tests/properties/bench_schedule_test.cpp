// Timetables of random sittings: as good as the best of all orders tried one by one, and always fit to be carried out.
#include <algorithm>
#include <climits>
#include <tuple>

#include "numerics/random.h"
#include "properties/generators.h"
#include "sitting/timetable.h"
#include "support/kits.h"

namespace redd::properties {
namespace {

using namespace redd::testing;
using sitting::seconds;
using sitting::Timetable;
using sitting::Turn;

/// Turns of the hands as these tests understand a card: hands-on seconds, the wait before, and how long after that wait they must be over.
struct Piece {
  std::size_t test;
  int lasts, wait;
  int over_by = INT_MAX;
  int before = -1;  // the piece of the same test that comes first
};
std::vector<Piece> pieces_of(const Kit& kit) {
  std::vector<Piece> pieces;
  for (std::size_t test = 0; test < kit.tests.size(); ++test) {
    bool new_piece = true, first = true;
    int wait = 0;
    for (const TimedStep& step : kit.tests[test].timed_steps) {
      if (step.what == Do::wait) {
        wait += *step.seconds;
        new_piece = true;
        continue;
      }
      if (new_piece) pieces.push_back({test, 0, wait, INT_MAX, first ? -1 : static_cast<int>(pieces.size()) - 1});
      const bool right_after_the_wait = new_piece && !first;
      new_piece = first = false;
      wait = 0;
      pieces.back().lasts += *step.seconds;
      if (step.read_by_seconds && right_after_the_wait) pieces.back().over_by = *step.read_by_seconds;
    }
  }
  return pieces;
}

struct Best {
  int lasts = INT_MAX, switches = INT_MAX;
  std::vector<std::pair<int, int>> order{};  // piece, hands
  auto operator<=>(const Best&) const = default;
};

/// Every order of begin and every share of the hands; starts as early as the order allows.
class EveryOrder {
 public:
  EveryOrder(std::vector<Piece> pieces, int hands) : pieces_(std::move(pieces)), hands_(hands), begun_(pieces_.size(), 0) {
    for (const Piece& p : pieces_) horizon_ += p.lasts + p.wait;
  }
  Best best() {
    extend();
    return best_;
  }

 private:
  void extend() {
    if (order_.size() == pieces_.size()) return weigh();
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
      if (begun_[i] || (pieces_[i].before >= 0 && !begun_[static_cast<std::size_t>(pieces_[i].before)])) continue;
      for (int h = 0; h < hands_; ++h) {
        begun_[i] = 1;
        order_.emplace_back(static_cast<int>(i), h);
        extend();
        order_.pop_back();
        begun_[i] = 0;
      }
    }
  }

  void weigh() {
    std::vector<int> start(pieces_.size(), 0);
    for (bool moved = true; moved;) {
      moved = false;
      int last_start = 0;
      std::vector<int> free(static_cast<std::size_t>(hands_), 0);
      for (const auto& [i, h] : order_) {
        const Piece& p = pieces_[static_cast<std::size_t>(i)];
        int& s = start[static_cast<std::size_t>(i)];
        int wanted = std::max({s, last_start, free[static_cast<std::size_t>(h)]});
        if (p.before >= 0) {
          int& s0 = start[static_cast<std::size_t>(p.before)];
          const int lasts0 = pieces_[static_cast<std::size_t>(p.before)].lasts;
          wanted = std::max(wanted, s0 + lasts0 + p.wait);
          if (p.over_by != INT_MAX && wanted + p.lasts > s0 + lasts0 + p.wait + p.over_by) {
            s0 = wanted + p.lasts - lasts0 - p.wait - p.over_by;
            moved = true;
          }
        }
        if (wanted != s) moved = true;
        s = wanted;
        if (s > horizon_) return;
        last_start = s;
        free[static_cast<std::size_t>(h)] = s + p.lasts;
      }
    }
    Best here{0, 0, order_};
    std::vector<int> at(static_cast<std::size_t>(hands_), -1);
    for (const auto& [i, h] : order_) {
      const Piece& p = pieces_[static_cast<std::size_t>(i)];
      here.lasts = std::max(here.lasts, start[static_cast<std::size_t>(i)] + p.lasts);
      int& vial = at[static_cast<std::size_t>(h)];
      here.switches += vial >= 0 && vial != static_cast<int>(p.test) ? 1 : 0;
      vial = static_cast<int>(p.test);
    }
    best_ = std::min(best_, here);
  }

  std::vector<Piece> pieces_;
  int hands_, horizon_ = 0;
  std::vector<char> begun_;
  std::vector<std::pair<int, int>> order_{};
  Best best_{};
};

/// The shortest length when every start second is tried for every piece, with no notion of an order at all.
class EverySecond {
 public:
  EverySecond(std::vector<Piece> pieces, int hands) : pieces_(std::move(pieces)), hands_(hands), start_(pieces_.size()), by_(pieces_.size()) {
    for (const Piece& p : pieces_) shortest_ += p.lasts + p.wait;
  }
  int shortest() {
    place(0, 0);
    return shortest_;
  }

 private:
  void place(std::size_t i, int so_far) {
    if (i == pieces_.size()) {
      shortest_ = so_far;
      return;
    }
    const Piece& p = pieces_[i];
    const int opens = p.before < 0 ? 0 : start_[i - 1] + pieces_[i - 1].lasts + p.wait;
    for (int s = opens; s + p.lasts < shortest_ && (p.over_by == INT_MAX || s + p.lasts <= opens + p.over_by); ++s)
      for (int h = 0; h < hands_; ++h) {
        bool free = true;
        for (std::size_t k = 0; k < i && free; ++k) free = by_[k] != h || s >= start_[k] + pieces_[k].lasts || s + p.lasts <= start_[k];
        if (!free) continue;
        start_[i] = s;
        by_[i] = h;
        place(i + 1, std::max(so_far, s + p.lasts));
      }
  }

  std::vector<Piece> pieces_;
  int hands_, shortest_ = 0;
  std::vector<int> start_, by_;
};

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : stream_(seed) {}
  int from(int low, int high) { return low + static_cast<int>(stream_.uniform() * (high - low + 1)); }

 private:
  numerics::RandomStream stream_;
};

KitTest any_card(Dice& dice, const std::string& key, int pieces, int longest_wait) {
  std::vector<TimedStep> steps;
  for (int i = 0; i < pieces; ++i) {
    if (i > 0) steps.push_back(waiting(dice.from(0, longest_wait)));
    if (i + 1 < pieces) {
      steps.push_back(hands(i == 0 ? Do::fill : Do::drops, dice.from(1, 4)));
      if (dice.from(0, 2) == 0) steps.push_back(hands(Do::mix, dice.from(1, 3)));
    } else {
      if (i == 0) steps.push_back(hands(Do::fill, dice.from(1, 4)));
      const int lasts = dice.from(1, 3);
      steps.push_back(reading(lasts, dice.from(0, 3) == 0 ? std::nullopt : std::optional(lasts + dice.from(0, 3))));
    }
  }
  return card(key, std::move(steps));
}

Kit any_kit(Dice& dice, int tests, int most_pieces, int longest_wait) {
  std::vector<KitTest> cards;
  int left = most_pieces;
  for (int i = 0; i < tests; ++i) {
    const int pieces = std::min(dice.from(1, 3), left - (tests - 1 - i));
    left -= pieces;
    cards.push_back(any_card(dice, "t" + std::to_string(i), pieces, longest_wait));
  }
  return kit_of(std::move(cards));
}

/// The timetable's order as pieces and hands.
std::vector<std::pair<int, int>> order_of(const Timetable& table, const std::vector<Piece>& pieces) {
  std::vector<std::pair<int, int>> order;
  std::vector<int> done(pieces.size(), 0);
  for (const Turn& turn : table.turns) {
    std::size_t i = 0;
    while (pieces[i].test != turn.test || done[i]) ++i;
    done[i] = 1;
    order.emplace_back(static_cast<int>(i), turn.hands);
  }
  return order;
}

TEST(BenchSchedule, IsTheBestOfAllOrders) {
  int with_idle_hands = 0;
  for (std::uint64_t seed = 1; seed <= 240; ++seed) {
    Dice dice(seed);
    const int hands = seed % 3 == 0 ? 2 : 1;
    const Kit kit = hands == 1 ? any_kit(dice, dice.from(2, 5), 7, 14) : any_kit(dice, dice.from(2, 4), 5, 9);
    const auto pieces = pieces_of(kit);
    const Best best = EveryOrder(pieces, hands).best();
    const auto table = sitting::timetable(kit, {.hands = hands});
    ASSERT_TRUE(table.has_value()) << "seed " << seed;
    EXPECT_TRUE(table->shortest) << "seed " << seed;
    EXPECT_EQ(table->lasts.count(), best.lasts) << "seed " << seed;
    EXPECT_EQ(table->switches, best.switches) << "seed " << seed;
    EXPECT_EQ(order_of(*table, pieces), best.order) << "seed " << seed;
    with_idle_hands += hands == 1 && table->lasts > table->hands_on ? 1 : 0;
  }
  EXPECT_GT(with_idle_hands, 40) << "kits too easy: the waits never matter";
}

TEST(BenchSchedule, IsAsShortAsWhenEverySecondIsTried) {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    Dice dice(1000 + seed);
    const int hands = seed % 2 == 0 ? 2 : 1;
    const Kit kit = any_kit(dice, 2, 4, 5);
    const int shortest = EverySecond(pieces_of(kit), hands).shortest();
    const auto table = sitting::timetable(kit, {.hands = hands});
    ASSERT_TRUE(table.has_value()) << "seed " << seed;
    EXPECT_EQ(table->lasts.count(), shortest) << "seed " << seed << ", " << hands << " pairs of hands";
  }
}

/// What is wrong with a timetable as work for real hands; empty when nothing is.
std::string flaw(const Kit& kit, const Timetable& table, int hands) {
  const auto pieces = pieces_of(kit);
  const auto order = order_of(table, pieces);
  if (order.size() != pieces.size()) return "something is left out or done twice";
  std::vector<seconds> free(static_cast<std::size_t>(hands), seconds(0)), ends(pieces.size());
  for (std::size_t k = 0; k < order.size(); ++k) {
    const Turn& turn = table.turns[k];
    const Piece& p = pieces[static_cast<std::size_t>(order[k].first)];
    if (turn.hands < 0 || turn.hands >= hands) return "hands that are not there";
    seconds& busy = free[static_cast<std::size_t>(turn.hands)];
    if (turn.starts < busy) return "one pair of hands at two things";
    if (turn.ends - turn.starts != seconds(p.lasts)) return "a turn is broken off";
    seconds at = turn.starts;
    for (const Turn::Part& part : turn.parts) {
      if (part.starts != at) return "a pause within a turn";
      at = part.ends;
    }
    if (p.before >= 0) {
      const seconds opens = ends[static_cast<std::size_t>(p.before)] + seconds(p.wait);
      if (turn.starts < opens) return "a wait cut short";
      if (p.over_by != INT_MAX && turn.ends > opens + seconds(p.over_by)) return "a colour read too late";
      if (p.over_by != INT_MAX && turn.read_by != opens + seconds(p.over_by)) return "the time to read by is not the card's";
    }
    busy = ends[static_cast<std::size_t>(order[k].first)] = turn.ends;
    if (turn.ends > table.lasts) return "over later than it says";
  }
  return "";
}

TEST(BenchSchedule, NeverReadsOutsideItsWindowNorAsksTwoThingsOfOnePairOfHands) {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    Dice dice(2000 + seed);
    const int hands = dice.from(1, 2);
    const Kit kit = any_kit(dice, dice.from(1, 8), 14, dice.from(2, 40));
    const auto table = sitting::timetable(kit, {.hands = hands});
    ASSERT_TRUE(table.has_value()) << "seed " << seed;
    EXPECT_EQ(flaw(kit, *table, hands), "") << "seed " << seed;
    EXPECT_LE(table->lasts, *table->one_after_another) << "seed " << seed;
  }
}

TEST(BenchSchedule, ASecondPairOfHandsNeverMakesItLonger) {
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    Dice dice(3000 + seed);
    const Kit kit = any_kit(dice, dice.from(1, 6), 11, 20);
    EXPECT_LE(sitting::timetable(kit, {.hands = 2})->lasts, sitting::timetable(kit, {.hands = 1})->lasts) << "seed " << seed;
  }
}

// What is left of a best timetable can be done no sooner than it says, or the whole could have been, and no later.
TEST(BenchSchedule, TakenUpAgainAtAnyMomentEndsWhenItWouldHave) {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    Dice dice(4000 + seed);
    const int hands = dice.from(1, 2);
    const Kit kit = any_kit(dice, dice.from(2, 6), 11, 20);
    const auto table = sitting::timetable(kit, {.hands = hands});
    ASSERT_TRUE(table.has_value());
    const seconds now(dice.from(0, static_cast<int>(table->lasts.count())));
    std::vector<sitting::Standing> standing;
    std::vector<seconds> free_in(static_cast<std::size_t>(hands), seconds(0));
    for (const Turn& turn : table->turns) {
      if (turn.starts >= now) continue;
      const std::string& key = kit.tests[turn.test].key;
      std::erase_if(standing, [&](const sitting::Standing& s) { return s.test == key; });
      standing.push_back({key, turn.parts.back().step + 1, now - turn.ends});
      free_in[static_cast<std::size_t>(turn.hands)] = std::max(seconds(0), turn.ends - now);
    }
    const auto rest = sitting::continue_from(kit, {.hands = hands}, standing, free_in);
    ASSERT_TRUE(rest.has_value()) << "seed " << seed << ": " << rest.problems().front().sentence;
    if (!rest->turns.empty()) EXPECT_EQ(rest->lasts, table->lasts - now) << "seed " << seed;
  }
}

}  // namespace
}  // namespace redd::properties
