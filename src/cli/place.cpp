#include "cli/place.h"

#include <cstdlib>

#include "quantities/verbatim.h"

namespace redd::cli {

std::optional<std::string> environment(const char* name) {
  const char* value = std::getenv(name);
  if (value == nullptr || *value == '\0') return std::nullopt;
  return value;
}

namespace {

/// "07:50" to its minutes after midnight.
std::optional<std::chrono::minutes> minutes_from(std::string_view text) {
  const auto digit = [&](std::size_t i) { return text[i] >= '0' && text[i] <= '9'; };
  if (text.size() == 4 && text[1] == ':') return minutes_from("0" + std::string(text));
  if (text.size() != 5 || text[2] != ':' || !digit(0) || !digit(1) || !digit(3) || !digit(4)) return std::nullopt;
  const int hours = (text[0] - '0') * 10 + text[1] - '0', minutes = (text[3] - '0') * 10 + text[4] - '0';
  if (hours > 23 || minutes > 59) return std::nullopt;
  return std::chrono::minutes(hours * 60 + minutes);
}

Problem not_a_time(const std::string& text) {
  return {"not_a_time", "--at",
          said("{0} \"{1}\" is not a time: write 07:50, 2031-02-14, \"2031-02-14 07:50\" or 2031-02-14T07:50:00-07:00.", verbatim("--at"), verbatim(text.substr(0, 40)))};
}

/// The same problems, of a time typed after --as-of instead of --at.
Problems named_as_of(Problems problems) {
  for (Problem& problem : problems) {
    problem.field = "--as-of";
    if (problem.sentence.parts.empty() || problem.sentence.parts.front() != "--at") continue;
    std::vector<Phrase> parts = problem.sentence.parts;
    parts.front() = verbatim("--as-of");
    problem.sentence = phrase_of(problem.sentence.pattern, std::move(parts));
  }
  return problems;
}

}  // namespace

std::filesystem::path Place::folder() const {
  if (data_dir) return *data_dir;
  if (const auto own = environment("REDD_DATA")) return *own;
  if (const auto shared = environment("XDG_DATA_HOME")) return std::filesystem::path(*shared) / "redd";
  return std::filesystem::path(environment("HOME").value_or(".")) / ".local/share/redd";
}

std::filesystem::path Place::file() const {
  return folder() / (demo ? "demo.redd" : "season.redd");
}

Problems made_folder(const Place& place) {
  std::error_code failed;
  std::filesystem::create_directories(place.folder(), failed);
  if (!failed) return {};
  return {{"cannot_write", "--data", said("The folder {0} can't be made: {1}. Choose another with --data DIR.", verbatim(place.folder().string()), verbatim(failed.message()))}};
}

Result<Opened> open_season(const Place& place) {
  std::error_code ignored;
  std::filesystem::create_directories(place.folder(), ignored);
  auto desk = place.demo ? server::SeasonDesk::open_demo(place.file(), server::system_now)
                         : server::SeasonDesk::open(place.file(), server::system_now);
  if (!desk) return desk.problems();
  const auto look = (*desk)->look();
  if (!look) return look.problems();
  if (!(*look)->season)
    return Problem{"no_season", "",
                   said("There is no season in {0} yet. Set one up with \"redd init\", or look at the invented one with \"redd --demo today\".", verbatim(place.folder().string()))};
  auto as_of = place.as_of;
  if (as_of && !date_from_iso(*as_of) && !instant_from_rfc3339(*as_of)) {
    const auto present = (*desk)->moment(**look, std::nullopt);
    if (!present) return present.problems();
    const auto typed = instant_from_typed(*as_of, (*look)->zone, *present);
    if (!typed) return named_as_of(typed.problems());
    as_of = rfc3339_from_instant(*typed);
  }
  auto now = (*desk)->moment(**look, as_of);
  if (!now) {
    Problems problems = now.problems();
    for (Problem& problem : problems)
      if (problem.field == "as_of") problem.field = "--as-of";
    return problems;
  }
  return Opened{std::move(desk).value(), *look, *now};
}

Result<Instant> instant_from_typed(const std::string& text, const ZoneOffsets& zone, Instant now) {
  if (const auto instant = instant_from_rfc3339(text)) return *instant;
  std::chrono::local_seconds local{};
  if (const auto time = minutes_from(text)) {
    local = local_day(zone, now) + *time;
  } else {
    const auto day = date_from_iso(std::string_view(text).substr(0, 10));
    if (!day) return not_a_time(text);
    if (text.size() == 10) {
      if (*day == local_day(zone, now)) return now;
      local = *day + std::chrono::hours(12);
    } else {
      const auto at =
          text[10] == ' ' || text[10] == 'T' ? minutes_from(std::string_view(text).substr(11)) : std::nullopt;
      if (!at) return not_a_time(text);
      local = *day + *at;
    }
  }
  const Instant instant = instant_of(zone, local);
  if (is_ambiguous_or_skipped(zone, local)) {
    const std::string before = rfc3339_local(zone, instant - std::chrono::hours(2)),
                      after = rfc3339_local(zone, instant + std::chrono::hours(2));
    const std::string day = iso_from_date(std::chrono::floor<std::chrono::days>(local));
    const auto minutes =
        std::chrono::duration_cast<std::chrono::minutes>(local - std::chrono::floor<std::chrono::days>(local)).count();
    const auto two = [](auto n) { return (n < 10 ? "0" : "") + std::to_string(n); };
    const std::string wall = day + "T" + two(minutes / 60) + ":" + two(minutes % 60) + ":00";
    return Problem{"skipped_or_twice", "--at",
                   said("{0} {1}: the clocks change over this time in {2}, so it occurs twice or not at all. Say which is meant: {3} or {4}.", verbatim("--at"), verbatim(text), verbatim(zone.name), verbatim(wall + before.substr(19)), verbatim(wall + after.substr(19)))};
  }
  return instant;
}

}  // namespace redd::cli
