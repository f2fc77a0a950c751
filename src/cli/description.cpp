#include "cli/description.h"

#include <algorithm>

namespace redd::cli {

std::string CommandText::name() const {
  std::string words;
  for (const std::string& word : path) words += (words.empty() ? "" : " ") + word;
  return words;
}

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
