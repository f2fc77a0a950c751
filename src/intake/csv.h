#pragma once
// Tables in text: comma-, semicolon- or tab-separated, quoted as RFC 4180 says, with the line of every row kept so that a
// problem can be shown where it is. Start at read_csv(); csv_cell() and csv_row() write.

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "quantities/result.h"

namespace redd::intake {

/// A file as UTF-8 without byte-order mark, and what it was written in ("UTF-8", "UTF-16", "Windows-1252").
struct DecodedText {
  std::string text{};
  std::string encoding{};
};

/// In      bytes: UTF-8, UTF-16 with a byte-order mark, or anything else, which is read as Windows-1252.
/// Errors  empty_file, file_too_large (32 MB), not_text (NUL and other control characters).
Result<DecodedText> decoded(std::string_view bytes);

struct CsvRow {
  std::size_t line = 0;  ///< first line of the row, counted from 1 (a quoted cell may span lines)
  std::vector<std::string> cells{};
};

/// All rows of a table, blank lines left out. CRLF, LF and CR all end a row.
///
/// Errors  bad_quotes with the line and column: a quote never closed, or text after a closing quote.
Result<std::vector<CsvRow>> read_csv(std::string_view text, char delimiter);

/// The delimiter that splits the text most evenly, out of tab, semicolon and comma; nothing when none splits it.
std::optional<char> likely_delimiter(std::string_view text);

/// One cell for a file a spreadsheet will open: quoted where needed, and a text that would run as a formula (leading
/// = + - @, tab or return) made harmless by an apostrophe. Plain numbers stay as they are.
/// Source  RFC 4180; for the apostrophe: OWASP, CSV Injection.
std::string csv_cell(std::string_view text, char delimiter = ',');

/// A row of such cells, ended by CRLF.
std::string csv_row(const std::vector<std::string>& cells, char delimiter = ',');

/// The text a cell written by csv_cell() stood for.
std::string without_guard(std::string_view cell);

}  // namespace redd::intake
