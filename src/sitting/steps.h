#pragma once
// A test of a kit as steps with durations: what the card says, and what has to be assumed where it is silent. Start at steps_of().

#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "quantities/result.h"
#include "records/kit.h"
#include "sitting/hand_times.h"

namespace redd::sitting {

struct Step {
  records::TimedStep::Do what = records::TimedStep::Do::read;
  seconds lasts{0};
  std::optional<seconds> read_by{};             ///< read: it must be over this long after the step before it ended
  std::optional<seconds> read_by_after_wait{};  ///< read: and this long after the last wait ended
  std::string text{};
  std::optional<int> count{};           ///< drops or spoons the card asks for; none where they are counted until the colour turns
  bool assumed = false;                         ///< not on the card: a beginning, a reading, or a whole test without steps
};

/// The steps of one test. Never empty; the last one is a hands-on step and no wait follows another.
///
/// In      on_a_strip: the test is read on the strip that an earlier test dips (see strip_of()).
/// Out     waits of one after the other are one wait. A time to read by that stands on a wait goes to the read after it. A card that ends
///         without a read gets one, a card that begins with a wait a short beginning (not on a strip), a card without steps one block.
/// Errors  wait_without_seconds; reading_outlasts_its_window: even begun at once it would be over too late. Fields are pointers below "/kit".
Result<std::vector<Step>> steps_of(const records::Kit& kit, std::size_t test, const HandTimes& hands, bool on_a_strip);

/// The earlier test of the kit whose dip starts this one too, if it is one colour of a strip.
///
/// Assumed: a colour test in whose steps nobody fills, drops, adds or mixes anything has no sample of its own; it belongs to the nearest
///         colour test before it that is dipped (filled) and nothing else.
std::optional<std::size_t> strip_of(const records::Kit& kit, std::size_t test);

}  // namespace redd::sitting
