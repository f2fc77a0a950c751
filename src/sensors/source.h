#pragma once
// Where temperatures come from: a file of the kernel, or a topic of an MQTT broker. Start at source_of().

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "sensors/settings.h"
#include "thermometer/sample.h"

namespace redd::sensors {

class Source {
 public:
  virtual ~Source() = default;
  /// The newest word of the sensor since the last call; nothing when it said nothing new and nothing is wrong with the line.
  virtual std::optional<std::variant<double, thermometer::Failure>> read() = 0;
  /// Why the line does not stand, in our words or the library's; empty when it stands.
  virtual Phrase trouble() const { return {}; }

 protected:
  Source() = default;
  Source(const Source&) = delete;
  Source& operator=(const Source&) = delete;
};

/// Errors  cannot_connect when the library refuses the settings; a broker that can't be reached now is no error: it is tried again.
Result<std::unique_ptr<Source>> source_of(const Settings& settings);

/// A file of one-wire (`temperature` or `w1_slave`) or hwmon (`temp1_input`), opened anew for each reading.
std::unique_ptr<Source> file_source(std::filesystem::path file);

/// A topic. Retained messages are left out: nobody knows how old they are.
Result<std::unique_ptr<Source>> mqtt_source(const MqttSettings& settings);

/// One payload: a number, or the field of a JSON object that is one.
std::variant<double, thermometer::Failure> c_from_payload(std::string_view payload, const std::optional<std::string>& field);

/// A temperature file of this machine and what it reads now.
struct Found {
  std::filesystem::path file{};
  std::string label{};  ///< the kernel's own name of it
  std::variant<double, thermometer::Failure> now{};
};
/// In      sys: "/sys", or a folder of the same shape.
std::vector<Found> found_sensors(const std::filesystem::path& sys);

}  // namespace redd::sensors
