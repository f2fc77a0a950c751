#include "logbook/detail/migrations.h"

#include <array>
#include <string>

namespace redd::logbook::detail {
namespace {

void copy_to(Database& database, const std::string& target) {
  Database copy(target, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE);
  sqlite3_backup* backup = sqlite3_backup_init(copy.handle(), "main", database.handle(), "main");
  if (!backup) throw Failure{sqlite3_extended_errcode(copy.handle()), sqlite3_errmsg(copy.handle())};
  sqlite3_backup_step(backup, -1);
  if (const int code = sqlite3_backup_finish(backup); code != SQLITE_OK) throw Failure{code, sqlite3_errstr(code)};
}

}  // namespace

std::span<const Migration> all_migrations() {
  static const std::array steps{migration_0001_records};
  return steps;
}

void migrate(Database& database, const std::filesystem::path& path, std::span<const Migration> steps) {
  const auto before = database.integer("PRAGMA user_version");
  if (before > 0 && before < steps.back().version) {
    const std::string copy = path.string() + ".before-version-" + std::to_string(steps.back().version);
    if (!std::filesystem::exists(copy)) copy_to(database, copy);
  }
  for (const Migration& step : steps) {
    if (step.version <= before) continue;
    Transaction transaction(database);
    // Another process may have taken this step while we waited for the lock.
    if (database.integer("PRAGMA user_version") >= step.version) continue;
    database.run(step.sql);
    database.run(("PRAGMA user_version = " + std::to_string(step.version)).c_str());
    transaction.commit();
  }
}

}  // namespace redd::logbook::detail
