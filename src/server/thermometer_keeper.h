// server/thermometer_keeper.h
// The live thermometer: reads the sensor, watches it, logs an hour at a time, and calls when something is wrong. Start at
// ThermometerKeeper; its thread only calls step() again and again.
#pragma once

#include <condition_variable>
#include <deque>
#include <filesystem>
#include <functional>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "sensors/outlets.h"
#include "sensors/source.h"
#include "server/season_desk.h"
#include "thermometer/alarms.h"
#include "thermometer/hourly.h"
#include "thermometer/watch.h"

namespace redd::server {

/// Limits of the alarm and where they are from.
struct Limits {
  double low_c = 0, high_c = 0;
  bool from_season = true;
};

/// From the season: two degrees around the chiller's setting or the target, and no wider than what the stage in the tank bears.
/// Nothing while there is no season.
std::optional<Limits> season_limits(const Look& look, Instant now);

/// What the page is told.
struct ThermometerState {
  bool set_up = false;
  Problems problems{};          ///< of the settings or the line; the thermometer may not be running
  std::string name{};
  std::chrono::seconds up{};    ///< of the other moments
  thermometer::Standing standing = thermometer::Standing::no_word_yet;
  std::optional<thermometer::Taken::Believed> last{};
  std::optional<thermometer::Failure> failing{};
  Phrase trouble{};             ///< of the line
  std::optional<Limits> limits{};
  std::vector<thermometer::Ringing> ringing{};
  std::vector<sensors::Sent> sent{};        ///< of the newest message
  std::optional<Instant> sent_at{};
  std::vector<Phrase> not_logged{};         ///< why the last hour could not be logged
};

class ThermometerKeeper {
 public:
  /// A moment on both clocks.
  struct Moment {
    Instant at{};
    std::chrono::seconds up{};
  };
  using Send = std::function<std::vector<sensors::Sent>(const sensors::Settings&, const sensors::Message&)>;

  /// Reads the settings beside the season's file. Nothing runs before begin().
  /// In      desk: outlives the keeper. send: how messages go out.
  ThermometerKeeper(SeasonDesk& desk, const std::filesystem::path& settings_file, Send send = sensors::send_all);
  ~ThermometerKeeper();

  /// Starts the threads that read and send. Does nothing where no thermometer is set up.
  void begin();

  /// One look at the sensor and the alarms.
  void step(const Moment& now);

  /// Safe from several threads.
  ThermometerState state() const;
  void quiet();
  /// Sends a test message and says what became of it.
  Result<std::vector<sensors::Sent>> try_alarm(Instant at);

  static Moment moment();

 private:
  void take(const Moment& now);
  void log(const std::vector<thermometer::ToLog>& hour);
  void set_limits(const Moment& now);
  void tell(const std::vector<thermometer::Signal>& signals, const Moment& now);
  void send_waiting(const std::stop_token& stop);

  SeasonDesk& desk_;
  Send send_;
  mutable std::mutex mutex_;
  ThermometerState state_;
  std::optional<sensors::Settings> settings_{};
  std::unique_ptr<sensors::Source> source_;
  thermometer::Watch watch_{};
  thermometer::Hourly hourly_{};
  std::optional<thermometer::Alarms> alarms_{};
  std::optional<std::chrono::seconds> limits_at_{};
  std::size_t limits_records_ = 0;
  std::deque<records::Entry> to_log_;   ///< oldest first, at most a week
  std::deque<sensors::Message> to_send_;
  std::condition_variable_any changed_;
  std::jthread reader_, sender_;  ///< last, so that they end before the rest goes
};

}  // namespace redd::server
