#pragma once
// What to do when something fails: for this tank and these animals, now. Start at emergencies(). Each kind of emergency is one file in kinds/.
// Times say how long things hold; where the tank is not described they are cautious or said to be unknown, never left out.

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "planning/heat_view.h"

namespace redd::emergency {

/// What an emergency is judged by. References outlive the call.
struct Case {
  const records::SeasonSetup& season;
  std::span<const records::Record> records;  ///< effective
  const inference::Belief& belief;
  const planning::HeatView& heat;            ///< of the same moment
  Instant now{};
};

/// How long something holds.
struct HoldTime {
  Sentence what{};                        ///< "the water reaches 12 C (never above, for alevins)"
  std::optional<planning::HoldSpan> span{};  ///< nothing: not known for this tank, and `basis` says what is
  Sentence basis{};                       ///< what it rests on, and whether it is a rule of thumb
};

struct Emergency {
  std::string key{};                      ///< stable word, as typed: "power_cut"
  int rank = 0;                           ///< place in a list, smallest first
  Sentence name{};
  Sentence sign{};                        ///< how it is recognised
  bool now = false;                       ///< the log says that it is so
  std::vector<HoldTime> hold{};           ///< what gives out first comes first
  std::vector<Sentence> steps{};          ///< in order; the first three matter most
  std::vector<Sentence> measure{};
  std::vector<Sentence> call{};           ///< when to ring whom
  std::vector<Sentence> cautions{};       ///< for people, then animals
  std::vector<std::string> sources{};
};

/// All kinds, what is happening first, then in order of rank. Never empty.
std::vector<Emergency> emergencies(const Case& now);
/// One of these by its key; "power-cut" is taken for power_cut.
/// Errors  unknown_emergency, with the words there are.
Result<Emergency> emergency(const std::vector<Emergency>& all, std::string_view key);

namespace kinds {
#define REDD_ITEM(name) Emergency name(const Case& now);
#include "emergency/kinds_list.inc"
#undef REDD_ITEM
}  // namespace kinds

}  // namespace redd::emergency
