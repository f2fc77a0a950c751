#include "advice/answers.h"

#include <algorithm>
#include <cmath>

namespace redd::advice {
namespace {

using records::AdviceAnswer;
using std::chrono::days;

std::vector<std::string_view> parts_of(std::string_view key) {
  std::vector<std::string_view> parts;
  for (std::size_t plus = key.find('+'); plus != std::string_view::npos; plus = key.find('+')) {
    parts.push_back(key.substr(0, plus));
    key.remove_prefix(plus + 1);
  }
  parts.push_back(key);
  return parts;
}

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

/// For how long a skipped thing is let go. Assumed: the weekly rhythm.
constexpr days let_go{7};

enum class Fate { asked_plainly, asked_with_answer, put_aside };

/// In      answered.back: filled here.
Fate fate_of(const Situation& s, const Action& a, const AdviceAnswer& answer, Answered& answered) {
  const bool is_new = has_new_reason(s, a, answered.record), must_act = a.aim == Aim::animals && a.tone >= Tone::act;
  const Date day = local_day(s.zone, answered.at);
  if (a.aim == Aim::animals && a.tone == Tone::alarm) return Fate::asked_with_answer;
  if (is_new && (answer.answer != AdviceAnswer::Answer::not_now || must_act)) return Fate::asked_plainly;
  switch (answer.answer) {
    case AdviceAnswer::Answer::not_now: answered.back = std::max(day + days(1), answer.until.value_or(day + days(1))); break;
    case AdviceAnswer::Answer::skipped: answered.back = day + (must_act ? days(1) : let_go); break;
    case AdviceAnswer::Answer::done: answered.back = day + days(std::max(1L, std::lround(a.again.count()))); break;
  }
  if (s.today() < *answered.back) return Fate::put_aside;
  answered.back.reset();
  const bool let_go_once = answer.answer == AdviceAnswer::Answer::skipped && !must_act;
  return let_go_once || answer.answer == AdviceAnswer::Answer::not_now ? Fate::asked_plainly : Fate::asked_with_answer;
}

}  // namespace

bool answers(std::string_view answered, std::string_view key) {
  const auto parts = parts_of(answered), asked = parts_of(key);
  return std::ranges::any_of(parts, [&](std::string_view part) { return std::ranges::find(asked, part) != asked.end(); });
}

std::string joined_keys(std::string_view one, std::string_view other) {
  auto parts = parts_of(one);
  const auto more = parts_of(other);
  parts.insert(parts.end(), more.begin(), more.end());
  std::ranges::sort(parts);
  const auto again = std::ranges::unique(parts);
  parts.erase(again.begin(), again.end());
  std::string key;
  for (const std::string_view part : parts) key.append(key.empty() ? "" : "+").append(part);
  return key;
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
