#pragma once
// How the thermometer is set up: one small file beside the season's, `thermometer.conf`, with a line `name = value` for each thing.
// Passwords and tokens stand in it and nowhere else: it must be readable by its owner alone. Start at read_settings().

#include <chrono>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "quantities/result.h"

namespace redd::sensors {

struct MqttSettings {
  std::string host{};
  int port = 1883;                  ///< 8883 with TLS
  std::string topic{};
  std::optional<std::string> field{};     ///< of a JSON payload; absent: the payload is a plain number
  std::optional<std::string> user{}, password{};
  bool tls = false;
  std::optional<std::string> ca_file{};   ///< absent: the machine's own certificates
};

struct MailSettings {
  std::string to{}, from{};
  std::string server = "sendmail";        ///< the machine's own sendmail, or smtps://host:465, or smtp://host:587 (with STARTTLS)
  std::optional<std::string> user{}, password{};
};

struct WebhookSettings {
  std::string url{};                      ///< https; plain http only to this machine
  std::optional<std::string> token{};     ///< sent as "Authorization: Bearer …"
};

struct Settings {
  std::string name = "tank";              ///< label in the log's keys
  std::optional<std::string> file{};      ///< the kernel's file; else mqtt
  std::optional<MqttSettings> mqtt{};
  std::chrono::seconds every{30};
  std::optional<double> resolution_c{};
  std::optional<double> low_c{}, high_c{};  ///< absent: from the season's own set-up
  std::chrono::seconds silent_after = std::chrono::minutes(30);
  bool spanish = false;                   ///< language of what is sent; the page speaks its reader's
  bool desktop = false;                   ///< notify-send
  std::optional<MailSettings> mail{};
  std::optional<WebhookSettings> webhook{};
};

/// The text of the file.
/// Errors  unknown_name, missing, out_of_range, not_allowed; fields are "line 7".
Result<Settings> settings_from_text(std::string_view text);

/// The file itself.
/// Out     nothing when there is no file: no thermometer is set up.
/// Errors  readable_by_others, cannot_read, and those of settings_from_text().
Result<std::optional<Settings>> read_settings(const std::filesystem::path& file);

/// A file to start from, every line explained.
std::string settings_template();

}  // namespace redd::sensors
