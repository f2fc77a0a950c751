#include "logbook/detail/sole.h"

#include "logbook/detail/season_file.h"

namespace redd::logbook::detail {

namespace fs = std::filesystem;

Result<Sole> sole_access(const fs::path& season_file) {
  std::error_code ignored;
  Sole sole;
  sole.exists = fs::exists(season_file, ignored);
  if (!sole.exists) return sole;
  {
    // Looks at the file's own header first, so that nothing foreign is tidied.
    auto looked_at = open_to_check(season_file);
    if (!looked_at) {
      const std::string& code = looked_at.problems().front().code;
      if (code != "damaged" && code != "not_a_season_file") return looked_at.problems();
      return sole;
    }
  }
  try {
    auto database = std::make_unique<Database>(fs::absolute(season_file).string(), SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX);
    sqlite3_busy_timeout(database->handle(), 1000);  // Assumed: who holds it longer has it open for long
    database->run("PRAGMA locking_mode = EXCLUSIVE");
    settle(*database);
    database->run("BEGIN EXCLUSIVE; COMMIT");  // the lock stays until this is closed
    sole.database = std::move(database);
    return sole;
  } catch (const Failure& failure) {
    const int code = failure.code & 0xff;
    if (code == SQLITE_BUSY || code == SQLITE_LOCKED)
      return Problem{"season_in_use", "", said("{0} is open in another program, perhaps Redd's own page: stop it (Ctrl+C where \"redd serve\" runs), then give the command again. Nothing was changed.", season_file.string())};
    if (code == SQLITE_CORRUPT || code == SQLITE_NOTADB) return sole;
    return problem_of(failure, season_file);
  }
}

}  // namespace redd::logbook::detail
