#include "inference/counts_account.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "numerics/proportions.h"

namespace redd::inference {
namespace {

using records::Count;
using records::Record;
using What = records::Count::What;

constexpr double z_90 = 1.645;         ///< half of a 90 % interval in standard deviations
constexpr double surprising_sd = 2.58; ///< one in a hundred

// Standard deviations, as shares of the number. Assumed, all of them:
constexpr double receipt_sd = 0.015;   ///< a hatchery's number, often by volume: right within 2.5 % nine times in ten
constexpr double counted_sd = 0.015;   ///< a whole count of things that move or lie on each other: the same
constexpr double estimated_sd = 0.15;  ///< by eye: within a quarter
constexpr double unseen_sd = 0.2;      ///< dead that nobody finds, of those found: up to a third
constexpr double released_sd = 0.01;   ///< counted into buckets
constexpr double clump = 4;            ///< alevins huddle: a part looked at errs as if fours were strewn

struct Gaussian {
  double mean = 0, variance = 0;
  double sd() const { return std::sqrt(variance); }
  Estimate<double> interval(Support support) const {
    const double mid = std::max(0.0, mean);
    return {std::clamp(mean - z_90 * sd(), 0.0, mid), mid, std::max(mid, mean + z_90 * sd()), support};
  }
};

double square(double x) { return x * x; }

Gaussian take_of(const Count& c) {
  const double n = c.count;
  if (c.how == Count::How::sampled && c.looked_at_fraction && *c.looked_at_fraction > 0.0) {
    const auto total = numerics::total_from_part(n, *c.looked_at_fraction, clump);
    return {total.mid, square(std::max(0.5, (total.high - total.low) / (2.0 * z_90)))};
  }
  return {n, square(std::max(0.5, n * (c.how == Count::How::counted ? counted_sd : estimated_sd)))};
}

/// Takes of one day as one count. Where they differ by more than their errors allow, the error grows to fit [birge1932].
Gaussian pooled(const std::vector<Gaussian>& takes) {
  double weights = 0.0, sum = 0.0, misfit = 0.0;
  for (const Gaussian& take : takes) weights += 1.0 / take.variance, sum += take.mean / take.variance;
  const double mean = sum / weights;
  for (const Gaussian& take : takes) misfit += square(take.mean - mean) / take.variance;
  const double spread = takes.size() > 1 ? std::max(1.0, misfit / static_cast<double>(takes.size() - 1)) : 1.0;
  return {mean, spread / weights};
}

/// What was logged on one day, whatever the order.
struct DayBook {
  double received = 0, received_variance = 0, died = 0, died_variance = 0, released = 0;
  int dead_eggs = 0;
  std::vector<Gaussian> alive{}, hatched{};
  std::vector<records::RecordId> alive_records{}, hatched_records{};
};

class Account {
 public:
  void day(Date day, const DayBook& book) {
    state_.mean += book.received;
    state_.variance += book.received_variance;
    state_.mean -= book.died;
    state_.variance += book.died_variance;
    unseen_ += book.died;
    received_ += book.received;
    dead_eggs_ += book.dead_eggs;
    if (!book.hatched.empty()) hatched(day, book);
    if (!book.alive.empty()) {
      // A count of a day with a release was made before or after it: as it fits better.
      const Gaussian count = pooled(book.alive);
      const double now = total().mean;
      const bool after = book.released > 0.0 && std::fabs(count.mean - (now - book.released)) < std::fabs(count.mean - now);
      if (after) release(book.released);
      counted(day, count, book);
      if (!after) release(book.released);
    } else {
      release(book.released);
    }
    if (state_.mean < 0.0) state_.mean = 0.0;  // said by the caller, who knows the totals
    out.course.emplace_back(day, state_.mean);
  }

  Gaussian total() const { return {state_.mean, state_.variance + square(unseen_sd * unseen_)}; }

  AliveAccount out{};

 private:
  void release(double number) {
    state_.mean -= number;
    state_.variance += square(released_sd * number);
  }

  void counted(Date day, const Gaussian& count, const DayBook& book) {
    const Gaussian prior = total();
    const double step = count.mean - prior.mean, doubt = std::sqrt(count.variance + prior.variance);
    CountTaken taken{day, What::alive, static_cast<int>(book.alive.size()), count.interval(Support::measured), prior.interval(Support::inferred), CountTaken::Fit::fits, book.alive_records};
    if (received_ <= 0.0 || step < -surprising_sd * doubt) {
      // Living that were not found dead and are not there: the count stands.
      state_ = count;
      if (received_ > 0.0) {
        taken.fit = CountTaken::Fit::fewer;
        out.missing.push_back({{"On {0} about {1} were counted alive where about {2} should be left: some {3} are missing. Dead ones dissolve, dry under the lid, stick to the intake or lie in the gravel.",
                                {day, Number{std::llround(count.mean)}, Number{std::llround(prior.mean)}, Number{std::llround(-step)}}}, book.alive_records});
      }
    } else if (step > surprising_sd * doubt) {
      state_ = {prior.mean + 0.5 * step, square(0.5 * step / z_90) + std::max(count.variance, prior.variance)};
      taken.fit = CountTaken::Fit::more;
      out.contradictions.push_back({{"On {0} about {1} were counted alive, but receipts, dead and releases leave about {2}: count again, or look for a dead count or release that was logged twice.",
                                     {day, Number{std::llround(count.mean)}, Number{std::llround(prior.mean)}}}, book.alive_records});
    } else {
      const double weight = prior.variance / (prior.variance + count.variance);
      state_ = {prior.mean + weight * step, (1.0 - weight) * prior.variance};
    }
    unseen_ = 0.0;
    out.counts.push_back(std::move(taken));
  }

  void hatched(Date day, const DayBook& book) {
    const Gaussian count = pooled(book.hatched), possible{received_ - dead_eggs_, square(receipt_sd * received_)};
    CountTaken taken{day, What::hatched, static_cast<int>(book.hatched.size()), count.interval(Support::measured), possible.interval(Support::inferred), CountTaken::Fit::fits, book.hatched_records};
    if (received_ > 0.0 && count.mean - possible.mean > surprising_sd * std::sqrt(count.variance + possible.variance)) {
      taken.fit = CountTaken::Fit::more;
      out.contradictions.push_back({{"By {0} about {1} are logged as hatched, but only about {2} eggs were left to hatch: hatched means all so far, and not those of one day.",
                                     {day, Number{std::llround(count.mean)}, Number{std::llround(possible.mean)}}}, book.hatched_records});
    }
    out.counts.push_back(std::move(taken));
  }

  Gaussian state_{};
  double unseen_ = 0.0;  ///< found dead since the last count; what nobody found goes with it
  double received_ = 0.0;
  int dead_eggs_ = 0;
};

struct Books {
  std::map<Date, DayBook> days{};
  std::vector<records::RecordId> dead_records{}, release_records{};
};

Books books_of(std::span<const Record> records, const ZoneOffsets& zone, AliveAccount& totals) {
  Books books;
  for (const Record& record : records) {
    const Date day = local_day(zone, record.entry.at);
    if (const auto* receipt = std::get_if<records::EggReceipt>(&record.entry.body)) {
      books.days[day].received += receipt->count;
      books.days[day].received_variance += square(receipt_sd * receipt->count);
      totals.receipts.push_back(day);
      totals.receipt_records.push_back(record.id);
      totals.received += receipt->count;
    } else if (const auto* release = std::get_if<records::Release>(&record.entry.body)) {
      books.days[day].released += release->count;
      books.release_records.push_back(record.id);
      totals.released += release->count;
    } else if (const auto* count = std::get_if<Count>(&record.entry.body)) {
      DayBook& book = books.days[day];
      if (count->what == What::alive) {
        book.alive.push_back(take_of(*count));
        book.alive_records.push_back(record.id);
      } else if (count->what == What::hatched) {
        book.hatched.push_back(take_of(*count));
        book.hatched_records.push_back(record.id);
      } else if (records::are_dead(count->what)) {
        book.died += count->count;
        if (count->how == Count::How::estimated) book.died_variance += square(estimated_sd * count->count);
        if (count->count > 0) books.dead_records.push_back(record.id);
        (count->what == What::dead_eggs ? totals.dead_eggs : count->what == What::dead_alevins ? totals.dead_alevins : totals.dead_fry) += count->count;
        if (count->what == What::dead_eggs) book.dead_eggs += count->count;
      }
    }
  }
  return books;
}

}  // namespace

double AliveAccount::alive_on(Date day) const {
  const auto after = std::upper_bound(course.begin(), course.end(), day, [](Date d, const auto& step) { return d < step.first; });
  return after == course.begin() ? 0.0 : std::prev(after)->second;
}

AliveAccount alive_account(std::span<const Record> records, const ZoneOffsets& zone) {
  AliveAccount totals;
  const Books books = books_of(records, zone, totals);
  Account account;
  for (const auto& [day, book] : books.days) account.day(day, book);
  totals.counts = std::move(account.out.counts);
  totals.course = std::move(account.out.course);
  totals.contradictions = std::move(account.out.contradictions);
  totals.missing = std::move(account.out.missing);
  const bool any_count = std::ranges::any_of(totals.counts, [](const CountTaken& c) { return c.what == What::alive; });
  totals.alive = account.total().interval(any_count ? Support::measured : Support::inferred);
  if (totals.received > 0 && totals.left_by_book() < 0) {
    Finding too_many{{"{0} dead and {1} released are more than the {2} received: one of these records is wrong.",
                      {Number{totals.dead()}, Number{totals.released}, Number{totals.received}}}, totals.receipt_records};
    too_many.records.insert(too_many.records.end(), books.dead_records.begin(), books.dead_records.end());
    too_many.records.insert(too_many.records.end(), books.release_records.begin(), books.release_records.end());
    totals.contradictions.push_back(std::move(too_many));
  }
  return totals;
}

}  // namespace redd::inference
