// Handlers of the water programme and of a proposed change.
#include "desk/asked.h"
#include "desk/handlers.h"
#include "quantities/verbatim.h"
#include "report/water_plan_view.h"
#include "season/water_look.h"
#include "wire/json.h"

namespace redd::desk {
namespace {

using wire::Json;

std::optional<double> number_in(const Json& tree, const char* key, double low, double high, const char* sentence, Problems& problems) {
  if (!tree.contains(key)) return std::nullopt;
  if (tree[key].is_number() && tree[key].get<double>() >= low && tree[key].get<double>() <= high) return tree[key].get<double>();
  problems.push_back({"out_of_range", std::string("/") + key, sentence});
  return std::nullopt;
}

bool truth_in(const Json& tree, const char* key, bool absent, Problems& problems) {
  if (!tree.contains(key)) return absent;
  if (tree[key].is_boolean()) return tree[key].get<bool>();
  problems.push_back({"not_a_truth", std::string("/") + key, said("{0} is true or false.", key)});
  return absent;
}

/// {"fraction": 0.3} or {"volume_l": 60}, and what else is known of the new water.
Result<planning::ChangeWished> wished_from(const std::string& body, Volume tank) {
  const auto tree = wire::parsed(body);
  if (!tree) return tree.problems();
  if (!tree->is_object()) return Problem{"not_an_object", "", "Send what to change: {\"fraction\": 0.3}, or {\"volume_l\": 60, \"source\": \"tap\", \"new_water_c\": 9}."};
  Problems problems;
  planning::ChangeWished wished;
  for (const auto& [key, value] : tree->items()) {
    bool known = false;
    for (const char* name : {"fraction", "volume_l", "source", "new_water_c", "vacuum", "stood", "dechlorinated"}) known = known || key == name;
    if (!known) problems.push_back({"unknown_field", "/" + key, said("\"{0}\" is not a field of a proposed change.", verbatim(key))});
  }
  const auto fraction = number_in(*tree, "fraction", 1e-6, 1.0, "A change is more than nothing and at most the whole tank: fraction is above 0 and at most 1.", problems);
  const auto litres = number_in(*tree, "volume_l", 1e-6, tank.l(), "A change is more than nothing and at most the whole tank.", problems);
  if (problems.empty() && fraction.has_value() == litres.has_value()) problems.push_back({"exclusive_fields", "/fraction", "Send fraction or volume_l, one of the two."});
  wished.fraction = fraction ? *fraction : litres ? *litres / tank.l() : 0.0;
  if (const auto c = number_in(*tree, "new_water_c", -2.0, 45.0, "The new water's temperature is a number from -2 to 45 °C.", problems)) wished.new_water = Temperature::from_c(*c);
  if (tree->contains("source")) {
    if ((*tree)["source"].is_string()) wished.source = (*tree)["source"].get<std::string>();
    else problems.push_back({"not_a_text", "/source", "source is the key of a source water on record."});
  }
  wished.vacuum = truth_in(*tree, "vacuum", false, problems);
  wished.stood = truth_in(*tree, "stood", true, problems);
  wished.dechlorinated = truth_in(*tree, "dechlorinated", true, problems);
  if (!problems.empty()) return problems;
  return wished;
}

}  // namespace

Response water_plan(const Call& call) {
  const auto asked = asked_of(call);
  if (!asked) return refused(asked.problems());
  const auto look = season::look_at_water({asked->look->zone}, asked->look->records, asked->now, filter_at_hand(call, *asked).outlook.get());
  if (!look) return refused(look.problems());
  return json_response(wire::printed(Json{{"water_plan", report::water_plan_json(*look, call.reader)}}));
}

Response try_water(const Call& call) {
  const auto asked = asked_of(call);
  if (!asked) return refused(asked.problems());
  const auto wished = wished_from(call.request.body, asked->look->season->volume);
  if (!wished) return refused(wished.problems());
  const auto trial = season::try_water({asked->look->zone}, asked->look->records, asked->now, *wished, filter_at_hand(call, *asked).outlook.get());
  if (!trial) return refused(trial.problems());
  return json_response(wire::printed(Json{{"tried", report::tried_water_json(*trial, call.reader)}}));
}

}  // namespace redd::desk
