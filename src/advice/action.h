#pragma once
// A piece of advice with everything a keeper may ask of it: what, how much, by when, why, what would change it, what to mind.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "planning/water_change.h"
#include "quantities/sentence.h"
#include "records/record.h"

namespace redd::advice {

/// How pressing a thing is. Unknown is its own answer: never drawn or counted as good.
enum class Tone { good, unknown, watch, act, alarm };

/// Why, with the records it rests on.
struct Reason {
  Sentence sentence{};
  std::vector<records::RecordId> records{};
};

struct Action {
  std::string rule{};                ///< the rule's file name
  Tone tone = Tone::watch;
  Sentence concern{};                ///< what is the matter, in a few words, for the headline
  Sentence what{};
  Sentence how_much{};
  Instant by{};
  Sentence by_text{};
  int effort_minutes = 5;
  std::vector<Reason> because{};
  std::vector<Reason> would_change_if{};
  std::vector<Sentence> cautions{};
  std::vector<std::string> sources{};
  std::optional<planning::WaterChange> water_change{};  ///< the change this action asks for, with its prediction
};

}  // namespace redd::advice
