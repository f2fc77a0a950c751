// The filter may not be ready when the eggs come: what would help most, and when to ask for a later date.

#include <algorithm>

#include "advice/assess_filter.h"
#include "advice/rule.h"

namespace redd::advice::rules {
namespace {

using inference::MeasureEffect;

/// Gains too small to trouble anybody with, or no more than the simulation's own chance.
/// Assumed: five in a hundred, to at least one in ten; and 1.645 standard errors, one chance in twenty.
bool helps(const MeasureEffect& effect) { return effect.change >= 0.05 && effect.ready_probability >= 0.1 && effect.change > 1.645 * effect.standard_error; }

constexpr std::size_t most_measures = 3;

/// How long before the eggs a supplier must hear of another date. Assumed: three weeks.
constexpr std::chrono::days notice{21};

}  // namespace

std::vector<Action> raise_the_odds(const Situation& s) {
  if (!s.filter || !s.filter->by_day || !s.filter->measures) return {};
  const planning::FilterOutlook& filter = *s.filter;
  if (filter.by_probability >= likely_probability) return {};
  std::vector<MeasureEffect> helpful;
  std::ranges::copy_if(filter.measures->effects, std::back_inserter(helpful), helps);
  if (helpful.size() > most_measures) helpful.resize(most_measures);

  const bool unlikely = filter.by_probability < doubtful_probability;
  // A filter that would carry the brood all the same is no reason to send the eggs away.
  const Tone carries = capacity_tone(filter);
  const bool urgent = unlikely && (carries == Tone::act || carries == Tone::watch) && *filter.by_day - s.today() <= notice;
  const bool wait_for_it = helpful.empty() && carries == Tone::good;
  // A day that nobody named can't be moved: "receiving" asks for it, and says what the filter needs.
  const bool assumed = inference::egg_day_assumed(s.season, s.belief.brood).has_value();
  if (assumed && helpful.empty() && !wait_for_it) return {};

  Action a;
  a.rule = "raise_the_odds";
  a.aim = Aim::deadline;
  a.deeds = {Deed::plan};
  a.benefit = helpful.empty() ? Sentence{"As planned the filter is not ready on {1} with {0}.", {Chance{1.0 - filter.by_probability}, *filter.by_day}}
                              : Sentence{"Ready on {0}: {1} with it, {2} without.", {*filter.by_day, Chance{helpful.front().ready_probability}, Chance{filter.by_probability}}};
  a.tone = readiness_tone(filter);
  a.concern = {"The filter may not be ready when the eggs come."};
  if (carries == Tone::good) a.tone = std::min(a.tone, Tone::watch);
  const Date day = std::min(next_school_day(s), *filter.by_day);
  a.by = s.end_of(day);
  a.by_text = by_text(s, day);
  a.effort_minutes = 20;
  a.because.push_back({{"As things are planned the filter passes its test on {0} with {1}.", {*filter.by_day, Chance{filter.by_probability}}}, filter_readings(s)});
  if (filter.outlook.coming_load_mg_n_per_l_per_day > 0.0)
    a.because.push_back({{"It can carry the brood that is planned with {0}.", {Chance{filter.outlook.carries_coming_load_probability}}}, {}});
  if (wait_for_it) {
    a.what = {"Let the filter ripen on, and test it cold before the eggs come."};
    a.how_much = {"A test dose of {0} ammonia, with the water at {1} and no animals in it; test ammonia and nitrite after {2}.",
                  {s.on_card(inference::Quantity::total_ammonia, filter.ready.test_dose_mg_n_per_l), s.season.target, Days(filter.ready.within_hours / 24.0)}};
  } else if (helpful.empty() || (urgent && !assumed)) {
    a.what = {"Ask the supplier for a later date for the eggs."};
    a.how_much = filter.outlook.ready.high_50
                     ? Sentence{"By {0} the filter is ready with 3 chances in 4.", {local_day(s.zone, after_days(filter.begin, *filter.outlook.ready.high_50))}}
                     : Sentence{"This forecast sees no day on which it is sure enough."};
  } else {
    a.what = helpful.front().measure.what;
    a.how_much = {"That would make it {0} for egg day instead of {1}.", {Chance{helpful.front().ready_probability}, Chance{filter.by_probability}}};
    helpful.erase(helpful.begin());
  }
  for (const MeasureEffect& effect : helpful) {
    a.because.push_back({joined(effect.measure.what, {"This too helps: {0} for egg day.", {Chance{effect.ready_probability}}}), {}});
  }
  a.would_change_if.push_back({{"The next readings: each narrows the forecast."}, filter_readings(s)});
  if (leans_on_weak_ground(filter)) a.would_change_if.push_back({{"Clearing up what is in doubt: the forecast stands on readings that do not fit together."}, {}});
  a.cautions.push_back({"Permit, supplier and a veterinarian come before this forecast."});
  return {a};
}

}  // namespace redd::advice::rules
