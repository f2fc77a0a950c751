// Tables written in many ways and read back: what was written is what is proposed, however it was written.

#include <cmath>
#include <cstdio>

#include "intake/import.h"
#include "properties/generators.h"

namespace redd::intake {
namespace {

using namespace std::chrono;

Context season() {
  return {{}, {}, *date_from_iso("2030-09-02"), *instant_from_rfc3339("2031-06-01T18:00:00Z")};
}

struct Way {
  char delimiter;
  char mark;
  int order;  ///< 0 ymd, 1 dmy, 2 mdy
  bool fahrenheit;
  bool spanish;
};

std::string number(double value, int digits, char mark) {
  char buffer[32];
  std::snprintf(buffer, sizeof buffer, "%.*f", digits, value);
  std::string text = buffer;
  for (char& c : text)
    if (c == '.') c = mark;
  return text;
}

std::string day_text(Date day, int order) {
  const year_month_day d{local_days{day}};
  const int y = static_cast<int>(d.year());
  const unsigned m = static_cast<unsigned>(d.month()), n = static_cast<unsigned>(d.day());
  char buffer[40];
  if (order == 0) std::snprintf(buffer, sizeof buffer, "%04d-%02u-%02u", y, m, n);
  else if (order == 1) std::snprintf(buffer, sizeof buffer, "%02u.%02u.%04d", n, m, y);
  else std::snprintf(buffer, sizeof buffer, "%02u/%02u/%04d", m, n, y);
  return buffer;
}

RC_GTEST_PROP(WeeklyLog, IsReadAsItWasWritten, ()) {
  const Way way{*rc::gen::element(';', '\t'), *rc::gen::element('.', ','), *rc::gen::inRange(0, 3), *rc::gen::arbitrary<bool>(), *rc::gen::arbitrary<bool>()};
  const int rows = *rc::gen::inRange(1, 20);
  const std::string d(1, way.delimiter);
  std::string text = (way.spanish ? "fecha" : "date") + d + (way.spanish ? "temperatura" : "water temp") + (way.fahrenheit ? " (°F)" : " (°C)") + d + "pH" + d + (way.spanish ? "huevos muertos" : "dead eggs") + "\n";
  std::vector<double> celsius;
  std::vector<int> dead;
  for (int i = 0; i < rows; ++i) {
    const double c = *rc::gen::inRange(10, 180) / 10.0;
    celsius.push_back(c);
    dead.push_back(*rc::gen::inRange(0, 9));
    text += day_text(*date_from_iso("2030-09-15") + days(7 * i), way.order) + d + number(way.fahrenheit ? c * 9 / 5 + 32 : c, 2, way.mark) + d + number(7.2, 1, way.mark) + d + std::to_string(dead.back()) + "\n";
  }
  Settings settings;
  settings.date_order = std::array{"ymd", "dmy", "mdy"}[static_cast<std::size_t>(way.order)];
  settings.dead_counts = "new";
  const auto p = preview_import(text, settings, season());
  RC_ASSERT(p.has_value());
  RC_ASSERT(p->bad.empty());
  std::vector<double> read;
  std::vector<int> counted;
  std::size_t ph = 0;
  for (const auto& e : p->entries) {
    if (const auto* t = std::get_if<records::TemperatureReading>(&e.body)) read.push_back(t->temperature.c());
    if (const auto* c = std::get_if<records::Count>(&e.body)) counted.push_back(c->count);
    ph += std::holds_alternative<records::Reading>(e.body);
  }
  RC_ASSERT(counted == dead);
  RC_ASSERT(ph == static_cast<std::size_t>(rows));
  RC_ASSERT(read.size() == celsius.size());
  for (std::size_t i = 0; i < read.size(); ++i) RC_ASSERT(std::abs(read[i] - celsius[i]) < 0.006);
}

RC_GTEST_PROP(WeeklyLog, AllSoFarAndNewOnesAgree, ()) {
  const auto dead = *rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 30));
  RC_PRE(!dead.empty() && dead.size() < 30);
  std::string fresh = "date,pH,dead fry\n", totals = fresh;
  int sum = 0;
  for (std::size_t i = 0; i < dead.size(); ++i) {
    const std::string start = day_text(*date_from_iso("2030-09-15") + days(7 * static_cast<int>(i)), 0) + ",7.2,";
    sum += dead[i];
    fresh += start + std::to_string(dead[i]) + "\n";
    totals += start + std::to_string(sum) + "\n";
  }
  Settings as_new, as_total;
  as_new.dead_counts = "new";
  as_total.dead_counts = "total";
  const auto a = preview_import(fresh, as_new, season()), b = preview_import(totals, as_total, season());
  RC_ASSERT(a.has_value() && b.has_value());
  RC_ASSERT(a->entries.size() == b->entries.size());
  for (std::size_t i = 0; i < a->entries.size(); ++i) RC_ASSERT(a->entries[i].entry_key == b->entries[i].entry_key);
}

RC_GTEST_PROP(WeeklyLog, AnyHeaderIsTakenOrLeftAndNeverThrows, (std::string header)) {
  const auto p = preview_import("date;" + header + "\n2030-10-01;7\n2030-10-08;8\n", {}, season());
  if (!p) {
    RC_ASSERT(!p.problems().front().sentence.empty());
    return;
  }
  RC_ASSERT(p->good.size() + p->own_kits == p->entries.size());
}

}  // namespace
}  // namespace redd::intake
