#include "report/advice_view.h"

#include "report/water_view.h"

namespace redd::report {
namespace {

using advice::Aim;
using advice::Deed;
using records::AdviceAnswer;
using wire::Json;

std::string_view answer_key(AdviceAnswer::Answer answer) {
  switch (answer) {
    case AdviceAnswer::Answer::done: return "done";
    case AdviceAnswer::Answer::skipped: return "skipped";
    case AdviceAnswer::Answer::not_now: break;
  }
  return "not_now";
}

Json answer_json(const advice::Action& a, const Reader& reader) {
  if (!a.answer) return nullptr;
  return {{"answer", answer_key(a.answer->answer)},
          {"at", rfc3339_from_instant(a.answer->at)},
          {"back", a.answer->back ? Json(iso_from_date(*a.answer->back)) : Json(nullptr)},
          {"record_id", a.answer->record},
          {"text", answer_text(a, reader)}};
}

}  // namespace

std::string_view aim_key(Aim aim) { return aim == Aim::animals ? "animals" : aim == Aim::deadline ? "deadline" : "lesson"; }

std::string_view deed_key(Deed deed) {
  switch (deed) {
    case Deed::test: return "test";
    case Deed::change_water: return "change_water";
    case Deed::dose: return "dose";
    case Deed::clean_filter: return "clean_filter";
    case Deed::set_temperature: return "set_temperature";
    case Deed::feed: return "feed";
    case Deed::feed_less: return "feed_less";
    case Deed::count: return "count";
    case Deed::mend: return "mend";
    case Deed::ask_for_help: return "ask_for_help";
    case Deed::wait: return "wait";
    case Deed::plan: break;
  }
  return "plan";
}

std::string answer_text(const advice::Action& a, const Reader& reader) {
  if (!a.answer) return "";
  const Date day = local_day(reader.zone, a.answer->at);
  const bool still = a.tone == advice::Tone::alarm;
  if (a.answer->back) {
    const Shown back = *a.answer->back;
    switch (a.answer->answer) {
      case AdviceAnswer::Answer::done: return text_of({"Done on {0}; asked again from {1}, or when something new is logged.", {day, back}}, reader);
      case AdviceAnswer::Answer::skipped: return text_of({"Skipped on {0}; asked again from {1}, or when something new is logged.", {day, back}}, reader);
      case AdviceAnswer::Answer::not_now: return text_of({"Put off on {0} until {1}.", {day, back}}, reader);
    }
  }
  switch (a.answer->answer) {
    case AdviceAnswer::Answer::done:
      return text_of(still ? Sentence{"You said on {0} that this is done; what is logged still calls for it. Log what was done, and test.", {day}}
                           : Sentence{"You said on {0} that this is done; nothing new has been logged since.", {day}}, reader);
    case AdviceAnswer::Answer::skipped: return text_of({"You skipped this on {0}; the risk stays.", {day}}, reader);
    case AdviceAnswer::Answer::not_now: break;
  }
  return text_of({"You put this off on {0}; the risk stays.", {day}}, reader);
}

void add_advice_fields(Json& out, const advice::Action& a, const Reader& reader) {
  out["key"] = a.key;
  out["aim"] = aim_key(a.aim);
  out["deeds"] = Json::array();
  for (const Deed deed : a.deeds) out["deeds"].push_back(deed_key(deed));
  out["from"] = a.from ? Json(rfc3339_from_instant(*a.from)) : Json(nullptr);
  out["from_text"] = a.from ? text_of({"{0}", {*a.from}}, reader) : "";
  out["benefit"] = a.benefit ? text_of(*a.benefit, reader) : "";
  out["moved_text"] = a.moved ? Json(text_of(*a.moved, reader)) : Json(nullptr);
  out["answer"] = answer_json(a, reader);
}

Json put_aside_json(const advice::Advice& advice, const Reader& reader) {
  Json out = Json::array();
  for (const advice::Action& a : advice.put_aside)
    out.push_back({{"key", a.key}, {"tone", tone_text(a.tone)}, {"what", text_of(a.what, reader)}, {"answer", answer_json(a, reader)}});
  return out;
}

}  // namespace redd::report
