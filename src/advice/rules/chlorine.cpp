// Chlorine or chloramine measured in the tank: the fastest killer of all.

#include <algorithm>
#include <cmath>

#include "advice/rule.h"
#include "chemistry/dosing.h"
#include "chemistry/limits.h"
#include "inference/water_belief.h"

namespace redd::advice::rules {

namespace {

constexpr double watch_days = 2.0;  // Assumed: chloramine lasts for days in cold water; after two a test has to tell

bool neutralised(const Situation& s, Instant change) {
  return std::ranges::any_of(s.records, [&](const records::Record& r) {
    const auto* dose = std::get_if<records::Dose>(&r.entry.body);
    return dose && dose->substance == records::Substance::sodium_thiosulfate_pentahydrate &&
           std::abs(days_between(change, r.entry.at).count()) < 1.0;
  });
}

/// Water that went in without a word of dechlorination, and no chlorine test since.
std::vector<Action> undechlorinated_change(const Situation& s) {
  const auto* tested = s.belief.find(inference::Quantity::chlorine);
  for (std::size_t i = s.records.size(); i-- > 0;) {
    const records::Record& record = s.records[i];
    const auto* change = std::get_if<records::WaterChange>(&record.entry.body);
    if (!change || change->dechlorinated || days_between(record.entry.at, s.now).count() > watch_days) continue;
    if (tested && tested->read_at > record.entry.at) continue;
    if (neutralised(s, record.entry.at)) continue;
    const auto source = inference::source_water(s.records, change->source_water);
    if (source && source->chlorine_mg_per_l && *source->chlorine_mg_per_l < chemistry::limits::chlorine_acute_mg_per_l) continue;
    const bool known = source && source->chlorine_mg_per_l;
    const double fraction = std::min(1.0, change->volume.l() / s.season.volume.l());
    const double in_tank_mg_per_l = known ? fraction * *source->chlorine_mg_per_l : 0.0;
    Action a;
    a.rule = "chlorine";
    a.key = "chlorine/new_water";
    a.deeds = {known ? Deed::dose : Deed::test};
    a.again = Days(1);
    a.stake = 0.5;  // Assumed
    a.benefit = {"Fish bear {0} of chlorine for an hour, and {1} for days; tap water may carry {2}, and it kills the filter too.",
                 {Measured{chemistry::limits::chlorine_acute_mg_per_l, "mg/L"}, Measured{chemistry::limits::chlorine_chronic_mg_per_l, "mg/L"},
                  Measured{known ? *source->chlorine_mg_per_l : chemistry::limits::chlorine_us_tap_maximum_mg_per_l, "mg/L"}}};
    a.tone = !inference::has_animals(s.belief.brood.animals) ? Tone::watch
             : known && in_tank_mg_per_l > chemistry::limits::chlorine_acute_mg_per_l ? Tone::alarm : Tone::act;
    a.concern = {"New water may have brought chlorine into the tank."};
    a.what = known ? Sentence{"Neutralise the chlorine, then test total chlorine."} : Sentence{"Test total chlorine in the tank now."};
    a.how_much = known ? Sentence{"{0} sodium thiosulfate, dissolved, spread over the surface.", {chemistry::thiosulfate_for(change->volume, *source->chlorine_mg_per_l)}}
                       : Sentence{"If any shows, neutralise it; if the water was dechlorinated, correct the record."};
    a.by = s.end_of(s.today());
    a.by_text = {"now"};
    a.effort_minutes = 10;
    if (known)
      a.because.push_back({{"The water change of {0} is not noted as dechlorinated, and this source holds {1}: about {2} in the tank, where fish bear {3} for an hour.",
                            {change->volume, Measured{*source->chlorine_mg_per_l, "mg/L"}, Measured{in_tank_mg_per_l, "mg/L"}, Measured{chemistry::limits::chlorine_acute_mg_per_l, "mg/L"}}}, {record.id}});
    else
      a.because.push_back({{"The water change of {0} is not noted as dechlorinated, and the source's chlorine is not known.", {change->volume}}, {record.id}});
    a.would_change_if.push_back({{"A total-chlorine test that shows none, or the record corrected to dechlorinated."}, {record.id}});
    a.cautions.push_back({"Chlorine kills the filter too: test ammonia and nitrite daily for a week."});
    a.sources = {"US EPA 1984, 0.019 and 0.011 mg/L total residual chlorine"};
    return {a};
  }
  return {};
}

}  // namespace

std::vector<Action> chlorine(const Situation& s) {
  if (auto actions = undechlorinated_change(s); !actions.empty()) return actions;
  const auto* cl = s.belief.find(inference::Quantity::chlorine);
  if (!cl || inference::is_stale(*cl) || cl->value.mid < 2.0 * chemistry::limits::chlorine_acute_mg_per_l) return {};
  const bool animals = inference::has_animals(s.belief.brood.animals);
  Action a;
  a.rule = "chlorine";
  a.deeds = {Deed::dose};
  a.again = Days(1);
  a.stake = 0.7;  // Assumed
  a.effort_minutes = 10;
  a.benefit = {"Takes away {0} of chlorine, {1} times what fish bear for an hour.",
               {Measured{cl->value.mid, "mg/L"}, Measured{cl->value.mid / chemistry::limits::chlorine_acute_mg_per_l, ""}}};
  a.concern = {"There is chlorine in the tank."};
  a.tone = animals ? Tone::alarm : Tone::act;
  a.what = {"Neutralise the chlorine in the tank."};
  a.how_much = {"{0} sodium thiosulfate, dissolved, spread over the surface.", {chemistry::thiosulfate_for(s.season.volume, cl->value.high)}};
  a.by = s.end_of(s.today());
  a.by_text = {"now"};
  a.because.push_back({{"Total chlorine is about {0}; the limits for fish are {1} for an hour and {2} for days. It also kills the filter.",
                        {Measured{cl->value.mid, "mg/L"}, Measured{chemistry::limits::chlorine_acute_mg_per_l, "mg/L"}, Measured{chemistry::limits::chlorine_chronic_mg_per_l, "mg/L"}}}, cl->records});
  a.would_change_if.push_back({{"A repeat total-chlorine test that shows none."}, cl->records});
  a.cautions.push_back({"If it was chloramine, ammonia is set free: test ammonia an hour later."});
  a.sources = {"US EPA 1984, 0.019 and 0.011 mg/L total residual chlorine"};
  return {a};
}

}  // namespace redd::advice::rules
