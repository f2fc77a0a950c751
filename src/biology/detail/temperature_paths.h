#pragma once
// Progress along a daily temperature record when its temperatures are in doubt.
//
// A possible world shifts all days until today by the same number of their standard deviations, and all days to come by
// another: a thermometer that reads high does so every day, and a room that turns out warm stays so. Assumed:
// independent daily errors would largely cancel and make windows narrower than we can justify. A day filled in shares
// the shift of the measured ones and only has more doubt, so that a missing day can never make a window narrower.
//
// Progress is added up beforehand for a grid of shifts, so that a world costs a few interpolations instead of a year of
// curves.

#include <array>
#include <span>
#include <vector>

#include "biology/development_forecast.h"

namespace redd::biology::detail {

/// What adds up along the record: the three stages' progress, and the thermal sum.
inline constexpr std::size_t clock_count = 4;
inline constexpr std::size_t thermal_clock = 3;

/// How much one day at this temperature adds to each clock.
class Clocks {
 public:
  explicit Clocks(std::array<DevelopmentModel, 3> models) : models_(std::move(models)) {}
  std::array<double, clock_count> per_day(Temperature water) const;
  const DevelopmentModel& model(std::size_t stage) const { return models_[stage]; }

 private:
  std::array<DevelopmentModel, 3> models_;
};

enum class DayKind { until_today, to_come };
inline constexpr std::size_t day_kinds = 2;

/// A record without holes, from its first day to the last day looked at.
struct Timeline {
  Date first_day;
  std::vector<Temperature> mean;
  std::vector<TemperatureChange> sd;
  std::vector<DayKind> kind;
  int filled_days = 0;  ///< days until today without a measurement
  std::size_t size() const { return mean.size(); }
  double position(CalendarMoment moment) const { return (moment - CalendarMoment(first_day)).count(); }
  CalendarMoment moment(double position_days) const { return CalendarMoment(first_day) + Days(position_days); }
};

/// Fills holes, reaches back to `from` and on past the last day.
/// In      temperatures checked: not empty, rising days.
Timeline timeline_from(std::span<const DailyTemperature> temperatures, Date from, Date today);

/// One world's shift of each kind of day, in standard deviations.
using Shifts = std::array<double, day_kinds>;

class TemperaturePaths {
 public:
  TemperaturePaths(const Clocks& clocks, const Timeline& timeline);

  /// A world, ready to be asked many times.
  class World {
   public:
    /// Sum of the clock from the first day to this position (days, fractions allowed). Beyond the ends: the end value.
    double total(std::size_t clock, double position_days) const;
    /// First position at which the clock's total reaches this value; the end of the timeline if it never does.
    double position_of(std::size_t clock, double total) const;

   private:
    friend class TemperaturePaths;
    double at_day(std::size_t clock, std::size_t day) const;
    struct Part {
      std::array<const double*, clock_count> low, high;
      double share_high;
    };
    std::array<Part, day_kinds> parts_;
    std::size_t used_ = 0;
    std::size_t days_ = 0;
  };
  World world(const Shifts& shifts) const;

 private:
  // Sums over the days of one kind, one series for each grid shift and clock; a kind without days is left out.
  struct Sums {
    std::size_t kind;
    std::vector<double> values;
  };
  const double* series(const Sums& sums, std::size_t node, std::size_t clock) const;
  std::size_t days_;
  std::vector<Sums> sums_;
};

}  // namespace redd::biology::detail
