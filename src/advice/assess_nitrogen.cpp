#include <algorithm>

#include "advice/assess.h"
#include "chemistry/ammonia.h"
#include "chemistry/limits.h"
#include "chemistry/nitrite.h"

namespace redd::advice {
namespace {

using inference::Quantity;
namespace marks = chemistry::limits;

ShownNitrogen nh3(double mg_n_per_l) { return {NitrogenConc::from_mg_n_per_l(mg_n_per_l), NitrogenBasis::nh3}; }

/// After the release a number is only a number.
Assessment nothing_depends_on(Assessment a) {
  a.tone = Tone::good;
  a.meaning = {"The brood is released: no animal depends on it."};
  return a;
}

}  // namespace

Assessment assess_un_ionized_ammonia(const Situation& s) {
  Assessment a = read_of(s, WaterKey::un_ionized_ammonia, Quantity::total_ammonia);
  const double action = marks::action_un_ionized_ammonia.mg_n_per_l(), alarm = marks::alarm_un_ionized_ammonia.mg_n_per_l();
  const auto un = inference::un_ionized_ammonia(s.belief);
  if (!un) {
    a.meaning = {"Worked out from total ammonia, pH and temperature: test ammonia and pH."};
    return a;
  }
  a.value = un->mg_n_per_l;
  a.open_above = un->open_above;
  a.records = un->records;
  const auto* ph = s.belief.find(Quantity::ph);
  if (ph) {
    a.age_days = std::max(a.age_days, ph->age_days);
    a.stale = a.stale || inference::is_stale(*ph);
  }
  a.raw_text = {};
  a.limits = {{"act", action, "act from here", "Meade 1985, fish-culture limit 0.0125 mg/L as NH3"},
              {"alarm", alarm, "alarm from here", "Directive 2006/44/EC, annex I, 0.025 mg/L as NH3 (from memory)"}};
  if (ph && s.belief.temperature.latest) {
    // The US criterion as un-ionized ammonia, at the same high end of pH and temperature as the estimate's own.
    const Ph p = Ph::from_ph(std::min(ph->value.high, 9.0));
    const double us = chemistry::un_ionized(chemistry::chronic_criterion_epa2013(*s.belief.temperature.latest, p), *s.belief.temperature.latest, p).mg_n_per_l();
    a.limits.push_back({"us_chronic", us, "US 30-day criterion (too lax for new eggs)", "US EPA 2013, EPA-822-R-13-001"});
  }
  const double high = a.value->high, mid = a.value->mid;
  if (s.belief.brood.animals == inference::Animals::released) return nothing_depends_on(std::move(a));
  if (!inference::has_animals(s.belief.brood.animals)) {
    const bool clear = un->ph_known && !a.open_above && a.value->high < action;
    a.tone = clear ? Tone::good : Tone::watch;
    a.meaning = clear ? Sentence{"At most {0}: eggs could bear it. No animals are in the tank.", {nh3(a.value->high)}}
                      : Sentence{"Too much for eggs, which need less than {0}; for now it is food for the filter.", {nh3(action)}};
    return a;
  }
  if (!un->ph_known) {
    a.tone = high >= alarm ? Tone::act : Tone::unknown;
    a.meaning = {"pH has not been tested, so it could be anywhere up to {0}: test pH.", {nh3(high)}};
  } else if (a.open_above) {
    a.tone = Tone::alarm;
    a.meaning = {"A reading is above the last step of its card, so there is no upper bound: it is at least {0}.", {nh3(a.value->low)}};
  } else if (high >= alarm) {
    a.tone = Tone::alarm;
    a.meaning = mid >= alarm ? Sentence{"About {0}, above the alarm mark of {1}.", {nh3(mid), nh3(alarm)}}
                             : Sentence{"It may be as high as {0}; the alarm mark is {1}.", {nh3(high), nh3(alarm)}};
  } else if (high >= action) {
    // A card whose first step hides as much is watched, not acted on: a reading of none must not ask for new water every week. Assumed: half the mark.
    a.tone = mid < action / 2.0 ? Tone::watch : Tone::act;
    a.meaning = mid >= action ? Sentence{"About {0}, above the mark to act at, {1}.", {nh3(mid), nh3(action)}}
                              : Sentence{"It may be as high as {0}; the mark to act at is {1}.", {nh3(high), nh3(action)}};
  } else {
    a.tone = Tone::good;
    a.meaning = {"At most {0}, below the mark to act at, {1}.", {nh3(high), nh3(action)}};
  }
  return a;
}

Assessment assess_total_ammonia(const Situation& s, const Assessment& un_ionized) {
  Assessment a = read_of(s, WaterKey::total_ammonia, Quantity::total_ammonia);
  if (!a.value) return a;
  a.tone = un_ionized.tone;
  if (!s.belief.temperature.days.empty()) {
    const Temperature water = s.belief.temperature.latest.value_or(s.belief.temperature.days.back().mean);
    if (const auto* ph = s.belief.find(Quantity::ph)) {
      const Ph p = Ph::from_ph(std::min(ph->value.high, 9.0));
      const NitrogenConc act = chemistry::total_with_un_ionized(marks::action_un_ionized_ammonia, water, p);
      a.limits = {{"act", act.mg_n_per_l(), "act from here, at this pH and temperature", "from 0.0125 mg/L as NH3, Emerson et al. 1975"},
                  {"us_chronic", chemistry::chronic_criterion_epa2013(water, p).mg_n_per_l(), "US 30-day criterion (too lax for new eggs)", "US EPA 2013"},
                  {"us_acute", chemistry::acute_criterion_epa2013(water, p, true).mg_n_per_l(), "US 1-hour criterion", "US EPA 2013"}};
    }
  }
  if (s.belief.brood.animals == inference::Animals::released) return nothing_depends_on(std::move(a));
  if (a.limits.empty()) a.meaning = {"How harmful it is depends on pH: test pH too."};
  else if (!inference::has_animals(s.belief.brood.animals)) a.meaning = {"Food for the ripening filter: watch it rise, then fall by itself."};
  else a.meaning = {"At this pH and temperature the mark to act at is {0}.", {s.on_card(Quantity::total_ammonia, a.limits.front().value)}};
  return a;
}

Assessment assess_nitrite(const Situation& s) {
  Assessment a = read_of(s, WaterKey::nitrite, Quantity::nitrite);
  const chemistry::NitriteLimit limit = chemistry::nitrite_limit(s.belief.chloride_mg_per_l);
  const double mean = limit.mean.mg_n_per_l(), most = limit.maximum.mg_n_per_l();
  const std::string source = "British Columbia guideline (2009), by chloride";
  a.limits = {{"mean", mean, "30-day mean", source}, {"maximum", most, "never above", source}};
  if (!a.value) return a;
  if (s.belief.brood.animals == inference::Animals::released) return nothing_depends_on(std::move(a));
  if (!inference::has_animals(s.belief.brood.animals)) {
    const bool clear = !a.open_above && a.value->high < most;
    a.tone = clear ? Tone::good : Tone::watch;
    a.meaning = clear ? Sentence{"Low. If the filter has been fed ammonia and this stays low, its second half has ripened."}
                      : Sentence{"Part of ripening: it rises after ammonia and must fall below {0} before eggs come.", {s.on_card(Quantity::nitrite, most)}};
  } else if (a.open_above || a.value->mid >= most) {
    a.tone = Tone::alarm;
    a.meaning = {"About {0} or more; with this chloride it should never be above {1}.", {s.on_card(Quantity::nitrite, a.value->mid), s.on_card(Quantity::nitrite, most)}};
  } else if (a.value->high >= most && a.value->mid >= mean) {
    a.tone = Tone::act;
    a.meaning = {"It may be as high as {0}; with this chloride it should never be above {1}.", {s.on_card(Quantity::nitrite, a.value->high), s.on_card(Quantity::nitrite, most)}};
  } else if (a.value->mid >= mean || a.value->high >= most) {
    a.tone = Tone::watch;
    a.meaning = {"Between {0} and {1}; over a month it should stay below {2}.", {s.on_card(Quantity::nitrite, a.value->low), s.on_card(Quantity::nitrite, a.value->high), s.on_card(Quantity::nitrite, mean)}};
  } else {
    a.tone = Tone::good;
    a.meaning = a.value->high > mean ? Sentence{"Low, as far as the card can show: the month's mark of {0} is finer than the card.", {s.on_card(Quantity::nitrite, mean)}}
                                     : Sentence{"At most {0}, below the month's mark of {1}.", {s.on_card(Quantity::nitrite, a.value->high), s.on_card(Quantity::nitrite, mean)}};
  }
  return a;
}

NitrateMarks nitrate_marks(const records::SeasonSetup& season) {
  const auto lowered = [](NitrogenConc ours, std::optional<double> own) {
    return own ? std::min(ours, NitrogenConc::from_mg_no3_per_l(*own)) : ours;
  };
  NitrateMarks m{marks::nitrate_guideline, lowered(marks::nitrate_act, season.nitrate_act_mg_no3_per_l),
                 lowered(marks::nitrate_ceiling, season.nitrate_ceiling_mg_no3_per_l)};
  m.act = std::min(m.act, m.ceiling);
  m.guideline = std::min(m.guideline, m.act);
  return m;
}

Assessment assess_nitrate(const Situation& s) {
  Assessment a = read_of(s, WaterKey::nitrate, Quantity::nitrate);
  const NitrateMarks m = nitrate_marks(s.season);
  const double guideline = m.guideline.mg_n_per_l(), act = m.act.mg_n_per_l(), ceiling = m.ceiling.mg_n_per_l();
  a.limits = {{"guideline", guideline, "long-term guideline", "CCME 2012, 13 mg/L as NO3 (from memory)"},
              {"act", act, "act from here", "assumed: below the 6.25 mg N/L of McGurk et al. 2006"},
              {"ceiling", ceiling, "ceiling", "common practice, no source"}};
  if (!a.value) return a;
  if (s.belief.brood.animals == inference::Animals::released) return nothing_depends_on(std::move(a));
  const bool animals = inference::has_animals(s.belief.brood.animals);
  if (a.open_above || a.value->high >= ceiling) {
    a.tone = animals ? Tone::act : Tone::watch;
    a.meaning = {"It may be as high as {0}; the ceiling is {1}.", {s.on_card(Quantity::nitrate, a.value->high), s.on_card(Quantity::nitrate, ceiling)}};
  } else if (a.value->high >= act) {
    a.tone = animals && a.value->mid >= act ? Tone::act : Tone::watch;
    a.meaning = {"It may be as high as {0}; the mark to act at is {1}.", {s.on_card(Quantity::nitrate, a.value->high), s.on_card(Quantity::nitrate, act)}};
  } else if (a.value->mid >= guideline) {
    a.tone = Tone::watch;
    a.meaning = {"About {0}, above the long-term guideline of {1}: plan a water change.", {s.on_card(Quantity::nitrate, a.value->mid), s.on_card(Quantity::nitrate, guideline)}};
  } else {
    a.tone = Tone::good;
    a.meaning = {"At most {0}, below the mark to act at, {1}.", {s.on_card(Quantity::nitrate, a.value->high), s.on_card(Quantity::nitrate, act)}};
  }
  return a;
}

}  // namespace redd::advice
