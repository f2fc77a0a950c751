#include "report/diary_view.h"

#include "report/ics.h"

namespace redd::report {
namespace {

using season::Diary;
using season::DiaryEntry;
using season::DiaryKind;
using wire::Json;

constexpr int half_past_seven = -450;  ///< minutes before the day's midnight

bool shown(const DiaryEntry& entry, const DiaryIcs& wanted) {
  return wanted.closures || (entry.kind != DiaryKind::closure && entry.kind != DiaryKind::early_closing);
}

std::string description(const Diary& diary, const DiaryEntry& entry, const Reader& reader) {
  std::string text = text_of(entry.text, reader) + "\n" + say(reader, "As of {0}. Plans move with the log: look again before you act. Permit and supplier come before any plan.", {diary.today});
  if (diary.season.invented) text += "\n" + say(reader, "Invented demo season: nothing of this is real.");
  return text;
}

std::optional<std::string> optional_text(const std::string& text) { return text.empty() ? std::nullopt : std::optional(text); }

Json or_null(const std::optional<std::string>& text) { return text ? Json(*text) : Json(nullptr); }

Json task_json(const DiaryEntry& entry, const Reader& reader) {
  return {{"key", entry.key}, {"kind", std::string(word_of(entry.kind))}, {"title", text_of(entry.title, reader)}, {"text", text_of(entry.text, reader)}};
}

Json window_json(const DiaryEntry& entry, Date day, const Reader& reader) {
  return {{"key", entry.key},
          {"kind", std::string(word_of(entry.kind))},
          {"title", text_of(entry.title, reader)},
          {"text", text_of(entry.text, reader)},
          {"from", iso_from_date(entry.first)},
          {"to", iso_from_date(entry.last)},
          {"likely", entry.likely_first && *entry.likely_first <= day && day <= entry.likely_last.value_or(*entry.likely_first)}};
}

Json day_json(const season::DiaryDay& day, const Reader& reader) {
  Json out{{"day", iso_from_date(day.day)},
           {"open", day.open},
           {"closed_name", or_null(optional_text(day.closed_name))},
           {"shut_from", day.shut_from ? Json(records::clock_text(*day.shut_from)) : Json(nullptr)},
           {"on_duty", day.on_duty},
           {"set_point_c", day.set_point ? Json(day.set_point->c()) : Json(nullptr)},
           {"set_point_text", day.set_point ? Json(temperature_text(*day.set_point, reader)) : Json(nullptr)},
           {"windows", Json::array()},
           {"tasks", Json::array()}};
  for (const DiaryEntry* entry : day.windows) out["windows"].push_back(window_json(*entry, day.day, reader));
  for (const DiaryEntry* entry : day.tasks) out["tasks"].push_back(task_json(*entry, reader));
  return out;
}

}  // namespace

std::string diary_ics(const Diary& diary, Instant stamp, const DiaryIcs& wanted, const Reader& reader) {
  const std::string season = diary.season.name + " " + iso_from_date(diary.season.first_day);
  const std::string mark = diary.season.invented ? " " + say(reader, "(invented)") : "";
  std::vector<IcsEvent> events;
  for (const DiaryEntry& entry : diary.entries) {
    if (!shown(entry, wanted)) continue;
    IcsEvent event{ics_uid(season, entry.key), entry.first, entry.last, {}, {}, text_of(entry.title, reader) + mark, description(diary, entry, reader), diary.newest, {}};
    if (wanted.alarms && is_task(entry.kind)) event.alarm_minutes = half_past_seven;
    events.push_back(std::move(event));
  }
  return ics_text(events, diary.season.name.find("invented") == std::string::npos ? diary.season.name + mark : diary.season.name, stamp);
}

Json wall_json(const Diary& diary, Date from, Date to, const Reader& reader) {
  Json out{{"title", diary.season.name}, {"invented", diary.season.invented}, {"made_on", iso_from_date(diary.today)},
           {"from", iso_from_date(from)}, {"to", iso_from_date(to)},         {"without_plan", Json::array()}, {"days", Json::array()}};
  for (const Sentence& sentence : diary.without_plan) out["without_plan"].push_back(text_of(sentence, reader));
  for (Date day = from; day <= to; day += std::chrono::days(1)) out["days"].push_back(day_json(day_of_diary(diary, day), reader));
  return out;
}

}  // namespace redd::report
