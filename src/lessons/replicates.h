#pragma once
// What readings of the same water by several teams tell of their own doubt. Start at replicates_of().

#include "lessons/question.h"
#include "numerics/spread.h"

namespace redd::lessons {

struct TeamReading {
  std::string team{};      ///< the author where no team was named
  Phrase text{};           ///< as read
  double place = 0;        ///< on the card, see place_of()
  double printed = 0;      ///< in the card's own unit; the middle where it lies between steps
  records::RecordId record = 0;
};

/// One test read by two teams or more on one day, nothing poured or dosed between. One reading a team, the newest: the same hands twice tell
/// nothing of what another would have read.
struct ReplicateSitting {
  Date day{};
  records::KitTest test{};
  std::vector<TeamReading> readings{};
  numerics::Spread places{};    ///< in steps, drops or the meter's unit
  numerics::Spread printed{};   ///< in the card's unit
  double step = 0;              ///< one step of the card there (one drop, twice a meter's accuracy), in the card's unit
  double rounding_sd = 0;       ///< what rounding to a whole step alone does: step / sqrt(12), in the card's unit
};

/// Spread of one reading about the others, from all sittings of one way of reading.
struct Repeatability {
  enum class Fit { too_few, alike, fits, wider, narrower };  ///< alike: no two ever differed, sd is 0 and its range is no range
  records::Method method = records::Method::colour_steps;
  int sittings = 0, readings = 0, freedom = 0;
  double sd = 0;                ///< in steps or drops
  double low = 0, high = 0;     ///< 90 %
  double assumed_low = 0, assumed_high = 0;  ///< what the belief takes a reader's scatter to be, rounding to whole steps included
  Fit fit = Fit::too_few;
};

struct Replicates {
  std::vector<ReplicateSitting> sittings{};   ///< newest first
  std::vector<Repeatability> repeatability{}; ///< colour cards, drop counts; only those read by several
};

/// A place on the card as the number printed there; beyond the ends half a step further, never below nought.
double printed_at(const records::KitTest& test, double place);

/// In      records: effective ones.
Replicates replicates_of(std::span<const records::Record> records, const ZoneOffsets& zone);

}  // namespace redd::lessons
