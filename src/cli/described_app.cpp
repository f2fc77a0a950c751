#include "cli/described_app.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <sstream>

#include "cli/words_of_help.h"

namespace redd::cli {
namespace {

/// What the parser itself calls things in --help, and what values are called.
constexpr const char* labels[] = {"Usage", "OPTIONS", "Positionals", "SUBCOMMAND", "REQUIRED", "Needs", "Excludes", "TEXT", "VALUE",
                                  "LOWER UPPER", "BODY", "DIR", "FILE", "DAY", "LANGUAGE", "UNITS", "INT", "UINT", "FLOAT"};

void translate_below(CLI::App& app, report::Language language) {
  app.description(help_text(app.get_description(), language));
  app.footer(help_text(app.get_footer(), language));
  for (CLI::Option* option : app.get_options()) {
    option->description(help_text(option->get_description(), language));
    if (option->get_group() == "Options") option->group(help_text("Options", language));
  }
  for (CLI::App* below : app.get_subcommands([](CLI::App*) { return true; })) {
    below->group(help_text("Commands", language));
    translate_below(*below, language);
  }
}

/// "UNITS:{metric,us}" is a name and the words of a check.
std::vector<std::string> words_of_check(const std::string& type) {
  const std::size_t open = type.find('{'), close = type.find('}');
  std::vector<std::string> words;
  if (open == std::string::npos || close == std::string::npos) return words;
  std::istringstream list(type.substr(open + 1, close - open - 1));
  for (std::string word; std::getline(list, word, ',');) words.push_back(word);
  return words;
}

OptionText::Names names_of(const CLI::Option& option) {
  const std::string type = option.get_type_name();
  if (type == "DIR") return OptionText::Names::folder;
  return type == "FILE" ? OptionText::Names::file : OptionText::Names::anything;
}

OptionText option_text(const CLI::Option& option, report::Language language) {
  OptionText text;
  for (const std::string& name : option.get_snames()) text.flags.push_back("-" + name);
  for (const std::string& name : option.get_lnames()) text.flags.push_back("--" + name);
  if (option.get_positional()) text.place = option.get_name(true, false);
  if (option.get_items_expected_max() > 0) {
    const std::string type = option.get_type_name();
    text.value = help_text(type.substr(0, type.find(':')), language);
    text.names = names_of(option);
    text.choices = words_of_check(type);
  }
  text.otherwise = option.get_default_str();
  text.meaning = option.get_description();
  text.required = option.get_required();
  text.repeats = option.get_expected_max() > 2;
  return text;
}

}  // namespace

void translate_help(CLI::App& app, report::Language language) {
  for (const char* label : labels) app.get_formatter()->label(label, help_text(label, language));
  translate_below(app, language);
}

CommandText description_of(const CLI::App& app, report::Language language, const KnownWords& known) {
  CommandText command;
  for (const CLI::App* at = &app; at != nullptr; at = at->get_parent()) command.path.insert(command.path.begin(), at->get_name());
  command.summary = app.get_description();
  command.examples = app.get_footer();
  command.needs_command = app.get_require_subcommand_min() > 0;
  for (const CLI::Option* option : app.get_options()) {
    if (app.get_parent() != nullptr && option == app.get_help_ptr()) continue;  // told once, of the program
    OptionText text = option_text(*option, language);
    if (text.choices.empty()) text.choices = known(command, *option);
    command.options.push_back(std::move(text));
  }
  for (const CLI::App* below : app.get_subcommands([](const CLI::App*) { return true; }))
    if (!below->get_name().empty()) command.commands.push_back(description_of(*below, language, known));
  return command;
}

}  // namespace redd::cli
