#include "report/emergency_text.h"

#include <algorithm>

#include "report/heat_text.h"
#include "report/wrapped.h"

namespace redd::report {
namespace {

using emergency::Emergency;
using emergency::HoldTime;
using wire::Json;

std::string hold_line(const HoldTime& hold, const Reader& reader) {
  return text_of(hold.what, reader) + ": " + (hold.span ? hold_text(*hold.span) : text_of(hold.basis, reader));
}

std::string typed(std::string key) {
  std::ranges::replace(key, '_', '-');
  return key;
}

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
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
                    {"latest_h", hours(&planning::HoldSpan::latest)}, {"text", each.span ? hold_text(*each.span) : ""}, {"basis", text_of(each.basis, reader)}});
  }
  Json sources = Json::array();
  for (const std::string& source : one.sources) sources.push_back(source);
  return {{"key", one.key}, {"name", text_of(one.name, reader)}, {"sign", text_of(one.sign, reader)}, {"now", one.now}, {"hold", hold}, {"steps", texts(one.steps)},
          {"measure", texts(one.measure)}, {"call", texts(one.call)}, {"cautions", texts(one.cautions)}, {"sources", sources}};
}

Json emergencies_json(const season::EmergencyLook& look, const Reader& given) {
  Reader reader = given;
  reader.zone = look.zone;
  Json kinds = Json::array();
  for (const Emergency& each : look.kinds) kinds.push_back(emergency_json(each, reader));
  return {{"animals", look.animals}, {"animals_in_tank", look.animals_in_tank}, {"season", look.season.name}, {"volume_l", look.season.volume.l()}, {"kinds", kinds}};
}

std::string emergency_text(const Emergency& one, const Reader& reader, int width) {
  std::string out = wrapped(text_of(one.name, reader) + (one.now ? " (logged as happening now)" : "") + ": " + text_of(one.sign, reader), width, "", "");
  const auto section = [&](const char* title, const std::vector<Sentence>& sentences, bool numbered) {
    if (sentences.empty()) return;
    out += std::string("\n") + title + "\n";
    int n = 0;
    for (const Sentence& s : sentences) out += wrapped(text_of(s, reader), width, numbered ? "  " + std::to_string(++n) + ". " : "  - ", "     ");
  };
  section("Do", one.steps, true);
  section("Mind", one.cautions, false);
  out += "\nHow long it holds\n";
  for (const HoldTime& hold : one.hold) out += wrapped(capital(hold_line(hold, reader)), width, "  - ", "    ");
  section("Measure next", one.measure, false);
  section("Call", one.call, false);
  out += "\nRests on\n";
  std::string last;
  for (const HoldTime& hold : one.hold) {
    const std::string basis = text_of(hold.basis, reader);
    if (hold.span && basis != last) out += wrapped(basis, width, "  - ", "    ");
    last = basis;
  }
  for (const std::string& source : one.sources) out += wrapped(source, width, "  - ", "    ");
  return out;
}

std::string emergencies_text(const season::EmergencyLook& look, const Reader& given, int width) {
  Reader reader = given;
  reader.zone = look.zone;
  std::string out = wrapped("What to do for this tank and its " + look.animals + (look.animals_in_tank ? "" : " to come") + ". More of one: redd emergency power-cut. To hang beside the tank: redd emergency --card.",
                            width, "", "");
  for (const Emergency& each : look.kinds) {
    out += "\n" + typed(each.key) + (each.now ? "  (logged as happening now)" : "") + "\n";
    out += wrapped(text_of(each.steps.front(), reader), width, "  ", "  ");
    if (!each.hold.empty() && each.hold.front().span) out += wrapped("Gives out first: " + hold_line(each.hold.front(), reader), width, "  ", "    ");
  }
  return out;
}

std::string emergency_card(const season::EmergencyLook& look, const Reader& given, int width) {
  Reader reader = given;
  reader.zone = look.zone;
  std::string out = look.season.name + ": what to do when something fails\n";
  out += wrapped(text_of({"{0} of water, {1}{2}. As of {3}; print it anew at hatch and at swim-up.",
                          {look.season.volume, Word{look.animals}, Word{look.animals_in_tank ? "" : " to come"}, local_day(look.zone, look.now)}}, reader),
                 width, "", "");
  out += "Egg supplier ____________________  Permit office ____________________  Caretaker ____________________  Keeper ____________________\n";
  out += wrapped("Dry hands. Pull the plug before touching wet equipment. A safety socket that trips has a reason: never bypass it.", width, "", "");
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
  out += "\n" + wrapped("Permit, local codes, licensed electrician and veterinarian come before this card.", width, "", "");
  return out;
}

}  // namespace redd::report
