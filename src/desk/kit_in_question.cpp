#include "desk/kit_in_question.h"

#include <utility>

#include "wire/codec.h"

namespace redd::desk {

Result<records::Kit> kit_in(const wire::Json& question, std::string_view here) {
  const std::string path = std::string(here) + "/kit";
  if (!question.contains("kit")) return Problem{"missing", path, "This needs the kit: {\"kit\": {\"key\", \"name\", \"tests\"}}."};
  auto body = wire::body_from_json("kit", wire::printed(question["kit"]), path);
  if (!body) return body.problems();
  auto kit = std::get<records::Kit>(std::move(body).value());
  Problems problems = records::problems_of(kit);
  for (Problem& problem : problems) problem.field = path + problem.field;
  if (!problems.empty()) return problems;
  return kit;
}

}  // namespace redd::desk
