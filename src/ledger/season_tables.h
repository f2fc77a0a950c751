#pragma once
// A whole season as CSV tables for spreadsheets and statistics, and back: a Data Package of datapackage.json and a table for each kind of
// record. Start at season_tables() and records_of_season_tables().
// Source  [datapackage2] (datapackage.org): Data Package, Table Schema with foreign keys; [rfc4180] for the files.

#include <span>
#include <vector>

#include "ledger/stored_zip.h"
#include "records/record.h"

namespace redd::ledger {

/// datapackage.json first, then data/records.csv (who logged what kind of record when), a table for each kind that was logged, named after it, and
/// data/water_quality.csv: each test once more as the range it stands for, with what it measured, unit, "as N", method and kit.
///
/// Out     UTF-8, rows ended by CRLF, times in UTC, numbers as short as they read back. Same records, same bytes.
///         Text that a spreadsheet would take for a formula stands behind an apostrophe; an apostrophe alone is an empty text that was given.
std::vector<NamedFile> season_tables(std::span<const records::Record> records);

/// The records of such tables, equal to those written. Columns and tables that are worked out (counts, water_quality) are not read.
///
/// In      files: as season_tables() names them, in any order; others are left alone.
/// Errors  not_an_export, newer_export, missing_table, missing_column, row_without_record, record_without_row, bad_quotes, and those of each record
///         as records_of_season_file() says them.
Result<std::vector<records::Record>> records_of_season_tables(std::span<const NamedFile> files);

}  // namespace redd::ledger
