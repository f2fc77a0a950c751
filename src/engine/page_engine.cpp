#include "engine/page_engine.h"

#include "desk/calc_json.h"
#include "desk/reader.h"
#include "desk/routes.h"
#include "desk/zone_json.h"
#include "engine/engine.h"
#include "quantities/verbatim.h"
#include "wire/codec.h"

namespace redd::engine {
namespace {

using wire::Json;

/// One of this object's lists, or an empty one.
const Json& list_in(const Json& object, const char* key) {
  static const Json none = Json::array();
  const auto found = object.find(key);
  return found != object.end() && found->is_array() ? *found : none;
}

/// What should be a list and is something else: taken for an empty one it would open a season without its records.
Problems problems_of_lists(const Json& object) {
  Problems problems;
  for (const char* key : {"kits", "records", "zones"})
    if (object.contains(key) && !object[key].is_array()) problems.push_back({"not_a_list", std::string("/") + key, said("\"{0}\" is a list.", verbatim(key))});
  return problems;
}

Problems learn_zones(const Json& question, desk::MemoryDesk& desk) {
  for (const Json& given : list_in(question, "zones")) {
    auto zone = desk::zone_from(given, "/zones");
    if (!zone) return zone.problems();
    desk.know_zone(std::move(zone).value());
  }
  return {};
}

Result<std::vector<records::Record>> records_in(const Json& question) {
  std::vector<records::Record> records;
  for (const Json& each : list_in(question, "records")) {
    auto record = wire::record_from_json(wire::printed(each));
    if (!record) return record.problems();
    records.push_back(std::move(record).value());
  }
  return records;
}

Result<std::size_t> restored(const Json& question, desk::MemoryDesk& desk) {
  if (Problems problems = learn_zones(question, desk); !problems.empty()) return problems;
  auto records = records_in(question);
  if (!records) return records.problems();
  return desk.restore(std::move(records).value());
}

Json not_open(const report::Reader& reader) { return desk::json_from_problems({{"not_open", "", "Ask \"open\" first."}}, reader); }

/// A refusal in the reader's words.
desk::Response worded(desk::Response response, const report::Reader& reader) {
  desk::word_problems(response, reader);
  return response;
}

Json api_json(const desk::Response& response) {
  Json answer{{"status", response.status}, {"type", response.content_type}, {"body", std::string(response.bytes())}};
  if (const auto allow = response.header("allow")) answer["allow"] = std::string(*allow);
  if (const auto disposition = response.header("content-disposition")) {
    const std::size_t from = disposition->find('"'), to = disposition->rfind('"');
    if (from < to) answer["file_name"] = std::string(disposition->substr(from + 1, to - from - 1));
  }
  return answer;
}

}  // namespace

Json PageEngine::opened(const Json& open) {
  if (!open.is_object()) return desk::json_from_problems({{"not_an_object", "/open", "\"open\" is an object."}}, reader_);
  if (Problems problems = problems_of_lists(open); !problems.empty()) return desk::json_from_problems(problems, reader_);
  std::vector<records::Kit> kits;
  for (const Json& each : list_in(open, "kits")) {
    auto body = wire::body_from_json("kit", wire::printed(each), "/open/kits");
    if (!body) return desk::json_from_problems(body.problems(), reader_);
    kits.push_back(std::get<records::Kit>(std::move(body).value()));
  }
  const auto day = open.find("opening_day");
  auto season = std::make_unique<Season>(std::move(kits), day != open.end() && day->is_string() ? date_from_iso(day->get<std::string>()) : std::nullopt);
  const auto count = restored(open, season->desk);
  if (!count) return desk::json_from_problems(count.problems(), reader_);
  season_ = std::move(season);
  return {{"opened", {{"records", *count}}}};
}

Json PageEngine::taken(const Json& take) {
  if (!season_) return not_open(reader_);
  if (!take.is_object()) return desk::json_from_problems({{"not_an_object", "/take", "\"take\" is an object."}}, reader_);
  if (Problems problems = problems_of_lists(take); !problems.empty()) return desk::json_from_problems(problems, reader_);
  const auto count = restored(take, season_->desk);
  if (!count) return desk::json_from_problems(count.problems(), reader_);
  return {{"taken", {{"records", season_->desk.look().value()->records.size()}}}};
}

Json PageEngine::asked(const Json& api) {
  if (!season_) return not_open(reader_);
  const auto now = api.is_object() ? desk::instant_in(api, "now") : std::nullopt;
  const auto text_of = [&](const char* key, const char* absent) { return api.is_object() && api.contains(key) && api[key].is_string() ? api[key].get<std::string>() : std::string(absent); };
  if (!now) return desk::json_from_problems({{"not_an_instant", "/api/now", "A question to the API carries \"now\", the present moment."}}, reader_);
  if (Problems problems = problems_of_lists(api); !problems.empty()) return desk::json_from_problems(problems, reader_);
  if (Problems problems = learn_zones(api, season_->desk); !problems.empty()) return desk::json_from_problems(problems, reader_);
  season_->desk.set_clock(*now);
  auto request = desk::request_from_target(text_of("method", "GET"), text_of("target", "/"));
  if (!request) return {{"api", api_json(worded(desk::refusal(400, request.problems()), reader_))}, {"added", Json::array()}};
  desk::Request bare = desk::without_reader(std::move(request).value());
  bare.headers = {{"content-type", "application/json"}};
  bare.body = text_of("body", "");
  auto response = desk::answer_by(desk::routes(), bare, season_->desk, &season_->filter, season_->plans, reader_);
  if (!response) response = desk::refusal(404, "not_in_this_edition", "", "This needs Redd's server: the edition in one file can't do it.");
  Json added = Json::array();
  for (const records::Record& record : season_->desk.added()) added.push_back(wire::parsed(wire::json_from_record(record)).value());
  return {{"api", api_json(worded(std::move(*response), reader_))}, {"added", std::move(added)}};
}

Json PageEngine::worked() {
  if (!season_) return not_open(reader_);
  return {{"work", {{"more", season_->filter.step()}}}};
}

std::string PageEngine::answer(std::string_view question_json) {
  const auto question = wire::parsed(question_json);
  if (question && question->is_object() && question->size() == 1u + question->contains("reader")) {
    reader_ = desk::reader_in(*question);
    for (const auto& [key, value] : question->items()) {
      if (key == "open") return wire::printed(opened(value));
      if (key == "take") return wire::printed(taken(value));
      if (key == "api") return wire::printed(asked(value));
      if (key == "work") return wire::printed(worked());
    }
  }
  return engine::answer(question_json);
}

}  // namespace redd::engine
