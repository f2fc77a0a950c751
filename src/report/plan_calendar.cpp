#include "report/plan_calendar.h"

#include <cmath>

namespace redd::report {
namespace {

constexpr int in_the_morning = -450;  // 07:30 of the day
/// Assumed: a plan is looked at again within two months; tests beyond are put in then.
constexpr int weeks_of_tests = 8;

class Writer {
 public:
  Writer(const season::PlanView& view, const Reader& reader) : view_(view), reader_(reader) {}

  void add(const std::string& what, Date day, std::optional<Date> last, std::string summary, std::string description, std::optional<int> alarm = {}) {
    const std::string season = view_.season.name + " " + iso_from_date(view_.season.first_day);
    IcsEvent event;
    event.uid = ics_uid(season, what);
    event.day = day;
    if (last && *last > day) event.last_day = last;
    event.summary = std::move(summary);
    event.description = std::move(description);
    event.alarm_minutes = alarm;
    events_.push_back(std::move(event));
  }

  void add_set_point(Date day, Temperature to, const std::string& how) {
    add("set point " + iso_from_date(day), day, {}, text_of({"Set the controller to {0}", {to}}, reader_), how, in_the_morning);
  }

  void add_chill() {
    if (!view_.plan.chill) return;
    const auto& chill = *view_.plan.chill;
    for (std::size_t d = 0; d < chill.days.size(); ++d) {
      const bool changes = d == 0 ? chill.start == chill.days[0] : std::abs((chill.set_points[d] - chill.set_points[d - 1]).c()) > 0.05;
      if (changes && chill.days[d] >= chill.start) add_set_point(chill.days[d], chill.set_points[d], "Chilling before the eggs come, a little each day.");
    }
  }

  void add_plan() {
    const auto& best = view_.plan.alternatives.best.plan;
    if (!best) return;
    for (const auto& change : best->changes) {
      if (std::abs((change.to - change.from).c()) < 0.3) continue;  // a thermometer's reading to the nearest set-point
      std::string how = text_of({"Instead of {0}.", {change.from}}, reader_);
      if (change.spread_over >= Days(1.0 / 24.0)) how += text_of({" Spread it over {0} at least.", {change.spread_over}}, reader_);
      add_set_point(change.day, change.to, how);
    }
    for (const auto& m : best->milestones) {
      if (m.stage == planning::PlanStage::release_size || m.already_probability > 0.95 || m.probability_by_end < 0.5) continue;
      const bool hatch = m.stage == planning::PlanStage::hatch;
      const Date from = biology::day_of(m.lot.low_90), to = biology::day_of(m.lot.high_90);
      add(hatch ? "hatch" : "swim-up", from, to, hatch ? "Hatch expected" : "First feeding expected",
          text_of({"Nine chances in ten between {0} and {1}, most likely {2}, for the middle animal. Look every school day.", {from, to, biology::day_of(m.lot.median)}}, reader_));
    }
  }

  void add_fixed_days() {
    if (view_.season.egg_day && *view_.season.egg_day >= local_day(view_.zone, view_.now))
      add("egg day", *view_.season.egg_day, {}, "Eggs come", text_of({"Water at {0}. Temper them for half an hour to an hour.", {view_.season.target}}, reader_), in_the_morning);
    if (view_.season.release_until)
      add("release window", view_.season.release_from.value_or(*view_.season.release_until), view_.season.release_until, "Release allowed",
          view_.season.permit.value_or("As the permit says."));
  }

  void add_tests() {
    Date day = local_day(view_.zone, view_.now);
    for (int week = 0; week < weeks_of_tests; ++week) {
      const auto open = view_.calendar.next_open_day(day);
      if (!open) return;
      add("test " + iso_from_date(*open), *open, {}, "Weekly water test", "Ammonia, nitrite, nitrate, pH, alkalinity, hardness; then look at today's page.", in_the_morning);
      day = std::max(day + std::chrono::days(7), *open + std::chrono::days(4));
    }
  }

  std::vector<IcsEvent> take() { return std::move(events_); }

 private:
  const season::PlanView& view_;
  const Reader& reader_;
  std::vector<IcsEvent> events_{};
};

}  // namespace

std::vector<IcsEvent> plan_events(const season::PlanView& view, const Reader& given) {
  Reader reader = given;
  reader.zone = view.zone;
  Writer writer(view, reader);
  writer.add_fixed_days();
  writer.add_chill();
  writer.add_plan();
  writer.add_tests();
  return writer.take();
}

std::string plan_ics(const season::PlanView& view, const Reader& reader) { return ics_text(plan_events(view, reader), view.season.name, view.now); }

}  // namespace redd::report
