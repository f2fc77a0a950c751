// serve and demo: the page, until it is stopped; on this machine, and on the local network when asked to.
#include <spawn.h>

#include <algorithm>
#include <cstdlib>
#include <ostream>

#include "cli/commands.h"
#include "cli/service_manager.h"
#include "logbook/removal.h"
#include "quantities/verbatim.h"
#include "server/app.h"
#include "server/serve.h"
#include "server/thermometer_keeper.h"

extern char** environ;

namespace redd::cli {
namespace {

bool has_display() {
  return std::getenv("DISPLAY") != nullptr || std::getenv("WAYLAND_DISPLAY") != nullptr;
}

/// Hands the address to the desktop. Whether it works is its own affair: the address has been printed.
void open_browser(const std::string& address) {
  const char* arguments[] = {"xdg-open", address.c_str(), nullptr};
  pid_t child = 0;
  posix_spawn_file_actions_t quiet;
  posix_spawn_file_actions_init(&quiet);
  posix_spawn_file_actions_addopen(&quiet, 1, "/dev/null", 1, 0);
  posix_spawn_file_actions_addopen(&quiet, 2, "/dev/null", 1, 0);
  posix_spawnp(&child, "xdg-open", &quiet, nullptr, const_cast<char**>(arguments), environ);
  posix_spawn_file_actions_destroy(&quiet);
}

/// What a device of the classroom types: the names and addresses that the certificate has.
std::vector<std::string> addresses_of(const secrets::Certificate& certificate, const secrets::MachineNames& machine, int port) {
  std::vector<std::string> names;
  const auto add = [&](const std::string& name) {
    if (name != "localhost" && secrets::answers_to(certificate, name) && std::ranges::find(names, name) == names.end()) names.push_back(name);
  };
  // A name with ".local" is found by most devices without help; a bare one only where the school's network knows it.
  for (const std::string& host : machine.hosts)
    if (host.ends_with(".local")) add(host);
  for (const std::string& host : certificate.hosts)
    if (host.find('.') != std::string::npos) add(host);
  for (const std::string& address : machine.addresses) add(address);
  for (std::string& name : names) name = "https://" + name + ":" + std::to_string(port);
  return names;
}

/// Everything the second door takes; nothing is opened before there is a passphrase.
Result<std::optional<server::Network>> network_of(const Place& place, const Serving& serving) {
  if (!serving.on_network) return std::optional<server::Network>();
  const auto kept_out = server::has_passphrase(place.file());
  if (!kept_out) return kept_out.problems();
  if (!*kept_out) return Problem{"no_passphrase", "--on-network", "There is no passphrase yet, so nobody could be kept out. Set one first: redd passphrase"};
  if (serving.certificate.empty() != serving.key.empty()) return Problem{"one_of_two", "--certificate", "--certificate and --key go together: the school's certificate, and the key it was made for."};
  const auto machine = secrets::machine_names();
  auto certificate = serving.certificate.empty() ? secrets::own_certificate(place.folder(), machine, server::system_now()) : secrets::school_certificate(serving.certificate, serving.key, server::system_now());
  if (!certificate) return certificate.problems();
  server::Network network{addresses_of(*certificate, machine, serving.network_port), std::move(certificate).value()};
  return std::optional(std::move(network));
}

void tell_of_network(const Console& console, const server::Network& network, bool own) {
  console.out << "\n" << console.say("WARNING: every device on this network can now reach the sign-in of this season.") << "\n";
  for (const std::string& address : secrets::machine_names().open_addresses)
    console.out << wrapped(console.say(said("This machine's address {0} is one of the open internet. Redd answers devices with private addresses only, and must not be reached from outside: ask whoever looks after the network.", verbatim(address))), 110) << "\n";
  if (network.addresses.empty()) console.out << console.say("This machine has no address on a network now: no other device can reach it.") << "\n";
  else console.out << console.say("On the devices of the classroom, type one of these:") << "\n";
  for (const std::string& address : network.addresses) console.out << "  " << address << "\n";
  if (own) console.out << wrapped(console.say("The certificate is Redd's own, so each browser warns once. Before you go on there, look at the certificate: its SHA-256 fingerprint must be"), 110) << "\n";
  else console.out << console.say("SHA-256 fingerprint of the certificate:") << "\n";
  console.out << "  " << network.certificate.fingerprint << "\n"
              << console.say(said("It holds until {0}.", rfc3339_from_instant(network.certificate.ends_at).substr(0, 10))) << "\n"
              << wrapped(console.say("Ask whoever looks after the school's network before you do this, and what your permit says of the log. Use team labels, never names of pupils. A code for a team: redd code --team \"Team Newt\". Who did what: redd audit"), 110) << "\n";
}

}  // namespace

Exit serve(const Console& console, const Place& place, const Serving& serving) {
  if (serving.port < 1 || serving.port > 65535)
    return complain(console, {{"out_of_range", "--port", "--port must be a whole number from 1 to 65535."}});
  if (serving.network_port < 1 || serving.network_port > 65535 || serving.network_port == serving.port)
    return complain(console, {{"out_of_range", "--network-port", "--network-port must be a whole number from 1 to 65535, and another than --port."}});
  if (const Problems problems = made_folder(place); !problems.empty()) return complain(console, problems);
  std::error_code ignored;
  if (serving.fresh && std::filesystem::exists(place.file(), ignored))
    if (const auto gone = logbook::delete_season(place.file()); !gone) return complain(console, gone.problems());
  auto desk = place.demo ? server::SeasonDesk::open_demo(place.file(), server::system_now)
                         : server::SeasonDesk::open(place.file(), server::system_now);
  if (!desk) return complain(console, desk.problems());
  auto network = network_of(place, serving);
  if (!network) return complain(console, network.problems());
  server::Classroom classroom(place.file(), server::system_now, std::move(network).value());
  server::FilterKeeper filter;
  // The invented season has no sensor.
  server::ThermometerKeeper thermometer(**desk, place.demo ? std::filesystem::path() : place.folder() / "thermometer.conf");
  if (!place.demo) {
    (*desk)->watch_by(&thermometer);
    thermometer.begin();
  }
  const server::App app(**desk, &filter, &classroom);
  server::ServeOptions options;
  options.port = static_cast<std::uint16_t>(serving.port);
  if (const auto& shared = classroom.network()) {
    options.network = server::NetworkListener{.port = static_cast<std::uint16_t>(serving.network_port), .chain_pem = shared->certificate.chain_pem, .key_pem = shared->certificate.key_pem,
                                              .handler = [&app](const server::Request& request) { return app.handle_from_network(request); }};
    if (const Problems problems = classroom.note_listening(); !problems.empty()) return complain(console, problems);
  }
  auto opened = server::Server::open(options, [&app](const server::Request& request) { return app.handle(request); });
  if (!opened) return complain(console, opened.problems());

  const std::string address = "http://127.0.0.1:" + std::to_string((*opened)->port());
  const auto look = (*desk)->look();
  console.out << console.say(said("Redd is ready: {0}", address)) << "\n";
  if (look && (*look)->season)
    console.out << console.say(said((*look)->season->invented ? "Season: {0}, invented for trying out, kept in {1}" : "Season: {0}, kept in {1}", verbatim((*look)->season->name), verbatim(place.file().string()))) << "\n";
  else
    console.out << console.say("No season yet: the page asks what is needed to set one up.") << "\n";
  if (const auto state = thermometer.state(); !place.demo && state.set_up) {
    if (state.problems.empty()) console.out << console.say("The thermometer is read; its alarms show on the page.") << "\n";
    for (const Problem& problem : state.problems) console.err << "redd: " << console.say(problem.sentence) << "\n";
  }
  if (const auto& shared = classroom.network()) {
    tell_of_network(console, *shared, serving.certificate.empty());
    console.out << console.say("Stop it with Ctrl+C.") << "\n" << std::flush;
  } else {
    console.out << console.say("Only this machine can reach it. Stop it with Ctrl+C.") << "\n" << std::flush;
  }
  tell_service_manager("READY=1");
  if (!serving.no_browser && has_display()) open_browser(address);
  (*opened)->run();
  tell_service_manager("STOPPING=1");
  console.out << console.say(said("Redd has stopped. Everything logged is in {0}", verbatim(place.folder().string()))) << "\n";
  return Exit::ok;
}

}  // namespace redd::cli
