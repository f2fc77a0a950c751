#pragma once
// What of a trace goes into the log: the mean of each hour, and its coldest and warmest value where they stand away from it. Never more
// than three records an hour, 72 a day: a season of 200 days stays below 15,000 records, a few MB, however often the sensor is read.
// Start at Hourly::take().

#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "thermometer/watch.h"

namespace redd::thermometer {

/// One temperature to be logged.
struct ToLog {
  enum class What { mean, coldest, warmest };
  Instant at{};        ///< mean: the middle of its hour; else the moment itself
  Instant hour{};      ///< the beginning of the hour (UTC), which no change of the clocks moves
  double c = 0;        ///< hundredths: more than a sensor knows
  What what = What::mean;
  int samples = 0;     ///< in the hour
  /// Key of the entry: the same for the same hour of the same sensor, so that an hour is logged once, whatever happens between.
  std::string key(const std::string& sensor) const;
};

/// Gathers an hour at a time. A new start begins with an empty hour: what was gathered before is gone, and said by fewer samples.
class Hourly {
 public:
  /// Assumed: an hour with fewer values says too little of it.
  static constexpr int fewest_samples = 3;
  /// An extreme nearer to the mean says nothing new.
  static constexpr double apart_c = 0.5;

  /// Out     the hour before, once a value of another hour comes. A clock set back or forward ends the hour too: what was gathered is
  ///         given if the hour holds enough, and an hour that comes again has the key it had.
  std::vector<ToLog> take(const Taken::Believed& value, bool clock_set);

  /// The hour so far, ended by the program itself; like take(), it forgets it.
  std::vector<ToLog> finish();

 private:
  std::vector<Taken::Believed> values_{};
};

}  // namespace redd::thermometer
