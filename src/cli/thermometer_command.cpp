// thermometer: looks for sensors, reads the one that is set up, tries the alarm, prints a settings file to start from.
#include <ostream>
#include <thread>

#include "cli/commands.h"
#include "quantities/phrase_parts.h"
#include "quantities/verbatim.h"
#include "sensors/outlets.h"
#include "sensors/source.h"

namespace redd::cli {
namespace {

using thermometer::Failure;

Phrase value_text(const std::variant<double, Failure>& value) {
  if (const auto* failure = std::get_if<Failure>(&value)) return thermometer::failure_text(*failure);
  return said("{0}", Temperature::from_c(std::get<double>(value)));
}

Exit find(const Console& console) {
  const auto found = sensors::found_sensors("/sys");
  if (found.empty()) {
    console.out << console.say("No temperature file was found on this machine: no one-wire bus and no hwmon chip shows one.") << "\n";
    return Exit::ok;
  }
  std::vector<std::vector<std::string>> rows;
  for (const auto& one : found) rows.push_back({one.file.string(), one.label, console.say(value_text(one.now))});
  console.out << table(rows, 140) << console.say("Most of these measure the machine itself. The tank's is the one that changes when you hold it in your hand.") << "\n";
  return Exit::ok;
}

/// One reading; a topic is given a minute to speak.
Exit read_once(const Console& console, const sensors::Settings& settings) {
  const auto source = sensors::source_of(settings);
  if (!source) return complain(console, source.problems());
  constexpr auto patience = std::chrono::seconds(60);
  const auto until = std::chrono::steady_clock::now() + (settings.mqtt ? patience : std::chrono::seconds(0));
  std::optional<std::variant<double, Failure>> value;
  while (true) {
    value = (*source)->read();
    const bool good = value && std::holds_alternative<double>(*value);
    if (good || std::chrono::steady_clock::now() >= until) break;
    std::this_thread::sleep_for(std::chrono::milliseconds(200));
  }
  if (value && std::holds_alternative<double>(*value)) {
    console.out << console.say(value_text(*value)) << "\n";
    return Exit::ok;
  }
  const Phrase trouble = (*source)->trouble();
  return complain(console, {{"no_answer", "", trouble.empty() ? said("No temperature: {0}.", value_text(value.value_or(Failure::no_answer))) : said("No temperature: {0}.", trouble)}});
}

Exit try_alarm(const Console& console, const sensors::Settings& settings) {
  const auto sent = sensors::send_all(settings, {console.say("Redd, a test alarm"), console.say("This is a test. If you read it, alarms of the tank's thermometer reach you."), "test", "test",
                                                 rfc3339_from_instant(server::system_now())});
  if (sent.empty()) return complain(console, {{"no_way", "", "Nobody is told but the page: the settings name neither desktop, mail nor webhook."}});
  Problems problems;
  for (const auto& one : sent) {
    if (one.failure) problems.push_back({"not_sent", "", said("{0}: not sent. {1}.", verbatim(one.way), *one.failure)});
    else console.out << console.say(said("{0}: sent. See whether it has come.", verbatim(one.way))) << "\n";
  }
  return problems.empty() ? Exit::ok : complain(console, problems);
}

}  // namespace

Exit thermometer(const Console& console, const Place& place, const ThermometerAsked& asked) {
  if (asked.find) return find(console);
  if (asked.settings) {
    console.out << sensors::settings_template();
    return Exit::ok;
  }
  const auto file = place.folder() / "thermometer.conf";
  const auto settings = sensors::read_settings(file);
  if (!settings) return complain(console, settings.problems());
  if (!*settings)
    return complain(console, {{"no_thermometer", "", said("No thermometer is set up: there is no file {0}. \"redd thermometer --settings\" prints one to start from.", verbatim(file.string()))}});
  return asked.try_alarm ? try_alarm(console, **settings) : read_once(console, **settings);
}

}  // namespace redd::cli
