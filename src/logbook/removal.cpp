#include "logbook/removal.h"

#include <algorithm>

#include "logbook/copies.h"
#include "logbook/detail/files.h"
#include "logbook/detail/season_file.h"
#include "logbook/detail/sole.h"

namespace redd::logbook {
namespace {

namespace fs = std::filesystem;

/// Files of a folder whose names begin so.
void add_beginning_with(std::vector<fs::path>& files, const fs::path& folder, const std::string& beginning) {
  std::error_code failed;
  for (fs::directory_iterator at(folder, failed), end; !failed && at != end; at.increment(failed))
    if (at->path().filename().string().starts_with(beginning) && fs::is_regular_file(at->symlink_status())) files.push_back(at->path());
}

Problem not_deleted(const fs::path& file, const std::string& why) {
  return {"not_deleted", "", said("{0} could not be deleted ({1}), so the season is not gone yet. Mend that, then give the command again.", file.string(), why)};
}

}  // namespace

std::vector<fs::path> files_of_season(const fs::path& season_file) {
  std::vector<fs::path> files;
  const std::string name = season_file.filename().string(), stem = season_file.stem().string();
  const fs::path folder = detail::folder_of(season_file), copies = copies_folder(season_file);
  add_beginning_with(files, copies, stem + "-copy-");
  add_beginning_with(files, copies, "." + name + ".unfinished-");
  for (const char* of : {".unfinished-", ".classroom.unfinished-"}) add_beginning_with(files, folder, "." + name + of);
  add_beginning_with(files, folder, name + ".before-version-");  // of the first Redd
  std::error_code ignored;
  for (const char* ending : {".shown", ".classroom", ".audit", "-wal", "-journal", "-shm", ""})
    if (const fs::path file = season_file.string() + ending; fs::exists(file, ignored)) files.push_back(file);
  return files;
}

Result<std::size_t> delete_season(const fs::path& season_file) {
  auto sole = detail::sole_access(season_file);
  if (!sole) return sole.problems();
  if (files_of_season(season_file).empty())
    return Problem{"file_missing", "", said("There is no season {0} and no copy of it: there is nothing to delete.", season_file.string())};
  // What can't be seen could be left behind, and would be called gone.
  if (const auto known = copies_of(season_file); !known) return known.problems();
  std::size_t gone = 0;
  const fs::path copies = copies_folder(season_file);
  std::error_code failed;
  for (const fs::path& file : files_of_season(season_file)) {
    if (fs::remove(file, failed)) ++gone;
    if (failed) return not_deleted(file, failed.message());
  }
  fs::remove(copies, failed);  // stays when somebody keeps something else there
  sole.value().database.reset();
  try {
    detail::sync_folder(detail::folder_of(season_file));
  } catch (const detail::Failure& failure) {
    return not_deleted(season_file, failure.text);
  }
  if (const auto left = files_of_season(season_file); !left.empty()) return not_deleted(left.front(), "made anew meanwhile");
  return gone;
}

}  // namespace redd::logbook
