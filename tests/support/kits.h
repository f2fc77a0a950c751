#pragma once
// Small invented kits for the tests of a sitting, written as a card would be.

#include <string>
#include <utility>
#include <vector>

#include "records/kit.h"

namespace redd::testing {

using records::Kit;
using records::KitTest;
using records::TimedStep;
using Do = TimedStep::Do;

inline TimedStep hands(Do what, int seconds) { return {.what = what, .seconds = seconds}; }
inline TimedStep waiting(int seconds) { return {.what = Do::wait, .seconds = seconds}; }
inline TimedStep reading(int seconds, std::optional<int> by = std::nullopt) { return {.what = Do::read, .seconds = seconds, .read_by_seconds = by}; }

inline KitTest card(std::string key, std::vector<TimedStep> steps, records::Quantity quantity = records::Quantity::nitrate) {
  KitTest test;
  test.key = std::move(key);
  test.quantity = quantity;
  test.unit = quantity == records::Quantity::ph ? records::TestUnit::ph : records::TestUnit::mg_per_l;
  test.steps = {0, 1, 2};
  test.timed_steps = std::move(steps);
  return test;
}

inline Kit kit_of(std::vector<KitTest> tests) { return {.key = "made_up", .name = "Made-up kit", .tests = std::move(tests)}; }

}  // namespace redd::testing
