#include "report/filter_view.h"

#include <algorithm>
#include <cmath>

#include "advice/assess_filter.h"
#include "records/reading.h"
#include "report/water_view.h"
#include "report/wrapped.h"

namespace redd::report {
namespace {

using advice::WaterKey;
using inference::Band;
using inference::DayWindow;
using planning::FilterOutlook;
using season::DayView;
using wire::Json;

struct Charted {
  WaterKey key;
  Band inference::DayBands::* band;
};
constexpr std::array charted{
    Charted{WaterKey::total_ammonia, &inference::DayBands::total_ammonia_mg_n_per_l}, Charted{WaterKey::nitrite, &inference::DayBands::nitrite_mg_n_per_l},
    Charted{WaterKey::nitrate, &inference::DayBands::nitrate_mg_n_per_l}, Charted{WaterKey::ph, &inference::DayBands::ph},
    Charted{WaterKey::alkalinity, &inference::DayBands::alkalinity_meq_per_l}};

WaterKey water_key(records::Quantity quantity) {
  using enum records::Quantity;
  switch (quantity) {
    case total_ammonia: return WaterKey::total_ammonia;
    case nitrite: return WaterKey::nitrite;
    case nitrate: return WaterKey::nitrate;
    case alkalinity: return WaterKey::alkalinity;
    case hardness: return WaterKey::hardness;
    case oxygen: return WaterKey::oxygen;
    case ph:
    case chlorine:
    case chloride: break;
  }
  return WaterKey::ph;
}

std::string_view kind_text(inference::MeasureKind kind) {
  using enum inference::MeasureKind;
  switch (kind) {
    case warmer: return "warmer";
    case later_chill: return "later_chill";
    case ammonia_dose: return "ammonia_dose";
    case weekly_ammonia: return "weekly_ammonia";
    case warm_and_fed: return "warm_and_fed";
    case more_alkalinity: return "more_alkalinity";
    case seeded_media: break;
  }
  return "seeded_media";
}

std::string_view doubt_text(inference::FilterDoubt doubt) {
  using enum inference::FilterDoubt;
  switch (doubt) {
    case surprising_reading: return "surprising_reading";
    case readings_disagree: return "readings_disagree";
    case suspect_kit: return "suspect_kit";
    case few_particles: return "few_particles";
    case stopped_early: return "stopped_early";
    case no_readings: break;
  }
  return "no_readings";
}

/// Numbers of charts: four significant digits are more than a screen shows, and keep the answer small.
Json plotted(double value) {
  if (!std::isfinite(value)) return nullptr;
  if (value == 0.0) return 0.0;
  const double scale = std::pow(10.0, 3.0 - std::floor(std::log10(std::abs(value))));
  return std::round(value * scale) / scale;
}

class FilterWriter {
 public:
  FilterWriter(const DayView& day, const Reader& reader) : day_(day), filter_(*day.filter), reader_(reader) { reader_.zone = day.zone; }

  std::string lost_track_text() const {
    const auto& lost = *filter_.lost_track;
    return text({lost.higher ? "Since {0} the tests read more {1} than any tank that fits the rest of the log could have: something happened that the log does not say. Go by the tests, not by this forecast."
                             : "Since {0} the tests read less {1} than any tank that fits the rest of the log could have: something happened that the log does not say. Go by the tests, not by this forecast.",
                 {date_of(lost.since_day), Word{records::quantity_text(lost.quantity)}}});
  }

  std::string sentence() const {
    if (filter_.lost_track) return lost_track_text();
    const Chance carries{filter_.outlook.carries_coming_load_probability};
    const bool loaded = filter_.outlook.coming_load_mg_n_per_l_per_day > 0.0;
    if (filter_.by_day) {
      const Sentence passes{day_.season.egg_day_assumed ? "The filter passes its test on the assumed egg day, {0}: {1}." : "The filter passes its test on egg day, {0}: {1}.",
                            {Word{short_date_text(*filter_.by_day, reader_)}, Chance{filter_.by_probability}}};
      return text(loaded ? joined(passes, {"It can carry the brood that is planned: {0}.", {carries}}) : passes);
    }
    if (loaded) return text({"The filter can carry what is coming: {0}.", {carries}});
    return text({"A test dose given today would be gone in time: {0}.", {Chance{filter_.today_probability}}});
  }

  std::string definition() const {
    const auto& r = filter_.ready;
    const auto on_card = [&](inference::Quantity quantity, double v) { return inference::on_card(day_.belief, quantity, v); };
    return text({"Ready means: a test dose of {0} ammonia leaves no more than {1} of ammonia and {2} of nitrite after {3}, at the temperature planned for that day.",
                 {on_card(inference::Quantity::total_ammonia, r.test_dose_mg_n_per_l), on_card(inference::Quantity::total_ammonia, r.total_ammonia_limit_mg_n_per_l),
                  on_card(inference::Quantity::nitrite, r.nitrite_limit_mg_n_per_l), Days(r.within_hours / 24.0)}});
  }

  std::string window_text(const DayWindow& w, bool past_tense_allowed) const {
    if (!w.mid && w.probability < 0.05) return text({"Not before the end of this forecast, as far as can be told."});
    if (!w.mid) return text({"Not sure to come before the end of this forecast: {0}.", {Chance{w.probability}}});
    if (past_tense_allowed && w.high_90 && *w.high_90 < filter_.now_day) return text({"Past, around {0}.", {Word{day_text_of(*w.mid)}}});
    const std::string low_90 = day_text_of(*w.low_90), low_50 = day_text_of(*w.low_50), mid = day_text_of(*w.mid);
    if (w.high_90 && low_90 == day_text_of(*w.high_90)) return mid;
    const std::string high_90 = w.high_90 ? day_text_of(*w.high_90) : text({"after the end of this forecast"});
    if (!w.high_50)
      return say(reader_, "from {0} on, with no sure end, most likely {1} (nine chances in ten: {2} to {3})", low_50, mid, low_90, high_90);
    const std::string high_50 = day_text_of(*w.high_50);
    if (low_50 == high_50) return say(reader_, "{0}, most likely {1} (nine chances in ten: {2} to {3})", mid, mid, low_90, high_90);
    return say(reader_, "{0} to {1}, most likely {2} (nine chances in ten: {3} to {4})", low_50, high_50, mid, low_90, high_90);
  }

  std::string ready_text() const {
    const DayWindow& w = filter_.outlook.ready;
    if (w.mid && *w.mid <= filter_.now_day + 0.5) return text({"As far as the readings tell it is ready today: {0}.", {Chance{filter_.today_probability}}});
    return window_text(w, false);
  }

  std::string capacity_text(const Estimate<double>& capacity) const { return interval_text(capacity.low, capacity.high, false, "mg N/L a day", reader_); }

  std::string capacity_sentence() const {
    const auto& o = filter_.outlook;
    if (o.coming_load_mg_n_per_l_per_day <= 0.0)
      return text({"Chilled to {0}, the filter could turn over {1}. No eggs are planned yet, so there is no load to compare it with.",
                   {day_.season.target, Word{capacity_text(o.capacity_at_target_mg_n_per_l_per_day)}}});
    return text({"At {0} the filter of today could turn over {1}; the most that is planned is {2}, around {3}: {4} that it carries it.",
                 {day_.season.target, Word{capacity_text(o.capacity_at_target_mg_n_per_l_per_day)}, Measured{o.coming_load_mg_n_per_l_per_day, "mg N/L a day"},
                  date_of(o.coming_load_day), Chance{o.carries_coming_load_probability}}});
  }

  std::string method_sentence() const {
    return text({"Worked out from {0} sittings of tests by {1} simulated tanks that fit them; what no test can show stays as wide as published ranges.",
                 {Number{static_cast<long long>(filter_.sittings)}, Number{static_cast<long long>(filter_.particles)}}});
  }

  /// What the model has lost sight of is not foretold.
  bool lost_sight_of(records::Quantity quantity) const { return filter_.lost_track && filter_.lost_track->quantity == quantity; }

  std::string next_reading_text(const inference::PredictedReading& predicted) const {
    std::vector<const inference::PossibleReading*> likely;
    for (const auto& each : predicted.possible) likely.push_back(&each);
    std::ranges::stable_sort(likely, [](const auto* a, const auto* b) { return a->probability > b->probability; });
    std::vector<std::string> readings;
    for (std::size_t i = 0; i < likely.size() && i < 4 && (i == 0 || likely[i]->probability >= 0.1); ++i)
      readings.push_back(text_of(records::short_reading_text(predicted.test.test, likely[i]->reading), reader_));
    if (readings.empty()) return "";
    const bool unit_said = predicted.test.test.unit == records::TestUnit::ph || predicted.test.test.method == records::Method::drop_count;
    if (!unit_said) readings.back() += " " + say(reader_, records::unit_text(predicted.test.test.unit));
    if (readings.size() == 1) return say(reader_, "most likely {0}", readings[0]);
    if (readings.size() == 2) return say(reader_, "most likely {0}, perhaps {1}", readings[0], readings[1]);
    if (readings.size() == 3) return say(reader_, "most likely {0}, perhaps {1} or {2}", readings[0], readings[1], readings[2]);
    return say(reader_, "most likely {0}, perhaps {1} or {2} or {3}", readings[0], readings[1], readings[2], readings[3]);
  }

  std::string change_text(const inference::MeasureEffect& effect) const {
    const double points = std::round(100.0 * effect.change), doubt = std::max(1.0, std::ceil(100.0 * 1.645 * effect.standard_error));
    if (std::abs(points) <= doubt) return text({"no clear change (within {0, plural, one {# point} other {# points}})", {Number{std::lround(doubt)}}});
    return text({points > 0 ? "+{0, plural, one {# point} other {# points}} (give or take {1})" : "-{0, plural, one {# point} other {# points}} (give or take {1})",
                 {Number{std::lround(std::abs(points))}, Number{std::lround(doubt)}}});
  }
  static bool helps(const inference::MeasureEffect& effect) { return effect.change > std::max(0.01, 1.645 * effect.standard_error); }

  Json all() const {
    const auto& o = filter_.outlook;
    Json out;
    out["state"] = "ready";
    out["done_fraction"] = 1.0;
    out["sentence"] = sentence();
    out["lost_track"] = nullptr;
    if (filter_.lost_track)
      out["lost_track"] = {{"key", shown_quantity(water_key(filter_.lost_track->quantity), day_, reader_).key}, {"sentence", lost_track_text()}, {"record_ids", filter_.lost_track->records}};
    out["now"] = iso_from_date(date_of(filter_.now_day));
    out["first_day"] = iso_from_date(day_.season.first_day);
    out["ready"] = {{"by_day", filter_.by_day ? Json(iso_from_date(*filter_.by_day)) : Json(nullptr)},
                    {"by_text", filter_.by_day ? say(reader_, "by {0}", date_text(*filter_.by_day, reader_)) : ""},
                    {"probability", filter_.by_day ? Json(filter_.by_probability) : Json(nullptr)},
                    {"probability_text", chance_text(filter_.by_day ? filter_.by_probability : filter_.today_probability, reader_)},
                    {"today_probability", filter_.today_probability},
                    {"cold_today_probability", filter_.cold_today_probability ? Json(*filter_.cold_today_probability) : Json(nullptr)},
                    {"tone", tone_text(advice::readiness_tone(filter_))},
                    {"definition_text", definition()},
                    {"window", window(o.ready, ready_text())}};
    out["total_ammonia_peak"] = window(o.total_ammonia_peak, window_text(o.total_ammonia_peak, true));
    out["nitrite_peak"] = window(o.nitrite_peak, window_text(o.nitrite_peak, true));
    out["ready_on"] = Json::array();
    for (const auto& on : o.ready_on) out["ready_on"].push_back({{"day", iso_from_date(date_of(on.at_day))}, {"probability", on.probability}});
    const auto capacity = [&](const Estimate<double>& c) { return Json{{"low", c.low}, {"mid", c.mid}, {"high", c.high}, {"text", capacity_text(c)}}; };
    const bool loaded = o.coming_load_mg_n_per_l_per_day > 0.0;
    out["capacity"] = {{"now", capacity(o.capacity_now_mg_n_per_l_per_day)}, {"at_target", capacity(o.capacity_at_target_mg_n_per_l_per_day)},
                       {"target_text", text({"{0}", {day_.season.target}})},
                       {"coming_load", {{"value", o.coming_load_mg_n_per_l_per_day},
                                        {"text", loaded ? text({"{0}", {Measured{o.coming_load_mg_n_per_l_per_day, "mg N/L a day"}}}) : text({"none planned"})},
                                        {"day", loaded ? Json(iso_from_date(date_of(o.coming_load_day))) : Json(nullptr)}}},
                       {"carries_probability", loaded ? Json(o.carries_coming_load_probability) : Json(nullptr)},
                       {"carries_text", loaded ? chance_text(o.carries_coming_load_probability, reader_) : ""},
                       {"tone", tone_text(advice::capacity_tone(filter_))}, {"sentence", capacity_sentence()}};
    out["charts"] = charts();
    out["next_readings"] = next_readings();
    out["measures"] = measures();
    out["doubts"] = Json::array();
    for (const auto& doubt : filter_.doubts) out["doubts"].push_back({{"kind", doubt_text(doubt.what)}, {"sentence", text(doubt.sentence)}, {"record_ids", doubt.records}});
    out["method"] = {{"sentence", method_sentence()}, {"assumed", Json::array()}, {"particles", filter_.particles}, {"sittings", filter_.sittings}};
    for (const Sentence& assumed : filter_.assumed) out["method"]["assumed"].push_back(text(assumed));
    return out;
  }

  const FilterOutlook& filter() const { return filter_; }
  std::string text(const Sentence& sentence) const { return text_of(sentence, reader_); }
  Date date_of(double day) const { return local_day(day_.zone, after_days(filter_.begin, day + 1e-3)); }
  /// With its year where that is not this one.
  std::string day_text_of(double at) const {
    const Date day = date_of(at);
    const auto year = [](Date d) { return std::chrono::year_month_day(d).year(); };
    return short_date_text(day, reader_) + (year(day) == year(date_of(filter_.now_day)) ? "" : " " + std::to_string(static_cast<int>(year(day))));
  }

 private:
  Json window(const DayWindow& w, const std::string& said) const {
    const auto bound = [&](const std::optional<double>& day) { return day ? Json(iso_from_date(date_of(*day))) : Json(nullptr); };
    return {{"probability", w.probability}, {"low_90", bound(w.low_90)}, {"low_50", bound(w.low_50)}, {"mid", bound(w.mid)},
            {"high_50", bound(w.high_50)}, {"high_90", bound(w.high_90)}, {"text", said}};
  }

  Json charts() const {
    Json out = Json::array();
    const auto& bands = filter_.outlook.bands;
    std::size_t now_index = 0;
    while (now_index + 1 < bands.size() && bands[now_index + 1].at_day <= filter_.now_day) ++now_index;
    for (const Charted& each : charted) {
      const ShownQuantity shown = shown_quantity(each.key, day_, reader_);
      Json chart{{"key", shown.key}, {"name", shown.name}, {"unit_text", shown.unit_text}, {"now_index", now_index}};
      for (const char* key : {"days", "low_90", "low_50", "mid", "high_50", "high_90", "limits"}) chart[key] = Json::array();
      for (const auto& day : bands) {
        const Band& band = day.*each.band;
        chart["days"].push_back(iso_from_date(date_of(day.at_day)));
        for (const auto& [key, value] : {std::pair{"low_90", band.low_90}, {"low_50", band.low_50}, {"mid", band.mid}, {"high_50", band.high_50}, {"high_90", band.high_90}})
          chart[key].push_back(plotted(value * shown.per_canonical));
      }
      for (const advice::Limit& limit : day_.advice.water.at(each.key).limits)
        chart["limits"].push_back({{"key", limit.key}, {"value", limit.value * shown.per_canonical}, {"name", say(reader_, limit.name)}});
      chart["summary"] = bands.empty() ? "" : summary(shown, bands[now_index].*each.band, bands.back().*each.band, bands.back().at_day);
      out.push_back(std::move(chart));
    }
    return out;
  }

  std::string summary(const ShownQuantity& shown, const Band& now, const Band& last, double last_day) const {
    return say(reader_, "{0} now: {1}; foreseen for {2}: {3} (nine chances in ten).", shown.name, value_text(shown, now.low_90, now.high_90, false, reader_), day_text_of(last_day), value_text(shown, last.low_90, last.high_90, false, reader_));
  }

  Json next_readings() const {
    const auto& o = filter_.outlook;
    const Date day = date_of(o.next_sitting_day);
    Json out{{"day", iso_from_date(day)}, {"day_text", date_text(day, reader_)}, {"tests", Json::array()}};
    for (const auto& predicted : o.next_readings) {
      if (lost_sight_of(predicted.test.test.quantity)) continue;
      const ShownQuantity shown = shown_quantity(water_key(predicted.test.test.quantity), day_, reader_);
      Json possible = Json::array();
      for (const auto& each : predicted.possible)
        if (each.probability >= 0.005)
          possible.push_back({{"text", text_of(records::short_reading_text(predicted.test.test, each.reading), reader_)}, {"probability", std::round(each.probability * 1000.0) / 1000.0}});
      out["tests"].push_back({{"key", shown.key}, {"name", shown.name}, {"kit", predicted.test.kit}, {"text", next_reading_text(predicted)}, {"possible", std::move(possible)}});
    }
    return out;
  }

  Json measures() const {
    Json out{{"for_day", filter_.by_day ? Json(iso_from_date(*filter_.by_day)) : Json(nullptr)}, {"planned_probability", nullptr}, {"rows", Json::array()}};
    if (!filter_.measures) return out;
    out["planned_probability"] = filter_.measures->planned_probability;
    for (const auto& effect : filter_.measures->effects)
      out["rows"].push_back({{"kind", kind_text(effect.measure.kind)}, {"what", text(effect.measure.what)}, {"probability", effect.ready_probability},
                             {"change", effect.change}, {"change_text", change_text(effect)}, {"helps", helps(effect)}});
    return out;
  }

  const DayView& day_;
  const FilterOutlook& filter_;
  Reader reader_;
};

std::string_view state_text(season::FilterProgress::State state) {
  using enum season::FilterProgress::State;
  switch (state) {
    case working: return "working";
    case cancelled: return "cancelled";
    case failed: return "failed";
    case none: break;
  }
  return "absent";
}

std::string_view why_absent(const DayView& day) {
  using enum season::FilterProgress::State;
  switch (day.filter_progress.state) {
    case working: return "The filter's outlook is being worked out from all readings of the season.";
    case cancelled: return "Working out the filter's outlook was stopped.";
    case failed: return "The filter's outlook could not be worked out: no simulated tank fits what was logged. Go by the tests.";
    case none: break;
  }
  if (day.belief.brood.animals == inference::Animals::released) return "The brood has been released, so nothing more is foretold of the filter.";
  return "Nothing was worked out of the filter for this view.";
}

}  // namespace

std::string filter_sentence(const DayView& day, const Reader& reader) { return day.filter ? FilterWriter(day, reader).sentence() : say(reader, why_absent(day)); }

Json filter_json(const DayView& day, const Reader& reader) {
  if (day.filter) return FilterWriter(day, reader).all();
  return {{"state", state_text(day.filter_progress.state)}, {"done_fraction", day.filter_progress.done_fraction}, {"sentence", say(reader, why_absent(day))}};
}

std::string filter_text(const DayView& day, const Reader& reader, int width) {
  if (!day.filter) return say(reader, why_absent(day)) + "\n";
  const FilterWriter w(day, reader);
  const FilterOutlook& f = w.filter();
  constexpr std::size_t column = 15;
  const auto row = [&](const char* name, const std::string& words) {
    std::string label = say(reader, name) + ": ";
    if (label.size() < column) label.resize(column, ' ');
    return wrapped(words, width, label, std::string(column, ' '));
  };
  std::string out = wrapped(w.sentence(), width, "", "");
  out += wrapped(w.definition(), width, "", "") + "\n";
  out += row("Ready", w.ready_text());
  if (f.cold_today_probability) out += row("If cold today", chance_text(*f.cold_today_probability, reader));
  out += row("Ammonia peak", w.window_text(f.outlook.total_ammonia_peak, true));
  out += row("Nitrite peak", w.window_text(f.outlook.nitrite_peak, true));
  out += row("Capacity now", w.capacity_text(f.outlook.capacity_now_mg_n_per_l_per_day));
  out += row("When chilled", w.capacity_sentence()) + "\n";
  out += say(reader, "Next tests, {0}:", short_date_text(w.date_of(f.outlook.next_sitting_day), reader)) + "\n";
  for (const auto& predicted : f.outlook.next_readings)
    if (!w.lost_sight_of(predicted.test.test.quantity)) out += wrapped(w.next_reading_text(predicted), width, "  " + shown_quantity(water_key(predicted.test.test.quantity), day, reader).name + ": ", "      ");
  if (f.outlook.next_readings.empty()) out += "  " + say(reader, "No test has been made yet, so there is no card to foretell on.") + "\n";
  if (f.measures && !f.measures->effects.empty()) {
    out += "\n" + say(reader, "What would change the chance for egg day (now {0}):", chance_text(f.measures->planned_probability, reader)) + "\n";
    for (const auto& effect : f.measures->effects) out += wrapped(w.text(effect.measure.what) + " " + w.change_text(effect), width, "  - ", "    ");
    out += wrapped(say(reader, "Permit, supplier and a veterinarian come before any of these."), width, "    ", "    ");
  }
  if (!f.doubts.empty()) out += "\n" + say(reader, "In doubt:") + "\n";
  for (const auto& doubt : f.doubts) out += wrapped(w.text(doubt.sentence), width, "  - ", "    ");
  out += "\n" + wrapped(w.method_sentence(), width, "", "");
  for (const Sentence& assumed : f.assumed) out += wrapped(w.text(assumed), width, "", "");
  return out;
}

}  // namespace redd::report
