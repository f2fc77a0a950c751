#include "logbook/salvage.h"

#include <algorithm>
#include <fstream>
#include <iterator>

#include "logbook/detail/carve.h"
#include "logbook/detail/files.h"
#include "logbook/detail/season_file.h"

namespace redd::logbook {
namespace {

namespace fs = std::filesystem;

/// Assumed: a season has fewer records than this.
constexpr records::RecordId most_holes = 1'000'000;

std::string bytes_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

detail::Rows rows_of(const fs::path& file) { return detail::carved_rows(bytes_of(file), bytes_of(file.string() + "-wal")); }

/// Adds what a copy has more; nothing of a copy that says something else of the same number. A note of an earlier loss says nothing.
std::size_t add_rows(detail::Rows& rows, detail::Rows more) {
  std::erase_if(more, [](const auto& each) { return detail::stands_for_a_loss(each.second); });
  for (const auto& [id, row] : more) {
    const auto known = rows.find(id);
    if (known == rows.end() || detail::stands_for_a_loss(known->second)) continue;
    if (detail::check_sum(known->second) != detail::check_sum(row)) return 0;
  }
  const std::size_t before = rows.size();
  rows.insert(more.begin(), more.end());
  return rows.size() - before;
}

void write_rows(const detail::Rows& rows, const fs::path& unfinished) {
  const auto database = detail::make_season_file(unfinished);
  {
    detail::Transaction transaction(*database);
    auto insert = database->prepare(detail::insert_sql);
    const detail::Columns* neighbour = &rows.begin()->second;
    records::RecordId next = 1;
    for (const auto& [id, row] : rows) {
      for (; next < id; ++next) detail::insert(insert, detail::note_of_loss(next, neighbour->logged_at));
      detail::insert(insert, row);
      neighbour = &row;
      next = id + 1;
    }
    transaction.commit();
  }
  detail::settle(*database);
}

}  // namespace

Result<Salvaged> salvaged(const fs::path& damaged, std::span<const fs::path> copies, const fs::path& target) {
  std::error_code ignored;
  if (!fs::is_regular_file(damaged, ignored))
    return Problem{"file_missing", "", said("There is no file {0}. Check the name.", damaged.string())};
  if (fs::exists(target, ignored))
    return Problem{"file_exists", "", said("There is already a file {0}; it was left as it is. Choose another name.", target.string())};
  if (auto left = detail::left_side_file(target)) return *left;
  detail::Rows rows = rows_of(damaged);
  Salvaged result{rows.size(), 0, {}, 0, false};
  for (const fs::path& copy : copies) result.from_copies += add_rows(rows, rows_of(copy));
  if (!rows.empty()) result.last_id = rows.rbegin()->first;
  // A file with more holes than any season has records is not one of ours.
  if (rows.empty() || result.last_id > static_cast<records::RecordId>(rows.size()) + most_holes)
    return Problem{"nothing_found", "", said("No record could be found in {0}, so no new file was made. If there is a copy, put it back with \"redd restore\".", damaged.string())};
  for (records::RecordId id = 1; id < result.last_id; ++id)
    if (!rows.contains(id)) result.lost.push_back(id);
  result.has_season = std::ranges::any_of(rows, [](const auto& row) { return row.second.kind == "season_setup"; });

  const detail::Unfinished unfinished(target);
  try {
    write_rows(rows, unfinished.file);
  } catch (const detail::Failure& failure) {
    return detail::problem_of(failure, target);
  }
  const auto named = detail::give_name(unfinished.file, target);
  return named ? Result<Salvaged>(std::move(result)) : named.problems();
}

}  // namespace redd::logbook
