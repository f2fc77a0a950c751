// Temperature traces: columns, unit, faults of the sensor, gaps, thinning to hourly means.

#include <algorithm>
#include <array>
#include <cmath>

#include "intake/detail/cells.h"
#include "intake/detail/kinds.h"
#include "intake/detail/timeline.h"
#include "quantities/phrase_parts.h"
#include "quantities/verbatim.h"

namespace redd::intake::detail {
namespace {

using namespace std::chrono;
using records::TemperatureReading;

struct Sample {
  const CsvRow* row;
  Instant at;
  double c;
};

/// Two decimals of a degree are more than a logger knows; its °F stay as they are.
Phrase text_c(double c) { return amount(Temperature::from_c(c), 2); }

Phrase hours_text(seconds span) {
  const double h = static_cast<double>(span.count()) / 3600;
  std::string text = std::to_string(std::round(h * 10) / 10);
  return said("{0} hours", text.substr(0, text.find('.') + 2));
}

/// The unit of which a word is found, when no word of the other is.
std::optional<char> the_one_found(std::string_view text, std::initializer_list<const char*> f_words, std::initializer_list<const char*> c_words) {
  const std::string padded = " " + lower(text) + " ";
  const auto has = [&](std::initializer_list<const char*> words) {
    return std::ranges::any_of(words, [&](const char* word) { return padded.find(word) != std::string::npos; });
  };
  const bool f = has(f_words), c = has(c_words);
  if (f == c) return std::nullopt;
  return f ? 'f' : 'c';
}

std::optional<char> stated_unit_in_words(std::string_view text) {
  return the_one_found(text, {"\xC2\xB0" "f", "\xC2\xB0 f", "\xC2\xBA" "f", "deg f", "deg. f", "degf", "degrees f", "fahrenheit", "\xE2\x84\x89"},
                       {"\xC2\xB0" "c", "\xC2\xB0 c", "\xC2\xBA" "c", "deg c", "deg. c", "degc", "degrees c", "celsius", "centigrade", "\xE2\x84\x83"});
}

Result<char> unit_of(const Table& table, std::size_t column, const Settings& settings, Preview& preview) {
  const std::vector<std::string> both{"c", "f"};
  if (settings.unit) {
    add_guess(preview, "unit", *settings.unit, Certainty::given, "you said so");
    return settings.unit->front();
  }
  if (const auto unit = stated_unit(table.headers[column])) {
    add_guess(preview, "unit", std::string(1, *unit), Certainty::certain, "the header of the column says so", both);
    return *unit;
  }
  for (const std::string& title : table.titles)
    if (const auto unit = stated_unit_in_words(title)) {
      add_guess(preview, "unit", std::string(1, *unit), Certainty::certain, "a line above the table says so", both);
      return *unit;
    }
  std::vector<double> values;
  for (const CsvRow& row : table.rows)
    if (const auto v = number(Table::cell(row, column), table.decimal_mark)) values.push_back(*v);
  std::ranges::sort(values);
  const bool warm = !values.empty() && values[values.size() / 2] > 30;
  // Half a season in the wrong unit would move hatching by weeks, so this is asked, never assumed.
  add_guess(preview, "unit", warm ? "f" : "c", Certainty::open,
            warm ? "the file names no unit; the numbers are those of a cold tank in Fahrenheit" : "the file names no unit; the numbers are those of a cold tank in Celsius", both);
  return warm ? 'f' : 'c';
}

Result<std::size_t> value_column(const Table& table, const Settings& settings, Preview& preview) {
  if (settings.value_column) {
    const auto column = column_named(table, *settings.value_column);
    if (!column) return Problem{"setting_does_not_fit", "value_column", said("There is no column \"{0}\".", shown(*settings.value_column))};
    add_guess(preview, "value_column", table.headers[*column], Certainty::given, "you said so");
    return *column;
  }
  std::vector<std::size_t> candidates, named;
  for (std::size_t i = 0; i < table.headers.size(); ++i) {
    if (i == table.date_column || i == table.time_column) continue;
    std::size_t numbers = 0, counting = 0;
    std::optional<double> before;
    for (const CsvRow& row : table.rows) {
      const auto v = number(Table::cell(row, i), table.decimal_mark);
      numbers += v.has_value();
      if (v && before && *v == *before + 1) ++counting;
      before = v;
    }
    if (numbers == 0) continue;
    const bool is_index = table.rows.size() > 2 && counting + 1 == numbers;
    const std::string key = plain_key(table.headers[i]);
    const bool says_so = key.find("temp") != std::string::npos || stated_unit(table.headers[i]);
    if (says_so) named.push_back(i);
    else if (!is_index && numbers * 2 >= table.rows.size()) candidates.push_back(i);
  }
  const auto& best = named.empty() ? candidates : named;
  if (best.empty()) return Problem{"no_temperatures", "value_column", "No column holds temperatures: name the column, or give its number."};
  std::vector<std::string> others;
  for (const std::size_t i : best) others.push_back(table.headers[i]);
  add_guess(preview, "value_column", table.headers[best.front()], best.size() > 1 ? Certainty::open : named.empty() ? Certainty::likely : Certainty::certain,
            best.size() > 1 ? "more than one column may hold the tank's temperature" : named.empty() ? "it is the only column of numbers" : "its header says so", std::move(others));
  return best.front();
}

/// Sorts samples and settles those that fall on the same second.
void settle_doubles(std::vector<Sample>& samples, std::size_t column, const Table& table, Preview& preview) {
  std::ranges::stable_sort(samples, {}, &Sample::at);
  std::vector<Sample> kept;
  std::size_t doubled = 0;
  for (const Sample& s : samples) {
    if (kept.empty() || kept.back().at != s.at) {
      kept.push_back(s);
    } else if (kept.back().c == s.c) {
      ++doubled;
    } else {
      add_bad(preview, table, *s.row, column, "two_values", said("Line {0} gives another temperature for the same moment; the first is kept.", kept.back().row->line));
    }
  }
  if (doubled > 0) preview.notes.push_back(said("{0, plural, one {# row repeats another row exactly and is counted once.} other {# rows repeat another row exactly and are counted once.}}", doubled));
  samples = std::move(kept);
}

seconds usual_step(const std::vector<Sample>& samples) {
  std::vector<seconds> steps;
  for (std::size_t i = 1; i < samples.size(); ++i) steps.push_back(samples[i].at - samples[i - 1].at);
  if (steps.empty()) return hours(24);
  std::ranges::nth_element(steps, steps.begin() + static_cast<std::ptrdiff_t>(steps.size() / 2));
  return steps[steps.size() / 2];
}

/// Gaps, a stuck sensor, a jump at either end: things to look at, none of them mended silently.
void note_oddities(const std::vector<Sample>& samples, seconds step, const ZoneOffsets& zone, Preview& preview) {
  const seconds long_gap = std::max<seconds>(hours(3), step * 5 / 2);
  std::size_t gaps = 0;
  for (std::size_t i = 1; i < samples.size(); ++i)
    if (samples[i].at - samples[i - 1].at > long_gap && ++gaps <= 5)
      preview.notes.push_back(said("Nothing was recorded for {0} from {1}; the gap stays a gap.", hours_text(samples[i].at - samples[i - 1].at), rfc3339_local(zone, samples[i - 1].at)));
  if (gaps > 5) preview.notes.push_back(said("There are {0} more gaps.", gaps - 5));
  std::size_t start = 0;
  for (std::size_t i = 1; i <= samples.size(); ++i) {
    if (i < samples.size() && samples[i].c == samples[start].c) continue;
    if (i - start >= 24 && samples[i - 1].at - samples[start].at >= hours(72))
      preview.notes.push_back(said("The temperature stands still at {0} for {1} from {2}: a stuck sensor or a dead battery looks like that.", text_c(samples[start].c), hours_text(samples[i - 1].at - samples[start].at), rfc3339_local(zone, samples[start].at)));
    start = i;
  }
  if (samples.size() < 12) return;
  std::vector<double> values;
  for (const Sample& s : samples) values.push_back(s.c);
  std::ranges::nth_element(values, values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2));
  const double middle = values[values.size() / 2];
  for (const auto& [sample, word, setting] : {std::tuple(samples.front(), "first", "from"), std::tuple(samples.back(), "last", "to")})
    if (std::abs(sample.c - middle) > 6)
      preview.notes.push_back(said("The {0} row ({1}) is far from the usual {2}: was the logger still in the air? Leave such rows out with \"{3}\".", word, text_c(sample.c), text_c(middle), verbatim(setting)));
}

records::Entry entry_of(Instant at, double c, TemperatureReading::Place place, const Settings& settings) {
  const std::string content = "temperature|" + std::to_string(static_cast<int>(place)) + "|" + rfc3339_from_instant(at) + "|" + std::to_string(std::llround(c * 1000));
  return {at, settings.author, {}, "temperature_csv/" + stable_hash(content), TemperatureReading{Temperature::from_c(c), place}};
}

/// Whether the trace is denser than hourly: its usual step is, and most rows stand in stretches of an hour or more. A few
/// readings close together once or twice a day are single readings, each worth keeping.
bool is_dense(const std::vector<Sample>& samples, seconds step) {
  if (step >= seconds(3500)) return false;
  std::size_t in_stretches = 0, stretches = 0;
  for (std::size_t from = 0; from < samples.size(); ++stretches) {
    std::size_t end = from + 1;
    while (end < samples.size() && samples[end].at - samples[end - 1].at <= hours(1)) ++end;
    if (samples[end - 1].at - samples[from].at >= hours(1)) in_stretches += end - from;
    from = end;
  }
  // One unbroken stretch is the beginning of a trace: it may still grow, and must then give the same means.
  return stretches == 1 || in_stretches * 2 >= samples.size();
}

/// Hourly means. The first and the last hour are left out while they may be unfinished, so that a longer version of the
/// same file, imported later, gives the same means and adds only new hours.
void add_hourly(const std::vector<Sample>& samples, seconds step, TemperatureReading::Place place, const Settings& settings, Preview& preview) {
  std::size_t left_out = 0, means = 0;
  for (std::size_t i = 0; i < samples.size();) {
    const Instant hour = floor<hours>(samples[i].at);
    double sum = 0;
    const std::size_t from = i;
    for (; i < samples.size() && floor<hours>(samples[i].at) == hour; ++i) sum += samples[i].c;
    const bool begun_before = from == 0 && samples[from].at - hour >= step;
    const bool goes_on = i == samples.size() && samples[i - 1].at + step < hour + hours(1);
    if (begun_before || goes_on) {
      left_out += i - from;
      continue;
    }
    const double mean = sum / static_cast<double>(i - from);
    preview.good.push_back({samples[from].row->line, hour + minutes(30), said("{0}, mean of {1}", text_c(mean), i - from)});
    preview.entries.push_back(entry_of(hour + minutes(30), mean, place, settings));
    ++means;
  }
  preview.notes.push_back(said("{0, plural, one {# row} other {# rows}}, denser than hourly, become {1, plural, one {# hourly mean} other {# hourly means}}.", samples.size(), means));
  if (left_out > 0)
    preview.notes.push_back(said("{0, plural, one {# row of an unfinished first or last hour waits} other {# rows of an unfinished first or last hour wait}} for a longer file.", left_out));
}

}  // namespace

/// Source  85 and -127: power-on and missing-sensor answers of one-wire thermometers (from memory); 404, -100, 9999 and
///         -6999: error values of common logger formats as listed by readers of such files.
bool is_sensor_fault(double value, char unit) {
  constexpr std::array faults{-127.0, -100.0, 404.0, 9999.0, -9999.0, -6999.0, 6999.0};
  if (std::ranges::find(faults, value) != faults.end()) return true;
  return unit == 'c' ? value == 85.0 : std::abs(value - 185.0) < 0.05 || std::abs(value + 196.6) < 0.05;
}

std::optional<char> stated_unit(std::string_view text) {
  if (const auto unit = stated_unit_in_words(text)) return unit;
  // Letters alone count in a header only: a title may say "Class C" or "(C) 2031".
  return the_one_found(text, {"(f)", "[f]", "_f ", " f "}, {"(c)", "[c]", "_c ", " c "});
}

std::optional<std::size_t> temperature_column(const Table& table) {
  for (std::size_t i = 0; i < table.headers.size(); ++i)
    if (i != table.date_column && i != table.time_column && (plain_key(table.headers[i]).find("temp") != std::string::npos || stated_unit(table.headers[i]))) return i;
  return std::nullopt;
}

Result<bool> read_logger(const Table& table, const Settings& settings, const Context& context, Preview& preview) {
  const auto column = value_column(table, settings, preview);
  if (!column) return column.problems();
  const auto unit = unit_of(table, *column, settings, preview);
  if (!unit) return unit.problems();
  auto place = TemperatureReading::Place::tank;
  if (settings.place == "room") place = TemperatureReading::Place::room;
  if (settings.place == "source") place = TemperatureReading::Place::source;
  add_guess(preview, "place", settings.place.value_or("tank"), settings.place ? Certainty::given : Certainty::likely,
            settings.place ? "you said so" : "a logger usually hangs in the tank", {"tank", "room", "source"});

  std::vector<RowTime> times;
  std::vector<double> values;
  std::size_t events = 0;
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    const CsvRow& row = table.rows[i];
    const std::string_view cell = Table::cell(row, *column);
    const auto stamp = table.stamp_of(row);
    const bool too_long = row.cells.size() > table.headers.size() &&
                          std::ranges::any_of(row.cells.begin() + static_cast<std::ptrdiff_t>(table.headers.size()), row.cells.end(), [](const std::string& c) { return !trimmed(c).empty(); });
    if (too_long) {
      add_bad(preview, table, row, table.headers.size(), "too_many_cells", said("The row has more cells than the header{0}", std::string(table.delimiter == ',' ? " (a decimal comma in a file divided by commas does that: export it with semicolons)." : ".")));
      continue;
    }
    const auto local = stamp ? local_time_of(*stamp, table.order) : std::nullopt;
    if (is_missing(cell)) {  // "attached", "stopped" and the like: the row says something, but no temperature
      ++events;
      continue;
    }
    if (!local) {
      add_bad(preview, table, row, table.date_column, "not_a_time", said("\"{0}\" is not a day and time that exists.", shown(Table::cell(row, table.date_column))));
      continue;
    }
    const auto value = number(cell, table.decimal_mark);
    if (!value) {
      add_bad(preview, table, row, *column, "not_a_number", said("\"{0}\" is not a number{1}", shown(cell), table.decimal_mark == ',' ? " with a decimal comma." : "."));
      continue;
    }
    const double c = *unit == 'f' ? Temperature::from_f(*value).c() : *value;
    if (is_sensor_fault(*value, *unit)) {
      add_bad(preview, table, row, *column, "sensor_fault", said("{0} is what a sensor writes when it fails, not a temperature.", shown(cell)));
    } else if (const bool tank = place == TemperatureReading::Place::tank; c < (tank ? -1.0 : -40.0) || c > (tank ? 40.0 : 60.0)) {
      add_bad(preview, table, row, *column, "out_of_range", said("{0} can't be right here: check the unit and the place.", text_c(c)));
    } else {
      times.push_back({i, *local, stamp->offset});
      values.push_back(c);
    }
  }
  if (events > 0) preview.notes.push_back(said("{0, plural, one {# row has no temperature (an event, or a blank) and is left out.} other {# rows have no temperature (an event, or a blank) and are left out.}}", events));
  const auto placed = placed_in_time(times, true, table, settings, context, preview);
  if (!placed) return placed.problems();

  const auto window = window_of(settings, context.zone);
  if (!window) return window.problems();

  std::vector<Sample> samples;
  std::size_t before_season = 0, outside = 0;
  for (std::size_t i = 0; i < times.size(); ++i) {
    const CsvRow& row = table.rows[times[i].row];
    if (const auto* problem = std::get_if<Problem>(&(*placed)[i])) {
      add_bad(preview, table, row, table.date_column, problem->code, said("{0}: {1}", shown(Table::cell(row, table.date_column)), problem->sentence));
      continue;
    }
    const Instant at = std::get<Instant>((*placed)[i]);
    if (!window->holds(at)) ++outside;
    else if (at > context.now + hours(24)) add_bad(preview, table, row, table.date_column, "in_the_future", "This time is still to come: check the date order and the logger's clock.");
    else if (local_day(context.zone, at) < context.first_day) ++before_season;
    else samples.push_back({&row, at, values[i]});
  }
  if (before_season > 0) preview.notes.push_back(said("{0, plural, one {# row from before the season's first day is left out.} other {# rows from before the season's first day are left out.}}", before_season));
  if (outside > 0) preview.notes.push_back(said("{0, plural, one {# row outside the asked-for time is left out.} other {# rows outside the asked-for time are left out.}}", outside));
  settle_doubles(samples, *column, table, preview);
  const seconds step = usual_step(samples);
  note_oddities(samples, step, context.zone, preview);
  if (is_dense(samples, step)) {
    add_hourly(samples, step, place, settings, preview);
  } else {
    for (const Sample& s : samples) {
      preview.good.push_back({s.row->line, s.at, text_c(s.c)});
      preview.entries.push_back(entry_of(s.at, s.c, place, settings));
    }
  }
  return true;
}

}  // namespace redd::intake::detail
