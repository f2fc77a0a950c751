#include "advice/answers.h"

#include <algorithm>
#include <cmath>

namespace redd::advice {
namespace {

using records::AdviceAnswer;
using std::chrono::days;

/// The newest answer to this action; nullptr without one.
const records::Record* answer_to(const Situation& s, const Action& a) {
  const records::Record* newest = nullptr;
  for (const auto& record : s.records)
    if (const auto* answer = std::get_if<AdviceAnswer>(&record.entry.body); answer && answers(answer->action, a.key)) newest = &record;
  return newest;
}

/// What somebody saw, not what somebody did: doing what was advised is no new reason for it.
bool is_observation(const records::Body& body) {
  using namespace records;
  return std::holds_alternative<Reading>(body) || std::holds_alternative<TemperatureReading>(body) || std::holds_alternative<Count>(body) || std::holds_alternative<Milestone>(body) ||
         std::holds_alternative<EquipmentEvent>(body) || std::holds_alternative<EggReceipt>(body) || std::holds_alternative<FishSample>(body) ||
         std::holds_alternative<SeasonSetup>(body);
}

/// Something the action rests on was logged after the answer.
bool has_new_reason(const Situation& s, const Action& a, records::RecordId answer) {
  return std::ranges::any_of(a.because, [&](const Reason& reason) {
    return std::ranges::any_of(reason.records, [&](records::RecordId id) {
      if (id <= answer) return false;
      const auto found = std::ranges::find(s.records, id, &records::Record::id);
      return found != s.records.end() && is_observation(found->entry.body);
    });
  });
}

enum class Fate { asked_plainly, asked_with_answer, put_aside };

/// In      answered.back: filled here.
Fate fate_of(const Situation& s, const Action& a, const AdviceAnswer& answer, Answered& answered) {
  const bool is_new = has_new_reason(s, a, answered.record), must_act = a.aim == Aim::animals && a.tone >= Tone::act;
  const Date day = local_day(s.zone, answered.at);
  if (a.aim == Aim::animals && a.tone == Tone::alarm) return Fate::asked_with_answer;
  if (is_new && (answer.answer != AdviceAnswer::Answer::not_now || must_act)) return Fate::asked_plainly;
  switch (answer.answer) {
    case AdviceAnswer::Answer::not_now: answered.back = std::max(day + days(1), answer.until.value_or(day + days(1))); break;
    case AdviceAnswer::Answer::skipped: answered.back = must_act ? day + days(1) : day + days(std::max(1L, std::lround(a.again.count()))); break;
    case AdviceAnswer::Answer::done: answered.back = day + days(std::max(1L, std::lround(a.again.count()))); break;
  }
  if (s.today() < *answered.back) return Fate::put_aside;
  answered.back.reset();
  const bool let_go_once = answer.answer == AdviceAnswer::Answer::skipped && !must_act;
  return let_go_once || answer.answer == AdviceAnswer::Answer::not_now ? Fate::asked_plainly : Fate::asked_with_answer;
}

}  // namespace

bool answers(std::string_view answered, std::string_view key) {
  for (;;) {
    const std::size_t plus = answered.find('+');
    if (answered.substr(0, plus) == key) return true;
    if (plus == std::string_view::npos) return false;
    answered.remove_prefix(plus + 1);
  }
}

std::vector<Action> take_answered(const Situation& s, std::vector<Action>& actions) {
  std::vector<Action> asked, aside;
  for (Action& a : actions) {
    const records::Record* record = answer_to(s, a);
    if (!record) {
      asked.push_back(std::move(a));
      continue;
    }
    const auto& answer = std::get<AdviceAnswer>(record->entry.body);
    Answered answered{answer.answer, record->entry.at, record->id, std::nullopt};
    const Fate fate = fate_of(s, a, answer, answered);
    if (fate != Fate::asked_plainly) a.answer = answered;
    (fate == Fate::put_aside ? aside : asked).push_back(std::move(a));
  }
  actions = std::move(asked);
  return aside;
}

}  // namespace redd::advice
