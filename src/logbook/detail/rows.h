#pragma once
// One record as a row of the season file and back, and the sum that guards it.

#include <string>
#include <variant>

#include "logbook/detail/sqlite.h"
#include "logbook/logbook.h"

namespace redd::logbook::detail {

inline constexpr const char* insert_sql =
    "INSERT INTO records (id, at, logged_at, author, kind, supersedes, entry_key, body, check_sum) "
    "VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)";

inline constexpr const char* select_after_sql =
    "SELECT id, at, logged_at, author, kind, supersedes, entry_key, body, check_sum FROM records WHERE id > ?1 ORDER BY id";

/// Adds the record under its own id.
void insert(Statement& insert, const records::Record& record);

/// The row the statement stands on, or why it can't be read.
std::variant<records::Record, Unreadable> record_of(const Statement& row);

}  // namespace redd::logbook::detail
