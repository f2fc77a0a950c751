// Handlers that only look.
#include <charconv>
#include <map>

#include "biology/species.h"
#include "calc/registry.h"
#include "desk/asked.h"
#include "desk/calc_json.h"
#include "desk/handlers.h"
#include "desk/pooled_question.h"
#include "desk/sitting_question.h"
#include "ledger/season_file.h"
#include "report/day_json.h"
#include "report/filter_view.h"
#include "report/record_text.h"
#include "report/wqx_csv.h"
#include "season/season.h"
#include "wire/codec.h"
#include "wire/json.h"

#ifndef REDD_VERSION
#define REDD_VERSION "0.1.0"
#endif

namespace redd::desk {
namespace {

using wire::Json;

Json story_json(const Look& look) {
  const auto story = story_of(look);
  if (!story) return nullptr;
  return {{"first_day", iso_from_date(story->first_day)},
          {"last_day", iso_from_date(story->last_day)},
          {"today", iso_from_date(story->today)}};
}

Problem no_season() {
  return {"no_season", "", "There is no season yet. Set one up first."};
}

std::string with_doubts(std::string day, const std::vector<Phrase>& doubts, const report::Reader& reader) {
  if (doubts.empty()) return day;
  auto tree = wire::parsed(day);
  require(tree.has_value(), "with_doubts", "a day is not JSON");
  for (const Phrase& doubt : doubts) tree.value()["gaps"].push_back(report::text_of(doubt, reader));
  return wire::printed(*tree);
}

FilterAnswer answer_of(const Call& call, const std::shared_ptr<const Look>& look, Instant now) {
  return call.filter ? call.filter->ask(look, now) : FilterAnswer{};
}

/// The day with what is known of the filter, which may be that it is still being worked out.
Result<season::DayView> day_with(const FilterAnswer& answer, const Look& look, Instant now) {
  auto view = season::look_at_day({look.zone}, look.records, now, answer.outlook.get());
  if (!view) return view;
  using enum FilterState;
  auto& progress = view.value().filter_progress;
  progress.done_fraction = answer.done_fraction;
  switch (answer.state) {
    case working: progress.state = season::FilterProgress::State::working; break;
    case cancelled: progress.state = season::FilterProgress::State::cancelled; break;
    case failed: progress.state = season::FilterProgress::State::failed; break;
    case absent:
    case ready: break;
  }
  return view;
}

Response filter_response(const Call& call, FilterAnswer (FilterDoor::*ask)(const std::shared_ptr<const Look>&, Instant)) {
  const auto look = call.desk.look();
  if (!look) return refused(look.problems());
  if (!(*look)->season) return refused({no_season()});
  const auto now = call.desk.moment(**look, call.request.parameter("as_of"));
  if (!now) return refused(now.problems());
  const auto view = day_with(call.filter ? (call.filter->*ask)(*look, *now) : FilterAnswer{}, **look, *now);
  if (!view) return refused(view.problems());
  return json_response(wire::printed(Json{{"filter", report::filter_json(*view, call.reader)}}));
}

Json kit_json(const records::Kit& kit) {
  auto tree = wire::parsed(wire::json_from_body(kit));
  require(tree.has_value(), "kit_json", "a kit is not JSON");
  return std::move(tree).value();
}

}  // namespace

Response season_state(const Call& call) {
  const auto look = call.desk.look();
  if (!look) return refused(look.problems());
  Json answer{{"state", (*look)->season ? "ready" : "empty"},
              {"invented", (*look)->invented()},
              {"story", story_json(**look)},
              {"version", REDD_VERSION}};
  return json_response(wire::printed(answer));
}

Response day(const Call& call) {
  const auto look = call.desk.look();
  if (!look) return refused(look.problems());
  if (!(*look)->season) return refused({no_season()});
  const auto as_of = call.request.parameter("as_of");
  const auto asked = call.desk.moment(**look, as_of);
  if (!asked) return refused(asked.problems());
  const Instant now = as_of ? *asked : minute_of(**look, *asked);
  const FilterAnswer filter = answer_of(call, *look, now);
  const auto text = call.plans.day({*look, now, filter, call.reader}, [&]() -> Result<std::string> {
    const auto view = day_with(filter, **look, now);
    if (!view) return view.problems();
    return report::day_json(*view, call.reader);
  });
  if (!text) return refused(text.problems());
  return json_response(with_doubts(*text, doubts_of(**look, call.desk.clock()), call.reader));
}

Response filter(const Call& call) { return filter_response(call, &FilterDoor::ask); }
Response cancel_filter(const Call& call) { return filter_response(call, &FilterDoor::cancel); }
Response start_filter(const Call& call) { return filter_response(call, &FilterDoor::start); }

Response history(const Call& call) {
  const auto look = call.desk.look();
  if (!look) return refused(look.problems());
  const auto limit = whole_parameter(call.request, "limit", 1, 1000, 200);
  if (!limit) return refused(limit.problems());
  const auto before = whole_parameter(call.request, "before_id", 1, 9'000'000'000'000'000, 0);
  if (!before) return refused(before.problems());
  if (!(*look)->season) return json_response("{\"records\":[],\"more\":false}");
  const auto now = call.desk.moment(**look, call.request.parameter("as_of"));
  if (!now) return refused(now.problems());
  const report::Reader reader = in_zone(call.reader, (*look)->zone);
  return json_response(report::history_json((*look)->records, reader, static_cast<int>(*limit), *before, *now));
}

Response kits(const Call& call) {
  const auto look = call.desk.look();
  if (!look) return refused(look.problems());
  Json answer{{"kits", Json::array()}, {"templates", Json::array()}};
  if ((*look)->season) {
    const auto now = call.desk.moment(**look, call.request.parameter("as_of"));
    if (!now) return refused(now.problems());
    for (const records::Kit& kit : kits_in_force(**look, *now)) answer["kits"].push_back(kit_json(kit));
  }
  for (const records::Kit& kit : call.desk.kit_templates()) answer["templates"].push_back(kit_json(kit));
  return json_response(wire::printed(answer));
}

Response kinds(const Call&) {
  return json_response(wire::json_schemas());
}

Response species(const Call& call) {
  Json list = Json::array();
  for (const biology::SpeciesProfile& each : biology::all_species()) {
    Json models = Json::object();
    for (const biology::Stage stage : biology::all_stages) {
      Json keys = Json::array();
      for (const std::string_view key : biology::model_keys(each, stage)) keys.push_back(std::string(key));
      models[std::string(biology::name_of(stage))] = keys;
    }
    list.push_back({{"key", std::string(each.key)},
                    {"name", report::say(call.reader, each.common_name)},
                    {"scientific_name", std::string(each.scientific_name)},
                    {"models", models}});
  }
  return json_response(wire::printed(Json{{"species", list}}));
}

Response calc_list(const Call& call) {
  Json list = Json::array();
  for (const calc::Formula& formula : calc::all_formulas()) list.push_back(json_from_formula(formula, call.reader));
  return json_response(wire::printed(Json{{"formulas", list}}));
}

Response calc_answer(const Call& call) {
  const auto answer = calc::evaluate(call.parts.at(0), call.request.query);
  if (!answer) return refused(answer.problems());
  return json_response(wire::printed(json_from_answer(*answer, call.reader)));
}

Response ask_bench(const Call& call) {
  const auto question = wire::parsed(call.request.body);
  if (!question) return refused(question.problems());
  if (!question->is_object() || question->size() != 1 || !(question->contains("bench_schedule") || question->contains("pooled_readings")))
    return refusal(422, "unknown_question", "", "Ask \"bench_schedule\" or \"pooled_readings\".");
  const wire::Json answer = question->contains("bench_schedule") ? sitting_asked(*question, call.reader) : pooled_asked(*question, call.reader);
  return json_response(wire::printed(answer), answer.contains("problems") ? 422 : 200);
}

Result<std::shared_ptr<const Look>> whole_season(const Call& call) {
  const auto look = call.desk.look();
  if (!look) return look.problems();
  if (!(*look)->season) return no_season();
  if (!(*look)->unreadable.empty()) return (*look)->unreadable.front().problems;
  return *look;
}

Response export_season(const Call& call) {
  const auto look = whole_season(call);
  if (!look) return refused(look.problems());
  Response response = json_response(ledger::season_file((*look)->records));
  response.headers.emplace_back("Content-Disposition", "attachment; filename=\"redd-season.json\"");
  return response;
}

Response water_quality_csv(const Call& call) {
  const auto asked = asked_of(call);
  if (!asked) return refused(asked.problems());
  const auto label = [&](std::string_view name) { return std::string(call.request.parameter(name).value_or("")); };
  Response response;
  response.content_type = "text/csv; charset=utf-8";
  response.body = report::wqx_csv(records::effective(asked->look->records, asked->now), {label("organization"), label("project"), label("location")});
  response.headers.emplace_back("Content-Disposition", "attachment; filename=\"redd-water-quality.csv\"");
  return response;
}

int status_of(const Problems& problems) {
  static const std::map<std::string, int, std::less<>> special{
      {"not_json", 400},           {"too_deep", 400},         {"not_an_object", 400},     {"unknown_formula", 404},
      {"no_season", 409},          {"entry_key_reused", 409}, {"second_season", 409},     {"another_season", 409},
      {"gone_apart", 409},          {"file_exists", 409},
      {"disk_full", 507},          {"locked", 503},           {"disk_error", 500},        {"damaged", 500},
      {"read_only", 500},          {"file_missing", 500},     {"not_a_season_file", 500}, {"newer_schema", 500},
      {"zone_files_missing", 500}, {"no_demo", 500}};
  for (const Problem& problem : problems)
    if (const auto found = special.find(problem.code); found != special.end()) return found->second;
  return 422;
}

report::Reader in_zone(report::Reader reader, const ZoneOffsets& zone) {
  reader.zone = zone;
  return reader;
}

Response refused(const Problems& problems) {
  return refusal(status_of(problems), problems);
}

Result<std::optional<double>> number_parameter(const Request& request, std::string_view name, double low, double high) {
  const auto text = request.parameter(name);
  if (!text) return std::optional<double>{};
  double value = 0;
  const char* end = text->data() + text->size();
  const auto read = std::from_chars(text->data(), end, value);
  if (read.ec != std::errc() || read.ptr != end || !(value >= low && value <= high))
    return Problem{"not_a_number", std::string(name),
                   said("{0} must be a number from {1} to {2}.", name, report::decimals(low, 0), report::decimals(high, 0))};
  return std::optional(value);
}

Result<long long> whole_parameter(const Request& request, std::string_view name, long long low, long long high,
                                  long long absent) {
  const auto text = request.parameter(name);
  if (!text) return absent;
  long long value = 0;
  const char* end = text->data() + text->size();
  const auto read = std::from_chars(text->data(), end, value);
  if (read.ec != std::errc() || read.ptr != end || value < low || value > high)
    return Problem{"not_a_whole_number", std::string(name),
                   said("{0} must be a whole number from {1} to {2}.", name, low, high)};
  return value;
}

}  // namespace redd::desk
