#include "report/record_text.h"

#include <algorithm>
#include <set>

#include "quantities/one_or_several.h"
#include "quantities/verbatim.h"
#include "records/reading.h"
#include "wire/codec.h"
#include "wire/describe.h"
#include "wire/json.h"

namespace redd::report {
namespace {

using namespace records;
using wire::Json;

Phrase plain_word(std::string_view word) {
  std::string text(word);
  std::ranges::replace(text, '_', ' ');
  return text;
}

template <class Enum, std::size_t N>
Phrase word_of(const std::array<std::string_view, N>& words, Enum value) {
  return plain_word(words[static_cast<std::size_t>(value)]);
}

std::string with(const std::string& text, const std::optional<std::string>& extra) { return extra && !extra->empty() ? text + ", " + *extra : text; }

/// One record in a few words. Parts that may be missing follow each other after commas.
struct RecordText {
  std::span<const Record> log;
  const Reader& reader;

  std::string shown(const Sentence& s) const { return text_of(s, reader); }
  void add(std::string& text, const Sentence& part) const { text += (text.empty() ? "" : ", ") + shown(part); }
  std::string day(Date d) const { return short_date_text(d, reader); }

  std::string operator()(const SeasonSetup& s) const { return shown({"{0}: {1}, {2}, target {3}", {Word{verbatim(s.name)}, s.volume, Word{plain_word(s.species)}, s.target}}); }
  std::string operator()(const Kit& k) const { return say(reader, "{0} ({1} tests)", verbatim(k.name), k.tests.size()); }
  std::string operator()(const SourceWater& w) const {
    std::string text = w.name;
    if (w.ph) add(text, {"{0}", {*w.ph}});
    if (w.alkalinity) add(text, {"KH {0}", {*w.alkalinity}});
    if (w.hardness) add(text, {"GH {0}", {*w.hardness}});
    if (w.chlorine_mg_per_l) add(text, {"{0} {1}", {Measured{*w.chlorine_mg_per_l, "mg/L"}, Word{w.chloramine ? "chloramine" : "chlorine"}}});
    return text;
  }
  std::string operator()(const Reading& r) const {
    const Kit* kit = find_kit(log, r.kit);
    const KitTest* test = kit ? find_test(*kit, r.test) : nullptr;
    if (!test) return r.kit + "/" + r.test;
    return with(capitalised(say(reader, quantity_text(test->quantity))) + ": " + text_of(reading_text(*test, r), reader), r.team);
  }
  std::string operator()(const TemperatureReading& t) const {
    return shown({"{0} in the {1}", {t.temperature, Word{word_of(wire::words::place, t.place)}}});
  }
  std::string operator()(const WaterChange& w) const {
    const SeasonSetup* season = find_season(log);
    std::string text = season && season->volume.l() > 0 ? shown({"{0} ({1} of the tank)", {w.volume, Share{w.volume.l() / season->volume.l()}}}) : shown({"{0}", {w.volume}});
    if (w.source_water) text += " " + say(reader, "from {0}", verbatim(*w.source_water));
    if (w.new_water) text += " " + say(reader, "at {0}", {*w.new_water});
    if (w.vacuumed) add(text, "vacuumed");
    add(text, w.dechlorinated ? "dechlorinated" : "not noted as dechlorinated");
    return text;
  }
  std::string operator()(const Dose& d) const {
    return shown({"{0} {1}", {d.mass, Word{d.name && !d.name->empty() ? verbatim(*d.name) : word_of(wire::words::substance, d.substance)}}});
  }
  std::string operator()(const SetPoint& s) const { return shown({"set to {0}", {s.temperature}}); }
  std::string operator()(const EggReceipt& e) const {
    std::string text = shown({one_or_several(e.count, "{0} egg", "{0} eggs"), {Number{e.count}}});
    if (e.start == EggReceipt::Start::fertilised_on && e.fertilised_on) add(text, {"fertilised {0}", {Word{day(*e.fertilised_on)}}});
    if (e.start == EggReceipt::Start::thermal_sum && e.thermal_sum) add(text, {"at {0}", {*e.thermal_sum}});
    if (e.start == EggReceipt::Start::eyed) add(text, "eyed");
    return with(text, e.supplier);
  }
  std::string operator()(const Count& c) const {
    // Whole patterns, as with equipment.
    constexpr const char* one[] = {"{0} dead egg", "{0} dead alevin", "{0} dead fry", "{0} hatched", "{0} alive", "{0} swum up"};
    constexpr const char* several[] = {"{0} dead eggs", "{0} dead alevins", "{0} dead fry", "{0} hatched", "{0} alive", "{0} swum up"};
    static_assert(std::size(one) == wire::words::counted_what.size() && std::size(several) == wire::words::counted_what.size());
    const auto what = static_cast<std::size_t>(c.what);
    std::string text = shown({one_or_several(c.count, one[what], several[what]), {Number{c.count}}});
    if (c.how == Count::How::estimated) text += " " + say(reader, "(estimated)");
    if (c.how == Count::How::sampled && c.looked_at_fraction) text += " " + say(reader, "in {0} of the places looked at", {Share{*c.looked_at_fraction}});
    return text;
  }
  std::string operator()(const Feeding& f) const { return with(f.mass ? shown({"{0} of food", {*f.mass}}) : shown({"{0} of food", {Measured{f.spoons.value_or(0), "level spoons"}}}), f.food); }
  std::string operator()(const FilterWork& f) const {
    const std::string work = say(reader, word_of(wire::words::filter_work, f.work));
    return f.fraction ? work + " " + say(reader, "({0} of the media)", {Share{*f.fraction}}) : work;
  }
  std::string operator()(const EquipmentEvent& e) const {
    // Whole patterns: in other languages what happened agrees with what it happened to.
    constexpr const char* happened[] = {"{0} failed", "{0} restored", "{0} switched off", "{0} switched on", "{0} serviced"};
    static_assert(std::size(happened) == wire::words::equipment_event.size());
    return with(say(reader, happened[static_cast<std::size_t>(e.event)], {Word{word_of(wire::words::equipment, e.equipment)}}), e.remark);
  }
  std::string operator()(const Milestone& m) const {
    return say(reader, m.seen ? "{0}" : "{0}: looked, none yet", {Word{word_of(wire::words::milestone, m.which)}});
  }
  std::string operator()(const Note& n) const { return n.text; }
  std::string operator()(const Release& r) const { return say(reader, "{0} fish at {1}", r.count, verbatim(r.place)); }
  std::string days_text(Date from, const std::optional<Date>& to) const { return to && *to != from ? say(reader, "{0} to {1}", day(from), day(*to)) : day(from); }
  std::string operator()(const Closure& c) const {
    if (c.shut_from) return say(reader, "{0}: shut from {1} on {2}", verbatim(c.name), verbatim(*c.shut_from), days_text(c.from, c.to));
    return say(reader, "{0}: closed {1}", verbatim(c.name), days_text(c.from, c.to));
  }
  std::string operator()(const Duty& d) const { return say(reader, "{0} from {1}", verbatim(d.label), days_text(d.from, d.to)); }
  std::string operator()(const TankBuild& b) const {
    std::string text;
    const auto measured = [&](const char* pattern, double value, const char* unit) { add(text, Sentence{pattern, {Measured{value, unit}}}); };
    if (b.length_cm && b.width_cm && b.water_height_cm)
      add(text, {"{0} long, {1} wide, water {2} high", {Measured{*b.length_cm, "cm"}, Measured{*b.width_cm, "cm"}, Measured{*b.water_height_cm, "cm"}}});
    if (b.wall != TankFace::Wall::unknown) add(text, {"{0}", {Word{word_of(wire::words::tank_wall, b.wall)}}});
    if (b.foam_thickness_mm && *b.foam_thickness_mm > 0) measured("{0} of insulation", *b.foam_thickness_mm, "mm");
    if (b.lid == TankBuild::Lid::none) add(text, "no lid");
    else if (b.lid != TankBuild::Lid::unknown) add(text, {"lid: {0}", {Word{word_of(wire::words::tank_lid, b.lid)}}});
    if (b.chiller_cooling) measured("chiller {0}", b.chiller_cooling->w(), "W");
    if (b.pump) measured("pump {0}", b.pump->w(), "W");
    if (b.flow_l_per_min) measured("flow {0}", *b.flow_l_per_min, "L/min");
    if (b.air_l_per_min) measured("air {0}", *b.air_l_per_min, "L/min");
    if (b.light) measured("light {0}", b.light->w(), "W");
    if (b.room_day) add(text, {"room {0} by day", {*b.room_day}});
    return text.empty() ? say(reader, "as described") : text;
  }
  std::string operator()(const TopUp& t) const { return with(shown({"{0} added for what evaporated", {t.volume}}), t.source_water); }
  std::string operator()(const Spoon& s) const { return with(shown({one_or_several(s.spoons, "{0} level spoon weighs {1}", "{0} level spoons weigh {1}"), {Number{s.spoons}, s.mass}}), s.food); }
  std::string operator()(const FishSample& s) const {
    std::string text = shown({one_or_several(s.count, "{0} animal", "{0} animals"), {Number{s.count}}});
    if (s.mass) add(text, {"{0} together", {*s.mass}});
    if (!s.lengths_mm.empty()) add(text, "lengths measured");
    return text;
  }
  std::string operator()(const AdviceAnswer& a) const {
    std::string text = say(reader, "{0}: {1}", {Word{word_of(wire::words::answer, a.answer)}, Word{plain_word(a.action)}});
    if (a.until) add(text, {"ask again {0}", {Word{day(*a.until)}}});
    return with(text, a.remark);
  }
  /// Not what was guessed: until the reading is in, nobody else is to see it. The lessons show it afterwards.
  std::string operator()(const Guess& g) const { return say(reader, "{0} on {1}", verbatim(g.team), asked_in(g.question)); }
  /// What a question asks for: "Nitrite" of "kit/test/day"; with the kit's name where the log has several.
  Phrase asked_in(const std::string& question) const {
    const std::size_t first = question.find('/'), second = question.find('/', first + 1);
    if (second == std::string::npos) return plain_word(question.substr(0, first));
    const std::string key = question.substr(0, first), test_key = question.substr(first + 1, second - first - 1);
    std::set<std::string> kits;
    for (const Record& record : log)
      if (const auto* one = std::get_if<Kit>(&record.entry.body)) kits.insert(one->key);
    const Kit* kit = records::find_kit(log, key);
    if (!kit) return verbatim(question.substr(0, second));
    const auto test = std::ranges::find(kit->tests, test_key, &records::KitTest::key);
    if (test == kit->tests.end()) return verbatim(question.substr(0, second));
    const Phrase quantity = records::quantity_text(test->quantity);
    return kits.size() > 1 ? said("{0} ({1})", quantity, verbatim(kit->name)) : quantity;
  }
  std::string operator()(const Undo& u) const { return say(reader, "takes back record {0}", u.target); }
};

Json optional_id(const std::optional<RecordId>& id) { return id ? Json(*id) : Json(nullptr); }

Json row(std::span<const Record> records, const std::vector<Standing>& standing, std::size_t i, const Reader& reader) {
  const Record& r = records[i];
  const Standing& s = standing[i];
  Json out;
  out["id"] = r.id;
  out["at"] = rfc3339_from_instant(r.entry.at);
  out["day_text"] = date_text(local_day(reader.zone, r.entry.at), reader);
  out["time_text"] = time_text(reader.zone, r.entry.at);
  out["logged_at"] = rfc3339_from_instant(r.logged_at);
  out["kind"] = kind_name(r.entry.body);
  out["kind_text"] = say(reader, kind_text(r.entry.body));
  out["author"] = r.entry.author;
  out["text"] = record_text(r.entry.body, records.first(i + 1), reader);  // kits as they stood when it was written
  out["status"] = s.undone_by ? "undone" : s.superseded_by ? "corrected" : "current";
  out["supersedes"] = optional_id(r.entry.supersedes);
  out["superseded_by"] = optional_id(s.superseded_by);
  out["undone_by"] = optional_id(s.undone_by);
  auto body = wire::parsed(wire::json_from_body(r.entry.body));
  if (body && std::holds_alternative<Guess>(r.entry.body))
    for (const char* hidden : {"low", "high", "chips"}) body.value().erase(hidden);
  out["body"] = body ? *body : Json::object();
  return out;
}

}  // namespace

std::string record_text(const Body& body, std::span<const Record> records, const Reader& reader) {
  return std::visit(RecordText{records, reader}, body);
}

std::string_view kind_text(const Body& body) {
  constexpr std::array<std::string_view, std::variant_size_v<Body>> names{
      "Season set-up", "Kit", "Source water", "Test", "Temperature", "Water change", "Dose", "Set-point", "Eggs received",
      "Count", "Feeding", "Filter work", "Equipment", "Milestone", "Note", "Release",
      "School closed", "On duty", "The tank",
      "Top-up", "Spoon weighed", "Fish measured", "Advice answered", "Guess", "Undo"};
  return names[body.index()];
}

bool is_season_event(const Body& body) {
  return std::holds_alternative<WaterChange>(body) || std::holds_alternative<Dose>(body) || std::holds_alternative<EggReceipt>(body) ||
         std::holds_alternative<FilterWork>(body) || std::holds_alternative<EquipmentEvent>(body) || std::holds_alternative<Milestone>(body) ||
         std::holds_alternative<Release>(body);
}

std::string history_json(std::span<const Record> records, const Reader& reader, int limit, RecordId before_id, Instant now) {
  std::vector<Record> known;
  std::ranges::copy_if(records, std::back_inserter(known), [&](const Record& r) { return r.logged_at <= now; });
  const auto standing = standings(known);
  Json rows = Json::array();
  bool more = false;
  for (std::size_t i = known.size(); i-- > 0;) {
    if (before_id > 0 && known[i].id >= before_id) continue;
    if (static_cast<int>(rows.size()) >= limit) {
      more = true;
      break;
    }
    rows.push_back(row(known, standing, i, reader));
  }
  return wire::printed({{"records", rows}, {"more", more}});
}

std::string history_row_json(std::span<const Record> records, RecordId id, const Reader& reader) {
  const auto standing = standings(records);
  for (std::size_t i = 0; i < records.size(); ++i)
    if (records[i].id == id) return wire::printed(row(records, standing, i, reader));
  return "null";
}

}  // namespace redd::report
