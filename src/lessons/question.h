#pragma once
// Questions about readings to come, for the guessing game. Start at questions_of().
// A question asks what will be READ, not what is true: only that can be settled with the class's own card. It opens with one sitting and is
// settled by the next, so that it follows from the log and nothing about it needs to be stored.

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "quantities/sentence.h"
#include "records/record.h"

namespace redd::lessons {

struct Question {
  /// What is guessed: chips on the steps of a card, else a range of drops, of a meter's number, of °C or of animals.
  enum class Kind { steps, drops, meter, temperature, hatched };
  std::string key{};             ///< "kit/test/2031-02-14", "temperature/2031-02-10", "hatched/2031-02-14"
  Kind kind = Kind::steps;
  std::string kit{};             ///< of a test
  records::KitTest test{};
  Instant opens_at{};            ///< with this reading; the model's forecast is that of this moment
  Date opened_on{};
  Date first_day{};              ///< readings of earlier days do not settle it
  Date due{};                    ///< when the reading is expected
  Date last_day{};               ///< without a reading by then the question lapses
  double scale = 1;              ///< loss that costs 100 points; fixed when the question opens
  double least = 0, most = 0;    ///< a range: what can be read at all, in the question's unit
  bool takes_chips() const { return kind == Kind::steps; }
};

/// What settled a question.
struct Outcome {
  Instant at{};                  ///< of the first reading: guesses had to be in before it
  std::vector<double> weights{}; ///< steps: share of the readings on each step, a reading between two evenly on all from one to the other; sums to one
  double low = 0, high = 0;      ///< else: the range the reading stands for, in the question's unit
  Phrase text{};                 ///< as read
  std::vector<records::RecordId> records{};
};

/// Place of a reading on its card: step 0, 1, …; half-way between two, neighbours or not; half a step beyond the ends. Drops, or the meter's number.
/// Errors  nothing when the reading does not fit its test.
std::optional<double> place_of(const records::KitTest& test, const records::Reading& reading);

/// The test a reading was made on, by the newest kit of that key; nullptr when there is none.
/// In      records: effective.
const records::KitTest* test_of(std::span<const records::Record> records, const records::Reading& reading);

/// Every question that has opened by `now`, oldest first; of each test, of the tank's temperature each week, of hatching once it has begun.
/// In      log: all of it, in order of id. Records that were corrected later still open a question: what was asked stays asked.
std::vector<Question> questions_of(std::span<const records::Record> log, const ZoneOffsets& zone, Instant now);

/// What settled it, if anything did by the moment the records are of.
/// In      records: effective ones.
std::optional<Outcome> outcome_of(const Question& question, std::span<const records::Record> records, const ZoneOffsets& zone);

/// The question in words, its numbers exact.
Sentence question_text(const Question& question);

}  // namespace redd::lessons
