#include "intake/calendar.h"
#include "intake/import.h"
#include "records/school_calendar.h"
#include "wire/json.h"

namespace redd::intake {
namespace {

const char* word_of(Certainty certainty) {
  switch (certainty) {
    case Certainty::given: return "given";
    case Certainty::certain: return "certain";
    case Certainty::likely: return "likely";
    case Certainty::open: return "open";
  }
  broken_promise("word_of", "unknown certainty");
}

wire::Json bad_rows_json(const std::vector<BadRow>& bad, std::size_t rows, const Worded& worded) {
  wire::Json out = wire::Json::array();
  for (const BadRow& row : bad) {
    if (out.size() == rows) break;
    out.push_back({{"line", row.line}, {"column", row.column}, {"cell", row.cell}, {"code", row.problem.code}, {"sentence", worded(row.problem.sentence)}});
  }
  return out;
}

wire::Json worded_json(const std::vector<Phrase>& notes, const Worded& worded) {
  wire::Json out = wire::Json::array();
  for (const Phrase& note : notes) out.push_back(worded(note));
  return out;
}

}  // namespace

std::string json_from_preview(const Preview& preview, std::size_t rows, const Worded& worded) {
  using wire::Json;
  Json guesses = Json::array(), good = Json::array();
  for (const Guess& g : preview.guesses)
    guesses.push_back({{"key", g.key}, {"value", g.value}, {"certainty", word_of(g.certainty)}, {"reason", worded(g.reason)}, {"alternatives", g.alternatives}});
  for (const GoodRow& row : preview.good) {
    if (good.size() == rows) break;
    good.push_back({{"line", row.line}, {"at", rfc3339_from_instant(row.at)}, {"text", worded(row.text)}});
  }
  Json columns = Json::array(), meanings = Json::array();
  for (const ShownColumn& column : preview.columns) columns.push_back({{"header", column.header}, {"role", column.role}, {"samples", worded_json(column.samples, worded)}});
  for (const Meaning& meaning : preview.meanings) meanings.push_back({{"word", meaning.word}, {"label", worded(meaning.label)}});
  const Json all{{"kind", preview.kind}, {"columns", columns}, {"meanings", meanings}, {"guesses", guesses}, {"good", good}, {"bad", bad_rows_json(preview.bad, rows, worded)}, {"notes", worded_json(preview.notes, worded)},
                 {"good_count", preview.good.size()}, {"bad_count", preview.bad.size()}, {"entry_count", preview.entries.size()}};
  return wire::printed(all);
}

std::string json_from_calendar_preview(const CalendarPreview& preview, std::size_t rows, const Worded& worded) {
  using wire::Json;
  Json closures = Json::array(), left_out = Json::array();
  for (const ClosureRow& row : preview.closures) {
    if (closures.size() == rows) break;
    Json one{{"line", row.line}, {"name", row.closure.name}, {"from", iso_from_date(row.closure.from)}, {"to", iso_from_date(records::last_day_of(row.closure))}, {"standing", std::string(standing_text(row.standing))}};
    if (row.closure.shut_from) one["shut_from"] = *row.closure.shut_from;
    closures.push_back(std::move(one));
  }
  for (const LeftOut& row : preview.left_out) {
    if (left_out.size() == rows) break;
    left_out.push_back({{"line", row.line}, {"summary", row.summary}, {"day", row.times > 0 ? Json(iso_from_date(row.day)) : Json(nullptr)}, {"times", row.times}, {"reason", worded(row.reason)}});
  }
  const Json all{{"kind", "calendar"}, {"name", preview.name}, {"closures", closures}, {"left_out", left_out}, {"bad", bad_rows_json(preview.bad, rows, worded)}, {"notes", worded_json(preview.notes, worded)},
                 {"closure_count", preview.closures.size()}, {"left_out_count", preview.left_out.size()}, {"bad_count", preview.bad.size()}, {"entry_count", preview.entries.size()}};
  return wire::printed(all);
}

}  // namespace redd::intake
