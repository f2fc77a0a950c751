#include "report/water_view.h"

#include <algorithm>

#include "quantities/verbatim.h"

namespace redd::report {
namespace {

// Assumed: a tenth of what the cards of a class tell apart, and of the smallest mark (un-ionized ammonia, 0.0125 mg/L). A figure below was never read, only reckoned.
constexpr double least_mg_per_l = 0.01, least_nh3_mg_per_l = 0.001;

}  // namespace

using advice::WaterKey;
using records::Quantity;
using records::TestUnit;

std::optional<Quantity> tested_quantity(WaterKey key) {
  switch (key) {
    case WaterKey::total_ammonia: return Quantity::total_ammonia;
    case WaterKey::nitrite: return Quantity::nitrite;
    case WaterKey::nitrate: return Quantity::nitrate;
    case WaterKey::ph: return Quantity::ph;
    case WaterKey::alkalinity: return Quantity::alkalinity;
    case WaterKey::hardness: return Quantity::hardness;
    case WaterKey::oxygen: return Quantity::oxygen;
    case WaterKey::un_ionized_ammonia:
    case WaterKey::temperature: break;
  }
  return std::nullopt;
}

ShownQuantity shown_quantity(WaterKey key, const season::DayView& day, const Reader& reader) {
  const auto in_unit = [&](const char* key_text, const char* name, Quantity quantity, TestUnit usual, int places) {
    const auto* known = day.belief.find(quantity);
    const TestUnit unit = known ? known->unit : usual;
    return ShownQuantity{key_text, say(reader, name), unit == TestUnit::ph ? "" : say(reader, records::unit_text(unit)), records::printed_value(unit, 1.0), places, places < 0 ? least_mg_per_l : 0.0};
  };
  switch (key) {
    case WaterKey::un_ionized_ammonia:
      return {"un_ionized_ammonia", say(reader, "Un-ionized ammonia"), say(reader, "mg/L as NH3"), mass_per_mass_n(NitrogenBasis::nh3), -1, least_nh3_mg_per_l};
    case WaterKey::total_ammonia: return in_unit("total_ammonia", "Total ammonia", Quantity::total_ammonia, TestUnit::mg_n_per_l, -1);
    case WaterKey::nitrite: return in_unit("nitrite", "Nitrite", Quantity::nitrite, TestUnit::mg_n_per_l, -1);
    case WaterKey::nitrate: return in_unit("nitrate", "Nitrate", Quantity::nitrate, TestUnit::mg_no3_per_l, 0);
    case WaterKey::ph: return in_unit("ph", "pH", Quantity::ph, TestUnit::ph, 1);
    case WaterKey::alkalinity: return in_unit("alkalinity", "Carbonate hardness (KH)", Quantity::alkalinity, TestUnit::german_degrees, 1);
    case WaterKey::hardness: return in_unit("hardness", "General hardness (GH)", Quantity::hardness, TestUnit::german_degrees, 1);
    case WaterKey::oxygen: return in_unit("oxygen", "Dissolved oxygen", Quantity::oxygen, TestUnit::mg_per_l, 1);
    case WaterKey::temperature: break;
  }
  return {"temperature", say(reader, "Temperature"), "°C", 1.0, 1};
}

std::string value_text(const ShownQuantity& shown, double low, double high, bool open_above, const Reader& reader) {
  if (shown.key == "temperature" && reader.fahrenheit)
    return interval_text(Temperature::from_c(low).f(), Temperature::from_c(high).f(), open_above, 1, "°F", reader);
  const double a = low * shown.per_canonical, b = high * shown.per_canonical;
  if (!open_above && b < shown.least) return say(reader, "under {0}", {Measured{shown.least, shown.unit_text}});
  return shown.places >= 0 ? interval_text(a, b, open_above, shown.places, shown.unit_text, reader) : interval_text(a, b, open_above, shown.unit_text, reader);
}

std::string_view tone_text(advice::Tone tone) {
  switch (tone) {
    case advice::Tone::good: return "good";
    case advice::Tone::unknown: return "unknown";
    case advice::Tone::watch: return "watch";
    case advice::Tone::act: return "act";
    case advice::Tone::alarm: break;
  }
  return "alarm";
}

std::string_view animals_key(inference::Animals animals) {
  switch (animals) {
    case inference::Animals::none: return "no_animals";
    case inference::Animals::green_egg: return "egg";
    case inference::Animals::eyed_egg: return "eyed_egg";
    case inference::Animals::alevin: return "alevin";
    case inference::Animals::fry: return "fry";
    case inference::Animals::released: break;
  }
  return "released";
}

std::string animals_name(inference::Animals animals, const Reader& reader) {
  switch (animals) {
    case inference::Animals::none: return say(reader, "No animals yet");
    case inference::Animals::green_egg: return say(reader, "Eggs, before the eyes show");
    case inference::Animals::eyed_egg: return say(reader, "Eyed eggs");
    case inference::Animals::alevin: return say(reader, "Alevins");
    case inference::Animals::fry: return say(reader, "Fry");
    case inference::Animals::released: break;
  }
  return say(reader, "Released");
}

std::string stage_title(biology::Stage stage, const Reader& reader) {
  switch (stage) {
    case biology::Stage::eyed: return say(reader, "Half eyed");
    case biology::Stage::hatch: return say(reader, "Half hatched");
    case biology::Stage::swim_up: break;
  }
  return say(reader, "Half swum up");
}

std::string model_title(std::string_view key, const Reader& reader) {
  // The key is the author's name, the year, and for a second reading of the same paper how it was read.
  const std::size_t year = key.find_first_of("0123456789");
  if (year == 0 || year == std::string_view::npos) return std::string(key);
  const std::size_t end = std::min(key.find('_'), key.size());
  const Phrase paper = verbatim(capitalised(std::string(key.substr(0, year))) + " " + std::string(key.substr(year, end - year)));
  const std::string_view how = key.substr(end);
  if (how == "_rows") return say(reader, "{0} (between the rows of the table)", paper);
  if (how == "_thermal_sum") return say(reader, "{0} (thermal sum)", paper);
  if (how == "_ponding") return say(reader, "{0} (to ponding)", paper);
  return paper;
}

std::string milestone_text(const biology::StageForecast& f, const Reader& reader) {
  const auto day = [&](biology::CalendarMoment m) { return short_date_text(biology::day_of(m), reader); };
  if (f.happened_probability > 0.99) return say(reader, "Past, around {0}", day(f.lot.median));
  if (f.lot.open_ended) return say(reader, "Not before {0}; in water this cold nobody can say when", day(f.lot.low_90));
  const auto span = [&](biology::CalendarMoment from, biology::CalendarMoment to) { return date_span_text(biology::day_of(from), biology::day_of(to), reader); };
  return say(reader, "{0}, most likely {1} (nine chances in ten: {2})", span(f.lot.low_50, f.lot.high_50), day(f.lot.median), span(f.lot.low_90, f.lot.high_90));
}

}  // namespace redd::report
