#pragma once
// The log: immutable records, and which of them count at a moment. Start at effective().

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "quantities/result.h"
#include "quantities/time.h"
#include "records/bodies.h"

namespace redd::records {

using RecordId = std::int64_t;

using Body = std::variant<SeasonSetup, Kit, SourceWater, Reading, TemperatureReading, WaterChange, Dose, SetPoint,
                          EggReceipt, Count, Feeding, FilterWork, EquipmentEvent, Milestone, Note, Release, Closure, Duty, TankBuild,
                          TopUp, Spoon, FishSample, AdviceAnswer, Guess, Undo>;

/// An entry before the logbook has given it an id.
struct Entry {
  Instant at{};                            ///< when it happened
  std::string author{};                    ///< a label, never a person's name
  std::optional<RecordId> supersedes{};    ///< the record this one corrects
  std::optional<std::string> entry_key{};  ///< the sender's own key: the same key twice is one record
  Body body{Note{}};
};

/// An entry as kept. Nothing in it ever changes.
struct Record {
  RecordId id = 0;
  Instant logged_at{};  ///< when it was written down; decides what was known on a day
  Entry entry{};
};

/// A record that is in the season's file but can't be understood: damaged on disk, or written by another version.
struct Unreadable {
  RecordId id = 0;
  Problems problems{};  ///< what is wrong with it, naming the record
};

/// Answer to an entry that was sent to be kept.
struct Appended {
  Record record{};
  bool already_known = false;  ///< the entry_key was in the log before: this is that record, nothing was added
};

/// Where a record stands in the light of later ones.
struct Standing {
  std::optional<RecordId> superseded_by{};
  std::optional<RecordId> undone_by{};
  bool counts() const { return !superseded_by && !undone_by; }
};

/// Standing of each record, in the order given. An undone correction brings its original back; an undone undo too.
/// In      records: in order of id.
std::vector<Standing> standings(std::span<const Record> records);

/// The records that count, known by `now` (logged and happened by then), ordered by time then id. Undo records are spent.
std::vector<Record> effective(std::span<const Record> records, Instant now);

/// Everything wrong with a new entry against the log so far: a reading without its kit, a step that is not on the card,
/// a second season, a date before the season, a correction of something that no longer counts. Empty when it may be kept.
/// In      zone: of the season. now: entries more than a day ahead of it are refused.
Problems problems_of(const Entry& entry, std::span<const Record> records, const ZoneOffsets& zone, Instant now);

/// Problems of a kit by itself (also used for kit files). Fields are paths below the kit, e.g. "/tests/2/steps".
Problems problems_of(const Kit& kit);

/// The kit in force of this key, or nullptr. In: effective records.
const Kit* find_kit(std::span<const Record> effective_records, std::string_view key);
/// The season in force, or nullptr.
const SeasonSetup* find_season(std::span<const Record> effective_records);

/// The newest description of the tank, or nullptr.
const TankBuild* find_tank_build(std::span<const Record> effective_records);

/// Kind as written in JSON, SQL and the command line, e.g. "water_change".
std::string_view kind_name(const Body& body);
/// Names of all kinds, in the order of Body.
std::vector<std::string_view> kind_names();
/// An empty body of that kind, or nothing.
std::optional<Body> body_of_kind(std::string_view kind);

}  // namespace redd::records
