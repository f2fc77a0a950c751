#include "logbook/copies.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <set>

namespace redd::logbook {
namespace {

namespace fs = std::filesystem;

constexpr std::array whys{Why::daily, Why::before_import, Why::before_undo, Why::before_restore, Why::before_upgrade, Why::by_hand, Why::damaged};

constexpr std::size_t days_kept = 7, weeks_kept = 5, months_kept = 12, others_kept = 5;

/// "2031-02-14T145003Z": RFC 3339 without the colons, which not every file system takes.
std::optional<Instant> instant_from_name(std::string_view text) {
  if (text.size() != 18) return std::nullopt;
  return instant_from_rfc3339(std::string(text.substr(0, 13)) + ":" + std::string(text.substr(13, 2)) + ":" + std::string(text.substr(15)));
}

/// The copy a file's name stands for. In: name after "<season>-copy-".
std::optional<Copy> copy_from(const fs::path& file, std::string_view rest) {
  Copy copy{file, 0, {}, {}};
  const auto [end, error] = std::from_chars(rest.data(), rest.data() + rest.size(), copy.number);
  if (error != std::errc() || copy.number <= 0) return std::nullopt;
  rest.remove_prefix(static_cast<std::size_t>(end - rest.data()));
  if (rest.size() < 20 || rest[0] != '-' || rest[19] != '-' || !rest.ends_with(".redd")) return std::nullopt;
  const auto at = instant_from_name(rest.substr(1, 18));
  const std::string_view word = rest.substr(20, rest.size() - 25);
  const auto why = std::ranges::find(whys, word, word_of);
  if (!at || why == whys.end()) return std::nullopt;
  copy.made_at = *at;
  copy.why = *why;
  return copy;
}

}  // namespace

std::string_view word_of(Why why) {
  switch (why) {
    case Why::daily: return "daily";
    case Why::before_import: return "before-import";
    case Why::before_undo: return "before-undo";
    case Why::before_restore: return "before-restore";
    case Why::before_upgrade: return "before-upgrade";
    case Why::by_hand: return "by-hand";
    case Why::damaged: return "damaged";
  }
  broken_promise("word_of", "unknown reason of a copy");
}

Problem not_whole(const KeptCopy& copy) {
  return {"damaged", "", said("Copy {0} is made, but records of the season are damaged, and so they are in the copy; no older copy is let go until that is mended. \"redd check\" says what is wrong.", copy.number)};
}

fs::path copies_folder(const fs::path& season_file) { return season_file.parent_path() / "copies"; }

Result<std::vector<Copy>> copies_of(const fs::path& season_file) {
  const std::string stem = season_file.stem().string() + "-copy-";
  std::vector<Copy> copies;
  std::error_code failed;
  fs::directory_iterator at(copies_folder(season_file), failed);
  for (; !failed && at != fs::directory_iterator(); at.increment(failed)) {
    const std::string name = at->path().filename().string();
    if (!name.starts_with(stem)) continue;
    if (auto copy = copy_from(at->path(), std::string_view(name).substr(stem.size()))) copies.push_back(std::move(*copy));
  }
  if (failed && failed != std::errc::no_such_file_or_directory)
    return Problem{"read_only", "", said("The folder {0} can't be read ({1}), so what copies it holds is not known. Give this user the right to read it.", copies_folder(season_file).string(), failed.message())};
  std::ranges::sort(copies, [](const Copy& a, const Copy& b) { return std::pair(a.number, a.made_at) > std::pair(b.number, b.made_at); });
  return copies;
}

std::vector<Copy> surplus_of(std::span<const Copy> newest_first, const ZoneOffsets& zone) {
  std::set<Date> days;
  std::set<long> weeks, months;
  std::size_t others = 0;
  const auto is_needed = [](auto& seen, auto what, std::size_t most) { return seen.size() < most && seen.insert(what).second; };
  std::vector<Copy> surplus;
  for (const Copy& copy : newest_first) {
    // What a restore replaced may hold entries that are nowhere else.
    if (copy.why == Why::damaged || copy.why == Why::before_restore) continue;
    const Date day = local_day(zone, copy.made_at);
    const std::chrono::year_month_day date(day);
    const long since_a_monday = day.time_since_epoch().count() + 3;  // 1 January 1970 was a Thursday
    const long week = since_a_monday >= 0 ? since_a_monday / 7 : (since_a_monday - 6) / 7;
    // Each is asked, so that one copy may stand for its day, its week and its month.
    const bool of_day = is_needed(days, day, days_kept), of_week = is_needed(weeks, week, weeks_kept),
               of_month = is_needed(months, static_cast<int>(date.year()) * 12L + static_cast<unsigned>(date.month()), months_kept);
    const bool of_another = copy.why != Why::daily && others < others_kept;
    others += of_another ? 1 : 0;
    if (!of_day && !of_week && !of_month && !of_another) surplus.push_back(copy);
  }
  return surplus;
}

std::optional<Copy> newest_whole(std::span<const Copy> newest_first) {
  const auto whole = std::ranges::find_if(newest_first, [](const Copy& copy) { return copy.why != Why::damaged; });
  return whole == newest_first.end() ? std::nullopt : std::optional(*whole);
}

bool copy_is_due(std::span<const Copy> newest_first, Instant now, const ZoneOffsets& zone) {
  const auto whole = newest_whole(newest_first);
  // Another day, not a later one: a clock that once ran ahead must not stop the copies until it is overtaken.
  return !whole || local_day(zone, whole->made_at) != local_day(zone, now);
}

}  // namespace redd::logbook
