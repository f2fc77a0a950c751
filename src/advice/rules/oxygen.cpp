// Oxygen: too little, too much gas, or not known while many fish breathe. Air first where air helps; where the water can't hold more, cooler water does.

#include <algorithm>

#include "advice/rule.h"
#include "planning/loading.h"

namespace redd::advice::rules {
namespace {

OxygenConc mg(double v) { return OxygenConc::from_mg_o2_per_l(v); }
double full_of(const Assessment& o2) { return o2.limits[2].value; }
/// Above this share of what the water holds, more air brings next to nothing.
constexpr double nearly_full = 0.95;
/// More than a tenth above balance: gas, or a slip of the test. Source  act above 110 %, [piper1982].
constexpr double too_much = 1.1;

bool is_full(const Assessment& o2) { return o2.value->mid >= nearly_full * full_of(o2); }

/// The newest water change of the last two days.
const records::Record* recent_change(const Situation& s) {
  const records::Record* found = nullptr;
  for (const auto& record : s.records)
    if (std::holds_alternative<records::WaterChange>(record.entry.body) && s.now - record.entry.at < std::chrono::hours(48)) found = &record;
  return found;
}

Action begun(const Situation& s, std::string_view key, Tone tone) {
  Action a;
  a.rule = "oxygen";
  a.key = key;
  a.tone = tone;
  a.by = s.end_of(s.today());
  a.by_text = tone == Tone::alarm ? Sentence{"now"} : Sentence{"today"};
  a.effort_minutes = 10;
  return a;
}

Action more_air(const Situation& s, const Assessment& o2) {
  Action a = begun(s, "oxygen", o2.tone);
  a.concern = {"Oxygen is low."};
  a.deeds = {Deed::mend};
  a.what = {"Give the water more air."};
  a.how_much = {"Check that air and flow reach the eggs or fish; add a second air stone; take dead eggs and waste out."};
  a.benefit = Sentence{"Full water here holds {0}: air can raise it by up to {1}.", {mg(full_of(o2)), mg(full_of(o2) - o2.value->mid)}};
  a.because.push_back({{"In full balance with air this water would hold {0}.", {mg(full_of(o2))}}, {}});
  const auto* row = s.looks.loading ? s.looks.loading->today() : nullptr;
  if (row && o2.value->high < row->oxygen.low.mg_o2_per_l() && s.looks.loading->air_basis == planning::AirBasis::on_record)
    a.because.push_back({{"With the air on record {0} or more is expected: look for a stone that is clogged, a pump that stands still, or something that rots.", {row->oxygen.low}}, {}});
  a.cautions.push_back({"The flow past the eggs matters as much as the number: a still basket runs out long before the tank."});
  return a;
}

Action cooler_water(const Situation& s, const Assessment& o2) {
  Action a = begun(s, "oxygen_cooler", o2.tone);
  a.concern = {"Oxygen is low because the water can't hold more."};
  a.deeds = {Deed::set_temperature};
  a.what = {"Cool the water, slowly."};
  a.how_much = {"A degree a day is enough. The water is as good as full of air already: more air brings nothing."};
  a.because.push_back({{"At its temperature and this height full water holds {0}.", {mg(full_of(o2))}}, o2.records});
  a.cautions.push_back({"Keep within the range of this stage: colder also slows the animals' development."});
  return a;
}

/// Low: by air where there is room for more, by cold where there is not.
Action low(const Situation& s, const Assessment& o2) {
  Action a = is_full(o2) ? cooler_water(s, o2) : more_air(s, o2);
  a.because.insert(a.because.begin(), {{"Oxygen is between {0} and {1}; at least {2} at all times and {3} over a week are asked for.",
                                        {mg(o2.value->low), mg(o2.value->high), mg(o2.limits[0].value), mg(o2.limits[1].value)}}, o2.records});
  a.would_change_if.push_back({{"A repeat test nearer the balance value."}, o2.records});
  a.sources = {"US EPA 1986 (from memory)", "Benson & Krause 1984"};
  return a;
}

Action gas(const Situation& s, const Assessment& o2) {
  const records::Record* change = recent_change(s);
  Action a = begun(s, "oxygen_gas", change ? Tone::act : Tone::watch);
  a.concern = {"The water may hold too much gas."};
  a.deeds = {Deed::test, Deed::mend};
  a.what = {"Test oxygen again, and look for fine bubbles on fins, eyes and glass."};
  a.how_much = {"If it stays so high: no new water, and splash and bubble hard, which drives surplus gas out. Point no stone at eggs or fry."};
  a.benefit = Sentence{"Gas above {0} of what water can hold makes bubbles in blood and fins.", {Share{too_much}}};
  a.because.push_back({{"Oxygen reads {0} or more; in balance with air this water holds {1}.", {mg(o2.value->low), mg(full_of(o2))}}, o2.records});
  if (change) a.because.push_back({{"Water was changed within two days: cold tap water holds more gas than the tank can."}, {change->id}});
  a.would_change_if.push_back({{"A repeat test at or below the balance value: then it was a slip."}, o2.records});
  a.cautions.push_back({"Let new water stand open and aerated for a day, at the tank's temperature, before it goes in."});
  a.sources = {"Piper et al. 1982 (act above 110 %)", "Benson & Krause 1984"};
  return a;
}

/// Nobody knows, and it may be too little: the expected value's low end lies under the limit.
std::vector<Action> unknown(const Situation& s, const Assessment& o2) {
  const planning::LoadingView* view = s.looks.loading;
  const planning::LoadRow* row = view ? view->today() : nullptr;
  if (!row || row->stage != biology::LifeStage::fry || row->oxygen.low >= row->oxygen_limit) return {};
  const bool likely = row->oxygen.mid < row->oxygen_limit;
  const auto dangerous = OxygenConc::from_mg_o2_per_l(5.0);  // common practice, no source: fry suffer below
  Action a = begun(s, "oxygen_unknown", row->oxygen.mid < dangerous ? Tone::act : Tone::watch);
  a.concern = {"Nobody knows whether the fry have oxygen enough."};
  a.deeds = {Deed::test};
  const Date day = likely ? s.today() : next_school_day(s);
  a.by = s.end_of(day);
  a.by_text = by_text(s, day);
  a.what = {"Measure the oxygen, first thing in the morning."};
  a.how_much = {"With an oxygen test or a borrowed meter. Without one: see that stones and return work and that no fish gasp at the surface or crowd at the inflow."};
  a.benefit = Sentence{"It tells what the air really brings in, and how many fry it carries."};
  a.because.push_back({{"{0} fry of about {1} may take it down to {2} to {3}; at least {4} is wanted.", {Number{row->animals}, Mass::from_g(row->each_g.mid), row->oxygen.low, row->oxygen.mid, row->oxygen_limit}}, {}});
  if (view->air_basis == planning::AirBasis::assumed) a.because.push_back({{"The air pump is not on record, so the poorest small stone is taken."}, {}});
  if (o2.value) a.because.push_back({{"The last reading is {0} old.", {Days(o2.age_days)}}, o2.records});
  a.would_change_if.push_back({{"Litres a minute of the air pump on record, or an oxygen reading."}, {}});
  a.sources = {"Wieser 1985 (breathing of fry)", "Benson & Krause 1984", "7 mg/L for fry: common practice, no source"};
  return {a};
}

}  // namespace

std::vector<Action> oxygen(const Situation& s) {
  const Assessment& o2 = s.of(WaterKey::oxygen);
  if (!inference::has_animals(s.belief.brood.animals)) return {};
  if (!o2.value || o2.stale) return unknown(s, o2);
  if (o2.value->low > too_much * full_of(o2)) return {gas(s, o2)};
  // Under the week's mean only, and full: air can't help, and nobody chills animals for that.
  if (o2.tone < Tone::watch || (o2.tone == Tone::watch && is_full(o2))) return {};
  return {low(s, o2)};
}

}  // namespace redd::advice::rules
