#include "logbook/detail/season_file.h"

#include <array>
#include <cstring>
#include <fstream>
#include <vector>

#include "logbook/detail/files.h"

namespace redd::logbook::detail {
namespace {

namespace fs = std::filesystem;

/// How long to wait for another writer. Assumed: an entry takes some thousandths of a second, a large import a second or two.
constexpr int patience_ms = 3000;

Problem not_a_season(const fs::path& path, const std::string& why) {
  return {"not_a_season_file", "", said("{0} is not a Redd season file ({1}); it was left as it is. Choose a file that ends in .redd, or start a new season.", path.string(), why)};
}

Problem newer(const fs::path& path, std::int64_t version, int known) {
  return {"newer_schema", "", said("{0} was written by a newer Redd (layout {1}, this program knows {2}); it was left as it is. Use the newer program.", path.string(), version, known)};
}

std::uint32_t big_endian(const std::array<unsigned char, 100>& header, std::size_t at) {
  return static_cast<std::uint32_t>(header[at]) << 24 | static_cast<std::uint32_t>(header[at + 1]) << 16 |
         static_cast<std::uint32_t>(header[at + 2]) << 8 | header[at + 3];
}

/// Looks at the file's first bytes before SQLite does, because SQLite may tidy up a file that it opens.
/// Source  SQLite, "Database File Format", section 1.3: application_id at offset 68, user_version at 60.
std::optional<Problem> refusal(const fs::path& path, int known_version) {
  std::error_code error;
  const fs::file_status status = fs::status(path, error);
  if (!fs::exists(status))
    return Problem{"file_missing", "", said("There is no file {0}. Check the name, or start a new season there.", path.string())};
  if (!fs::is_regular_file(status)) return not_a_season(path, "it is not a file");
  std::ifstream file(path, std::ios::binary);
  if (!file) return Problem{"read_only", "", said("{0} can't be read by this user: ask for the right to read it.", path.string())};
  std::array<unsigned char, 100> header{};
  file.read(reinterpret_cast<char*>(header.data()), header.size());
  if (file.gcount() == 0) return not_a_season(path, "it is empty");
  if (file.gcount() < 100 || std::memcmp(header.data(), "SQLite format 3", 16) != 0)
    return not_a_season(path, "or its beginning is damaged");
  if (big_endian(header, 68) != season_file_id) return not_a_season(path, "it belongs to another program");
  if (const std::uint32_t version = big_endian(header, 60); version > static_cast<std::uint32_t>(known_version))
    return newer(path, version, known_version);
  return std::nullopt;
}

/// "file:" URI of a path, for a file on a medium that nobody can write.
std::string immutable_uri(const fs::path& path) {
  std::string uri = "file:";
  for (const char c : path.string()) {
    if (c == '%' || c == '?' || c == '#') {
      constexpr const char* hex = "0123456789ABCDEF";
      uri += {'%', hex[(c >> 4) & 15], hex[c & 15]};
    } else {
      uri += c;
    }
  }
  return uri + "?immutable=1";
}

/// A path is never taken for a URI, even one that begins with "file:".
std::string plain_name(const fs::path& path) { return fs::absolute(path).string(); }

void set_up(Database& database, bool for_writing) {
  sqlite3_extended_result_codes(database.handle(), 1);
  sqlite3_busy_timeout(database.handle(), patience_ms);
  database.run("PRAGMA trusted_schema = OFF; PRAGMA foreign_keys = ON;");
  if (!for_writing) return;
  database.run("PRAGMA journal_mode = WAL;");
  // EXTRA: a record is acknowledged only once it is on the disk, also on a file system that can't do WAL. Checkpoint after
  // every commit: a copy of the one file, taken between two entries while the program runs, then holds the whole season.
  database.run("PRAGMA synchronous = EXTRA; PRAGMA wal_autocheckpoint = 1;");
}

std::unique_ptr<Database> opened(const fs::path& path, bool for_writing) {
  const int flags = (for_writing ? SQLITE_OPEN_READWRITE : SQLITE_OPEN_READONLY) | SQLITE_OPEN_NOMUTEX;
  auto database = std::make_unique<Database>(plain_name(path), flags);
  try {
    sqlite3_busy_timeout(database->handle(), patience_ms);
    database->integer("SELECT count(*) FROM sqlite_schema");
    return database;
  } catch (const Failure& failure) {
    const int code = failure.code & 0xff;
    std::error_code error;
    const auto unsaved = fs::file_size(path.string() + "-wal", error);
    const bool settled = error || unsaved == 0;
    // A season on a read-only medium has no place for SQLite's side files and needs none.
    if (for_writing || !settled || (code != SQLITE_CANTOPEN && code != SQLITE_READONLY)) throw;
  }
  database = std::make_unique<Database>(immutable_uri(fs::absolute(path)), flags);
  database->integer("SELECT count(*) FROM sqlite_schema");
  return database;
}

}  // namespace

Result<std::unique_ptr<Database>> open_season_file(const fs::path& path, bool for_writing, std::span<const Migration> steps) {
  const int known_version = steps.back().version;
  if (auto problem = refusal(path, known_version)) return *problem;
  try {
    auto database = opened(path, for_writing);
    // Renamed or replaced while it was being opened: whoever did it has what was in it.
    if (for_writing && has_moved(*database)) throw Failure{SQLITE_BUSY, "replaced while it was opened"};
    // Until the file has passed every check, closing it must not tidy it either.
    sqlite3_db_config(database->handle(), SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, nullptr);
    if (for_writing && database->is_read_only()) throw Failure{SQLITE_READONLY, "opened read-only"};
    if (const auto version = database->integer("PRAGMA user_version"); version > known_version)
      return newer(path, version, known_version);
    else if (version < known_version && !for_writing)
      return Problem{"older_schema", "", said("{0} was written by an older Redd and must be brought up to date: open it once where it can be written.", path.string())};
    if (const std::string verdict = database->text("PRAGMA quick_check(1)"); verdict != "ok") throw Failure{SQLITE_CORRUPT, verdict};
    set_up(*database, for_writing);
    if (for_writing) {
      migrate(*database, path, steps);
      sqlite3_db_config(database->handle(), SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 0, nullptr);
    }
    return database;
  } catch (const Failure& failure) {
    return problem_of(failure, path);
  }
}

std::unique_ptr<Database> make_season_file(const fs::path& path) {
  auto database = std::make_unique<Database>(plain_name(path), SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_NOMUTEX);
  // Written before the change to WAL, so that it stands in the file's own header from the start.
  database->run(("PRAGMA application_id = " + std::to_string(season_file_id)).c_str());
  set_up(*database, true);
  migrate(*database, path, all_migrations());
  return database;
}

Result<std::unique_ptr<Database>> open_to_check(const fs::path& path) {
  if (auto problem = refusal(path, all_migrations().back().version)) return *problem;
  try {
    auto database = opened(path, false);
    sqlite3_db_config(database->handle(), SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, nullptr);
    set_up(*database, false);
    return database;
  } catch (const Failure& failure) {
    return problem_of(failure, path);
  }
}

void settle(Database& database) {
  auto change = database.prepare("PRAGMA journal_mode = DELETE");
  const bool changed = change.step() && change.text(0) == "delete";
  change.step();  // only now is it committed, and a failing disk noticed
  if (!changed) throw Failure{SQLITE_BUSY, "still in use"};
}

bool has_moved(Database& database) {
  int moved = 0;
  return sqlite3_file_control(database.handle(), "main", SQLITE_FCNTL_HAS_MOVED, &moved) == SQLITE_OK && moved != 0;
}

}  // namespace redd::logbook::detail
