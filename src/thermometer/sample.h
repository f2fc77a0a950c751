#pragma once
// What a sensor said once: a temperature, or why there is none. Start at c_from_w1_slave() and its neighbours for the texts that the
// kernel gives, and at Watch (watch.h) for what becomes of a stream of samples.

#include <chrono>
#include <optional>
#include <string_view>
#include <variant>

#include "quantities/phrase.h"
#include "quantities/time.h"

namespace redd::thermometer {

/// Why a sensor gave no temperature, or one that is refused.
enum class Failure {
  no_answer,       ///< the file is gone, can't be read, or nothing came over the network
  bad_check_sum,   ///< the answer was garbled on the wire
  not_a_number,    ///< the answer is no number
  power_on_value,  ///< 85 °C: what a one-wire chip holds before its first measurement
  error_value,     ///< a number that stands for a fault: -127, -0.0625 (every bit set), 127.9375
  out_of_range,    ///< no water is so cold or so warm
  jump             ///< away from what came before, and not confirmed by what came after
};

/// What kind of source a number came from: only one-wire chips have the values that stand for faults.
enum class Source { one_wire, other };

/// "the answer was garbled on the wire"
Phrase failure_text(Failure failure);

struct Sample {
  Instant at{};                  ///< the machine's clock, which may be set, leap and go back
  std::chrono::seconds up{};     ///< a clock that only goes forward, sleep included: since any fixed moment
  std::variant<double, Failure> c = Failure::no_answer;  ///< °C
};

/// The whole text of a `temperature` file of one-wire or a `temp1_input` of hwmon: thousandths of a degree, "8125".
/// Source  Linux kernel documentation, w1_therm and hwmon sysfs interface (from memory).
std::variant<double, Failure> c_from_thousandths(std::string_view text, Source source);

/// The two lines of a `w1_slave` file: "… : crc=4b YES" and "… t=8125".
/// Source  Linux kernel documentation, w1_therm (from memory).
std::variant<double, Failure> c_from_w1_slave(std::string_view text);

/// A plain number in °C, as over MQTT: "8.125", " 8,1 " is none.
std::variant<double, Failure> c_from_number(std::string_view text, Source source = Source::other);

/// The number itself, or why it is refused. NaN and infinities are no numbers.
///
/// Source  Power-on value 85 °C, range -55 to 125 °C, steps of 0.0625 °C: data sheet of the usual one-wire thermometer chip (from memory).
///         -127 is what common drivers answer without a chip; -0.0625 and 127.9375 are all bits set, as on a wire that hangs loose.
///         Water: -2 to 45 °C, assumed. A true -0.0625 °C is refused too: one step colder or warmer is taken.
std::variant<double, Failure> checked(double c, Source source);

}  // namespace redd::thermometer
