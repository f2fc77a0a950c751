// First feeding that would fall into days nobody feeds, seen while the set-point can still move it.

#include "advice/rule.h"
#include "planning/feed_plan.h"
#include "quantities/verbatim.h"

namespace redd::advice::rules {

std::vector<Action> feed_break(const Situation& s) {
  if (!s.looks.feed || !s.looks.feed->break_risk) return {};
  const planning::BreakRisk& risk = *s.looks.feed->break_risk;
  const Date by = next_school_day(s);
  Action a;
  a.rule = "feed_break";
  a.beside_calm = true;
  a.aim = Aim::deadline;
  a.tone = Tone::watch;
  a.concern = risk.name.empty() ? Sentence{"First feeding may fall into closed days."} : Sentence{"First feeding may fall into {0}.", {Word{verbatim(risk.name)}}};
  a.by = s.end_of(by);
  a.by_text = by_text(s, by);
  a.effort_minutes = 10;
  std::vector<records::RecordId> ids = s.belief.brood.milestone_records;
  if (s.belief.brood.receipt) ids.push_back(*s.belief.brood.receipt);
  a.because.push_back({{"Half should swim up around {0}; {1} that this or the two days after fall into {2} to {3}, when nobody is noted to feed.", {risk.median, Chance{risk.probability}, risk.from, risk.to}}, ids});
  if (risk.shift) {
    a.deeds = {Deed::set_temperature};
    a.set_to = risk.shift->to;
    a.what = {"Set {0} instead of {1}, a degree a day at most.", {risk.shift->to, risk.shift->from}};
    a.how_much = {"First feeding then comes around {0}.", {risk.shift->median}};
    a.benefit = {"It then falls into unfed days with {0}, instead of {1}.", {Chance{risk.shift->probability}, Chance{risk.probability}}};
    a.cautions.push_back({"Hatch moves too: look at the temperature plan, which weighs everything together, before you set it."});
    a.cautions.push_back({"Ask first whether the chiller holds it, and whether permit and egg supplier agree."});
  } else {
    a.deeds = {Deed::ask_for_help};
    a.what = {"Find somebody who feeds from {0} to {1}, and log the duty.", {risk.from, risk.to}};
    if (const auto& edge = risk.edge_shift)
      a.how_much = {"No set-point they like best moves it out. {0} instead of {1} would, within what they bear: the season's plan weighs that.", {edge->to, edge->from}};
    else
      a.how_much = {"No one set-point that they bear and the equipment holds, kept until then, moves it out."};
    a.benefit = {"Fry without yolk starve in about four days; unfed days fall into their first ones with {0}.", {Chance{risk.probability}}};
  }
  a.would_change_if.push_back({{"A duty logged for these days; hatch seen earlier or later."}, {}});
  a.sources = {"dates from the development curve of the species; degrees as in the season's plan, its green band first", "no gap over a day in the first three weeks: common practice, no source"};
  return {a};
}

}  // namespace redd::advice::rules
