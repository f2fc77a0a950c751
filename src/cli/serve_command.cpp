// serve and demo: the page, until it is stopped.
#include <spawn.h>

#include <cstdlib>
#include <ostream>

#include "cli/commands.h"
#include "cli/service_manager.h"
#include "logbook/removal.h"
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

}  // namespace

Exit serve(const Console& console, const Place& place, const Serving& serving) {
  if (serving.port < 1 || serving.port > 65535)
    return complain(console, {{"out_of_range", "--port", "--port must be a whole number from 1 to 65535."}});
  if (const Problems problems = made_folder(place); !problems.empty()) return complain(console, problems);
  std::error_code ignored;
  if (serving.fresh && std::filesystem::exists(place.file(), ignored))
    if (const auto gone = logbook::delete_season(place.file()); !gone) return complain(console, gone.problems());
  auto desk = place.demo ? server::SeasonDesk::open_demo(place.file(), server::system_now)
                         : server::SeasonDesk::open(place.file(), server::system_now);
  if (!desk) return complain(console, desk.problems());
  server::FilterKeeper filter;
  // The invented season has no sensor.
  server::ThermometerKeeper thermometer(**desk, place.demo ? std::filesystem::path() : place.folder() / "thermometer.conf");
  if (!place.demo) {
    (*desk)->watch_by(&thermometer);
    thermometer.begin();
  }
  const server::App app(**desk, &filter);
  server::ServeOptions options;
  options.port = static_cast<std::uint16_t>(serving.port);
  auto opened = server::Server::open(options, [&app](const server::Request& request) { return app.handle(request); });
  if (!opened) return complain(console, opened.problems());

  const std::string address = "http://127.0.0.1:" + std::to_string((*opened)->port());
  const auto look = (*desk)->look();
  console.out << console.say(said("Redd is ready: {0}", address)) << "\n";
  if (look && (*look)->season)
    console.out << console.say(said((*look)->season->invented ? "Season: {0}, invented for trying out, kept in {1}" : "Season: {0}, kept in {1}", (*look)->season->name, place.file().string())) << "\n";
  else
    console.out << console.say("No season yet: the page asks what is needed to set one up.") << "\n";
  if (const auto state = thermometer.state(); !place.demo && state.set_up) {
    if (state.problems.empty()) console.out << console.say("The thermometer is read; its alarms show on the page.") << "\n";
    for (const Problem& problem : state.problems) console.err << "redd: " << console.say(problem.sentence) << "\n";
  }
  console.out << console.say("Only this machine can reach it. Stop it with Ctrl+C.") << "\n" << std::flush;
  tell_service_manager("READY=1");
  if (!serving.no_browser && has_display()) open_browser(address);
  (*opened)->run();
  tell_service_manager("STOPPING=1");
  console.out << console.say(said("Redd has stopped. Everything logged is in {0}", place.folder().string())) << "\n";
  return Exit::ok;
}

}  // namespace redd::cli
