#include "thermometer/hourly.h"

#include <algorithm>
#include <cmath>

namespace redd::thermometer {
namespace {

using namespace std::chrono;

double hundredths(double c) { return std::round(c * 100) / 100; }
Instant hour_of(Instant at) { return floor<hours>(at); }

}  // namespace

std::string ToLog::key(const std::string& sensor) const {
  const char* word = what == What::mean ? "mean" : what == What::coldest ? "low" : "high";
  return "thermometer/" + sensor + "/" + std::to_string(hour.time_since_epoch().count() / 3600) + "/" + word;
}

std::vector<ToLog> Hourly::take(const Taken::Believed& value, bool clock_set) {
  std::vector<ToLog> done;
  if (!values_.empty() && (clock_set || hour_of(value.at) != hour_of(values_.front().at))) done = finish();
  values_.push_back(value);
  return done;
}

std::vector<ToLog> Hourly::finish() {
  const auto values = std::move(values_);
  values_.clear();
  if (static_cast<int>(values.size()) < fewest_samples) return {};
  const Instant hour = hour_of(values.front().at);
  double sum = 0;
  for (const auto& one : values) sum += one.c;
  const double mean = sum / static_cast<double>(values.size());
  const int count = static_cast<int>(values.size());
  std::vector<ToLog> out{{hour + minutes(30), hour, hundredths(mean), ToLog::What::mean, count}};
  const auto [low, high] = std::ranges::minmax_element(values, {}, &Taken::Believed::c);
  if (mean - low->c >= apart_c) out.push_back({low->at, hour, hundredths(low->c), ToLog::What::coldest, count});
  if (high->c - mean >= apart_c) out.push_back({high->at, hour, hundredths(high->c), ToLog::What::warmest, count});
  std::ranges::sort(out, {}, &ToLog::at);
  return out;
}

}  // namespace redd::thermometer
