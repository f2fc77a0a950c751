#include "cli/console.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <sstream>

#include "quantities/verbatim.h"

namespace redd::cli {

namespace {

/// "/body/tests/0/steps" is for programs; a person reads "test 1, steps".
std::string place_of(const std::string& field) {
  if (!field.starts_with("/")) return field;
  std::string place;
  std::string before;
  std::istringstream parts(field.substr(1));
  for (std::string part; std::getline(parts, part, '/');) {
    const bool is_index = !part.empty() && part.find_first_not_of("0123456789") == std::string::npos;
    if (is_index && !before.empty()) {
      if (place.ends_with("ies"))
        place.replace(place.size() - 3, 3, "y");
      else if (place.ends_with("s"))
        place.pop_back();
      place += " " + std::to_string(std::stoull(part.substr(0, 12)) + 1);
    } else if (part != "body" && !part.empty()) {
      place += (place.empty() ? "" : ", ") + part;
    }
    before = part;
  }
  return place;
}

}  // namespace

Exit complain(const Console& console, const Problems& problems) {
  for (const Problem& problem : problems) {
    const std::string place = place_of(problem.field);
    const bool named = place.empty() || problem.sentence.find(place) != std::string::npos;
    console.err << "redd: " << (named ? "" : place + ": ") << console.say(problem.sentence) << "\n";
  }
  return Exit::problem;
}

std::optional<std::string> asked(const Console& console, const std::string& question, const std::string& otherwise) {
  console.out << question << (otherwise.empty() ? "" : " [" + otherwise + "]") << ": " << std::flush;
  std::string answer;
  if (!std::getline(console.in, answer)) return std::nullopt;
  const std::size_t first = answer.find_first_not_of(" \t\r");
  if (first == std::string::npos) return otherwise;
  return answer.substr(first, answer.find_last_not_of(" \t\r") - first + 1);
}

bool confirmed(const Console& console, const std::string& question) {
  const auto answer = asked(console, question + " (yes/no)", "no");
  return answer && (*answer == "y" || *answer == "yes" || *answer == "Y" || *answer == "Yes");
}

std::size_t columns_of(std::string_view text) {
  return static_cast<std::size_t>(std::ranges::count_if(text, [](unsigned char c) { return (c & 0xc0) != 0x80; }));
}

std::string wrapped(std::string_view text, std::size_t width, std::size_t indent) {
  std::istringstream words{std::string(text)};
  std::string word, out;
  std::size_t column = 0;
  while (words >> word) {
    const std::size_t length = columns_of(word);
    if (column > 0 && column + 1 + length > width) {
      out += "\n" + std::string(indent, ' ');
      column = 0;
    } else if (column > 0) {
      out += ' ';
      ++column;
    }
    out += word;
    column += length;
  }
  return out;
}

std::string table(const std::vector<std::vector<std::string>>& rows, std::size_t width) {
  std::vector<std::size_t> widths;
  for (const auto& row : rows) {
    if (widths.size() < row.size()) widths.resize(row.size());
    for (std::size_t i = 0; i + 1 < row.size(); ++i) widths[i] = std::max(widths[i], columns_of(row[i]));
  }
  std::string out;
  for (const auto& row : rows) {
    std::size_t used = 0;
    for (std::size_t i = 0; i < row.size(); ++i) {
      if (i + 1 == row.size()) {
        out += wrapped(row[i], width > used + 20 ? width - used : 20, used);
      } else {
        out += row[i] + std::string(widths[i] - columns_of(row[i]) + 2, ' ');
        used += widths[i] + 2;
      }
    }
    while (!out.empty() && out.back() == ' ') out.pop_back();
    out += "\n";
  }
  return out;
}

std::string shell_word(const std::string& text) {
  // Letters beyond ASCII are as plain to a shell as these.
  const auto is_plain = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || std::string_view("/._-+,:@%").find(c) != std::string_view::npos || static_cast<unsigned char>(c) > 127; };
  if (!text.empty() && std::ranges::all_of(text, is_plain)) return text;
  std::string word = "'";
  for (const char c : text) word += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return word + "'";
}

Result<std::string> file_text(const Console& console, const std::string& path) {
  if (path == "-") return std::string(std::istreambuf_iterator<char>(console.in), {});
  std::error_code ignored;
  if (std::filesystem::is_directory(path, ignored))
    return Problem{"not_a_file", path, said("{0} is a folder, not a file.", verbatim(path))};
  std::ifstream file(path, std::ios::binary);
  if (!file)
    return Problem{"cannot_read", path, said("{0} can't be read: check that it exists and that you may read it.", verbatim(path))};
  std::string text(std::istreambuf_iterator<char>(file), {});
  if (file.bad()) return Problem{"cannot_read", path, said("{0} could not be read to its end.", verbatim(path))};
  return text;
}

Problems write_file(const std::string& path, const std::string& text, bool force) {
  std::error_code failed;
  if (std::filesystem::exists(path, failed) && !force)
    return {{"file_exists", path, said("{0} exists already. Choose another name, or replace it with --force.", verbatim(path))}};
  const std::string half = path + ".part";
  const auto given_up = [&](const Phrase& why) {
    std::error_code ignored;
    std::filesystem::remove(half, ignored);
    return Problems{{"cannot_write", path, said("{0} can't be written: {1}.", verbatim(path), why)}};
  };
  {
    std::ofstream out(half, std::ios::binary | std::ios::trunc);
    out << text << std::flush;
    out.close();
    if (!out) return given_up("check that the folder exists, that you may write there and that the disk has room");
  }
  std::filesystem::rename(half, path, failed);
  return failed ? given_up(failed.message()) : Problems{};
}

}  // namespace redd::cli
