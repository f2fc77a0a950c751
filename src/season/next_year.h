#pragma once
// What this season teaches the next one: each lesson with its numbers and how sure they are. Start at look_at_next_year().

#include "season/report_look.h"

namespace redd::season {

struct Lesson {
  enum class Verdict { keep, better, not_known };
  std::string key{};        ///< "readiness", "water", "milestones", "kits", "losses", "tests", "temperatures"
  Verdict verdict = Verdict::not_known;
  Sentence found{};         ///< what the season shows
  Sentence advice{};        ///< for next year; empty when there is none
  Sentence sure{};          ///< what it rests on, and how sure that is
};

struct NextYear {
  ReportLook report{};      ///< what the lessons are drawn from
  std::vector<Lesson> lessons{};
};

/// In      as look_at_day(). At the end of the season, or on any day for what has been of it.
/// Out     a fixed order of lessons; what the log can't tell is there as not known.
/// Shape   that of look_at_report(), and some tens of milliseconds for every three weeks with animals.
/// Errors  as look_at_day().
Result<NextYear> look_at_next_year(const Setup& setup, std::span<const records::Record> records, Instant now);

/// The lessons one by one.
Lesson readiness_lesson(const ReportLook& look);
Lesson water_lesson(const Setup& setup, std::span<const records::Record> records, const ReportLook& look);
Lesson milestone_lesson(const ReportLook& look);
Lesson kit_lesson(const ReportLook& look);
Lesson loss_lesson(const ReportLook& look);
Lesson test_lesson(const ReportLook& look);
Lesson temperature_lesson(const ReportLook& look);

/// First day with animals and the last one to speak of: that of the last release, or today. Nothing before eggs came.
struct DaysWithAnimals {
  Date first{}, last{};
  int count() const { return static_cast<int>((last - first).count()) + 1; }
};
std::optional<DaysWithAnimals> days_with_animals(const ReportLook& look);

}  // namespace redd::season
