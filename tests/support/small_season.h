#pragma once
// A small season made by hand for tests of belief, advice and report: a tank, a kit, a source water, and what a test adds.

#include <chrono>
#include <string>
#include <vector>

#include "records/record.h"
#include "season/season.h"

namespace redd::testing {

using namespace records;

/// Day counted from the season's first, at this hour UTC.
inline Instant on_day(int day, int hour = 8) {
  using namespace std::chrono;
  return Instant{sys_days{year{2031} / January / 6}} + days(day) + hours(hour);
}

class SmallSeason {
 public:
  SmallSeason() {
    SeasonSetup setup;
    setup.name = "Test season";
    setup.time_zone = "UTC";
    setup.first_day = Date{std::chrono::sys_days{std::chrono::year{2031} / 1 / 6}.time_since_epoch()};
    setup.volume = Volume::from_l(200);
    setup.species = "brook_trout";
    setup.target = Temperature::from_c(8);
    add(0, setup, 1);
    add(0, kit(), 1);
    SourceWater tap;
    tap.key = tap.name = "tap";
    tap.ph = Ph::from_ph(7.2);
    tap.alkalinity = Alkalinity::from_german_degrees(3);
    tap.hardness = Hardness::from_german_degrees(4);
    tap.total_ammonia = tap.nitrite = NitrogenConc::from_mg_n_per_l(0);
    tap.nitrate = NitrogenConc::from_mg_no3_per_l(2);
    tap.chloride_mg_per_l = 7;
    tap.temperature = Temperature::from_c(9);
    add(0, tap, 1);
  }

  static Kit kit() {
    const auto colours = [](const char* key, Quantity quantity, TestUnit unit, std::vector<double> steps) {
      KitTest t;
      t.key = key;
      t.quantity = quantity;
      t.unit = unit;
      t.steps = std::move(steps);
      return t;
    };
    const auto drops = [](const char* key, Quantity quantity, double per_drop) {
      KitTest t;
      t.key = key;
      t.quantity = quantity;
      t.method = Method::drop_count;
      t.unit = quantity == Quantity::oxygen ? TestUnit::mg_per_l : TestUnit::german_degrees;
      t.per_drop = per_drop;
      return t;
    };
    return {"k", "Test kit",
            {colours("ammonia", Quantity::total_ammonia, TestUnit::mg_n_per_l, {0, 0.2, 0.4, 0.8, 1.6, 3.2}),
             colours("nitrite", Quantity::nitrite, TestUnit::mg_n_per_l, {0, 0.05, 0.1, 0.2, 0.4, 0.8}),
             colours("nitrate", Quantity::nitrate, TestUnit::mg_no3_per_l, {0, 5, 10, 20, 40, 80}),
             colours("ph", Quantity::ph, TestUnit::ph, {6.4, 6.8, 7.2, 7.6, 8.0, 8.4}), drops("kh", Quantity::alkalinity, 0.5),
             drops("gh", Quantity::hardness, 0.5), drops("oxygen", Quantity::oxygen, 0.5)}};
  }

  RecordId add(int day, Body body, int hour = 8) {
    Record r;
    r.id = static_cast<RecordId>(log_.size()) + 1;
    r.logged_at = on_day(day, hour);
    r.entry.at = r.logged_at;
    r.entry.author = "Team Otter";
    r.entry.body = std::move(body);
    log_.push_back(std::move(r));
    return log_.back().id;
  }

  RecordId step(int day, const char* test, double value, int hour = 8) { return add(day, reading(test, Reading::Form::step, value), hour); }
  RecordId between(int day, const char* test, double low, double high) {
    Reading r = reading(test, Reading::Form::between, low);
    r.upper_value = high;
    return add(day, r);
  }
  RecordId drops(int day, const char* test, int count) { return add(day, reading(test, Reading::Form::drops, count)); }
  static Reading reading(const char* test, Reading::Form form, std::optional<double> value) {
    Reading r;
    r.kit = "k";
    r.test = test;
    r.form = form;
    r.value = value;
    return r;
  }

  /// The six weekly tests, all quiet, and the tank's temperature.
  void quiet_tests(int day) {
    step(day, "ammonia", 0);
    step(day, "nitrite", 0);
    step(day, "nitrate", 5);
    step(day, "ph", 7.2);
    drops(day, "kh", 6);
    drops(day, "gh", 8);
    temperature(day, 8);
  }
  RecordId temperature(int day, double c, int hour = 8) { return add(day, TemperatureReading{Temperature::from_c(c)}, hour); }
  RecordId eggs(int day, double thermal_sum_c_days = 250) {
    EggReceipt e;
    e.count = 200;
    e.start = EggReceipt::Start::thermal_sum;
    e.thermal_sum = ThermalSum::from_c_days(thermal_sum_c_days);
    e.incubation = Temperature::from_c(8);
    return add(day, e);
  }

  season::DayView look(int day, int hour = 12) const {
    auto view = season::look_at_day({}, log_, on_day(day, hour));
    require(view.has_value(), "SmallSeason", "the season does not look");
    return std::move(view).value();
  }
  const std::vector<Record>& log() const { return log_; }
  std::vector<Record>& log() { return log_; }

 private:
  std::vector<Record> log_;
};

}  // namespace redd::testing
