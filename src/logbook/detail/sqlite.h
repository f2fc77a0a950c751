#pragma once
// A thin owner for SQLite's C interface. Inside this folder errors are thrown as Failure and turned into Problems at
// the public functions. Start at Database.

#include <sqlite3.h>

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "quantities/result.h"

namespace redd::logbook::detail {

/// An error SQLite reported.
struct Failure {
  int code;          ///< extended result code
  std::string text;  ///< SQLite's own words, for the log only
};

/// A Failure in words for the keeper.
Problem problem_of(const Failure& failure, const std::filesystem::path& path);

class Statement {
 public:
  Statement(sqlite3* database, std::string_view sql);
  ~Statement() { sqlite3_finalize(statement_); }
  Statement(const Statement&) = delete;
  Statement& operator=(const Statement&) = delete;

  Statement& bind(int index, std::int64_t value);
  Statement& bind(int index, std::string_view value);
  Statement& bind_or_null(int index, const std::optional<std::int64_t>& value);
  Statement& bind_or_null(int index, const std::optional<std::string>& value);

  /// True while there is a row.
  bool step();
  void reset();

  std::int64_t integer(int column) const { return sqlite3_column_int64(statement_, column); }
  std::string text(int column) const;
  bool is_null(int column) const { return sqlite3_column_type(statement_, column) == SQLITE_NULL; }

 private:
  void check(int code) const;
  sqlite3* database_;
  sqlite3_stmt* statement_ = nullptr;
};

class Database {
 public:
  /// In      uri: a file name, or a "file:" URI.  flags: SQLITE_OPEN_*.
  Database(const std::string& uri, int flags);
  ~Database() { sqlite3_close_v2(handle_); }
  Database(const Database&) = delete;
  Database& operator=(const Database&) = delete;

  void run(const char* sql);
  std::int64_t integer(const char* sql);
  std::string text(const char* sql);
  Statement prepare(std::string_view sql) { return Statement(handle_, sql); }
  bool is_read_only() const { return sqlite3_db_readonly(handle_, "main") == 1; }
  sqlite3* handle() const { return handle_; }

 private:
  sqlite3* handle_ = nullptr;
};

/// Takes the write lock at once; what was not committed is rolled back.
class Transaction {
 public:
  explicit Transaction(Database& database) : database_(database) { database_.run("BEGIN IMMEDIATE"); }
  ~Transaction() {
    if (!done_) sqlite3_exec(database_.handle(), "ROLLBACK", nullptr, nullptr, nullptr);
  }
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  void commit() {
    database_.run("COMMIT");
    done_ = true;
  }

 private:
  Database& database_;
  bool done_ = false;
};

}  // namespace redd::logbook::detail
