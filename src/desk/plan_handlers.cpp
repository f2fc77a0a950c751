// Handlers of the temperature plan.
#include <algorithm>
#include <array>

#include "desk/handlers.h"
#include "report/diary_view.h"
#include "report/plan_view.h"
#include "season/plan_trial.h"
#include "wire/json.h"

namespace redd::desk {
namespace {

using wire::Json;

Result<std::shared_ptr<const season::PlanView>> plan_of(const Call& call) {
  const auto look = call.desk.look();
  if (!look) return look.problems();
  if (!(*look)->season) return Problem{"no_season", "", "There is no season yet. Set one up first."};
  const auto now = call.desk.moment(**look, call.request.parameter("as_of"));
  if (!now) return now.problems();
  return call.plans.plan(*look, *now);
}

/// The season ahead, with a plan or with the reason why there is none.
Result<season::Diary> diary_for(const Call& call) {
  const auto view = plan_of(call);
  if (view) return (*view)->diary;
  const auto look = call.desk.look();
  if (!look) return look.problems();
  const auto now = call.desk.moment(**look, call.request.parameter("as_of"));
  if (!(*look)->season || !now) return view.problems();
  return season::look_at_diary({(*look)->zone}, (*look)->records, *now, view.problems().front().sentence);
}

Result<std::optional<Date>> day_parameter(const Request& request, std::string_view name) {
  const auto text = request.parameter(name);
  if (!text) return std::optional<Date>{};
  const auto day = date_from_iso(*text);
  if (!day) return Problem{"not_a_day", std::string(name), said("{0} is a day, written like 2031-02-14.", name)};
  return day;
}

/// A wall calendar of more days is no calendar of one season.
constexpr std::chrono::days longest_wall{400};

/// {"changes": [{"day": "2031-02-01", "c": 7.5}, …]}, in any order; from each day on that temperature is set.
void read_steps(const Json& changes, const planning::SeasonQuestion& question, season::PlanTrial& trial, Problems& problems) {
  if (!changes.is_array()) {
    problems.push_back({"not_a_list", "/changes", "Send {\"changes\": [{\"day\": \"2031-02-01\", \"c\": 7.5}]}: from each day on that temperature is set."});
    return;
  }
  if (changes.size() > 400) {
    problems.push_back({"too_many", "/changes", "More than 400 changes are not tried at once."});
    return;
  }
  std::vector<season::PlanTrial::Step> steps;
  std::size_t i = 0;
  for (const Json& each : changes) {
    const std::string field = "/changes/" + std::to_string(i++);
    const std::string day_text = each.is_object() && each.contains("day") && each["day"].is_string() ? each["day"].get<std::string>() : "";
    const auto day = date_from_iso(day_text);
    if (!day) problems.push_back({"not_a_day", field + "/day", "A day is written like 2031-02-14."});
    // With another egg day the planned days move too; what lies outside them then changes nothing.
    else if (!trial.egg_day && (question.days.empty() || *day < question.days.front().day || *day > question.days.back().day))
      problems.push_back({"out_of_range", field + "/day", said("The plan runs from {0} to {1}.", question.days.empty() ? "" : iso_from_date(question.days.front().day), question.days.empty() ? "" : iso_from_date(question.days.back().day))});
    if (!each.is_object() || !each.contains("c") || !each["c"].is_number() || each["c"].get<double>() < -2.0 || each["c"].get<double>() > 45.0)
      problems.push_back({"out_of_range", field + "/c", "A temperature is a number from -2 to 45 °C."});
    if (problems.empty()) steps.push_back({*day, Temperature::from_c(each["c"].get<double>())});
  }
  std::ranges::stable_sort(steps, {}, &season::PlanTrial::Step::day);
  trial.steps = std::move(steps);
}

Result<season::PlanTrial> trial_from(const std::string& body, const planning::SeasonQuestion& question) {
  const auto tree = wire::parsed(body);
  if (!tree) return tree.problems();
  season::PlanTrial trial;
  const std::array<std::pair<const char*, std::optional<Date>*>, 5> dates{{{"egg_day", &trial.egg_day}, {"hatch", &trial.hatch}, {"swim_up", &trial.swim_up},
                                                                           {"release_from", &trial.release_from}, {"release_until", &trial.release_until}}};
  Problems problems;
  bool asked = false;
  if (tree->is_object())
    for (const auto& [key, date] : dates) {
      if (!tree->contains(key)) continue;
      asked = true;
      const Json& text = (*tree)[key];
      if (text.is_string())
        if (const auto read = date_from_iso(text.get<std::string>())) *date = *read;
      if (!*date) problems.push_back({"not_a_day", std::string("/") + key, "A day is written like 2031-02-14."});
    }
  if (tree->is_object() && tree->contains("changes")) read_steps((*tree)["changes"], question, trial, problems);
  else if (!asked)
    problems.push_back({"not_an_object", "/changes", "Send what to move: {\"changes\": [{\"day\": \"2031-02-01\", \"c\": 7.5}]}, or a day such as {\"hatch\": \"2031-02-14\"}."});
  if (!problems.empty()) return problems;
  return trial;
}

}  // namespace

Response plan(const Call& call) {
  const auto view = plan_of(call);
  if (!view) return refused(view.problems());
  return json_response(wire::printed(Json{{"plan", report::plan_json(**view, call.reader)}}));
}

Response plan_ics(const Call& call) {
  const auto closures = whole_parameter(call.request, "closures", 0, 1, 0);
  if (!closures) return refused(closures.problems());
  const auto view = plan_of(call);
  if (!view) return refused(view.problems());
  const season::Diary& diary = (*view)->diary;
  Response response;
  response.content_type = "text/calendar; charset=utf-8";
  response.body = report::diary_ics(diary, diary.now, {*closures == 1, true}, in_zone(call.reader, (*view)->zone));
  response.headers.emplace_back("Content-Disposition", "attachment; filename=\"redd-plan.ics\"");
  return response;
}

Response wall(const Call& call) {
  const auto from = day_parameter(call.request, "from"), to = day_parameter(call.request, "to");
  if (!from) return refused(from.problems());
  if (!to) return refused(to.problems());
  const auto diary = diary_for(call);
  if (!diary) return refused(diary.problems());
  const std::chrono::year_month_day today(diary->today);
  const Date first = from->value_or(Date(std::chrono::local_days(today.year() / today.month() / 1)));
  const Date last = to->value_or(std::max(first, std::min(diary->last, first + longest_wall)));
  if (last < first) return refusal(422, "days_crossed", "to", said("The last day ({0}) is before the first ({1}).", iso_from_date(last), iso_from_date(first)));
  if (last - first > longest_wall) return refusal(422, "too_many", "to", "A wall calendar holds 400 days at most: ask for a shorter time.");
  return json_response(wire::printed(Json{{"wall", report::wall_json(*diary, first, last, call.reader)}}));
}

Response try_plan(const Call& call) {
  const auto view = plan_of(call);
  if (!view) return refused(view.problems());
  const auto trial = trial_from(call.request.body, (*view)->plan.asked.question);
  if (!trial) return refused(trial.problems());
  const auto answer = season::try_plan(**view, *trial);
  if (!answer) return refused(answer.problems());
  return json_response(wire::printed(Json{{"plan", report::tried_plan_json(*answer, **view, call.reader)}}));
}

}  // namespace redd::desk
