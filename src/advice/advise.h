#pragma once
// From belief to a ranked list of things to do. Start at advise().
// One file in advice/rules/ is one rule: a function of the Situation that returns the actions it would ask for.

#include <span>
#include <vector>

#include "advice/situation.h"
#include "planning/water_programme.h"

namespace redd::advice {

struct Headline {
  Tone tone = Tone::unknown;
  Sentence sentence{};
  Sentence detail{};
};

inline constexpr std::size_t most_shown = 5;

struct Advice {
  Headline headline{};
  std::map<WaterKey, Assessment> water{};
  std::vector<Action> actions{};    ///< best first; what does not go together moved apart, what is one deed merged
  std::size_t shown = 0;            ///< so many of them are shown at once, at most `most_shown`; the rest on request
  std::vector<Action> put_aside{};  ///< answered and not asked now; best first
};

/// In      records: effective ones. belief: of the same moment.
/// In      filter: of the same moment; nullptr when nobody worked it out, and then no rule speaks of it. looks: of the same moment; what is absent no rule
///         speaks of, and without emergencies the rule of broken equipment speaks in general.
/// Out     at least one action unless all were answered: when nothing is wrong, when to test next.
Advice advise(const records::SeasonSetup& season, const std::vector<records::Record>& records, const inference::Belief& belief,
              const planning::FilterOutlook* filter, const ZoneOffsets& zone, Instant now, const Looks& looks = {});

/// What the list asks and the log of today says of the water, the filter and the set-point: what the water programme stands on.
///
/// In      as advise(); looks.water: begun only, or absent, so that no programme is among what is asked.
planning::AskedToday asked_of_water(const records::SeasonSetup& season, const std::vector<records::Record>& records, const inference::Belief& belief,
                                    const planning::FilterOutlook* filter, const ZoneOffsets& zone, Instant now, const Looks& looks = {});

/// A weekly sitting to come.
struct TestDay {
  Date due{};
  Date day{};  ///< moved off a closed day as the rule of the weekly test moves it
};

/// The weekly sittings from the next one (today when it is overdue) up to `last`, due a week apart. Empty when the brood has been released.
///
/// In      as advise().
std::vector<TestDay> weekly_test_days(const records::SeasonSetup& season, const std::vector<records::Record>& records, const inference::Belief& belief,
                                      const ZoneOffsets& zone, Instant now, Date last);

}  // namespace redd::advice
