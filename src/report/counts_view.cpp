#include "report/counts_view.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "quantities/rough_count.h"
#include "quantities/verbatim.h"
#include "report/wrapped.h"

namespace redd::report {
namespace {

using inference::Counts;
using inference::CountTaken;
using inference::LossWatch;
using inference::StageSurvival;
using inference::SurvivalStage;
using wire::Json;
using Verdict = inference::StageSurvival::Verdict;

/// Whole animals, as far as they are known: "about 181 (172 to 189)"; "187" when all three are one.
std::string animals_text(const Estimate<double>& e, const Reader& reader) {
  const auto [low, mid, high, support] = rough_count(e);
  if (low == high) return std::to_string(mid);
  return say(reader, "about {0} ({1} to {2})", mid, low, high);
}

std::string percent(double fraction) { return decimals(100.0 * fraction, 0); }
/// "94 % (91 to 97)": whole percents, which is all that a school's lot tells.
std::string share_text(const Estimate<double>& e, const Reader& reader) {
  if (percent(e.low) == percent(e.high)) return say(reader, "about {0} %", percent(e.mid));
  return say(reader, "{0} % ({1} to {2})", percent(e.mid), percent(e.low), percent(e.high));
}

/// A number of deaths expected: never "0".
std::string expected_text(double expected, const Reader& reader) {
  return expected < 0.5 ? say(reader, "fewer than one") : say(reader, "about {0}", decimals(expected, expected < 10.0 ? 1 : 0));
}

std::string_view stage_key(SurvivalStage stage) {
  switch (stage) {
    case SurvivalStage::egg: return "egg";
    case SurvivalStage::alevin: return "alevin";
    case SurvivalStage::fry: return "fry";
    case SurvivalStage::whole: break;
  }
  return "whole";
}
std::string_view stage_name(SurvivalStage stage) {
  switch (stage) {
    case SurvivalStage::egg: return "Received to hatched";
    case SurvivalStage::alevin: return "Hatched to swum up";
    case SurvivalStage::fry: return "Swum up to release";
    case SurvivalStage::whole: break;
  }
  return "From receipt to now";
}

std::string_view verdict_key(Verdict verdict) {
  switch (verdict) {
    case Verdict::below: return "below";
    case Verdict::cannot_tell: return "cannot_tell";
    case Verdict::not_looked: return "not_looked";
    case Verdict::not_below: break;
  }
  return "not_below";
}

std::string verdict_text(const StageSurvival& s, const Reader& reader) {
  const auto typical = biology::typical_survival(s.stage);
  const std::string range = say(reader, "{0} to {1} %", percent(typical.low_fraction), percent(typical.high_fraction));
  switch (s.verdict) {
    case Verdict::below: return say(reader, "below the typical {0}", range);
    case Verdict::not_looked: return say(reader, "not known: nobody has logged a look for dead or a count lately; typical is {0}", range);
    case Verdict::cannot_tell: return say(reader, "perhaps below the typical {0}, perhaps not: so few can't show it", range);
    case Verdict::not_below: break;
  }
  return s.finished ? say(reader, "not below the typical {0}", range) : say(reader, "so far not below the typical {0}", range);
}

std::string_view state_key(LossWatch::State state) {
  switch (state) {
    case LossWatch::State::no_animals: return "no_animals";
    case LossWatch::State::not_known: return "not_known";
    case LossWatch::State::as_expected: return "as_expected";
    case LossWatch::State::more_than_expected: break;
  }
  return "more_than_expected";
}

/// Neither an alarm by the chart nor all well: a tenth at once, or more than usual in the last days.
bool are_watched(const LossWatch& w) { return w.state != LossWatch::State::no_animals && (w.many_at_once || w.lately); }

Sentence watched_sentence(const LossWatch& w) {
  if (w.many_at_once) return {"Dead logged in the last three days: {0}, which is {1} of those alive before.", {Number{w.recent_died}, Share{w.recent_fraction}}};
  const Number died{w.lately->died}, since{w.lately->died_since};
  if (w.lately->first == w.lately->last)
    return since.count == 0 ? Sentence{"{0} dead on {1} were more than expected; none since then. Look every day and note the dead.", {died, w.lately->first}}
                            : Sentence{"{0} dead on {1} were more than expected; {2} since then, which is usual. Look every day and note the dead.", {died, w.lately->first, since}};
  return since.count == 0 ? Sentence{"{0} dead from {1} to {2} were more than expected; none since then. Look every day and note the dead.", {died, w.lately->first, w.lately->last}}
                          : Sentence{"{0} dead from {1} to {2} were more than expected; {3} since then, which is usual. Look every day and note the dead.", {died, w.lately->first, w.lately->last, since}};
}

bool some_are_missing(const Counts& counts) { return !counts.account.counts.empty() && counts.account.counts.back().fit == CountTaken::Fit::fewer; }

std::string_view tone_key(const Counts& counts) {
  const LossWatch& w = counts.losses;
  if (w.many_at_once) return "alarm";
  if (w.state == LossWatch::State::more_than_expected) return "act";
  if (are_watched(w) || (w.state == LossWatch::State::as_expected && some_are_missing(counts))) return "watch";
  return w.state == LossWatch::State::as_expected ? "good" : "unknown";
}

Sentence loss_sentence(const Counts& counts, const Reader& reader) {
  const LossWatch& w = counts.losses;
  if (w.state != LossWatch::State::more_than_expected && are_watched(w)) return watched_sentence(w);
  switch (w.state) {
    case LossWatch::State::no_animals: return {"No animals are in the tank."};
    case LossWatch::State::not_known:
      if (!w.looked) return {"Whether any died is not known: no count of dead is logged yet. None is a number too."};
      return {"Whether any died lately is not known: the last count of dead was logged on {0}.", {*w.looked}};
    case LossWatch::State::as_expected:
      if (some_are_missing(counts))
        return {"Of the dead that were found no more than expected; but the last count leaves animals missing that nobody found."};
      return {"Losses are no more than expected at this stage: {0} dead in the last three days, where {1} a day is usual.", {Number{w.recent_died}, Word{expected_text(w.expected_per_day, reader)}}};
    case LossWatch::State::more_than_expected: break;
  }
  return {"More have died than expected, since {0}: {1} found dead where {2} would be usual.", {w.since, Number{w.died}, Word{expected_text(w.expected, reader)}}};
}

Sentence alive_sentence(const Counts& counts, const Reader& reader) {
  if (!counts.received_on) return {"No eggs have been received, so there is nothing to count yet."};
  const auto& a = counts.account;
  const Number received{a.received}, dead{a.dead()}, released{a.released};
  if (counts.released) return {"The brood has been released: {0} received, {1} found dead, {2} released.", {received, dead, released}};
  const Word alive{animals_text(a.alive, reader)};
  if (a.released > 0) return {"{0} alive: {1} received, {2} found dead, {3} released.", {alive, received, dead, released}};
  return {"{0} alive: {1} received, {2} found dead.", {alive, received, dead}};
}

/// What the alive number rests on, in words.
Sentence rests_on(const Counts& counts) {
  if (!counts.received_on) return {};
  if (counts.counted_on) return {"From the count of {0}, the receipt, dead and releases, each with its error. Nine chances in ten that the number lies in the range.", {*counts.counted_on}};
  return {"By the book alone: nobody has counted the living. The range allows for the hatchery's number and for dead that nobody found."};
}

Json estimate_json(const Estimate<double>& e, std::string text) { return {{"low", e.low}, {"mid", e.mid}, {"high", e.high}, {"text", std::move(text)}}; }

class View {
 public:
  View(const season::CountsLook& look, const Reader& reader) : counts_(look.counts), reader_(reader) { reader_.zone = look.zone; }

  Json json() const {
    const auto& a = counts_.account;
    Json out{{"sentence", capitalised(text(alive_sentence(counts_, reader_)))}, {"rests_on", text(rests_on(counts_))}};
    out["received_on"] = counts_.received_on ? Json(iso_from_date(*counts_.received_on)) : Json(nullptr);
    out["received"] = a.received;
    out["released"] = a.released;
    out["dead"] = {{"eggs", a.dead_eggs}, {"alevins", a.dead_alevins}, {"fry", a.dead_fry}, {"all", a.dead()}};
    out["alive"] = counts_.received_on ? estimate_json(a.alive, animals_text(a.alive, reader_)) : Json(nullptr);
    out["losses"] = losses();
    out["stages"] = Json::array();
    for (const auto& stage : counts_.stages) out["stages"].push_back(stage_json(stage));
    out["counted"] = counted();
    out["curve"] = curve();
    out["curve_caption"] = text({"Share alive, from the deaths found; the band is where it lies nine times in ten. A drop stands on the day it was found; the dead may be as old as the look before."});
    out["counts"] = Json::array();
    for (const auto& count : a.counts) out["counts"].push_back(count_json(count));
    out["findings"] = Json::array();
    for (const auto& f : a.contradictions) out["findings"].push_back(finding_json(f));
    for (const auto& f : a.missing) out["findings"].push_back(finding_json(f));
    out["sources"] = sources();
    return out;
  }

 private:
  std::string text(const Sentence& s) const { return text_of(s, reader_); }
  Json finding_json(const inference::Finding& f) const { return {{"sentence", text(f.sentence)}, {"record_ids", f.records}}; }

  Json losses() const {
    const LossWatch& w = counts_.losses;
    const bool more = w.state == LossWatch::State::more_than_expected;
    const bool lately = !more && w.lately;
    Json out{{"state", state_key(are_watched(w) ? LossWatch::State::more_than_expected : w.state)}, {"tone", tone_key(counts_)}, {"sentence", text(loss_sentence(counts_, reader_))}};
    out["looked_on"] = w.looked ? Json(iso_from_date(*w.looked)) : Json(nullptr);
    out["expected_per_day"] = w.expected_per_day;
    out["false_alarm_text"] = text({"At most one false alarm in {0} days, if losses are as expected and fall singly.", {Number{w.false_alarm_days}}});
    out["since"] = more ? Json(iso_from_date(w.since)) : lately ? Json(iso_from_date(w.lately->first)) : Json(nullptr);
    out["died"] = more ? w.died : lately ? w.lately->died : w.recent_died;
    out["expected"] = more ? w.expected : lately ? w.lately->expected : 3.0 * w.expected_per_day;
    out["record_ids"] = more ? w.records : lately ? w.lately->records : w.recent_records;
    out["checks"] = Json::array();
    for (const auto& check : w.checks) out["checks"].push_back(finding_json(check));
    out["changes"] = Json::array();
    for (const auto& change : w.changes) out["changes"].push_back(finding_json(change));
    out["then"] = Json::array();
    if (more)
      for (const char* s : {"Then call the egg supplier or the agency on the permit, or a vet: they decide what it is. No medicine without them.",
                            "Keep a few of the dead cold, not frozen, in a labelled bag in case the agency asks for them; not in a fridge for food.", "Release none while they die unexplained."})
        out["then"].push_back(say(reader_, s));
    out["looks"] = Json::array();
    for (const auto& look : w.looks)
      out["looks"].push_back({{"from", iso_from_date(look.from)}, {"day", iso_from_date(look.to)}, {"died", look.died}, {"expected", look.expected}, {"at_risk", look.at_risk}, {"sum", look.sum}, {"limit", look.limit}, {"signals", look.signals},
                              {"text", text({"{0}: {1} dead, {2} expected", {Word{short_date_text(look.to, reader_)}, Number{look.died}, Word{expected_text(look.expected, reader_)}}})}, {"record_ids", look.records}});
    return out;
  }

  Json stage_json(const StageSurvival& s) const {
    const auto typical = biology::typical_survival(s.stage);
    return {{"key", stage_key(s.stage)}, {"name", say(reader_, stage_name(s.stage))}, {"entered", s.entered}, {"died", s.died}, {"finished", s.finished},
            {"survival_fraction", estimate_json(s.survival_fraction, share_text(s.survival_fraction, reader_))},
            {"typical_low_fraction", typical.low_fraction}, {"typical_high_fraction", typical.high_fraction},
            {"verdict", verdict_key(s.verdict)}, {"verdict_text", verdict_text(s, reader_)}, {"source", say(reader_, typical.source)}};
  }

  Json counted() const {
    if (!counts_.counted_fraction) return nullptr;
    Json out = estimate_json(*counts_.counted_fraction, share_text(*counts_.counted_fraction, reader_));
    out["day"] = iso_from_date(*counts_.counted_on);
    out["sentence"] = text({"With the count of {0}, {1} of those received are accounted for as alive or released.", {*counts_.counted_on, Word{share_text(*counts_.counted_fraction, reader_)}}});
    return out;
  }

  Json curve() const {
    Json rows = Json::array();
    if (counts_.received_on) rows.push_back({{"day", iso_from_date(*counts_.received_on)}, {"from", iso_from_date(*counts_.received_on)}, {"at_risk", counts_.account.received}, {"died", 0}, {"survival_fraction", estimate_json({1, 1, 1}, "100 %")}});
    for (const auto& step : counts_.curve)
      rows.push_back({{"day", iso_from_date(step.found)}, {"from", iso_from_date(step.from)}, {"at_risk", step.at_risk}, {"died", step.died}, {"survival_fraction", estimate_json(step.survival_fraction, share_text(step.survival_fraction, reader_))}});
    return rows;
  }

  Json count_json(const CountTaken& c) const {
    const bool alive = c.what == records::Count::What::alive;
    const char* fit = c.fit == CountTaken::Fit::fits ? "fits" : c.fit == CountTaken::Fit::fewer ? "fewer" : "more";
    Sentence s = {"{0} {1}", {Word{animals_text(c.animals, reader_)}, Word{alive ? "alive" : "hatched so far"}}};
    if (c.takes > 1) s = {"{0} {1}, from {2} counts", {Word{animals_text(c.animals, reader_)}, Word{alive ? "alive" : "hatched so far"}, Number{c.takes}}};
    return {{"day", iso_from_date(c.day)}, {"day_text", short_date_text(c.day, reader_)}, {"what", alive ? "alive" : "hatched"}, {"text", text(s)}, {"low", c.animals.low}, {"mid", c.animals.mid}, {"high", c.animals.high},
            {"expected_text", say(reader_, alive ? "expected {0}" : "possible {0}", animals_text(c.expected, reader_))}, {"fit", fit}, {"record_ids", c.records}};
  }

  Json sources() const {
    return {text({"Survival by day: product-limit estimate (Kaplan & Meier 1958), interval of its double logarithm; by stage: exact interval (Clopper & Pearson 1934)."}),
            text({"Losses: cumulative sum of counts (Lucas 1985) with limits for a fixed false-alarm rate (Zhang & Woodall 2015)."}),
            text({"Errors of counts, and the daily loss expected at each stage, are assumed; docs/science/survival.md says which."})};
  }

  const Counts& counts_;
  Reader reader_;
};

void list(std::string& out, const Json& rows, int width, const char* key = "sentence") {
  for (const Json& row : rows) out += wrapped((row.is_string() ? row : row[key]).get<std::string>(), width, "  - ", "    ");
}

}  // namespace

Json counts_json(const season::CountsLook& look, const Reader& reader) { return View(look, reader).json(); }

std::string counts_text(const season::CountsLook& look, const Reader& reader, int width) {
  const Json view = counts_json(look, reader);
  const auto string = [](const Json& j) { return j.get<std::string>(); };
  std::string out;
  if (look.season.invented) out += say(reader, "INVENTED season: {0}", verbatim(look.season.name)) + "\n\n";
  out += wrapped(string(view["sentence"]), width, "", "");
  if (!look.counts.received_on) return out;
  out += wrapped(string(view["rests_on"]), width, "", "");
  out += "\n" + wrapped(string(view["losses"]["sentence"]), width, "", "");
  if (!view["losses"]["checks"].empty()) {
    out += wrapped(string(view["losses"]["false_alarm_text"]), width, "  ", "  ") + "\n" + say(reader, "Look at, in this order:") + "\n";
    list(out, view["losses"]["checks"], width);
    if (!view["losses"]["changes"].empty()) out += say(reader, "What changed shortly before:") + "\n";
    list(out, view["losses"]["changes"], width);
    out += say(reader, "Then:") + "\n";
    list(out, view["losses"]["then"], width);
  }
  out += "\n" + say(reader, "Survival, of those found dead:") + "\n";
  for (const Json& stage : view["stages"])
    out += wrapped(say(reader, "{0}: {1}, {2} dead; {3}.", string(stage["name"]), string(stage["survival_fraction"]["text"]), stage["died"].get<int>(), string(stage["verdict_text"])), width, "  ", "    ");
  if (!view["counted"].is_null()) out += wrapped(string(view["counted"]["sentence"]), width, "  ", "    ");
  if (!view["counts"].empty()) out += "\n" + say(reader, "Counted:") + "\n";
  for (const Json& count : view["counts"]) out += wrapped(string(count["day_text"]) + ": " + string(count["text"]) + "; " + string(count["expected_text"]) + ".", width, "  ", "    ");
  if (!view["findings"].empty()) out += "\n" + say(reader, "Does not add up:") + "\n";
  list(out, view["findings"], width);
  return out;
}

}  // namespace redd::report
