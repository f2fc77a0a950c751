#pragma once
// Who is told of an alarm besides the page: the desktop, a mailbox, a web address. Passwords and tokens go to the library and to nothing
// that is shown or kept. Start at send_all().

#include <optional>
#include <string>
#include <vector>

#include "quantities/phrase.h"
#include "sensors/settings.h"

namespace redd::sensors {

/// One thing to tell, ready worded.
struct Message {
  std::string title{};   ///< one line
  std::string text{};
  std::string alarm{};   ///< "too_warm"
  std::string what{};    ///< "begins", "lasts", "ends" or "test"
  std::string at{};      ///< RFC 3339
};

/// What became of it on one way.
struct Sent {
  std::string way{};                  ///< "desktop", "mail" or "webhook"
  std::optional<Phrase> failure{};    ///< why it did not go out
};

/// Tells everybody the settings name, one after the other; each way has twenty seconds.
std::vector<Sent> send_all(const Settings& settings, const Message& message);

/// The message as a mail with its head (RFC 5322): UTF-8, no line of the head made of what somebody typed beyond the addresses.
std::string mail_text(const MailSettings& settings, const Message& message);

/// The message as the JSON that a web address gets.
std::string webhook_body(const Message& message);

}  // namespace redd::sensors
