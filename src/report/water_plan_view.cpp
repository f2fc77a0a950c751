#include "report/water_plan_view.h"

#include <algorithm>

#include "report/detail/water_words.h"
#include "report/wrapped.h"

namespace redd::report {
namespace {

using planning::WaterAlternative;
using planning::WaterProgramme;
using wire::Json;

std::string title_of(const WaterAlternative& a, const WaterProgramme& p, const Reader& reader) {
  if (a.key == "programme") return say(reader, p.helps ? "The programme" : "The programme: no change");
  if (a.key == "usual") return text_of(p.usual_assumed ? Sentence{"A usual change, {0} a week (assumed)", {Share{p.usual_fraction}}} : Sentence{"Your usual change, {0} a week", {Share{p.usual_fraction}}}, reader);
  return say(reader, "No change");
}

std::string sentence_text(const Sentence& s, const Reader& reader) { return capitalised(text_of(s, reader)); }

Json sentences_json(const std::vector<Sentence>& sentences, const Reader& reader) {
  Json rows = Json::array();
  for (const Sentence& s : sentences) rows.push_back(sentence_text(s, reader));
  return rows;
}

Json shares_json(const std::array<double, planning::water_limit_count>& shares, const Reader& reader) {
  Json rows = Json::array();
  for (std::size_t k = 0; k < shares.size(); ++k) {
    const auto kind = static_cast<planning::WaterLimitKind>(k);
    rows.push_back({{"key", planning::limit_key(kind)}, {"name", say(reader, planning::limit_name(kind))}, {"probability", shares[k]}, {"text", chance_text(shares[k], reader)}});
  }
  return rows;
}

Json series_json(const WaterAlternative& a, const WaterProgramme& p, const season::DayView& day, const Reader& reader) {
  Json all = Json::array();
  const bool hardness = !a.forecast.bands.empty() && a.forecast.bands.front().hardness_meq_per_l.high > 0.0;
  for (const auto& q : followed_quantities(p.limits, hardness)) {
    const ShownQuantity shown = shown_quantity(q.key, day, reader);
    Json series{{"key", shown.key}, {"name", shown.name}, {"unit_text", shown.unit_text}, {"limit_low", q.low ? Json(*q.low * shown.per_canonical) : Json(nullptr)},
                {"limit_high", q.high ? Json(*q.high * shown.per_canonical) : Json(nullptr)}, {"days", Json::array()}};
    for (const auto& b : a.forecast.bands) {
      Json row = band_json(shown, b.*q.band);
      row["day"] = iso_from_date(local_day(day.zone, after_days(p.begin, b.at_day)));
      row["text"] = band_text(shown, b.*q.band, reader);
      series["days"].push_back(std::move(row));
    }
    all.push_back(std::move(series));
  }
  return all;
}

Json alternative_json(const WaterAlternative& a, const WaterProgramme& p, const season::DayView& day, const Reader& reader) {
  Json row{{"key", a.key}, {"title", title_of(a, p, reader)}, {"sentence", sentence_text(a.sentence, reader)}, {"broken_probability", a.forecast.broken_probability},
           {"broken_text", chance_text(a.forecast.broken_probability, reader)}, {"standard_error", a.forecast.standard_error}, {"tanks", a.forecast.tanks}, {"exposure_fraction", a.forecast.exposure},
           {"kept_from", a.forecast.kept_from_day ? Json(iso_from_date(local_day(day.zone, after_days(p.begin, *a.forecast.kept_from_day)))) : Json(nullptr)}, {"total_l", a.total.l()},
           {"total_text", text_of({"{0}", {a.total}}, reader)}, {"by_limit", shares_json(a.forecast.by_limit, reader)}, {"changes", Json::array()}, {"series", series_json(a, p, day, reader)}};
  row["first"] = nullptr;
  if (a.forecast.first && a.forecast.first_mid_day)
    row["first"] = {{"key", planning::limit_key(*a.forecast.first)}, {"name", say(reader, planning::limit_name(*a.forecast.first))}, {"probability", a.forecast.first_probability},
                    {"early_day", iso_from_date(local_day(day.zone, after_days(p.begin, *a.forecast.first_early_day)))}, {"mid_day", iso_from_date(local_day(day.zone, after_days(p.begin, *a.forecast.first_mid_day)))}};
  for (const auto& change : a.changes) row["changes"].push_back(change_json(change, p.source, day, reader));
  return row;
}

std::string without_programme(const season::DayView& day, const Reader& reader) {
  return say(reader, day.belief.brood.animals == inference::Animals::released ? "The brood is released: no water change is planned any more."
                                                                  : "The simulated tanks came to no number: check the latest readings and the set-up.");
}

Reader in_zone(const Reader& given, const season::DayView& day) {
  Reader reader = given;
  reader.zone = day.zone;
  return reader;
}

}  // namespace

Json water_plan_json(const season::WaterLook& look, const Reader& given) {
  const Reader reader = in_zone(given, look.day);
  if (!look.programme) return {{"state", "none"}, {"sentence", without_programme(look.day, reader)}};
  const WaterProgramme& p = *look.programme;
  const auto text = [&](const Sentence& s) { return sentence_text(s, reader); };
  Json out{{"state", "ready"}, {"sentence", text(p.headline)}, {"reached", p.reached}, {"helps", p.helps}, {"stale", p.stale}, {"animals", p.animals},
           {"today", iso_from_date(p.today)}, {"last", iso_from_date(p.last)}, {"limits_from", p.limits_from ? Json(iso_from_date(*p.limits_from)) : Json(nullptr)},
           {"wanted_probability", planning::wanted_safe_probability}, {"rests_on", text(p.rests_on)}, {"usual_fraction", p.usual_fraction}, {"usual_assumed", p.usual_assumed},
           {"largest_fraction", p.largest_fraction}, {"cap_text", p.cap ? Json(text(*p.cap)) : Json(nullptr)}, {"now_broken", shares_json(p.now_broken, reader)}, {"alternatives", Json::array()},
           {"limits", Json::array()}};
  for (const WaterAlternative* a : {&p.programme, &p.usual, &p.none}) out["alternatives"].push_back(alternative_json(*a, p, look.day, reader));
  for (const auto& line : planning::limit_lines(p.limits, look.day.belief)) out["limits"].push_back({{"key", planning::limit_key(line.kind)}, {"sentence", text(line.sentence)}, {"source", say(reader, line.source)}});
  out["source"] = {{"key", p.source.key}, {"name", text_of(p.source.name, reader)}, {"chlorine_known", p.source.chlorine_known}, {"chloramine", p.source.chloramine}, {"unknown", sentences_json(p.source.unknown, reader)}};
  out["evaporation"] = {{"low_l_per_day", p.evaporation.l_per_day.low}, {"mid_l_per_day", p.evaporation.l_per_day.mid}, {"high_l_per_day", p.evaporation.l_per_day.high},
                        {"measured", p.evaporation.basis == planning::Evaporation::Basis::top_ups}, {"rests_on", text(p.evaporation.rests_on)}};
  out["notes"] = sentences_json(p.notes, reader);
  out["cautions"] = sentences_json(p.cautions, reader);
  out["assumed"] = sentences_json(p.assumed, reader);
  return out;
}

std::string water_plan_text(const season::WaterLook& look, const Reader& given, int width) {
  const Reader reader = in_zone(given, look.day);
  if (!look.programme) return wrapped(without_programme(look.day, reader), width, "", "");
  const WaterProgramme& p = *look.programme;
  std::string out = wrapped(sentence_text(p.headline, reader), width, "", "");
  const auto lines = [&](const std::vector<Sentence>& sentences) {
    for (const Sentence& s : sentences) out += wrapped(sentence_text(s, reader), width, "  - ", "    ");
  };
  lines(p.cautions);
  for (const WaterAlternative* a : {&p.programme, &p.usual, &p.none}) {
    out += "\n" + title_of(*a, p, reader) + "\n";
    out += wrapped(sentence_text(a->sentence, reader), width, "  ", "  ");
    std::string days;
    for (const auto& change : a->changes) days += (days.empty() ? "" : "; ") + short_date_text(change.day, reader) + " " + text_of({change.asked_today ? "{0} ({1}, as today's list asks)" : "{0} ({1})", {Share{change.fraction}, change.volume}}, reader);
    if (!days.empty()) out += wrapped(days + ". " + text_of({"In all {0}.", {a->total}}, reader), width, "  ", "  ");
  }
  if (!p.programme.changes.empty()) {
    const auto& next = p.programme.changes.front();
    out += "\n" + say(reader, "The next change, {0}: {1}", {next.day, Share{next.fraction}}) + "\n";
    lines(change_steps(next, p.source, look.day.belief));
    for (const auto& q : followed_quantities(p.limits, next.bands.after.hardness_meq_per_l.high > 0.0)) {
      const ShownQuantity shown = shown_quantity(q.key, look.day, reader);
      out += wrapped(say(reader, "{0}: {1} before, {2} after", shown.name, band_text(shown, next.bands.before.*q.band, reader), band_text(shown, next.bands.after.*q.band, reader)), width, "  ", "    ");
    }
  }
  out += "\n" + say(reader, "To know") + "\n";
  if (p.cap) out += wrapped(text_of(*p.cap, reader), width, "  - ", "    ");
  lines(p.notes);
  out += "\n" + (p.animals || !p.limits_from ? say(reader, "Limits") : say(reader, "Limits from {0} on", short_date_text(*p.limits_from, reader))) + "\n";
  for (const auto& line : planning::limit_lines(p.limits, look.day.belief)) out += wrapped(text_of(line.sentence, reader) + " (" + say(reader, line.source) + ")", width, "  - ", "    ");
  out += "\n" + say(reader, "What this rests on") + "\n";
  lines({p.rests_on});
  lines(p.assumed);
  return out;
}

}  // namespace redd::report
