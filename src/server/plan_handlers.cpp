// Handlers of the temperature plan.
#include <algorithm>

#include "report/plan_calendar.h"
#include "report/plan_view.h"
#include "server/handlers.h"
#include "wire/json.h"

namespace redd::server {
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

struct Change {
  Date day;
  double c;
};

/// {"changes": [{"day": "2031-02-01", "c": 7.5}, …]}, in any order; from each day on that temperature is set.
Result<std::vector<Change>> changes_from(const std::string& body, const planning::SeasonQuestion& question) {
  const auto tree = wire::parsed(body);
  if (!tree) return tree.problems();
  if (!tree->is_object() || !tree->contains("changes") || !(*tree)["changes"].is_array())
    return Problem{"not_an_object", "/changes", "Send {\"changes\": [{\"day\": \"2031-02-01\", \"c\": 7.5}]}: from each day on that temperature is set."};
  if ((*tree)["changes"].size() > 400) return Problem{"too_many", "/changes", "More than 400 changes are not tried at once."};
  std::vector<Change> changes;
  Problems problems;
  std::size_t i = 0;
  for (const Json& each : (*tree)["changes"]) {
    const std::string field = "/changes/" + std::to_string(i++);
    const std::string day_text = each.is_object() && each.contains("day") && each["day"].is_string() ? each["day"].get<std::string>() : "";
    Date day{};
    if (const auto read = date_from_iso(day_text)) day = *read;
    if (day == Date{}) problems.push_back({"not_a_day", field + "/day", "A day is written like 2031-02-14."});
    else if (question.days.empty() || day < question.days.front().day || day > question.days.back().day)
      problems.push_back({"out_of_range", field + "/day", "The plan runs from " + (question.days.empty() ? "" : iso_from_date(question.days.front().day)) + " to " +
                                                              (question.days.empty() ? "" : iso_from_date(question.days.back().day)) + "."});
    if (!each.is_object() || !each.contains("c") || !each["c"].is_number() || each["c"].get<double>() < -2.0 || each["c"].get<double>() > 45.0)
      problems.push_back({"out_of_range", field + "/c", "A temperature is a number from -2 to 45 °C."});
    if (problems.empty()) changes.push_back({day, each["c"].get<double>()});
  }
  if (!problems.empty()) return problems;
  std::ranges::stable_sort(changes, {}, &Change::day);
  return changes;
}

}  // namespace

Response plan(const Call& call) {
  const auto view = plan_of(call);
  if (!view) return refused(view.problems());
  return json_response(wire::printed(Json{{"plan", report::plan_json(**view)}}));
}

Response plan_calendar(const Call& call) {
  const auto view = plan_of(call);
  if (!view) return refused(view.problems());
  Response response;
  response.content_type = "text/calendar; charset=utf-8";
  response.headers.emplace_back("Content-Disposition", "attachment; filename=\"redd-plan.ics\"");
  response.body = report::plan_ics(**view);
  return response;
}

Response try_plan(const Call& call) {
  const auto view = plan_of(call);
  if (!view) return refused(view.problems());
  const planning::SeasonQuestion& question = (*view)->plan.asked.question;
  const auto changes = changes_from(call.request.body, question);
  if (!changes) return refused(changes.problems());
  const Temperature before = question.water_now.value_or((*view)->season.target);
  std::vector<Temperature> set_points(question.days.size(), before);
  for (std::size_t d = 0; d < set_points.size(); ++d)
    for (const Change& change : *changes)
      if (change.day <= question.days[d].day) set_points[d] = Temperature::from_c(change.c);
  const report::Reader reader{false, false, (*view)->zone};
  return json_response(wire::printed(Json{{"plan", report::tried_plan_json(planning::score_plan(question, set_points), reader)}}));
}

}  // namespace redd::server
