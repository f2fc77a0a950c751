#pragma once
// Tables in text: comma-, semicolon- or tab-separated, quoted as RFC 4180 says, with the line of every row kept so that a
// problem can be shown where it is. Start at read_csv(); csv_cell() and csv_row() write.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "quantities/result.h"

namespace redd::wire {

struct CsvRow {
  std::size_t line = 0;  ///< first line of the row, counted from 1 (a quoted cell may span lines)
  std::vector<std::string> cells{};
};

/// All rows of a table, blank lines left out. CRLF, LF and CR all end a row.
///
/// Errors  bad_quotes with the line and column: a quote never closed, or text after a closing quote.
Result<std::vector<CsvRow>> read_csv(std::string_view text, char delimiter);

/// One cell for a file a spreadsheet will open: quoted where needed, and a text that would run as a formula (leading
/// = + - @, tab or return) made harmless by an apostrophe. Plain numbers stay as they are.
/// Source  RFC 4180; for the apostrophe: OWASP, CSV Injection.
std::string csv_cell(std::string_view text, char delimiter = ',');

/// A row of such cells, ended by CRLF.
std::string csv_row(const std::vector<std::string>& cells, char delimiter = ',');

/// The text a cell written by csv_cell() stood for.
std::string without_guard(std::string_view cell);

}  // namespace redd::wire
