#pragma once
// A stream of samples watched: what may be believed, whether the sensor is silent or stuck, and how old its last word is.
// Pure: the moments come with the samples. Start at Watch::take().

#include <chrono>
#include <optional>
#include <vector>

#include "thermometer/sample.h"

namespace redd::thermometer {

struct WatchSettings {
  /// Nothing believable for so long: the sensor is silent.
  std::chrono::seconds silent_after = std::chrono::minutes(30);
  /// The very same value for so long: the sensor is stuck. Assumed: a tank moves by a step of a fine sensor within half a day, by one of
  /// a coarse one within two days; a sensor coarser than half a degree can't be told from a steady tank.
  std::chrono::seconds stuck_after = std::chrono::hours(12);
  std::chrono::seconds stuck_after_coarse = std::chrono::hours(48);
  std::optional<double> resolution_c{};  ///< of the sensor; else the smallest step seen
  /// Faster than this is confirmed by the samples that follow before it is believed. Assumed: three times what a strong chiller does
  /// to 100 L (about 3 °C an hour), and one degree at once for stirring.
  double fast_in_an_hour_c = 10;
  double jump_c = 1;
  int confirmations = 3;
};

/// What one sample came to.
struct Taken {
  /// Believed now: this sample, or several at once when a jump was confirmed. In order of time.
  struct Believed {
    Instant at{};
    std::chrono::seconds up{};
    double c = 0;
  };
  std::vector<Believed> believed{};
  std::optional<Failure> refused{};  ///< of this sample, or of those that waited for confirmation
  bool waits = false;                ///< this sample waits for the next ones
  bool clock_set = false;            ///< the machine's clock was set since the sample before
};

/// How the sensor stands.
enum class Standing { no_word_yet, working, silent, stuck };

class Watch {
 public:
  explicit Watch(WatchSettings settings = {}) : settings_(settings) {}

  /// In      samples in the order of `up`; one that goes back in it is left out as no_answer.
  Taken take(const Sample& sample);

  /// In      up: the present moment. A sensor that never spoke is silent once silent_after has passed since the first look.
  Standing standing(std::chrono::seconds up) const;

  /// The last value believed.
  std::optional<Taken::Believed> last() const { return last_; }
  /// Since when the value has been the very same.
  std::optional<std::chrono::seconds> same_since() const { return last_ ? std::optional(same_since_) : std::nullopt; }
  /// The newest refusal since the last value believed.
  std::optional<Failure> failing() const { return failing_; }
  /// Smallest difference seen between two values, or as given; nothing while all were the same.
  std::optional<double> resolution_c() const;

 private:
  bool is_jump(const Sample& sample, double c) const;
  void believe(const Taken::Believed& value, Taken& taken);

  WatchSettings settings_;
  std::optional<std::chrono::seconds> begun_{};
  std::optional<Sample> before_{};
  std::optional<Taken::Believed> last_{};
  std::vector<Taken::Believed> waiting_{};
  std::chrono::seconds same_since_{};
  std::optional<double> smallest_step_{};
  std::optional<Failure> failing_{};
};

}  // namespace redd::thermometer
