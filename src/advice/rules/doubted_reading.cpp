// A reading that all the others make improbable, or a kit that is off time after time: look again before acting on it.

#include <algorithm>

#include "advice/rule.h"

namespace redd::advice::rules {
namespace {

/// The same test read again since: then the doubt has had its answer.
bool was_repeated(const Situation& s, records::RecordId doubted) {
  const auto reading_of = [](const records::Record& r) { return std::get_if<records::Reading>(&r.entry.body); };
  const auto found = std::ranges::find(s.records, doubted, &records::Record::id);
  if (found == s.records.end() || !reading_of(*found)) return false;
  return std::ranges::any_of(s.records, [&](const records::Record& r) {
    const auto* other = reading_of(r);
    return other && r.entry.at > found->entry.at && other->test == reading_of(*found)->test;
  });
}

/// Readings that agree with each other are believed: it is the log that lacks something.
Action look_for_the_cause(const Situation& s, const planning::LostTrack& lost) {
  Action a;
  a.rule = "doubted_reading";
  a.key = "doubted_reading/cause";
  a.deeds = {Deed::mend};
  a.again = Days(3);
  a.benefit = {"Finds what {0} tests in a row point to before it grows; until then no forecast of the filter can be relied on.", {Number{static_cast<long long>(lost.records.size())}}};
  a.tone = Tone::watch;  // what the readings themselves call for comes first
  a.concern = {"Something happened in the tank that the log does not say."};
  a.what = {"Look for what changed, and log it."};
  a.how_much = {"Media rinsed in tap water, chlorine, dead eggs or food left somewhere, a pump that stopped, something added. Go by the tests until it is found."};
  a.by = s.end_of(s.today());
  a.by_text = {"today"};
  a.effort_minutes = 15;
  a.because.push_back({{lost.higher ? "Since {0} the tests read more {1} than the rest of the log can explain, and they agree with each other."
                                    : "Since {0} the tests read less {1} than the rest of the log can explain, and they agree with each other.",
                        {local_day(s.zone, after_days(s.filter->begin, lost.since_day)), Word{records::quantity_text(lost.quantity)}}}, lost.records});
  a.would_change_if.push_back({{"The cause, once logged; or tests that fall back to what was expected."}, lost.records});
  return a;
}

}  // namespace

std::vector<Action> doubted_reading(const Situation& s) {
  if (!s.filter) return {};
  using enum inference::FilterDoubt;
  std::vector<Action> actions;
  if (s.filter->lost_track) actions.push_back(look_for_the_cause(s, *s.filter->lost_track));
  for (const inference::DoubtedThing& doubt : s.filter->doubts) {
    const bool of_a_reading = doubt.what == readings_disagree || doubt.what == surprising_reading;
    if (!of_a_reading && doubt.what != suspect_kit) continue;
    if (of_a_reading && std::ranges::any_of(doubt.records, [&](records::RecordId id) { return was_repeated(s, id); })) continue;
    Action a;
    a.rule = "doubted_reading";
    a.key = of_a_reading && !doubt.records.empty() ? "doubted_reading/record_" + std::to_string(doubt.records.front()) : "doubted_reading/kit";
    a.deeds = {Deed::test};
    a.again = Days(of_a_reading ? 1 : 7);
    a.benefit = {"About {0} of readings are slips (assumed): a repeat keeps you from acting on one, and from trusting one that calms.", {Share{inference::misread_probability}}};
    a.tone = doubt.what == readings_disagree && inference::has_animals(s.belief.brood.animals) ? Tone::act : Tone::watch;
    a.concern = of_a_reading ? Sentence{"A reading does not fit the others."} : Sentence{"A test kit seems to be off."};
    a.what = of_a_reading ? Sentence{"Repeat the test that does not fit."} : Sentence{"Check the kit against another one."};
    a.how_much = {"With a clean tube, read by two people, best by another team."};
    const Date day = of_a_reading ? s.today() : next_school_day(s);
    a.by = s.end_of(day);
    a.by_text = by_text(s, day);
    a.effort_minutes = 10;
    a.because.push_back({doubt.sentence, doubt.records});
    a.would_change_if.push_back({{"The repeat: log it, and correct the reading that was wrong."}, doubt.records});
    actions.push_back(std::move(a));
  }
  return actions;
}

}  // namespace redd::advice::rules
