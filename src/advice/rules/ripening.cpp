// Before the eggs: how far ripening has come, by the latest tests and by what all of them together say of the filter.

#include "advice/assess_filter.h"
#include "advice/filter_proof.h"
#include "advice/rule.h"
#include "chemistry/limits.h"

namespace redd::advice::rules {

std::vector<Action> ripening(const Situation& s) {
  using inference::Quantity;
  if (s.belief.brood.animals != inference::Animals::none) return {};
  const auto* tan = s.belief.find(Quantity::total_ammonia);
  const auto* no2 = s.belief.find(Quantity::nitrite);
  if (!tan || !no2) return {};  // the weekly test is asked for first
  // From egg day on eggs may be in the water, logged or not; close before it the rule of the egg day speaks.
  if (s.season.egg_day && s.today() >= *s.season.egg_day) return {};
  const bool ammonia_clear = s.of(WaterKey::un_ionized_ammonia).tone == Tone::good, nitrite_clear = s.of(WaterKey::nitrite).tone == Tone::good;
  constexpr std::chrono::days egg_day_speaks{3};
  const bool clear = ammonia_clear && nitrite_clear;
  if (clear && s.season.egg_day && *s.season.egg_day - s.today() <= egg_day_speaks) return {};
  const auto proof = clear ? latest_proof(s) : std::nullopt;
  constexpr double fed_days = 10.0;  // Assumed: so long an unfed filter keeps its strength
  const bool proven = proof && days_between(proof->at, s.now).count() <= fed_days;
  std::vector<records::RecordId> ids = tan->records;
  ids.insert(ids.end(), no2->records.begin(), no2->records.end());
  Action a;
  a.rule = "ripening";
  a.aim = Aim::deadline;
  a.concern = {"The filter is ripening."};
  a.tone = Tone::watch;
  const Date day = next_weekly_test(s);
  a.by = s.end_of(std::max(day, s.today()));
  a.by_text = by_text(s, std::max(day, s.today()));
  if (proven) {
    a.deeds = {Deed::wait};
    a.effort_minutes = 5;
    a.concern = {"The filter has passed its test."};
    a.what = {"Keep the filter alive until the eggs come."};
    a.how_much = {"Feed it a small ammonia dose every few days, the last one three days before the eggs, and test weekly."};
    a.benefit = {"A filter that is not fed grows weaker: what it turned over in a day it may not turn over weeks later."};
    a.because.push_back({{"A dose of ammonia was gone, and nitrite with it, {0} ago.", {days_between(proof->at, s.now)}}, proof->records});
    if (proof->water) a.because.push_back({{"The water stood at {0} then; the eggs will have {1}.", {*proof->water, s.season.target}}, proof->records});
  } else if (clear) {
    a.deeds = {Deed::dose, Deed::test};
    a.effort_minutes = 20;
    a.benefit = {"One dose and a test a day later tell what weeks of low readings can't: whether {0} of food and waste would go the same way.", {Measured{1.0, "mg N/L"}}};
    a.what = {"Prove that the filter is ripe: feed it a little ammonia."};
    a.how_much = {"A dose that reads clearly on the card, with no animals in the tank; test ammonia and nitrite a day later."};
    a.because.push_back({{"Ammonia and nitrite both read low: {0}; {1}. That means a ripe filter only if it has been fed ammonia lately.", {Word{tan->raw_text}, Word{no2->raw_text}}}, ids});
  } else {
    a.deeds = {Deed::wait};
    a.effort_minutes = 5;
    a.benefit = {"Keeps eggs out of water with more than {0} un-ionized ammonia or {1} nitrite, both of which a raw filter gives.",
                 {ShownNitrogen{chemistry::limits::action_un_ionized_ammonia, NitrogenBasis::nh3}, s.on_card(Quantity::nitrite, s.of(WaterKey::nitrite).limits[1].value)}};
    a.what = {"Not ready for eggs yet: let the filter ripen."};
    a.how_much = ammonia_clear ? Sentence{"Wait and test weekly; feed no more ammonia until nitrite falls."}
                               : Sentence{"Keep it warm and well aired, and test weekly; ammonia should fall by itself."};
    a.because.push_back({{"The latest tests read {0} for ammonia and {1} for nitrite.", {Word{tan->raw_text}, Word{no2->raw_text}}}, ids});
    if (tan->open_above || no2->open_above)
      a.because.push_back({{"A reading is off the top of its card: dilute a sample with source water to see how much there is."}, ids});
  }
  if (s.filter && s.filter->by_day)
    a.because.push_back({{s.season.egg_day_assumed ? "All tests of the season together: ready on the assumed egg day, {0}, with {1}; a test dose given today would be gone in time with {2}."
                                                   : "All tests of the season together: ready on egg day, {0}, with {1}; a test dose given today would be gone in time with {2}.",
                          {*s.filter->by_day, Chance{s.filter->by_probability}, Chance{s.filter->today_probability}}}, {}});
  else if (s.filter)
    a.because.push_back({{"All tests of the season together: a test dose given today would be gone in time with {0}.", {Chance{s.filter->today_probability}}}, {}});
  else if (s.season.egg_day) a.because.push_back({{s.season.egg_day_assumed ? "The eggs are taken to come on {0}." : "The eggs are planned for {0}.", {*s.season.egg_day}}, {}});
  a.would_change_if.push_back({{"Ammonia and nitrite both gone a day after a dose."}, ids});
  a.cautions.push_back({"Watch KH: ripening uses it up, and without it the filter stops."});
  a.sources = {"order of events in ripening: start-up studies of nitrifying filters, e.g. Manthe & Malone 1987"};
  return {a};
}

}  // namespace redd::advice::rules
