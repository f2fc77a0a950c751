// pH outside what fresh-water life bears: find the cause, and bring it back slowly. What lacks only KH the rule of the buffer doses.

#include "advice/rule.h"
#include "chemistry/limits.h"

namespace redd::advice::rules {

std::vector<Action> ph(const Situation& s) {
  const Assessment& ph = s.of(WaterKey::ph);
  if (!inference::has_animals(s.belief.brood.animals) || !ph.value || ph.stale || ph.tone < Tone::act) return {};
  const bool low = ph.value->mid < chemistry::limits::ph_low.ph();
  const Assessment& kh = s.of(WaterKey::alkalinity);
  const bool little_kh = kh.value && kh.value->mid < chemistry::limits::alkalinity_for_nitrification.meq_per_l();
  Action a;
  a.rule = "ph";
  a.key = low ? "ph/low" : "ph/high";
  a.deeds = {Deed::test};
  a.again = Days(1);
  a.tone = ph.tone;
  a.concern = low ? Sentence{"pH is too low for the animals."} : Sentence{"pH is too high for the animals."};
  a.what = low ? Sentence{"Test pH again, and KH and ammonia with it; then bring pH up slowly, by half a unit a day at most."}
               : Sentence{"Test pH again, and ammonia with it; then bring pH down slowly, by half a unit a day at most."};
  a.how_much = low && little_kh ? Sentence{"By giving it KH: bicarbonate in small steps, or small water changes with water of more KH, unless ammonia is high."}
               : low ? Sentence{"KH is there, so look for carbon dioxide: more air, less waste. Else small water changes."}
                     : Sentence{"Look for what drives it up: new gravel or stone, new tap water, a dose. Small changes with water of lower pH; never acid."};
  a.by = s.end_of(s.today());
  a.by_text = {"today"};
  a.effort_minutes = 20;
  a.benefit = low ? Sentence{"Below pH {0} salmon and trout lose salts, and the filter stops.", {chemistry::limits::ph_low}}
                  : Sentence{"Above pH {0} gills suffer, and the same ammonia is many times as harmful.", {chemistry::limits::ph_high}};
  a.because.push_back({{"pH is between {0} and {1}; fresh-water life needs {2} to {3}.",
                        {Ph::from_ph(ph.value->low), Ph::from_ph(ph.value->high), chemistry::limits::ph_low, chemistry::limits::ph_high}}, ph.records});
  if (kh.value) a.because.push_back({{"KH, which holds pH, is between {0} and {1}.", {Alkalinity::from_meq_per_l(kh.value->low), Alkalinity::from_meq_per_l(kh.value->high)}}, kh.records});
  a.would_change_if.push_back({{"A repeat test inside the range, best with a second card or a meter."}, ph.records});
  a.cautions.push_back({"Test ammonia before pH is lifted: each half unit up makes the same ammonia about three times as harmful."});
  a.cautions.push_back({"If animals look distressed or die, call the egg supplier or agency."});
  a.sources = {"US EPA criterion, pH 6.5-9.0", "Directive 2006/44/EC annex I, note a (half a unit)"};
  return {a};
}

}  // namespace redd::advice::rules
