#include "desk/sitting_question.h"

#include <utility>

#include "desk/calc_json.h"
#include "desk/kit_in_question.h"
#include "report/sitting_view.h"
#include "sitting/timetable.h"
#include "wire/codec.h"
#include "wire/reader.h"

namespace redd::desk {
namespace {

using sitting::seconds;
using wire::Json;
using wire::Range;

constexpr std::string_view here = "/bench_schedule";
constexpr Range up_to_an_hour{0, 3600};

// The parts of the question as wire's reader takes them, so that each slip is told with its path.
struct GivenTimes {
  std::optional<int> fill{}, bottle{}, drop{}, titration{}, spoon{}, mix{}, read{}, begin{}, whole_test{};
};
struct Begun {
  std::string test{};
  int steps_done = 0, ended_ago = 0;
};
struct FreeIn {
  int seconds = 0;
};
struct State {
  std::vector<Begun> begun{};
  std::vector<FreeIn> free_in{};
};
struct LastRead {
  records::Quantity quantity = records::Quantity::ph;
  double value = 0;
};
/// A reading of this sitting, for the hand-over.
struct Read {
  std::string test{};
  records::Reading::Form form = records::Reading::Form::step;
  std::optional<double> value{}, upper_value{};
};
struct Question {
  std::vector<std::string> tests{};
  bool hand_over = false;
  std::vector<Read> read{};
  std::optional<int> hands{};
  std::vector<LastRead> last_read{};
};

template <class V>
void describe(V& v, GivenTimes& t) {
  v.whole("fill_seconds", t.fill, up_to_an_hour, "rinse and fill a vial");
  v.whole("bottle_seconds", t.bottle, up_to_an_hour, "open and close a bottle");
  v.whole("drop_seconds", t.drop, up_to_an_hour, "one drop");
  v.whole("titration_seconds", t.titration, up_to_an_hour, "drops until the colour turns");
  v.whole("spoon_seconds", t.spoon, up_to_an_hour, "one spoon");
  v.whole("mix_seconds", t.mix, up_to_an_hour, "close and turn over");
  v.whole("read_seconds", t.read, up_to_an_hour, "compare with the card");
  v.whole("begin_seconds", t.begin, up_to_an_hour, "start a test that begins with a wait");
  v.whole("whole_test_seconds", t.whole_test, up_to_an_hour, "a test without steps");
}
template <class V>
void describe(V& v, Begun& b) {
  v.text("test", b.test, "key of a test that has been begun");
  v.whole("steps_done", b.steps_done, Range{0, 200}, "how many of its steps are done");
  v.whole("ended_ago_s", b.ended_ago, Range{-3600, 86400}, "seconds since the last of them ended");
}
template <class V>
void describe(V& v, FreeIn& f) {
  v.whole("seconds", f.seconds, up_to_an_hour, "seconds until this pair of hands is free");
}
template <class V>
void describe(V& v, State& s) {
  v.list("begun", s.begun, "the tests that have been begun");
  v.list("hands_free_in_s", s.free_in, "one entry a pair of hands");
}
template <class V>
void describe(V& v, LastRead& l) {
  v.word("quantity", wire::words::quantity, l.quantity, "what was measured");
  v.number("value", wire::plain(), l.value, Range{0, 100000}, "what it read, in the program's own unit");
}
template <class V>
void describe(V& v, Read& r) {
  v.text("test", r.test, "key of the test");
  v.word("form", wire::words::form, r.form, "how the answer was read");
  v.number("value", wire::plain(), r.value, Range{0, 100000}, "the step, or the lower of two");
  v.number("upper_value", wire::plain(), r.upper_value, Range{0, 100000}, "the upper of two steps");
}
template <class V>
void describe(V& v, Question& q) {
  v.texts("tests", q.tests, "keys of the tests");
  v.truth("hand_over", q.hand_over, "leave out of `tests` what a hand-over leaves for later");
  v.list("read", q.read, "what was read in this sitting");
  v.whole("hands", q.hands, Range{1, 2}, "pairs of hands");
  v.list("last_read", q.last_read, "what the last tests read");
}

/// A part of the question that is an object of its own; stays as it is when absent.
template <class T>
void read_part(const Json& question, wire::Reader& whole, const char* key, T& part, Problems& problems) {
  whole.expect(key);
  const auto found = question.find(key);
  if (found == question.end()) return;
  const std::string path = std::string(here) + "/" + key;
  if (!found->is_object()) return problems.push_back({"not_an_object", path, said("{0} must be an object with named fields.", path)});
  wire::Reader reader(*found, path, problems);
  describe(reader, part);
  reader.finish();
}

/// Tests left for later that what was read has made due.
Json due_tests(const std::vector<sitting::HandOver>& later, const std::vector<Read>& read) {
  Json due = Json::array();
  for (const sitting::HandOver& rule : later)
    for (const Read& each : read)
      if (each.test == rule.first && sitting::other_is_due(rule, {.form = each.form, .value = each.value, .upper_value = each.upper_value})) {
        due.push_back(rule.then);
        break;
      }
  return due;
}

sitting::HandTimes times_from(const GivenTimes& given) {
  sitting::HandTimes times;
  const auto take = [](seconds& time, const std::optional<int>& own) {
    if (own) time = seconds(*own);
  };
  take(times.fill, given.fill);
  take(times.bottle, given.bottle);
  take(times.drop, given.drop);
  take(times.titration, given.titration);
  take(times.spoon, given.spoon);
  take(times.mix, given.mix);
  take(times.read, given.read);
  take(times.begin, given.begin);
  take(times.whole_test, given.whole_test);
  return times;
}

Json refused(Problems problems, const report::Reader& shown_to) {
  for (Problem& problem : problems)
    if (!problem.field.starts_with(here)) problem.field = std::string(here) + problem.field;
  return json_from_problems(problems, shown_to);
}

}  // namespace

Json sitting_asked(const Json& request, const report::Reader& shown_to) {
  const Json& question = request["bench_schedule"];
  if (!question.is_object()) return json_from_problems({{"not_an_object", std::string(here), "A timetable is asked as {\"kit\": …, \"hands\": 1}."}}, shown_to);
  Problems problems;
  Question asked_for;
  GivenTimes times;
  State state;
  wire::Reader reader(question, std::string(here), problems);
  describe(reader, asked_for);
  read_part(question, reader, "hand_times", times, problems);
  read_part(question, reader, "state", state, problems);
  reader.expect("kit");
  reader.finish();
  const auto kit = kit_in(question, here);
  if (!kit) problems.insert(problems.end(), kit.problems().begin(), kit.problems().end());
  if (!problems.empty()) return refused(std::move(problems), shown_to);

  sitting::Asked asked{.tests = asked_for.tests, .hands = asked_for.hands.value_or(1), .hand_over = asked_for.hand_over, .times = times_from(times)};
  for (const LastRead& each : asked_for.last_read) asked.expected.push_back({each.quantity, each.value});
  std::vector<sitting::Standing> standing;
  for (const Begun& each : state.begun) standing.push_back({each.test, each.steps_done, seconds(each.ended_ago)});
  std::vector<seconds> free_in;
  for (const FreeIn& each : state.free_in) free_in.emplace_back(each.seconds);
  const auto table = question.contains("state") ? sitting::continue_from(*kit, asked, standing, free_in) : sitting::timetable(*kit, asked);
  if (!table) return refused(table.problems(), shown_to);
  Json out = Json::object();
  out["bench_schedule"] = report::sitting_json(*kit, *table, asked.hands, shown_to);
  if (!asked_for.read.empty()) out["bench_schedule"]["due"] = due_tests(table->later, asked_for.read);
  return out;
}

}  // namespace redd::desk
