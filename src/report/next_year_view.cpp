#include "report/next_year_view.h"

#include "report/wrapped.h"

namespace redd::report {
namespace {

using season::Lesson;
using wire::Json;

const char* key_of(Lesson::Verdict verdict) {
  switch (verdict) {
    case Lesson::Verdict::keep: return "keep";
    case Lesson::Verdict::better: return "better";
    case Lesson::Verdict::not_known: break;
  }
  return "not_known";
}

const char* words_of(Lesson::Verdict verdict) {
  switch (verdict) {
    case Lesson::Verdict::keep: return "Keep it so";
    case Lesson::Verdict::better: return "To do better";
    case Lesson::Verdict::not_known: break;
  }
  return "Not known";
}

const char* title_of(const std::string& key) {
  if (key == "readiness") return "Was the filter ready for the eggs?";
  if (key == "water") return "Was more water changed than needed?";
  if (key == "milestones") return "Did the dates come true?";
  if (key == "losses") return "How many lived?";
  if (key == "kits") return "Do the kits agree?";
  if (key == "tests") return "Was the water tested often enough?";
  return "Was the temperature known?";
}

std::string one_line(const Sentence& sentence, const Reader& reader) { return sentence.empty() ? "" : text_of(sentence, reader); }

}  // namespace

Json next_year_json(const season::NextYear& look, const Reader& given) {
  Reader reader = given;
  reader.zone = look.report.day.zone;
  Json lessons = Json::array();
  int better = 0;
  for (const Lesson& lesson : look.lessons) {
    better += lesson.verdict == Lesson::Verdict::better;
    lessons.push_back({{"key", lesson.key}, {"title", say(reader, title_of(lesson.key))}, {"verdict", key_of(lesson.verdict)}, {"verdict_text", say(reader, words_of(lesson.verdict))},
                       {"found", one_line(lesson.found, reader)}, {"advice", one_line(lesson.advice, reader)}, {"sure", one_line(lesson.sure, reader)}});
  }
  const Date today = local_day(reader.zone, look.report.day.now);
  const Sentence sentence = better == 0 ? Sentence{"Nothing in the log asks to be done otherwise next year."}
                                        : Sentence{"{0, plural, one {# thing} other {# things}} to do better next year, worked out from the log until {1}.", {Number{better}, today}};
  return {{"season", look.report.day.season.name}, {"invented", look.report.day.season.invented}, {"made_on", iso_from_date(today)}, {"made_on_text", date_text(today, reader)},
          {"sentence", one_line(sentence, reader)}, {"lessons", std::move(lessons)}};
}

std::string next_year_text(const season::NextYear& look, const Reader& reader, int width) {
  const Json view = next_year_json(look, reader);
  const auto text = [](const Json& j) { return j.get<std::string>(); };
  std::string out;
  if (view["invented"]) out += say(reader, "INVENTED season") + "\n";
  out += wrapped(text(view["season"]) + ". " + text(view["sentence"]), width, "", "  ");
  for (const Json& lesson : view["lessons"]) {
    out += "\n" + text(lesson["title"]) + " " + text(lesson["verdict_text"]) + ".\n";
    for (const char* part : {"found", "advice", "sure"})
      if (!text(lesson[part]).empty()) out += wrapped(text(lesson[part]), width, "  ", "    ");
  }
  return out;
}

}  // namespace redd::report
