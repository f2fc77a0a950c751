#include "report/what_if_view.h"

#include <algorithm>
#include <cmath>

#include "quantities/verbatim.h"
#include "report/detail/water_words.h"
#include "report/detail/what_if_words.h"

namespace redd::report {
namespace {

using planning::WhatIf;
using planning::WhatIfChance;
using planning::WhatIfLimit;
using planning::WhatIfLine;
using planning::WhatIfWindow;
using wire::Json;

struct LineLimits {
  std::optional<double> low{}, high{};  ///< canonical units
};

/// Those of today's stage.
LineLimits limits_of(WhatIfLine line, const planning::WhatIfBase& base) {
  const auto& l = base.limits;
  if (!l.from_day) return {};
  switch (line) {
    case WhatIfLine::temperature: {
      const auto& stage = l.temperatures_on(base.now_day);
      return {stage.low_c, stage.high_c};
    }
    case WhatIfLine::un_ionized_ammonia: return {{}, l.un_ionized_mg_n_per_l};
    case WhatIfLine::nitrite: return {{}, l.nitrite_mg_n_per_l};
    case WhatIfLine::nitrate: return {{}, l.nitrate_mg_n_per_l};
    case WhatIfLine::ph: return {l.ph_low, l.ph_high};
    case WhatIfLine::alkalinity: return {l.alkalinity_low_meq_per_l, l.alkalinity_high_meq_per_l};
    case WhatIfLine::total_ammonia:
    case WhatIfLine::oxygen: break;
  }
  return {};
}

/// Named for the reader; the base carries English, so that it can be kept and asked again in another language.
ShownQuantity in_words(ShownQuantity shown, const Reader& reader) {
  shown.name = text_of(Phrase(shown.name), reader);
  shown.unit_text = text_of(Phrase(shown.unit_text), reader);
  return shown;
}

/// Both ends, also where the low one is nothing: little oxygen is what matters.
std::string ends_text(WhatIfLine line, const ShownQuantity& shown, const planning::WaterBand& band, const Reader& reader) {
  if (line != WhatIfLine::oxygen) return band_text(shown, band, reader);
  return number_text(decimals(band.low * shown.per_canonical, 1), reader) + "–" + number_text(decimals(band.high * shown.per_canonical, 1), reader) + " " + shown.unit_text;
}

Json line_json(WhatIfLine line, const WhatIfAsked& asked, const WhatIf& told, const Reader& reader) {
  const ShownQuantity shown = in_words(asked.shown[static_cast<std::size_t>(line)], reader);
  const auto& bands = told.bands[static_cast<std::size_t>(line)];
  Json low = Json::array(), mid = Json::array(), high = Json::array();
  for (const auto& band : bands) {
    low.push_back(band.low * shown.per_canonical);
    mid.push_back(band.mid * shown.per_canonical);
    high.push_back(band.high * shown.per_canonical);
  }
  const LineLimits limits = limits_of(line, asked.base);
  const auto limit = [&](const std::optional<double>& value) { return value ? Json(*value * shown.per_canonical) : Json(nullptr); };
  return {{"key", planning::what_if_line_key(line)}, {"name", shown.name}, {"unit_text", shown.unit_text}, {"limit_low", limit(limits.low)}, {"limit_high", limit(limits.high)},
          {"low", std::move(low)}, {"mid", std::move(mid)}, {"high", std::move(high)},
          {"last_text", bands.empty() ? Json(nullptr) : Json(ends_text(line, shown, bands.back(), reader))}};
}

Json chance_json(WhatIfLimit limit, const WhatIfAsked& asked, const WhatIf& told, const Reader& reader) {
  const WhatIfChance &now = told.summary.chance(limit), &planned = asked.base.as_planned.chance(limit);
  const auto text = [&](const WhatIfChance& chance) { return chance.probability ? Json(chance_text(*chance.probability, reader)) : Json(nullptr); };
  const auto number = [](const WhatIfChance& chance) { return chance.probability ? Json(*chance.probability) : Json(nullptr); };
  const auto when = when_sentence(asked.base, now);
  const auto standing = standing_of(now, planned);
  return {{"key", planning::what_if_limit_key(limit)}, {"name", text_of(limit_sentence(limit), reader)}, {"probability", number(now)}, {"text", text(now)}, {"as_planned_probability", number(planned)},
          {"as_planned_text", text(planned)}, {"standing", standing}, {"when_text", when ? Json(text_of(*when, reader)) : Json(nullptr)}};
}

Json window_json(const char* key, const WhatIfWindow& now, const WhatIfWindow& planned, const WhatIfAsked& asked, const Reader& reader) {
  const auto date = [&](const std::optional<double>& index) { return index ? Json(iso_from_date(day_at(asked.base, *index))) : Json(nullptr); };
  return {{"key", key}, {"low", date(now.low)}, {"mid", date(now.mid)}, {"high", date(now.high)}, {"past", now.past},
          {"sentence", text_of(date_sentence(key, asked.base, now, planned), reader)}, {"as_planned_mid", date(planned.mid)}};
}

ShownQuantity shown_line(WhatIfLine line, const season::DayView& day) {
  using advice::WaterKey;
  switch (line) {
    case WhatIfLine::temperature: return shown_quantity(WaterKey::temperature, day, {});
    case WhatIfLine::un_ionized_ammonia: return shown_quantity(WaterKey::un_ionized_ammonia, day, {});
    case WhatIfLine::total_ammonia: return shown_quantity(WaterKey::total_ammonia, day, {});
    case WhatIfLine::nitrite: return shown_quantity(WaterKey::nitrite, day, {});
    case WhatIfLine::nitrate: return shown_quantity(WaterKey::nitrate, day, {});
    case WhatIfLine::ph: return shown_quantity(WaterKey::ph, day, {});
    case WhatIfLine::alkalinity: return shown_quantity(WaterKey::alkalinity, day, {});
    case WhatIfLine::oxygen: break;
  }
  return shown_quantity(WaterKey::oxygen, day, {});
}

Json slider_json(planning::WhatIfRange range, double as_planned, double step, std::optional<double> told) {
  return {{"low", range.low}, {"high", range.high}, {"as_planned", as_planned}, {"step", step}, {"now", told ? Json(*told) : Json(nullptr)}};
}

}  // namespace

WhatIfAsked what_if_asked(const season::WhatIfLook& look) {
  WhatIfAsked asked{look.base};
  for (std::size_t i = 0; i < asked.shown.size(); ++i) asked.shown[i] = shown_line(static_cast<WhatIfLine>(i), look.day);
  asked.doubted = look.doubted;
  return asked;
}

Json what_if_base_json(const season::WhatIfLook& look, const Reader& given) {
  Reader reader = given;
  reader.zone = look.day.zone;
  const auto& b = look.base;
  Json days = Json::array();
  for (int i = 0; i <= planning::what_if_days; ++i) days.push_back(iso_from_date(b.today + std::chrono::days(i)));
  double room_c = 0.0;
  for (int i = 0; i < 7; ++i) room_c += b.heat.room_c[static_cast<std::size_t>(i)] / 7.0;
  const double set_point_c = b.heat.plan_c[static_cast<std::size_t>(planning::what_if_days)];
  const auto usual = std::clamp(b.usual_fraction, planning::what_if_change.low, planning::what_if_change.high);
  return {{"asked", json_from_what_if_asked(what_if_asked(look))},
          {"days", std::move(days)},
          {"animals", b.alive},
          {"fed", b.brood && b.brood->swim_up <= b.today + std::chrono::days(planning::what_if_days)},
          {"sliders",
           {{"room_warmer_c", slider_json(planning::what_if_room, 0.0, 0.5, room_c)},
            {"set_point_warmer_c", slider_json(planning::what_if_set_point, 0.0, 0.5, set_point_c)},
            {"animals_factor", slider_json(planning::what_if_animals, 1.0, 0.05, b.alive)},
            {"food_factor", slider_json(planning::what_if_food, 1.0, 0.05, std::nullopt)},
            {"weekly_change_fraction", slider_json(planning::what_if_change, usual, 0.01, usual)}}},
          {"usual_change_assumed", look.usual_change_assumed},
          {"filter_working", look.filter_working},
          {"cautions", texts_json(look.cautions, reader)},
          {"assumed", texts_json(look.assumed, reader)},
          {"rests_on", text_of(look.rests_on, reader)}};
}

Result<planning::WhatIfSliders> what_if_sliders_from_json(const Json& given) {
  planning::WhatIfSliders sliders;
  if (!given.is_object()) return Problem{"not_an_object", "/sliders", "Sliders are an object such as {\"room_warmer_c\": 5, \"food_factor\": 1.3}."};
  Problems problems;
  for (const auto& [key, value] : given.items()) {
    double* field = key == "room_warmer_c" ? &sliders.room_warmer_c : key == "set_point_warmer_c" ? &sliders.set_point_warmer_c : key == "animals_factor" ? &sliders.animals_factor : key == "food_factor" ? &sliders.food_factor : nullptr;
    if (!field && key != "weekly_change_fraction") problems.push_back({"unknown_field", "/sliders/" + key, said("\"{0}\" is no slider of a what-if.", verbatim(key))});
    else if (key == "weekly_change_fraction" && value.is_null()) sliders.weekly_change_fraction.reset();
    else if (!value.is_number()) problems.push_back({"not_a_number", "/sliders/" + key, said("\"{0}\" is a number.", verbatim(key))});
    else if (field) *field = value.get<double>();
    else sliders.weekly_change_fraction = value.get<double>();
  }
  if (!problems.empty()) return problems;
  return sliders;
}

Json what_if_json(const WhatIfAsked& asked, const WhatIf& told, const Reader& reader) {
  const auto& b = asked.base;
  Json out{{"sound", told.sound}, {"tone", what_if_tone(asked, told)}, {"changed", is_changed(b, told.sliders)}, {"sentence", ""}, {"details", Json::array()}, {"cautions", Json::array()}, {"chances", Json::array()}, {"dates", Json::array()},
           {"lines", Json::array()}};
  std::string sentence;
  for (const Sentence& part : what_if_headline(asked, told)) sentence += (sentence.empty() ? "" : " ") + text_of(part, reader);
  out["sentence"] = sentence;
  out["cautions"] = texts_json(what_if_cautions(asked, told), reader);
  if (!told.sound) return out;
  for (std::size_t k = 0; k < planning::what_if_limit_count; ++k) out["chances"].push_back(chance_json(static_cast<WhatIfLimit>(k), asked, told, reader));
  if (b.dates) {
    out["dates"].push_back(window_json("hatch", told.summary.hatch, b.as_planned.hatch, asked, reader));
    out["dates"].push_back(window_json("swim_up", told.summary.swim_up, b.as_planned.swim_up, asked, reader));
  }
  for (std::size_t i = 0; i < planning::what_if_line_count; ++i) out["lines"].push_back(line_json(static_cast<WhatIfLine>(i), asked, told, reader));
  return out;
}

}  // namespace redd::report
