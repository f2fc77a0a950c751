#include "server/thermometer_keeper.h"

#include <time.h>

#include <algorithm>

#include "desk/handlers.h"
#include "quantities/verbatim.h"
#include "report/numbers.h"
#include "season/season.h"

namespace redd::server {
namespace {

using namespace std::chrono;

/// Assumed: what a keeper wants to hear of, before it harms.
constexpr double around_target_c = 2;
/// Hours that wait for a season file that can't be written just now.
constexpr std::size_t most_waiting = 3 * 24 * 7;
constexpr std::size_t most_messages = 50;
constexpr const char* author = "Thermometer";

report::Reader reader_of(const sensors::Settings& settings) {
  report::Reader reader;
  reader.language = settings.spanish ? report::Language::es : report::Language::en;
  return reader;
}

sensors::Message message_of(const thermometer::Signal& signal, Instant at, const std::string& season, const report::Reader& reader) {
  const char* what = signal.what == thermometer::Signal::What::begins ? "begins" : signal.what == thermometer::Signal::What::lasts ? "lasts" : "ends";
  const std::string title = report::say(reader, signal.what == thermometer::Signal::What::ends ? "Redd, an alarm is over: {0}" : "Redd, alarm: {0}", verbatim(season));
  return {title, report::text_of(signal.sentence, reader), thermometer::word_of(signal.alarm), what, rfc3339_from_instant(at)};
}

}  // namespace

std::optional<Limits> season_limits(const Look& look, Instant now) {
  if (!look.season) return std::nullopt;
  const auto day = season::look_at_day({look.zone}, look.records, now);
  if (!day) return std::nullopt;
  const double aim_c = day->belief.temperature.set_point.value_or(day->season.target).c();
  Limits limits{aim_c - around_target_c, aim_c + around_target_c};
  const auto water = day->advice.water.find(advice::WaterKey::temperature);
  if (water == day->advice.water.end()) return limits;
  for (const auto& limit : water->second.limits) {
    if (limit.key == "red_above") limits.high_c = std::min(limits.high_c, limit.value);
    if (limit.key == "red_below") limits.low_c = std::max(limits.low_c, limit.value);
  }
  // A target outside what the stage bears must not turn the limits around.
  if (limits.low_c >= limits.high_c) return Limits{aim_c - around_target_c, aim_c + around_target_c};
  return limits;
}

ThermometerKeeper::ThermometerKeeper(SeasonDesk& desk, const std::filesystem::path& settings_file, Send send) : desk_(desk), send_(std::move(send)) {
  auto settings = sensors::read_settings(settings_file);
  if (!settings) {
    state_.set_up = true;
    state_.problems = settings.problems();
    return;
  }
  if (!*settings) return;
  settings_ = std::move(**settings);
  state_.set_up = true;
  state_.name = settings_->name;
  auto source = sensors::source_of(*settings_);
  if (!source) state_.problems = source.problems();
  else source_ = std::move(source).value();
  thermometer::WatchSettings watching;
  watching.silent_after = settings_->silent_after;
  watching.resolution_c = settings_->resolution_c;
  watch_ = thermometer::Watch(watching);
}

ThermometerKeeper::~ThermometerKeeper() {
  reader_.request_stop();
  sender_.request_stop();
  changed_.notify_all();
}

ThermometerKeeper::Moment ThermometerKeeper::moment() {
  timespec since_start{};
  clock_gettime(CLOCK_BOOTTIME, &since_start);  // goes on while the machine sleeps
  return {system_now(), seconds(since_start.tv_sec)};
}

void ThermometerKeeper::begin() {
  if (!source_ || reader_.joinable()) return;
  sender_ = std::jthread([this](const std::stop_token& stop) { send_waiting(stop); });
  reader_ = std::jthread([this](const std::stop_token& stop) {
    std::mutex unused;
    std::condition_variable_any pause;
    while (!stop.stop_requested()) {
      step(moment());
      std::unique_lock lock(unused);
      pause.wait_for(lock, stop, settings_->every, [] { return false; });
    }
  });
}

void ThermometerKeeper::step(const Moment& now) {
  if (!source_) return;
  const std::lock_guard lock(mutex_);
  take(now);
  set_limits(now);
  if (alarms_) tell(alarms_->look(watch_, now.up), now);
  state_.up = now.up;
  state_.standing = watch_.standing(now.up);
  state_.last = watch_.last();
  state_.failing = watch_.failing();
  state_.trouble = source_->trouble();
  state_.ringing = alarms_ ? alarms_->ringing() : std::vector<thermometer::Ringing>{};
}

void ThermometerKeeper::take(const Moment& now) {
  const auto c = source_->read();
  // A topic that says nothing new is no failure; how long it says nothing, the watch sees by the clock.
  if (!c) return;
  const auto taken = watch_.take({now.at, now.up, *c});
  bool clock_set = taken.clock_set;
  for (const auto& value : taken.believed) {
    log(hourly_.take(value, clock_set));
    clock_set = false;
  }
  log({});
}

void ThermometerKeeper::log(const std::vector<thermometer::ToLog>& hour) {
  for (const auto& one : hour)
    to_log_.push_back({one.at, author, {}, one.key(settings_->name), records::TemperatureReading{Temperature::from_c(one.c), records::TemperatureReading::Place::tank}});
  while (to_log_.size() > most_waiting) to_log_.pop_front();
  if (to_log_.empty()) return;
  const auto look = desk_.look();
  // Nothing is made up for a season that does not exist yet, nor added to the invented one.
  if (look && (!(*look)->season || (*look)->invented())) return to_log_.clear();
  state_.not_logged.clear();
  while (!to_log_.empty()) {
    const auto kept = desk_.add(to_log_.front(), desk_.clock());
    if (!kept) {
      // A full disk or a locked file may be better next time. What the log refuses will not: an hour before the season, or one that came
      // again after the clock was set back and is in the log already.
      if (desk::status_of(kept.problems()) >= 500) {
        state_.not_logged = {kept.problems().front().sentence};
        return;
      }
      if (kept.problems().front().code != "entry_key_reused") state_.not_logged = {kept.problems().front().sentence};
    }
    to_log_.pop_front();
  }
}

void ThermometerKeeper::set_limits(const Moment& now) {
  const auto look = desk_.look();
  const std::size_t records = look ? (*look)->records.size() : 0;
  // With each entry the stage or the chiller's setting may be another, and with the hours the stage; a look takes some hundredths of a second.
  if (limits_at_ && records == limits_records_ && now.up - *limits_at_ < hours(1)) return;
  limits_at_ = now.up;
  limits_records_ = records;
  std::optional<Limits> limits;
  if (look) limits = season_limits(**look, now.at);
  if (settings_->low_c || settings_->high_c) {
    // One limit of one's own keeps the season's other.
    Limits own = limits.value_or(Limits{0, 20, false});
    own.from_season = false;
    own.low_c = settings_->low_c.value_or(std::min(own.low_c, *settings_->high_c - 1));
    own.high_c = settings_->high_c.value_or(std::max(own.high_c, own.low_c + 1));
    limits = own;
  }
  if (!limits) limits = Limits{0, 20, false};  // no season yet: only what harms anything that lives in cold water
  const bool same = state_.limits && alarms_ && state_.limits->low_c == limits->low_c && state_.limits->high_c == limits->high_c;
  state_.limits = limits;
  if (same) return;
  thermometer::AlarmSettings settings;
  settings.low_c = limits->low_c;
  settings.high_c = limits->high_c;
  if (alarms_) alarms_->change(settings);
  else alarms_.emplace(settings);
}

void ThermometerKeeper::tell(const std::vector<thermometer::Signal>& signals, const Moment& now) {
  if (signals.empty()) return;
  const auto look = desk_.look();
  const std::string season = look && (*look)->season ? (*look)->season->name : settings_->name;
  for (const auto& signal : signals) to_send_.push_back(message_of(signal, now.at, season, reader_of(*settings_)));
  while (to_send_.size() > most_messages) to_send_.pop_front();
  changed_.notify_all();
}

void ThermometerKeeper::send_waiting(const std::stop_token& stop) {
  std::unique_lock lock(mutex_);
  while (changed_.wait(lock, stop, [this] { return !to_send_.empty(); })) {
    const sensors::Message message = to_send_.front();
    to_send_.pop_front();
    lock.unlock();  // the sensor is read on while a mail server takes its time
    auto sent = send_(*settings_, message);
    lock.lock();
    state_.sent = std::move(sent);
    state_.sent_at = instant_from_rfc3339(message.at);
  }
}

ThermometerState ThermometerKeeper::state() const {
  const std::lock_guard lock(mutex_);
  return state_;
}

void ThermometerKeeper::quiet() {
  const std::lock_guard lock(mutex_);
  if (!alarms_) return;
  alarms_->quiet();
  state_.ringing = alarms_->ringing();
}

Result<std::vector<sensors::Sent>> ThermometerKeeper::try_alarm(Instant at) {
  std::optional<sensors::Settings> settings;
  {
    const std::lock_guard lock(mutex_);
    settings = settings_;
  }
  if (!settings) return Problem{"no_thermometer", "", "No thermometer is set up here."};
  const report::Reader reader = reader_of(*settings);
  auto sent = send_(*settings, {report::say(reader, "Redd, a test alarm"), report::say(reader, "This is a test. If you read it, alarms of the tank's thermometer reach you."), "test", "test", rfc3339_from_instant(at)});
  const std::lock_guard lock(mutex_);
  state_.sent = sent;
  state_.sent_at = at;
  return sent;
}

}  // namespace redd::server
