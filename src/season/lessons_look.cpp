#include "season/lessons_look.h"

#include <algorithm>

#include "inference/counts.h"

namespace redd::season {

Result<LessonsLook> look_at_lessons(const Setup& setup, std::span<const records::Record> log, Instant now, int sheet, bool us_units) {
  const auto day = believed_day(setup, log, now);
  if (!day) return day.problems();
  LessonsLook look{now, day->zone, day->season};
  look.game = lessons::game_of(log, day->zone, now);
  look.replicates = lessons::replicates_of(day->records, day->zone);
  const auto counts = inference::counts_of(day->records, day->belief, day->zone, now);
  const lessons::LessonData data{day->season, day->records, day->belief, counts, look.replicates, day->zone, now, us_units};
  look.graphs = lessons::graphs_of(data);
  look.younger = lessons::worksheet_of(data, lessons::Level::younger, sheet);
  look.older = lessons::worksheet_of(data, lessons::Level::older, sheet);
  return look;
}

Problems problems_of_guess(const Setup& setup, std::span<const records::Record> log, const records::Guess& guess, Instant now) {
  return lessons::problems_of(guess, lessons::game_of(log, setup.zone, now));
}

Problems problems_of_guess(const Setup& setup, std::span<const records::Record> log, const records::Entry& entry, Instant now) {
  const auto* guess = std::get_if<records::Guess>(&entry.body);
  const auto sent_before = [&](const records::Record& record) { return record.entry.entry_key == entry.entry_key; };
  if (!guess || (entry.entry_key && std::ranges::any_of(log, sent_before))) return {};
  return problems_of_guess(setup, log, *guess, now);
}

}  // namespace redd::season
