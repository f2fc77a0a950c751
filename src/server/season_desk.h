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

#include "desk/desk.h"
#include "logbook/logbook.h"
#include "quantities/result.h"
#include "quantities/time.h"
#include "records/record.h"

namespace redd::server {

using Clock = std::function<Instant()>;

/// The machine's own clock, whole seconds.
Instant system_now();

using desk::doubts_of;
using desk::kits_in_force;
using desk::Look;
using desk::lost_readings;
using desk::Story;
using desk::story_of;

class ThermometerKeeper;

class SeasonDesk final : public desk::Desk {
 public:
  Instant clock() const override { return clock_(); }
  /// Opens the season file, or stands ready for one when it does not exist yet.
  ///
  /// From then on the first entry of each day also makes a copy (logbook/copies.h), and so does what brings many entries. A copy that
  /// can't be made keeps no entry out; Look::of_copies says so until one could be made.
  ///
  /// In      clock: asked for every "now" of a real season; an invented one tells its own time.
  /// Errors  those of Logbook::open(), and unknown_time_zone when the machine can't tell the school's time.
  static Result<std::unique_ptr<SeasonDesk>> open(const std::filesystem::path& file, Clock clock,
                                                  logbook::OpenMode mode = logbook::OpenMode::read_write);

  /// Opens the invented demo season, first making its file out of the one packed into the program.
  static Result<std::unique_ptr<SeasonDesk>> open_demo(const std::filesystem::path& file, Clock clock,
                                                       logbook::OpenMode mode = logbook::OpenMode::read_write);

  /// The season as it is in the file now, also when another program has added to it.
  Result<std::shared_ptr<const Look>> look() override;

  // Makes the season file when there is none yet. Further errors: those of Logbook::append().
  Result<records::Appended> add(const records::Entry& entry, Instant now) override;
  Result<std::vector<records::Appended>> add_all(const std::vector<records::Entry>& entries, Instant now) override;
  Result<std::size_t> take_in(std::span<const records::Record> file) override;
  std::vector<records::Kit> kit_templates() const override;

  /// Keeps a copy of the season as it is now.
  /// Errors  no_season; demo_season; those of Logbook::keep_copy().
  Result<logbook::KeptCopy> keep_copy(logbook::Why why);

  const std::filesystem::path& file() const { return file_; }
  bool is_demo() const { return is_demo_; }

  /// The live thermometer of this season; nullptr where none runs. In: outlives every question.
  void watch_by(ThermometerKeeper* keeper) { thermometer_ = keeper; }
  ThermometerKeeper* thermometer() const { return thermometer_; }

 private:
  SeasonDesk(std::filesystem::path file, Clock clock, logbook::OpenMode mode);
  Result<std::shared_ptr<const Look>> look_locked();
  void keep_copy_of_day(Instant moment);
  void keep_copy_before_many(std::size_t entries);
  void remember(const Result<logbook::KeptCopy>& copy);

  std::filesystem::path file_;
  Clock clock_;
  logbook::OpenMode mode_;
  bool is_demo_ = false;
  ThermometerKeeper* thermometer_ = nullptr;
  bool keeps_copies_ = false;  ///< by itself: of a season of one's own that may be written
  std::mutex mutex_;
  std::optional<logbook::Logbook> logbook_{};
  std::shared_ptr<const Look> look_;
  std::vector<Phrase> of_copies_{};
  records::RecordId copied_ = 0;  ///< the last record of the copy this desk made last
  records::RecordId seen_ = 0;
};

/// Why nothing keeps copies of the invented season.
Problem no_copies_of_the_demo();

/// What the core can't check of a season: that its species, development model and time zone exist. Fields below
/// "/body".
Problems problems_of_names(const records::SeasonSetup& season);

/// The day the packed story opens on; nothing when this build carries none.
std::optional<Date> packed_opening_day();

/// Kits without a brand that come with the program, to start from.
std::vector<records::Kit> kit_templates();

}  // namespace redd::server
