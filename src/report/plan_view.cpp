#include "report/plan_view.h"

#include <algorithm>
#include <cmath>

#include "report/wrapped.h"

namespace redd::report {
namespace {

using planning::PlanAnswer;
using planning::SeasonPlan;
using season::changes_worth_a_word;
using wire::Json;

constexpr std::string_view stage_names[] = {"Half hatched", "Half swum up", "Size of release"};
constexpr std::string_view stage_keys[] = {"hatch", "swim_up", "release_size"};

struct Named {
  const char* key;
  const char* name;
  const PlanAnswer& answer;
};
std::array<Named, 3> named_plans(const planning::PlanAlternatives& all) {
  return {{{"best", "Best plan", all.best}, {"calmest", "Fewest changes", all.calmest}, {"keep", "As it is now", all.keep}}};
}

std::string window_text(const planning::MilestoneWindow& m, const Reader& reader) {
  const auto day = [&](biology::CalendarMoment at) { return short_date_text(biology::day_of(at), reader); };
  if (m.already_probability > 0.95) return say(reader, "passed already");
  if (m.probability_by_end < 0.05) return say(reader, "not within the days planned");
  if (m.lot.open_ended) return say(reader, "not before {0}, perhaps after the last day planned", day(m.lot.low_90));
  const auto span = [&](biology::CalendarMoment from, biology::CalendarMoment to) { return date_span_text(biology::day_of(from), biology::day_of(to), reader); };
  return say(reader, "{0}, most likely {1} (nine chances in ten: {2})", span(m.lot.low_50, m.lot.high_50), day(m.lot.median), span(m.lot.low_90, m.lot.high_90));
}

Json obstacles_json(const std::vector<planning::PlanObstacle>& obstacles, const Reader& reader) {
  Json out = Json::array();
  for (const auto& each : obstacles) out.push_back({{"code", each.code}, {"sentence", text_of(each.sentence, reader)}});
  return out;
}

std::string change_text(const planning::SetPointChange& change, const Reader& reader) {
  if (change.spread_over >= Days(1.0 / 24.0))
    return say(reader, "From {0} set {1} instead of {2}, spread over {3} at least.", {change.day, change.to, change.from, change.spread_over});
  return say(reader, "From {0} set {1} instead of {2}.", {change.day, change.to, change.from});
}

struct Outlook {
  std::string sentence;  ///< when the stages ahead come
  std::string detail;    ///< how sure that is
};
Outlook outlook(const SeasonPlan& plan, const Reader& reader) {
  const auto day = [&](biology::CalendarMoment at) { return short_date_text(biology::day_of(at), reader); };
  const auto join = [](std::string& to, const std::string& words) { to = to.empty() ? capitalised(words) : to + ", " + words; };
  Outlook out;
  for (const auto& m : plan.milestones) {
    if (m.already_probability > 0.95) continue;
    const std::string name = m.stage == planning::PlanStage::hatch ? "hatch" : m.stage == planning::PlanStage::swim_up ? "first feeding" : "size of release";
    if (m.probability_by_end < 0.05) join(out.sentence, say(reader, "{0} not within the days planned", name));
    else if (m.lot.open_ended) join(out.sentence, say(reader, "{0} not before {1}", name, day(m.lot.low_90)));
    else {
      join(out.sentence, say(reader, "{0} around {1}", name, day(m.lot.median)));
      join(out.detail, say(reader, "{0} {1}", name, date_span_text(biology::day_of(m.lot.low_50), biology::day_of(m.lot.high_50), reader)));
    }
  }
  if (out.sentence.empty()) return {say(reader, "Hatch and swim-up have passed."), ""};
  out.sentence += ".";
  if (!out.detail.empty()) out.detail = say(reader, "{0}: as likely as not within these days.", out.detail);
  return out;
}

Json plan_row(const PlanAnswer& answer, const Reader& reader) {
  Json out{{"obstacles", obstacles_json(answer.obstacles, reader)}};
  for (const char* key : {"days", "c", "changes", "wishes", "milestones"}) out[key] = Json::array();
  out["possible"] = answer.plan.has_value();
  out["sentence"] = answer.plan ? outlook(*answer.plan, reader).sentence : "";
  out["detail"] = answer.plan ? outlook(*answer.plan, reader).detail : "";
  if (!answer.plan) return out;
  const SeasonPlan& plan = *answer.plan;
  for (std::size_t d = 0; d < plan.days.size(); ++d) {
    out["days"].push_back(iso_from_date(plan.days[d]));
    out["c"].push_back(plan.set_points[d].c());
  }
  for (const auto& change : changes_worth_a_word(plan))
    out["changes"].push_back({{"day", iso_from_date(change.day)}, {"from_c", change.from.c()}, {"to_c", change.to.c()}, {"text", change_text(change, reader)}});
  for (const auto& wish : plan.score.wishes)
    out["wishes"].push_back({{"key", wish.key}, {"name", text_of(wish.name, reader)}, {"probability", wish.probability}, {"over", wish.over},
                             {"probability_text", wish.over ? say(reader, "past") : chance_text(wish.probability, reader)}});
  for (const auto& m : plan.milestones) {
    const auto stage = static_cast<std::size_t>(m.stage);
    const auto day = [](biology::CalendarMoment at) { return iso_from_date(biology::day_of(at)); };
    out["milestones"].push_back({{"key", stage_keys[stage]}, {"name", say(reader, stage_names[stage])}, {"mid", day(m.lot.median)},
                                 {"window50", {{"from", day(m.lot.low_50)}, {"to", day(m.lot.high_50)}}}, {"window90", {{"from", day(m.lot.low_90)}, {"to", day(m.lot.high_90)}}},
                                 {"happened", m.already_probability > 0.95}, {"probability_by_end", m.probability_by_end}, {"text", window_text(m, reader)}});
  }
  out["score"] = plan.score.score;
  out["kwh"] = plan.score.kwh;
  out["kwh_text"] = plan.score.kwh > 0 ? say(reader, "{0}", {Measured{plan.score.kwh, "kWh"}}) : "";
  out["gap"] = plan.gap_bound ? Json(*plan.gap_bound) : Json(nullptr);
  return out;
}

std::string chill_text(const planning::ChillPlan& chill, const Reader& reader) {
  return text_of({"Keep the filter warm until {0}, then cool a little each day: {1} is reached on {2}. Beginning later than {3} would be too late.",
                  {chill.start, chill.set_points.back(), chill.settled, chill.latest_start}}, reader);
}

struct NextStep {
  std::string sentence;
  std::optional<Date> day;        ///< when to set the controller
  std::optional<Temperature> to;  ///< to what; nothing while there is nothing to set
};

/// The one thing to do next to follow this plan.
NextStep next_step(const season::PlanView& view, const SeasonPlan& plan, const Reader& reader) {
  const auto set = [&](Date day, Temperature to) { return NextStep{text_of({"Set the controller to {0} on {1}.", {to, day}}, reader), day, to}; };
  if (const auto& chill = view.plan.chill) {
    if (view.first_planned < chill->start) return {text_of({"Keep the filter warm until {0}, then cool it a little each day.", {chill->start}}, reader), {}, {}};
    for (std::size_t d = 0; d < chill->days.size(); ++d)
      if (chill->days[d] >= view.first_planned) return set(chill->days[d], chill->set_points[d]);
  }
  if (!view.belief.brood.start) return {text_of({"Have the water at {0} when the eggs come on {1}.", {plan.set_points.front(), plan.days.front()}}, reader), {}, {}};
  const auto changes = changes_worth_a_word(plan);
  if (changes.empty()) return {text_of({"Leave the controller at {0}.", {plan.set_points.front()}}, reader), {}, {}};
  return set(changes.front().day, changes.front().to);
}

Json plan_row(const PlanAnswer& answer, const season::PlanView& view, const Reader& reader) {
  Json row = plan_row(answer, reader);
  row["next"] = nullptr;
  if (!answer.plan) return row;
  const NextStep next = next_step(view, *answer.plan, reader);
  row["next"] = {{"sentence", next.sentence}, {"day", next.day ? Json(iso_from_date(*next.day)) : Json(nullptr)}, {"c", next.to ? Json(next.to->c()) : Json(nullptr)}};
  return row;
}

std::string headline(const season::PlanView& view, const Reader& reader) {
  if (view.plan.chill) return chill_text(*view.plan.chill, reader);  // eggs are still to come
  const PlanAnswer& best = view.plan.alternatives.best;
  if (!best.plan) return best.obstacles.empty() ? say(reader, "No plan can be made.") : text_of(best.obstacles.front().sentence, reader);
  const auto changes = changes_worth_a_word(*best.plan);
  if (changes.empty()) return text_of({"Leave the set-point at {0}: no change serves your wishes better.", {best.plan->set_points.front()}}, reader);
  return change_text(changes.front(), reader);
}

std::vector<std::string> conflict_sentences(const season::PlanView& view, const Reader& reader) {
  std::vector<std::string> out;
  for (const auto& each : view.plan.conflicts.out_of_reach) out.push_back(text_of(each.sentence, reader));
  for (const auto& each : view.plan.conflicts.collisions) out.push_back(text_of(each.sentence, reader));
  for (const auto& each : view.plan.conflicts.obstacles) out.push_back(text_of(each.sentence, reader));
  return out;
}

/// Closed days in a row, by the name of the closure among them. A season of more than 500 days is cut.
Json closed_json(const season::PlanView& view, Date last, const Reader& reader) {
  Json out = Json::array();
  constexpr int most = 500;
  Date day = view.season.first_day;
  for (int i = 0; i < most && day <= last; ++i, day += std::chrono::days(1)) {
    if (view.calendar.is_open(day)) continue;
    const auto closure = view.calendar.closure_on(day);
    const std::string iso = iso_from_date(day);
    const bool joins = !out.empty() && *date_from_iso(out.back()["to"].get<std::string>()) == day - std::chrono::days(1);
    if (!joins) out.push_back({{"from", iso}, {"to", iso}, {"name", ""}});
    out.back()["to"] = iso;
    if (closure && out.back()["name"] == "") out.back()["name"] = closure->name;
  }
  for (Json& run : out) {
    run["weekend"] = run["name"] == "";
    if (run["name"] == "") run["name"] = say(reader, "weekend");
  }
  return out;
}

Json date_or_null(std::optional<Date> day) { return day ? Json(iso_from_date(*day)) : Json(nullptr); }

}  // namespace

Json tried_plan_json(const PlanAnswer& answer, const season::PlanView& view, const Reader& given) {
  Reader reader = given;
  reader.zone = view.zone;
  return plan_row(answer, view, reader);
}

Json plan_json(const season::PlanView& view, const Reader& given) {
  Reader reader = given;
  reader.zone = view.zone;
  const auto& question = view.plan.asked.question;
  Json out{{"sentence", headline(view, reader)}, {"plans", Json::array()}, {"assumed", Json::array()}, {"cautions", Json::array()}, {"conflicts", Json::array()}, {"closures", Json::array()}};
  out["from"] = question.days.empty() ? Json(nullptr) : Json(iso_from_date(question.days.front().day));
  out["to"] = question.days.empty() ? Json(nullptr) : Json(iso_from_date(question.days.back().day));
  out["holdable"] = Json::array();
  for (const auto& d : question.days) out["holdable"].push_back({{"day", iso_from_date(d.day)}, {"coldest_c", d.coldest.c()}, {"warmest_c", d.warmest.c()}});
  for (const Named& named : named_plans(view.plan.alternatives)) {
    Json row = plan_row(named.answer, view, reader);
    row["key"] = named.key;
    row["name"] = say(reader, named.name);
    out["plans"].push_back(std::move(row));
  }
  for (const Sentence& s : view.plan.asked.assumed) out["assumed"].push_back(text_of(s, reader));
  for (const Sentence& s : view.plan.cautions) out["cautions"].push_back(text_of(s, reader));
  for (std::string& s : conflict_sentences(view, reader)) out["conflicts"].push_back(std::move(s));
  for (const auto& closure : view.calendar.closures())
    out["closures"].push_back({{"from", iso_from_date(closure.from)}, {"to", iso_from_date(records::last_day_of(closure))}, {"name", closure.name}});
  out["closed"] = closed_json(view, std::max(question.days.empty() ? view.season.first_day : question.days.back().day, view.season.release_until.value_or(Date{})), reader);
  out["egg_day"] = date_or_null(view.season.egg_day);
  out["eggs_in_tank"] = view.belief.brood.start.has_value();
  out["release"] = {{"from", date_or_null(view.season.release_from)}, {"until", date_or_null(view.season.release_until)}, {"permit", view.season.permit.value_or("")}};
  out["chill"] = nullptr;
  if (view.plan.chill) {
    out["chill"] = {{"sentence", chill_text(*view.plan.chill, reader)}, {"start", iso_from_date(view.plan.chill->start)},
                    {"latest_start", iso_from_date(view.plan.chill->latest_start)}, {"settled", iso_from_date(view.plan.chill->settled)}};
    for (std::size_t d = 0; d < view.plan.chill->days.size(); ++d)
      out["chill"]["set_points"].push_back({{"day", iso_from_date(view.plan.chill->days[d])}, {"c", view.plan.chill->set_points[d].c()}});
  }
  out["chill_obstacles"] = obstacles_json(view.plan.chill_obstacles, reader);
  out["since_last_week"] = nullptr;
  if (view.plan.since_last_week) {
    Json what = Json::array(), why = Json::array();
    for (const Sentence& s : view.plan.since_last_week->what) what.push_back(text_of(s, reader));
    for (const Sentence& s : view.plan.since_last_week->why) why.push_back(text_of(s, reader));
    out["since_last_week"] = {{"same", view.plan.since_last_week->same}, {"what", what}, {"why", why}};
  }
  return out;
}

std::string plan_text(const season::PlanView& view, const Reader& given, int width) {
  Reader reader = given;
  reader.zone = view.zone;
  std::string out = wrapped(headline(view, reader), width, "", "");
  for (const auto& obstacle : view.plan.chill_obstacles) out += wrapped(text_of(obstacle.sentence, reader), width, "", "");
  for (const Sentence& caution : view.plan.cautions) out += wrapped(text_of(caution, reader), width, "", "");
  for (const Named& named : named_plans(view.plan.alternatives)) {
    out += "\n" + say(reader, named.name) + "\n";
    for (const auto& obstacle : named.answer.obstacles) out += wrapped(text_of(obstacle.sentence, reader), width, "  " + say(reader, "not possible") + ": ", "    ");
    if (!named.answer.plan) continue;
    const SeasonPlan& plan = *named.answer.plan;
    const auto changes = changes_worth_a_word(plan);
    if (changes.empty()) out += "  " + say(reader, "{0} throughout", {plan.set_points.front()}) + "\n";
    for (const auto& change : changes) out += wrapped(change_text(change, reader), width, "  ", "    ");
    for (const auto& m : plan.milestones) out += wrapped(window_text(m, reader), width, "  " + say(reader, stage_names[static_cast<std::size_t>(m.stage)]) + ": ", "    ");
    for (const auto& wish : plan.score.wishes) out += wrapped(text_of(wish.name, reader) + ": " + (wish.over ? say(reader, "past") : chance_text(wish.probability, reader)), width, "  ", "    ");
    if (plan.score.kwh > 0) out += "  " + say(reader, "Electricity: {0} kWh", two_digits(plan.score.kwh)) + "\n";
  }
  const auto section = [&](const char* title, const std::vector<std::string>& sentences) {
    if (sentences.empty()) return;
    out += "\n" + say(reader, title) + "\n";
    for (const std::string& each : sentences) out += wrapped(each, width, "  - ", "    ");
  };
  section("What stands in the way:", conflict_sentences(view, reader));
  const auto texts = [&](const std::vector<Sentence>& sentences) {
    std::vector<std::string> result;
    for (const Sentence& s : sentences) result.push_back(text_of(s, reader));
    return result;
  };
  if (view.plan.since_last_week && !view.plan.since_last_week->same) {
    section("Since last week:", texts(view.plan.since_last_week->what));
    section("Because:", texts(view.plan.since_last_week->why));
  }
  section("Taken for granted:", texts(view.plan.asked.assumed));
  out += "\n" + wrapped(say(reader, "Change the set-point in small steps and watch the animals. Permit and supplier come before any plan."), width, "", "");
  return out;
}

}  // namespace redd::report
