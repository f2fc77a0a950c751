// Cost of laying out a sitting against tests and pairs of hands: processor time over random kits, mean and worst, and how often the search was cut short.
// With any argument (how it is run as a test) all is small.

#include <algorithm>
#include <cstdio>
#include <ctime>
#include <string>
#include <vector>

#include "../tests/support/kits.h"
#include "numerics/random.h"
#include "sitting/timetable.h"

namespace {

using namespace redd;
using namespace redd::testing;

/// Three tests in ten without a wait, six with one, one with two; hands-on 40 s to two minutes, waits two to fifteen minutes. Invented.
Kit any_kit(numerics::RandomStream& dice, int tests, int widest_window_s) {
  const auto from = [&](int low, int high) { return low + static_cast<int>(dice.uniform() * (high - low + 1)); };
  std::vector<KitTest> cards;
  for (int i = 0; i < tests; ++i) {
    const int kind = from(0, 9);
    std::vector<TimedStep> steps{hands(Do::fill, 10 * from(4, 12))};
    if (kind == 9) steps.insert(steps.end(), {waiting(30 * from(2, 10)), hands(Do::drops, 10 * from(2, 6))});
    if (kind >= 3) steps.push_back(waiting(30 * from(4, 30)));
    const int read = 5 + 5 * from(1, 4);
    steps.push_back(reading(read, read + 5 * from(0, widest_window_s / 5)));
    cards.push_back(card("t" + std::to_string(i), std::move(steps)));
  }
  return kit_of(std::move(cards));
}

void row(int tests, int hands, int widest_window_s, int kits) {
  numerics::RandomStream dice(7);
  double sum = 0.0, worst = 0.0;
  int not_proven = 0;
  for (int i = 0; i < kits; ++i) {
    const Kit kit = any_kit(dice, tests, widest_window_s);
    const std::clock_t start = std::clock();
    const auto table = sitting::timetable(kit, {.hands = hands});
    const double ms = 1e3 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
    sum += ms;
    worst = std::max(worst, ms);
    not_proven += table && !table->shortest ? 1 : 0;
  }
  std::printf("%2d tests, %d pair(s) of hands, windows up to %3d s: mean %7.2f ms, worst %7.1f ms; %d of %d not proven shortest\n", tests, hands, widest_window_s,
              sum / kits, worst, not_proven, kits);
}

}  // namespace

int main(int argc, char**) {
  const bool small = argc > 1;
  for (const int tests : {5, 8, 10, 12})
    for (const int hands : {1, 2})
      for (const int window : {60, 240})
        if (!small || tests == 5) row(tests, hands, window, small ? 5 : tests > 8 ? 100 : 300);
}
