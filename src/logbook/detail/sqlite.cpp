#include "logbook/detail/sqlite.h"

namespace redd::logbook::detail {

Problem problem_of(const Failure& failure, const std::filesystem::path& path) {
  const std::string name = path.filename().string();
  switch (failure.code & 0xff) {
    case SQLITE_FULL:
      return {"disk_full", "", said("The disk is full, so nothing was kept. Make room and send it again; what {0} held before is safe.", name)};
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return {"locked", "", said("Another program is writing to {0} and did not finish in time; nothing was kept. Close it, or try again.", name)};
    case SQLITE_READONLY:
    case SQLITE_PERM:
    case SQLITE_CANTOPEN:
      return {"read_only", "", said("{0} or its folder can't be written. Give this user the right to write there, or copy the season to another folder.", path.string())};
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
      return {"damaged", "", said("{0} is damaged on the disk and was left as it is. Put back your latest copy of it, or make a new file from an exported season.", path.string())};
    case SQLITE_CONSTRAINT:
      return {"refused_by_file", "", said("{0} refused the entry ({1}); nothing was kept.", name, failure.text)};
    case SQLITE_TOOBIG:
      return {"too_long", "", "The entry is too large to keep; nothing was kept."};
    default:
      return {"disk_error", "", said("The disk failed while working on {0} ({1}); nothing was kept. Check the disk, then try again; what the file held before is safe.", path.string(), failure.text)};
  }
}

Statement::Statement(sqlite3* database, std::string_view sql) : database_(database) {
  check(sqlite3_prepare_v2(database, sql.data(), static_cast<int>(sql.size()), &statement_, nullptr));
}

Statement& Statement::bind(int index, std::int64_t value) {
  check(sqlite3_bind_int64(statement_, index, value));
  return *this;
}

Statement& Statement::bind(int index, std::string_view value) {
  check(sqlite3_bind_text64(statement_, index, value.data(), value.size(), SQLITE_TRANSIENT, SQLITE_UTF8));
  return *this;
}

Statement& Statement::bind_or_null(int index, const std::optional<std::int64_t>& value) {
  if (value) return bind(index, *value);
  check(sqlite3_bind_null(statement_, index));
  return *this;
}

Statement& Statement::bind_or_null(int index, const std::optional<std::string>& value) {
  if (value) return bind(index, std::string_view(*value));
  check(sqlite3_bind_null(statement_, index));
  return *this;
}

bool Statement::step() {
  const int code = sqlite3_step(statement_);
  if (code == SQLITE_ROW) return true;
  if (code == SQLITE_DONE) return false;
  throw Failure{sqlite3_extended_errcode(database_), sqlite3_errmsg(database_)};
}

void Statement::reset() {
  sqlite3_reset(statement_);
  sqlite3_clear_bindings(statement_);
}

std::string Statement::text(int column) const {
  const auto* bytes = sqlite3_column_text(statement_, column);
  const auto size = static_cast<std::size_t>(sqlite3_column_bytes(statement_, column));
  return bytes ? std::string(reinterpret_cast<const char*>(bytes), size) : std::string();
}

void Statement::check(int code) const {
  if (code != SQLITE_OK) throw Failure{sqlite3_extended_errcode(database_), sqlite3_errmsg(database_)};
}

Database::Database(const std::string& uri, int flags) {
  const int code = sqlite3_open_v2(uri.c_str(), &handle_, flags | SQLITE_OPEN_URI, nullptr);
  if (code == SQLITE_OK) return;
  const Failure failure{handle_ ? sqlite3_extended_errcode(handle_) : code, handle_ ? sqlite3_errmsg(handle_) : sqlite3_errstr(code)};
  sqlite3_close_v2(handle_);
  throw failure;
}

void Database::run(const char* sql) {
  if (sqlite3_exec(handle_, sql, nullptr, nullptr, nullptr) != SQLITE_OK)
    throw Failure{sqlite3_extended_errcode(handle_), sqlite3_errmsg(handle_)};
}

std::int64_t Database::integer(const char* sql) {
  Statement statement(handle_, sql);
  return statement.step() ? statement.integer(0) : 0;
}

std::string Database::text(const char* sql) {
  Statement statement(handle_, sql);
  return statement.step() ? statement.text(0) : std::string();
}

}  // namespace redd::logbook::detail
