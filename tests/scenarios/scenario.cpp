#include "scenarios/scenario.h"

#include <algorithm>
#include <fstream>
#include <iterator>

#include "scenarios/diary.h"
#include "wire/codec.h"
#include "zones/zones.h"

namespace redd::scenarios {
namespace {

using wire::Json;

std::string text_of_file(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) throw Refused("there is no file " + path.string());
  return {std::istreambuf_iterator<char>(file), {}};
}

/// Reads a table of the file; whatever is left unread at the end is a word the format does not know.
class Table {
 public:
  Table(Json tree, std::string what) : tree_(std::move(tree)), what_(std::move(what)) {
    if (!tree_.is_object()) throw Refused(what_ + " is a table");
  }
  bool has(const char* key) const { return tree_.contains(key); }
  Json json(const char* key) {
    const auto found = tree_.find(key);
    if (found == tree_.end()) return nullptr;
    Json value = *found;
    tree_.erase(key);
    return value;
  }
  std::string text(const char* key) {
    const Json value = json(key);
    if (value.is_null()) return "";
    if (!value.is_string()) throw Refused(what_ + ": " + key + " is a text");
    return value.get<std::string>();
  }
  std::string needed_text(const char* key) {
    const std::string value = text(key);
    if (value.empty()) throw Refused(what_ + " needs \"" + key + "\"");
    return value;
  }
  bool truth(const char* key) {
    const Json value = json(key);
    if (!value.is_null() && !value.is_boolean()) throw Refused(what_ + ": " + key + " is true or false");
    return value.is_boolean() && value.get<bool>();
  }
  /// A text or a list of texts.
  std::vector<std::string> texts(const char* key) {
    const Json value = json(key);
    std::vector<std::string> list;
    for (const Json& item : value.is_array() ? value : value.is_null() ? Json::array() : Json::array({value})) {
      if (!item.is_string() || item.get<std::string>().empty()) throw Refused(what_ + ": " + key + " is a text or a list of texts");
      list.push_back(item.get<std::string>());
    }
    return list;
  }
  /// A table or a list of tables.
  std::vector<Json> tables(const char* key) {
    const Json value = json(key);
    if (value.is_null()) return {};
    return value.is_array() ? std::vector<Json>(value.begin(), value.end()) : std::vector<Json>{value};
  }
  void end() const {
    for (const auto& [key, value] : tree_.items()) throw Refused(what_ + " knows no \"" + key + "\"");
  }

 private:
  Json tree_;
  std::string what_;
};

bool has_only(const std::string& alternatives, std::initializer_list<const char*> known) {
  std::size_t from = 0;
  while (from <= alternatives.size()) {
    const std::size_t to = std::min(alternatives.find('|', from), alternatives.size());
    const std::string one = alternatives.substr(from, to - from);
    if (std::ranges::none_of(known, [&](const char* word) { return one == word; })) return false;
    from = to + 1;
  }
  return true;
}

void needs_words(const std::string& given, std::initializer_list<const char*> known, const char* what) {
  if (!given.empty() && !has_only(given, known)) throw Refused(std::string("\"") + given + "\" is no " + what);
}

void needs_tones(const std::string& given) { needs_words(given, {"good", "unknown", "watch", "act", "alarm"}, "tone"); }

Wanted wanted_from(const Json& json, const ZoneOffsets& zone) {
  Table table(json, "an expected action");
  Wanted wanted{table.text("rule"), table.text("tone"), table.text("aim"), table.text("deed"), table.texts("does"), table.texts("says"), table.text("when"), std::nullopt};
  if (const std::string by = table.text("by"); !by.empty()) wanted.by = moment_from(by, zone);
  table.end();
  needs_tones(wanted.tone);
  needs_words(wanted.aim, {"animals", "deadline", "lesson"}, "aim");
  needs_words(wanted.deed, {"test", "change_water", "dose", "clean_filter", "set_temperature", "feed", "feed_less", "count", "mend", "ask_for_help", "wait", "plan"}, "deed");
  if (wanted.text().empty()) throw Refused("an expected action must say something of it");
  return wanted;
}

std::vector<Wanted> all_wanted(const std::vector<Json>& list, const ZoneOffsets& zone) {
  std::vector<Wanted> all;
  for (const Json& one : list) all.push_back(wanted_from(one, zone));
  return all;
}

Ask ask_from(const Json& json, const ZoneOffsets& zone) {
  Table table(json, "ask");
  Ask ask;
  ask.at_text = table.needed_text("at");
  ask.at = moment_from(ask.at_text, zone);
  ask.outlook = table.truth("outlook");
  ask.headline = table.text("headline");
  ask.headline_not = table.text("headline_not");
  needs_tones(ask.headline);
  needs_tones(ask.headline_not);
  ask.top = all_wanted(table.tables("top"), zone);
  ask.also = all_wanted(table.tables("also"), zone);
  ask.never = all_wanted(table.tables("never"), zone);
  table.end();
  if (ask.top.empty()) throw Refused("each ask says what the top action is");
  return ask;
}

void add_log(Diary& diary, Table& table) {
  const Json log = table.json("log");
  if (log.is_null()) return;
  for (const Json& line : log) diary.add(line);
}

/// The season's set-up: those of the background, changed by the scenario's own.
Json set_up_of(const Json& background, const Json& own) {
  Json season{{"name", "Scenario (invented)"}, {"place", "An invented school"}, {"time_zone", "America/New_York"}, {"invented", true}};
  for (const Json* part : {&background, &own})
    if (part->is_object())
      for (const auto& [key, value] : part->items()) season[key] = value;
  return season;
}

}  // namespace

std::string Wanted::text() const {
  std::string all;
  const auto add = [&](const char* name, const std::string& value) {
    if (!value.empty()) all += (all.empty() ? "" : ", ") + std::string(name) + " \"" + value + "\"";
  };
  add("rule", rule);
  add("tone", tone);
  add("aim", aim);
  add("deed", deed);
  add("when", when);
  if (by) add("by", rfc3339_from_instant(*by));
  for (const std::string& text : does) add("does", text);
  for (const std::string& text : says) add("says", text);
  return all;
}

Scenario scenario_from_text(const std::string& text, const std::filesystem::path& backgrounds) {
  Table file(json_from_toml(text), "a scenario");
  Scenario scenario;
  scenario.name = file.needed_text("name");
  scenario.shows = file.needed_text("shows");
  scenario.source = file.needed_text("source");
  const std::string like = file.text("like"), until = file.text("until");
  if (like.empty() != until.empty()) throw Refused("\"like\" and \"until\" go together");
  Table background(like.empty() ? Json::object() : json_from_toml(text_of_file(backgrounds / (like + ".toml"))), "a background");
  const Json season = set_up_of(background.json("season"), file.json("season"));
  const auto read = wire::body_from_json("season_setup", season.dump());
  if (!read) throw Refused("season: " + read.problems().front().field + " " + read.problems().front().sentence);
  const auto& set_up = std::get<records::SeasonSetup>(*read);
  scenario.zone = zones::season_zone(set_up).value();

  Diary diary(scenario.zone);
  const Instant first = instant_of(scenario.zone, std::chrono::local_seconds{set_up.first_day} + std::chrono::hours(8));
  diary.set_up(season, first);
  for (const char* kit : {"drop_and_card", "meters"}) diary.add_kit(text_of_file(std::filesystem::path(REDD_SOURCE_DIR) / "data/kits" / (std::string(kit) + ".toml")), first);
  diary.add_kit(text_of_file(backgrounds / "chlorine_card.toml"), first);
  if (!like.empty()) {
    add_log(diary, background);
    background.end();
    diary.end_at(moment_from(until, scenario.zone));
    diary.trust();
  }
  add_log(diary, file);
  scenario.log = diary.records();
  for (const Json& ask : file.tables("ask")) scenario.asks.push_back(ask_from(ask, scenario.zone));
  if (scenario.asks.empty()) throw Refused("a scenario asks at least once: [[ask]]");
  file.end();
  return scenario;
}

Scenario read_scenario(const std::filesystem::path& file, const std::filesystem::path& backgrounds) {
  try {
    return scenario_from_text(text_of_file(file), backgrounds);
  } catch (const Refused& refused) {
    throw Refused(file.filename().string() + ": " + refused.what());
  }
}

}  // namespace redd::scenarios
