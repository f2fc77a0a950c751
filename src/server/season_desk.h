// server/season_desk.h
// One open season: its file, the records in memory, and the clock that says when "now" is. The server and the command
// line both work through it, so they can't differ in what they accept. Start at SeasonDesk::open(), then look() and
// add().
#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "logbook/logbook.h"
#include "quantities/result.h"
#include "quantities/time.h"
#include "records/record.h"

namespace redd::server {

using Clock = std::function<Instant()>;

/// The machine's own clock, whole seconds.
Instant system_now();

/// Everything known of the season at one moment of reading. Never changes; a later look() gives another.
struct Look {
  std::vector<records::Record> records{};
  std::vector<logbook::Unreadable> unreadable{};
  std::optional<records::SeasonSetup> season{};  ///< none: nothing has been set up yet
  ZoneOffsets zone{};                            ///< of the school; UTC while there is no season
  bool invented() const { return season && season->invented; }
};

/// What makes any answer from this file doubtful, in sentences: records that can't be read, a clock behind the newest entry.
/// It may be the very thing that mattered, so every view shows it.
std::vector<Phrase> doubts_of(const Look& look, Instant clock);

/// What a change of kits took away: readings that could be read on their kit before and can't be any more, by test, in a
/// sentence a kit. Empty when nothing was lost.
std::vector<Phrase> lost_readings(std::span<const records::Record> before, std::span<const records::Record> after);

/// First and last day of an invented season's story, and the day it opens on.
struct Story {
  Date first_day{};
  Date last_day{};
  Date today{};
};

class SeasonDesk {
 public:
  Instant clock() const { return clock_(); }
  /// Opens the season file, or stands ready for one when it does not exist yet.
  ///
  /// In      clock: asked for every "now" of a real season; an invented one tells its own time.
  /// Errors  those of Logbook::open(), and unknown_time_zone when the machine can't tell the school's time.
  static Result<std::unique_ptr<SeasonDesk>> open(const std::filesystem::path& file, Clock clock,
                                                  logbook::OpenMode mode = logbook::OpenMode::read_write);

  /// Opens the invented demo season, first making its file out of the one packed into the program.
  static Result<std::unique_ptr<SeasonDesk>> open_demo(const std::filesystem::path& file, Clock clock,
                                                       logbook::OpenMode mode = logbook::OpenMode::read_write);

  /// The season as it is in the file now, also when another program has added to it.
  Result<std::shared_ptr<const Look>> look();

  /// The moment a question is about.
  ///
  /// In      as_of: "2031-02-14" (that evening, after the last entry of the day) or RFC 3339; nothing: now.
  /// Errors  not_an_instant; not_yet (a real season has no tomorrow); before_the_season. The field is "as_of".
  Result<Instant> moment(const Look& look, std::optional<std::string_view> as_of) const;

  /// Keeps an entry, making the season file when this is its set-up.
  ///
  /// In      now: from moment(); in an invented season also the time the entry counts as written down.
  /// Errors  no_season, unknown_species, unknown_model, unknown_time_zone, and those of Logbook::append().
  Result<logbook::Appended> add(const records::Entry& entry, Instant now);

  /// Keeps all or none.
  Result<std::vector<logbook::Appended>> add_all(const std::vector<records::Entry>& entries, Instant now);

  const std::filesystem::path& file() const { return file_; }

 private:
  SeasonDesk(std::filesystem::path file, Clock clock, logbook::OpenMode mode);
  Result<std::shared_ptr<const Look>> look_locked();

  std::filesystem::path file_;
  Clock clock_;
  logbook::OpenMode mode_;
  std::mutex mutex_;
  std::optional<logbook::Logbook> logbook_{};
  std::shared_ptr<const Look> look_;
  records::RecordId seen_ = 0;
};

/// Story of an invented season; nothing for a real or an empty one.
std::optional<Story> story_of(const Look& look);

/// What the core can't check of a season: that its species, development model and time zone exist. Fields below
/// "/body".
Problems problems_of_names(const records::SeasonSetup& season);

/// Kits in force at a moment, the newest of each key, in order of key.
std::vector<records::Kit> kits_in_force(const Look& look, Instant now);

/// Kits without a brand that come with the program, to start from.
std::vector<records::Kit> kit_templates();

}  // namespace redd::server
