#include "logbook/detail/migrations.h"

#include <array>
#include <chrono>
#include <string>

#include "logbook/detail/snapshot.h"

namespace redd::logbook::detail {
namespace {

/// Whether the newest copy was made before this very step, which then did not work: more of the same help nobody.
bool is_kept_already(Database& database, const std::filesystem::path& path, std::int64_t layout) {
  const auto copies = copies_of(path);
  if (!copies || copies->empty() || copies->front().why != Why::before_upgrade) return false;
  const auto check = check_file(copies->front().file);
  return check && check->damage.empty() && check->layout == layout && check->last_id == database.integer("SELECT max(id) FROM records");
}

/// The error of the file that a problem with its copy came from.
int code_of(const Problem& problem) {
  if (problem.code == "disk_full") return SQLITE_FULL;
  if (problem.code == "damaged") return SQLITE_CORRUPT;
  if (problem.code == "locked") return SQLITE_BUSY;
  return problem.code == "read_only" ? SQLITE_CANTOPEN : SQLITE_IOERR;
}

void keep_copy_before(Database& database, const std::filesystem::path& path, std::int64_t layout) {
  if (is_kept_already(database, path, layout)) return;
  const auto now = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
  if (const auto copy = keep_copy_of(database, path, Why::before_upgrade, now, {}); !copy)
    throw Failure{code_of(copy.problems().front()), "no copy before the upgrade"};
}

}  // namespace

std::span<const Migration> all_migrations() {
  static const std::array steps{migration_0001_records};
  return steps;
}

void migrate(Database& database, const std::filesystem::path& path, std::span<const Migration> steps) {
  const auto before = database.integer("PRAGMA user_version");
  if (before > 0 && before < steps.back().version) keep_copy_before(database, path, before);
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
