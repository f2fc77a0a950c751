// Outside the stage's band, or changing faster than eggs should bear.

#include <cmath>

#include "advice/assess.h"
#include "advice/rule.h"

namespace redd::advice::rules {
namespace {

/// The largest change per day between neighbouring readings of the last three days, signed; zero without any.
TemperatureChange fastest_change_per_day(const Situation& s) {
  double fastest_c = 0;
  const auto& series = s.belief.temperature.series;
  for (std::size_t i = 1; i < series.size(); ++i) {
    if (days_between(series[i].at, s.now).count() > 3.0) continue;
    const double span = std::max(1.0, days_between(series[i - 1].at, series[i].at).count());
    const double rate_c = (series[i].value.mid - series[i - 1].value.mid) / span;
    if (std::abs(rate_c) > std::abs(fastest_c)) fastest_c = rate_c;
  }
  return TemperatureChange::from_c(fastest_c);
}

/// The reading of the last two days farthest outside what the stage bears; nullptr when all lay inside.
const inference::SeriesPoint* worst_outside(const Situation& s, const Assessment& t) {
  const inference::SeriesPoint* worst = nullptr;
  double farthest_c = 0;
  for (const auto& point : s.belief.temperature.series) {
    if (days_between(point.at, s.now).count() > 2.0) continue;
    const double outside_c = std::max(t.limits[0].value - point.value.mid, point.value.mid - t.limits[3].value);
    if (outside_c > farthest_c) {
      farthest_c = outside_c;
      worst = &point;
    }
  }
  return worst;
}

std::vector<records::RecordId> set_point_records(const Situation& s) {
  for (std::size_t i = s.records.size(); i-- > 0;)
    if (std::holds_alternative<records::SetPoint>(s.records[i].entry.body)) return {s.records[i].id};
  return setup_records(s);
}

Action wrong_set_point(const Situation& s, const Assessment& t) {
  Action a;
  a.rule = "temperature";
  a.key = "temperature/set_point";
  a.deeds = {Deed::set_temperature};
  a.stake = 0.5;  // Assumed
  a.benefit = {"The water follows the controller: at {0} it leaves the {1} to {2} this stage bears.",
               {*s.belief.temperature.set_point, Temperature::from_c(t.limits[0].value), Temperature::from_c(t.limits[3].value)}};
  a.tone = Tone::alarm;
  a.concern = {"The controller is set outside what this stage bears."};
  a.what = {"Set the controller back."};
  a.set_to = Temperature::from_c(std::clamp(s.belief.temperature.set_point->c(), t.limits[1].value, t.limits[2].value));
  a.how_much = {"Between {0} and {1}, in steps of at most {2} a day.",
                {Temperature::from_c(t.limits[1].value), Temperature::from_c(t.limits[2].value), TemperatureChange::from_c(3)}};
  a.by = s.end_of(s.today());
  a.by_text = {"now"};
  a.because.push_back({{"It is set to {0}; this stage bears {1} to {2}.",
                        {*s.belief.temperature.set_point, Temperature::from_c(t.limits[0].value), Temperature::from_c(t.limits[3].value)}}, set_point_records(s)});
  a.would_change_if.push_back({{"A set-point record that was mistyped: correct it."}, set_point_records(s)});
  a.sources = {t.limits[0].source};
  return a;
}

Action measure_now(const Situation& s, const records::Record& event) {
  Action a;
  a.rule = "temperature";
  a.key = "temperature/measure";
  a.deeds = {Deed::test};
  a.again = Days(1);
  a.benefit = {"For {0} the tank may have gone anywhere; eggs bear {1} in an hour, and a look at the thermometer takes a minute.",
               {days_between(event.entry.at, s.now), planning::largest_step}};
  a.tone = Tone::act;
  a.concern = {"Nobody has measured the temperature since it may have moved."};
  a.what = {"Measure the temperature now and log it."};
  a.how_much = {"Again an hour later, and once more before going home."};
  a.by = s.end_of(s.today());
  a.by_text = {"now"};
  a.because.push_back({{"The last reading is {0} old and something that moves the temperature was logged after it.", {Days(s.belief.temperature.age_days)}}, {event.id, s.belief.temperature.record}});
  a.would_change_if.push_back({{"A temperature reading."}, {event.id}});
  return a;
}

/// Without a thermometer nobody knows how they fare, nor when they hatch, nor what the ammonia does.
Action never_read_lately(const Situation& s, const Assessment& t) {
  Action a;
  a.rule = "temperature";
  a.key = "temperature/measure";
  a.deeds = {Deed::test};
  a.again = Days(1);
  a.tone = Tone::act;
  a.concern = {"Nobody knows how warm the water is."};
  a.what = {"Measure the temperature now and log it."};
  a.how_much = {"Every school day from now on: it takes a minute."};
  a.by = s.end_of(s.today());
  a.by_text = {"today"};
  a.effort_minutes = 2;
  a.benefit = {"The limits, the dates of hatch and the harm in ammonia all hang on it."};
  if (t.value) a.because.push_back({{"The last reading is {0} old.", {Days(t.age_days)}}, t.records});
  else a.because.push_back({{"No temperature has been logged, and animals are in the tank."}, setup_records(s)});
  a.would_change_if.push_back({{"A temperature reading."}, setup_records(s)});
  a.sources = {"a daily temperature: common practice, no source"};
  return a;
}

/// Back inside the band is not the end of it: what the brood went through shows in the days after.
Action aftercare(const Situation& s, const Assessment& t, const inference::SeriesPoint& worst) {
  Action a;
  a.rule = "temperature";
  a.key = "temperature/aftercare";
  a.deeds = {Deed::count, Deed::test};
  a.again = Days(1);
  a.benefit = {"Losses show days after {0}; the dead left in become ammonia for the rest.", {Temperature::from_c(worst.value.mid)}};
  a.tone = Tone::act;
  a.concern = {"The water was outside what this stage bears."};
  a.what = {"Look at every animal and count losses today and in the next days."};
  a.how_much = {"Take out the dead, log the count, and test ammonia and oxygen today."};
  a.by = s.end_of(s.today());
  a.by_text = {"today"};
  a.effort_minutes = 15;
  a.because.push_back({{"It stood at {0}, {1} ago; this stage bears {2} to {3}.",
                        {Temperature::from_c(worst.value.mid), days_between(worst.at, s.now), Temperature::from_c(t.limits[0].value), Temperature::from_c(t.limits[3].value)}}, {worst.id}});
  a.would_change_if.push_back({{"A misread thermometer: correct that record."}, {worst.id}});
  a.cautions.push_back({"Come back to the target slowly, at most {0} a day. If many die, call the egg supplier or agency.", {TemperatureChange::from_c(3)}});
  a.sources = {t.limits[0].source};
  return a;
}

}  // namespace

std::vector<Action> temperature(const Situation& s) {
  if (!inference::has_animals(s.belief.brood.animals)) return {};
  const Assessment& t = s.of(WaterKey::temperature);
  if (!s.belief.temperature.latest || t.stale) return {never_read_lately(s, t)};
  std::vector<Action> actions;
  const Temperature now = *s.belief.temperature.latest;
  // Amber where the keeper has set it is the keeper's choice (a plan may want it so); the card still says so.
  const bool as_set = t.tone == Tone::watch && std::abs((now - s.belief.temperature.set_point.value_or(s.season.target)).c()) <= 1.0;
  if (t.tone >= Tone::watch && !as_set && !t.stale && t.limits.size() == 4) {
    const bool warm = now.c() > t.limits[2].value;
    Action a;
    a.rule = "temperature";
    a.key = "temperature/band";
    a.deeds = {Deed::set_temperature};
    a.again = Days(1);
    if (t.tone == Tone::alarm) a.stake = 0.5;  // Assumed
    a.benefit = {"It stands {0} outside the best range; outside {1} to {2} this stage is not to be kept at all.",
                 {TemperatureChange::from_c(std::max(now.c() - t.limits[2].value, t.limits[1].value - now.c())), Temperature::from_c(t.limits[0].value), Temperature::from_c(t.limits[3].value)}};
    a.tone = t.tone;
    a.concern = warm ? Sentence{"The water is too warm for this stage."} : Sentence{"The water is too cold for this stage."};
    a.what = warm ? Sentence{"Bring the tank down from {0}.", {now}} : Sentence{"Bring the tank up from {0}.", {now}};
    a.set_to = Temperature::from_c(t.limits[warm ? 2 : 1].value);
    a.how_much = {"Towards {0}, at most {1} in an hour and {2} in a day.",
                  {Temperature::from_c(t.limits[warm ? 2 : 1].value), TemperatureChange::from_c(1), TemperatureChange::from_c(3)}};
    a.by = s.end_of(s.today());
    a.by_text = t.tone == Tone::alarm ? Sentence{"now"} : Sentence{"today"};
    a.effort_minutes = 15;
    a.because.push_back({{"{0} now; this stage does best between {1} and {2} and should never be outside {3} to {4}.",
                          {now, Temperature::from_c(t.limits[1].value), Temperature::from_c(t.limits[2].value), Temperature::from_c(t.limits[0].value),
                           Temperature::from_c(t.limits[3].value)}}, t.records});
    if (s.belief.temperature.set_point)
      a.because.push_back({{"The controller is set to {0}: check the chiller, its vents and the sensor.", {*s.belief.temperature.set_point}}, set_point_records(s)});
    a.would_change_if.push_back({{"A second thermometer that reads otherwise."}, t.records});
    a.cautions.push_back({"Eggs bear a slow warming better than a sudden chill: never pour ice or cold water straight in."});
    a.sources = {t.limits[0].source};
    actions.push_back(std::move(a));
  }
  if (t.tone != Tone::alarm && t.limits.size() == 4)
    if (const auto* worst = worst_outside(s, t)) actions.push_back(aftercare(s, t, *worst));
  if (s.belief.temperature.set_point && t.limits.size() == 4) {
    const double set_c = s.belief.temperature.set_point->c();
    if (set_c < t.limits[0].value || set_c > t.limits[3].value) actions.push_back(wrong_set_point(s, t));
  }
  if (const auto* event = unmeasured_event(s)) actions.push_back(measure_now(s, *event));
  const biology::TemperatureRateLimits limits;
  const TemperatureChange fastest = fastest_change_per_day(s);
  if (t.tone < Tone::act && std::abs(fastest.c()) > limits.per_day.c()) {  // outside its band the way back stands first, with its own pace
    Action a;
    a.rule = "temperature";
    a.key = "temperature/too_fast";
    a.deeds = {Deed::set_temperature};
    a.again = Days(1);
    a.effort_minutes = 10;
    a.benefit = {"Spares them {0} in a day where {1} is the most that is planned for.", {fastest, limits.per_day}};
    a.tone = Tone::act;
    a.concern = {"The temperature is changing too fast."};
    a.what = {"Slow the temperature's change."};
    a.how_much = {"Hold the tank where it is now for a day, then at most {0} a day.", {limits.per_day}};
    a.by = s.end_of(s.today());
    a.by_text = {"today"};
    a.because.push_back({{"It moved by {0} in a day; {1} is the most that is planned for.", {fastest, limits.per_day}}, t.records});
    a.would_change_if.push_back({{"A misread thermometer: correct that record."}, t.records});
    a.sources = {"common hatchery practice, from memory", "Peterson et al. 1977 (sudden cooling of eyed eggs)"};
    actions.push_back(std::move(a));
  }
  return actions;
}

}  // namespace redd::advice::rules
