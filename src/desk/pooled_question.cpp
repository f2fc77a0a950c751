#include "desk/pooled_question.h"

#include <utility>

#include "desk/calc_json.h"
#include "desk/kit_in_question.h"
#include "quantities/verbatim.h"
#include "report/pooled_view.h"
#include "wire/describe.h"
#include "wire/reader.h"

namespace redd::desk {
namespace {

using wire::Json;
using wire::Range;

constexpr std::string_view here = "/pooled_readings";
constexpr std::size_t most_readings = 40;

struct TeamRead {
  std::string test{};
  records::Reading::Form form = records::Reading::Form::step;
  std::optional<double> value{}, upper_value{};
  std::optional<std::string> team{};
};
struct Question {
  std::vector<TeamRead> readings{};
};

template <class V>
void describe(V& v, TeamRead& r) {
  v.text("test", r.test, "key of the test");
  v.word("form", wire::words::form, r.form, "how the answer was read");
  v.number("value", wire::plain(), r.value, Range{0, 100000}, "the step, the lower of two steps, the drops or the number");
  v.number("upper_value", wire::plain(), r.upper_value, Range{0, 100000}, "the upper of two steps");
  v.text("team", r.team, "team label");
}
template <class V>
void describe(V& v, Question& q) {
  v.list("readings", q.readings, "what each team read");
}

/// The readings with their tests; what is wrong with them goes to `problems`.
std::vector<report::TeamReading> readings_on(const records::Kit& kit, const std::vector<TeamRead>& given, Problems& problems) {
  std::vector<report::TeamReading> readings;
  if (given.empty() || given.size() > most_readings)
    problems.push_back({"wrong_length", std::string(here) + "/readings", said("Give between 1 and {0} readings.", most_readings)});
  for (std::size_t i = 0; i < given.size(); ++i) {
    const TeamRead& each = given[i];
    const std::string path = std::string(here) + "/readings/" + std::to_string(i);
    const records::KitTest* test = records::find_test(kit, each.test);
    const records::Reading reading{.kit = kit.key, .test = each.test, .form = each.form, .value = each.value, .upper_value = each.upper_value};
    if (!test) problems.push_back({"unknown_test", path + "/test", said("Kit \"{0}\" has no test \"{1}\".", verbatim(kit.key), verbatim(each.test))});
    else if (!records::observed_interval(*test, reading)) problems.push_back({"not_on_the_card", path, said("This reading does not fit the card of test \"{0}\".", verbatim(each.test))});
    else if (!readings.empty() && readings.front().read.test.quantity != test->quantity)
      problems.push_back({"two_quantities", path + "/test", "Only readings of one quantity can be taken together."});
    else readings.push_back({each.team.value_or(""), {*test, reading}});
  }
  return readings;
}

}  // namespace

Json pooled_asked(const Json& request, const report::Reader& shown_to) {
  const Json& question = request["pooled_readings"];
  if (!question.is_object())
    return json_from_problems({{"not_an_object", std::string(here), "Readings are pooled as {\"kit\": …, \"readings\": [{\"test\", \"form\", \"value\", \"team\"}, …]}."}}, shown_to);
  Problems problems;
  Question asked;
  wire::Reader reader(question, std::string(here), problems);
  describe(reader, asked);
  reader.expect("kit");
  reader.finish();
  const auto kit = kit_in(question, here);
  if (!kit) problems.insert(problems.end(), kit.problems().begin(), kit.problems().end());
  if (!problems.empty()) return json_from_problems(problems, shown_to);
  const auto readings = readings_on(*kit, asked.readings, problems);
  if (!problems.empty()) return json_from_problems(problems, shown_to);
  Json out = Json::object();
  out["pooled_readings"] = report::pooled_json(readings, shown_to);
  return out;
}

}  // namespace redd::desk
