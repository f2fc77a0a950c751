// Whether more die than is to be expected: each look against the stage, the number at risk and the days since the look before.

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "inference/counts.h"
#include "numerics/poisson_chart.h"
#include "records/school_calendar.h"

namespace redd::inference {
namespace {

using records::Count;
using records::Record;
using std::chrono::days;

/// At most one false alarm in so many days. Assumed: less than one in a school season, as too many get an alarm ignored.
constexpr int false_alarm_days = 300;
/// The chart finds a rate of three times the expected soonest. Assumed: twice is what lots differ by anyhow.
constexpr double ratio_to_find = 3.0;
/// One death is never an outbreak.
constexpr int fewest_deaths = 2;
/// A tenth within three days, and more than a pair, is an emergency. Assumed.
constexpr double disaster_fraction = 0.10;
constexpr int disaster_fewest = 3;
/// The typical rate counts as much as so many deaths seen; the season's own ratio stays between these, so that neither a lucky start
/// makes every death an alarm nor a bad one makes dying usual. Assumed.
constexpr double prior_deaths = 4.0, least_ratio = 0.5, most_ratio = 2.0;
/// The season's own rate is learnt from what is older than this. Assumed: an outbreak shows within it.
constexpr days learning_lag{7};
/// After so many days without a count of dead it is not known whether any died. Good Friday to the Tuesday after Easter. Assumed.
constexpr days longest_unlooked{4};
/// An alarm stands until a count of dead three days later raised none; when nobody counts, for as long as a weekly test stays news. Assumed.
constexpr days quiet_ends_alarm{3}, silence_ends_alarm{9};
/// So long after the last look that found more than expected the brood is looked at daily, also when fewer die by now. Assumed: a week.
constexpr days past_is_news{7};

/// An entry that somebody standing at the tank makes; a logger's temperatures are not.
bool shows_a_visit(const records::Body& body) {
  return std::holds_alternative<Count>(body) || std::holds_alternative<records::Feeding>(body) || std::holds_alternative<records::Reading>(body) ||
         std::holds_alternative<records::WaterChange>(body) || std::holds_alternative<records::Milestone>(body) || std::holds_alternative<records::TopUp>(body);
}

struct FoundOnDay {
  int died = 0;
  std::vector<RecordId> records{};
};

std::map<Date, FoundOnDay> found_by_day(std::span<const Record> records, const ZoneOffsets& zone) {
  std::map<Date, FoundOnDay> found;
  for (const Record& record : records)
    if (const auto* count = std::get_if<Count>(&record.entry.body); count && records::are_dead(count->what)) {
      FoundOnDay& day = found[local_day(zone, record.entry.at)];
      day.died += count->count;
      if (count->count > 0) day.records.push_back(record.id);
    }
  return found;
}

/// Days on which somebody looked. Assumed: on every day of school somebody does, even when nothing is logged; today only once a count is in.
std::set<Date> days_looked(std::span<const Record> records, const std::map<Date, FoundOnDay>& found, const ZoneOffsets& zone, Date first, Date today) {
  std::set<Date> looked{first};
  const records::SchoolCalendar school(records);
  for (Date day = first; day < today; day += days(1))
    if (school.is_open(day)) looked.insert(day);
  for (const Record& record : records) {
    const Date day = local_day(zone, record.entry.at);
    if (day >= first && day < today && shows_a_visit(record.entry.body)) looked.insert(day);
  }
  for (const auto& [day, what] : found)
    if (day >= first) looked.insert(day);
  return looked;
}

double typical_deaths(const BroodBelief& brood, const AliveAccount& account, Date from, Date to) {
  double sum = 0.0;
  for (Date day = from; day <= to; day += days(1)) {
    // At risk: who was alive the evening before, or came that day.
    const double at_risk = std::max(account.alive_on(day - days(1)), day == account.receipts.front() ? account.alive_on(day) : 0.0);
    sum += biology::expected_loss_fraction_per_day(loss_phase(brood, account.receipts, day)) * at_risk;
  }
  return sum;
}

/// The season's own losses against the typical, from looks that ended before a day; arrival apart, which says nothing of the tank.
class SeasonRatio {
 public:
  void learn(const LossLook& look, double typical) {
    if (look.phase != LossPhase::arrival) waiting_.push_back({look.to, static_cast<double>(look.died), typical});
  }
  double before(Date day) {
    while (taken_ < waiting_.size() && waiting_[taken_].to + learning_lag < day) {
      died_ += waiting_[taken_].died;
      typical_ += waiting_[taken_++].typical;
    }
    return std::clamp((prior_deaths + died_) / (prior_deaths + typical_), least_ratio, most_ratio);
  }

 private:
  struct Seen {
    Date to;
    double died, typical;
  };
  std::vector<Seen> waiting_{};
  std::size_t taken_ = 0;
  double died_ = 0.0, typical_ = 0.0;
};

void watch_looks(LossWatch& watch, const BroodBelief& brood, const AliveAccount& account, const std::map<Date, FoundOnDay>& found, const std::set<Date>& looked) {
  const double largest = 0.02 * std::max(50.0, static_cast<double>(account.received));
  numerics::CountWatch chart(1.0 / false_alarm_days, ratio_to_find, largest);
  SeasonRatio season;
  Date from = *looked.begin();
  for (const Date day : looked) {
    LossLook look{from, day};
    look.at_risk = std::max(account.alive_on(from - days(1)), from == account.receipts.front() ? account.alive_on(from) : 0.0);
    look.phase = loss_phase(brood, account.receipts, day);
    if (const auto here = found.find(day); here != found.end()) look.died = here->second.died, look.records = here->second.records;
    from = day + days(1);
    if (look.at_risk < 0.5 && look.died == 0) continue;
    const double typical = typical_deaths(brood, account, look.from, look.to);
    // Of a handful of animals so little is expected that the chart needs a floor to stand on.
    constexpr double least_expected = 0.01;
    look.expected = std::max(least_expected, typical * season.before(look.from));
    const auto point = chart.next(look.died, look.expected, static_cast<double>((look.to - look.from).count() + 1));
    look.sum = point.sum, look.limit = point.limit, look.began = point.began, look.signals = point.signals;
    season.learn(look, typical);
    watch.looks.push_back(std::move(look));
  }
  watch.season_ratio = watch.looks.empty() ? 1.0 : season.before(watch.looks.back().to);
}

/// Where the run of excess that ended in this signal began.
std::size_t beginning_of(const std::vector<LossLook>& looks, std::size_t signal) {
  std::size_t i = signal;
  while (i > 0 && !looks[i].began) --i;
  return i;
}

/// What was found at these looks, both included.
PastLosses found_between(const std::vector<LossLook>& looks, std::size_t first, std::size_t last) {
  PastLosses found{looks[first].to, looks[last].to};
  for (std::size_t i = first; i <= last; ++i) {
    found.died += looks[i].died;
    found.expected += looks[i].expected;
    found.records.insert(found.records.end(), looks[i].records.begin(), looks[i].records.end());
  }
  return found;
}

void say_what_was_more(LossWatch& watch, std::size_t first, std::size_t last, Date today) {
  PastLosses past = found_between(watch.looks, first, last);
  if (past.died < fewest_deaths || today - past.last > past_is_news) return;
  for (std::size_t i = last + 1; i < watch.looks.size(); ++i) past.died_since += watch.looks[i].died;
  watch.lately = std::move(past);
}

void say_what_is_more(LossWatch& watch, Date today) {
  const auto signal = std::find_if(watch.looks.rbegin(), watch.looks.rend(), [](const LossLook& look) { return look.signals; });
  if (signal == watch.looks.rend() || today - signal->to > silence_ends_alarm) return;
  const auto last = static_cast<std::size_t>(watch.looks.rend() - signal) - 1;
  const std::size_t first = beginning_of(watch.looks, last);
  if (watch.looked && *watch.looked - signal->to >= quiet_ends_alarm) return say_what_was_more(watch, first, last, today);
  PastLosses found = found_between(watch.looks, first, watch.looks.size() - 1);
  watch.died = found.died;
  watch.expected = found.expected;
  watch.records = std::move(found.records);
  watch.since = watch.looks[first].from;
  watch.found = found.first;
  if (watch.died >= fewest_deaths) watch.state = LossWatch::State::more_than_expected;
}

void add_recent(LossWatch& watch, std::span<const Record> records, const AliveAccount& account, Instant now) {
  constexpr double window_days = 3.0;
  for (const Record& record : records) {
    const auto* count = std::get_if<Count>(&record.entry.body);
    if (!count || count->count == 0 || !records::are_dead(count->what) || days_between(record.entry.at, now).count() > window_days) continue;
    watch.recent_died += count->count;
    watch.recent_records.push_back(record.id);
  }
  if (watch.recent_died > 0) watch.recent_fraction = watch.recent_died / (watch.recent_died + account.alive.mid);
  watch.many_at_once = watch.recent_died >= disaster_fewest && watch.recent_fraction >= disaster_fraction;
}

}  // namespace

LossWatch loss_watch(std::span<const Record> records, const Belief& belief, const AliveAccount& account, const ZoneOffsets& zone, Instant now) {
  LossWatch watch;
  watch.false_alarm_days = false_alarm_days;
  if (account.receipts.empty()) return watch;
  const Date today = local_day(zone, now);
  const auto found = found_by_day(records, zone);
  if (!found.empty()) watch.looked = found.rbegin()->first;
  // A count of the living that fits tells as much.
  for (const CountTaken& count : account.counts)
    if (count.what == Count::What::alive && count.fit == CountTaken::Fit::fits) watch.looked = std::max(watch.looked.value_or(count.day), count.day);
  const auto looked = days_looked(records, found, zone, account.receipts.front(), today);
  watch_looks(watch, belief.brood, account, found, looked);
  add_recent(watch, records, account, now);
  if (!has_animals(belief.brood.animals)) return watch;
  watch.expected_per_day = watch.season_ratio * account.alive.mid * biology::expected_loss_fraction_per_day(loss_phase(belief.brood, account.receipts, today));
  const Date last_look = watch.looked.value_or(account.receipts.back());
  watch.state = today - last_look > longest_unlooked ? LossWatch::State::not_known : LossWatch::State::as_expected;
  say_what_is_more(watch, today);
  if (watch.state == LossWatch::State::more_than_expected) {
    watch.checks = loss_checks(records, belief, zone, now);
    watch.changes = changes_before(records, zone, watch.since, now);
  }
  return watch;
}

}  // namespace redd::inference
