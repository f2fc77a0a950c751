// Chlorine or chloramine measured in the tank: the fastest killer of all.

#include "advice/rule.h"
#include "chemistry/dosing.h"
#include "chemistry/limits.h"

namespace redd::advice::rules {

std::vector<Action> chlorine(const Situation& s) {
  const auto* cl = s.belief.find(inference::Quantity::chlorine);
  if (!cl || inference::is_stale(*cl) || cl->value.mid < 2.0 * chemistry::limits::chlorine_acute_mg_per_l) return {};
  const bool animals = inference::has_animals(s.belief.brood.animals);
  Action a;
  a.rule = "chlorine";
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
