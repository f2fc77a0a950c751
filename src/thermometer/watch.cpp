#include "thermometer/watch.h"

#include <algorithm>
#include <cmath>

namespace redd::thermometer {
namespace {

using namespace std::chrono;

/// Assumed: two clocks of one machine drift less than this apart between two samples.
constexpr seconds clock_noise{5};

}  // namespace

Taken Watch::take(const Sample& sample) {
  Taken taken;
  if (!begun_) begun_ = sample.up;
  if (before_ && sample.up < before_->up) {
    taken.refused = Failure::no_answer;
    return taken;
  }
  if (before_) {
    const auto apart = (sample.at - before_->at) - (sample.up - before_->up);
    taken.clock_set = apart > clock_noise || apart < -clock_noise;
  }
  before_ = sample;
  if (const auto* failure = std::get_if<Failure>(&sample.c)) {
    failing_ = taken.refused = *failure;
    return taken;
  }
  const double c = std::get<double>(sample.c);
  const Taken::Believed value{sample.at, sample.up, c};
  if (!is_jump(sample, c)) {
    // What stood away from the stream, and was not followed, was a spike.
    if (!waiting_.empty()) taken.refused = Failure::jump;
    waiting_.clear();
    believe(value, taken);
    return taken;
  }
  // Those that wait must agree with each other; a second leap elsewhere begins the wait anew.
  if (!waiting_.empty() && std::abs(waiting_.back().c - c) > settings_.jump_c) {
    waiting_.clear();
    taken.refused = Failure::jump;
    failing_ = Failure::jump;
  }
  waiting_.push_back(value);
  if (static_cast<int>(waiting_.size()) < settings_.confirmations) {
    taken.waits = true;
    return taken;
  }
  const auto confirmed = std::move(waiting_);
  waiting_.clear();
  for (const auto& one : confirmed) believe(one, taken);
  return taken;
}

bool Watch::is_jump(const Sample& sample, double c) const {
  if (!last_) return false;
  const double hours_since = duration<double, std::ratio<3600>>(sample.up - last_->up).count();
  return std::abs(c - last_->c) > settings_.jump_c + settings_.fast_in_an_hour_c * hours_since;
}

void Watch::believe(const Taken::Believed& value, Taken& taken) {
  if (!last_ || value.c != last_->c) {
    if (last_) {
      const double step = std::abs(value.c - last_->c);
      smallest_step_ = smallest_step_ ? std::min(*smallest_step_, step) : step;
    }
    same_since_ = value.up;
  }
  last_ = value;
  failing_.reset();
  taken.believed.push_back(value);
}

std::optional<double> Watch::resolution_c() const { return settings_.resolution_c ? settings_.resolution_c : smallest_step_; }

Standing Watch::standing(seconds up) const {
  if (!begun_) return Standing::no_word_yet;
  if (up - (last_ ? last_->up : *begun_) >= settings_.silent_after) return Standing::silent;
  if (!last_) return Standing::no_word_yet;
  const auto resolution = resolution_c();
  constexpr double fine_c = 0.11, coarse_c = 0.55;
  if (resolution && *resolution > coarse_c) return Standing::working;
  // While it never changed, its step is unknown: it is judged like a coarse one.
  const seconds allowed = resolution && *resolution <= fine_c ? settings_.stuck_after : settings_.stuck_after_coarse;
  return up - same_since_ >= allowed ? Standing::stuck : Standing::working;
}

}  // namespace redd::thermometer
