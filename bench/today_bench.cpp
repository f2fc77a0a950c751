// What a keeper waits for: `redd today` on a season of 40 weeks and 2,000 records, cold, and the start of the server.
// Wanted: today under 100 ms, the server's first answer under 300 ms after its start, today's whole answer under 300 ms once the filter's posterior exists.
// The program is started anew each time; only the machine's file cache stays warm.

#include <arpa/inet.h>
#include <benchmark/benchmark.h>
#include <signal.h>
#include <spawn.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

#include "logbook/logbook.h"
#include "report/day_json.h"
#include "season/season.h"
#include "server/filter_keeper.h"
#include "server/season_desk.h"

extern char** environ;

namespace {

using namespace redd;
namespace fs = std::filesystem;

/// 40 weeks ending now: a setup, a kit, six thermometer looks a day on working days, and a weekly test in four teams.
std::vector<logbook::DatedEntry> forty_weeks(Instant now) {
  std::vector<logbook::DatedEntry> entries;
  const Instant begin = now - std::chrono::weeks(40);
  const auto add = [&](Instant at, records::Body body) {
    entries.push_back({{at, "bench", {}, {}, std::move(body)}, at});
  };
  records::SeasonSetup season;
  season.name = "Bench";
  season.time_zone = "America/Denver";
  season.first_day = local_day({}, begin) - std::chrono::days(1);
  season.volume = Volume::from_l(210);
  season.elevation_m = 640;
  season.species = "brook_trout";
  season.target = Temperature::from_c(8);
  season.egg_day = local_day({}, begin) + std::chrono::weeks(20);
  add(begin, season);
  const auto colour = [](const char* key, records::Quantity quantity, records::TestUnit unit,
                         std::vector<double> steps) {
    return records::KitTest{.key = key, .quantity = quantity, .unit = unit, .steps = std::move(steps)};
  };
  add(begin,
      records::Kit{
          "card",
          "Card",
          {colour("ammonia", records::Quantity::total_ammonia, records::TestUnit::mg_nh4_per_l, {0.1, 0.25, 0.5, 1, 2}),
           colour("nitrite", records::Quantity::nitrite, records::TestUnit::mg_no2_per_l, {0.1, 0.25, 0.5, 1}),
           colour("nitrate", records::Quantity::nitrate, records::TestUnit::mg_no3_per_l, {5, 10, 20, 40}),
           colour("ph", records::Quantity::ph, records::TestUnit::ph, {6.5, 7, 7.5, 8})}});
  for (int day = 0; day < 40 * 7; ++day) {
    const Instant morning = begin + std::chrono::days(day) + std::chrono::hours(1);
    if (day == 20 * 7)
      add(morning, records::EggReceipt{.count = 200,
                                       .start = records::EggReceipt::Start::thermal_sum,
                                       .thermal_sum = ThermalSum::from_c_days(250),
                                       .thermal_sum_doubt = ThermalSum::from_c_days(10)});
    if (day % 7 < 5)
      for (int look = 0; look < 6; ++look)
        add(morning + std::chrono::hours(look),
            records::TemperatureReading{Temperature::from_c(8 + 0.1 * ((day * 7 + look) % 5))});
    if (day % 7 == 2) {
      for (const auto& [test, value] :
           {std::pair("ammonia", 0.1), std::pair("nitrite", 0.1), std::pair("nitrate", 10.0), std::pair("ph", 7.5)})
        for (const char* team : {"A", "B", "C", "D"})
          add(morning + std::chrono::hours(7),
              records::Reading{.kit = "card", .test = test, .value = value, .team = team});
      add(morning + std::chrono::hours(8), records::WaterChange{.volume = Volume::from_l(40), .dechlorinated = true});
    }
  }
  while (entries.size() < 2000) add(now - std::chrono::hours(1), records::Note{"one of many"});
  return entries;
}

/// The season's folder, made once and removed at the end.
const fs::path& season_folder() {
  struct Kept {
    fs::path path = fs::temp_directory_path() / ("redd-bench-" + std::to_string(getpid()));
    Kept() {
      fs::create_directories(path);
      auto logbook = logbook::Logbook::create(path / "season.redd");
      const auto kept = logbook ? logbook.value().append_dated(forty_weeks(server::system_now())) : logbook.problems();
      if (!kept) {
        std::fprintf(stderr, "the bench season could not be made: %s\n", kept.problems().front().sentence.c_str());
        std::exit(1);
      }
    }
    ~Kept() {
      std::error_code ignored;
      fs::remove_all(path, ignored);
    }
  };
  static const Kept kept;
  return kept.path;
}

pid_t started(std::vector<std::string> words) {
  std::vector<char*> arguments{const_cast<char*>(REDD_PROGRAM)};
  for (std::string& word : words) arguments.push_back(word.data());
  arguments.push_back(nullptr);
  posix_spawn_file_actions_t quiet;
  posix_spawn_file_actions_init(&quiet);
  posix_spawn_file_actions_addopen(&quiet, 1, "/dev/null", 1, 0);
  pid_t child = 0;
  if (posix_spawn(&child, REDD_PROGRAM, &quiet, nullptr, arguments.data(), environ) != 0) std::exit(1);
  posix_spawn_file_actions_destroy(&quiet);
  return child;
}

bool answered(std::uint16_t port) {
  const int handle = socket(AF_INET, SOCK_STREAM, 0);
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_port = htons(port);
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  bool good = connect(handle, reinterpret_cast<sockaddr*>(&address), sizeof address) == 0;
  const std::string request = "GET /api/season HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n";
  char reply[16];
  good = good && send(handle, request.data(), request.size(), MSG_NOSIGNAL) > 0 &&
         recv(handle, reply, sizeof reply, 0) > 12;
  close(handle);
  return good;
}

void today_cold(benchmark::State& state) {
  const std::string folder = season_folder().string();
  for (auto _ : state) {
    int status = 0;
    waitpid(started({"today", "--data", folder}), &status, 0);
    if (!WIFEXITED(status) || WEXITSTATUS(status) != 0) state.SkipWithError("redd today failed");
  }
}
BENCHMARK(today_cold)->Unit(benchmark::kMillisecond)->UseRealTime();

void server_until_first_answer(benchmark::State& state) {
  const std::string folder = season_folder().string();
  const auto port = static_cast<std::uint16_t>(20000 + getpid() % 20000);
  for (auto _ : state) {
    const pid_t child = started({"serve", "--no-browser", "--data", folder, "--port", std::to_string(port)});
    while (!answered(port)) usleep(1000);
    state.PauseTiming();
    kill(child, SIGTERM);
    waitpid(child, nullptr, 0);
    state.ResumeTiming();
  }
}
BENCHMARK(server_until_first_answer)->Unit(benchmark::kMillisecond)->UseRealTime();

/// The same day without files, processes or text: what the core alone takes.
void look_at_day_alone(benchmark::State& state) {
  auto desk = server::SeasonDesk::open(season_folder() / "season.redd", server::system_now);
  const auto look = (*desk)->look().value();
  const Instant now = server::system_now();
  for (auto _ : state) benchmark::DoNotOptimize(season::look_at_day({look->zone}, look->records, now));
}
BENCHMARK(look_at_day_alone)->Unit(benchmark::kMillisecond);

/// Today's whole answer with all that is worked out beside it, from the records to the page's JSON, once the filter's posterior exists.
void today_after_posterior(benchmark::State& state) {
  auto desk = server::SeasonDesk::open(season_folder() / "season.redd", server::system_now);
  const auto look = (*desk)->look().value();
  const Instant now = server::system_now();
  server::FilterWorker worker;
  const auto found = worker.outlook(*look, now, [](double) { return true; });
  if (!found.outlook) state.SkipWithError("no outlook of the filter");
  for (auto _ : state) {
    const auto view = season::look_at_day({look->zone}, look->records, now, found.outlook.get());
    benchmark::DoNotOptimize(report::day_json(*view));
  }
}
BENCHMARK(today_after_posterior)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace

BENCHMARK_MAIN();
