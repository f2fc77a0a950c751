#pragma once
// A foreign file as a table with a header: where the table starts, which column holds the dates, how its numbers are
// written. What was concluded, and how surely, is collected as guesses for the keeper.

#include <string>
#include <vector>

#include "intake/csv.h"
#include "intake/detail/dates.h"
#include "intake/import.h"

namespace redd::intake::detail {

struct Table {
  std::vector<std::string> titles{};   ///< lines above the header
  std::vector<std::string> headers{};  ///< one a column; "column 3" where there is no text
  bool has_header = false;
  std::vector<CsvRow> rows{};          ///< below the header
  char delimiter = ',';
  char decimal_mark = '.';
  std::size_t date_column = 0;
  std::optional<std::size_t> time_column{};  ///< when the time of day stands apart
  bool serial_dates = false;
  DateOrder order = DateOrder::ymd;

  /// The cell, or nothing beyond the row's end.
  static std::string_view cell(const CsvRow& row, std::size_t column) {
    return column < row.cells.size() ? trimmed_cell(row.cells[column]) : std::string_view();
  }
  /// The row's date and time taken apart; nothing when there is none.
  std::optional<Stamp> stamp_of(const CsvRow& row) const;

 private:
  static std::string_view trimmed_cell(const std::string& cell);
};

/// Adds a guess.
void add_guess(Preview& preview, std::string key, std::string value, Certainty certainty, Phrase reason,
               std::vector<std::string> alternatives = {});

/// A row, or a cell of it, that can't be kept. In: column, or headers.size() for the row as a whole.
void add_bad(Preview& preview, const Table& table, const CsvRow& row, std::size_t column, std::string code, Phrase sentence);

/// Reads the file as a table and adds what it concluded to the preview.
/// Errors  not_a_table, no_dates, mixed_date_orders, bad_quotes, a setting that does not fit the file.
Result<Table> table_of(std::string_view bytes, const Settings& settings, const Context& context, Preview& preview);

/// The column a setting means: its header text, its plain key, or its number from 1.
std::optional<std::size_t> column_named(const Table& table, std::string_view name);

}  // namespace redd::intake::detail
