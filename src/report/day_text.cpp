#include "report/day_text.h"

#include <algorithm>

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

std::string record_list(const std::vector<records::RecordId>& ids) {
  if (ids.empty()) return "";
  std::string text = " [record";
  if (ids.size() > 1) text += "s";
  for (const auto id : ids) text += " " + std::to_string(id);
  return text + "]";
}

std::string action_text(const advice::Action& a, std::size_t number, const DayView& day, const Reader& reader, int width) {
  const auto text = [&](const Sentence& s) { return text_of(s, reader); };
  std::string out = wrapped(text(a.what) + " (" + text(a.by_text) + ", about " + std::to_string(a.effort_minutes) + " min)", width,
                            std::to_string(number) + ". [" + std::string(tone_text(a.tone)) + "] ", "   ");
  out += wrapped(text(a.how_much), width, "   ", "   ");
  if (a.from && *a.from > day.now) out += wrapped(text({"{0}.", {*a.from}}), width, "   not before: ", "        ");
  if (a.moved) out += wrapped(text(*a.moved), width, "   order: ", "        ");
  if (a.answer) out += wrapped(answer_text(a, reader), width, "   answered: ", "        ");
  if (a.benefit) out += wrapped(text(*a.benefit), width, "   gains: ", "        ");
  for (const auto& r : a.because) out += wrapped(text(r.sentence) + record_list(r.records), width, "   why: ", "        ");
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
      const ShownQuantity shown = shown_quantity(key, day);
      out += wrapped(shown.name + ": " + value_text(shown, before->low, before->high, false) + " -> " + value_text(shown, after->low, after->high, false), width,
                     "   then: ", "         ");
    }
    if (c.un_ionized_before) out += wrapped("(un-ionized ammonia: the worse of just after and the next day)", width, "   ", "   ");
    out += wrapped("Temperature: " + temperature_text(c.tank_before, reader) + " -> " + temperature_text(c.tank_after, reader), width, "   then: ", "         ");
  }
  for (const auto& r : a.would_change_if) out += wrapped(text(r.sentence), width, "   would change this: ", "        ");
  for (const Sentence& caution : a.cautions) out += wrapped(text(caution), width, "   take care: ", "        ");
  for (const std::string& source : a.sources) out += wrapped(source, width, "   source: ", "        ");
  return out + "   key: " + a.key + "\n";
}

/// The list, as much of it as is asked for, and how to answer it.
std::string actions_text(const DayView& day, const Reader& reader, int width, bool all) {
  const auto& advice = day.advice;
  const std::size_t count = all ? advice.actions.size() : std::min(advice.shown, advice.actions.size());
  std::string out;
  for (std::size_t i = 0; i < count; ++i) out += action_text(advice.actions[i], i + 1, day, reader, width);
  if (count == 0) out += "Nothing is asked for now.\n";
  if (count < advice.actions.size())
    out += wrapped(std::to_string(advice.actions.size() - count) + " more can wait until these are done: redd today --all", width, "", "   ");
  if (count > 0) out += wrapped("Answer with the number or the key: redd done 1, redd skip 1, redd later 1.", width, "", "   ");
  if (!advice.put_aside.empty() && !all)
    out += wrapped(std::to_string(advice.put_aside.size()) + " answered and put aside: redd today --all", width, "", "   ");
  if (advice.put_aside.empty() || !all) return out;
  out += "\nPut aside\n";
  for (const auto& a : advice.put_aside) out += wrapped(text_of(a.what, reader) + " " + answer_text(a, reader) + " (key: " + a.key + ")", width, "- ", "  ");
  return out;
}

}  // namespace

std::string headline_text(const advice::Headline& headline, const Reader& reader) {
  return (headline.tone == advice::Tone::alarm ? text_of({"Act now."}, reader) + " " : "") + text_of(headline.sentence, reader);
}

std::string milestones_text(const DayView& day, const Reader& reader) {
  std::string out;
  const auto& brood = day.belief.brood;
  if (!brood.forecast || brood.animals == inference::Animals::none) return "No eggs have been received, so there is nothing to forecast yet.\n";
  for (const auto& f : brood.forecast->stages) out += std::string(stage_title(f.stage)) + ": " + milestone_text(f) + "  (curve: " + std::string(f.model_key) + ")\n";
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
  std::string out = day.season.name + " - " + date_text(local_day(day.zone, day.now)) + (day.season.invented ? " - INVENTED DEMO DATA" : "") + "\n\n";
  out += wrapped(headline_text(day.advice.headline, reader) + " " + text(day.advice.headline.detail), width, std::string(mark(day.advice.headline.tone)) + " ", "   ") + "\n";
  out += std::string(animals_name(day.belief.brood.animals)) + ".\n\nWhat to do\n";
  out += actions_text(day, reader, width, all);
  out += "\nWater\n";
  for (const auto& [key, a] : day.advice.water) {
    const ShownQuantity shown = shown_quantity(key, day);
    const std::string value = a.value ? value_text(shown, a.value->low, a.value->high, a.open_above) : "not measured";
    out += wrapped(shown.name + ": " + value + (a.read_at ? ", " + days_text(std::max(0.0, a.age_days)) + " ago. " : ". ") + text(a.meaning), width,
                   std::string(mark(a.tone)) + " ", "   ");
  }
  out += "\nWhen\n" + milestones_text(day, reader);
  if (!day.belief.gaps.empty()) out += "\nWhat is missing\n";
  for (const Sentence& gap : day.belief.gaps) out += wrapped(text(gap), width, "- ", "  ");
  return out;
}

}  // namespace redd::report
