// Test readings in tables: one a row, or a row a day with a column a test.

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "intake/detail/cells.h"
#include "intake/detail/kinds.h"
#include "intake/detail/observation.h"
#include "intake/detail/timeline.h"
#include "quantities/phrase_parts.h"
#include "quantities/verbatim.h"
#include "records/reading.h"
#include "wire/codec.h"

namespace redd::intake::detail {
namespace {

using namespace std::chrono;
using records::TemperatureReading;

/// What one column holds.
struct Column {
  enum class Holds { nothing, test, temperature, note, team, test_name, value, upper_value, unit, kit_name } holds = Holds::nothing;
  std::optional<TestName> test{};
  char unit = 'c';
};
using Holds = Column::Holds;

bool is_one_of(const std::string& key, std::initializer_list<std::string_view> words) { return std::ranges::find(words, key) != words.end(); }

bool is_temperature_name(std::string_view name) {
  return is_one_of(plain_key(without_unit(name)), {"temp", "temperature", "water_temp", "water_temperature", "tank_temperature", "temperature_c", "temperature_f", "temp_c", "temp_f"});
}

Result<char> temperature_unit(const Table& table, std::size_t column, const Settings& settings, Preview& preview) {
  if (settings.unit) {
    add_guess(preview, "unit", *settings.unit, Certainty::given, "you said so");
    return settings.unit->front();
  }
  if (const auto unit = stated_unit(table.headers[column])) {
    add_guess(preview, "unit", std::string(1, *unit), Certainty::certain, "the header of the column says so", {"c", "f"});
    return *unit;
  }
  std::vector<double> values;
  for (const CsvRow& row : table.rows)
    if (const auto v = number(Table::cell(row, column), table.decimal_mark)) values.push_back(*v);
  std::ranges::sort(values);
  const bool warm = !values.empty() && values[values.size() / 2] > 30;
  add_guess(preview, "unit", warm ? "f" : "c", Certainty::open, "the file names no unit of temperature", {"c", "f"});
  return warm ? 'f' : 'c';
}

/// Everything that is the same for both shapes of table: when the rows were, who measured, what may be kept.
class Readings {
 public:
  Readings(const Table& table, const Settings& settings, const Context& context, Preview& preview)
      : table_(table), settings_(settings), context_(context), preview_(preview) {}

  /// Settles time zone, time of day and drop cells; finds the instant of every row.
  Result<bool> prepare() {
    bool any_without_time = false;
    std::vector<RowTime> times;
    const auto noon = settings_.time_of_day ? time_of_day(*settings_.time_of_day) : hours(12);
    for (std::size_t i = 0; i < table_.rows.size(); ++i) {
      const CsvRow& row = table_.rows[i];
      const auto stamp = table_.stamp_of(row);
      const auto local = stamp ? local_time_of(*stamp, table_.order) : std::nullopt;
      if (!local) {
        add_bad(preview_, table_, row, table_.date_column, "not_a_time", said("\"{0}\" is not a day and time that exists; write 2031-02-28 07:50.", shown(Table::cell(row, table_.date_column))));
        continue;
      }
      any_without_time = any_without_time || !stamp->time;
      times.push_back({i, *local + (stamp->time ? seconds(0) : *noon), stamp->offset});
    }
    if (any_without_time)
      add_guess(preview_, "time_of_day", settings_.time_of_day.value_or("12:00"), settings_.time_of_day ? Certainty::given : Certainty::likely,
                settings_.time_of_day ? "you said so" : "rows without a time of day are put at noon");
    const auto placed = placed_in_time(times, false, table_, settings_, context_, preview_);
    if (!placed) return placed.problems();
    const auto window = window_of(settings_, context_.zone);
    if (!window) return window.problems();
    std::size_t outside = 0;
    for (std::size_t i = 0; i < times.size(); ++i) {
      const CsvRow& row = table_.rows[times[i].row];
      const auto* problem = std::get_if<Problem>(&(*placed)[i]);
      const Instant at = problem ? Instant{} : std::get<Instant>((*placed)[i]);
      if (problem) add_bad(preview_, table_, row, table_.date_column, problem->code, said("{0}: {1}", shown(Table::cell(row, table_.date_column)), problem->sentence));
      else if (!window->holds(at)) ++outside;
      else if (at > context_.now + hours(24)) add_bad(preview_, table_, row, table_.date_column, "in_the_future", "This day is still to come: check the date and its order.");
      else if (local_day(context_.zone, at) < context_.first_day) add_bad(preview_, table_, row, table_.date_column, "before_season", said("This day is before the season began ({0}): check the date and its order.", iso_from_date(context_.first_day)));
      else at_[times[i].row] = at;
    }
    if (outside > 0) preview_.notes.push_back(said("{0, plural, one {# row} other {# rows}} outside the asked-for time left out.", outside));
    return true;
  }

  /// When the row was, if it may be kept at all.
  std::optional<Instant> at(std::size_t row) const {
    const auto found = at_.find(row);
    return found == at_.end() ? std::nullopt : std::optional(found->second);
  }

  /// Says once what a number in a drop test means, when that matters.
  void settle_drops(const TestName& name) {
    if (name.test->method != records::Method::drop_count || name.test->per_drop == 1.0 || drops_settled_) return;
    drops_settled_ = true;
    add_guess(preview_, "drop_cells", settings_.drop_cells.value_or("drops"), settings_.drop_cells ? Certainty::given : Certainty::open,
              settings_.drop_cells ? "you said so" : said("a number for \"{0}\" may be drops counted or the result they stand for", verbatim(name.test->key)), {"drops", "value"});
  }

  void add_reading(const CsvRow& row, std::size_t column, Instant at, std::string_view cell, const TestName& name, const std::string& team) {
    if (is_missing(cell)) return;
    settle_drops(name);
    auto reading = reading_of(cell, name, table_.decimal_mark, settings_.drop_cells == "value");
    if (!reading) {
      for (const Problem& p : reading.problems()) add_bad(preview_, table_, row, column, p.code, p.sentence);
      return;
    }
    if (!team.empty()) reading.value().team = team;
    add(row, at, said("{0}: {1}", verbatim(name.test->key), records::reading_text(*name.test, *reading)), *reading);
  }

  void add_temperature(const CsvRow& row, std::size_t column, Instant at, char unit) {
    const std::string_view cell = Table::cell(row, column);
    if (is_missing(cell)) return;
    const auto value = number(cell, table_.decimal_mark);
    if (!value) return add_bad(preview_, table_, row, column, "not_a_number", said("\"{0}\" is not a number.", shown(cell)));
    const Temperature t = unit == 'f' ? Temperature::from_f(*value) : Temperature::from_c(*value);
    if (t.c() < -1 || t.c() > 40) return add_bad(preview_, table_, row, column, "out_of_range", said("{0} can't be the tank's temperature: check the unit.", shown(cell)));
    add(row, at, said("temperature: {0}", t), TemperatureReading{t, TemperatureReading::Place::tank});
  }

  void add_note(const CsvRow& row, std::size_t column, Instant at) {
    std::string text = without_guard(Table::cell(row, column));
    if (is_missing(text)) return;
    std::ranges::replace(text, '\r', ' ');
    if (text.size() > 2000) return add_bad(preview_, table_, row, column, "too_long", "The note is longer than 2,000 characters: shorten it.");
    add(row, at, said("note: {0}", shown(text)), records::Note{text});
  }

  /// A label of at most 64 characters; longer ones are a bad cell.
  std::optional<std::string> label(const CsvRow& row, std::optional<std::size_t> column) {
    if (!column) return std::string();
    std::string text = without_guard(Table::cell(row, *column));
    if (text.size() > 64) {
      add_bad(preview_, table_, row, *column, "too_long", "The label is longer than 64 characters: use a short one.");
      return std::nullopt;
    }
    return text;
  }

  void finish() {
    if (repeated_ > 0)
      preview_.notes.push_back(said("{0, plural, one {# reading is in the file twice, same time and result, and counts once} other {# readings are in the file twice, same time and result, and count once}}; replicates need a team column.", repeated_));
    std::ranges::stable_sort(preview_.entries, {}, &records::Entry::at);
  }

 private:
  void add(const CsvRow& row, Instant at, Phrase text, records::Body body) {
    const std::string content = std::string(records::kind_name(body)) + "|" + rfc3339_from_instant(at) + "|" + wire::json_from_body(body);
    const std::string key = "readings_csv/" + stable_hash(content);
    if (!keys_.insert(key).second) {
      ++repeated_;
      return;
    }
    preview_.good.push_back({row.line, at, std::move(text)});
    preview_.entries.push_back({at, settings_.author, {}, key, std::move(body)});
  }

  const Table& table_;
  const Settings& settings_;
  const Context& context_;
  Preview& preview_;
  std::map<std::size_t, Instant> at_;
  std::set<std::string> keys_;
  std::size_t repeated_ = 0;
  bool drops_settled_ = false;
};

Column special_column(std::string_view header) {
  const std::string key = plain_key(without_unit(header));
  if (is_temperature_name(header)) return {Holds::temperature};
  if (is_one_of(key, {"note", "notes", "remark", "remarks", "comment", "comments"})) return {Holds::note};
  if (is_one_of(key, {"team", "group", "table"})) return {Holds::team};
  return {};
}

Holds long_column(std::string_view header) {
  const std::string key = plain_key(without_unit(header));
  if (is_one_of(key, {"test", "quantity", "parameter", "what"})) return Holds::test_name;
  if (is_one_of(key, {"value", "reading", "result"})) return Holds::value;
  if (is_one_of(key, {"upper_value", "upper"})) return Holds::upper_value;
  if (is_one_of(key, {"unit", "units"})) return Holds::unit;
  if (key == "kit") return Holds::kit_name;
  return special_column(header).holds;
}

Problem unit_differs(const TestName& name, records::TestUnit stated) {
  return {"other_unit", "", said("the file gives \"{0}\" in {1}, the kit in {2}: they are not the same number. Convert the column, or choose the test whose card has that unit.", verbatim(name.test->key), records::unit_text(stated), records::unit_text(name.test->unit))};
}

/// What the column means, by the keeper's word or by its header. Adds guesses; a wrong word of the keeper is a problem.
Result<Column> column_of(const Table& table, std::size_t i, const Settings& settings, const Context& context, Preview& preview) {
  const std::string& header = table.headers[i];
  const std::string key = "columns/" + header;
  const std::string kit = settings.kit.value_or("");
  const auto named = settings.columns.find(header);
  const std::string name = named == settings.columns.end() ? header : named->second;
  const Certainty as_said = Certainty::given;
  Column column = name == "ignore" ? Column{} : name == "temperature" ? Column{Holds::temperature} : name == "note" ? Column{Holds::note} : name == "team" ? Column{Holds::team} : Column{};
  if (named != settings.columns.end() && (name == "ignore" || column.holds != Holds::nothing)) {
    add_guess(preview, key, name, as_said, "you said so");
    return column;
  }
  const std::vector<TestName> meant = tests_meant(name, context.kits, kit);
  std::vector<std::string> others;
  for (const TestName& test : meant) others.push_back(test.text());
  if (named != settings.columns.end()) {
    if (meant.size() != 1) return Problem{"setting_does_not_fit", key, said("\"{0}\" is not one test of this season's kits; say kit/test, temperature, note, team or ignore.", shown(name))};
    add_guess(preview, key, meant.front().text(), as_said, "you said so");
  } else if (!meant.empty()) {
    others.emplace_back("ignore");
    add_guess(preview, key, meant.front().text(), meant.size() > 1 ? Certainty::open : Certainty::likely,
              meant.size() > 1 ? "more than one test measures this" : "its header names what this test measures", others);
  } else {
    column = special_column(header);
    const char* word = column.holds == Holds::temperature ? "temperature" : column.holds == Holds::note ? "note" : column.holds == Holds::team ? "team" : "ignore";
    add_guess(preview, key, word, column.holds == Holds::nothing ? Certainty::likely : Certainty::certain,
              column.holds == Holds::nothing ? "its header is not a test of this season's kits, so it is left out" : "its header says so");
    return column;
  }
  column.holds = Holds::test;
  column.test = meant.front();
  if (const auto stated = unit_stated(header, column.test->test->quantity); stated && *stated != column.test->test->unit) {
    Problem problem = unit_differs(*column.test, *stated);
    problem.field = key;
    problem.sentence = said("Column \"{0}\": {1}", verbatim(header), problem.sentence);
    return problem;
  }
  return column;
}

std::optional<std::size_t> column_holding(const Table& table, Holds holds) {
  for (std::size_t i = 0; i < table.headers.size(); ++i)
    if (i != table.date_column && i != table.time_column && long_column(table.headers[i]) == holds) return i;
  return std::nullopt;
}

bool has_surplus_cells(const Table& table, const CsvRow& row) {
  return row.cells.size() > table.headers.size() &&
         std::ranges::any_of(row.cells.begin() + static_cast<std::ptrdiff_t>(table.headers.size()), row.cells.end(), [](const std::string& c) { return !trimmed(c).empty(); });
}

void refuse_surplus(const Table& table, const CsvRow& row, Preview& preview) {
  add_bad(preview, table, row, table.headers.size(), "too_many_cells",
          said("The row has {0} cells where the header has {1}{2}", row.cells.size(), table.headers.size(), table.delimiter == ',' ? " (a decimal comma in a file divided by commas does that: export it with semicolons)." : "."));
}

}  // namespace

bool is_long(const Table& table) { return column_holding(table, Holds::test_name) && column_holding(table, Holds::value); }

bool has_test_columns(const Table& table, const Settings& settings, const Context& context) {
  for (std::size_t i = 0; i < table.headers.size(); ++i) {
    const auto asked = settings.columns.find(table.headers[i]);
    const std::string& name = asked == settings.columns.end() ? table.headers[i] : asked->second;
    if (i != table.date_column && i != table.time_column && !tests_meant(name, context.kits, settings.kit.value_or("")).empty()) return true;
  }
  return false;
}

Result<bool> read_readings_wide(const Table& table, const Settings& settings, const Context& context, Preview& preview) {
  std::vector<Column> columns(table.headers.size());
  std::optional<std::size_t> team_column;
  Problems problems;
  for (std::size_t i = 0; i < table.headers.size(); ++i) {
    if (i == table.date_column || i == table.time_column) continue;
    auto column = column_of(table, i, settings, context, preview);
    if (!column) {
      problems.insert(problems.end(), column.problems().begin(), column.problems().end());
      continue;
    }
    columns[i] = *column;
    if (columns[i].holds == Holds::team) team_column = i;
    if (columns[i].holds == Holds::temperature) {
      const auto unit = temperature_unit(table, i, settings, preview);
      columns[i].unit = *unit;
    }
  }
  if (!problems.empty()) return problems;
  Readings readings(table, settings, context, preview);
  if (auto ready = readings.prepare(); !ready) return ready;
  for (std::size_t r = 0; r < table.rows.size(); ++r) {
    const CsvRow& row = table.rows[r];
    const auto at = readings.at(r);
    if (!at) continue;
    if (has_surplus_cells(table, row)) {
      refuse_surplus(table, row, preview);
      continue;
    }
    const auto team = readings.label(row, team_column);
    if (!team) continue;
    for (std::size_t i = 0; i < columns.size(); ++i) {
      if (columns[i].holds == Holds::test) readings.add_reading(row, i, *at, Table::cell(row, i), *columns[i].test, *team);
      if (columns[i].holds == Holds::temperature) readings.add_temperature(row, i, *at, columns[i].unit);
      if (columns[i].holds == Holds::note) readings.add_note(row, i, *at);
    }
  }
  readings.finish();
  return true;
}

Result<bool> read_readings_long(const Table& table, const Settings& settings, const Context& context, Preview& preview) {
  const auto test_column = column_holding(table, Holds::test_name), value_column = column_holding(table, Holds::value);
  if (!test_column || !value_column) return Problem{"not_a_table", "kind", "A file with one reading a row needs a column \"test\" and a column \"value\"."};
  const auto upper_column = column_holding(table, Holds::upper_value), unit_column = column_holding(table, Holds::unit);
  const auto kit_column = column_holding(table, Holds::kit_name), team_column = column_holding(table, Holds::team), note_column = column_holding(table, Holds::note);
  Readings readings(table, settings, context, preview);
  if (auto ready = readings.prepare(); !ready) return ready;
  std::optional<char> unit;
  std::set<std::string> settled;
  for (std::size_t r = 0; r < table.rows.size(); ++r) {
    const CsvRow& row = table.rows[r];
    const auto at = readings.at(r);
    if (!at) continue;
    if (has_surplus_cells(table, row)) {
      refuse_surplus(table, row, preview);
      continue;
    }
    const auto team = readings.label(row, team_column);
    if (!team) continue;
    if (note_column) readings.add_note(row, *note_column, *at);
    const std::string name = without_guard(Table::cell(row, *test_column));
    if (is_temperature_name(name)) {
      const std::string stated = lower(unit_column ? Table::cell(row, *unit_column) : std::string_view());
      const auto own = !stated.empty() ? (stated == "c" || stated == "f" ? std::optional(stated[0]) : stated_unit(stated)) : stated_unit(name);
      if (!own && !unit) unit = *temperature_unit(table, *value_column, settings, preview);
      readings.add_temperature(row, *value_column, *at, own.value_or(unit.value_or('c')));
      continue;
    }
    const auto asked = settings.columns.find(name);
    if (asked != settings.columns.end() && asked->second == "ignore") continue;
    const std::string kit(kit_column ? Table::cell(row, *kit_column) : std::string_view());
    const auto meant = tests_meant(asked == settings.columns.end() ? name : asked->second, context.kits, kit.empty() ? settings.kit.value_or("") : kit);
    if (meant.empty()) {
      std::string known;
      for (const auto& k : context.kits)
        for (const auto& t : k.tests) known += (known.empty() ? "" : ", ") + k.key + "/" + t.key;
      add_bad(preview, table, row, *test_column, "unknown_test", said("\"{0}\" is not a test of this season's kits{1}", shown(name), known.empty() ? "; add your kit first." : said("; they are: {0}.", verbatim(known))));
      continue;
    }
    if (meant.size() > 1 && settled.insert(name).second) {
      std::vector<std::string> others;
      for (const TestName& test : meant) others.push_back(test.text());
      add_guess(preview, "columns/" + name, meant.front().text(), Certainty::open, "more than one test measures this", std::move(others));
    }
    if (unit_column)
      if (const auto stated = unit_stated(Table::cell(row, *unit_column), meant.front().test->quantity); stated && *stated != meant.front().test->unit) {
        add_bad(preview, table, row, *unit_column, "other_unit", said("Here {0}", unit_differs(meant.front(), *stated).sentence));
        continue;
      }
    std::string cell(Table::cell(row, *value_column));
    if (upper_column && !is_missing(Table::cell(row, *upper_column))) cell += ".." + std::string(Table::cell(row, *upper_column));
    readings.add_reading(row, *value_column, *at, cell, meant.front(), *team);
  }
  readings.finish();
  return true;
}

}  // namespace redd::intake::detail
