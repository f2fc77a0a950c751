#include "report/detail/what_if_words.h"

#include <algorithm>
#include <cmath>

namespace redd::report {
namespace {

using planning::WhatIf;
using planning::WhatIfBase;
using planning::WhatIfChance;
using planning::WhatIfLimit;
using planning::WhatIfWindow;

constexpr double told_difference = 0.05;

Temperature warmest(double c) { return Temperature::from_c(c); }

bool moves_temperature(const planning::WhatIfSliders& s) { return s.room_warmer_c != 0.0 || s.set_point_warmer_c != 0.0; }

/// What the water does, and whether the chiller holds it.
std::optional<Sentence> temperature_sentence(const WhatIfAsked& asked, const WhatIf& told) {
  const auto& warm = told.summary.warmest_c;
  const auto& held = told.summary.chance(WhatIfLimit::not_held).probability;
  if (!asked.base.heat.plate) {
    if (told.sliders.room_warmer_c > 0.0) return Sentence{"Whether the chiller holds the water in a warmer room is not known: its cooling power is not on record."};
    return std::nullopt;
  }
  if (!held) return std::nullopt;
  if (*held >= what_if_likely)
    return Sentence{"The chiller most likely does not hold the water: it reaches about {0} on the warmest day, perhaps {1}.", {warmest(warm.mid), warmest(warm.high)}};
  if (*held >= what_if_possible) return Sentence{"{0} that the chiller does not hold the water; on the warmest day it then stands at up to {1}.", {Chance{*held}, warmest(warm.high)}};
  if (moves_temperature(told.sliders)) return Sentence{"The chiller holds the water: it stays below {0}.", {warmest(warm.high + 0.05)}};
  return std::nullopt;
}

std::string name_of(WhatIfLimit limit) {
  switch (limit) {
    case WhatIfLimit::too_warm:
    case WhatIfLimit::too_cold: return "The temperature";
    case WhatIfLimit::un_ionized_ammonia: return "Un-ionized ammonia";
    case WhatIfLimit::nitrite: return "Nitrite";
    case WhatIfLimit::oxygen: return "Oxygen";
    case WhatIfLimit::nitrate: return "Nitrate";
    case WhatIfLimit::ph: return "pH";
    case WhatIfLimit::alkalinity: return "KH";
    case WhatIfLimit::not_held:
    case WhatIfLimit::jump: break;
  }
  return "The change itself";
}

/// The limit most worth telling: the likely one that is passed first, else the most probable.
std::optional<WhatIfLimit> worst_limit(const planning::WhatIfSummary& summary) {
  std::optional<WhatIfLimit> worst;
  const auto rank = [&](WhatIfLimit limit) {
    const auto& chance = summary.chance(limit);
    const double p = chance.probability.value_or(0.0);
    return p >= what_if_likely ? 1e3 - chance.mid_index.value_or(0) : p;
  };
  for (std::size_t k = 0; k < planning::what_if_limit_count; ++k) {
    const auto limit = static_cast<WhatIfLimit>(k);
    if (limit == WhatIfLimit::not_held || limit == WhatIfLimit::jump || !summary.chance(limit).probability) continue;
    if (!worst || rank(limit) > rank(*worst)) worst = limit;
  }
  return worst;
}

Sentence limit_told(const WhatIfAsked& asked, const WhatIf& told) {
  const WhatIfBase& b = asked.base;
  const Date last = day_at(b, planning::what_if_days);
  if (!b.limits.from_day || *b.limits.from_day > b.now_day + planning::what_if_days) return {"No animals are in the tank by {0}, so nothing has to be kept yet: only the water is shown.", {last}};
  const auto worst = worst_limit(told.summary);
  if (!worst) return {"Nothing can be said of the limits."};
  const auto& now = told.summary.chance(*worst);
  const double p = now.probability.value_or(0.0), planned = b.as_planned.chance(*worst).probability.value_or(0.0);
  const Word name{name_of(*worst)};
  if (p < what_if_possible) return {"No limit of water or temperature is likely to be passed by {0}: less than {1} for any one of them.", {last, Chance{what_if_possible}}};
  const bool same = chance_text(p) == chance_text(planned);  // said once
  if (p < what_if_likely && same) return {"{0} may pass its limit by {1}: {2}.", {name, last, Chance{p}}};
  if (p < what_if_likely) return {"{0} may pass its limit by {1}: {2}, as planned {3}.", {name, last, Chance{p}, Chance{planned}}};
  const Date when = day_at(b, now.mid_index.value_or(0));
  if (when <= b.today && same) return {"{0} is likely beyond its limit from the start ({1}).", {name, Chance{p}}};
  if (when <= b.today) return {"{0} is likely beyond its limit from the start ({1}; as planned {2}).", {name, Chance{p}, Chance{planned}}};
  if (same) return {"{0} likely passes its limit, about {1} ({2}).", {name, when, Chance{p}}};
  return {"{0} likely passes its limit, about {1} ({2}; as planned {3}).", {name, when, Chance{p}, Chance{planned}}};
}

/// The date that moves furthest, when it moves by a day.
std::optional<Sentence> moved_sentence(const WhatIfAsked& asked, const WhatIf& told) {
  const auto& planned = asked.base.as_planned;
  const auto moved = [](const WhatIfWindow& now, const WhatIfWindow& before) { return now.mid && before.mid ? *now.mid - *before.mid : 0.0; };
  const double hatch = moved(told.summary.hatch, planned.hatch), swim_up = moved(told.summary.swim_up, planned.swim_up);
  const bool by_hatch = std::abs(hatch) >= 1.0 && told.summary.hatch.mid;
  const double by = by_hatch ? hatch : swim_up;
  if (std::abs(by) < 1.0) return std::nullopt;
  const Word what{by_hatch ? "Hatch" : "First feeding"};
  const Days much{std::round(std::abs(by))};
  const Date when = day_at(asked.base, by_hatch ? *told.summary.hatch.mid : *told.summary.swim_up.mid);
  return by < 0.0 ? Sentence{"{0} comes about {1} earlier, about {2}.", {what, much, when}} : Sentence{"{0} comes about {1} later, about {2}.", {what, much, when}};
}

bool eats_within(const WhatIfBase& b) { return b.brood && b.brood->swim_up <= b.today + std::chrono::days(planning::what_if_days); }

}  // namespace

bool is_changed(const WhatIfBase& base, const planning::WhatIfSliders& s) {
  return moves_temperature(s) || s.animals_factor != 1.0 || s.food_factor != 1.0 || std::abs(s.weekly_change_fraction.value_or(base.usual_fraction) - base.usual_fraction) > 1e-9;
}

Date day_at(const WhatIfBase& base, double index) { return base.today + std::chrono::days(static_cast<int>(std::floor(index))); }

Sentence limit_sentence(WhatIfLimit limit) {
  switch (limit) {
    case WhatIfLimit::too_warm: return {"Water warmer than the animals bear"};
    case WhatIfLimit::too_cold: return {"Water colder than the animals bear"};
    case WhatIfLimit::not_held: return {"The chiller does not hold the set-point"};
    case WhatIfLimit::un_ionized_ammonia: return {"Un-ionized ammonia above its limit"};
    case WhatIfLimit::nitrite: return {"Nitrite above its limit"};
    case WhatIfLimit::oxygen: return {"Oxygen below what the animals should have"};
    case WhatIfLimit::nitrate: return {"Nitrate above its limit"};
    case WhatIfLimit::ph: return {"pH outside its limits"};
    case WhatIfLimit::alkalinity: return {"KH outside its limits"};
    case WhatIfLimit::jump: break;
  }
  return {"A change that moves pH, KH or GH too far at once"};
}

std::optional<Sentence> when_sentence(const WhatIfBase& base, const WhatIfChance& chance) {
  if (!chance.mid_index || chance.probability.value_or(0.0) < what_if_possible) return std::nullopt;
  if (*chance.mid_index == 0) return Sentence{"from the start"};
  return Sentence{"if so, about {0}", {day_at(base, *chance.mid_index)}};
}

std::string_view standing_of(const WhatIfChance& now, const WhatIfChance& planned) {
  if (!now.probability || !planned.probability) return "unknown";
  const double difference = *now.probability - *planned.probability;
  return difference >= told_difference ? "more" : difference <= -told_difference ? "less" : "same";
}

Sentence date_sentence(std::string_view key, const WhatIfBase& base, const WhatIfWindow& now, const WhatIfWindow& planned) {
  const Word what{key == "hatch" ? "Half hatched" : "Half swum up, ready to feed"};
  if (now.past) return {"{0}: past already.", {what}};
  if (!now.mid) return {"{0}: cannot be told.", {what}};
  const Date mid = day_at(base, *now.mid), low = day_at(base, now.low.value_or(*now.mid));
  if (!planned.mid) return {"{0}: about {1}.", {what, mid}};
  const Date before = day_at(base, *planned.mid);
  if (!now.high) return {"{0}: about {1}, from {2} on; as planned {3}.", {what, mid, low, before}};
  return {"{0}: about {1}, between {2} and {3}; as planned {4}.", {what, mid, low, day_at(base, *now.high), before}};
}

std::vector<Sentence> what_if_headline(const WhatIfAsked& asked, const WhatIf& told) {
  std::vector<Sentence> all;
  if (!told.sound) return {{"This cannot be reckoned: a simulated tank came to no number."}};
  if (!is_changed(asked.base, told.sliders)) all.push_back({"All as planned."});
  if (const auto temperature = temperature_sentence(asked, told)) all.push_back(*temperature);
  all.push_back(limit_told(asked, told));
  if (const auto moved = moved_sentence(asked, told)) all.push_back(*moved);
  return all;
}

std::vector<Sentence> what_if_cautions(const WhatIfAsked& asked, const WhatIf& told) {
  std::vector<Sentence> all;
  const auto& s = told.sliders;
  if (told.too_warm_to_tell)
    all.push_back({"Warmer than {0} nothing was tested that dates and breathing could be told from: dates and oxygen are left out. The animals would be in danger long before.", {Temperature::from_c(planning::warmest_told_c)}});
  const double jump = told.summary.chance(WhatIfLimit::jump).probability.value_or(0.0);
  if (jump >= told_difference) all.push_back({"Changes of this size may move pH, KH or GH further at once than animals should bear: {0}.", {Chance{jump}}});
  if (s.food_factor < 1.0 / 3.0 && eats_within(asked.base)) all.push_back({"Fry are not starved to spare the filter: below a third of their food, change water instead."});
  if (s.animals_factor > 1.0) all.push_back({"How many eggs you may have is your permit's to say, not this page's."});
  if (s.set_point_warmer_c != 0.0) all.push_back({"Before you move a set-point, see the temperature plan: it knows your calendar and what each stage bears."});
  return all;
}

std::string_view what_if_tone(const WhatIfAsked& asked, const WhatIf& told) {
  if (!told.sound) return "unknown";
  double worst = 0.0;
  bool any = false;
  for (const WhatIfChance& chance : told.summary.chances) {
    worst = std::max(worst, chance.probability.value_or(0.0));
    any = any || chance.probability;
  }
  if (told.too_warm_to_tell || worst >= what_if_likely) return "act";
  if (worst >= what_if_possible) return "watch";
  return any && !asked.doubted && asked.base.heat.plate && !asked.base.heat.chiller_down ? "good" : "unknown";
}

}  // namespace redd::report
