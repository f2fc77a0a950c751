// Tasks about temperature, animals, days and water in the tank.

#include <algorithm>
#include <cmath>

#include "inference/water_belief.h"
#include "lessons/detail/degrees.h"
#include "lessons/detail/rounded.h"
#include "lessons/worksheet.h"

namespace redd::lessons {
namespace {

using detail::Degrees;
using detail::rounded;
using records::Quantity;
using std::chrono::days;

/// Days in a row among those read lately, from a day that chance picks; fewer when there are fewer.
std::vector<DayTemperature> some_days(Making m, std::size_t wanted) {
  auto read = read_temperatures(m.data);
  std::erase_if(read, [&](const DayTemperature& d) { return d.day < m.data.today() - days(27); });
  if (read.size() <= wanted) return read;
  const auto from = m.chance.index_below(static_cast<std::uint32_t>(read.size() - wanted + 1));
  return {read.begin() + from, read.begin() + from + static_cast<std::ptrdiff_t>(wanted)};
}

void add_table(Task& task, const std::vector<DayTemperature>& rows, Degrees degrees) {
  task.label_head = "Day";
  task.value_head = "Temperature";
  for (const auto& row : rows) task.rows.push_back({row.day, Exact{row.mean, 1, degrees.unit()}});
}

Made too_few_days() { return {{}, {"Temperature tasks: the tank must have been read on three days of the last four weeks."}}; }

}  // namespace

Made warmest_task(Making m) {
  const auto rows = some_days(m, m.older() ? 7 : 5);
  if (rows.size() < 3) return too_few_days();
  const auto [cold, warm] = std::ranges::minmax_element(rows, {}, &DayTemperature::mean);
  const Degrees degrees{m.data.us_units};
  const auto shown = [&](double value) { return Exact{value, 1, degrees.unit()}; };
  Task task{.key = "warmest", .title = "Warm and cold"};
  add_table(task, rows, degrees);
  const double apart = rounded(warm->mean - cold->mean, 1);
  if (!m.older()) {
    task.text = {"Look at the table. Which number is the biggest? Which is the smallest? How far apart are they?"};
    task.answer = {"Biggest {0}, smallest {1}, {2} apart.", {shown(warm->mean), shown(cold->mean), shown(apart)}};
    return {std::move(task), {}};
  }
  task.text = degrees.f ? Sentence{"Find the warmest and the coldest reading. How far apart are they in °F, and how far in °C? A difference of 1.8 °F is a difference of 1 °C."}
                        : Sentence{"Find the warmest and the coldest reading. How far apart are they in °C, and how far in °F? A difference of 1 °C is a difference of 1.8 °F."};
  const Exact other = degrees.f ? Exact{rounded(apart / 1.8, 1), 1, "°C"} : Exact{rounded(1.8 * apart, 1), 1, "°F"};
  task.answer = {"{0} and {1}; {2} apart, which is {3}.", {shown(warm->mean), shown(cold->mean), shown(apart), other}};
  return {std::move(task), {}};
}

namespace {

Task degree_days_older(const std::vector<DayTemperature>& rows, Degrees degrees) {
  Task task{.key = "degree_days", .title = "Adding up warmth"};
  double sum = 0.0;
  for (const auto& row : rows) sum += row.mean - degrees.frost();
  const Number count{static_cast<long long>(rows.size())};
  const double above = rounded(sum / static_cast<double>(rows.size()), 1);
  const Shown mean = Exact{degrees.frost() + above, 1, degrees.unit()};
  if (degrees.f) {
    task.text = {"Eggs grow by warmth above 32 °F. A day at 46 °F counts as 14 °F degree-days. Add up the {0} days of the table. What is their mean temperature, to one decimal?", {count}};
    task.answer = {"{0}; mean {1}.", {Exact{sum, 1, "°F degree-days"}, mean}};
    task.working = {"{0} / {1} = {2}; {2} + 32 = {3}", {Exact{sum, 1}, count, Exact{above, 1}, Exact{degrees.frost() + above, 1}}};
    return task;
  }
  task.text = {"Eggs grow by warmth. A day at 8 °C counts as 8 degree-days. Add up the {0} days of the table. What is their mean temperature, to one decimal?", {count}};
  task.answer = {"{0}; mean {1}.", {Exact{sum, 1, "degree-days"}, mean}};
  task.working = {"{0} / {1} = {2}", {Exact{sum, 1}, count, Exact{above, 1}}};
  return task;
}

Task degree_days_younger(const std::vector<DayTemperature>& rows, Degrees degrees) {
  Task task{.key = "degree_days", .title = "Adding up warmth"};
  double sum = 0.0;
  for (const auto& row : rows) sum += std::round(row.mean) - degrees.frost();
  task.text = degrees.f ? Sentence{"Eggs grow by warmth above 32 °F. Round each number to a whole number and take 32 away. Then add them all up. That is how many °F degree-days they got."}
                        : Sentence{"Eggs grow by warmth. Round each number to a whole number. Then add them all up. That is how many degree-days they got."};
  task.answer = {"{0}.", {Exact{sum, 0, degrees.f ? "°F degree-days" : "degree-days"}}};
  task.working = "A number that ends in .5 or more is rounded up.";
  return task;
}

}  // namespace

Made degree_days_task(Making m) {
  const auto rows = some_days(m, m.older() ? 6 : 3);
  if (rows.size() < 3) return too_few_days();
  const Degrees degrees{m.data.us_units};
  Task task = m.older() ? degree_days_older(rows, degrees) : degree_days_younger(rows, degrees);
  add_table(task, rows, degrees);
  return {std::move(task), {}};
}

Made survival_task(Making m) {
  const auto& a = m.data.counts.account;
  if (!m.data.counts.received_on || a.received <= 0) return {{}, {"Survival: no eggs have been received yet."}};
  const int left = a.received - a.dead();
  if (left < 0) return {{}, {"Survival: more dead are logged than eggs were received."}};
  const Number received{a.received}, dead{a.dead()}, living{left};
  Task task{.key = "survival", .title = "How many live?"};
  if (m.older()) {
    const double percent = rounded(100.0 * left / a.received, 1);
    constexpr int most_more = 6;
    if (left > most_more) {
      const int more = 2 + static_cast<int>(m.chance.index_below(most_more - 1));
      const double then = rounded(100.0 * (left - more) / a.received, 1);
      task.text = {"{0} eggs came. {1} dead have been found. What percentage was not found dead? What would it be after {2} more?", {received, dead, Number{more}}};
      task.answer = {"{0}; then {1}.", {Exact{percent, 1, "%"}, Exact{then, 1, "%"}}};
    } else {
      task.text = {"{0} eggs came. {1} dead have been found. What percentage was not found dead?", {received, dead}};
      task.answer = {"{0}.", {Exact{percent, 1, "%"}}};
    }
    task.working = {"{0} / {1} = {2}", {living, received, Exact{percent, 1, "%"}}};
  } else {
    task.text = {"{0} eggs came. {1} dead have been found. How many were not found dead?", {received, dead}};
    task.answer = {"{0}.", {living}};
    task.working = {"{0} - {1} = {2}", {received, dead, living}};
  }
  return {std::move(task), {}};
}

Made water_change_task(Making m) {
  constexpr double parts[] = {0.1, 0.2, 0.25, 0.3, 0.4};
  const bool us = m.data.us_units;
  const double tank = std::round(us ? m.data.season.volume.us_gallons() : m.data.season.volume.l());
  const double out = std::max(1.0, std::round(parts[m.chance.index_below(5)] * tank));
  if (tank < 2.0) return {{}, us ? Sentence{"Water change: the tank is too small for whole gallons."} : Sentence{"Water change: the tank is too small for whole litres."}};
  Task task{.key = "water_change", .title = "Changing water"};
  const auto amount = [&](double value) { return Exact{value, 0, us ? "US gal" : "L"}; };
  const Shown whole = amount(tank), changed = amount(out), stays = amount(tank - out);
  if (!m.older()) {
    task.text = {"The tank holds {0}. {1} are taken out and fresh water is poured in. How much of the old water is still in the tank?", {whole, changed}};
    task.answer = {"{0}.", {stays}};
    task.working = {"{0} - {1} = {2}", {whole, changed, stays}};
    return {std::move(task), {}};
  }
  const auto* nitrate = m.data.belief.find(Quantity::nitrate);
  if (!nitrate || nitrate->open_above) return {{}, {"Dilution after a water change: no nitrate reading that the card can show."}};
  const auto source = inference::source_water(m.data.records, std::nullopt);
  const double before = rounded(nitrate->value.mid * mass_per_mass_n(NitrogenBasis::no3), 1);
  const bool known = source && source->nitrate;
  const double fresh = known ? rounded(source->nitrate->mg_no3_per_l(), 1) : 0.0;
  const double after = rounded((before * (tank - out) + fresh * out) / tank, 1);
  const Shown c0 = Exact{before, 1, "mg/L"}, c1 = Exact{fresh, 1, "mg/L"};
  task.answer = {"About {0}.", {Exact{after, 1, "mg/L"}}};
  if (!known) {  // not nought for sure
    task.text = {"The tank holds {0} with about {1} of nitrate. {2} are changed for new water. Suppose the new water holds none. How much nitrate is in the tank afterwards?", {whole, c0, changed}};
    task.working = {"{0} x {1} / {2}", {Exact{before, 1}, Exact{tank - out, 0}, Exact{tank, 0}}};
    return {std::move(task), {}};
  }
  task.text = {"The tank holds {0} with about {1} of nitrate. {2} are changed for water with {3}. How much nitrate is in the tank afterwards?", {whole, c0, changed, c1}};
  task.working = {"({0} x {1} + {2} x {3}) / {4}", {Exact{before, 1}, Exact{tank - out, 0}, Exact{fresh, 1}, Exact{out, 0}, Exact{tank, 0}}};
  return {std::move(task), {}};
}

Made days_task(Making m) {
  Task task{.key = "days", .title = "Counting days"};
  if (m.older()) {
    const Date begin = m.data.season.first_day;
    const auto n = (m.data.today() - begin).count();
    if (n < 7) return {{}, {"Weeks of the season: it is less than a week old."}};
    task.text = {"The season began on {0}. Today is {1}. How many days is that, and how many weeks, to one decimal?", {begin, m.data.today()}};
    task.answer = {"{0} days, {1}.", {Number{n}, Exact{rounded(static_cast<double>(n) / 7.0, 1), 1, "weeks"}}};
    return {std::move(task), {}};
  }
  if (!m.data.counts.received_on) return {{}, {"Days with eggs: no eggs have been received yet."}};
  const Date came = *m.data.counts.received_on;
  const auto n = (m.data.today() - came).count();
  if (n < 1) return {{}, {"Days with eggs: they came today."}};
  task.text = {"The eggs came on {0}. Today is {1}. How many days have passed?", {came, m.data.today()}};
  task.answer = {"{0}.", {Number{n}}};
  task.working = "Count on from the day after they came, up to today.";
  return {std::move(task), {}};
}

}  // namespace redd::lessons
