#include "desk/lessons_question.h"

#include "desk/calc_json.h"
#include "desk/day_question.h"
#include "report/lessons_view.h"

namespace redd::desk {

using wire::Json;

Json lessons_asked(const Json& request, const report::Reader& reader) {
  const Json& question = request["lessons"];
  const auto asked = day_from(question, "/lessons");
  if (!asked) return json_from_problems(asked.problems(), reader);
  int sheet = 1;
  if (const auto given = question.find("sheet"); given != question.end()) {
    if (!given->is_number_integer() || given->get<long long>() < 1 || given->get<long long>() > lessons::most_sheets)
      return json_from_problems({{"out_of_range", "/lessons/sheet", said("The number of a sheet is a whole number from 1 to {0}.", lessons::most_sheets)}}, reader);
    sheet = given->get<int>();
  }
  const auto look = season::look_at_lessons({asked->zone}, asked->records, asked->now, sheet, reader.fahrenheit);
  if (!look) return json_from_problems(look.problems(), reader);
  Json out = Json::object();
  out["lessons"] = report::lessons_json(*look, reader);
  return out;
}

}  // namespace redd::desk
