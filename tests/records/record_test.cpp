// Corrections, undo, and what was known when: laws over random logs.

#include "records/record.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <set>

namespace redd::records {
namespace {

using namespace std::chrono;

const Instant start = *instant_from_rfc3339("2030-10-01T00:00:00Z");

/// A log of notes, corrections and undos that point at earlier records, or at nothing.
rc::Gen<std::vector<Record>> any_log() {
  return rc::gen::exec([] {
    std::vector<Record> log;
    const int count = *rc::gen::inRange(0, 30);
    for (int i = 0; i < count; ++i) {
      Record r{i + 1, start + hours(i), {start + hours(*rc::gen::inRange(-50, 50)), "A", {}, {}, Note{"n"}}};
      const int what = *rc::gen::inRange(0, 3);
      const RecordId target = *rc::gen::inRange(0, i + 3);
      if (what == 1) r.entry.supersedes = target;
      if (what == 2) r.entry.body = Undo{target};
      log.push_back(r);
    }
    return log;
  });
}

const Undo* as_undo(const Record& r) { return std::get_if<Undo>(&r.entry.body); }

/// The definition, word by word and slowly: a record is undone by a later undo that is not itself undone, and corrected
/// by a later correction that is not undone.
bool undone(const std::vector<Record>& log, std::size_t i) {
  for (std::size_t k = i + 1; k < log.size(); ++k)
    if (as_undo(log[k]) && as_undo(log[k])->target == log[i].id && !undone(log, k)) return true;
  return false;
}
bool corrected(const std::vector<Record>& log, std::size_t i) {
  for (std::size_t k = i + 1; k < log.size(); ++k)
    if (!as_undo(log[k]) && log[k].entry.supersedes == log[i].id && !undone(log, k)) return true;
  return false;
}

RC_GTEST_PROP(Standings, FollowTheDefinition, ()) {
  const auto log = *any_log();
  const auto standing = standings(log);
  RC_ASSERT(standing.size() == log.size());
  for (std::size_t i = 0; i < log.size(); ++i) {
    RC_ASSERT(standing[i].undone_by.has_value() == undone(log, i));
    RC_ASSERT(standing[i].superseded_by.has_value() == corrected(log, i));
  }
}

RC_GTEST_PROP(Standings, PointAtLaterRecordsOnly, ()) {
  const auto log = *any_log();
  const auto standing = standings(log);
  for (std::size_t i = 0; i < log.size(); ++i) {
    if (standing[i].undone_by) RC_ASSERT(*standing[i].undone_by > log[i].id);
    if (standing[i].superseded_by) RC_ASSERT(*standing[i].superseded_by > log[i].id);
  }
}

RC_GTEST_PROP(Undo, OfTheNewestRecordBringsBackWhatWasBefore, ()) {
  auto log = *any_log();
  RC_PRE(!log.empty());
  const auto ids = [](const std::vector<Record>& records) {
    std::vector<RecordId> all;
    for (const Record& r : records) all.push_back(r.id);
    return all;
  };
  const Instant end = start + hours(10000);
  const auto newest = log.back();
  const std::vector<Record> before(log.begin(), log.end() - 1);
  log.push_back({newest.id + 1, start + hours(100), {start, "A", {}, {}, Undo{newest.id}}});
  RC_ASSERT(ids(effective(log, end)) == ids(effective(before, end)));
  // And undoing the undo brings the record itself back.
  log.push_back({newest.id + 2, start + hours(101), {start, "A", {}, {}, Undo{newest.id + 1}}});
  RC_ASSERT(ids(effective(log, end)) == ids(effective({log.data(), log.size() - 2}, end)));
}

RC_GTEST_PROP(Effective, HoldsWhatWasKnownThenInOrderOfTime, ()) {
  const auto log = *any_log();
  const Instant now = start + hours(*rc::gen::inRange(-5, 40));
  const auto known = effective(log, now);
  std::set<RecordId> seen;
  for (std::size_t i = 0; i < known.size(); ++i) {
    RC_ASSERT(known[i].logged_at <= now);
    RC_ASSERT(known[i].entry.at <= now);
    RC_ASSERT(!as_undo(known[i]));
    RC_ASSERT(seen.insert(known[i].id).second);
    if (i > 0) RC_ASSERT(std::pair(known[i - 1].entry.at, known[i - 1].id) < std::pair(known[i].entry.at, known[i].id));
  }
}

RC_GTEST_PROP(Effective, IsNotChangedByWhatIsWrittenLater, ()) {
  // What was known on a day stays what was known on that day.
  const auto log = *any_log();
  const int hour = *rc::gen::inRange(0, 30);
  const Instant now = start + hours(hour);
  const std::size_t then = std::min<std::size_t>(log.size(), static_cast<std::size_t>(hour) + 1);
  const auto later = effective(log, now), at_the_time = effective({log.data(), then}, now);
  RC_ASSERT(later.size() == at_the_time.size());
  for (std::size_t i = 0; i < later.size(); ++i) RC_ASSERT(later[i].id == at_the_time[i].id);
}

TEST(Kinds, AreKnownByName) {
  for (const auto kind : kind_names()) {
    const auto body = body_of_kind(kind);
    ASSERT_TRUE(body) << kind;
    EXPECT_EQ(kind_name(*body), kind);
  }
  EXPECT_FALSE(body_of_kind(""));
  EXPECT_FALSE(body_of_kind("Reading"));
}

}  // namespace
}  // namespace redd::records
