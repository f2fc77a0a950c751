#include "report/season_report_view.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "quantities/verbatim.h"
#include "records/reading.h"
#include "report/counts_view.h"
#include "report/record_text.h"
#include "report/water_view.h"
#include "report/wrapped.h"

namespace redd::report {
namespace {

using season::Foretold;
using season::ReportLook;
using wire::Json;

/// A season spans two years, so a day names its own.
std::string dated(Date day, const Reader& reader) { return short_date_text(day, reader) + " " + iso_from_date(day).substr(0, 4); }
std::string month_name(Date day, const Reader& reader) {
  const std::string text = dated(day, reader);
  return text.substr(text.find(' ') + 1);
}

/// In      pattern: with plural forms of {0}.
std::string counted(int count, std::string_view pattern, const Reader& reader) { return say(reader, pattern, {Number{count}}); }
constexpr std::string_view some_days = "{0, plural, one {# day} other {# days}}";

std::string_view key_of(records::Count::What what) {
  return what == records::Count::What::dead_eggs ? "dead_eggs" : what == records::Count::What::dead_alevins ? "dead_alevins" : "dead_fry";
}
std::string dead_text(const season::LossOnDay& loss, const Reader& reader) {
  using enum records::Count::What;
  const char* animals = loss.what == dead_eggs ? "{0, plural, one {# egg} other {# eggs}}" : loss.what == dead_alevins ? "{0, plural, one {# alevin} other {# alevins}}" : "{0} fry";
  const std::string text = counted(loss.count, animals, reader);
  return loss.all_counted ? text : say(reader, "{0}, estimated", text);
}

std::string_view key_of(Foretold::Fit fit) {
  switch (fit) {
    case Foretold::Fit::not_seen: return "not_seen";
    case Foretold::Fit::inside: return "inside";
    case Foretold::Fit::earlier: return "earlier";
    case Foretold::Fit::later: return "later";
    case Foretold::Fit::not_foretold: break;
  }
  return "not_foretold";
}
const char* words_of(Foretold::Fit fit) {
  switch (fit) {
    case Foretold::Fit::not_seen: return "nobody has logged it as seen";
    case Foretold::Fit::inside: return "inside what was foretold";
    case Foretold::Fit::earlier: return "earlier than foretold";
    case Foretold::Fit::later: return "later than foretold";
    case Foretold::Fit::not_foretold: break;
  }
  return "seen before anything was foretold";
}

ShownQuantity shown_of(records::Quantity quantity, const season::DayView& day, const Reader& reader) {
  using enum advice::WaterKey;
  for (const auto key : {total_ammonia, nitrite, nitrate, ph, alkalinity, hardness, oxygen})
    if (tested_quantity(key) == quantity) return shown_quantity(key, day, reader);
  const auto unit = day.belief.find(quantity)->unit;
  return {records::quantity_text(quantity), capitalised(say(reader, records::quantity_text(quantity))), say(reader, records::unit_text(unit)), records::printed_value(unit, 1.0), -1};
}

std::string string_of(const Json& j) { return j.get<std::string>(); }

class View {
 public:
  View(const ReportLook& look, const Reader& reader) : look_(look), day_(look.day), reader_(reader) { reader_.zone = look.day.zone; }

  Json json() const {
    const Json brood = counts_json({day_.now, day_.zone, day_.season, look_.counts}, reader_);
    Json out;
    out["season"] = season();
    out["made_on"] = iso_from_date(today());
    out["made_on_text"] = date_text(today(), reader_);
    out["sentence"] = brood["sentence"];
    out["counts"] = brood;
    out["losses"] = losses();
    out["temperature"] = temperature();
    out["water"] = water();
    out["milestones"] = milestones();
    out["releases"] = releases();
    out["incidents"] = entries(look_.incidents);
    out["keepers"] = keepers();
    out["work"] = work();
    out["method"] = method();
    out["doubt"] = doubt();
    return out;
  }

 private:
  Date today() const { return local_day(day_.zone, day_.now); }
  std::string text(const Sentence& s) const { return text_of(s, reader_); }
  std::string dated(Date day) const { return report::dated(day, reader_); }
  std::string counted(int count, std::string_view pattern) const { return report::counted(count, pattern, reader_); }

  Json season() const {
    const records::SeasonSetup& s = day_.season;
    std::string window;
    if (s.release_from && s.release_until) window = say(reader_, "{0} to {1}", dated(*s.release_from), dated(*s.release_until));
    else if (s.release_until) window = say(reader_, "until {0}", dated(*s.release_until));
    else if (s.release_from) window = say(reader_, "from {0}", dated(*s.release_from));
    return {{"name", s.name}, {"place", s.place}, {"invented", s.invented}, {"first_day", iso_from_date(s.first_day)}, {"first_day_text", dated(s.first_day)},
            {"species_name", capitalised(day_.belief.brood.species ? say(reader_, day_.belief.brood.species->common_name) : s.species)},
            {"volume_text", text({"{0}", {s.volume}})}, {"target_text", text({"{0}", {s.target}})}, {"permit", s.permit.value_or("")}, {"release_window_text", window}};
  }

  Json losses() const {
    Json rows = Json::array();
    for (const auto& loss : look_.losses)
      rows.push_back({{"day", iso_from_date(loss.day)}, {"day_text", dated(loss.day)}, {"what", key_of(loss.what)}, {"count", loss.count}, {"all_counted", loss.all_counted}, {"text", dead_text(loss, reader_)}});
    return rows;
  }

  Json temperature() const {
    Json rows = Json::array();
    int measured = 0, all = 0;
    for (const auto& month : look_.months) {
      measured += month.measured, all += month.days;
      std::string shown = say(reader_, "not measured");
      if (month.mean) shown = text({"{0} (from {1} to {2})", {month.mean->mid, month.mean->low, month.mean->high}});
      rows.push_back({{"month", iso_from_date(month.first).substr(0, 7)}, {"month_text", month_name(month.first, reader_)}, {"text", shown}, {"days", month.days}, {"measured", month.measured},
                      {"measured_text", say(reader_, "{0} of {1}", month.measured, counted(month.days, some_days))}});
    }
    Sentence sentence{"Nobody has measured the tank's temperature."};
    if (measured > 0) sentence = {"Measured on {0} of {1} days. Mean of the measured days of each month, with the coldest and the warmest of them.", {Number{measured}, Number{all}}};
    return {{"sentence", text(sentence)}, {"months", rows}};
  }

  Json water() const {
    Json rows = Json::array();
    for (const auto& one : look_.water) {
      const ShownQuantity shown = shown_of(one.quantity, day_, reader_);
      const auto point = [&](const inference::SeriesPoint& p) { return value_text(shown, p.value.low, p.value.high, p.open_above, reader_) + ", " + short_date_text(local_day(day_.zone, p.at), reader_); };
      rows.push_back({{"with_animals", one.with_animals}, {"key", shown.key}, {"name", shown.name}, {"sittings", one.sittings}, {"sittings_text", counted(one.sittings, some_days)}, {"first_day", iso_from_date(one.first)},
                      {"last_day", iso_from_date(one.last)}, {"span_text", one.first == one.last ? dated(one.first) : say(reader_, "{0} to {1}", dated(one.first), dated(one.last))},
                      {"lowest_text", point(one.lowest)}, {"highest_text", point(one.highest)}});
    }
    const char* sentence = look_.water.empty() ? "Nobody has tested the water." : "Days on which each was tested, and its lowest and highest result as the range that the test allows; before the eggs came, when a filter ripens, and while animals were in the tank.";
    return {{"sentence", say(reader_, sentence)}, {"rows", rows}};
  }

  Json milestones() const {
    Json rows = Json::array();
    std::optional<Date> told_on;
    for (const Foretold& one : look_.foretold) {
      std::string window = say(reader_, "not foretold");
      if (one.window) {
        told_on = one.foretold_on;
        const auto day = [&](biology::CalendarMoment m) { return dated(biology::day_of(m)); };
        const auto& w = *one.window;
        window = w.open_ended ? say(reader_, "not before {0}", day(w.low_90)) : say(reader_, "{0} to {1}, most likely {2}", day(w.low_90), day(w.high_90), day(w.median));
      }
      rows.push_back({{"key", biology::name_of(one.stage)}, {"name", stage_title(one.stage, reader_)}, {"foretold_text", window}, {"seen_day", one.seen ? Json(iso_from_date(*one.seen)) : Json(nullptr)},
                      {"seen_text", one.seen ? dated(*one.seen) : say(reader_, "not seen")}, {"fit", key_of(one.fit)}, {"fit_text", say(reader_, words_of(one.fit))}});
    }
    Sentence sentence{"No eggs are logged, so nothing was foretold."};
    if (told_on) sentence = {"As foretold on {0}, when the eggs were written down: nine chances in ten for the days between. Later knowledge is not in it.", {Word{dated(*told_on)}}};
    else if (!look_.foretold.empty()) sentence = {"The eggs were written down after these stages were seen, so nothing was foretold."};
    return {{"sentence", text(sentence)}, {"rows", rows}};
  }

  Json entries(const std::vector<records::Record>& records) const {
    Json rows = Json::array();
    for (const auto& record : records) {
      const Date day = local_day(day_.zone, record.entry.at);
      rows.push_back({{"day", iso_from_date(day)}, {"day_text", dated(day)}, {"text", record_text(record.entry.body, day_.records, reader_)}, {"author", record.entry.author}, {"record_id", record.id}});
    }
    return rows;
  }

  /// What an agency asks of a release: how far the animals were moved in temperature.
  std::string release_water(const records::Release& r) const {
    if (!r.tank || !r.site) return say(reader_, "water temperatures of tank and stream not noted");
    const double warmer_c = r.site->c() - r.tank->c();
    const auto apart = TemperatureChange::from_c(std::abs(warmer_c));
    if (apart.c() < 0.05) return text({"tank and stream both at {0}", {*r.tank}});
    return text(warmer_c > 0 ? Sentence{"tank {0}, stream {1}: {2} warmer", {*r.tank, *r.site, apart}} : Sentence{"tank {0}, stream {1}: {2} colder", {*r.tank, *r.site, apart}});
  }
  Json releases() const {
    Json rows = entries(look_.releases);
    for (std::size_t i = 0; i < rows.size(); ++i)
      rows[i]["text"] = string_of(rows[i]["text"]) + "; " + release_water(std::get<records::Release>(look_.releases[i].entry.body));
    return rows;
  }

  Json keepers() const {
    Json rows = Json::array();
    for (const auto& one : look_.keepers) {
      std::string what = one.entries > 0 ? counted(one.entries, "{0, plural, one {# entry} other {# entries}}") : "";
      if (one.duty_days > 0) what += (what.empty() ? "" : ", ") + counted(one.duty_days, "{0, plural, one {# day on duty} other {# days on duty}}");
      if (!what.empty()) rows.push_back({{"label", one.label}, {"text", what}});
    }
    return rows;
  }

  Json work() const {
    const auto& w = look_.work;
    Json lines{counted(w.tests, "{0, plural, one {# water test} other {# water tests}}"), counted(w.temperatures, "{0, plural, one {# temperature} other {# temperatures}}"),
               counted(w.counts, "{0, plural, one {# count of animals} other {# counts of animals}}"),
               w.changes == 0 ? say(reader_, "no water changes") : text({"{0, plural, one {# water change} other {# water changes}} ({1} in all)", {Number{w.changes}, w.changed}}),
               counted(w.feedings, "{0, plural, one {# feeding} other {# feedings}}"), counted(w.top_ups, "{0, plural, one {# top-up} other {# top-ups}}"),
               counted(w.notes, "{0, plural, one {# note} other {# notes}}")};
    if (look_.mended > 0)
      lines.push_back(counted(look_.mended, "{0, plural, one {# entry corrected or taken back; the old one stays in the file and no longer counts} other {# entries corrected or taken back; the old ones stay in the file and no longer count}}"));
    return lines;
  }

  Json method() const {
    Json lines{say(reader_, "Everything here is worked out from the log of this season by Redd, and can be worked out again from it."),
               say(reader_, "Readings are ranges: a colour step stands for all values that would be called that step. Readings of one day are pooled."),
               say(reader_, "Windows of eyes, hatch and swim-up come from published development curves, the temperatures, and what the hatchery said of the eggs.")};
    if (day_.belief.brood.forecast)
      for (const auto& f : day_.belief.brood.forecast->stages) lines.push_back(say(reader_, "{0}: model {1}.", stage_title(f.stage, reader_), verbatim(model_title(f.model_key, reader_))));
    return lines;
  }

  Json doubt() const {
    Json lines = Json::array();
    if (day_.season.invented) lines.push_back(say(reader_, "This season is invented: nothing in it happened."));
    lines.push_back(say(reader_, "What nobody logged is not in this report. A day without an entry of dead may be a day on which nobody looked."));
    if (look_.counts.received_on) lines.push_back(counts_json({day_.now, day_.zone, day_.season, look_.counts}, reader_)["rests_on"]);
    for (const Sentence& gap : day_.belief.gaps) lines.push_back(text(gap));
    lines.push_back(say(reader_, "The permit and the agency behind it decide what has to be reported, and in which form."));
    return lines;
  }

  const ReportLook& look_;
  const season::DayView& day_;
  Reader reader_;
};

}  // namespace

Json season_report_json(const ReportLook& look, const Reader& reader) { return View(look, reader).json(); }

std::string season_report_text(const ReportLook& look, const Reader& reader, int width) {
  const Json view = season_report_json(look, reader);
  std::string out;
  const auto line = [&](const std::string& words, const char* first = "  ") { out += wrapped(words, width, first, "    "); };
  const auto head = [&](const char* words) { out += "\n" + say(reader, words) + "\n"; };
  const Json& s = view["season"];
  if (s["invented"]) out += say(reader, "INVENTED season") + "\n";
  line(string_of(s["name"]) + (string_of(s["place"]).empty() ? "" : ", " + string_of(s["place"])), "");
  line(say(reader, "Season report, {0}. {1}, {2}, since {3}.", string_of(view["made_on_text"]), string_of(s["species_name"]), string_of(s["volume_text"]), string_of(s["first_day_text"])), "");
  head("The animals");
  line(string_of(view["sentence"]));
  for (const Json& stage : view["counts"]["stages"]) line(string_of(stage["name"]) + ": " + string_of(stage["survival_fraction"]["text"]) + "; " + string_of(stage["verdict_text"]) + ".");
  for (const Json& loss : view["losses"]) line(say(reader, "{0}: {1} dead", string_of(loss["day_text"]), string_of(loss["text"])));
  head("Foretold and seen");
  line(string_of(view["milestones"]["sentence"]));
  for (const Json& row : view["milestones"]["rows"]) line(say(reader, "{0}: foretold {1}; seen: {2} ({3})", string_of(row["name"]), string_of(row["foretold_text"]), string_of(row["seen_text"]), string_of(row["fit_text"])));
  head("Temperature");
  line(string_of(view["temperature"]["sentence"]));
  for (const Json& row : view["temperature"]["months"]) line(string_of(row["month_text"]) + ": " + string_of(row["text"]) + "; " + string_of(row["measured_text"]));
  head("Water");
  line(string_of(view["water"]["sentence"]));
  for (const Json& row : view["water"]["rows"]) line(say(reader, row["with_animals"] ? "With animals, {0}: {1}; lowest {2}; highest {3}" : "Before the eggs, {0}: {1}; lowest {2}; highest {3}", string_of(row["name"]), string_of(row["sittings_text"]), string_of(row["lowest_text"]), string_of(row["highest_text"])));
  const auto entries = [&](const char* title, const Json& rows, const char* none) {
    head(title);
    if (rows.empty()) line(say(reader, none));
    for (const Json& row : rows) line(string_of(row["day_text"]) + ": " + string_of(row["text"]));
  };
  entries("Release", view["releases"], "None is logged.");
  entries("Incidents", view["incidents"], "No failure of equipment is logged.");
  head("Who kept it");
  for (const Json& row : view["keepers"]) line(string_of(row["label"]) + ": " + string_of(row["text"]));
  for (const Json& row : view["work"]) line(string_of(row));
  head("How it was worked out, and what is in doubt");
  for (const char* key : {"method", "doubt"})
    for (const Json& row : view[key]) line(string_of(row));
  return out;
}

}  // namespace redd::report
