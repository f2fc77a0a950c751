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

/// What an action is for. Ranked in this order: an animal's safety, then what has a date, then what a class learns by.
enum class Aim { animals, deadline, lesson };

/// What hands do. Some do not go together on one day; see advise().
enum class Deed { test, change_water, dose, clean_filter, set_temperature, feed, feed_less, count, mend, ask_for_help, wait };

struct Action {
  std::string rule{};                ///< the rule's file name
  std::string key{};                 ///< stable name of what is asked, the same in every look while the matter lasts; the rule's name when left empty
  Tone tone = Tone::watch;
  Aim aim = Aim::animals;
  std::vector<Deed> deeds{};
  Sentence concern{};                ///< what is the matter, in a few words, for the headline
  Sentence what{};
  Sentence how_much{};
  std::optional<Instant> from{};     ///< not before; absent: at once
  Instant by{};
  Sentence by_text{};
  int effort_minutes = 5;
  std::optional<Sentence> benefit{}; ///< the risk it averts, in words and numbers
  std::vector<Reason> because{};
  std::vector<Reason> would_change_if{};
  std::vector<Sentence> cautions{};
  std::vector<std::string> sources{};
  std::optional<planning::WaterChange> water_change{};  ///< the change this action asks for, with its prediction
};

}  // namespace redd::advice
