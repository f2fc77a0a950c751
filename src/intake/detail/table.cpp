#include "intake/detail/table.h"

#include <algorithm>
#include <charconv>
#include <map>

#include "intake/detail/cells.h"
#include "intake/detail/header_words.h"

namespace redd::intake::detail {
namespace {

std::string word_of_delimiter(char c) { return c == ';' ? "semicolon" : c == '\t' ? "tab" : "comma"; }
std::string number_text(std::size_t n) { return std::to_string(n); }

std::size_t filled_cells(const CsvRow& row) {
  return static_cast<std::size_t>(std::ranges::count_if(row.cells, [](const std::string& c) { return !trimmed(c).empty(); }));
}

std::optional<std::size_t> first_date_cell(const CsvRow& row) {
  for (std::size_t i = 0; i < row.cells.size(); ++i)
    if (stamp(row.cells[i])) return i;
  return std::nullopt;
}

/// Where the dates stand: the column that holds one in most rows, and the first row that has one there and looks like
/// its fellows. Lines above a table may carry dates of their own ("exported on …").
struct DatePlace {
  std::size_t first_row = 0;
  std::size_t column = 0;
  bool serial = false;
};

std::optional<DatePlace> place_of_dates(const std::vector<CsvRow>& rows) {
  std::map<std::size_t, std::size_t> rows_with_date_in;
  for (const CsvRow& row : rows)
    if (filled_cells(row) >= 2)
      if (const auto column = first_date_cell(row)) ++rows_with_date_in[*column];
  if (!rows_with_date_in.empty()) {
    const auto most = std::ranges::max_element(rows_with_date_in, {}, [](const auto& item) { return item.second; });
    // Two metadata lines ("start", "end") do not begin a table: a date row is followed by another, or is the last.
    std::optional<std::size_t> only;
    for (std::size_t i = 0; i < rows.size(); ++i) {
      if (filled_cells(rows[i]) < 2 || first_date_cell(rows[i]) != most->first) continue;
      const bool last = i + 1 == rows.size();
      if (!only) only = i;
      if (last || rows[i].cells.size() + 1 >= rows[i + 1].cells.size()) return DatePlace{i, most->first};
    }
    return DatePlace{*only, most->first};
  }
  for (std::size_t i = 0; i + 1 < rows.size() && i < 60; ++i)
    for (std::size_t column = 0; column < rows[i].cells.size(); ++column)
      if (names_date(rows[i].cells[column]))
        for (const char mark : {'.', ','})
          if (serial_stamp(Table::cell(rows[i + 1], column), mark)) return DatePlace{i + 1, column, true};
  return std::nullopt;
}

/// The last row above the data with at least two cells and no date in it.
std::optional<std::size_t> header_above(const std::vector<CsvRow>& rows, std::size_t first_row) {
  for (std::size_t i = first_row; i-- > 0;)
    if (filled_cells(rows[i]) >= 2 && !first_date_cell(rows[i]) && !time_of_day(rows[i].cells.front())) return i;
  return std::nullopt;
}

/// Whether a row holds nothing but units, as some sheets have it between header and data: "(day)", "[mg/L]", "°C", "ppm".
bool holds_units(const CsvRow& row) {
  return std::ranges::all_of(row.cells, [](const std::string& text) {
    const std::string cell = lower(trimmed(text));
    if (cell.empty()) return true;
    if ((cell.front() == '(' && cell.back() == ')') || (cell.front() == '[' && cell.back() == ']')) return true;
    for (const std::string_view unit : {"-", "c", "f", "\xC2\xB0" "c", "\xC2\xB0" "f", "ppm", "mg/l", "drops", "gotas", "\xC2\xB0" "dh", "dkh"})
      if (cell == unit) return true;
    return false;
  });
}

/// The header above a row of units, with the units behind its names.
CsvRow with_units(const CsvRow& names, const CsvRow& units) {
  CsvRow header = names;
  for (std::size_t i = 0; i < std::min(header.cells.size(), units.cells.size()); ++i) {
    const std::string_view unit = trimmed(units.cells[i]);
    if (unit.empty() || unit == "-" || trimmed(header.cells[i]).empty()) continue;
    const bool bracketed = unit.front() == '(' || unit.front() == '[';
    header.cells[i] += bracketed ? " " + std::string(unit) : " (" + std::string(unit) + ")";
  }
  return header;
}

Result<char> delimiter_of(const std::string& text, const Settings& settings, Preview& preview) {
  if (settings.delimiter) {
    const char c = *settings.delimiter == "semicolon" ? ';' : *settings.delimiter == "tab" ? '\t' : ',';
    add_guess(preview, "delimiter", *settings.delimiter, Certainty::given, "you said so");
    return c;
  }
  const auto c = likely_delimiter(text);
  if (!c) return Problem{"not_a_table", "delimiter", "The file is not a table: no line is divided by commas, semicolons or tabs. Export it as CSV."};
  add_guess(preview, "delimiter", word_of_delimiter(*c), Certainty::certain, "it divides the lines most evenly", {"comma", "semicolon", "tab"});
  return *c;
}

void conclude_decimal_mark(Table& table, const Settings& settings, Preview& preview) {
  if (settings.decimal_mark) {
    table.decimal_mark = *settings.decimal_mark == "comma" ? ',' : '.';
    return add_guess(preview, "decimal_mark", *settings.decimal_mark, Certainty::given, "you said so");
  }
  std::size_t points = 0, commas = 0;
  for (const CsvRow& row : table.rows)
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
      if (i == table.date_column || i == table.time_column || !number_of_any_mark(row.cells[i])) continue;
      const char mark = decimal_mark_in(trimmed(row.cells[i]));
      points += mark == '.';
      commas += mark == ',';
    }
  if (points == 0 && commas == 0) return;  // nothing hangs on it
  table.decimal_mark = commas > points ? ',' : '.';
  const bool mixed = points > 0 && commas > 0;
  add_guess(preview, "decimal_mark", commas > points ? "comma" : "point", mixed ? Certainty::open : Certainty::certain,
            mixed ? said("{0} numbers are written with a point and {1} with a comma", number_text(points), number_text(commas))
                  : "the numbers are written so",
            {"point", "comma"});
}

Result<bool> conclude_dates(Table& table, const Settings& settings, const Context& context, Preview& preview) {
  std::vector<Stamp> stamps;
  bool complete = true;  // every date so far stands in a cell that also names its order without doubt
  for (const CsvRow& row : table.rows)
    if (const auto s = table.stamp_of(row)) {
      complete = complete && s->widths[0] == 4;
      stamps.push_back(*s);
    }
  if (stamps.empty()) return Problem{"no_dates", "time_column", "No row has a date that can be read: write dates as 2031-02-28, or name the date column."};
  const std::string& header = table.headers[table.date_column];
  if (settings.date_order) {
    const auto order = order_named(*settings.date_order);
    if (std::ranges::none_of(stamps, [&](const Stamp& s) { return local_time_of(s, *order).has_value(); }))
      return Problem{"setting_does_not_fit", "date_order", said("No date of the file can be read as {0}.", *settings.date_order)};
    table.order = *order;
    add_guess(preview, "date_order", *settings.date_order, Certainty::given, "you said so");
    return true;
  }
  auto verdict = order_of(stamps, header, context.first_day, local_day(context.zone, context.now));
  if (!verdict) return verdict.problems();
  table.order = verdict->order;
  std::vector<std::string> others;
  for (const DateOrder order : verdict->possible) others.emplace_back(word_of(order));
  const bool sure = verdict->by_header || others.size() == 1;
  if (!(sure && complete))
    add_guess(preview, "date_order", std::string(word_of(verdict->order)),
              sure ? Certainty::certain : table.serial_dates ? Certainty::likely : Certainty::open, verdict->reason, std::move(others));
  return true;
}

void name_columns(Table& table, const CsvRow* header) {
  std::size_t width = header ? header->cells.size() : 0;
  if (!header)
    for (const CsvRow& row : table.rows) width = std::max(width, row.cells.size());
  for (std::size_t i = 0; i < width; ++i) {
    const std::string_view text = header ? trimmed(header->cells[i]) : std::string_view();
    std::string name = text.empty() ? "column " + number_text(i + 1) : std::string(text);
    // Two columns of one name could not be told apart by what the keeper says of them.
    if (std::ranges::find(table.headers, name) != table.headers.end()) name += " (column " + number_text(i + 1) + ")";
    table.headers.push_back(std::move(name));
  }
}

/// A column of times beside a column of days.
void find_time_column(Table& table) {
  const auto has_time = [](const std::optional<Stamp>& s) { return s && s->time; };
  for (const CsvRow& row : table.rows)
    if (has_time(stamp(Table::cell(row, table.date_column)))) return;
  for (std::size_t column = 0; column < table.headers.size(); ++column) {
    std::size_t times = 0;
    for (const CsvRow& row : table.rows) times += time_of_day(Table::cell(row, column)).has_value();
    if (column != table.date_column && times * 10 >= table.rows.size() * 5 && times > 0) {
      table.time_column = column;
      return;
    }
  }
}

}  // namespace

std::string_view Table::trimmed_cell(const std::string& cell) { return trimmed(cell); }

std::optional<Stamp> Table::stamp_of(const CsvRow& row) const {
  const std::string_view text = cell(row, date_column);
  auto result = serial_dates ? serial_stamp(text, decimal_mark) : stamp(text);
  if (serial_dates && !result) result = serial_stamp(text, decimal_mark == '.' ? ',' : '.');
  if (!result || !time_column) return result;
  const std::string_view time = cell(row, *time_column);
  if (time.empty()) return result;
  result->time = time_of_day(time);
  if (!result->time) return std::nullopt;
  return result;
}

void add_guess(Preview& preview, std::string key, std::string value, Certainty certainty, Phrase reason, std::vector<std::string> alternatives) {
  std::erase(alternatives, value);
  preview.guesses.push_back({std::move(key), std::move(value), certainty, std::move(reason), std::move(alternatives)});
}

void add_bad(Preview& preview, const Table& table, const CsvRow& row, std::size_t column, std::string code, Phrase sentence) {
  const bool whole_row = column >= table.headers.size();
  std::string name = whole_row ? "" : table.headers[column];
  const std::string field = "line " + number_text(row.line) + (whole_row ? "" : ", column " + name);
  preview.bad.push_back({row.line, std::move(name), whole_row ? "" : shown(Table::cell(row, column)), {std::move(code), field, std::move(sentence)}});
}

Result<Table> table_of(std::string_view bytes, const Settings& settings, const Context& context, Preview& preview) {
  auto text = decoded(bytes);
  if (!text) return text.problems();
  if (text->encoding != "UTF-8") preview.notes.push_back(said("The file is written in {0}.", text->encoding));
  Table table;
  auto delimiter = delimiter_of(text->text, settings, preview);
  if (!delimiter) return delimiter.problems();
  table.delimiter = *delimiter;
  auto all = read_csv(text->text, table.delimiter);
  if (!all) return all.problems();
  std::vector<CsvRow> rows = std::move(all).value();

  std::optional<std::size_t> header;
  if (settings.header_line) {
    for (std::size_t i = 0; i < rows.size(); ++i)
      if (number_text(rows[i].line) == *settings.header_line) header = i;
    if (!header) return Problem{"setting_does_not_fit", "header_line", said("There is no row that begins in line {0}.", shown(*settings.header_line))};
  }
  const auto place = place_of_dates(header ? std::vector<CsvRow>(rows.begin() + static_cast<std::ptrdiff_t>(*header), rows.end()) : rows);
  if (!place && !settings.time_column)
    return Problem{"no_dates", "time_column", "No row has a date that can be read: write dates as 2031-02-28, or name the date column."};
  if (!header && place) header = header_above(rows, place->first_row);
  const std::size_t first = header ? *header + 1 : place ? place->first_row : 0;
  if (header && *header > 0 && holds_units(rows[*header]) && filled_cells(rows[*header - 1]) >= filled_cells(rows[*header]) && !holds_units(rows[*header - 1])) {
    rows[*header - 1] = with_units(rows[*header - 1], rows[*header]);
    --*header;
  }
  for (std::size_t i = 0; i < (header ? *header : first); ++i)
    for (const std::string& cell : rows[i].cells)
      if (!cell.empty()) table.titles.push_back(cell);
  table.has_header = header.has_value();
  table.rows.assign(rows.begin() + static_cast<std::ptrdiff_t>(first), rows.end());
  name_columns(table, header ? &rows[*header] : nullptr);
  if (table.rows.empty() || table.headers.empty()) return Problem{"no_rows", "header_line", "There are no rows below the header."};
  if (place) {
    table.date_column = place->column;
    table.serial_dates = place->serial;
  }
  if (settings.time_column) {
    const auto named = column_named(table, *settings.time_column);
    if (!named) return Problem{"setting_does_not_fit", "time_column", said("There is no column \"{0}\".", shown(*settings.time_column))};
    table.date_column = *named;
    table.serial_dates = std::ranges::none_of(table.rows, [&](const CsvRow& r) { return stamp(Table::cell(r, *named)).has_value(); });
  }
  if (table.date_column >= table.headers.size()) return Problem{"not_a_table", "header_line", "The header has fewer cells than the rows: check that line, or say which line is the header."};
  find_time_column(table);
  conclude_decimal_mark(table, settings, preview);
  if (auto dates = conclude_dates(table, settings, context, preview); !dates) return dates.problems();
  return table;
}

std::optional<std::size_t> column_named(const Table& table, std::string_view name) {
  const auto exact = std::ranges::find(table.headers, trimmed(name));
  if (exact != table.headers.end()) return static_cast<std::size_t>(exact - table.headers.begin());
  for (std::size_t i = 0; i < table.headers.size(); ++i)
    if (!plain_key(name).empty() && plain_key(table.headers[i]) == plain_key(name)) return i;
  std::size_t number = 0;
  const auto [end, error] = std::from_chars(name.data(), name.data() + name.size(), number);
  if (error == std::errc() && end == name.data() + name.size() && number >= 1 && number <= table.headers.size()) return number - 1;
  return std::nullopt;
}

}  // namespace redd::intake::detail
