#pragma once
// What every rule sees: the season, the belief, and how each quantity was judged. One judgement feeds the cards and the rules.

#include <algorithm>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "advice/action.h"
#include "advice/habits.h"
#include "advice/looks.h"
#include "inference/belief.h"
#include "planning/filter_outlook.h"
#include "records/school_calendar.h"

namespace redd::advice {

/// The nine quantities of the water view.
enum class WaterKey { un_ionized_ammonia, total_ammonia, nitrite, nitrate, ph, alkalinity, hardness, oxygen, temperature };

struct Limit {
  std::string key{};
  double value = 0;         ///< canonical unit of the quantity
  std::string name{};       ///< e.g. "act"
  std::string source{};
};

/// The season's own normal of a quantity and whether the latest tests have left it.
struct Baseline {
  double mean = 0;
  double lower = 0;
  double upper = 0;
  int tests = 0;            ///< tests the baseline rests on
  bool drifts = false;      ///< a control chart signals at the latest test
  bool upwards = false;
};

struct Assessment {
  WaterKey key = WaterKey::ph;
  Tone tone = Tone::unknown;
  Sentence meaning{};
  std::optional<Estimate<double>> value{};
  bool open_above = false;
  std::optional<Instant> read_at{};
  double age_days = 0;
  bool stale = false;
  Phrase raw_text{};
  std::vector<records::RecordId> records{};
  std::vector<Limit> limits{};
  std::optional<Baseline> baseline{};
};

struct Situation {
  const records::SeasonSetup& season;
  const std::vector<records::Record>& records;  ///< effective
  const inference::Belief& belief;
  const planning::FilterOutlook* filter;  ///< nullptr when not worked out
  const ZoneOffsets& zone;
  Instant now;
  std::map<WaterKey, Assessment> water{};
  records::SchoolCalendar school{};
  Looks looks{};
  Habits habits{};

  Date today() const { return local_day(zone, now); }
  /// 16:00 on a school-local day, or when the school shuts early: the end of the working day by which a thing is asked.
  Instant end_of(Date day) const {
    const std::chrono::minutes four = std::chrono::hours(16);
    return instant_of(zone, std::chrono::local_seconds{day} + std::min(four, school.shut_from(day).value_or(four)));
  }
  const Assessment& of(WaterKey key) const { return water.at(key); }
  /// A nitrogen value on the basis the keeper's own card prints for this quantity.
  ShownNitrogen on_card(inference::Quantity quantity, double mg_n_per_l) const;
};

/// Judges all nine quantities.
std::map<WaterKey, Assessment> assess(const Situation& situation);

/// The season's own nitrate marks: the keeper may lower ours, never raise them.
struct NitrateMarks {
  NitrogenConc guideline, act, ceiling;
};
NitrateMarks nitrate_marks(const records::SeasonSetup& season);

}  // namespace redd::advice
