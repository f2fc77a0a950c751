#include "logbook/detail/snapshot.h"

#include <cstdio>

#include "logbook/detail/files.h"
#include "logbook/detail/season_file.h"

namespace redd::logbook::detail {
namespace {

namespace fs = std::filesystem;

/// A reading that sees one state of the file, whatever others write.
class Reading {
 public:
  explicit Reading(Database& database) : database_(database) { database_.run("BEGIN"); }
  ~Reading() { sqlite3_exec(database_.handle(), "ROLLBACK", nullptr, nullptr, nullptr); }
  Reading(const Reading&) = delete;
  Reading& operator=(const Reading&) = delete;

 private:
  Database& database_;
};

void back_up(Database& from, Database& to) {
  sqlite3_backup* backup = sqlite3_backup_init(to.handle(), "main", from.handle(), "main");
  if (!backup) throw Failure{sqlite3_extended_errcode(to.handle()), sqlite3_errmsg(to.handle())};
  const int step = sqlite3_backup_step(backup, -1);
  const int end = sqlite3_backup_finish(backup);
  // Of a file that was busy only the step tells; the end calls it well.
  if (step != SQLITE_DONE) throw Failure{step == SQLITE_OK ? SQLITE_BUSY : step, sqlite3_errstr(step)};
  if (end != SQLITE_OK) throw Failure{end, sqlite3_errstr(end)};
}

Problem no_copy(const Problem& why, const fs::path& folder) {
  const Phrase reason = why.code == "disk_full"   ? Phrase("the disk is full")
                        : why.code == "read_only" ? said("the folder {0} can't be read or written", folder.string())
                        : why.code == "locked"    ? Phrase("the file is in use")
                        : why.code == "damaged"   ? Phrase("what was written could not be read back, or the season file is damaged")
                                                  : Phrase("the disk failed");
  return {why.code, "", said("No copy of the season could be made: {0}. What is logged is kept all the same; mend this soon, and look with \"redd copies\".", reason)};
}

std::string name_of(const fs::path& season_file, int number, Why why, Instant now) {
  std::string moment = rfc3339_from_instant(now);
  std::erase(moment, ':');
  char digits[16];
  std::snprintf(digits, sizeof digits, "%04d", number);
  return season_file.stem().string() + "-copy-" + digits + "-" + moment + "-" + std::string(word_of(why)) + ".redd";
}

/// Hands the next free number to `keep`, and the one after when another program took it meanwhile.
template <class Keep>
Result<Copy> numbered(const fs::path& season_file, Why why, Instant now, Keep keep) {
  const auto copies = copies_of(season_file);
  if (!copies) return copies.problems();
  const int next = copies->empty() ? 1 : copies->front().number + 1;
  for (int number = next;; ++number) {
    const Copy copy{copies_folder(season_file) / name_of(season_file, number, why, now), number, now, why};
    const Result<bool> kept = keep(copy.file);
    if (kept) return copy;
    if (kept.problems().front().code != "file_exists" || number > next + 100) return kept.problems();
  }
}

}  // namespace

Extent write_snapshot(Database& from, const fs::path& to) {
  make_private_file(to);
  Extent extent;
  {
    Database copy(fs::absolute(to).string(), SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX);
    {
      const Reading reading(from);
      extent = {from.integer("SELECT count(*) FROM records"), from.integer("SELECT max(id) FROM records")};
      back_up(from, copy);
    }
    settle(copy);
  }
  sync_file(to);
  return extent;
}

Result<KeptCopy> keep_copy_of(Database& database, const fs::path& season_file, Why why, Instant now, const ZoneOffsets& zone) {
  const fs::path folder = copies_folder(season_file);
  const Unfinished unfinished(folder / season_file.filename());
  try {
    make_private_folder(folder);
    remove_abandoned(folder / season_file.filename());
    const Extent extent = write_snapshot(database, unfinished.file);
    const auto check = check_file(unfinished.file);
    if (!check) return no_copy(check.problems().front(), folder);
    if (!check->damage.empty() || !extent.is_of(*check))
      return no_copy({"damaged", "", {}}, folder);
    auto copy = numbered(season_file, why, now, [&](const fs::path& name) { return give_name(unfinished.file, name); });
    if (!copy) return no_copy(copy.problems().front(), folder);
    // Older copies may hold what is damaged in this one.
    if (!check->whole()) return KeptCopy{*copy, false};
    const auto copies = copies_of(season_file);
    for (const Copy& old : copies ? surplus_of(*copies, zone) : std::vector<Copy>()) {
      std::error_code ignored;
      fs::remove(old.file, ignored);
    }
    return KeptCopy{*copy, true};
  } catch (const Failure& failure) {
    return no_copy(problem_of(failure, season_file), folder);
  }
}

Result<KeptCopy> keep_bytes_of(const fs::path& season_file, Instant now) {
  const fs::path folder = copies_folder(season_file);
  try {
    make_private_folder(folder);
    const Unfinished unfinished(folder / season_file.filename());
    copy_bytes(season_file, unfinished.file);
    const fs::path wal = season_file.string() + "-wal", unfinished_wal = unfinished.file.string() + "-wal";
    std::error_code none;
    const bool has_wal = fs::file_size(wal, none) > 0 && !none;
    if (has_wal) copy_bytes(wal, unfinished_wal);
    const auto copy = numbered(season_file, Why::damaged, now, [&](const fs::path& name) -> Result<bool> {
      // The file first: only who has won that name may put a side file beside it.
      auto given = give_name(unfinished.file, name);
      if (!given || !has_wal) return given;
      given = give_name(unfinished_wal, name.string() + "-wal");
      if (!given) fs::remove(name, none);
      return given;
    });
    if (!copy) return copy.problems();
    return KeptCopy{*copy, false};
  } catch (const Failure& failure) {
    return no_copy(problem_of(failure, season_file), folder);
  }
}

}  // namespace redd::logbook::detail
