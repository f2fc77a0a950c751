#include "report/lessons_view.h"

#include <cmath>
#include <cstdint>
#include <cstdio>

#include "records/reading.h"
#include "report/wrapped.h"

namespace redd::report {
namespace {

using lessons::Graph;
using lessons::GraphQuestion;
using lessons::Level;
using lessons::Repeatability;
using lessons::ReplicateSitting;
using lessons::Task;
using lessons::Worksheet;
using wire::Json;

std::string shown(const Shown& value, const Reader& reader) { return text_of(Sentence{"{0}", {value}}, reader); }

/// Two figures of the spread, at least; never "0.0" for a spread that is there.
std::string spread_text(double value, const std::string& unit, const Reader& reader) { return say(reader, "{0}", {Measured{value, unit}}); }

/// What several readings of one water tell, where the card can show it at all.
Json spread_says(const ReplicateSitting& s, const std::string& unit, const Reader& reader) {
  Json says = Json::array();
  const double last = static_cast<double>(s.test.steps.size()) - 1.0;
  if (s.test.method == records::Method::colour_steps && (s.places.highest < 0.0 || s.places.lowest > last))
    return {text_of({"All {0}: how far apart they are this card cannot show.", {Word{s.readings.front().text}}}, reader)};
  says.push_back(text_of({"{0} readings, from {1} to {2}: {3} apart.", {Number{s.printed.count}, Measured{s.printed.lowest}, Measured{s.printed.highest, unit}, Word{spread_text(s.printed.highest - s.printed.lowest, unit, reader)}}}, reader));
  says.push_back(text_of({"Standard deviation s of one reading: {0}. Standard error of the mean: {1}.", {Word{spread_text(s.printed.standard_deviation, unit, reader)}, Word{spread_text(s.printed.standard_error, unit, reader)}}}, reader));
  if (s.step > 0.0 && s.printed.standard_deviation < s.rounding_sd)
    says.push_back(text_of({"A step is {0} here, and rounding to steps alone hides about {1}: that the teams agree does not make the reading any finer than the card.", {Word{spread_text(s.step, unit, reader)}, Word{spread_text(s.rounding_sd, unit, reader)}}}, reader));
  else if (s.step > 0.0)
    says.push_back(text_of({"A step is {0} here; rounding to steps alone gives an s of about {1}. The rest is eyes, light and hands.", {Word{spread_text(s.step, unit, reader)}, Word{spread_text(s.rounding_sd, unit, reader)}}}, reader));
  return says;
}

Json sitting_json(const ReplicateSitting& s, const Reader& reader) {
  const std::string unit = records::unit_text(s.test.unit);
  Json readings = Json::array();
  for (const auto& r : s.readings) readings.push_back({{"team", r.team}, {"text", text_of(r.text, reader)}, {"value", r.printed}, {"record_id", r.record}});
  return {{"day", iso_from_date(s.day)}, {"day_text", date_text(s.day, reader)}, {"name", say(reader, records::quantity_text(s.test.quantity))}, {"unit", say(reader, unit)}, {"readings", readings},
          {"count", s.printed.count}, {"mean", s.printed.mean}, {"standard_deviation", s.printed.standard_deviation}, {"standard_error", s.printed.standard_error},
          {"lowest", s.printed.lowest}, {"highest", s.printed.highest}, {"step", s.step}, {"says", spread_says(s, unit, reader)}};
}

Sentence repeatability_sentence(const Repeatability& r) {
  const Word unit{r.method == records::Method::drop_count ? "drops" : "steps"};
  const Shown sd = Exact{r.sd, 2}, low = Exact{r.low, 2}, high = Exact{r.high, 2};
  switch (r.fit) {
    case Repeatability::Fit::too_few: return {"Readings of one water differ by s = {0} {1} so far: too few readings by several teams to say how well this class repeats itself.", {sd, unit}};
    case Repeatability::Fit::alike: return {"All teams read the same each time ({0} readings). The steps hide what they differ by: the reading is no finer than a step, and how well this class repeats itself is not known yet.", {Number{r.readings}}};
    case Repeatability::Fit::wider: return {"Readings of one water differ by s = {0} {1} (nine chances in ten: {2} to {3}). That is more than the model takes a careful reader to be off: look at light, timing and shaking.", {sd, unit, low, high}};
    case Repeatability::Fit::narrower: return {"Readings of one water differ by s = {0} {1} (nine chances in ten: {2} to {3}). That is less than the model assumes. Careful reading, or teams that saw each other's answer.", {sd, unit, low, high}};
    case Repeatability::Fit::fits: break;
  }
  return {"Readings of one water differ by s = {0} {1} (nine chances in ten: {2} to {3}). The model assumes {4} to {5}, rounding to steps included: that fits.", {sd, unit, low, high, Exact{r.assumed_low, 2}, Exact{r.assumed_high, 2}}};
}

Json graph_json(const Graph& g, const Reader& reader) {
  Json traces = Json::array(), marks = Json::array(), questions = Json::array();
  for (const auto& line : g.lines) {
    Json days = Json::array();
    for (const Date day : line.days) days.push_back(iso_from_date(day));
    Json trace{{"key", line.key}, {"name", text_of(line.name, reader)}, {"days", days}, {"mid", line.mid}, {"step", line.step}};
    trace["low"] = line.low.empty() ? Json(nullptr) : Json(line.low);
    trace["high"] = line.high.empty() ? Json(nullptr) : Json(line.high);
    traces.push_back(std::move(trace));
  }
  for (const auto& mark : g.marks)
    marks.push_back({{"day", iso_from_date(mark.day)}, {"low", mark.low}, {"mid", mark.mid}, {"high", mark.high}, {"text", mark.text.empty() ? say(reader, "{0}", {Exact{mark.mid, 1, g.unit}}) : text_of(mark.text, reader)}});
  for (const auto& q : g.questions) {
    const char* kind = q.kind == GraphQuestion::Kind::see ? "see" : q.kind == GraphQuestion::Kind::ask ? "ask" : "check";
    questions.push_back({{"kind", kind}, {"question", text_of(q.question, reader)}, {"answer", text_of(q.answer, reader)}});
  }
  return {{"key", g.key}, {"title", text_of(g.title, reader)}, {"unit", say(reader, g.unit)}, {"summary", text_of(g.summary, reader)}, {"traces", traces}, {"marks", marks}, {"questions", questions}};
}

Json task_json(const Task& task, const Reader& reader) {
  Json rows = Json::array();
  for (const auto& row : task.rows) rows.push_back({{"label", shown(row.label, reader)}, {"value", shown(row.value, reader)}});
  return {{"key", task.key}, {"title", text_of(task.title, reader)}, {"text", text_of(task.text, reader)}, {"label_head", text_of(task.label_head, reader)}, {"value_head", text_of(task.value_head, reader)},
          {"rows", rows}, {"lines", task.lines}, {"answer", text_of(task.answer, reader)}, {"working", text_of(task.working, reader)}};
}

Json sheet_json(const Worksheet& sheet, const Reader& reader) {
  Json tasks = Json::array(), left_out = Json::array();
  for (const Task& task : sheet.tasks) tasks.push_back(task_json(task, reader));
  for (const Sentence& s : sheet.left_out) left_out.push_back(text_of(s, reader));
  return {{"stamp", worksheet_stamp(sheet, reader.zone)}, {"tasks", tasks}, {"left_out", left_out}};
}

Reader in_zone(Reader reader, const ZoneOffsets& zone) {
  reader.zone = zone;
  return reader;
}

}  // namespace

std::string worksheet_stamp(const Worksheet& sheet, const ZoneOffsets& zone) {
  const Reader reader = in_zone({}, zone);
  std::uint32_t hash = 2166136261u;  // FNV-1a
  for (const Task& task : sheet.tasks) {
    std::string text = text_of(task.text, reader) + text_of(task.answer, reader);
    for (const auto& row : task.rows) text += shown(row.label, reader) + shown(row.value, reader);
    for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 16777619u;
  }
  char stamp[5];
  std::snprintf(stamp, sizeof stamp, "%04X", static_cast<unsigned>((hash >> 16) ^ (hash & 0xFFFFu)));
  return stamp;
}

Json replicates_json(const lessons::Replicates& replicates, const Reader& reader) {
  Json sittings = Json::array(), repeatability = Json::array();
  constexpr std::size_t most_shown = 20;
  for (const auto& s : replicates.sittings)
    if (sittings.size() < most_shown) sittings.push_back(sitting_json(s, reader));
  for (const auto& r : replicates.repeatability)
    repeatability.push_back({{"method", r.method == records::Method::drop_count ? "drop_count" : "colour_steps"}, {"sittings", r.sittings}, {"readings", r.readings}, {"sentence", text_of(repeatability_sentence(r), reader)}});
  const Sentence sentence = replicates.sittings.empty() ? Sentence("No test has been read by two teams in one sitting yet. Let each team read the same vial without seeing the others' answer, and log each with its team.")
                                                        : Sentence{"{0} tests were read by several teams. How far apart they lie is what one reading can be off.", {Number{static_cast<long long>(replicates.sittings.size())}}};
  return {{"sentence", text_of(sentence, reader)}, {"sittings", sittings}, {"repeatability", repeatability}};
}

Json lessons_json(const season::LessonsLook& look, const Reader& given) {
  const Reader reader = in_zone(given, look.zone);
  Json graphs = Json::array();
  for (const Graph& g : look.graphs) graphs.push_back(graph_json(g, reader));
  const Json sheets{{"number", look.younger.sheet}, {"most", lessons::most_sheets}, {"younger", sheet_json(look.younger, reader)}, {"older", sheet_json(look.older, reader)}};
  return {{"today", iso_from_date(local_day(reader.zone, look.now))}, {"today_text", date_text(local_day(reader.zone, look.now), reader)}, {"game", game_json(look.game, reader)},
          {"replicates", replicates_json(look.replicates, reader)}, {"graphs", graphs}, {"sheets", sheets}};
}

std::string lessons_text(const season::LessonsLook& look, const Reader& given, int width) {
  const Reader reader = in_zone(given, look.zone);
  const Json game = game_json(look.game, reader), teams = replicates_json(look.replicates, reader);
  const auto line = [&](const std::string& text, const char* first = "", const char* hang = "") { return wrapped(text, width, first, hang); };
  std::string out = line(game["sentence"].get<std::string>());
  if (!game["open"].empty()) out += "\n" + say(reader, "Open questions (redd log guess --question KEY --team LABEL, with --low and --high or --chips):") + "\n";
  for (const Json& q : game["open"]) {
    out += line(q["text"].get<std::string>(), "  - ", "    ");
    const std::string form = q["form"] == "chips" ? say(reader, "{0} chips on {1} steps", records::chips_to_lay, q["steps"].size()) : say(reader, "a range, {0}", q["unit"].get<std::string>());
    out += "    " + say(reader, "{0} ({1}); {2} in", q["key"].get<std::string>(), form, q["teams_in"].size()) + "\n";
  }
  if (!game["settled"].empty()) out += "\n" + say(reader, "Last scores:") + "\n";
  for (std::size_t i = 0; i < game["settled"].size() && i < 5; ++i) {
    const Json& s = game["settled"][i];
    std::string text = say(reader, "{0} Read: {1}. Class {2}, model {3}", s["text"].get<std::string>(), s["outcome"]["text"].get<std::string>(), s["class"]["points_text"].get<std::string>(), s["model"]["points_text"].get<std::string>());
    for (const Json& g : s["guesses"]) text += ", " + g["team"].get<std::string>() + " " + g["points_text"].get<std::string>();
    out += line(text + ".", "  - ", "    ");
  }
  for (const Json& meaning : game["meaning"]) out += line(meaning.get<std::string>(), "  * ", "    ");
  out += "\n" + line(teams["sentence"].get<std::string>());
  for (const Json& r : teams["repeatability"]) out += line(r["sentence"].get<std::string>(), "  - ", "    ");
  return out;
}

std::string worksheet_text(const season::LessonsLook& look, Level level, bool answers, const Reader& given, int width) {
  const Reader reader = in_zone(given, look.zone);
  const Worksheet& sheet = level == Level::younger ? look.younger : look.older;
  const Json shown_sheet = sheet_json(sheet, reader);
  const std::string stamp = shown_sheet["stamp"].get<std::string>();
  std::string out = say(reader, answers ? "Sheet {0}, ages {1}, answers; mark {2}" : "Sheet {0}, ages {1}; mark {2}", sheet.sheet, say(reader, level == Level::younger ? "8 to 10" : "11 to 14"), stamp) + "\n";
  int number = 0;
  for (const Json& task : shown_sheet["tasks"]) {
    const std::string head = std::to_string(++number) + ". ";
    out += "\n" + wrapped(task["title"].get<std::string>(), width, head, "   ");
    if (answers) {
      out += wrapped(task["answer"].get<std::string>(), width, "   ", "   ");
      if (!task["working"].get<std::string>().empty()) out += wrapped(task["working"].get<std::string>(), width, "   ", "   ");
      continue;
    }
    out += wrapped(task["text"].get<std::string>(), width, "   ", "   ");
    for (const Json& row : task["rows"]) out += "   " + row["label"].get<std::string>() + ": " + row["value"].get<std::string>() + "\n";
    for (int i = 0; i < task["lines"].get<int>(); ++i) out += "   " + std::string(40, '_') + "\n";
  }
  if (!answers)
    for (const Json& missing : shown_sheet["left_out"]) out += "\n" + wrapped(say(reader, "Left out. {0}", missing.get<std::string>()), width, "", "");
  return out;
}

}  // namespace redd::report
