#include "season/report_look.h"

#include <algorithm>

namespace redd::season {
namespace {

using records::Record;
using std::chrono::days;

biology::CalendarMoment end_of(Date day) { return biology::CalendarMoment(day) + Days(1.0); }

std::vector<LossOnDay> losses_of(const DayView& day) {
  std::map<std::pair<Date, records::Count::What>, LossOnDay> found;
  for (const Record& record : day.records) {
    const auto* count = std::get_if<records::Count>(&record.entry.body);
    if (!count || !records::are_dead(count->what) || count->count == 0) continue;
    const Date on = local_day(day.zone, record.entry.at);
    LossOnDay& loss = found[{on, count->what}];
    loss.day = on, loss.what = count->what, loss.count += count->count;
    loss.all_counted = loss.all_counted && count->how == records::Count::How::counted;
  }
  std::vector<LossOnDay> list;
  for (const auto& [key, loss] : found) list.push_back(loss);
  return list;
}

Date month_of(Date day) {
  const std::chrono::year_month_day calendar{day};
  return Date{calendar.year() / calendar.month() / std::chrono::day{1}};
}

std::vector<MonthOfWater> months_of(const DayView& day) {
  const Date today = local_day(day.zone, day.now);
  std::map<Date, MonthOfWater> found;
  std::map<Date, double> sum_c;
  for (const auto& one : day.belief.temperature.days) {
    if (one.day > today || one.day < day.season.first_day) continue;
    MonthOfWater& month = found[month_of(one.day)];
    month.first = month_of(one.day);
    ++month.days;
    if (!one.measured) continue;
    ++month.measured;
    sum_c[month.first] += one.mean.c();
    if (!month.mean) month.mean = Estimate<Temperature>{one.mean, one.mean, one.mean};
    month.mean->low = std::min(month.mean->low, one.mean);
    month.mean->high = std::max(month.mean->high, one.mean);
  }
  std::vector<MonthOfWater> list;
  for (auto& [first, month] : found) {
    if (month.mean) month.mean->mid = Temperature::from_c(sum_c[first] / month.measured);
    list.push_back(month);
  }
  return list;
}

/// First and last day with animals, as far as they are known.
struct Inhabited {
  std::optional<Date> from{}, until{};
  bool holds(Date day) const { return from && day >= *from && (!until || day <= *until); }
  bool before(Date day) const { return !from || day < *from; }
};

Inhabited inhabited(const DayView& day, const inference::Counts& counts) {
  Inhabited time{counts.received_on, {}};
  if (!counts.released) return time;
  for (const Record& record : day.records)
    if (std::holds_alternative<records::Release>(record.entry.body)) time.until = local_day(day.zone, record.entry.at);
  return time;
}

std::vector<WaterOverSeason> water_of(const DayView& day, const Inhabited& time) {
  std::vector<WaterOverSeason> list;
  for (const bool with_animals : {false, true})
    for (const auto& [quantity, belief] : day.belief.water) {
      std::vector<inference::SeriesPoint> sittings;
      for (const auto& point : belief.sittings)
        if (const Date on = local_day(day.zone, point.at); with_animals ? time.holds(on) : time.before(on)) sittings.push_back(point);
      if (sittings.empty()) continue;
      const auto by_mid = [](const inference::SeriesPoint& a, const inference::SeriesPoint& b) { return a.value.mid < b.value.mid; };
      list.push_back({with_animals, quantity, static_cast<int>(sittings.size()), local_day(day.zone, sittings.front().at), local_day(day.zone, sittings.back().at),
                      *std::ranges::min_element(sittings, by_mid), *std::ranges::max_element(sittings, by_mid)});
    }
  return list;
}

/// When the first eggs that count were known of: their day, or when they were written down if that was later.
std::optional<Instant> eggs_known(const DayView& day) {
  std::optional<Instant> first;
  for (const Record& record : day.records)
    if (std::holds_alternative<records::EggReceipt>(record.entry.body))
      if (const Instant known = std::max(record.entry.at, record.logged_at); !first || known < *first) first = known;
  return first;
}

std::optional<Date> day_seen(const biology::DevelopmentForecast& forecast, biology::Stage stage) {
  using enum biology::Milestone;
  for (const auto& report : forecast.observations) {
    const auto which = report.observation.milestone;
    if (report.observation.seen && (which == half_eyed || which == half_hatched || which == half_swum_up) && biology::stage_of(which) == stage)
      return report.observation.day;
  }
  return std::nullopt;
}

Foretold::Fit fit_of(const Foretold& told) {
  if (!told.seen) return Foretold::Fit::not_seen;
  if (!told.window) return Foretold::Fit::not_foretold;
  if (end_of(*told.seen) < told.window->low_90) return Foretold::Fit::earlier;
  return biology::CalendarMoment(*told.seen) > told.window->high_90 ? Foretold::Fit::later : Foretold::Fit::inside;
}

std::vector<Foretold> foretold_of(const Setup& setup, std::span<const Record> log, const DayView& day) {
  const auto known = eggs_known(day);
  const auto& forecast = day.belief.brood.forecast;
  if (!known || !forecast) return {};
  const auto then = believed_day(setup, log, *known);
  const Date told_on = local_day(day.zone, *known);
  std::vector<Foretold> list;
  for (const biology::Stage stage : biology::all_stages) {
    Foretold told{.stage = stage, .foretold_on = {}, .window = {}, .seen = day_seen(*forecast, stage), .fit = {}};
    if (then && then->belief.brood.forecast && (!told.seen || told_on < *told.seen)) {
      told.foretold_on = told_on;
      told.window = then->belief.brood.forecast->stage(stage).lot;
    }
    told.fit = fit_of(told);
    list.push_back(told);
  }
  return list;
}

std::vector<Keeper> keepers_of(const DayView& day) {
  std::map<std::string, Keeper> found;
  const auto keeper = [&](const std::string& label) -> Keeper& {
    Keeper& one = found[label];
    one.label = label;
    return one;
  };
  const Date today = local_day(day.zone, day.now);
  for (const Record& record : day.records) {
    ++keeper(record.entry.author).entries;
    if (const auto* duty = std::get_if<records::Duty>(&record.entry.body)) {
      const auto length = std::min(duty->to.value_or(duty->from), today) - duty->from + days(1);
      if (length.count() > 0) keeper(duty->label).duty_days += static_cast<int>(length.count());
    }
  }
  std::vector<Keeper> list;
  for (const auto& [label, one] : found) list.push_back(one);
  std::ranges::stable_sort(list, std::greater{}, &Keeper::entries);
  return list;
}

Work work_of(const DayView& day) {
  Work work;
  for (const Record& record : day.records) {
    const records::Body& body = record.entry.body;
    work.tests += std::holds_alternative<records::Reading>(body);
    work.temperatures += std::holds_alternative<records::TemperatureReading>(body);
    work.top_ups += std::holds_alternative<records::TopUp>(body);
    work.counts += std::holds_alternative<records::Count>(body);
    work.feedings += std::holds_alternative<records::Feeding>(body);
    work.notes += std::holds_alternative<records::Note>(body);
    if (const auto* change = std::get_if<records::WaterChange>(&body)) {
      ++work.changes;
      work.changed = Volume::from_l(work.changed.l() + change->volume.l());
    }
  }
  return work;
}

int mended_of(std::span<const Record> log, Instant now) {
  std::vector<Record> known;
  for (const Record& record : log)
    if (record.logged_at <= now) known.push_back(record);
  int mended = 0;
  const auto standing = records::standings(known);
  for (std::size_t i = 0; i < known.size(); ++i) mended += !standing[i].counts() && !std::holds_alternative<records::Undo>(known[i].entry.body);
  return mended;
}

}  // namespace

Result<ReportLook> look_at_report(const Setup& setup, std::span<const Record> log, Instant now) {
  auto believed = believed_day(setup, log, now);
  if (!believed) return believed.problems();
  ReportLook look{.day = std::move(believed).value()};
  const DayView& day = look.day;
  look.counts = inference::counts_of(day.records, day.belief, day.zone, now);
  look.losses = losses_of(day);
  look.months = months_of(day);
  look.water = water_of(day, inhabited(day, look.counts));
  look.foretold = foretold_of(setup, log, day);
  for (const Record& record : day.records) {
    if (std::holds_alternative<records::Release>(record.entry.body)) look.releases.push_back(record);
    if (std::holds_alternative<records::EquipmentEvent>(record.entry.body)) look.incidents.push_back(record);
  }
  look.keepers = keepers_of(day);
  look.work = work_of(day);
  look.mended = mended_of(log, now);
  return look;
}

}  // namespace redd::season
