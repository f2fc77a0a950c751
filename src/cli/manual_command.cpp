#include "cli/manual_command.h"

#include <filesystem>
#include <ostream>

#include "cli/words_of_help.h"

namespace redd::cli {

Exit manual(const Console& console, const CommandText& top, const ManualFacts& facts, const ManualQuestion& question) {
  if (question.folder.empty()) {
    const CommandText* command = command_at(top, question.command);
    if (command == nullptr)
      return complain(console, {{"unknown_command", question.command.back(), help_text("There is no such command; redd --help lists them.", facts.language)}});
    console.out << manual_page(top, *command, facts);
    return Exit::ok;
  }
  std::error_code failed;
  std::filesystem::create_directories(question.folder, failed);  // a folder that can't be made shows when it is written to
  const std::filesystem::path folder(question.folder);
  const auto written = [&](const CommandText& command) { return write_file(folder / (page_name(command) + ".1"), manual_page(top, command, facts), true); };
  Problems problems = written(top);
  for (const CommandText& command : top.commands)
    if (problems.empty()) problems = written(command);
  return problems.empty() ? Exit::ok : complain(console, problems);
}

}  // namespace redd::cli
