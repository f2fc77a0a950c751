#include "print/detail/axes.h"

#include <cmath>

namespace redd::print {

using std::chrono::days;

double day_number(Date day) { return static_cast<double>(day.time_since_epoch().count()); }
double day_number(const wire::Json& day) { return day_number(date_from_iso(string_of(day)).value_or(Date{})); }
double day_number(const wire::Json& at, const ZoneOffsets& zone) {
  const auto local = local_time(zone, instant_from_rfc3339(string_of(at)).value_or(Instant{}));
  return std::chrono::duration<double, std::ratio<86400>>(local.time_since_epoch()).count();
}

std::string string_of(const wire::Json& text) { return text.is_string() ? text.get<std::string>() : std::string(); }
std::optional<double> number_of(const wire::Json& number) {
  if (!number.is_number()) return std::nullopt;
  return number.get<double>();
}

void mark_days(Chart& chart, const report::Reader& reader) {
  constexpr double most_marks = 8;
  const Date first{days(static_cast<int>(std::ceil(chart.first_day)))};
  const Date last{days(static_cast<int>(std::floor(chart.last_day)))};
  const double span = chart.last_day - chart.first_day;
  chart.days.clear();
  if (span <= 70) {
    const int every = std::max(1, static_cast<int>(std::ceil(span / most_marks)));
    for (Date day = first; day <= last; day += days(every)) chart.days.push_back({day_number(day), short_date_text(day, reader)});
    return;
  }
  const int every = std::max(1, static_cast<int>(std::ceil(span / 30.4 / most_marks)));
  const std::chrono::year_month_day begin{first};
  for (auto month = begin.year() / begin.month(); ; month += std::chrono::months(every)) {
    const Date day{month / 1};
    if (day > last) break;
    if (day >= first) chart.days.push_back({day_number(day), short_date_text(day, reader)});
  }
}

void mark_values(Chart& chart, const report::Reader& reader, bool whole) {
  const double span = chart.high - chart.low;
  if (!(span > 0) || !std::isfinite(span)) return;
  const double size = std::pow(10.0, std::floor(std::log10(span / 4)));
  double step = 10 * size;
  for (const double factor : {1.0, 2.0, 5.0})
    if (span / (factor * size) <= 5.5) {
      step = factor * size;
      break;
    }
  if (whole) step = std::max(1.0, std::ceil(step));
  const int places = step >= 1 ? 0 : static_cast<int>(std::ceil(-std::log10(step) - 1e-9));
  chart.values.clear();
  for (double k = std::ceil(chart.low / step - 1e-9); k * step <= chart.high + 1e-9 * span; ++k)
    chart.values.push_back({k * step, report::number_text(report::decimals(k * step, places), reader)});
}

}  // namespace redd::print
