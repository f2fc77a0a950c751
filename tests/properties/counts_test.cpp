// Laws of counting: whatever was logged, survival never rises, ranges hold their estimates, and neither the order of a day nor more deaths
// make things look better.
#include <algorithm>
#include <cmath>

#include "inference/counts_account.h"
#include "numerics/poisson_chart.h"
#include "numerics/survival.h"
#include "properties/generators.h"

namespace redd::properties {
namespace {

using records::Count;

/// In  spare: so many at least are left, that one more may die without more dying or leaving than there are.
std::vector<numerics::LotChange> any_lot(int spare = -400) {
  int alive = *rc::gen::inRange(std::max(1, spare), 400);
  std::vector<numerics::LotChange> changes{{0, static_cast<double>(alive), 0, 0}};
  const int days = *rc::gen::inRange(1, 30);
  for (int day = 1; day <= days; ++day) {
    const int joined = *rc::gen::inRange(0, 3), died = std::clamp(*rc::gen::inRange(0, 12), 0, std::max(0, alive + joined - spare));
    const int left = std::clamp(*rc::gen::inRange(0, 8), 0, std::max(0, alive + joined - died - spare));
    alive += joined - died - left;
    changes.push_back({static_cast<double>(day), static_cast<double>(joined), static_cast<double>(died), static_cast<double>(left)});
  }
  return changes;
}

RC_GTEST_PROP(Survival, NeverRisesAndItsRangeHoldsIt, ()) {
  double before = 1.0;
  for (const auto& point : numerics::kaplan_meier(any_lot())) {
    const auto& s = point.survival;
    RC_ASSERT(s.mid <= before);
    RC_ASSERT(0.0 <= s.low && s.low <= s.mid && s.mid <= s.high && s.high <= 1.0);
    before = s.mid;
  }
}

RC_GTEST_PROP(Survival, IsNeverRaisedByAnotherDeath, ()) {
  const auto lot = any_lot(1);
  auto worse = lot;
  worse[*rc::gen::inRange<std::size_t>(0, lot.size())].died += 1.0;
  const auto fine = numerics::kaplan_meier(lot), poor = numerics::kaplan_meier(worse);
  const double end = fine.empty() ? 1.0 : fine.back().survival.mid;
  RC_ASSERT(poor.back().survival.mid <= end + 1e-12);
}

RC_GTEST_PROP(ExactShare, HoldsTheShareAndWidensWithTheLevel, ()) {
  const double trials = *rc::gen::inRange(1, 2000), hits = *rc::gen::inRange(0, static_cast<int>(trials) + 1);
  const auto usual = numerics::exact_share(hits, trials, 0.9), wide = numerics::exact_share(hits, trials, 0.99);
  RC_ASSERT(0.0 <= wide.low && wide.low <= usual.low && usual.low <= usual.mid);
  RC_ASSERT(usual.mid <= usual.high && usual.high <= wide.high && wide.high <= 1.0);
}

RC_GTEST_PROP(CountWatch, SignalsNoLaterWhenMoreDie, ()) {
  numerics::CountWatch fine(1.0 / 300, 3.0, 5.0), poor(1.0 / 300, 3.0, 5.0);
  const double expected = *between(0.02, 4.0);
  for (int day = 0; day < 12; ++day) {
    const int died = *rc::gen::inRange(0, 6);
    const bool signals = fine.next(died, expected, 1.0).signals;
    const bool signals_too = poor.next(died + *rc::gen::inRange(0, 3), expected, 1.0).signals;
    RC_ASSERT(!signals || signals_too);
    if (signals_too) break;  // from here on the charts have begun anew on different days
  }
}

/// A few records of 30 days, hours apart, with one receipt on the first.
std::vector<records::Record> any_log() {
  std::vector<records::Record> log;
  const auto add = [&](int day, int hour, records::Body body) {
    records::Record r;
    r.id = static_cast<records::RecordId>(log.size()) + 1;
    r.entry.at = Instant{std::chrono::sys_days{std::chrono::year{2031} / 1 / 6}} + std::chrono::days(day) + std::chrono::hours(hour);
    r.entry.body = std::move(body);
    log.push_back(std::move(r));
  };
  records::EggReceipt eggs;
  eggs.count = *rc::gen::inRange(20, 400);
  add(0, 8, eggs);
  const int count = *rc::gen::inRange(1, 20);
  for (int i = 0; i < count; ++i) {
    const int day = *rc::gen::inRange(0, 30), hour = *rc::gen::inRange(0, 24);
    switch (*rc::gen::inRange(0, 4)) {
      case 0: add(day, hour, Count{Count::What::alive, *rc::gen::inRange(0, eggs.count + 1)}); break;
      case 1: add(day, hour, records::Release{*rc::gen::inRange(1, eggs.count + 1), "Brook"}); break;
      default: add(day, hour, Count{static_cast<Count::What>(*rc::gen::inRange(0, 3)), *rc::gen::inRange(0, 20)});
    }
  }
  std::ranges::stable_sort(log, {}, [](const records::Record& r) { return r.entry.at; });
  return log;
}

RC_GTEST_PROP(AliveAccount, IsARangeOfAnimalsThatCanBe, ()) {
  const auto account = inference::alive_account(any_log(), {});
  RC_ASSERT(0.0 <= account.alive.low && account.alive.low <= account.alive.mid && account.alive.mid <= account.alive.high);
  RC_ASSERT(std::isfinite(account.alive.high));
  for (const auto& count : account.counts) RC_ASSERT(count.animals.low <= count.animals.mid && count.animals.mid <= count.animals.high);
}

RC_GTEST_PROP(AliveAccount, DoesNotMindTheOrderOfADay, ()) {
  const auto log = any_log();
  auto turned = log;
  const auto day_of = [](const records::Record& r) { return local_day({}, r.entry.at); };
  for (std::size_t from = 0; from < turned.size();) {
    std::size_t to = from;
    while (to < turned.size() && day_of(turned[to]) == day_of(turned[from])) ++to;
    std::reverse(turned.begin() + static_cast<std::ptrdiff_t>(from), turned.begin() + static_cast<std::ptrdiff_t>(to));
    from = to;
  }
  const auto one = inference::alive_account(log, {}), other = inference::alive_account(turned, {});
  RC_ASSERT(std::abs(one.alive.mid - other.alive.mid) < 1e-6);
  RC_ASSERT(std::abs(one.alive.high - other.alive.high) < 1e-6);
  RC_ASSERT(one.contradictions.size() == other.contradictions.size() && one.missing.size() == other.missing.size());
}

RC_GTEST_PROP(AliveAccount, NeverGainsByADeathWithoutACount, ()) {
  auto log = any_log();
  std::erase_if(log, [](const records::Record& r) {
    const auto* count = std::get_if<Count>(&r.entry.body);
    return count && !records::are_dead(count->what);
  });
  const auto before = inference::alive_account(log, {});
  records::Record death = log.back();
  death.entry.body = Count{Count::What::dead_fry, 1};
  log.push_back(death);
  RC_ASSERT(inference::alive_account(log, {}).alive.mid <= before.alive.mid);
}

}  // namespace
}  // namespace redd::properties
