#include "report/emergency_text.h"

#include <algorithm>

#include "quantities/verbatim.h"
#include "report/heat_text.h"
#include "report/wrapped.h"

namespace redd::report {
namespace {

using emergency::Emergency;
using emergency::HoldTime;
using wire::Json;

std::string hold_line(const HoldTime& hold, const Reader& reader) {
  return text_of(hold.what, reader) + ": " + (hold.span ? hold_text(*hold.span, reader) : text_of(hold.basis, reader));
}

std::string typed(std::string key) {
  std::ranges::replace(key, '_', '-');
  return key;
}

}  // namespace

Json emergency_json(const Emergency& one, const Reader& reader) {
  const auto texts = [&](const std::vector<Sentence>& sentences) {
    Json out = Json::array();
    for (const Sentence& s : sentences) out.push_back(text_of(s, reader));
    return out;
  };
  Json hold = Json::array();
  for (const HoldTime& each : one.hold) {
    const auto hours = [&](const std::optional<Hours> planning::HoldSpan::*which) { return each.span && (*each.span).*which ? Json(((*each.span).*which)->count()) : Json(nullptr); };
    hold.push_back({{"what", text_of(each.what, reader)}, {"known", each.span.has_value()}, {"soonest_h", hours(&planning::HoldSpan::soonest)}, {"likely_h", hours(&planning::HoldSpan::likely)},
                    {"latest_h", hours(&planning::HoldSpan::latest)}, {"text", each.span ? hold_text(*each.span, reader) : ""}, {"basis", text_of(each.basis, reader)}});
  }
  Json sources = Json::array();
  for (const std::string& source : one.sources) sources.push_back(say(reader, source));
  return {{"key", one.key}, {"name", text_of(one.name, reader)}, {"sign", text_of(one.sign, reader)}, {"now", one.now}, {"hold", hold}, {"steps", texts(one.steps)},
          {"measure", texts(one.measure)}, {"call", texts(one.call)}, {"cautions", texts(one.cautions)}, {"sources", sources}};
}

Json emergencies_json(const season::EmergencyLook& look, const Reader& given) {
  Reader reader = given;
  reader.zone = look.zone;
  Json kinds = Json::array();
  for (const Emergency& each : look.kinds) kinds.push_back(emergency_json(each, reader));
  return {{"animals", say(reader, look.animals)}, {"animals_in_tank", look.animals_in_tank}, {"season", look.season.name}, {"volume_l", look.season.volume.l()}, {"kinds", kinds}};
}

std::string emergency_text(const Emergency& one, const Reader& reader, int width) {
  std::string out = wrapped(text_of(one.name, reader) + (one.now ? " " + say(reader, "(logged as happening now)") : "") + ": " + text_of(one.sign, reader), width, "", "");
  const auto section = [&](const char* title, const std::vector<Sentence>& sentences, bool numbered) {
    if (sentences.empty()) return;
    out += "\n" + say(reader, title) + "\n";
    int n = 0;
    for (const Sentence& s : sentences) out += wrapped(text_of(s, reader), width, numbered ? "  " + std::to_string(++n) + ". " : "  - ", "     ");
  };
  section("Do", one.steps, true);
  section("Mind", one.cautions, false);
  out += "\n" + say(reader, "How long it holds") + "\n";
  for (const HoldTime& hold : one.hold) out += wrapped(capitalised(hold_line(hold, reader)), width, "  - ", "    ");
  section("Measure next", one.measure, false);
  section("Call", one.call, false);
  out += "\n" + say(reader, "Rests on") + "\n";
  std::string last;
  for (const HoldTime& hold : one.hold) {
    const std::string basis = text_of(hold.basis, reader);
    if (hold.span && basis != last) out += wrapped(basis, width, "  - ", "    ");
    last = basis;
  }
  for (const std::string& source : one.sources) out += wrapped(say(reader, source), width, "  - ", "    ");
  return out;
}

std::string emergencies_text(const season::EmergencyLook& look, const Reader& given, int width) {
  Reader reader = given;
  reader.zone = look.zone;
  std::string out = wrapped(say(reader, look.animals_in_tank ? "What to do for this tank and its {0}. More of one: redd emergency power-cut. To hang beside the tank: redd emergency --card." : "What to do for this tank and its {0} to come. More of one: redd emergency power-cut. To hang beside the tank: redd emergency --card.", look.animals),
                            width, "", "");
  for (const Emergency& each : look.kinds) {
    out += "\n" + typed(each.key) + (each.now ? "  " + say(reader, "(logged as happening now)") : "") + "\n";
    out += wrapped(text_of(each.steps.front(), reader), width, "  ", "  ");
    if (!each.hold.empty() && each.hold.front().span) out += wrapped(say(reader, "Gives out first: {0}", hold_line(each.hold.front(), reader)), width, "  ", "    ");
  }
  return out;
}

std::string emergency_card(const season::EmergencyLook& look, const Reader& given, int width) {
  Reader reader = given;
  reader.zone = look.zone;
  std::string out = say(reader, "{0}: what to do when something fails", verbatim(look.season.name)) + "\n";
  out += wrapped(text_of({look.animals_in_tank ? "{0} of water, {1}. As of {2}; print it anew at hatch and at swim-up." : "{0} of water, {1} to come. As of {2}; print it anew at hatch and at swim-up.",
                          {look.season.volume, Word{look.animals}, local_day(look.zone, look.now)}}, reader),
                 width, "", "");
  for (const char* who : {"Egg supplier", "Permit office", "Caretaker", "Keeper"}) out += say(reader, who) + " ____________________" + (who == std::string_view("Keeper") ? "\n" : "  ");
  out += wrapped(say(reader, "Dry hands. Pull the plug before touching wet equipment. A safety socket that trips has a reason: never bypass it."), width, "", "");
  for (const Emergency& each : look.kinds) {
    std::string title = text_of(each.name, reader);
    for (const HoldTime& hold : each.hold)
      if (hold.span) {
        title += "  [" + hold_line(hold, reader) + "]";
        break;
      }
    out += "\n" + wrapped(title, width, "", "  ");
    for (std::size_t i = 0; i < std::min<std::size_t>(3, each.steps.size()); ++i) out += wrapped(text_of(each.steps[i], reader), width, std::to_string(i + 1) + ". ", "   ");
  }
  out += "\n" + wrapped(say(reader, "Permit, local codes, licensed electrician and veterinarian come before this card."), width, "", "");
  return out;
}

}  // namespace redd::report
