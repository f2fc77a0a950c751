#include "logbook/check.h"

#include "logbook/detail/rows.h"
#include "logbook/detail/season_file.h"

namespace redd::logbook {
namespace {

/// So many faults are listed; more say nothing new.
constexpr int most_faults = 20;

void check_pages(detail::Database& database, FileCheck& found) {
  auto faults = database.prepare("PRAGMA integrity_check(" + std::to_string(most_faults) + ")");
  while (faults.step())
    if (const std::string fault = faults.text(0); fault != "ok") found.damage.push_back({"damaged", "", said("The file is damaged: {0}.", fault)});
  auto strays = database.prepare("PRAGMA foreign_key_check");
  for (int n = 0; n < most_faults && strays.step(); ++n)
    found.damage.push_back({"damaged", "", said("Record {0} corrects a record that is not in the file.", strays.integer(1))});
}

void check_records(detail::Database& database, FileCheck& found) {
  auto rows = database.prepare(detail::select_after_sql);
  rows.bind(1, std::int64_t{0});
  std::vector<records::Record> records;
  while (rows.step()) {
    auto row = detail::record_of(rows);
    auto* record = std::get_if<records::Record>(&row);
    const records::RecordId id = record ? record->id : std::get<Unreadable>(row).id;
    for (records::RecordId missing = found.last_id + 1; missing < id && found.unreadable.size() < detail::most_missing; ++missing)
      found.unreadable.push_back(detail::missing_record(missing));
    found.last_id = id;
    ++found.rows;
    if (!record) {
      found.unreadable.push_back(std::move(std::get<Unreadable>(row)));
      continue;
    }
    ++found.readable;
    found.last_logged_at = record->logged_at;
    if (detail::stands_for_a_loss(detail::columns_of(*record))) found.lost.push_back(id);
    records.push_back(std::move(*record));
  }
  found.read_to_end = true;
  const auto counting = records::effective(records, Instant::max());
  if (const auto* season = records::find_season(counting)) found.season = season->name;
}

void check_rows(detail::Database& database, FileCheck& found) {
  found.layout = static_cast<int>(database.integer("PRAGMA user_version"));
  found.older_layout = found.layout < detail::all_migrations().back().version;
  if (!found.older_layout) return check_records(database, found);
  found.rows = database.integer("SELECT count(*) FROM records");
  found.last_id = database.integer("SELECT max(id) FROM records");
}

}  // namespace

Result<FileCheck> check_file(const std::filesystem::path& path) {
  auto database = detail::open_to_check(path);
  if (!database) return database.problems();
  FileCheck found;
  // Damage stops one of the two; the other is done all the same, and what was found up to there counts.
  for (const auto part : {check_pages, check_rows}) {
    try {
      part(**database, found);
    } catch (const detail::Failure& failure) {
      const Problem problem = detail::problem_of(failure, path);
      if (problem.code != "damaged") return problem;
      if (found.damage.empty()) found.damage.push_back(problem);
    }
  }
  return found;
}

}  // namespace redd::logbook
