#include "engine/engine.h"

#include <nlohmann/json.hpp>

#include "quantities/result.h"

namespace redd::engine {
namespace {

using Json = nlohmann::ordered_json;

Json json_from_problems(const Problems& problems) {
  Json list = Json::array();
  for (const Problem& problem : problems)
    list.push_back({{"code", problem.code}, {"field", problem.field}, {"sentence", problem.sentence}});
  return {{"problems", std::move(list)}};
}

Json answer_from_request(const Json& request) {
  if (request.is_discarded())
    return json_from_problems({{"not_json", "", "The question is not JSON. Send one object, such as {\"ping\": 1}."}});
  if (!request.is_object())
    return json_from_problems({{"not_an_object", "", "The question is JSON, but not an object. Send one such as {\"ping\": 1}."}});
  if (const auto ping = request.find("ping"); ping != request.end()) return {{"pong", *ping}};
  return json_from_problems({{"unknown_question", "", "The object asks nothing known here. It must have the key \"ping\"."}});
}

}  // namespace

std::string answer(std::string_view request_json) {
  // Without exceptions: text that is not JSON becomes a discarded value, and broken UTF-8 is replaced on the way out.
  const Json request = Json::parse(request_json, nullptr, false);
  return answer_from_request(request).dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace redd::engine
