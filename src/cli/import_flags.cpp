#include "cli/import_flags.h"

#include <algorithm>

#include "cli/flags.h"

namespace redd::cli {
namespace {

constexpr std::string_view column_prefix = "columns/";

constexpr ImportFlag shared_flags[] = {
    {"delimiter", "comma, semicolon or tab"},
    {"decimal_mark", "point or comma"},
    {"date_order", "ymd, dmy or mdy"},
    {"time_zone", "of the times in the file: an IANA name or UTC-07:00"},
    {"header_line", "line of the header, counted from 1"},
    {"time_column", "header or number of the date column"},
    {"unit", "of temperatures: c or f"},
    {"from", "leave out rows before this day or time"},
    {"to", "leave out rows after this day or time"},
    {"author", "label the records carry"},
};
constexpr ImportFlag flags_of_readings[] = {
    {"kind", "readings_long (a row a reading) or readings_wide (a column a test)"},
    {"kit", "kit the readings were made with"},
    {"time_of_day", "hh:mm, where the file has days only"},
    {"drop_cells", "drops or value: what a number of a drop test stands for"},
    {"dead_counts", "new or total: whether numbers of dead are that day's or all so far"},
};
constexpr ImportFlag flags_of_temperatures[] = {
    {"value_column", "header or number of the temperature column"},
    {"place", "tank, room or source"},
};

/// As a shell takes it for one word.
std::string shell_word(const std::string& text) {
  const bool plain = !text.empty() && std::ranges::all_of(text, [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
           std::string_view("_-+./:,=@").find(c) != std::string_view::npos;
  });
  if (plain) return text;
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\' || c == '$' || c == '`') quoted += '\\';
    quoted += c;
  }
  return quoted + "\"";
}

}  // namespace

std::vector<ImportFlag> import_flags(std::string_view what) {
  std::vector<ImportFlag> flags;
  if (what == "readings")
    flags.assign(std::begin(flags_of_readings), std::end(flags_of_readings));
  else
    flags.assign(std::begin(flags_of_temperatures), std::end(flags_of_temperatures));
  flags.insert(flags.end(), std::begin(shared_flags), std::end(shared_flags));
  return flags;
}

std::optional<std::string> flag_of_setting(std::string_view what, std::string_view setting) {
  if (setting.starts_with(column_prefix)) return "--column";
  const auto flags = import_flags(what);
  const auto found = std::ranges::find(flags, setting, [](const ImportFlag& flag) { return std::string_view(flag.setting); });
  return found == flags.end() ? std::nullopt : std::optional("--" + dashed(setting));
}

std::optional<std::string> typed_flag(std::string_view what, std::string_view setting, const std::string& value) {
  const auto flag = flag_of_setting(what, setting);
  if (!flag) return std::nullopt;
  if (!setting.starts_with(column_prefix)) return *flag + " " + shell_word(value);
  return *flag + " " + shell_word(std::string(setting.substr(column_prefix.size())) + "=" + value);
}

std::vector<std::string> alternatives_of(std::string_view what, const intake::Guess& guess) {
  std::vector<std::string> others = guess.alternatives;
  // A temperature trace has a command of its own.
  std::erase_if(others, [&](const std::string& other) {
    return other == guess.value || (what == "readings" && guess.key == "kind" && other == "temperature_logger");
  });
  return others;
}

}  // namespace redd::cli
