#pragma once
// Whether to feed at all while something is wrong: with the water, with what drives it, or with the filter. Start at feed_holds().

#include <vector>

#include "advice/situation.h"

namespace redd::advice {

/// One reason to feed less than planned.
struct FeedHold {
  enum class Food { half, none };
  Food food = Food::half;
  Sentence why{};
  Sentence until{};  ///< what ends it
  std::vector<records::RecordId> records{};
};

/// None: power, pump or air is off; ammonia or nitrite was at an alarm at the last test, however old and whatever water was changed since;
/// oxygen was too low; more die than is to be expected. Half: ammonia or nitrite is at the mark to act, ammonia stands clearly on the card, the water stands 2 C off what is wanted, or the filter was cleaned in the last three days.
///
/// Source  common practice, no source: pause when many die; half when ammonia or nitrite is high, temperature 2 C off or the filter just cleaned; none below 7 mg/L oxygen.
std::vector<FeedHold> feed_holds(const Situation& s);

/// The same for who has no Situation.
std::vector<FeedHold> feed_holds(const records::SeasonSetup& season, const std::vector<records::Record>& records, const inference::Belief& belief,
                                 const ZoneOffsets& zone, Instant now);

/// Share of the planned food that is given under these holds: 1, 0.5 or 0.
double fed_share(const std::vector<FeedHold>& holds);

}  // namespace redd::advice
