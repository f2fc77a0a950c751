#include "report/feed_words.h"

#include <algorithm>
#include <cmath>

#include "advice/feed_holds.h"
#include "quantities/verbatim.h"

namespace redd::report {
namespace {

using planning::FeedPlan;
using planning::FeedStage;

std::string short_window(const biology::MomentWindow& w, const Reader& reader) {
  const auto span = [&](biology::CalendarMoment from, biology::CalendarMoment to) { return date_span_text(biology::day_of(from), biology::day_of(to), reader); };
  const std::string wide = w.open_ended ? say(reader, "{0} to {1}", short_date_text(biology::day_of(w.low_90), reader), say(reader, "later")) : span(w.low_90, w.high_90);
  return say(reader, "{0} (nine chances in ten: {1})", span(w.low_50, w.high_50), wide);
}

/// "0.12 to 0.18 g"; one figure when both round alike.
std::string grams_text(Mass low, Mass high, const Reader& reader) {
  const std::string from = two_digits(low.g()), to = two_digits(high.g());
  return from == to ? say(reader, "about {0} g", to) : say(reader, "{0} to {1} g", from, to);
}

std::string fish_count(double count) { return two_digits(std::round(count)); }

/// Spoons to a quarter, and to a half from two on: no hand levels finer.
std::string spoons_text(double spoons, const Reader& reader) {
  const double step = spoons < 2.0 ? 0.25 : 0.5, rounded = std::max(step, std::round(spoons / step) * step);
  const std::string number = decimals(rounded, rounded == std::floor(rounded) ? 0 : std::fmod(rounded, 0.5) == 0.0 ? 1 : 2);
  return say(reader, "{0, plural, one {# level spoon} other {# level spoons}}", number);
}

}  // namespace

FeedHeadline feed_headline(const season::FeedLook& look, const Reader& reader) {
  if (look.animals == inference::Animals::released) return {say(reader, "The fish have been released: nothing is left to feed."), ""};
  if (!look.plan) return {say(reader, "There is nothing to feed, or its dates are not known."), say(reader, "Log the eggs with what the hatchery says of their age; the species must be one that is known.")};
  const FeedPlan& plan = *look.plan;
  if (plan.overfed) return {say(reader, "Siphon the uneaten food out now."), overfed_texts(*plan.overfed, reader).front()};
  if (plan.stage < FeedStage::pinch) {
    const std::string when = text_of({"First food around {0}.", {biology::day_of(plan.swim_up.median)}}, reader);
    return {plan.stage == FeedStage::near ? say(reader, "Not yet: have food and feeders ready. {0}", when) : say(reader, "Nothing to feed yet. {0}", when), say(reader, "Half should swim up from {0}.", short_window(plan.swim_up, reader))};
  }
  const double share = look.today_share;
  if (share <= 0.0) return {say(reader, "Do not feed now."), text_of(look.holds.front().why, reader)};
  const auto& today = *plan.today_ration;
  if (plan.stage == FeedStage::pinch) return {say(reader, "Offer a pinch of food and see who takes it."), text_of({"About {0} have swum up; routine feeding begins when nine in ten have.", {Share{plan.swum_up_fraction.mid}}}, reader)};
  const std::string sentence = say(reader, share < 1.0 ? "Feed half today: {0}." : "Today: {0}.", ration_text(today, share, reader));
  const bool fed = plan.last_fed && local_day(look.zone, *plan.last_fed) == plan.today;
  constexpr double over = 1.25;  // Assumed: within a quarter is how well a spoon measures
  if (fed && plan.fed_today.g() > over * share * today.planned.g())
    return {say(reader, "Enough for today: {0} logged, planned was {1}.", {plan.fed_today, Word{ration_text(today, share, reader)}}), say(reader, "No more food today; siphon out what lies on the bottom, and test ammonia tomorrow.")};
  if (fed) return {sentence, text_of({"Logged so far today: {0}.", {plan.fed_today}}, reader)};
  return {sentence, say(reader, "Nothing is logged for today yet.")};
}

std::vector<std::string> start_texts(const FeedPlan& plan, const Reader& reader) {
  std::vector<std::string> out;
  if (plan.since) out.push_back(text_of({"Food was due, or given, from {0} on.", {*plan.since}}, reader));
  else out.push_back(say(reader, "Half should swim up from {0}, most likely {1}.", short_window(plan.swim_up, reader), short_date_text(biology::day_of(plan.swim_up.median), reader)));
  if (plan.counted) out.push_back(text_of({"{0} were counted as swum up.", {Share{plan.counted->fraction}}}, reader));
  else if (plan.stage == FeedStage::near || plan.stage == FeedStage::pinch) out.push_back(say(reader, "By the clock {0} have swum up. A count of those at the surface says more.", interval_text(100 * plan.swum_up_fraction.low, 100 * plan.swum_up_fraction.high, false, 0, "%", reader)));
  if (plan.stage < FeedStage::routine) out.push_back(say(reader, "A pinch when half swim up, to see who takes it; every day's food when nine in ten do. Nothing eats before it swims up."));
  return out;
}

std::vector<std::string> hold_texts(const season::FeedLook& look, const Reader& reader) {
  std::vector<std::string> out;
  for (const auto& hold : look.holds)
    out.push_back(say(reader, hold.food == advice::FeedHold::Food::none ? "No food: {0} Until: {1}" : "Half the food: {0} Until: {1}", text_of(hold.why, reader), text_of(hold.until, reader)));
  return out;
}

std::string ration_text(const planning::Ration& ration, double share, const Reader& reader) {
  if (share <= 0.0) return say(reader, "no food");
  const std::string grams = text_of({"{0}", {Mass::from_g(share * ration.planned.g())}}, reader);
  return ration.spoons ? spoons_text(share * *ration.spoons, reader) + " (" + grams + ")" : grams;
}

std::string coming_ration_text(const planning::Ration& ration, double share, const Reader& reader) {
  if (share >= 1.0) return ration_text(ration, 1.0, reader);
  const std::string whole = ration_text(ration, 1.0, reader);
  if (share <= 0.0) return say(reader, "no food until what holds it back is over; then {0}", whole);
  return say(reader, "{0}, half, until what holds food back is over; then {1}", ration_text(ration, share, reader), whole);
}

std::vector<std::string> ration_texts(const FeedPlan& plan, const planning::Ration& r, const Reader& reader) {
  std::vector<std::string> out;
  out.push_back(text_of({"In {0} small portions a day if you can, {1} at the least, of {2}.", {Number{r.feedings.wanted}, Number{r.feedings.least}, Word{plan.grain}}}, reader));
  out.push_back(say(reader, "About {0} fry ({1} to {2}) of {3} each, water at {4}: published tables give {5} of their weight a day.", fish_count(plan.alive.count.mid), fish_count(plan.alive.count.low), fish_count(plan.alive.count.high), grams_text(r.fish.low, r.fish.high, reader), temperature_text(r.water, reader), interval_text(100 * r.table_fraction_per_day.low, 100 * r.table_fraction_per_day.high, false, 1, "%", reader)));
  if (plan.stepped_from)
    out.push_back(text_of({"Held down from {0}: about {1} a day was fed last week, and food goes up by half at a time. Weigh some fish: they may be lighter than believed.", {r.wanted, *plan.stepped_from}}, reader));
  else if (r.planned < r.wanted) out.push_back(text_of({"Held down from {0}: the filter may not carry more.", {r.wanted}}, reader));
  out.push_back(text_of({"Up to {0} is within the tables, if all of it is taken at once and ammonia and nitrite stay low.", {r.most}}, reader));
  if (!r.in_table) out.push_back(say(reader, "Outside the temperatures or sizes the tables cover: go by what is taken within three to five minutes."));
  if (!plan.spoon_known) out.push_back(say(reader, "Weigh ten level spoons once and log them: then food can be measured and logged in spoons."));
  return out;
}

std::vector<std::string> cost_texts(const season::FeedLook& look, const Reader& reader) {
  const auto& cost = look.plan->cost;
  std::vector<std::string> out;
  const auto& n = cost.ammonia_mg_n_per_l_per_day;
  const auto& o = cost.oxygen_mg_o2_per_l_per_day;
  const bool held = look.share_to_come < 1.0;
  out.push_back(text_of({held ? "A whole ration and the fish set free {0} to {1} mg N/L of ammonia in a day, if nothing took it away." : "Tomorrow's ration and the fish set free {0} to {1} mg N/L of ammonia in a day, if nothing took it away.",
                         {Measured{n.low}, Measured{n.high}}}, reader));
  out.push_back(text_of({"The food takes {0} to {1} mg/L of oxygen out of the water in that day, most of it in the hours after a meal: the air has to bring it.", {Measured{o.low}, Measured{o.high}}}, reader));
  if (!cost.carried_probability) {
    out.push_back(say(reader, look.filter_known ? "The filter's outlook came to no number: test ammonia and nitrite twice a week." : "Whether the filter carries it was not worked out here: test ammonia and nitrite twice a week."));
    return out;
  }
  const auto& c = *cost.capacity_mg_n_per_l_per_day;
  out.push_back(say(reader, "The filter is thought to turn over {0} a day: {1} that it carries the ration.", interval_text(c.low, c.high, false, "mg N/L", reader), chance_text(*cost.carried_probability, reader)));
  if (cost.carried_share < 1.0)
    out.push_back(text_of({held ? "So begin with {0} of it when what holds food back is over, and raise it step by step as tests stay low." : "So feed {0} of it tomorrow, and raise it step by step as tests stay low.", {Share{cost.carried_share}}}, reader));
  if (cost.carried_share <= planning::least_share + 1e-9) out.push_back(say(reader, "Even a third may be too much: change water rather than let fry go hungry."));
  if (look.filter_doubted) out.push_back(say(reader, "The filter's outlook stands on weak ground here: let tests decide."));
  return out;
}

std::vector<std::string> growth_texts(const FeedPlan& plan, const Reader& reader) {
  const auto& g = plan.growth;
  std::vector<std::string> out;
  const bool ahead = plan.today < g.begun, weighed = !g.samples.empty();
  out.push_back(say(reader, ahead ? (weighed ? "At swim-up a fish will weigh {0}." : "At swim-up a fish will weigh {0} (reckoned: none was weighed).") : weighed ? "A fish weighs {0}." : "A fish weighs {0} (reckoned: none was weighed).",
                    grams_text(g.now.low, g.now.high, reader)));
  for (const int weeks : {2, 4, 8}) {
    if (plan.today + std::chrono::days(7 * weeks) <= g.begun) continue;
    const auto day = inference::weight_on(g, plan.today + std::chrono::days(7 * weeks));
    out.push_back(say(reader, "On {0}: {1}.", date_text(day.day, reader), grams_text(day.weight.low, day.weight.high, reader)));
  }
  out.push_back(say(reader, "Thermal growth coefficient {0} (times 1000); the two growth models count for {1} % ({2}) and {3} % ({4}).", interval_text(g.factors[0].low, g.factors[0].high, false, 1, "", reader), decimals(100 * g.model_weights[0], 0), g.models[0].name, decimals(100 * g.model_weights[1], 0), g.models[1].name));
  if (g.conversion) out.push_back(text_of({"Since the first weighing about {0} of food were logged for each gram of growth.", {Measured{*g.conversion, "g"}}}, reader));
  for (const Sentence& note : g.notes) out.push_back(text_of(note, reader));
  return out;
}

std::string sample_text(const inference::WeighedSample& sample, const Reader& reader) {
  std::string out = text_of({sample.from_lengths ? "{0}: {1} fish, {2} each (by length)" : "{0}: {1} fish, {2} each", {sample.day, Number{sample.count}, sample.mean}}, reader);
  if (sample.condition) out += ", " + say(reader, "condition factor {0}", decimals(*sample.condition, 2));
  return out + ".";
}

std::string gap_text(const planning::FeedGap& gap, const Reader& reader) {
  const Phrase name = gap.name.empty() ? Phrase("Closed") : verbatim(gap.name);
  std::string out = gap.from == gap.to ? text_of({"{0}: {1}.", {Word{name}, gap.from}}, reader) : text_of({"{0}: {1} to {2}.", {Word{name}, gap.from, gap.to}}, reader);
  const bool all = std::ranges::all_of(gap.days, [](const auto& d) { return !d.on_duty.empty(); });
  out += " ";
  if (all) out += say(reader, "Somebody is on duty on each day.");
  else if (gap.covered) out += say(reader, static_cast<int>(gap.days.size()) <= gap.may_miss_days ? "They can go without." : "With those on duty no gap is too long.");
  else out += say(reader, gap.may_miss_days == 1 ? "They may miss {0} at most: somebody must feed." : "They may miss {0} in a row at most: somebody must feed.", {Days(gap.may_miss_days)});
  return out;
}

std::vector<std::string> gap_do(const planning::FeedGap& gap, double share, const Reader& reader) {
  std::vector<std::string> out;
  const bool needs_food = static_cast<int>(gap.days.size()) > gap.may_miss_days;
  if (needs_food) {
    const Mass held = Mass::from_g(share * gap.a_day.g());
    if (share >= 1.0) out.push_back(text_of({"About {0} a day, twice a day at the least, weighed out beforehand: a day a pot.", {gap.a_day}}, reader));
    else if (share <= 0.0) out.push_back(text_of({"No pots yet: nothing is fed until what holds food back is over. After that about {0} a day, twice a day at the least: a day a pot.", {gap.a_day}}, reader));
    else out.push_back(text_of({"About {0} a day, half of the usual, twice a day at the least, weighed out beforehand: a day a pot. Only when what holds food back is over, {1} a day again.", {held, gap.a_day}}, reader));
    out.push_back(say(reader, "Show whoever comes one portion; write down what they do if fish lie still, and whom to call."));
  } else {
    out.push_back(say(reader, share >= 1.0 ? "A usual ration on the last day, no more; siphon leftovers before you go." : "On the last day what is fed then, no more; siphon leftovers before you go."));
  }
  if (gap.days.size() >= 3) out.push_back(say(reader, "Before you go: all tests, pump, air and chiller looked at, water topped up."));
  return out;
}

std::vector<std::string> gap_do_not(const Reader& reader) {
  return {say(reader, "No double ration before: what they cannot eat becomes ammonia with nobody there."), say(reader, "No feeding blocks or slow-release food: they foul the water, and fry do not find them."),
          say(reader, "No automatic feeder that has not run well for a week: fine food clogs in damp air.")};
}

std::string gap_water_text(const planning::FeedGap& gap, double share, const Reader& reader) {
  return text_of({share < 1.0 ? "With the usual food on all these days, food and fish set free {0} to {1} mg N/L of ammonia altogether if nothing took it away; unfed they give off about a quarter as much."
                              : "Fed on all these days, food and fish set free {0} to {1} mg N/L of ammonia altogether if nothing took it away; unfed they give off about a quarter as much.",
                  {Measured{gap.adds_mg_n_per_l.low}, Measured{gap.adds_mg_n_per_l.high}}}, reader);
}

std::vector<std::string> break_texts(const planning::BreakRisk& risk, const Reader& reader) {
  std::vector<std::string> out;
  const Phrase name = risk.name.empty() ? Phrase("closed days") : verbatim(risk.name);
  out.push_back(text_of({"First feeding, most likely {0}, may fall into {1} ({2} to {3}), when nobody is noted to feed: {4}.", {risk.median, Word{name}, risk.from, risk.to, Chance{risk.probability}}}, reader));
  if (risk.shift) {
    out.push_back(text_of({"With {0} instead of {1} from tomorrow it comes around {2}: {3} that it still falls there.", {risk.shift->to, risk.shift->from, risk.shift->median, Chance{risk.shift->probability}}}, reader));
    out.push_back(say(reader, "Hatch moves too: look at the temperature plan before you set it, move a degree a day at most, and ask permit and egg supplier."));
  } else if (const auto& edge = risk.edge_shift) {
    out.push_back(say(reader, "Find somebody who feeds on these days, and log the duty: no set-point they like best moves it out."));
    out.push_back(text_of({"With {0} instead of {1} from tomorrow it would come around {2}: {3} that it still falls there. They bear that and like other water better; the season's plan weighs it against the rest.", {edge->to, edge->from, edge->median, Chance{edge->probability}}}, reader));
  } else {
    out.push_back(say(reader, "No one set-point that they bear and the equipment holds, kept until then, moves it out: find somebody who feeds on these days, and log the duty."));
  }
  return out;
}

std::vector<std::string> overfed_texts(const planning::Overfed& o, const Reader& reader) {
  return {text_of({"{0} were logged on {1}; the higher table gives at most {2} a day for all of them.", {o.fed, o.day, o.most}}, reader),
          text_of({"Left lying, the rest sets free {0} to {1} mg N/L of ammonia within days.", {Measured{o.to_come_mg_n_per_l.low}, Measured{o.to_come_mg_n_per_l.high}}}, reader),
          say(reader, "No more food today, half a ration tomorrow, and test ammonia tomorrow and the day after.")};
}

std::vector<std::string> feed_sources(const Reader& reader) {
  return {say(reader, "Growth and ration: Iwama & Tautz 1981; second growth model: Elliott, Hurley & Fryer 1995, Elliott & Hurley 1997 (constants from memory); chart: Leitritz & Lewis 1976"),
          say(reader, "Ammonia and oxygen of food: Timmons & Ebeling 2007 (from memory); unfed fish: van Weerd and others 1995"), say(reader, "Starvation of unfed fry in about four days: Letcher & Terrick 2001"),
          say(reader, "Longest unfed time, three fifths of the table, portions in school hours: common practice, no source")};
}

}  // namespace redd::report
