#include "report/day_text.h"

#include <algorithm>

#include "quantities/verbatim.h"
#include "report/advice_view.h"
#include "report/day_json.h"
#include "report/water_view.h"
#include "report/wrapped.h"
#include "wire/json.h"

namespace redd::report {
namespace {

using season::DayView;

/// One mark a tone, readable without colour.
std::string_view mark(advice::Tone tone) {
  switch (tone) {
    case advice::Tone::alarm: return "!!";
    case advice::Tone::act: return "! ";
    case advice::Tone::watch: return "~ ";
    case advice::Tone::unknown: return "? ";
    case advice::Tone::good: break;
  }
  return "ok";
}

std::string record_list(const std::vector<records::RecordId>& ids, const Reader& reader) {
  if (ids.empty()) return "";
  std::string text;
  for (const auto id : ids) text += (text.empty() ? "" : " ") + std::to_string(id);
  return " " + say(reader, ids.size() > 1 ? "[records {0}]" : "[record {0}]", text);
}

std::string action_text(const advice::Action& a, std::size_t number, const DayView& day, const Reader& reader, int width) {
  const auto text = [&](const Sentence& s) { return text_of(s, reader); };
  const auto label = [&](const char* word) { return "   " + say(reader, word) + ": "; };
  std::string out = wrapped(say(reader, "{0} ({1}, about {2} min)", text(a.what), text(a.by_text), a.effort_minutes), width,
                            std::to_string(number) + ". [" + say(reader, tone_text(a.tone)) + "] ", "   ");
  out += wrapped(text(a.how_much), width, "   ", "   ");
  if (a.from && *a.from > day.now) out += wrapped(text({"{0}.", {*a.from}}), width, label("not before"), "        ");
  if (a.moved) out += wrapped(text(*a.moved), width, label("order"), "        ");
  if (a.answer) out += wrapped(answer_text(a, reader), width, label("answered"), "        ");
  if (a.benefit) out += wrapped(text(*a.benefit), width, label("gains"), "        ");
  for (const auto& r : a.because) out += wrapped(text(r.sentence) + record_list(r.records, reader), width, label("why"), "        ");
  if (a.water_change) {
    const auto& c = *a.water_change;
    for (const auto key : {advice::WaterKey::un_ionized_ammonia, advice::WaterKey::total_ammonia, advice::WaterKey::nitrite, advice::WaterKey::nitrate,
                           advice::WaterKey::ph, advice::WaterKey::alkalinity, advice::WaterKey::hardness}) {
      const auto quantity = tested_quantity(key);
      const Estimate<double>* before = nullptr;
      const Estimate<double>* after = nullptr;
      if (quantity && c.before.contains(*quantity)) {
        before = &c.before.at(*quantity);
        after = &c.after.at(*quantity);
      } else if (!quantity && c.un_ionized_before) {
        before = &*c.un_ionized_before;
        after = &*c.un_ionized_after;
      }
      if (!before) continue;
      const ShownQuantity shown = shown_quantity(key, day, reader);
      out += wrapped(shown.name + ": " + value_text(shown, before->low, before->high, false, reader) + " -> " + value_text(shown, after->low, after->high, false, reader), width, label("then"), "         ");
    }
    if (c.un_ionized_before) out += wrapped(say(reader, "(un-ionized ammonia: the worse of just after and the next day)"), width, "   ", "   ");
    out += wrapped(say(reader, "Temperature: {0} -> {1}", temperature_text(c.tank_before, reader), temperature_text(c.tank_after, reader)), width, label("then"), "         ");
  }
  for (const auto& r : a.would_change_if) out += wrapped(text(r.sentence), width, label("would change this"), "        ");
  for (const Sentence& caution : a.cautions) out += wrapped(text(caution), width, label("take care"), "        ");
  for (const std::string& source : a.sources) out += wrapped(say(reader, source), width, label("source"), "        ");
  return out + "   " + say(reader, "key:") + " " + a.key + "\n";
}

/// The list, as much of it as is asked for, and how to answer it.
std::string actions_text(const DayView& day, const Reader& reader, int width, bool all) {
  const auto& advice = day.advice;
  const std::size_t count = all ? advice.actions.size() : std::min(advice.shown, advice.actions.size());
  std::string out;
  for (std::size_t i = 0; i < count; ++i) out += action_text(advice.actions[i], i + 1, day, reader, width);
  if (count == 0) out += say(reader, "Nothing is asked for now.") + "\n";
  if (count < advice.actions.size())
    out += wrapped(say(reader, "{0} more can wait until these are done: redd today --all", advice.actions.size() - count), width, "", "   ");
  if (count > 0) out += wrapped(say(reader, "Answer with the number or the key: redd done 1, redd skip 1, redd later 1."), width, "", "   ");
  if (!advice.put_aside.empty() && !all)
    out += wrapped(say(reader, "{0} answered and put aside: redd today --all", advice.put_aside.size()), width, "", "   ");
  if (advice.put_aside.empty() || !all) return out;
  out += "\n" + say(reader, "Put aside") + "\n";
  for (const auto& a : advice.put_aside) out += wrapped(say(reader, "{0} {1} (key: {2})", text_of(a.what, reader), answer_text(a, reader), a.key), width, "- ", "  ");
  return out;
}

}  // namespace

std::string headline_text(const advice::Headline& headline, const Reader& reader) {
  return (headline.tone == advice::Tone::alarm ? say(reader, "Act now.") + " " : "") + text_of(headline.sentence, reader);
}

std::string milestones_text(const DayView& day, const Reader& reader) {
  std::string out;
  const auto& brood = day.belief.brood;
  if (!brood.forecast || brood.animals == inference::Animals::none) return say(reader, "No eggs have been received, so there is nothing to forecast yet.") + "\n";
  for (const auto& f : brood.forecast->stages) out += say(reader, "{0}: {1}  (curve: {2})", stage_title(f.stage, reader), milestone_text(f, reader), verbatim(model_title(f.model_key, reader))) + "\n";
  out += text_of({"Thermal sum so far: {0} (between {1} and {2}).", {brood.forecast->thermal_sum.mid, brood.forecast->thermal_sum.low, brood.forecast->thermal_sum.high}}, reader) + "\n";
  return out;
}

std::string milestones_json(const DayView& day, const Reader& reader) {
  const auto all = wire::parsed(day_json(day, reader));
  require(all.has_value(), "milestones_json", "the day did not read back");
  return wire::printed({{"milestones", (*all)["milestones"]}, {"today", (*all)["today"]}, {"stage", (*all)["stage"]}});
}

std::string day_text(const DayView& day, const Reader& given, int width, bool all) {
  Reader reader = given;
  reader.zone = day.zone;
  width = std::clamp(width, 40, 200);
  const auto text = [&](const Sentence& s) { return text_of(s, reader); };
  std::string out = day.season.name + " - " + date_text(local_day(day.zone, day.now), reader) + (day.season.invented ? " - " + say(reader, "INVENTED DEMO DATA") : "") + "\n\n";
  out += wrapped(headline_text(day.advice.headline, reader) + " " + text(day.advice.headline.detail), width, std::string(mark(day.advice.headline.tone)) + " ", "   ") + "\n";
  out += animals_name(day.belief.brood.animals, reader) + ".\n\n" + say(reader, "What to do") + "\n";
  out += actions_text(day, reader, width, all);
  out += "\n" + say(reader, "Water") + "\n";
  for (const auto& [key, a] : day.advice.water) {
    const ShownQuantity shown = shown_quantity(key, day, reader);
    const std::string value = a.value ? value_text(shown, a.value->low, a.value->high, a.open_above, reader) : say(reader, "not measured");
    out += wrapped(shown.name + ": " + value + (a.read_at ? ", " + say(reader, "{0} ago", days_text(std::max(0.0, a.age_days), reader)) + ". " : ". ") + text(a.meaning), width,
                   std::string(mark(a.tone)) + " ", "   ");
  }
  out += "\n" + say(reader, "When") + "\n" + milestones_text(day, reader);
  if (!day.belief.gaps.empty()) out += "\n" + say(reader, "What is missing") + "\n";
  for (const Sentence& gap : day.belief.gaps) out += wrapped(text(gap), width, "- ", "  ");
  return out;
}

}  // namespace redd::report
