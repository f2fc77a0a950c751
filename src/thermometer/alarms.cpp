#include "thermometer/alarms.h"

#include <algorithm>

#include "quantities/phrase_parts.h"
#include "quantities/result.h"
#include "quantities/temperature.h"

namespace redd::thermometer {
namespace {

using namespace std::chrono;

/// Keeps since when something has been so; forgets it when it is not.
void follow(std::optional<seconds>& since, bool is_so, seconds up) {
  if (!is_so) since.reset();
  else if (!since) since = up;
}

bool lasted(const std::optional<seconds>& since, seconds up, seconds lasting) { return since && up - *since >= lasting; }

long long whole_minutes(seconds span) { return std::max<long long>(1, span / minutes(1)); }

}  // namespace

std::string word_of(Alarm alarm) {
  switch (alarm) {
    case Alarm::too_warm: return "too_warm";
    case Alarm::too_cold: return "too_cold";
    case Alarm::silent: return "silent";
    case Alarm::stuck: return "stuck";
  }
  broken_promise("word_of", "unknown alarm");
}

void Alarms::quiet() {
  for (Ringing& one : ringing_) one.quiet = true;
}

Ringing* Alarms::find(Alarm alarm) {
  const auto found = std::ranges::find(ringing_, alarm, &Ringing::alarm);
  return found == ringing_.end() ? nullptr : &*found;
}

std::vector<Alarm> Alarms::causes(const Watch& watch, seconds up) {
  std::vector<Alarm> now;
  const Standing standing = watch.standing(up);
  if (const auto last = watch.last(); last && standing != Standing::silent) {
    follow(warm_since_, last->c > settings_.high_c, up);
    follow(cold_since_, last->c < settings_.low_c, up);
    follow(warm_over_since_, last->c <= settings_.high_c - settings_.hysteresis_c, up);
    follow(cold_over_since_, last->c >= settings_.low_c + settings_.hysteresis_c, up);
    if (find(Alarm::too_warm) ? !lasted(warm_over_since_, up, settings_.lasting) : lasted(warm_since_, up, settings_.lasting)) now.push_back(Alarm::too_warm);
    if (find(Alarm::too_cold) ? !lasted(cold_over_since_, up, settings_.lasting) : lasted(cold_since_, up, settings_.lasting)) now.push_back(Alarm::too_cold);
  } else {
    // What the water does is not known: an alarm that rang goes on ringing beside "silent", and no limit is called kept.
    for (const Alarm alarm : {Alarm::too_warm, Alarm::too_cold})
      if (find(alarm)) now.push_back(alarm);
    for (auto* since : {&warm_since_, &cold_since_, &warm_over_since_, &cold_over_since_}) since->reset();
  }
  if (standing == Standing::silent) now.push_back(Alarm::silent);
  if (standing == Standing::stuck) now.push_back(Alarm::stuck);
  return now;
}

std::vector<Signal> Alarms::look(const Watch& watch, seconds up) {
  const auto now = causes(watch, up);
  std::vector<Signal> signals;
  for (const Alarm alarm : now) {
    Phrase sentence = sentence_of(alarm, watch, up);
    if (Ringing* rings = find(alarm)) {
      rings->sentence = sentence;
      if (up < rings->next) continue;
      rings->between = std::min(rings->between * 2, settings_.most_between);
      rings->next = up + rings->between;
      if (!rings->quiet) signals.push_back({alarm, Signal::What::lasts, std::move(sentence)});
      continue;
    }
    ringing_.push_back({alarm, up, up + settings_.repeat, settings_.repeat, false, sentence});
    signals.push_back({alarm, Signal::What::begins, std::move(sentence)});
  }
  for (const Ringing& one : ringing_)
    if (std::ranges::find(now, one.alarm) == now.end()) {
      const auto last = watch.last();
      signals.push_back({one.alarm, Signal::What::ends, last ? said("It is over: the water reads {0}.", Temperature::from_c(last->c)) : Phrase("It is over.")});
    }
  std::erase_if(ringing_, [&](const Ringing& one) { return std::ranges::find(now, one.alarm) == now.end(); });
  std::ranges::stable_sort(ringing_, {}, &Ringing::alarm);
  return signals;
}

Phrase Alarms::sentence_of(Alarm alarm, const Watch& watch, seconds up) const {
  const auto last = watch.last();
  const Temperature c = Temperature::from_c(last ? last->c : 0);
  switch (alarm) {
    case Alarm::too_warm: return said("The water reads {0}, above the limit of {1}. Go and look: measure it by hand, and see whether the chiller and the pump run.", c, Temperature::from_c(settings_.high_c));
    case Alarm::too_cold: return said("The water reads {0}, below the limit of {1}. Go and look: measure it by hand, and see whether the chiller's controller is stuck on.", c, Temperature::from_c(settings_.low_c));
    case Alarm::stuck: return said("The sensor has shown {0} for {1} minutes without the least change: it may be stuck. Nothing is known of the water until it is measured by hand.", c, whole_minutes(up - *watch.same_since()));
    case Alarm::silent: break;
  }
  const Phrase why = watch.failing() ? failure_text(*watch.failing()) : failure_text(Failure::no_answer);
  if (!last) return said("Nothing has come from the sensor yet: {0}. Nothing is known of the water until it is measured by hand.", why);
  return said("Nothing has come from the sensor for {0} minutes: {1}. Nothing is known of the water until it is measured by hand.", whole_minutes(up - last->up), why);
}

}  // namespace redd::thermometer
