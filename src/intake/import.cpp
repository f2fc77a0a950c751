#include "intake/import.h"

#include <algorithm>

#include "intake/detail/cells.h"
#include "intake/detail/columns.h"
#include "intake/detail/kinds.h"
#include "quantities/verbatim.h"

namespace redd::intake {
namespace {

using detail::Table;

std::string kind_concluded(const Table& table, const Settings& settings, const Context& context, Preview& preview) {
  const std::vector<std::string> all{"readings_long", "readings_wide", "temperature_logger"};
  if (settings.kind) {
    detail::add_guess(preview, "kind", *settings.kind, Certainty::given, "you said so");
    return *settings.kind;
  }
  std::string kind = "temperature_logger", reason = "it has dates and a column of temperatures, and no column named like a test";
  if (detail::is_long(table)) {
    kind = "readings_long";
    reason = "it has a column that names tests and one with their results";
  } else if (detail::has_test_columns(table, settings, context)) {
    kind = "readings_wide";
    reason = "it has columns named like tests";
  }
  detail::add_guess(preview, "kind", kind, Certainty::likely, reason, all);
  return kind;
}

/// A later line of the preview may not come before an earlier one, whichever order they were found in.
void put_in_order(Preview& preview) {
  std::ranges::stable_sort(preview.good, {}, &GoodRow::line);
  std::ranges::stable_sort(preview.bad, {}, &BadRow::line);
}

}  // namespace

Result<Preview> preview_import(std::string_view bytes, const Settings& settings, const Context& context) {
  if (Problems problems = detail::problems_of(settings); !problems.empty()) return problems;
  Preview preview;
  auto table = detail::table_of(bytes, settings, context, preview);
  if (!table) return table.problems();
  preview.kind = kind_concluded(*table, settings, context, preview);
  const auto read = preview.kind == "readings_long"   ? detail::read_readings_long
                    : preview.kind == "readings_wide" ? detail::read_readings_wide
                                                      : detail::read_logger;
  if (auto done = read(*table, settings, context, preview); !done) return done.problems();
  put_in_order(preview);
  preview.columns = detail::shown_columns(*table);
  if (preview.kind == "readings_wide") preview.meanings = detail::column_meanings(context);
  return preview;
}

Result<std::vector<records::Entry>> entries_to_keep(const Preview& preview, Decision decision) {
  Problems problems;
  std::string likely;
  for (const Guess& guess : preview.guesses) {
    if (guess.certainty == Certainty::open) {
      Phrase words = verbatim(guess.value);
      for (const std::string& other : guess.alternatives) words = said("{0} or {1}", words, verbatim(other));
      problems.push_back({"open_question", guess.key, said("The file leaves open: {0}. {1}. Say {2}.", verbatim(guess.key), guess.reason, words)});
    }
    if (guess.certainty == Certainty::likely) likely += (likely.empty() ? "" : ", ") + guess.key + " = " + guess.value;
  }
  if (!likely.empty() && !decision.accept_guesses)
    problems.push_back({"not_confirmed", "", said("Please confirm what was concluded: {0}.", verbatim(likely))});
  if (!decision.keep_good_rows)
    for (const BadRow& bad : preview.bad) {
      problems.push_back(bad.problem);
      if (problems.size() > 200) break;
    }
  if (!problems.empty()) return problems;
  return preview.entries;
}

}  // namespace redd::intake
