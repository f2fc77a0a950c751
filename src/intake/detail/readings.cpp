// Test readings in tables: one a row, or a row a day with a column a test.

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "intake/detail/cells.h"
#include "intake/detail/columns.h"
#include "intake/detail/header_words.h"
#include "intake/detail/kinds.h"
#include "intake/detail/observation.h"
#include "intake/detail/own_numbers.h"
#include "intake/detail/timeline.h"
#include "quantities/phrase_parts.h"
#include "quantities/verbatim.h"
#include "records/reading.h"
#include "wire/codec.h"

namespace redd::intake::detail {
namespace {

using namespace std::chrono;
using records::Count;
using records::TemperatureReading;

using Holds = Column::Holds;

bool is_one_of(const std::string& key, std::initializer_list<std::string_view> words) { return std::ranges::find(words, key) != words.end(); }

bool has_surplus_cells(const Table& table, const CsvRow& row) {
  return row.cells.size() > table.headers.size() &&
         std::ranges::any_of(row.cells.begin() + static_cast<std::ptrdiff_t>(table.headers.size()), row.cells.end(), [](const std::string& c) { return !trimmed(c).empty(); });
}

/// One cell of a column of counts.
struct Counted {
  const CsvRow* row;
  Instant at;
  int count;
};

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
    if (is_own_numbers(*name.kit)) own_kits_.insert(name.kit);
    const Phrase label = is_own_numbers(*name.kit) ? Phrase(records::quantity_text(name.test->quantity)) : verbatim(name.test->key);
    add(row, at, said("{0}: {1}", label, records::reading_text(*name.test, *reading)), *reading);
  }

  void add_temperature(const CsvRow& row, std::size_t column, Instant at, char unit) {
    const std::string_view cell = Table::cell(row, column);
    if (is_missing(cell)) return;
    const MarkedTemperature marked = marked_temperature(cell, table_.decimal_mark);
    if (!marked.value) return add_bad(preview_, table_, row, column, "not_a_number", said("\"{0}\" is not a number.", shown(cell)));
    const Temperature t = marked.unit.value_or(unit) == 'f' ? Temperature::from_f(*marked.value) : Temperature::from_c(*marked.value);
    if (is_sensor_fault(*marked.value, marked.unit.value_or(unit))) return add_bad(preview_, table_, row, column, "sensor_fault", said("{0} is what a sensor writes when it fails, not a temperature.", shown(cell)));
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

  /// Animals counted in one column. Numbers of dead that never fall may each be new ones or all so far: the two differ, so it is asked.
  void add_counts(std::size_t column, const Column& holds);

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
    add_own_kits();
  }

 private:
  bool dead_are_totals(const std::vector<Counted>& counts, bool header_says_so);

  /// Kits that the numbers of an older log stand on, before the readings on them.
  void add_own_kits() {
    std::vector<records::Entry> kits;
    for (const records::Kit& kit : own_number_kits())
      if (own_kits_.contains(&kit) && std::ranges::find(context_.kits, kit.key, &records::Kit::key) == context_.kits.end())
        kits.push_back({preview_.entries.front().at, settings_.author, {}, "readings_csv_kit/" + kit.key, kit});
    preview_.own_kits = kits.size();
    preview_.entries.insert(preview_.entries.begin(), kits.begin(), kits.end());
    if (!own_kits_.empty())
      preview_.notes.push_back("Numbers whose kit is not known are kept with a wide doubt (assumed). If you still have the kit's card, add it as a kit first and import the file then.");
  }

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
  std::set<const records::Kit*> own_kits_;
  std::size_t repeated_ = 0;
  bool drops_settled_ = false, dead_settled_ = false;
};

/// What the numbers of dead animals would add up to if each were new, against the last one: the same when nothing hangs on it.
bool may_be_running_total(const std::vector<Counted>& counts) {
  long long sum = 0;
  for (std::size_t i = 0; i < counts.size(); ++i) {
    if (i > 0 && counts[i].count < counts[i - 1].count) return false;
    sum += counts[i].count;
  }
  return !counts.empty() && sum != counts.back().count;
}

void Readings::add_counts(std::size_t column, const Column& holds) {
  const Count::What what = *holds.counted;
  std::vector<Counted> counts;
  for (std::size_t r = 0; r < table_.rows.size(); ++r) {
    const CsvRow& row = table_.rows[r];
    const std::string_view cell = Table::cell(row, column);
    const auto when = at(r);
    if (!when || is_missing(cell) || has_surplus_cells(table_, row)) continue;
    const auto value = number(cell, table_.decimal_mark);
    if (!value || *value != std::floor(*value) || *value < 0 || *value > 1'000'000) add_bad(preview_, table_, row, column, "not_a_count", said("\"{0}\" is not a number of animals: write a whole number alone.", shown(cell)));
    else counts.push_back({&row, *when, static_cast<int>(*value)});
  }
  std::ranges::stable_sort(counts, {}, &Counted::at);
  const bool totals = records::are_dead(what) && dead_are_totals(counts, holds.running_total);
  int before = 0;
  for (const Counted& one : counts) {
    const Phrase label = count_label(what);
    if (!totals) {
      add(*one.row, one.at, said("{0}: {1}", label, one.count), Count{what, one.count, Count::How::counted, {}});
      continue;
    }
    if (one.count < before) {
      add_bad(preview_, table_, *one.row, column, "total_falls", said("{0} so far is less than the {1} before: numbers of all so far can't fall.", one.count, before));
      continue;
    }
    add(*one.row, one.at, said("{0}: {1} ({2} so far)", label, one.count - before, one.count), Count{what, one.count - before, Count::How::counted, {}});
    before = one.count;
  }
}

bool Readings::dead_are_totals(const std::vector<Counted>& counts, bool header_says_so) {
  if (!may_be_running_total(counts) && !settings_.dead_counts && !header_says_so) return false;
  const std::vector<std::string> both{"new", "total"};
  if (!dead_settled_) {
    dead_settled_ = true;
    if (settings_.dead_counts) add_guess(preview_, "dead_counts", *settings_.dead_counts, Certainty::given, "you said so");
    else if (header_says_so) add_guess(preview_, "dead_counts", "total", Certainty::likely, "its header says so", both);
    else add_guess(preview_, "dead_counts", "new", Certainty::open, "the numbers of dead never fall: each may be the new ones of that day, or all so far", both);
  }
  return settings_.dead_counts ? *settings_.dead_counts == "total" : header_says_so;
}

Holds long_column(std::string_view header) {
  const std::string key = plain_key(without_unit(header));
  if (is_one_of(key, {"test", "quantity", "parameter", "what", "prueba", "parametro", "analisis"})) return Holds::test_name;
  if (is_one_of(key, {"value", "reading", "result", "valor", "lectura", "resultado"})) return Holds::value;
  if (is_one_of(key, {"upper_value", "upper"})) return Holds::upper_value;
  if (is_one_of(key, {"unit", "units", "unidad", "unidades"})) return Holds::unit;
  if (key == "kit") return Holds::kit_name;
  return plain_column(header).holds;
}

Problem unit_differs(const TestName& name, records::TestUnit stated) {
  return {"other_unit", "", said("the file gives \"{0}\" in {1}, the kit in {2}: they are not the same number. Convert the column, or choose the test whose card has that unit.", verbatim(name.test->key), records::unit_text(stated), records::unit_text(name.test->unit))};
}

std::optional<std::size_t> column_holding(const Table& table, Holds holds) {
  for (std::size_t i = 0; i < table.headers.size(); ++i)
    if (i != table.date_column && i != table.time_column && long_column(table.headers[i]) == holds) return i;
  return std::nullopt;
}

void refuse_surplus(const Table& table, const CsvRow& row, Preview& preview) {
  add_bad(preview, table, row, table.headers.size(), "too_many_cells",
          said("The row has {0} cells where the header has {1}{2}", row.cells.size(), table.headers.size(), table.delimiter == ',' ? " (a decimal comma in a file divided by commas does that: export it with semicolons)." : "."));
}

}  // namespace

bool is_long(const Table& table) { return column_holding(table, Holds::test_name) && column_holding(table, Holds::value); }

bool has_test_columns(const Table& table, const Settings& settings, const Context& context) {
  // A log kept by hand has a row a week or a day; a device that also measures pH writes thousands, and is read for its temperatures.
  constexpr std::size_t most_rows_by_hand = 2000;
  for (std::size_t i = 0; i < table.headers.size(); ++i) {
    if (i == table.date_column || i == table.time_column) continue;
    const auto asked = settings.columns.find(table.headers[i]);
    const std::string& name = asked == settings.columns.end() ? table.headers[i] : asked->second;
    if (!tests_meant(name, context.kits, settings.kit.value_or("")).empty() || own_numbers_named(name)) return true;
    if (table.rows.size() <= most_rows_by_hand && (quantity_named(name) || count_named(name))) return true;
  }
  return false;
}

Result<bool> read_readings_wide(const Table& table, const Settings& settings, const Context& context, Preview& preview) {
  const auto columns = columns_of(table, settings, context, preview);
  if (!columns) return columns.problems();
  std::optional<std::size_t> team_column;
  for (std::size_t i = 0; i < columns->size(); ++i)
    if ((*columns)[i].holds == Holds::team) team_column = i;
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
    for (std::size_t i = 0; i < columns->size(); ++i) {
      const Column& column = (*columns)[i];
      if (column.holds == Holds::test) readings.add_reading(row, i, *at, Table::cell(row, i), *column.test, *team);
      if (column.holds == Holds::temperature) readings.add_temperature(row, i, *at, column.unit);
      if (column.holds == Holds::note) readings.add_note(row, i, *at);
    }
  }
  for (std::size_t i = 0; i < columns->size(); ++i)
    if ((*columns)[i].holds == Holds::count) readings.add_counts(i, (*columns)[i]);
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
    if (names_temperature(name)) {
      const std::string stated = lower(unit_column ? Table::cell(row, *unit_column) : std::string_view());
      const auto own = !stated.empty() ? (stated == "c" || stated == "f" ? std::optional(stated[0]) : stated_unit(stated)) : stated_unit(name);
      if (!own && !unit) unit = temperature_unit(table, *value_column, settings, preview);
      readings.add_temperature(row, *value_column, *at, own.value_or(unit.value_or('c')));
      continue;
    }
    const auto asked = settings.columns.find(name);
    if (asked != settings.columns.end() && asked->second == "ignore") continue;
    const std::string kit(kit_column ? Table::cell(row, *kit_column) : std::string_view());
    const std::string unit_text = unit_column ? std::string(Table::cell(row, *unit_column)) : name;
    const auto quantity = quantity_named(name);
    const auto meant = tests_or_own_numbers(asked == settings.columns.end() ? name : asked->second, quantity ? unit_stated(unit_text, *quantity) : std::nullopt, context, kit.empty() ? settings.kit.value_or("") : kit);
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
      add_guess(preview, "columns/" + name, meant.front().text(), Certainty::open, is_own_numbers(*meant.front().kit) ? "no kit of this season measures this, and the header does not say what the numbers count" : "more than one test measures this", std::move(others));
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
