// cli/place.h
// Which season a command works on, and the moment it is about.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>

#include "server/season_desk.h"

namespace redd::cli {

/// A variable of the environment that is set and not empty.
std::optional<std::string> environment(const char* name);

/// What the flags before and after any command say.
struct Place {
  std::optional<std::string> data_dir{};  ///< --data
  bool demo = false;                      ///< --demo: the invented season
  std::optional<std::string> as_of{};     ///< --as-of

  /// --data, else $REDD_DATA, else $XDG_DATA_HOME/redd, else ~/.local/share/redd.
  std::filesystem::path folder() const;
  /// season.redd or demo.redd in that folder.
  std::filesystem::path file() const;
};

/// Makes the folder of the place where there is none. Errors  cannot_write; empty when it is there.
Problems made_folder(const Place& place);

/// The season opened for one command.
struct Opened {
  std::unique_ptr<server::SeasonDesk> desk;
  std::shared_ptr<const server::Look> look;
  Instant now{};  ///< the moment the command is about
  Instant written_at() const { return desk->written_at(*look, now); }
};

/// Opens it. Errors: no_season, naming both ways on; those of SeasonDesk.
Result<Opened> open_season(const Place& place);

/// A time as people type it at the school's clock: "07:50", "2031-02-14", "2031-02-14 07:50", or RFC 3339.
///
/// In      now: "07:50" means that day. A day without a time is its noon (today: now).
/// Errors  not_a_time; skipped_or_twice when the clocks change over it: the sentence shows how to say which is meant.
Result<Instant> instant_from_typed(const std::string& text, const ZoneOffsets& zone, Instant now);

}  // namespace redd::cli
