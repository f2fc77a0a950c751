#include "server/app.h"

#include "desk/reader.h"
#include "server/guard.h"
#include "server/network_door.h"
#include "server/own_routes.h"
#include "server/page_files.h"
#include "server/single_file.h"
#include "server/visit.h"
#include "server/witness_desk.h"

namespace redd::server {
namespace {

bool is_api(const Request& request) { return request.path == "/api" || request.path.starts_with("/api/"); }

}  // namespace

template <class Answer>
Response App::worded(const Request& request, const Answer& answer) const {
  const auto asked = desk::reader_of(request);
  const report::Reader reader = asked ? *asked : report::Reader{};
  Response response = asked ? answer(desk::without_reader(request), reader) : refusal(400, asked.problems());
  word_problems(response, reader);
  if (is_api(request)) response.headers.emplace_back("Content-Language", report::tag_of(reader.language));
  add_safety_headers(response);
  return response;
}

Response App::handle(const Request& request) const {
  return worded(request, [this](const Request& plain, const report::Reader& reader) {
    if (auto refused = refused_by_guard(plain)) return *refused;
    return answer(plain, reader, desk_, Visit(desk_, classroom_, {classroom::Role::this_machine}));
  });
}

Response App::handle_from_network(const Request& request) const {
  return worded(request, [this](const Request& plain, const report::Reader& reader) { return answer_guest(plain, reader); });
}

Response App::answer_guest(const Request& request, const report::Reader& reader) const {
  if (!classroom_ || !classroom_->network()) return refusal(403, "network_off", "", "Redd answers only on the machine it runs on.");
  if (auto refused = refused_at_door(request, *classroom_)) return *refused;
  const Visit visit(desk_, classroom_, classroom_->visitor(token_of(request), request.from));
  if (auto refused = refused_by_role(request, visit.visitor, desk_)) return *refused;
  WitnessDesk witness(desk_);
  Response response = answer(request, reader, witness, visit);
  classroom_->note_records(visit.visitor, witness.added());
  classroom_->note_taken_in(visit.visitor, witness.taken_in());
  return response;
}

Response App::answer(const Request& request, const report::Reader& reader, desk::Desk& desk, const Visit& visit) const {
  static const std::vector<Route> table = routes();
  if (auto answered = desk::answer_by(table, request, desk, filter_, plans_, reader, &visit)) return *answered;
  if (is_api(request))
    return refusal(404, "unknown_address", "",
                   "There is nothing at this address. GET /api/openapi.json lists what there is.");
  const bool only_looks = request.method == "GET" || request.method == "HEAD";
  if (only_looks && request.path == "/redd.html") return single_file_response();
  if (only_looks) return page_file(request);
  Response response = refusal(405, "wrong_method", "", said("This address does not take {0}; it takes {1}.", request.method.substr(0, 20), "GET, HEAD"));
  response.headers.emplace_back("Allow", "GET, HEAD");
  return response;
}

}  // namespace redd::server
