#pragma once
// When a watched tank calls for somebody: too warm, too cold, the sensor silent or stuck. An alarm begins when its cause has lasted, ends
// when it is clearly over, and repeats at growing intervals while it lasts. Start at Alarms::look().

#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "quantities/phrase.h"
#include "thermometer/watch.h"

namespace redd::thermometer {

enum class Alarm { too_warm, too_cold, silent, stuck };
/// "too_warm", as in JSON.
std::string word_of(Alarm alarm);

struct AlarmSettings {
  double low_c = 0, high_c = 20;
  double hysteresis_c = 0.3;                           ///< so far inside the limits ends it
  std::chrono::seconds lasting = std::chrono::minutes(5);  ///< outside, or back inside, for so long. Silent and stuck have lasted already
  std::chrono::seconds repeat = std::chrono::hours(1);     ///< after the first call; doubled each time, up to most_between
  std::chrono::seconds most_between = std::chrono::hours(12);
};

/// Something to tell.
struct Signal {
  enum class What { begins, lasts, ends };
  Alarm alarm{};
  What what = What::begins;
  Phrase sentence{};  ///< what is wrong and what to do
};

/// One alarm that is on.
struct Ringing {
  Alarm alarm{};
  std::chrono::seconds since{};   ///< on the clock that only goes forward
  std::chrono::seconds next{};    ///< when it calls again
  std::chrono::seconds between{};
  bool quiet = false;             ///< somebody said that they know; it shows, and calls no more until it ends
  Phrase sentence{};
};

class Alarms {
 public:
  explicit Alarms(AlarmSettings settings) : settings_(settings) {}

  /// In      up: now. Called again and again, also while nothing comes from the sensor.
  /// Out     what is to be told now, worst first.
  std::vector<Signal> look(const Watch& watch, std::chrono::seconds up);

  /// Other limits from now on; what rings is judged by them at the next look.
  void change(const AlarmSettings& settings) { settings_ = settings; }

  const std::vector<Ringing>& ringing() const { return ringing_; }
  /// Somebody knows of all that rings now.
  void quiet();

 private:
  std::vector<Alarm> causes(const Watch& watch, std::chrono::seconds up);
  Ringing* find(Alarm alarm);
  Phrase sentence_of(Alarm alarm, const Watch& watch, std::chrono::seconds up) const;

  AlarmSettings settings_;
  std::vector<Ringing> ringing_{};
  /// Since when the water has been outside a limit, or clearly inside again while its alarm rings.
  std::optional<std::chrono::seconds> warm_since_{}, cold_since_{}, warm_over_since_{}, cold_over_since_{};
};

}  // namespace redd::thermometer
