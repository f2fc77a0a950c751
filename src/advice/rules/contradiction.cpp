// Readings that can hardly all be right: repeat the one in doubt before believing or acting on it.

#include "advice/rule.h"
#include "planning/doubted_water.h"

namespace redd::advice::rules {
namespace {

using inference::Quantity;

Action repeat(const Situation& s, const std::string& matter, const Word& test, Reason reason) {
  Action a;
  a.rule = "contradiction";
  a.key = "contradiction/" + matter;
  a.deeds = {Deed::test};
  a.again = Days(1);
  a.benefit = {"About {0} of readings are slips (assumed): a repeat keeps you from acting on one, and from trusting one that calms.", {Share{inference::misread_probability}}};
  a.concern = {"Two readings can hardly both be right."};
  a.tone = inference::has_animals(s.belief.brood.animals) ? Tone::act : Tone::watch;
  a.what = {"Repeat the {0} test.", {test}};
  a.how_much = {"With a clean tube, read by two people, best by another team."};
  a.by = s.end_of(s.today());
  a.by_text = {"today"};
  a.effort_minutes = 10;
  a.would_change_if.push_back({{"The repeat: log it, and correct the reading that was wrong."}, reason.records});
  a.because.push_back(std::move(reason));
  return a;
}

void replicates(const Situation& s, std::vector<Action>& actions) {
  for (const auto& [quantity, known] : s.belief.water)
    if (known.disagree && !inference::is_stale(known))
      actions.push_back(repeat(s, key_word(quantity), Word{records::quantity_text(quantity)},
                               {{"The readings of one sitting can hardly all be right: {0}.", {Word{known.raw_text}}}, known.records}));
}

/// pH and KH together fix the dissolved CO2; a tank with air in it holds neither less than planning::least_co2_mg_per_l nor more than most_co2_mg_per_l.
void ph_against_kh(const Situation& s, std::vector<Action>& actions) {
  const auto clash = planning::ph_against_kh(s.season, s.belief);
  if (!clash) return;
  actions.push_back(repeat(s, "ph_and_kh", Word{"pH and KH"},
                           {{clash->too_much_co2 ? "Together they would mean more than {0} of carbon dioxide, which air would have driven off."
                                                 : "Together they would mean less than {0} of carbon dioxide, less than air gives.",
                             {Measured{clash->co2_mg_per_l, "mg/L"}}}, clash->records}));
}

/// Nitrate kits answer to nitrite too, so nitrate can't be read below nitrite.
void nitrate_below_nitrite(const Situation& s, std::vector<Action>& actions) {
  const auto* no2 = s.belief.find(Quantity::nitrite);
  const auto* no3 = s.belief.find(Quantity::nitrate);
  if (!no2 || !no3 || inference::is_stale(*no2) || inference::is_stale(*no3) || no3->as_read.high >= no2->as_read.low) return;
  std::vector<records::RecordId> ids = no3->records;
  ids.insert(ids.end(), no2->records.begin(), no2->records.end());
  const NitrogenBasis basis = s.on_card(Quantity::nitrate, 0.0).basis == NitrogenBasis::n && s.on_card(Quantity::nitrite, 0.0).basis == NitrogenBasis::n ? NitrogenBasis::n : NitrogenBasis::no3;
  // Both on one basis, else they could not be compared.
  const auto n = [&](double v) { return ShownNitrogen{NitrogenConc::from_mg_n_per_l(v), basis}; };
  actions.push_back(repeat(s, "nitrate_below_nitrite", Word{"nitrate"}, {{"Nitrate reads at most {0} while nitrite reads at least {1}; a nitrate test also counts nitrite, so it can't be lower.",
                                                 {n(no3->as_read.high), n(no2->as_read.low)}}, ids}));
}

/// A fall that neither a water change nor the filter explains (nitrate, hardness are used up by nothing in a bare tank).
void unexplained_fall(const Situation& s, std::vector<Action>& actions) {
  for (const Quantity quantity : {Quantity::nitrate, Quantity::hardness}) {
    const auto* known = s.belief.find(quantity);
    if (!known || known->sittings.size() < 2 || inference::is_stale(*known)) continue;
    const auto& before = known->sittings[known->sittings.size() - 2];
    const auto& after = known->sittings.back();
    double kept = 1.0;
    for (const auto& record : s.records)
      if (const auto* change = std::get_if<records::WaterChange>(&record.entry.body);
          change && record.entry.at > before.at && record.entry.at <= after.at)
        kept *= 1.0 - std::min(1.0, change->volume.l() / s.season.volume.l());
    if (after.value.high >= kept * before.value.low) continue;
    actions.push_back(repeat(s, "fall_of_" + key_word(quantity), Word{records::quantity_text(quantity)},
                             {{"It fell from \"{0}\" to \"{1}\", more than the water changes between explain.", {Word{before.raw_text}, Word{after.raw_text}}},
                              {before.id, after.id}}));
  }
}

/// Swim-up seen while hatch is "none yet" on the same day or later: one of the two entries is wrong.
void swim_up_before_hatch(const Situation& s, std::vector<Action>& actions) {
  using Which = records::Milestone::Which;
  const records::Record* swum = nullptr;
  for (const auto& record : s.records) {
    const auto* m = std::get_if<records::Milestone>(&record.entry.body);
    if (!m) continue;
    if (m->seen && (m->which == Which::first_swim_up || m->which == Which::half_swim_up) && !swum) swum = &record;
    const bool no_hatch = !m->seen && (m->which == Which::first_hatch || m->which == Which::half_hatched);
    if (swum && no_hatch && local_day(s.zone, record.entry.at) >= local_day(s.zone, swum->entry.at)) {
      Action a = repeat(s, "milestones", Word{""}, {{"Swim-up is logged as seen and hatch as \"none yet\": both can't be right."}, {swum->id, record.id}});
      a.deeds = {Deed::count};
      a.tone = Tone::watch;
      a.aim = Aim::deadline;
      a.benefit = {"Feeding starts on the right day: the dates ahead rest on these two entries, and fry without yolk starve within about {0}.", {Days(4)}};
      a.concern = {"Two milestones contradict each other."};
      a.what = {"Look at the animals again and correct the wrong milestone."};
      a.how_much = {"Two people, with a light kept short."};
      actions.push_back(std::move(a));
      return;
    }
  }
}

}  // namespace

std::vector<Action> contradiction(const Situation& s) {
  std::vector<Action> actions;
  replicates(s, actions);
  ph_against_kh(s, actions);
  nitrate_below_nitrite(s, actions);
  unexplained_fall(s, actions);
  swim_up_before_hatch(s, actions);
  return actions;
}

}  // namespace redd::advice::rules
