#include "report/numbers.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "quantities/pattern.h"
#include "quantities/phrase_parts.h"
#include "quantities/result.h"
#include "quantities/verbatim.h"
#include "report/us_units.h"

namespace redd::report {
namespace {

constexpr std::array<const char*, 12> month_names{"January", "February", "March",     "April",   "May",      "June",
                                                  "July",    "August",   "September", "October", "November", "December"};
constexpr std::array<const char*, 7> weekday_names{"Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"};

constexpr std::string_view unbounded = "no upper bound";

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

/// A ready number with its unit word.
std::string with_unit(std::string number, const Phrase& unit, const Reader& reader) {
  const bool bounded = number != unbounded;
  number = number_text(std::move(number), reader);
  return unit.empty() || !bounded ? number : number + " " + text_of(unit, reader);
}

/// Below one US gallon one decimal would tell nothing.
std::string volume_text(Volume volume, const Reader& reader) {
  const double value = reader.us_gallons ? volume.us_gallons() : volume.l();
  const bool small = reader.us_gallons && value < 1.0;
  return with_unit(small ? two_digits(value) : decimals(value, value < 10.0 ? 1 : 0), reader.us_gallons ? "US gal" : "L", reader);
}

struct Text {
  const Reader& reader;
  std::string unit(std::string number, const char* word) const { return with_unit(std::move(number), word, reader); }
  std::string operator()(Temperature t) const { return temperature_text(t, reader); }
  std::string operator()(TemperatureChange change) const {
    return unit(decimals(std::abs(reader.fahrenheit ? change.f() : change.c()), 1), reader.fahrenheit ? "°F" : "°C");
  }
  std::string operator()(Conductance c) const { return unit(two_digits(c.w_per_k() * (reader.fahrenheit ? 1.0 / 1.8 : 1.0)), "W"); }
  std::string operator()(const ShownNitrogen& n) const { return unit(two_digits(n.value.as(n.basis)), basis_text(n.basis)); }
  std::string operator()(Ph ph) const { return "pH " + number_text(decimals(ph.ph(), 1), reader); }
  std::string operator()(Alkalinity a) const { return unit(decimals(a.german_degrees(), 1), "German degrees"); }
  std::string operator()(Hardness h) const { return unit(decimals(h.german_degrees(), 1), "German degrees"); }
  std::string operator()(OxygenConc o) const { return unit(decimals(o.mg_o2_per_l(), 1), "mg/L"); }
  std::string operator()(Volume v) const { return volume_text(v, reader); }
  std::string operator()(Mass m) const { return m.g() < 1.0 ? unit(two_digits(m.mg()), "mg") : unit(two_digits(m.g()), "g"); }
  std::string operator()(ThermalSum sum) const {
    return reader.fahrenheit ? unit(decimals(sum.f_units(), 0), "°F units") : unit(decimals(sum.c_days(), 0), "°C-days");
  }
  std::string operator()(Days days) const { return days_text(days.count(), reader); }
  std::string operator()(Date day) const { return date_text(day, reader); }
  std::string operator()(Instant at) const { return date_text(local_day(reader.zone, at), reader) + ", " + time_text(reader.zone, at); }
  std::string operator()(const Share& share) const {
    const double percent = 100.0 * share.fraction;
    return unit(percent > 0.0 && percent < 10.0 ? two_digits(percent) : decimals(percent, 0), "%");
  }
  std::string operator()(const Chance& chance) const { return chance_text(chance.probability, reader); }
  std::string operator()(const Number& n) const { return std::to_string(n.count); }
  std::string operator()(const Measured& m) const { return with_unit(two_digits(m.value), m.unit, reader); }
  std::string operator()(const Exact& e) const { return with_unit(decimals(e.value, e.places), e.unit, reader); }
  std::string operator()(const Word& word) const { return text_of(word.text, reader); }
};

/// "0.5", "-3", "12.25": what a decimal comma may be put into.
bool is_number(std::string_view text) {
  if (text.starts_with('-')) text.remove_prefix(1);
  const std::size_t point = text.find('.');
  const auto digits = [](std::string_view part) { return !part.empty() && part.find_first_not_of("0123456789") == std::string_view::npos; };
  return digits(text.substr(0, point)) && (point == std::string_view::npos || digits(text.substr(point + 1)));
}

std::string in_language(std::string_view english, const Reader& reader) { return std::string(translation(english, reader.language).value_or(english)); }

/// As typed when it was typed in this unit; three digits when it comes from another.
std::string from_metric(double value) {
  constexpr double hair = 1e-6;
  if (std::abs(value - std::round(value * 1000.0) / 1000.0) <= hair * std::max(1.0, std::abs(value))) return as_typed(value);
  return as_typed(value, std::clamp(2 - static_cast<int>(std::floor(std::log10(std::abs(value)))), 0, 3));
}

std::string amount_text(const Amount& amount, const Phrase& metric, const Reader& reader) {
  const auto* temperature = std::get_if<Temperature>(&amount);
  const auto* volume = std::get_if<Volume>(&amount);
  if (temperature && reader.fahrenheit) return with_unit(from_metric(temperature->f()), "°F", reader);
  if (volume && reader.us_gallons) return with_unit(from_metric(volume->us_gallons()), "US gal", reader);
  if (!temperature && !volume && reader.us_gallons) return with_unit(from_metric(std::get<Length>(amount).cm / 2.54), "inches", reader);
  const std::size_t blank = metric.rfind(' ');
  return with_unit(metric.substr(0, blank), metric.substr(blank + 1), reader);
}

}  // namespace

std::string decimals(double value, int places) {
  if (!std::isfinite(value)) return value > 0 ? std::string(unbounded) : "?";
  char buffer[64];
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed, places);
  std::string text(buffer, end.ptr);
  if (text.starts_with("-") && text.find_first_not_of("-0.") == std::string::npos) text.erase(0, 1);  // no "-0.0"
  return text;
}

std::string date_span_text(Date from, Date to, const Reader& reader) {
  return from == to ? short_date_text(from, reader) : say(reader, "{0} to {1}", short_date_text(from, reader), short_date_text(to, reader));
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

std::string number_text(std::string number, const Reader& reader) {
  if (number == unbounded) return in_language(number, reader);
  if (reader.language == Language::es && is_number(number)) std::ranges::replace(number, '.', ',');
  return number;
}

std::string interval_text(double low, double high, bool open_above, int places, const Phrase& unit, const Reader& reader) {
  if (open_above) return say(reader, "at least {0}", {Word{with_unit(decimals(low, places), unit, reader)}});
  const std::string from = decimals(low, places), to = decimals(high, places);
  const Word top{with_unit(to, unit, reader)};
  if (from == to) return say(reader, "about {0}", {top});
  if (low <= 0.0 || from.find_first_not_of("0.") == std::string::npos) return say(reader, "at most {0}", {top});
  return number_text(from, reader) + "–" + top.text;
}

std::string interval_text(double low, double high, bool open_above, const Phrase& unit, const Reader& reader) {
  const double size = open_above ? low : std::max(high - low, high / 10.0);
  return interval_text(low, high, open_above, places_for(size), unit, reader);
}

std::string temperature_text(Temperature t, const Reader& reader) {
  return with_unit(decimals(reader.fahrenheit ? t.f() : t.c(), 1), reader.fahrenheit ? "°F" : "°C", reader);
}

std::string weekday_text(std::chrono::weekday day, const Reader& reader) { return in_language(weekday_names[day.c_encoding()], reader); }

std::string date_text(Date day, const Reader& reader) {
  const auto ymd = civil(day);
  return say(reader, "{0} {1} {2} {3}",
             {Word{weekday_names[std::chrono::weekday{day}.c_encoding()]}, Number{static_cast<unsigned>(ymd.day())}, Word{month_names[static_cast<unsigned>(ymd.month()) - 1]},
              Number{static_cast<int>(ymd.year())}});
}

std::string month_text(Date day, const Reader& reader) {
  const auto ymd = civil(day);
  return in_language(month_names[static_cast<unsigned>(ymd.month()) - 1], reader) + " " + std::to_string(static_cast<int>(ymd.year()));
}

std::string short_date_text(Date day, const Reader& reader) {
  const auto ymd = civil(day);
  const std::string month = in_language(month_names[static_cast<unsigned>(ymd.month()) - 1], reader).substr(0, 3);
  return std::to_string(static_cast<unsigned>(ymd.day())) + " " + month;
}

std::string time_text(const ZoneOffsets& zone, Instant at) { return rfc3339_local(zone, at).substr(11, 5); }

std::string days_text(double days, const Reader& reader) {
  const auto counted = [&](double value, const char* pattern) { return say(reader, pattern, {Number{std::lround(value)}}); };
  if (days < 1.0 / 24.0) return counted(days * 1440.0, "{0, plural, one {# minute} other {# minutes}}");
  if (days < 1.0) return counted(days * 24.0, "{0, plural, one {# hour} other {# hours}}");
  return counted(days, "{0, plural, one {# day} other {# days}}");
}

std::string chance_text(double probability, const Reader& reader) {
  // Counted from some dozen independent draws: towards the ends each wording holds for its neighbour too, so that another draw of the same season
  // says nothing else, only more or less.
  if (probability < 0.02) return say(reader, "less than 1 chance in 20");
  if (probability < 0.1) return say(reader, "less than 1 chance in 10");
  if (probability > 0.98) return say(reader, "more than 19 chances in 20");
  if (probability > 0.9) return say(reader, "more than 9 chances in 10");
  return say(reader, "{0, plural, one {# chance} other {# chances}} in 10", {Number{std::lround(probability * 10.0)}});
}

std::string text_of(const Sentence& sentence, const Reader& reader) {
  if ((reader.language != Language::en || reader.fahrenheit) && !sentence.seams.empty()) {
    std::string all;
    for (const Sentence& part : parts_of(sentence)) all += (all.empty() ? "" : " ") + text_of(part, reader);
    return all;
  }
  const std::string_view english = reader.fahrenheit ? in_us_units(sentence.pattern) : std::string_view(sentence.pattern);
  const std::string_view pattern = translation(english, reader.language).value_or(english);
  return filled(pattern, [&](std::size_t i) {
    require(i < sentence.values.size(), "text_of", sentence.pattern.c_str());
    const Shown& shown = sentence.values[i];
    Filling filling{std::visit(Text{reader}, shown), {}, {}};
    if (const auto* number = std::get_if<Number>(&shown)) filling.count = number->count;
    if (const auto* word = std::get_if<Word>(&shown)) filling.word = word->text;
    return filling;
  });
}

std::string text_of(const Phrase& words, const Reader& reader) {
  if (words.pattern == verbatim_mark) return words;
  if (const auto amount = amount_in(words)) return amount_text(*amount, words, reader);
  if (reader.language == Language::en && !reader.fahrenheit && !reader.us_gallons) return words;
  const std::string_view metric = words.pattern.empty() ? std::string_view(words) : words.pattern;
  const std::string_view english = reader.fahrenheit ? in_us_units(metric) : metric;
  if (words.pattern.empty() && english == metric) return number_text(in_language(english, reader), reader);
  return filled(translation(english, reader.language).value_or(english), [&](std::size_t i) {
    return i < words.parts.size() ? filling_of(words.parts[i], text_of(words.parts[i], reader)) : Filling{};
  });
}

std::string capitalised(std::string text) {
  if (text.empty() || text.starts_with("pH")) return text;
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  if (text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  // á to þ of UTF-8: one letter of two bytes, the capital 32 below.
  else if (text.size() > 1 && byte(0) == 0xC3 && byte(1) >= 0xA0 && byte(1) != 0xB7 && byte(1) < 0xBF) text[1] = static_cast<char>(byte(1) - 0x20);
  return text;
}

std::string say(const Reader& reader, std::string_view pattern, std::initializer_list<Shown> values) { return text_of(Sentence{pattern, values}, reader); }

}  // namespace redd::report
