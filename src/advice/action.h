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
enum class Deed { test, change_water, dose, clean_filter, set_temperature, feed, feed_less, count, mend, ask_for_help, wait, plan };

/// What the keeper said became of an action.
struct Answered {
  records::AdviceAnswer::Answer answer = records::AdviceAnswer::Answer::done;
  Instant at{};
  records::RecordId record = 0;
  std::optional<Date> back{};        ///< asked again from this day; absent: only when its reason renews, or it is asked all the same
};

struct Action {
  std::string rule{};                ///< the rule's file name
  std::string key{};                 ///< stable name of what is asked, "rule" or "rule/matter": the same in every look while the matter lasts, never two in one look;
                                     ///< the rule's name when left empty. Keys of merged actions are joined by "+"
  Tone tone = Tone::watch;
  Aim aim = Aim::animals;
  bool beside_calm = false;          ///< watched only, and takes nothing away from water that is in order: what the brood will do next, a count that is due
  std::vector<Deed> deeds{};
  Sentence concern{};                ///< what is the matter, in a few words, for the headline
  Sentence what{};
  Sentence how_much{};
  std::optional<Instant> from{};     ///< not before; absent: at once
  Instant by{};
  Sentence by_text{};
  int effort_minutes = 5;
  std::optional<Sentence> benefit{}; ///< the risk it averts, in words and numbers
  double stake = 0;                  ///< rough share of the brood that stands to be lost without it, 0-1; orders equals only, never shown. Zero: by its tone
  Days again{7};                     ///< answered, and nothing new seen since: asked again after so long
  std::vector<Reason> because{};
  std::vector<Reason> would_change_if{};
  std::vector<Sentence> cautions{};
  std::vector<std::string> sources{};
  std::optional<planning::WaterChange> water_change{};  ///< the change this action asks for, with its prediction
  std::optional<Temperature> set_to{};  ///< the set-point this action asks for, where it names one
  std::optional<Sentence> moved{};   ///< why it stands later, or not before another; advise() fills it
  std::optional<Answered> answer{};  ///< the newest answer, when it is asked all the same or was put aside; advise() fills it
};

}  // namespace redd::advice
