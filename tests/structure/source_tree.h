// tests/structure/source_tree.h
// The files of the source tree as text, and the table of folders as the build knows it. Used by the structure tests.
#pragma once

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace redd::structure {

namespace fs = std::filesystem;

inline const fs::path source_dir = REDD_SOURCE_DIR;

inline std::string text_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

inline std::vector<std::string> lines_of(const fs::path& file) {
  std::istringstream in(text_of(file));
  std::vector<std::string> lines;
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

inline std::string shown(const fs::path& file) { return fs::relative(file, source_dir).generic_string(); }

/// Files below `top` (a path inside the source tree) with one of the endings, sorted; what is built or fetched is left out.
inline std::vector<fs::path> files_below(const std::string& top, const std::set<std::string>& endings = {}) {
  static const std::set<std::string> skipped{".git", "build", "node_modules", ".cache", ".svelte-kit"};
  std::vector<fs::path> files;
  const fs::path start = top.empty() ? source_dir : source_dir / top;
  if (!fs::exists(start)) return files;
  for (auto it = fs::recursive_directory_iterator(start); it != fs::recursive_directory_iterator(); ++it) {
    if (it->is_directory() && skipped.contains(it->path().filename().string())) {
      it.disable_recursion_pending();
    } else if (it->is_regular_file() && (endings.empty() || endings.contains(it->path().extension().string()))) {
      files.push_back(it->path());
    }
  }
  std::sort(files.begin(), files.end());
  return files;
}

/// What the top CMakeLists.txt states about one folder of src/.
struct Folder {
  bool core = false;
  std::set<std::string> may_include;  ///< its links and theirs, itself too
};

inline std::map<std::string, Folder> folder_table() {
  std::map<std::string, Folder> table;
  for (const std::string& line : lines_of(fs::path(REDD_BINARY_DIR) / "folders.txt")) {
    std::istringstream words(line);
    std::string name, kind;
    words >> name >> kind;
    Folder folder{kind == "core", {name}};
    for (std::string link; words >> link;) {
      const auto linked = table.find(link);
      if (linked == table.end()) throw std::runtime_error(name + " links " + link + ", which must stand above it in CMakeLists.txt");
      folder.may_include.insert(linked->second.may_include.begin(), linked->second.may_include.end());
    }
    table[name] = folder;
  }
  return table;
}

/// The text with comments and string contents blanked out, line breaks kept.
inline std::string code_only(const std::string& text) {
  enum class In { code, line_comment, block_comment, string, character } in = In::code;
  std::string out = text;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char here = text[i];
    const char next = i + 1 < text.size() ? text[i + 1] : '\0';
    switch (in) {
      case In::code:
        if (here == '/' && next == '/') in = In::line_comment;
        else if (here == '/' && next == '*') in = In::block_comment;
        else if (here == '"') in = In::string;
        else if (here == '\'' && !(i > 0 && std::isalnum(static_cast<unsigned char>(text[i - 1])))) in = In::character;
        if (in == In::line_comment || in == In::block_comment) out[i] = ' ';
        break;
      case In::line_comment:
        if (here == '\n') in = In::code;
        else out[i] = ' ';
        break;
      case In::block_comment:
        if (here == '*' && next == '/') {
          out[i] = out[i + 1] = ' ';
          ++i;
          in = In::code;
        } else if (here != '\n') {
          out[i] = ' ';
        }
        break;
      case In::string:
      case In::character:
        if (here == '\\') {
          out[i] = ' ';
          if (next != '\n' && i + 1 < text.size()) out[++i] = ' ';
        } else if (here == (in == In::string ? '"' : '\'')) {
          in = In::code;
        } else if (here != '\n') {
          out[i] = ' ';
        }
        break;
    }
  }
  return out;
}

}  // namespace redd::structure
