#include "ledger/detail/water_quality.h"

#include <charconv>

#include "ledger/detail/table_schema.h"
#include "records/reading.h"
#include "wire/describe.h"

namespace redd::ledger {
namespace {

using records::KitTest;
using records::Record;
using wire::Column;
using wire::Json;

template <class Enum, std::size_t N>
std::string word(const std::array<std::string_view, N>& words, Enum value) {
  return std::string(words[static_cast<std::size_t>(value)]);
}

/// Unit without what it counts, and what it counts ("as N"); hardness degrees count CaCO3 by their definition and keep their own name.
std::pair<std::string, std::string> unit_and_basis(records::TestUnit unit) {
  const std::string text = records::unit_text(unit);
  const auto as = text.find(" as ");
  return as == std::string::npos ? std::pair(text, std::string()) : std::pair(text.substr(0, as), text.substr(as + 1));
}

/// A bound in the card's own unit, free of the noise of converting there and back.
double tidy(double value) {
  char buffer[32];
  const auto cut = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::general, 9);
  std::from_chars(buffer, cut.ptr, value);
  return value;
}

void add_reading(Json& row, const records::Reading& reading, std::span<const Record> in_force) {
  row["kit"] = reading.kit, row["test"] = reading.test, row["form"] = word(wire::words::form, reading.form);
  if (reading.value) row["value"] = *reading.value;
  if (reading.upper_value) row["upper_value"] = *reading.upper_value;
  if (reading.team) row["team"] = *reading.team;
  const records::Kit* kit = records::find_kit(in_force, reading.kit);
  const KitTest* test = kit ? records::find_test(*kit, reading.test) : nullptr;
  if (!test) return;
  const auto [unit, basis] = unit_and_basis(test->unit);
  row["characteristic"] = word(wire::words::quantity, test->quantity), row["method"] = word(wire::words::method, test->method);
  row["unit"] = unit, row["kit_name"] = kit->name;
  if (!basis.empty()) row["speciation"] = basis;
  if (test->quantity != records::Quantity::ph && test->quantity != records::Quantity::oxygen) row["fraction"] = "total";
  if (const auto range = records::observed_interval(*test, reading)) {
    row["low"] = tidy(records::printed_value(test->unit, range->low));
    if (!range->open_above) row["high"] = tidy(records::printed_value(test->unit, range->high));
  }
}

}  // namespace

std::vector<Column> water_quality_columns() {
  using enum Column::Type;
  return {record_column(),
          {"at", text, "when it was read, UTC", true, {}, {}},
          {"counts", truth, "whether it counts: false when it was corrected or taken back", true, {}, {}},
          {"place", text, "tank, room or source", true, {}, {}},
          {"characteristic", text, "what was measured; empty when the kit, as it is now, has no such test", false, {}, {}},
          {"fraction", text, "total: the water was not filtered", false, {}, {}},
          {"form", text, "how it was read: a step of a card, between two steps, below the first or above the last, drops, or a number", true, {}, {}},
          {"value", number, "what was read, as printed on the card: the step, the lower of two steps, the number of drops, or the number; in the column unit, drops excepted", false, {}, {}},
          {"upper_value", number, "the upper of two steps, in the column unit", false, {}, {}},
          {"low", number, "low end of the range that the reading stands for, in the column unit; the reader's error is not in it", false, {}, {}},
          {"high", number, "high end of that range; empty: nothing is known above", false, {}, {}},
          {"unit", text, "unit printed on the card", false, {}, {}},
          {"speciation", text, "what the unit counts, as the card says: as N, as NH4, as CaCO3", false, {}, {}},
          {"method", text, "colour_steps, drop_count or meter", false, {}, {}},
          {"kit", text, "key of the kit", false, {}, {}},
          {"test", text, "key of the test", false, {}, {}},
          {"kit_name", text, "what the keeper calls the kit", false, {}, {}},
          {"team", text, "team label of a replicate", false, {}, {}}};
}

std::vector<Json> water_quality_rows(std::span<const Record> records) {
  const auto in_force = records::effective(records, Instant::max());
  const auto standing = records::standings(records);
  std::vector<Json> rows;
  for (std::size_t i = 0; i < records.size(); ++i) {
    Json row{{"record", records[i].id}, {"at", rfc3339_from_instant(records[i].entry.at)}, {"counts", standing[i].counts()}};
    if (const auto* reading = std::get_if<records::Reading>(&records[i].entry.body)) {
      row["place"] = "tank";
      add_reading(row, *reading, in_force);
    } else if (const auto* read = std::get_if<records::TemperatureReading>(&records[i].entry.body)) {
      const double c = read->temperature.c();
      row["place"] = word(wire::words::place, read->place), row["characteristic"] = "temperature", row["form"] = "number";
      row["value"] = c, row["unit"] = "°C";
    } else {
      continue;
    }
    rows.push_back(std::move(row));
  }
  return rows;
}

}  // namespace redd::ledger
