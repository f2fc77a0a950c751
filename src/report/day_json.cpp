#include "report/day_json.h"

#include <algorithm>
#include <cmath>

#include "quantities/one_or_several.h"
#include "quantities/verbatim.h"
#include "records/school_calendar.h"
#include "report/advice_view.h"
#include "report/day_text.h"
#include "report/filter_view.h"
#include "report/record_text.h"
#include "records/school_calendar.h"
#include "report/water_view.h"
#include "wire/json.h"

namespace redd::report {
namespace {

using advice::Assessment;
using advice::Tone;
using advice::WaterKey;
using inference::SeriesPoint;
using season::DayView;
using wire::Json;

/// Numbers of charts: unrounded, but never infinite (JSON has no infinity).
Json number(double value) { return std::isfinite(value) ? Json(value) : Json(nullptr); }

Json optional_day(const std::optional<Date>& day) { return day ? Json(iso_from_date(*day)) : Json(nullptr); }

class DayWriter {
 public:
  DayWriter(const DayView& day, const Reader& reader) : day_(day), reader_(reader), school_(day.records) { reader_.zone = day.zone; }

  Json all() {
    Json out;
    out["season"] = season();
    out["now"] = rfc3339_from_instant(day_.now);
    out["today"] = iso_from_date(today());
    out["today_text"] = date_text(today(), reader_);
    out["headline"] = {{"tone", tone_text(day_.advice.headline.tone)}, {"sentence", headline_text(day_.advice.headline, reader_)}, {"detail", text(day_.advice.headline.detail)}};
    out["stage"] = stage();
    out["actions"] = Json::array();
    for (const advice::Action& a : day_.advice.actions) out["actions"].push_back(action(a));
    out["put_aside"] = put_aside_json(day_.advice, reader_);
    out["water"] = Json::array();
    for (const auto& [key, assessment] : day_.advice.water) out["water"].push_back(water(assessment));
    out["filter"] = filter_json(day_, reader_);
    out["milestones"] = milestones();
    out["season_line"] = season_line();
    out["gaps"] = Json::array();
    for (const Sentence& gap : day_.belief.gaps) out["gaps"].push_back(text(gap));
    if (day_.belief.brood.forecast)
      for (const Sentence& note : day_.belief.brood.forecast->notes) out["gaps"].push_back(text(note));
    return out;
  }

 private:
  std::string text(const Sentence& sentence) const { return text_of(sentence, reader_); }
  Date today() const { return local_day(day_.zone, day_.now); }

  Json season() const {
    const records::SeasonSetup& s = day_.season;
    Json out;
    out["name"] = s.name;
    out["place"] = s.place;
    out["species"] = s.species;
    out["species_name"] = day_.belief.brood.species ? say(reader_, day_.belief.brood.species->common_name) : s.species;
    out["volume_l"] = s.volume.l();
    out["volume_text"] = text({"{0}", {s.volume}});
    out["target_c"] = s.target.c();
    out["target_text"] = text({"{0}", {s.target}});
    out["elevation_m"] = s.elevation_m;
    out["time_zone"] = s.time_zone;
    out["first_day"] = iso_from_date(s.first_day);
    out["egg_day"] = optional_day(s.egg_day);
    out["egg_day_assumed"] = s.egg_day_assumed;
    out["egg_count"] = s.egg_count ? Json(*s.egg_count) : Json(nullptr);
    out["invented"] = s.invented;
    return out;
  }

  Json stage() const {
    const auto& brood = day_.belief.brood;
    Json out;
    out["key"] = animals_key(brood.animals);
    out["name"] = animals_name(brood.animals, reader_);
    out["atu_c_days"] = nullptr;
    out["atu_text"] = "";
    Sentence sentence{"No eggs have been received."};
    if (brood.animals == inference::Animals::released) sentence = {"The brood has been released."};
    else if (brood.released_count > 0) sentence = {one_or_several(brood.received_count, "{0} egg received, {1} dead logged, {2} released.", "{0} eggs received, {1} dead logged, {2} released."), {Number{brood.received_count}, Number{brood.dead_count}, Number{brood.released_count}}};
    else if (brood.animals != inference::Animals::none) sentence = {one_or_several(brood.received_count, "{0} egg received, {1} dead logged.", "{0} eggs received, {1} dead logged."), {Number{brood.received_count}, Number{brood.dead_count}}};
    out["sentence"] = text(sentence);
    if (brood.forecast && brood.animals != inference::Animals::none) {
      out["atu_c_days"] = brood.forecast->thermal_sum.mid.c_days();
      out["atu_text"] = text({"{0} since fertilisation (between {1} and {2})", {brood.forecast->thermal_sum.mid, brood.forecast->thermal_sum.low, brood.forecast->thermal_sum.high}});
    }
    return out;
  }

  Json reasons(const std::vector<advice::Reason>& list) const {
    Json out = Json::array();
    for (const advice::Reason& r : list) out.push_back({{"sentence", text(r.sentence)}, {"record_ids", r.records}});
    return out;
  }

  Json action(const advice::Action& a) const {
    Json out;
    out["id"] = a.key + "/" + iso_from_date(today());
    out["rule"] = a.rule;
    out["tone"] = tone_text(a.tone);
    out["what"] = text(a.what);
    out["how_much"] = text(a.how_much);
    out["by"] = rfc3339_from_instant(a.by);
    out["by_text"] = text(a.by_text);
    out["effort_minutes"] = a.effort_minutes;
    out["shown"] = static_cast<std::size_t>(&a - day_.advice.actions.data()) < day_.advice.shown;
    add_advice_fields(out, a, reader_);
    out["because"] = reasons(a.because);
    out["would_change_if"] = reasons(a.would_change_if);
    out["cautions"] = Json::array();
    for (const Sentence& caution : a.cautions) out["cautions"].push_back(text(caution));
    out["sources"] = Json::array();
    for (const std::string& source : a.sources) out["sources"].push_back(say(reader_, source));
    out["prediction"] = a.water_change ? prediction(*a.water_change) : Json(nullptr);
    return out;
  }

  Json prediction(const planning::WaterChange& change) const {
    Json rows = Json::array();
    const auto row = [&](WaterKey key, const Estimate<double>& before, const Estimate<double>& after) {
      const ShownQuantity shown = shown_quantity(key, day_, reader_);
      rows.push_back({{"key", shown.key}, {"name", shown.name}, {"before_text", value_text(shown, before.low, before.high, false, reader_)},
                      {"after_text", value_text(shown, after.low, after.high, false, reader_)}, {"after_tone", after_tone(key, after)}});
    };
    if (change.un_ionized_before && change.un_ionized_after) row(WaterKey::un_ionized_ammonia, *change.un_ionized_before, *change.un_ionized_after);
    for (const WaterKey key : {WaterKey::total_ammonia, WaterKey::nitrite, WaterKey::nitrate, WaterKey::ph, WaterKey::alkalinity, WaterKey::hardness}) {
      const auto quantity = *tested_quantity(key);
      const auto before = change.before.find(quantity), after = change.after.find(quantity);
      if (before != change.before.end() && after != change.after.end()) row(key, before->second, after->second);
    }
    const Estimate<double> t0{change.tank_before.c(), change.tank_before.c(), change.tank_before.c()}, t1{change.tank_after.c(), change.tank_after.c(), change.tank_after.c()};
    row(WaterKey::temperature, t0, t1);
    std::string note = text({"Just after the change; un-ionized ammonia: the worse of just after and the next day."});
    for (const Sentence& s : change.notes) note += " " + text(s);
    return {{"title", text({"After changing {0} ({1})", {Share{change.fraction}, change.volume}})}, {"note", note}, {"rows", rows}};
  }

  /// Tone of a predicted value: below the lowest mark that calls for action is good, else watch. Only where marks exist.
  std::string after_tone(WaterKey key, const Estimate<double>& after) const {
    const Assessment& now = day_.advice.water.at(key);
    // The same marks as the judgement of today's reading: the outer one for the high end, the inner one for the middle.
    double outer = 0, inner = 0;
    for (const advice::Limit& limit : now.limits) {
      if (limit.key == "act" || limit.key == "maximum") outer = limit.value;
      if (limit.key == "mean" || limit.key == "guideline") inner = limit.value;
    }
    if (outer > 0) return after.high >= outer ? "act" : inner > 0 && after.mid >= inner ? "watch" : "good";
    if (key == WaterKey::temperature && now.limits.size() == 4)
      return after.mid < now.limits[0].value || after.mid > now.limits[3].value ? "act" : after.mid < now.limits[1].value || after.mid > now.limits[2].value ? "watch" : "good";
    return std::string(tone_text(now.tone == Tone::good ? Tone::good : Tone::watch));
  }

  Json point(const SeriesPoint& p, const ShownQuantity& shown) const {
    return {{"at", rfc3339_from_instant(p.at)}, {"low", number(p.value.low * shown.per_canonical)}, {"mid", number(p.value.mid * shown.per_canonical)},
            {"high", p.open_above ? Json(nullptr) : number(p.value.high * shown.per_canonical)}, {"raw_text", text_of(p.raw_text, reader_)}, {"record_id", p.id}, {"team", p.team}};
  }

  Json water(const Assessment& a) const {
    const ShownQuantity shown = shown_quantity(a.key, day_, reader_);
    Json out;
    out["key"] = shown.key;
    out["name"] = shown.name;
    out["unit_text"] = shown.unit_text;
    out["tone"] = tone_text(a.tone);
    out["latest"] = nullptr;
    if (a.value) {
      const auto quantity = tested_quantity(a.key);
      const auto* known = quantity ? day_.belief.find(*quantity) : nullptr;
      const Support support = known ? known->value.support : a.value->support;
      out["latest"] = {{"low", number(a.value->low * shown.per_canonical)},
                       {"mid", number(a.value->mid * shown.per_canonical)},
                       {"high", a.open_above ? Json(nullptr) : number(a.value->high * shown.per_canonical)},
                       {"text", value_text(shown, a.value->low, a.value->high, a.open_above, reader_)},
                       {"at", a.read_at ? Json(rfc3339_from_instant(*a.read_at)) : Json(nullptr)},
                       {"age_text", a.read_at ? say(reader_, "{0} ago", days_text(std::max(0.0, a.age_days), reader_)) : ""},
                       {"raw_text", text_of(a.raw_text, reader_)},
                       {"record_ids", a.records},
                       {"support", support == Support::measured ? "measured" : support == Support::inferred ? "inferred" : "assumed"}};
      if (known)
        for (const Sentence& s : known->adjustments) out["latest"]["adjustments"].push_back(text(s));
    }
    out["meaning"] = text(a.meaning);
    out["limits"] = Json::array();
    for (const advice::Limit& limit : a.limits)
      out["limits"].push_back({{"key", limit.key}, {"value", limit.value * shown.per_canonical}, {"text", say(reader_, limit.name)}, {"source", say(reader_, limit.source)}});
    add_series(out, a, shown);
    out["baseline"] = nullptr;
    if (a.baseline)
      out["baseline"] = {{"mean", a.baseline->mean * shown.per_canonical}, {"lower", a.baseline->lower * shown.per_canonical}, {"upper", a.baseline->upper * shown.per_canonical},
                         {"text", say(reader_, "this season's normal, from {0} tests", a.baseline->tests)}};
    return out;
  }

  void add_series(Json& out, const Assessment& a, const ShownQuantity& shown) const {
    out["series"] = Json::array();
    const std::vector<SeriesPoint>* series = nullptr;
    if (a.key == WaterKey::temperature) series = &day_.belief.temperature.series;
    else if (const auto quantity = tested_quantity(a.key); quantity && day_.belief.find(*quantity)) series = &day_.belief.find(*quantity)->series;
    double least = 0.0, most = 0.0;
    bool any = false;
    const auto widen = [&](double v) {
      if (!std::isfinite(v)) return;
      least = any ? std::min(least, v) : v;
      most = any ? std::max(most, v) : v;
      any = true;
    };
    if (series)
      for (const SeriesPoint& p : *series) {
        out["series"].push_back(point(p, shown));
        widen(p.value.low * shown.per_canonical);
        widen((p.open_above ? p.value.low : p.value.high) * shown.per_canonical);
      }
    if (a.value) {
      widen(a.value->low * shown.per_canonical);
      widen((a.open_above ? a.value->low : a.value->high) * shown.per_canonical);
    }
    for (const advice::Limit& limit : a.limits)
      if (limit.key == "act" || limit.key == "alarm" || limit.key == "guideline" || limit.key == "low" || limit.key == "high" || limit.key == "mean" || limit.key == "filter") widen(limit.value * shown.per_canonical);
    if (!any) most = 1.0;
    if (a.key != WaterKey::ph && a.key != WaterKey::temperature) least = 0.0;
    if (most <= least) most = least + 1.0;
    out["axis"] = {{"min", least}, {"max", most}};
  }

  Json window(biology::CalendarMoment from, biology::CalendarMoment to) const {
    return {{"from", iso_from_date(biology::day_of(from))}, {"to", iso_from_date(biology::day_of(to))}};
  }

  Json milestones() const {
    Json out = Json::array();
    if (!day_.belief.brood.forecast || day_.belief.brood.animals == inference::Animals::none) return out;
    for (const biology::StageForecast& f : day_.belief.brood.forecast->stages) {
      std::optional<Date> observed;
      for (const auto& report : day_.belief.brood.forecast->observations)
        if (report.observation.seen && (report.observation.milestone == biology::Milestone::half_eyed || report.observation.milestone == biology::Milestone::half_hatched ||
                                        report.observation.milestone == biology::Milestone::half_swum_up) && biology::stage_of(report.observation.milestone) == f.stage)
          observed = report.observation.day;
      const char* state = f.past_fraction.mid > 0.99 || (observed && f.past_fraction.mid > 0.9) ? "happened" : f.past_fraction.mid > 0.02 ? "under_way" : "expected";
      std::string note = state[0] == 'h' ? "" : say(reader_, "The first may come around {0}.", short_date_text(biology::day_of(f.first_tenth.low_50), reader_));
      if (state[0] == 'e') note += closed_note(biology::day_of(f.lot.median));
      out.push_back({{"key", biology::name_of(f.stage)}, {"name", stage_title(f.stage, reader_)}, {"state", state}, {"observed_day", optional_day(observed)},
                     {"mid", iso_from_date(biology::day_of(f.lot.median))}, {"window50", window(f.lot.low_50, f.lot.high_50)}, {"window90", window(f.lot.low_90, f.lot.high_90)},
                     {"text", observed ? say(reader_, "Seen on {0}", short_date_text(*observed, reader_)) : milestone_text(f, reader_)}, {"note", note}, {"model", f.model_key}});
    }
    return out;
  }

  std::string closed_note(Date day) const {
    if (const auto closure = school_.closure_on(day)) return " " + say(reader_, "The school is closed on the most likely day ({0}).", verbatim(closure->name));
    return school_.is_open(day) ? "" : " " + say(reader_, "The most likely day is on a weekend.");
  }

  Json season_line() const {
    using std::chrono::days;
    // From filling to a month past the last milestone's window; without eggs, a month past egg day or today.
    Date to = std::max(today(), day_.season.egg_day.value_or(today())) + days(30);
    const auto& forecast = day_.belief.brood.forecast;
    if (forecast && day_.belief.brood.animals != inference::Animals::none)
      to = std::max(today() + days(7), biology::day_of(forecast->stage(biology::Stage::swim_up).lot.high_90) + days(30));
    Json out;
    out["from"] = iso_from_date(day_.season.first_day);
    out["to"] = iso_from_date(to);
    out["temperature"] = Json::array();
    for (const auto& d : day_.belief.temperature.days) {
      if (d.day > to) break;
      constexpr double half_90_in_sd = 1.645;
      const double half = half_90_in_sd * d.sd.c();
      out["temperature"].push_back({{"day", iso_from_date(d.day)}, {"low", d.mean.c() - half}, {"mid", d.mean.c()}, {"high", d.mean.c() + half},
                                    {"kind", d.measured ? "measured" : d.day > today() ? "planned" : "assumed"}});
    }
    out["set_points"] = Json::array();
    out["events"] = Json::array();
    for (const records::Record& r : day_.records) {
      const std::string day = iso_from_date(local_day(day_.zone, r.entry.at));
      if (const auto* s = std::get_if<records::SetPoint>(&r.entry.body)) out["set_points"].push_back({{"day", day}, {"c", s->temperature.c()}});
      if (is_season_event(r.entry.body))
        out["events"].push_back({{"day", day}, {"kind", records::kind_name(r.entry.body)}, {"text", record_text(r.entry.body, day_.records, reader_)}, {"record_id", r.id}});
    }
    out["bands"] = bands(to);
    return out;
  }

  Json bands(Date to) const {
    Json out = Json::array();
    const auto& brood = day_.belief.brood;
    if (!brood.forecast || !brood.species || brood.animals == inference::Animals::none) return out;
    Date received = day_.season.first_day;
    for (const records::Record& r : day_.records)
      if (r.id == brood.receipt) received = local_day(day_.zone, r.entry.at);
    const Date eyed = biology::day_of(brood.forecast->stage(biology::Stage::eyed).lot.median), hatch = biology::day_of(brood.forecast->stage(biology::Stage::hatch).lot.median),
               swim = biology::day_of(brood.forecast->stage(biology::Stage::swim_up).lot.median);
    const auto add = [&](Date from, Date until, biology::LifeStage stage) {
      from = std::max(from, received);
      until = std::min(until, to);
      if (from >= until) return;
      const biology::ThermalBand& band = brood.species->band(stage);
      out.push_back({{"from", iso_from_date(from)}, {"to", iso_from_date(until)}, {"stage", biology::name_of(stage)}, {"green_low", band.green_low.c()},
                     {"green_high", band.green_high.c()}, {"red_low", band.red_below.c()}, {"red_high", band.red_above.c()}});
    };
    add(received, eyed, biology::LifeStage::green_egg);
    add(eyed, hatch, biology::LifeStage::eyed_egg);
    add(hatch, swim, biology::LifeStage::alevin);
    add(swim, to, biology::LifeStage::fry);
    return out;
  }

  const DayView& day_;
  Reader reader_;
  records::SchoolCalendar school_;
};

}  // namespace

std::string day_json(const DayView& day, const Reader& reader) { return wire::printed(DayWriter(day, reader).all()); }

}  // namespace redd::report
