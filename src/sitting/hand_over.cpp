#include "sitting/hand_over.h"

#include <algorithm>

#include "records/reading.h"

namespace redd::sitting {
namespace {

using records::KitTest;

struct Span {
  double low, high;
};
Span span_of(const KitTest& test) {
  return {records::canonical_value(test.unit, test.steps.front()), records::canonical_value(test.unit, test.steps.back())};
}
/// How far inside a value lies; less than nought outside.
double depth(const Span& span, double value) { return std::min(value - span.low, span.high - value); }

}  // namespace

std::vector<Expected> last_read(const records::Kit& kit, const std::vector<records::Record>& effective) {
  std::vector<Expected> known;
  for (auto record = effective.rbegin(); record != effective.rend(); ++record) {
    const auto* reading = std::get_if<records::Reading>(&record->entry.body);
    const records::Kit* with = reading ? records::find_kit(effective, reading->kit) : nullptr;
    const KitTest* test = with ? records::find_test(*with, reading->test) : nullptr;
    if (!test || std::ranges::find(kit.tests, test->quantity, &KitTest::quantity) == kit.tests.end()) continue;
    if (std::ranges::find(known, test->quantity, &Expected::quantity) != known.end()) continue;
    if (const auto seen = records::observed_interval(*test, *reading)) known.push_back({test->quantity, seen->mid});
  }
  return known;
}

std::optional<HandOver> hand_over(const KitTest& a, const KitTest& b, std::optional<double> expected) {
  for (const KitTest* test : {&a, &b})
    if (test->method != records::Method::colour_steps || test->steps.size() < 2) return std::nullopt;
  if (a.quantity != b.quantity) return std::nullopt;
  const Span of_a = span_of(a), of_b = span_of(b);
  const bool a_is_low = of_a.low < of_b.low && of_a.high < of_b.high, b_is_low = of_b.low < of_a.low && of_b.high < of_a.high;
  if (!a_is_low && !b_is_low) return std::nullopt;
  const bool a_first = !expected || depth(of_a, *expected) >= depth(of_b, *expected);
  const KitTest& first = a_first ? a : b;
  const Span own = a_first ? of_a : of_b, other = a_first ? of_b : of_a;
  const bool rising = a_first == a_is_low;
  const double seam = rising ? std::min(own.high, other.low) : std::max(own.low, other.high);
  // An end step is taken as printed: turned into another unit and back it would not be quite itself.
  const double printed = seam == own.high ? first.steps.back() : seam == own.low ? first.steps.front() : records::printed_value(first.unit, seam);
  return HandOver{first.key, (a_first ? b : a).key, rising, printed};
}

bool other_is_due(const HandOver& rule, const records::Reading& first) {
  using Form = records::Reading::Form;
  constexpr double noise = 1e-9;  // of decimal numbers in binary
  switch (first.form) {
    case Form::below_first: return !rule.at_or_above;
    case Form::above_last: return rule.at_or_above;
    case Form::step:
    case Form::between: {
      const auto end = first.form == Form::between && rule.at_or_above ? first.upper_value : first.value;
      if (!end) return true;
      return rule.at_or_above ? *end >= rule.printed - noise : *end <= rule.printed + noise;
    }
    case Form::drops:
    case Form::number: return true;
  }
  return true;
}

UsualTests usual_tests(const records::Kit& kit, const std::vector<std::size_t>& tests, const std::vector<Expected>& expected) {
  UsualTests usual;
  std::vector<char> waits(kit.tests.size(), 0);
  for (const std::size_t i : tests)
    for (const std::size_t k : tests) {
      if (k <= i) continue;
      const auto known = std::ranges::find(expected, kit.tests[i].quantity, &Expected::quantity);
      const auto rule = hand_over(kit.tests[i], kit.tests[k], known == expected.end() ? std::nullopt : std::optional(known->value));
      if (!rule) continue;
      waits[rule->then == kit.tests[k].key ? k : i] = 1;
      usual.later.push_back(*rule);
    }
  for (const std::size_t i : tests)
    if (!waits[i]) usual.now.push_back(i);
  return usual;
}

}  // namespace redd::sitting
