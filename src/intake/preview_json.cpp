#include "intake/import.h"
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

}  // namespace

std::string json_from_preview(const Preview& preview, std::size_t rows) {
  using wire::Json;
  Json guesses = Json::array(), good = Json::array(), bad = Json::array();
  for (const Guess& g : preview.guesses)
    guesses.push_back({{"key", g.key}, {"value", g.value}, {"certainty", word_of(g.certainty)}, {"reason", g.reason}, {"alternatives", g.alternatives}});
  for (const GoodRow& row : preview.good) {
    if (good.size() == rows) break;
    good.push_back({{"line", row.line}, {"at", rfc3339_from_instant(row.at)}, {"text", row.text}});
  }
  for (const BadRow& row : preview.bad) {
    if (bad.size() == rows) break;
    bad.push_back({{"line", row.line}, {"column", row.column}, {"cell", row.cell}, {"code", row.problem.code}, {"sentence", row.problem.sentence}});
  }
  const Json all{{"kind", preview.kind}, {"guesses", guesses}, {"good", good}, {"bad", bad}, {"notes", preview.notes},
                 {"good_count", preview.good.size()}, {"bad_count", preview.bad.size()}, {"entry_count", preview.entries.size()}};
  return wire::printed(all);
}

}  // namespace redd::intake
