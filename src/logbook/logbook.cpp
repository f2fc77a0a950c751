#include "logbook/logbook.h"

#include <algorithm>
#include <mutex>
#include <new>

#include "ledger/ledger.h"
#include "logbook/detail/files.h"
#include "logbook/detail/rows.h"
#include "logbook/detail/season_file.h"
#include "logbook/detail/snapshot.h"
#include "quantities/verbatim.h"
#include "zones/zones.h"

namespace redd::logbook {

using records::Entry;
using records::Record;
using records::RecordId;

namespace {

/// So many entries of a batch are reported before giving up on it.
constexpr std::size_t most_problems = 200;

std::vector<DatedEntry> dated(std::span<const Entry> entries, Instant logged_at) {
  std::vector<DatedEntry> result;
  result.reserve(entries.size());
  for (const Entry& entry : entries) result.push_back({entry, logged_at});
  return result;
}

}  // namespace

class Logbook::Impl {
 public:
  Impl(std::filesystem::path path, std::unique_ptr<detail::Database> database, bool for_writing)
      : path_(std::move(path)), database_(std::move(database)), for_writing_(for_writing) {}

  /// Runs `work` alone, with failures of the file turned into problems.
  template <class Work>
  auto guarded(Work work) -> decltype(work()) {
    const std::lock_guard lock(mutex_);
    try {
      return work();
    } catch (const detail::Failure& failure) {
      return detail::problem_of(failure, path_);
    } catch (const std::bad_alloc&) {
      return Problem{"out_of_memory", "", said("There is not enough memory to read {0}: close other programs and try again.", path_.string())};
    }
  }

  /// Reads what was added since the last look, by whoever.
  void catch_up() {
    auto rows = database_->prepare(detail::select_after_sql);
    rows.bind(1, newest_);
    while (rows.step()) take(detail::record_of(rows));
  }

  Contents after(RecordId id) const {
    Contents result;
    const auto from = std::ranges::upper_bound(ledger_.records(), id, {}, &Record::id);
    result.records.assign(from, ledger_.records().end());
    for (const Unreadable& unreadable : unreadable_)
      if (unreadable.id > id) result.unreadable.push_back(unreadable);
    return result;
  }

  Result<std::vector<Appended>> append(std::span<const DatedEntry> entries, bool in_a_batch) {
    if (!for_writing_) return detail::problem_of({SQLITE_READONLY, "opened for reading"}, path_);
    detail::Transaction transaction(*database_);
    catch_up();
    const Mark mark = mark_here();
    try {
      auto result = append_locked(entries, in_a_batch);
      if (result && !detail::has_moved(*database_)) transaction.commit();
      else back_to(mark);
      // Asked again afterwards: what went into a file that is no longer the season was not kept.
      if (result && detail::has_moved(*database_))
        return Problem{"file_moved", "", said("{0} was moved, replaced or deleted while this program had it open; nothing was kept. Stop Redd and start it again, then send the entry once more.", path_.string())};
      return result;
    } catch (...) {
      back_to(mark);
      throw;
    }
  }

  RecordId newest() const { return newest_; }
  const std::filesystem::path& path() const { return path_; }
  detail::Database& database() { return *database_; }

 private:
  /// What is remembered of the file before a batch, to return to when the batch is not kept.
  struct Mark {
    ledger::Ledger::Mark ledger;
    std::size_t unreadable;
    RecordId newest;
  };
  Mark mark_here() const { return {ledger_.mark(), unreadable_.size(), newest_}; }
  void back_to(const Mark& mark) {
    ledger_.back_to(mark.ledger);
    unreadable_.resize(mark.unreadable);
    newest_ = mark.newest;
  }

  void take(std::variant<Record, Unreadable> row) {
    auto* record = std::get_if<Record>(&row);
    const RecordId id = record ? record->id : std::get<Unreadable>(row).id;
    for (RecordId missing = newest_ + 1; missing < id && unreadable_.size() < detail::most_missing; ++missing)
      unreadable_.push_back(detail::missing_record(missing));
    newest_ = id;
    if (!record) {
      unreadable_.push_back(std::move(std::get<Unreadable>(row)));
      return;
    }
    ledger_.take(std::move(*record));
  }

  Result<std::vector<Appended>> append_locked(std::span<const DatedEntry> entries, bool in_a_batch) {
    auto insert = database_->prepare(detail::insert_sql);
    std::vector<Appended> result;
    Problems problems;
    for (std::size_t i = 0; i < entries.size() && problems.size() < most_problems; ++i) {
      const auto& [entry, logged_at] = entries[i];
      auto appended = append_one(insert, entry, logged_at);
      if (appended) {
        result.push_back(std::move(appended).value());
        continue;
      }
      for (Problem p : appended.problems()) {
        if (in_a_batch) p.field = "/entries/" + std::to_string(i) + p.field;
        problems.push_back(std::move(p));
      }
    }
    if (!problems.empty()) return problems;
    return result;
  }

  Result<Appended> append_one(detail::Statement& insert, const Entry& entry, Instant logged_at) {
    auto next = ledger_.next(entry, logged_at, newest_ + 1);
    if (!next || next->already_known) return next;
    const Record record = next->record;
    detail::insert(insert, detail::columns_of(record));
    take(record);
    return next;
  }

  std::filesystem::path path_;
  std::unique_ptr<detail::Database> database_;
  bool for_writing_;
  std::mutex mutex_;
  ledger::Ledger ledger_{zones::season_zone};
  std::vector<Unreadable> unreadable_;
  RecordId newest_ = 0;
};

Logbook::Logbook(std::unique_ptr<Impl> impl) : impl_(std::move(impl)) {}
Logbook::Logbook(Logbook&&) noexcept = default;
Logbook& Logbook::operator=(Logbook&&) noexcept = default;
Logbook::~Logbook() = default;

Result<Logbook> Logbook::open(const std::filesystem::path& path, OpenMode mode) {
  const bool for_writing = mode == OpenMode::read_write;
  auto database = detail::open_season_file(path, for_writing);
  if (!database) return database.problems();
  return Logbook(std::make_unique<Impl>(path, std::move(database).value(), for_writing));
}

Result<Logbook> Logbook::create(const std::filesystem::path& path) { return create_from(path, {}); }

Result<Logbook> Logbook::create_from(const std::filesystem::path& path, std::span<const Record> records) {
  namespace fs = std::filesystem;
  std::error_code error;
  if (fs::exists(path, error))
    return Problem{"file_exists", "", said("There is already a file {0}; it was left as it is. Choose another name.", path.string())};
  if (path.has_parent_path() && !fs::is_directory(path.parent_path(), error))
    return Problem{"folder_missing", "", said("There is no folder {0}: make it first, or choose another.", path.parent_path().string())};
  if (auto left = detail::left_side_file(path)) return *left;
  const detail::Unfinished unfinished(path);
  try {
    Impl impl(path, detail::make_season_file(unfinished.file), true);
    std::vector<DatedEntry> entries;
    for (const Record& record : records) {
      if (record.id != static_cast<RecordId>(entries.size()) + 1)
        return Problem{"ids_not_in_order", "/records/" + std::to_string(entries.size()) + "/id", "Records must be numbered 1, 2, 3 and so on without gaps."};
      entries.push_back({record.entry, record.logged_at});
    }
    auto appended = impl.guarded([&] { return impl.append(entries, true); });
    if (!appended) return appended.problems();
    for (const Appended& a : *appended)
      if (a.already_known)
        return Problem{"given_twice", "/records", said("Two records carry the key \"{0}\": a season keeps each once.", verbatim(a.record.entry.entry_key.value_or("")))};
    detail::settle(impl.database());
  } catch (const detail::Failure& failure) {
    return detail::problem_of(failure, path);
  }
  if (const auto named = detail::give_name(unfinished.file, path); !named) return named.problems();
  auto opened = open(path);
  // A season that could be written but not opened was not made: the next try must find the name free.
  if (!opened) detail::remove_with_side_files(path);
  return opened;
}

Result<Appended> Logbook::append(const Entry& entry, Instant logged_at) {
  const DatedEntry one{entry, logged_at};
  auto result = impl_->guarded([&] { return impl_->append({&one, 1}, false); });
  if (!result) return result.problems();
  return std::move(result.value().front());
}

Result<std::vector<Appended>> Logbook::append_all(std::span<const Entry> entries, Instant logged_at) {
  return append_dated(dated(entries, logged_at));
}

Result<std::vector<Appended>> Logbook::append_dated(std::span<const DatedEntry> entries) {
  return impl_->guarded([&] { return impl_->append(entries, true); });
}

Result<Contents> Logbook::records() { return records_after(0); }

Result<Contents> Logbook::records_after(RecordId id) {
  return impl_->guarded([&]() -> Result<Contents> {
    impl_->catch_up();
    return impl_->after(id);
  });
}

Result<RecordId> Logbook::last_id() {
  return impl_->guarded([&]() -> Result<RecordId> {
    impl_->catch_up();
    return impl_->newest();
  });
}

Result<KeptCopy> Logbook::keep_copy(Why why, Instant now, const ZoneOffsets& zone) {
  return impl_->guarded([&] { return detail::keep_copy_of(impl_->database(), impl_->path(), why, now, zone); });
}

const std::filesystem::path& Logbook::path() const { return impl_->path(); }

}  // namespace redd::logbook
