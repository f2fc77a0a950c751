#include "logbook/restore.h"

#include <sys/stat.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <iterator>
#include <set>

#include "logbook/detail/files.h"
#include "logbook/detail/season_file.h"
#include "logbook/detail/snapshot.h"
#include "logbook/detail/sole.h"
#include "wire/codec.h"

namespace redd::logbook {
namespace {

namespace fs = std::filesystem;

Result<FileCheck> whole_copy(const fs::path& copy_file) {
  auto check = check_file(copy_file);
  if (check && !check->whole())
    return Problem{"copy_damaged", "", said("{0} is damaged itself, so it was not put back. Choose another copy (redd copies), or read out what can be read with \"redd salvage\".", copy_file.string())};
  return check;
}

/// The readable records of a file; nothing when it can't be read through.
std::optional<std::vector<records::Record>> records_in(const fs::path& file) {
  auto book = Logbook::open(file, OpenMode::read_only);
  if (!book) return std::nullopt;
  auto contents = book.value().records();
  return contents ? std::optional(std::move(contents.value().records)) : std::nullopt;
}

/// The rights of the file that is replaced, so that who could read the season still can.
void take_rights(const fs::path& from, const fs::path& to) {
  struct stat as {};
  if (::stat(from.c_str(), &as) == 0 && ::chmod(to.c_str(), as.st_mode & 07777) != 0) throw detail::failure_of(errno, to.string());
}

Result<KeptCopy> keep_present(detail::Sole& sole, const fs::path& season_file, Instant now, const ZoneOffsets& zone) {
  if (sole.database) {
    auto copy = detail::keep_copy_of(*sole.database, season_file, Why::before_restore, now, zone);
    if (copy || copy.problems().front().code != "damaged") return copy;
  }
  return detail::keep_bytes_of(season_file, now);
}

/// The last step: from the renaming on, what was there is only in its copy.
Result<Restored> confirmed_on_disk(const fs::path& season_file, const Restored& done) {
  try {
    detail::sync_folder(detail::folder_of(season_file));
    return done;
  } catch (const detail::Failure&) {
    return Problem{"disk_error", "", said("{0} was put back, but the disk did not confirm it: check the disk. What was there before is copy {1}.", season_file.string(), done.kept->number)};
  }
}

}  // namespace

Result<PlannedRestore> planned_restore(const fs::path& season_file, const fs::path& copy_file) {
  auto copy = whole_copy(copy_file);
  if (!copy) return copy.problems();
  PlannedRestore planned{std::move(copy).value(), {}, false, {}, {}};
  std::error_code ignored;
  planned.present_exists = fs::exists(season_file, ignored);
  auto present = planned.present_exists ? check_file(season_file) : Result<FileCheck>(FileCheck{});
  if (!planned.present_exists || !present) return planned;
  planned.present = std::move(present).value();
  const auto of_copy = records_in(copy_file);
  auto of_season = records_in(season_file);
  if (!of_copy || !of_season) return planned;
  planned.records = std::move(*of_season);
  std::set<std::string> in_copy;
  for (const records::Record& record : *of_copy) in_copy.insert(wire::json_from_record(record));
  planned.only_here.emplace();
  std::ranges::copy_if(planned.records, std::back_inserter(*planned.only_here), [&](const records::Record& record) { return !in_copy.contains(wire::json_from_record(record)); });
  return planned;
}

Result<Restored> restored(const fs::path& season_file, const fs::path& copy_file, Instant now, const ZoneOffsets& zone) {
  const auto copy = whole_copy(copy_file);
  if (!copy) return copy.problems();
  Restored done{copy->rows, {}};
  const detail::Unfinished unfinished(season_file);
  try {
    detail::remove_abandoned(season_file);
    detail::Extent extent;
    {
      auto source = detail::open_to_check(copy_file);
      if (!source) return source.problems();
      extent = detail::write_snapshot(**source, unfinished.file);
    }
    const auto written = whole_copy(unfinished.file);
    if (!written) return written.problems();
    if (!extent.is_of(*copy) || !extent.is_of(*written)) throw detail::Failure{SQLITE_IOERR, "the copy changed while it was read"};

    auto sole = detail::sole_access(season_file);
    if (!sole) return sole.problems();
    if (!sole->exists) {
      if (auto left = detail::left_side_file(season_file)) return *left;
      const auto named = detail::give_name(unfinished.file, season_file);
      return named ? Result<Restored>(done) : named.problems();
    }
    auto kept = keep_present(sole.value(), season_file, now, zone);
    if (!kept) return kept.problems();
    done.kept = std::move(kept).value();
    take_rights(season_file, unfinished.file);
    // The -wal of a damaged file must be gone before another file has its name: SQLite would take it for the new one's.
    if (!sole->database)
      for (const char* ending : {"-wal", "-journal", "-shm"}) fs::remove(season_file.string() + ending);
    if (std::rename(unfinished.file.c_str(), season_file.c_str()) != 0) throw detail::failure_of(errno, season_file.string());
    return confirmed_on_disk(season_file, done);
  } catch (const detail::Failure& failure) {
    return detail::problem_of(failure, season_file);
  } catch (const fs::filesystem_error& error) {
    return detail::problem_of(detail::failure_of(error.code().value(), error.what()), season_file);
  }
}

}  // namespace redd::logbook
