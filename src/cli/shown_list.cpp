#include "cli/shown_list.h"

#include <fstream>

namespace redd::cli {
namespace {

std::filesystem::path file_of(const Place& place) {
  auto file = place.file();
  file += ".shown";
  return file;
}

}  // namespace

void keep_shown(const Place& place, Date day, const std::vector<advice::Action>& actions) {
  std::ofstream file(file_of(place), std::ios::trunc);
  file << iso_from_date(day) << '\n';
  for (const advice::Action& action : actions) file << action.key << '\n';
}

std::optional<std::vector<std::string>> last_shown(const Place& place, Date day) {
  std::ifstream file(file_of(place));
  std::string line;
  if (!std::getline(file, line) || line != iso_from_date(day)) return std::nullopt;
  std::vector<std::string> keys;
  while (std::getline(file, line)) keys.push_back(line);
  return keys;
}

}  // namespace redd::cli
