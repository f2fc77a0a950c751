#pragma once
// Files of unknown make as text that wire/csv_table.h can read: in which encoding, divided by what.

#include <optional>
#include <string>
#include <string_view>

#include "quantities/result.h"
#include "wire/csv_table.h"

namespace redd::intake {

/// A file as UTF-8 without byte-order mark, and what it was written in ("UTF-8", "UTF-16", "Windows-1252").
struct DecodedText {
  std::string text{};
  std::string encoding{};
};

/// In      bytes: UTF-8, UTF-16 with a byte-order mark, or anything else, which is read as Windows-1252.
/// Errors  empty_file, file_too_large (32 MB), not_text (NUL and other control characters).
Result<DecodedText> decoded(std::string_view bytes);

using wire::CsvRow;
using wire::csv_cell;
using wire::csv_row;
using wire::read_csv;
using wire::without_guard;

/// The delimiter that splits the text most evenly, out of tab, semicolon and comma; nothing when none splits it.
std::optional<char> likely_delimiter(std::string_view text);

}  // namespace redd::intake
