// A proposed water change as JSON and text; declared in water_plan_view.h.
#include <cctype>
#include <cmath>

#include "report/detail/water_words.h"
#include "report/water_plan_view.h"
#include "report/wrapped.h"

namespace redd::report {
namespace {

using planning::TriedQuantity;
using planning::TriedRow;
using wire::Json;

ShownQuantity shown_row(const TriedRow& row, const season::DayView& day, const Reader& reader) {
  using advice::WaterKey;
  switch (row.quantity) {
    case TriedQuantity::un_ionized_ammonia: return shown_quantity(WaterKey::un_ionized_ammonia, day, reader);
    case TriedQuantity::total_ammonia: return shown_quantity(WaterKey::total_ammonia, day, reader);
    case TriedQuantity::nitrite: return shown_quantity(WaterKey::nitrite, day, reader);
    case TriedQuantity::nitrate: return shown_quantity(WaterKey::nitrate, day, reader);
    case TriedQuantity::ph: return shown_quantity(WaterKey::ph, day, reader);
    case TriedQuantity::alkalinity: return shown_quantity(WaterKey::alkalinity, day, reader);
    case TriedQuantity::hardness: return shown_quantity(WaterKey::hardness, day, reader);
    case TriedQuantity::temperature: return shown_quantity(WaterKey::temperature, day, reader);
    case TriedQuantity::gas: return {"gas", say(reader, "Dissolved gas, of balance"), "%", 100.0, 0};
    case TriedQuantity::chlorine: break;
  }
  return {"chlorine", say(reader, "Chlorine"), "mg/L", 1.0, 2};
}

std::string range_text(const ShownQuantity& shown, const Estimate<double>& e, const Reader& reader) { return value_text(shown, e.low, e.high, false, reader); }

Json range_json(const ShownQuantity& shown, const Estimate<double>& e) {
  return {{"low", e.low * shown.per_canonical}, {"mid", e.mid * shown.per_canonical}, {"high", e.high * shown.per_canonical}};
}

Reader in_zone(const Reader& given, const season::DayView& day) {
  Reader reader = given;
  reader.zone = day.zone;
  return reader;
}

Sentence headline(const planning::TriedWater& t) {
  if (!t.warnings.empty()) return {"Not like this: see what speaks against it."};
  if (t.without.broken_probability - t.with.broken_probability > 0.02)
    return {"It helps: {0} that a limit is broken by {1}, instead of {2} without it.", {Chance{t.with.broken_probability}, t.last, Chance{t.without.broken_probability}}};
  return {"Nothing that is known speaks against it. It hardly changes the chance that a limit is broken by {0} ({1}).", {t.last, Chance{t.with.broken_probability}}};
}

}  // namespace

Json tried_water_json(const season::WaterTrial& trial, const Reader& given) {
  const Reader reader = in_zone(given, trial.day);
  const auto& t = trial.tried;
  Json out{{"sentence", text_of(headline(t), reader)}, {"warnings", texts_json(t.warnings, reader)}, {"notes", texts_json(t.notes, reader)}, {"day", iso_from_date(t.day)},
           {"last", iso_from_date(t.last)}, {"change", change_json(t.change, t.source, trial.day, reader)}, {"rows", Json::array()},
           {"broken_probability", t.with.broken_probability}, {"broken_text", chance_text(t.with.broken_probability, reader)}, {"without_broken_probability", t.without.broken_probability},
           {"without_broken_text", chance_text(t.without.broken_probability, reader)}};
  for (const TriedRow& row : t.rows) {
    const ShownQuantity shown = shown_row(row, trial.day, reader);
    out["rows"].push_back({{"key", planning::tried_key(row.quantity)}, {"name", shown.name}, {"unit_text", shown.unit_text}, {"before", range_json(shown, row.before)}, {"after", range_json(shown, row.after)},
                           {"next_day", row.next_day ? range_json(shown, *row.next_day) : Json(nullptr)}, {"before_text", range_text(shown, row.before, reader)}, {"after_text", range_text(shown, row.after, reader)},
                           {"next_day_text", row.next_day ? Json(range_text(shown, *row.next_day, reader)) : Json(nullptr)}});
  }
  return out;
}

std::string tried_water_text(const season::WaterTrial& trial, const Reader& given, int width) {
  const Reader reader = in_zone(given, trial.day);
  const auto& t = trial.tried;
  std::string out = wrapped(text_of({"{0} of the tank, {1}, of {2}. Nothing is kept.", {Share{t.change.fraction}, t.change.volume, Word{t.source.name}}}, reader), width, "", "");
  out += wrapped(text_of(headline(t), reader), width, "", "");
  for (const Sentence& s : t.warnings) out += wrapped(text_of(s, reader), width, "  ! ", "    ");
  out += "\n" + say(reader, "Before, just after, the day after") + "\n";
  for (const TriedRow& row : t.rows) {
    const ShownQuantity shown = shown_row(row, trial.day, reader);
    out += wrapped(shown.name + ": " + range_text(shown, row.before, reader) + "; " + range_text(shown, row.after, reader) + (row.next_day ? "; " + range_text(shown, *row.next_day, reader) : ""), width, "  ", "    ");
  }
  out += wrapped(text_of({"Chance that a limit is broken by {0}: {1}, without it {2}.", {t.last, Chance{t.with.broken_probability}, Chance{t.without.broken_probability}}}, reader), width, "\n  ", "  ");
  out += "\n" + say(reader, "How") + "\n";
  for (const Sentence& s : change_steps(t.change, t.source, trial.day.belief)) out += wrapped(text_of(s, reader), width, "  - ", "    ");
  if (!t.notes.empty()) out += "\n" + say(reader, "To know") + "\n";
  for (const Sentence& s : t.notes) out += wrapped(text_of(s, reader), width, "  - ", "    ");
  return out;
}

}  // namespace redd::report
