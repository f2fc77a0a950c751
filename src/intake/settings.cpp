// Settings from words, as flags and form fields carry them.

#include <algorithm>
#include <vector>

#include "intake/detail/cells.h"
#include "intake/detail/dates.h"
#include "intake/detail/kinds.h"
#include "intake/import.h"
#include "quantities/verbatim.h"

namespace redd::intake {
namespace {

struct Field {
  std::string_view name;
  std::optional<std::string> Settings::*member;
  std::vector<std::string_view> words{};  ///< accepted; empty: any text
};

const std::vector<Field>& fields() {
  static const std::vector<Field> all{
      {"kind", &Settings::kind, {"readings_long", "readings_wide", "temperature_logger"}},
      {"delimiter", &Settings::delimiter, {"comma", "semicolon", "tab"}},
      {"decimal_mark", &Settings::decimal_mark, {"point", "comma"}},
      {"unit", &Settings::unit, {"c", "f"}},
      {"date_order", &Settings::date_order, {"ymd", "dmy", "mdy", "serial_1900", "serial_1904"}},
      {"time_zone", &Settings::time_zone},
      {"time_of_day", &Settings::time_of_day},
      {"header_line", &Settings::header_line},
      {"time_column", &Settings::time_column},
      {"value_column", &Settings::value_column},
      {"place", &Settings::place, {"tank", "room", "source"}},
      {"kit", &Settings::kit},
      {"drop_cells", &Settings::drop_cells, {"drops", "value"}},
      {"dead_counts", &Settings::dead_counts, {"new", "total"}},
      {"from", &Settings::from},
      {"to", &Settings::to},
  };
  return all;
}

template <class Range>
std::string joined(const Range& words) {
  std::string text;
  for (const auto& word : words) text += (text.empty() ? "" : ", ") + std::string(word);
  return text;
}

/// What is wrong with one setting, if anything.
std::optional<Problem> problem_of(const Field& field, const std::string& word) {
  if (!field.words.empty() && std::ranges::find(field.words, word) == field.words.end())
    return Problem{"unknown_word", std::string(field.name), said("{0} is \"{1}\"; it must be one of: {2}.", verbatim(field.name), detail::shown(word), verbatim(joined(field.words)))};
  if (field.name == "time_of_day" && !detail::time_of_day(word))
    return Problem{"not_a_time", "time_of_day", said("time_of_day must be a time such as 07:50, not \"{0}\".", detail::shown(word))};
  return std::nullopt;
}

}  // namespace

Problems detail::problems_of(const Settings& settings) {
  Problems problems;
  for (const Field& field : fields())
    if (const auto& word = settings.*(field.member))
      if (auto problem = problem_of(field, *word)) problems.push_back(std::move(*problem));
  if (settings.author.empty() || settings.author.size() > 64) problems.push_back({"bad_label", "author", "author must be a label of 1 to 64 characters."});
  return problems;
}

Result<Settings> settings_from_words(const std::map<std::string, std::string>& words) {
  Settings settings;
  Problems problems;
  for (const auto& [name, word] : words) {
    const auto field = std::ranges::find(fields(), name, &Field::name);
    if (name.starts_with("columns/")) {
      settings.columns[name.substr(8)] = word;
    } else if (name == "author") {
      settings.author = word;
    } else if (field != fields().end()) {
      settings.*(field->member) = word;
    } else {
      std::vector<std::string_view> names;
      for (const Field& f : fields()) names.push_back(f.name);
      problems.push_back({"unknown_field", name, said("\"{0}\" is not a setting of an import; settings are: {1}, columns/<header>, author.", detail::shown(name), verbatim(joined(names)))});
    }
  }
  for (Problem& p : detail::problems_of(settings)) problems.push_back(std::move(p));
  if (!problems.empty()) return problems;
  return settings;
}

}  // namespace redd::intake
