#include "report/numbers.h"

#include "quantities/result.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace redd::report {
namespace {

constexpr std::array<const char*, 12> month_names{"January", "February", "March",     "April",   "May",      "June",
                                                  "July",    "August",   "September", "October", "November", "December"};
constexpr std::array<const char*, 7> weekday_names{"Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"};

std::chrono::year_month_day civil(Date day) { return std::chrono::year_month_day{std::chrono::sys_days{day.time_since_epoch()}}; }

/// Decimals that show a number of this size to two significant digits.
int places_for(double size) {
  if (!(size > 0.0) || !std::isfinite(size)) return 1;
  return std::clamp(1 - static_cast<int>(std::floor(std::log10(size))), 0, 6);
}

const char* basis_text(NitrogenBasis basis) {
  switch (basis) {
    case NitrogenBasis::n: return "mg/L as N";
    case NitrogenBasis::nh3: return "mg/L as NH3";
    case NitrogenBasis::nh4: return "mg/L as NH4";
    case NitrogenBasis::no2: return "mg/L as NO2";
    case NitrogenBasis::no3: break;
  }
  return "mg/L as NO3";
}

std::string mass_text(Mass mass) {
  return mass.g() < 1.0 ? two_digits(mass.mg()) + " mg" : two_digits(mass.g()) + " g";
}

std::string volume_text(Volume volume, const Reader& reader) {
  const double value = reader.us_gallons ? volume.us_gallons() : volume.l();
  return (value < 10.0 ? decimals(value, 1) : decimals(value, 0)) + (reader.us_gallons ? " US gal" : " L");
}

struct Text {
  const Reader& reader;
  std::string operator()(Temperature t) const { return temperature_text(t, reader); }
  std::string operator()(TemperatureChange change) const {
    return decimals(std::abs(reader.fahrenheit ? change.f() : change.c()), 1) + (reader.fahrenheit ? " °F" : " °C");
  }
  std::string operator()(const ShownNitrogen& n) const { return two_digits(n.value.as(n.basis)) + " " + basis_text(n.basis); }
  std::string operator()(Ph ph) const { return "pH " + decimals(ph.ph(), 1); }
  std::string operator()(Alkalinity a) const { return decimals(a.german_degrees(), 1) + " German degrees"; }
  std::string operator()(Hardness h) const { return decimals(h.german_degrees(), 1) + " German degrees"; }
  std::string operator()(OxygenConc o) const { return decimals(o.mg_o2_per_l(), 1) + " mg/L"; }
  std::string operator()(Volume v) const { return volume_text(v, reader); }
  std::string operator()(Mass m) const { return mass_text(m); }
  std::string operator()(ThermalSum sum) const {
    return reader.fahrenheit ? decimals(sum.f_units(), 0) + " °F units" : decimals(sum.c_days(), 0) + " °C-days";
  }
  std::string operator()(Days days) const { return days_text(days.count()); }
  std::string operator()(Date day) const { return date_text(day); }
  std::string operator()(Instant at) const { return date_text(local_day(reader.zone, at)) + ", " + time_text(reader.zone, at); }
  std::string operator()(const Share& share) const {
    const double percent = 100.0 * share.fraction;
    return (percent > 0.0 && percent < 10.0 ? two_digits(percent) : decimals(percent, 0)) + " %";
  }
  std::string operator()(const Chance& chance) const { return chance_text(chance.probability); }
  std::string operator()(const Number& n) const { return std::to_string(n.count); }
  std::string operator()(const Measured& m) const { return two_digits(m.value) + (m.unit.empty() ? "" : " " + m.unit); }
  std::string operator()(const Exact& e) const { return decimals(e.value, e.places) + (e.unit.empty() ? "" : " " + e.unit); }
  std::string operator()(const Word& word) const { return word.text; }
};

}  // namespace

std::string decimals(double value, int places) {
  if (!std::isfinite(value)) return value > 0 ? "no upper bound" : "?";
  char buffer[64];
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed, places);
  std::string text(buffer, end.ptr);
  if (text.starts_with("-") && text.find_first_not_of("-0.") == std::string::npos) text.erase(0, 1);  // no "-0.0"
  return text;
}

std::string date_span_text(Date from, Date to) {
  return from == to ? short_date_text(from) : short_date_text(from) + " to " + short_date_text(to);
}

std::string two_digits(double value) {
  if (value == 0.0) return "0";
  const double size = std::abs(value);
  // A published mark such as 0.0125 is exact at three digits and keeps them; an estimate practically never is.
  if (size < 100.0 && std::isfinite(size)) {
    const double unit = std::pow(10.0, std::floor(std::log10(size)) - 2.0);
    const double rounded = std::round(value / unit) * unit;
    if (std::abs(value - rounded) < 1e-6 * size) {
      std::string text = decimals(value, std::min(6, places_for(size) + 1));
      if (text.find('.') != std::string::npos) {
        text.erase(text.find_last_not_of('0') + 1);
        if (text.ends_with('.')) text.pop_back();
      }
      return text;
    }
  }
  if (size >= 100.0 && std::isfinite(size)) {
    const double unit = std::pow(10.0, std::floor(std::log10(size)) - 1.0);
    return decimals(std::round(value / unit) * unit, 0);
  }
  // Of what rounds up to the next power of ten: 0.0996 is "0.10", not "0.100".
  const double unit = size > 0.0 && std::isfinite(size) ? std::pow(10.0, std::floor(std::log10(size)) - 1.0) : 0.0;
  return decimals(value, places_for(unit > 0.0 ? std::round(size / unit) * unit * (1.0 + 1e-12) : size));
}

std::string interval_text(double low, double high, bool open_above, int places, std::string_view unit) {
  const std::string tail = unit.empty() ? "" : " " + std::string(unit);
  if (open_above) return "at least " + decimals(low, places) + tail;
  const std::string from = decimals(low, places), to = decimals(high, places);
  if (from == to) return "about " + to + tail;
  if (low <= 0.0 || from.find_first_not_of("0.") == std::string::npos) return "at most " + to + tail;
  return from + "–" + to + tail;
}

std::string interval_text(double low, double high, bool open_above, std::string_view unit) {
  const double size = open_above ? low : std::max(high - low, high / 10.0);
  return interval_text(low, high, open_above, places_for(size), unit);
}

std::string temperature_text(Temperature t, const Reader& reader) {
  return decimals(reader.fahrenheit ? t.f() : t.c(), 1) + (reader.fahrenheit ? " °F" : " °C");
}

std::string date_text(Date day) {
  const auto ymd = civil(day);
  return std::string(weekday_names[std::chrono::weekday{day}.c_encoding()]) + " " + std::to_string(static_cast<unsigned>(ymd.day())) + " " +
         month_names[static_cast<unsigned>(ymd.month()) - 1] + " " + std::to_string(static_cast<int>(ymd.year()));
}

std::string short_date_text(Date day) {
  const auto ymd = civil(day);
  return std::to_string(static_cast<unsigned>(ymd.day())) + " " + std::string(month_names[static_cast<unsigned>(ymd.month()) - 1]).substr(0, 3);
}

std::string time_text(const ZoneOffsets& zone, Instant at) { return rfc3339_local(zone, at).substr(11, 5); }

std::string days_text(double days) {
  const auto counted = [](double value, const char* one, const char* many) {
    const long n = std::lround(value);
    return std::to_string(n) + " " + (n == 1 ? one : many);
  };
  if (days < 1.0 / 24.0) return counted(days * 1440.0, "minute", "minutes");
  if (days < 1.0) return counted(days * 24.0, "hour", "hours");
  return counted(days, "day", "days");
}

std::string chance_text(double probability) {
  if (probability < 0.05) return "less than 1 chance in 20";
  if (probability > 0.95) return "more than 19 chances in 20";
  const int tenths = static_cast<int>(std::round(probability * 10.0));
  return std::to_string(tenths) + (tenths == 1 ? " chance in 10" : " chances in 10");
}

std::string text_of(const Sentence& sentence, const Reader& reader) {
  std::string out;
  const std::string& pattern = sentence.pattern;
  for (std::size_t i = 0; i < pattern.size(); ++i) {
    if (pattern[i] == '{' && i + 2 < pattern.size() && pattern[i + 2] == '}' && pattern[i + 1] >= '0' && pattern[i + 1] <= '9') {
      const auto index = static_cast<std::size_t>(pattern[i + 1] - '0');
      require(index < sentence.values.size(), "text_of", pattern.c_str());
      out += std::visit(Text{reader}, sentence.values[index]);
      i += 2;
    } else {
      out += pattern[i];
    }
  }
  return out;
}

}  // namespace redd::report
