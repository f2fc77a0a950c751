#pragma once
// The order of a sitting of water tests for one or two pairs of hands, and how long it takes, worked out before it begins: hands-on steps of
// some tests fill the waits of others. Start at timetable(); continue_from() does the same for a sitting under way. No clock: times are seconds
// from now.

#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "quantities/result.h"
#include "quantities/sentence.h"
#include "records/kit.h"
#include "sitting/hand_over.h"
#include "sitting/hand_times.h"
#include "sitting/steps.h"

namespace redd::sitting {

struct Asked {
  std::vector<std::string> tests{};      ///< keys of the kit's tests; empty: those of usual_tests()
  int hands = 1;                         ///< pairs of hands, one or two
  bool hand_over = false;                ///< of `tests` too, those that a hand-over leaves for later are left out
  HandTimes times{};
  std::vector<Expected> expected{};      ///< what the last tests read; decides which of two ranges comes first
};

/// How far a test has come. Steps are counted as steps_of() lists them, waits and assumed steps among them.
struct Standing {
  std::string test{};
  int steps_done = 0;   ///< a wait that still runs is not done; 0 for a colour whose strip has been dipped
  seconds ended_ago{0}; ///< since the last of them ended (for a strip: since the dip); less than nought while hands are still at it
};

/// Hands-on steps of one test done in one go by one pair of hands.
struct Turn {
  struct Part {
    int step = 0;  ///< index into steps_of() of the test
    seconds starts{0}, ends{0};
  };
  std::size_t test = 0;  ///< index into the kit's tests
  int hands = 0;         ///< 0 or 1
  seconds starts{0}, ends{0};
  std::vector<Part> parts{};
  std::optional<seconds> waits_until{};  ///< when the wait that follows is over
  std::optional<seconds> read_by{};      ///< when the reading in this turn must be over
};

struct Timetable {
  seconds lasts{0};              ///< from now to the end of the last turn, those under way among them
  seconds hands_on{0};           ///< all turns together
  std::optional<seconds> one_after_another{};  ///< the same tests by one pair of hands without filling any wait; a sitting not begun only
  std::optional<seconds> lasts_with_later{};   ///< if all of `later` turn out to be due
  int switches = 0;              ///< how often a pair of hands goes from one vial to another
  bool shortest = false;         ///< no order is over sooner; false when a large sitting made the search stop early
  std::vector<Turn> turns{};     ///< in order of start
  std::vector<std::vector<Step>> steps{};  ///< of each test of the kit that takes part, else empty
  std::vector<HandOver> later{}; ///< tests left out for now, and when they are due; only when `tests` was empty, or with `hand_over`
  std::vector<Sentence> remarks{};         ///< what was assumed
};

/// The best timetable of a sitting not begun.
///
/// Out     the shortest; of those the one with fewest switches, then the first in kit order. No pair of hands does two things at once, a turn is
///         never broken off, a reading is begun and over between the end of its wait and its time to read by.
/// Shape   branch and bound on whole seconds; some milliseconds for ten tests, never more than some tenths of a second.
/// Errors  unknown_test, given_twice, not_one_or_two_hands, too_many_tests; those of steps_of(); windows_collide when no order reads all in time,
///         with the tests that stand in each other's way.
Result<Timetable> timetable(const records::Kit& kit, const Asked& asked);

/// The best timetable for what is left of a sitting.
///
/// In      standing: every test that has been begun; others are still to begin. free_in: when each pair of hands is free, one a pair, or empty.
/// Errors  as timetable(); unknown_step; strip_without_time; read_too_late when a colour no longer counts.
Result<Timetable> continue_from(const records::Kit& kit, const Asked& asked, const std::vector<Standing>& standing, const std::vector<seconds>& free_in = {});

}  // namespace redd::sitting
