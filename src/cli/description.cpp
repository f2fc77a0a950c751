#include "cli/description.h"

#include <algorithm>

namespace redd::cli {

std::string joined(std::span<const std::string> words, std::string_view between) {
  std::string line;
  for (const std::string& word : words) line += std::string(line.empty() ? "" : between) + word;
  return line;
}

std::string CommandText::name() const { return joined(path, " "); }

const CommandText* command_at(const CommandText& top, const std::vector<std::string>& below) {
  const CommandText* at = &top;
  for (const std::string& word : below) {
    const auto next = std::ranges::find_if(at->commands, [&](const CommandText& each) { return each.path.back() == word; });
    if (next == at->commands.end()) return nullptr;
    at = &*next;
  }
  return at;
}

}  // namespace redd::cli
