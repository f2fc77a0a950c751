#include "report/record_text.h"

#include <algorithm>
#include <cctype>

#include "quantities/one_or_several.h"
#include "records/reading.h"
#include "wire/codec.h"
#include "wire/describe.h"
#include "wire/json.h"

namespace redd::report {
namespace {

using namespace records;
using wire::Json;

std::string plain_word(std::string_view word) {
  std::string text(word);
  std::ranges::replace(text, '_', ' ');
  return text;
}

template <class Enum, std::size_t N>
std::string word_of(const std::array<std::string_view, N>& words, Enum value) {
  return plain_word(words[static_cast<std::size_t>(value)]);
}

std::string with(const std::string& text, const std::optional<std::string>& extra) { return extra && !extra->empty() ? text + ", " + *extra : text; }

struct RecordText {
  std::span<const Record> log;
  const Reader& reader;

  std::string shown(const Sentence& s) const { return text_of(s, reader); }
  std::string operator()(const SeasonSetup& s) const { return shown({"{0}: {1}, {2}, target {3}", {Word{s.name}, s.volume, Word{plain_word(s.species)}, s.target}}); }
  std::string operator()(const Kit& k) const { return k.name + " (" + std::to_string(k.tests.size()) + " tests)"; }
  std::string operator()(const SourceWater& w) const {
    std::string text = w.name;
    if (w.ph) text += shown({", {0}", {*w.ph}});
    if (w.alkalinity) text += shown({", KH {0}", {*w.alkalinity}});
    if (w.hardness) text += shown({", GH {0}", {*w.hardness}});
    if (w.chlorine_mg_per_l) text += shown({", {0} {1}", {Measured{*w.chlorine_mg_per_l, "mg/L"}, Word{w.chloramine ? "chloramine" : "chlorine"}}});
    return text;
  }
  std::string operator()(const Reading& r) const {
    const Kit* kit = find_kit(log, r.kit);
    const KitTest* test = kit ? find_test(*kit, r.test) : nullptr;
    if (!test) return r.kit + "/" + r.test;
    std::string name = quantity_text(test->quantity);
    name[0] = test->quantity == Quantity::ph ? 'p' : static_cast<char>(std::toupper(static_cast<unsigned char>(name[0])));
    return with(name + ": " + reading_text(*test, r), r.team);
  }
  std::string operator()(const TemperatureReading& t) const {
    return shown({"{0} in the {1}", {t.temperature, Word{word_of(wire::words::place, t.place)}}});
  }
  std::string operator()(const WaterChange& w) const {
    std::string text = shown({"{0}", {w.volume}});
    const SeasonSetup* season = find_season(log);
    if (season && season->volume.l() > 0) text += shown({" ({0} of the tank)", {Share{w.volume.l() / season->volume.l()}}});
    if (w.source_water) text += " from " + *w.source_water;
    if (w.new_water) text += shown({" at {0}", {*w.new_water}});
    if (w.vacuumed) text += ", vacuumed";
    text += w.dechlorinated ? ", dechlorinated" : ", not noted as dechlorinated";
    return text;
  }
  std::string operator()(const Dose& d) const {
    const std::string name = d.name && !d.name->empty() ? *d.name : word_of(wire::words::substance, d.substance);
    return shown({"{0} {1}", {d.mass, Word{name}}});
  }
  std::string operator()(const SetPoint& s) const { return shown({"set to {0}", {s.temperature}}); }
  std::string operator()(const EggReceipt& e) const {
    std::string text = shown({one_or_several(e.count, "{0} egg", "{0} eggs"), {Number{e.count}}});
    if (e.start == EggReceipt::Start::fertilised_on && e.fertilised_on) text += ", fertilised " + short_date_text(*e.fertilised_on);
    if (e.start == EggReceipt::Start::thermal_sum && e.thermal_sum) text += shown({", at {0}", {*e.thermal_sum}});
    if (e.start == EggReceipt::Start::eyed) text += ", eyed";
    return with(text, e.supplier);
  }
  std::string operator()(const Count& c) const {
    std::string text = std::to_string(c.count) + " " + word_of(wire::words::counted_what, c.what);
    if (c.how == Count::How::estimated) text += " (estimated)";
    if (c.how == Count::How::sampled && c.looked_at_fraction) text += shown({" in {0} of the places looked at", {Share{*c.looked_at_fraction}}});
    return text;
  }
  std::string operator()(const Feeding& f) const { return with(f.mass ? shown({"{0} of food", {*f.mass}}) : shown({"{0} of food", {Measured{f.spoons.value_or(0), "level spoons"}}}), f.food); }
  std::string operator()(const FilterWork& f) const {
    return word_of(wire::words::filter_work, f.work) + (f.fraction ? shown({" ({0} of the media)", {Share{*f.fraction}}}) : "");
  }
  std::string operator()(const EquipmentEvent& e) const {
    return with(word_of(wire::words::equipment, e.equipment) + " " + word_of(wire::words::equipment_event, e.event), e.remark);
  }
  std::string operator()(const Milestone& m) const {
    const std::string name = word_of(wire::words::milestone, m.which);
    return m.seen ? name : name + ": looked, none yet";
  }
  std::string operator()(const Note& n) const { return n.text; }
  std::string operator()(const Release& r) const { return std::to_string(r.count) + " fish at " + r.place; }
  static std::string days_text(Date from, const std::optional<Date>& to) {
    return short_date_text(from) + (to && *to != from ? " to " + short_date_text(*to) : "");
  }
  std::string operator()(const Closure& c) const {
    return c.name + ": " + (c.shut_from ? "shut from " + *c.shut_from + " on " : "closed ") + days_text(c.from, c.to);
  }
  std::string operator()(const Duty& d) const { return d.label + " from " + days_text(d.from, d.to); }
  std::string operator()(const TankBuild& b) const {
    std::string text;
    const auto add = [&](const std::string& part) { text += (text.empty() ? "" : ", ") + part; };
    if (b.length_cm && b.width_cm && b.water_height_cm)
      add(shown({"{0} long, {1} wide, water {2} high", {Measured{*b.length_cm, "cm"}, Measured{*b.width_cm, "cm"}, Measured{*b.water_height_cm, "cm"}}}));
    if (b.wall != TankFace::Wall::unknown) add(word_of(wire::words::tank_wall, b.wall));
    if (b.foam_thickness_mm && *b.foam_thickness_mm > 0) add(shown({"{0} of insulation", {Measured{*b.foam_thickness_mm, "mm"}}}));
    if (b.lid != TankBuild::Lid::unknown) add(b.lid == TankBuild::Lid::none ? "no lid" : "lid: " + word_of(wire::words::tank_lid, b.lid));
    if (b.chiller_cooling) add(shown({"chiller {0}", {Measured{b.chiller_cooling->w(), "W"}}}));
    if (b.pump) add(shown({"pump {0}", {Measured{b.pump->w(), "W"}}}));
    if (b.flow_l_per_min) add(shown({"flow {0}", {Measured{*b.flow_l_per_min, "L/min"}}}));
    if (b.air_l_per_min) add(shown({"air {0}", {Measured{*b.air_l_per_min, "L/min"}}}));
    if (b.light) add(shown({"light {0}", {Measured{b.light->w(), "W"}}}));
    if (b.room_day) add(shown({"room {0} by day", {*b.room_day}}));
    return text.empty() ? "as described" : text;
  }
  std::string operator()(const TopUp& t) const { return with(shown({"{0} added for what evaporated", {t.volume}}), t.source_water); }
  std::string operator()(const Spoon& s) const { return with(shown({one_or_several(s.spoons, "{0} level spoon weighs {1}", "{0} level spoons weigh {1}"), {Number{s.spoons}, s.mass}}), s.food); }
  std::string operator()(const FishSample& s) const {
    std::string text = shown({one_or_several(s.count, "{0} animal", "{0} animals"), {Number{s.count}}});
    if (s.mass) text += shown({", {0} together", {*s.mass}});
    if (!s.lengths_mm.empty()) text += ", lengths measured";
    return text;
  }
  std::string operator()(const AdviceAnswer& a) const {
    return with(word_of(wire::words::answer, a.answer) + ": " + plain_word(a.action) + (a.until ? ", ask again " + short_date_text(*a.until) : ""), a.remark);
  }
  /// Not what was guessed: until the reading is in, nobody else is to see it. The lessons show it afterwards.
  std::string operator()(const Guess& g) const { return g.team + " on " + plain_word(g.question.substr(0, g.question.rfind('/'))); }
  std::string operator()(const Undo& u) const { return "takes back record " + std::to_string(u.target); }
};

Json optional_id(const std::optional<RecordId>& id) { return id ? Json(*id) : Json(nullptr); }

Json row(std::span<const Record> records, const std::vector<Standing>& standing, std::size_t i, const Reader& reader) {
  const Record& r = records[i];
  const Standing& s = standing[i];
  Json out;
  out["id"] = r.id;
  out["at"] = rfc3339_from_instant(r.entry.at);
  out["day_text"] = date_text(local_day(reader.zone, r.entry.at));
  out["time_text"] = time_text(reader.zone, r.entry.at);
  out["logged_at"] = rfc3339_from_instant(r.logged_at);
  out["kind"] = kind_name(r.entry.body);
  out["kind_text"] = kind_text(r.entry.body);
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
