// Handlers of the shared classroom: who asks, signing in and out, bench codes, sessions, and who did what.
#include <charconv>

#include "desk/handlers.h"
#include "server/audit_view.h"
#include "server/network_door.h"
#include "server/own_routes.h"
#include "server/visit.h"
#include "wire/json.h"
#include "wire/reader.h"

namespace redd::server {
namespace {

using classroom::Role;
using wire::Json;

Json text_or_null(const std::string& text) { return text.empty() ? Json() : Json(text); }

Json state_json(const Classroom* classroom, const Visitor& visitor) {
  const Network* network = classroom && classroom->network() ? &*classroom->network() : nullptr;
  const bool is_keeper = visitor.role >= Role::keeper;
  Json answer{{"role", std::string(name_of(visitor.role))}, {"network", network != nullptr}, {"label", text_or_null(visitor.label)}, {"ends_at", Json()}, {"idle_minutes", Json()}, {"may_log", Json()}, {"addresses", Json::array()}, {"fingerprint", Json()}, {"certificate_ends_at", Json()}};
  if (visitor.session != 0) {
    answer["ends_at"] = rfc3339_from_instant(visitor.ends_at);
    answer["idle_minutes"] = classroom::longest_idle.count();
  }
  if (!is_keeper) {
    answer["may_log"] = Json::array();
    if (visitor.role == Role::bench)
      for (const std::string_view kind : classroom::kinds_of_the_bench()) answer["may_log"].push_back(std::string(kind));
  }
  if (network && is_keeper) {
    answer["addresses"] = network->addresses;
    answer["fingerprint"] = network->certificate.fingerprint;
    answer["certificate_ends_at"] = rfc3339_from_instant(network->certificate.ends_at);
  }
  return answer;
}

/// The classroom, where Redd listens on the network; else why there is nothing to open or to end.
Result<Classroom*> open_classroom(const Call& call) {
  Classroom* classroom = visit_of(call).classroom;
  if (classroom && classroom->network()) return classroom;
  return Problem{"network_off", "", "Redd listens on this machine only, so there is nobody to let in. Start it with: redd serve --on-network"};
}

Response network_off(const Result<Classroom*>& none) { return refusal(409, none.problems()); }

Json access_json(Classroom& classroom, const Visitor& visitor) {
  const auto sessions = classroom.sessions();
  Json answer{{"sessions", Json::array()}, {"codes", Json::array()}};
  for (const classroom::Session& session : sessions)
    answer["sessions"].push_back({{"id", session.id}, {"role", std::string(name_of(session.role))}, {"label", text_or_null(session.label)}, {"from", session.from}, {"began_at", rfc3339_from_instant(session.began_at)}, {"last_seen_at", rfc3339_from_instant(session.last_seen_at)}, {"ends_at", rfc3339_from_instant(session.ends_at)}, {"own", session.id == visitor.session}});
  for (const classroom::BenchCode& code : classroom.codes())
    answer["codes"].push_back({{"id", code.id}, {"label", text_or_null(code.label)}, {"made_at", rfc3339_from_instant(code.made_at)}, {"ends_at", rfc3339_from_instant(code.ends_at)}, {"sessions", std::ranges::count(sessions, code.id, &classroom::Session::code)}});
  return answer;
}

Result<Json> object_in(const Call& call) {
  auto tree = wire::parsed(call.request.body);
  if (!tree) return tree.problems();
  if (!tree->is_object()) return Problem{"not_an_object", "", "Send an object, {} where there is nothing to say."};
  return std::move(tree).value();
}

/// {} and nothing else.
Problems problems_of_nothing(const Call& call) {
  const auto tree = object_in(call);
  if (!tree) return tree.problems();
  Problems problems;
  wire::Reader reader(*tree, "", problems);
  reader.finish();
  return problems;
}

std::optional<long long> number_in_path(const Call& call) {
  const std::string& text = call.parts.at(0);
  long long number = 0;
  const auto read = std::from_chars(text.data(), text.data() + text.size(), number);
  if (read.ec != std::errc() || read.ptr != text.data() + text.size() || number < 1) return std::nullopt;
  return number;
}

/// Ends one thing by its number and shows what is open then.
Response ended(const Call& call, bool (Classroom::*end)(long long, const Visitor&), const char* none) {
  const auto classroom = open_classroom(call);
  if (!classroom) return network_off(classroom);
  if (const Problems problems = problems_of_nothing(call); !problems.empty()) return desk::refused(problems);
  const Visitor& visitor = visit_of(call).visitor;
  const auto number = number_in_path(call);
  if (!number || !((*classroom)->*end)(*number, visitor)) return refusal(404, "not_open", "id", none);
  return json_response(wire::printed(access_json(**classroom, visitor)));
}

}  // namespace

Response classroom_state(const Call& call) {
  const Visit& visit = visit_of(call);
  return json_response(wire::printed(state_json(visit.classroom, visit.visitor)));
}

Response sign_in(const Call& call) {
  const auto open = open_classroom(call);
  if (!open) return network_off(open);
  const Visit& visit = visit_of(call);
  if (visit.visitor.role == Role::this_machine) return refusal(409, "not_needed", "", "At the machine that Redd runs on nobody signs in.");
  const auto tree = object_in(call);
  if (!tree) return desk::refused(tree.problems());
  Problems problems;
  std::optional<std::string> passphrase, code;
  wire::Reader reader(*tree, "", problems);
  reader.text("passphrase", passphrase, "the keeper's passphrase");
  reader.text("code", code, "a bench code");
  reader.finish();
  if (problems.empty() && passphrase.has_value() == code.has_value()) problems.push_back({"missing", "", "Give either the passphrase or a bench code."});
  if (!problems.empty()) return desk::refused(problems);
  Classroom& classroom = **open;
  const Tried tried = passphrase ? classroom.sign_in_with_passphrase(*passphrase, visit.visitor.from, token_of(call.request)) : classroom.sign_in_with_code(*code, visit.visitor.from, token_of(call.request));
  if (!tried.visitor) return refusal_of(tried);
  Response response = json_response(wire::printed(state_json(&classroom, *tried.visitor)));
  response.headers.emplace_back("Set-Cookie", cookie_with(tried.token, tried.visitor->ends_at - call.desk.clock()));
  return response;
}

Response sign_out(const Call& call) {
  if (const Problems problems = problems_of_nothing(call); !problems.empty()) return desk::refused(problems);
  const Visit& visit = visit_of(call);
  if (visit.visitor.role == Role::this_machine) return json_response(wire::printed(state_json(visit.classroom, visit.visitor)));
  visit.classroom->sign_out(visit.visitor);
  Response response = json_response(wire::printed(state_json(visit.classroom, {Role::nobody, "", visit.visitor.from})));
  response.headers.emplace_back("Set-Cookie", cookie_of_nobody());
  return response;
}

Response access(const Call& call) {
  const auto classroom = open_classroom(call);
  if (!classroom) return network_off(classroom);
  return json_response(wire::printed(access_json(**classroom, visit_of(call).visitor)));
}

Response make_code(const Call& call) {
  const auto classroom = open_classroom(call);
  if (!classroom) return network_off(classroom);
  const auto tree = object_in(call);
  if (!tree) return desk::refused(tree.problems());
  Problems problems;
  std::optional<std::string> team;
  std::optional<int> minutes;
  wire::Reader reader(*tree, "", problems);
  reader.text("team", team, "a team label");
  reader.whole("minutes", minutes, {classroom::shortest_code_life.count(), classroom::longest_code_life.count()}, "how long it lasts");
  reader.finish();
  if (!problems.empty()) return desk::refused(problems);
  const auto made = (*classroom)->make_code(team.value_or(""), minutes ? std::chrono::minutes(*minutes) : classroom::usual_code_life, visit_of(call).visitor);
  if (!made) return refusal(made.problems().front().code == "too_many" ? 409 : made.problems().front().code == "cannot_write" ? 500 : 422, made.problems());
  return json_response(wire::printed(Json{{"code", made->code}, {"id", made->kept.id}, {"label", text_or_null(made->kept.label)}, {"ends_at", rfc3339_from_instant(made->kept.ends_at)}}), 201);
}

Response end_code(const Call& call) { return ended(call, &Classroom::end_code, "There is no such bench code, or it has ended."); }
Response end_session(const Call& call) { return ended(call, &Classroom::end_session, "There is no such session, or it has ended."); }

Response end_all(const Call& call) {
  const auto classroom = open_classroom(call);
  if (!classroom) return network_off(classroom);
  if (const Problems problems = problems_of_nothing(call); !problems.empty()) return desk::refused(problems);
  const Visitor& visitor = visit_of(call).visitor;
  (*classroom)->end_all(visitor);
  return json_response(wire::printed(access_json(**classroom, visitor)));
}

Response audit(const Call& call) {
  const Visit& visit = visit_of(call);
  const auto limit = desk::whole_parameter(call.request, "limit", 1, 500, 100);
  if (!limit) return desk::refused(limit.problems());
  const auto before = desk::whole_parameter(call.request, "before", 0, 9'000'000'000'000'000, -1);
  if (!before) return desk::refused(before.problems());
  const auto look = call.desk.look();
  if (!look) return desk::refused(look.problems());
  if (!visit.classroom) return refusal(404, "unknown_address", "", "This program keeps no list of who did what.");
  const auto list = audit_of(**look, visit.classroom->journal(), call.reader, static_cast<std::size_t>(*limit), *before < 0 ? std::nullopt : std::optional(static_cast<std::size_t>(*before)));
  if (!list) return refusal(500, list.problems());
  return json_response(json_of_audit(*list));
}

}  // namespace redd::server
