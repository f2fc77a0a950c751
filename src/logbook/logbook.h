#pragma once
// The season file: every record of one season, in the order it was written, in one SQLite file (*.redd).
// Records are only ever added. Start at Logbook::open() and append(). The only SQL of the program is in this folder.

#include <filesystem>
#include <memory>
#include <span>
#include <vector>

#include "logbook/copies.h"
#include "quantities/result.h"
#include "records/record.h"

namespace redd::logbook {

enum class OpenMode { read_only, read_write };

using records::Appended;
using records::Unreadable;

/// What the file holds. Unreadable records are never silently left out: show them.
struct Contents {
  std::vector<records::Record> records{};  ///< in order of id
  std::vector<Unreadable> unreadable{};
};

/// An entry with its own time of writing down, for restoring a season and for the demo.
struct DatedEntry {
  records::Entry entry{};
  Instant logged_at{};
};

/// One open season file. Safe to use from several threads; several processes may hold the same file open.
///
/// Errors  every function reports problems by value. Codes: file_missing, file_exists, side_file_left, not_a_season_file, newer_schema,
///         damaged, read_only, disk_full, locked, disk_error, file_moved, unknown_time_zone, entry_key_reused, and those
///         of records::problems_of(). After any of them the file holds exactly what it held before.
class Logbook {
 public:
  /// Opens an existing season file: checks that it is one, checks it for damage, brings an older layout up to date
  /// (with a copy kept). A file that is not a season, or is newer than this program, is not touched.
  static Result<Logbook> open(const std::filesystem::path& path, OpenMode mode = OpenMode::read_write);

  /// Makes a new, empty season file and opens it. The file appears complete or not at all; an existing file is kept.
  static Result<Logbook> create(const std::filesystem::path& path);

  /// Makes a new season file that holds these records, checked like entries and given the same ids (1, 2, 3…).
  static Result<Logbook> create_from(const std::filesystem::path& path, std::span<const records::Record> records);

  Logbook(Logbook&&) noexcept;
  Logbook& operator=(Logbook&&) noexcept;
  ~Logbook();

  /// Keeps one entry. On return it is on disk. The rules (records::problems_of) are checked under the write lock, so two
  /// writers can't break one together.
  ///
  /// In      logged_at: the present moment; also the "now" of the rules.
  /// Errors  entry_key_reused when the key is known for a different body.
  Result<Appended> append(const records::Entry& entry, Instant logged_at);

  /// Keeps all entries or none. Fields of problems start with "/entries/<index>".
  Result<std::vector<Appended>> append_all(std::span<const records::Entry> entries, Instant logged_at);

  /// As append_all(), each entry with its own time of writing down, in order.
  Result<std::vector<Appended>> append_dated(std::span<const DatedEntry> entries);

  /// Everything in the file, in order of id.
  Result<Contents> records();

  /// Records with an id greater than this one.
  Result<Contents> records_after(records::RecordId id);

  /// The newest id, 0 when empty. As nothing ever changes or goes, it is also the version of the contents.
  Result<records::RecordId> last_id();

  /// Keeps a dated copy in the folder of copies (copies.h), read back and compared before it gets its name; then lets go of copies
  /// that are no longer needed, unless the new one has damaged records. The season itself is not touched.
  ///
  /// In      zone: the school's, for what is a day.
  /// Errors  disk_full, read_only, disk_error, damaged: the sentence begins with what it means for copies.
  Result<KeptCopy> keep_copy(Why why, Instant now, const ZoneOffsets& zone);

  const std::filesystem::path& path() const;

 private:
  class Impl;
  explicit Logbook(std::unique_ptr<Impl> impl);
  std::unique_ptr<Impl> impl_;
};

}  // namespace redd::logbook
