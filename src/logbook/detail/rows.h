#pragma once
// One record as a row of the season file and back, and the sum that guards it.

#include <cstdint>
#include <optional>
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

/// The columns of a row as they stand in the file.
struct Columns {
  std::int64_t id = 0;
  std::string at{};
  std::string logged_at{};
  std::string author{};
  std::string kind{};
  std::optional<std::int64_t> supersedes{};
  std::optional<std::string> entry_key{};
  std::string body{};
};

Columns columns_of(const records::Record& record);

/// The sum over all columns that stands beside them. It guards against accidents, not against somebody who recomputes it.
std::string check_sum(const Columns& row);

/// Adds the row under its own id.
void insert(Statement& insert, const Columns& row);

/// The row the statement stands on, or why it can't be read.
std::variant<records::Record, Unreadable> record_of(const Statement& row);

/// So many records are named that a file has not; more say nothing new.
inline constexpr std::size_t most_missing = 1000;

/// A record that is not in the file though later ones are. Ids count 1, 2, 3…: nothing is ever removed and a batch that fails gives its
/// ids back.
Unreadable missing_record(records::RecordId id);

/// The row that salvaged() leaves in the place of a lost record, and whether a row is one.
Columns note_of_loss(records::RecordId id, const std::string& logged_at);
bool stands_for_a_loss(const Columns& row);

}  // namespace redd::logbook::detail
