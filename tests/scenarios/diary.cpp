#include "scenarios/diary.h"

#include <algorithm>
#include <array>

#include "intake/kit_file.h"
#include "wire/codec.h"

namespace redd::scenarios {
namespace {

using wire::Json;

constexpr std::array weekdays{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};

std::string weekday_of(Date day) { return weekdays[std::chrono::weekday(day).c_encoding()]; }

std::chrono::minutes clock_from(const std::string& text) {
  if (text.size() != 5 || text[2] != ':' || text.find_first_not_of("0123456789:") != std::string::npos) throw Refused("\"" + text + "\" is no time: write it like 09:00");
  return std::chrono::hours(std::stoi(text.substr(0, 2))) + std::chrono::minutes(std::stoi(text.substr(3)));
}

std::string taken_text(Json& line, const char* key, const std::string& otherwise = "") {
  const auto found = line.find(key);
  if (found == line.end()) return otherwise;
  if (!found->is_string()) throw Refused(std::string(key) + " is written in quotes");
  std::string text = found->get<std::string>();
  line.erase(key);
  return text;
}

/// An event's first word, the kind of record, and the field that the word's value fills.
struct Event {
  const char *word, *kind, *field;
};
constexpr std::array events{
    Event{"change", "water_change", "volume_l"},   Event{"top_up", "top_up", "volume_l"},          Event{"source", "source_water", "key"},
    Event{"dose", "dose", "substance"},            Event{"set_point", "set_point", "temperature_c"}, Event{"temperature", "temperature", "temperature_c"},
    Event{"eggs", "egg_receipt", "count"},         Event{"fed", "feeding", "mass_g"},              Event{"fed_spoons", "feeding", "spoons"},
    Event{"spoons_weighed", "spoon", "spoons"},    Event{"sample", "fish_sample", "count"},        Event{"filter", "filter_work", "work"},
    Event{"note", "note", "text"},                 Event{"released", "release", "count"},          Event{"closed", "closure", "name"},
    Event{"duty", "duty", "label"},                Event{"answer", "advice_answer", "answer"}};
constexpr std::array counted{"dead_eggs", "dead_alevins", "dead_fry", "hatched", "alive"};
constexpr std::array equipment{"chiller", "pump", "air", "heater", "power", "light", "other"};

bool is_one_of(const auto& words, const std::string& word) {
  return std::ranges::any_of(words, [&](const char* w) { return word == w; });
}

/// A reading in the card's own words: a number, "0.2-0.4" between two steps, "below" the first, "above" the last.
Json reading_body(const std::string& kit, const records::KitTest& test, const Json& value) {
  Json body{{"kit", kit}, {"test", test.key}};
  if (value.is_number()) {
    body["form"] = test.method == records::Method::colour_steps ? "step" : test.method == records::Method::drop_count ? "drops" : "number";
    body["value"] = value;
    return body;
  }
  const std::string text = value.is_string() ? value.get<std::string>() : "";
  const auto dash = text.find('-');
  if (text == "below") body["form"] = "below_first";
  else if (text == "above") body["form"] = "above_last";
  else if (dash != std::string::npos) {
    body["form"] = "between";
    body["value"] = std::stod(text.substr(0, dash));
    body["upper_value"] = std::stod(text.substr(dash + 1));
  } else {
    throw Refused("\"" + text + "\" is no reading of " + test.key);
  }
  return body;
}

}  // namespace

Instant moment_from(const std::string& text, const ZoneOffsets& zone) {
  const auto day = text.size() == 20 ? date_from_iso(text.substr(4, 10)) : std::nullopt;
  if (!day) throw Refused("\"" + text + "\" is no moment: write it like \"Mon 2031-02-03 09:00\"");
  if (weekday_of(*day) != text.substr(0, 3)) throw Refused("\"" + text + "\": that day is a " + weekday_of(*day));
  return instant_of(zone, std::chrono::local_seconds{*day} + clock_from(text.substr(15)));
}

void Diary::set_up(const Json& season, Instant at) { lines_.push_back({at, at, "Tank keeper", "", "", "", "season_setup", season}); }

void Diary::add_kit(const std::string& toml, Instant at) {
  const auto kit = intake::kit_from_text(toml);
  if (!kit) throw Refused("kit: " + kit.problems().front().sentence);
  kits_.push_back(*kit);
  Line line{at, at, "Tank keeper", "", "", "", "kit", {}};
  line.body = *wire::parsed(wire::json_from_body(*kit));
  lines_.push_back(std::move(line));
}

void Diary::add(const Json& line) {
  if (!line.is_object()) throw Refused("each line of the log is a { table }");
  Json rest = line;
  const std::string every = taken_text(rest, "every");
  if (every.empty()) {
    const std::string on = taken_text(rest, "on");
    if (on.empty()) throw Refused("a line of the log needs \"on\" or \"every\": " + line.dump());
    return add_at(moment_from(on, zone_), rest);
  }
  const auto from = date_from_iso(taken_text(rest, "from_day")), to = date_from_iso(taken_text(rest, "to_day"));
  const auto clock = clock_from(taken_text(rest, "at"));
  if (!from || !to || *to < *from) throw Refused("\"every\" needs from_day and to_day: " + line.dump());
  for (Date day = *from; day <= *to; day += std::chrono::days(1))
    if (every == "day" || every.find(weekday_of(day)) != std::string::npos) add_at(instant_of(zone_, std::chrono::local_seconds{day} + clock), rest);
}

void Diary::add_at(Instant at, const Json& line) {
  Json rest = line;
  Line begun{at, at + std::chrono::minutes(5)};
  if (const std::string written = taken_text(rest, "written"); !written.empty()) begun.written = moment_from(written, zone_);
  begun.author = taken_text(rest, "by", "Team Otter");
  begun.name = taken_text(rest, "called");
  begun.corrects = taken_text(rest, "corrects");
  std::string kit;
  if (rest.contains("undo")) {
    begun.undoes = taken_text(rest, "undo");
    begun.kind = "undo";
    if (!rest.empty()) throw Refused("undo takes nothing beside it: " + line.dump());
    lines_.push_back(std::move(begun));
  } else if (std::ranges::any_of(rest.items(), [&](const auto& item) { return find_test(item.key(), kit) != nullptr; })) {
    add_readings(begun, rest);
  } else {
    lines_.push_back(event(std::move(begun), std::move(rest)));
  }
}

const records::KitTest* Diary::find_test(const std::string& key, std::string& kit) const {
  for (const records::Kit& k : kits_)
    if (const auto* test = records::find_test(k, key)) {
      kit = k.key;
      return test;
    }
  return nullptr;
}

/// Tests of one sitting, and the temperature read beside them.
void Diary::add_readings(const Line& begun, const Json& rest) {
  Json sitting = rest;
  const std::string team = taken_text(sitting, "team");
  for (const auto& [key, value] : sitting.items()) {
    Line line = begun;
    std::string kit;
    if (const auto* test = find_test(key, kit)) {
      line.kind = "reading";
      line.body = reading_body(kit, *test, value);
      if (!team.empty()) line.body["team"] = team;
    } else if (key == "temperature") {
      line.kind = "temperature";
      line.body = {{"temperature_c", value}};
    } else {
      throw Refused("no kit has a test \"" + key + "\"");
    }
    lines_.push_back(std::move(line));
  }
}

Diary::Line Diary::event(Line line, Json rest) const {
  for (const Event& e : events) {
    const auto found = rest.find(e.word);
    if (found == rest.end()) continue;
    const Json value = *found;
    rest.erase(e.word);
    line.kind = e.kind;
    line.body = std::move(rest);
    line.body[e.field] = value;
    return line;
  }
  for (const auto& [key, value] : rest.items()) {
    if (is_one_of(counted, key)) {
      line.kind = "count";
      line.body = {{"what", key}, {"count", value}};
    } else if (is_one_of(equipment, key)) {
      line.kind = "equipment";
      line.body = {{"equipment", key}, {"event", value}};
    } else if (key == "seen" || key == "not_seen") {
      line.kind = "milestone";
      line.body = {{"milestone", value}, {"seen", key == "seen"}};
    } else if (key == "room") {
      line.kind = "temperature";
      line.body = {{"temperature_c", value}, {"place", "room"}};
    } else {
      continue;
    }
    if (rest.size() > 1) throw Refused("\"" + key + "\" stands alone on its line: " + rest.dump());
    return line;
  }
  throw Refused("no kind of entry is known by these words: " + rest.dump());
}

void Diary::end_at(Instant until) {
  std::erase_if(lines_, [&](const Line& line) { return line.at > until; });
}

void Diary::trust() {
  for (Line& line : lines_) line.trusted = true;
}

std::vector<records::Record> Diary::records() const {
  std::vector<Line> lines = lines_;
  std::ranges::stable_sort(lines, {}, &Line::written);
  std::map<std::string, records::RecordId> named;
  std::vector<records::Record> log;
  for (Line& line : lines) {
    const auto named_record = [&](const std::string& name) {
      const auto found = named.find(name);
      if (found == named.end()) throw Refused("nothing before it is called \"" + name + "\"");
      return found->second;
    };
    if (!line.undoes.empty()) line.body = {{"target", named_record(line.undoes)}};
    const std::string where = line.kind + " on " + rfc3339_local(zone_, line.at) + ": ";
    auto body = wire::body_from_json(line.kind, line.body.dump());
    if (!body) throw Refused(where + body.problems().front().field + " " + body.problems().front().sentence);
    records::Record record{static_cast<records::RecordId>(log.size() + 1), line.written, {line.at, line.author, std::nullopt, std::nullopt, *body}};
    if (!line.corrects.empty()) record.entry.supersedes = named_record(line.corrects);
    if (const auto problems = line.trusted ? Problems{} : records::problems_of(record.entry, log, zone_, record.logged_at); !problems.empty())
      throw Refused(where + problems.front().sentence);
    if (!line.name.empty()) named[line.name] = record.id;
    log.push_back(std::move(record));
  }
  return log;
}

}  // namespace redd::scenarios
