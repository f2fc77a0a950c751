// The folders of src/ include one another only as the table in the top CMakeLists.txt allows, and the core stays pure.
#include <gtest/gtest.h>

#include <algorithm>
#include <regex>

#include "structure/source_tree.h"

namespace redd::structure {
namespace {

const std::set<std::string> cpp_endings{".h", ".cpp", ".inc"};

// The first part of a path below src/: the folder that a file belongs to.
std::string folder_of(const fs::path& file) {
  return fs::relative(file, source_dir / "src").begin()->string();
}

std::vector<std::string> quoted_includes(const fs::path& file) {
  static const std::regex pattern(R"(^\s*#\s*include\s*"([^"]+)\")");
  std::vector<std::string> found;
  for (const std::string& line : lines_of(file)) {
    std::smatch match;
    if (std::regex_search(line, match, pattern)) found.push_back(match[1]);
  }
  return found;
}

std::vector<std::string> angled_includes(const fs::path& file) {
  static const std::regex pattern(R"(^\s*#\s*include\s*<([^>]+)>)");
  std::vector<std::string> found;
  for (const std::string& line : lines_of(file)) {
    std::smatch match;
    if (std::regex_search(line, match, pattern)) found.push_back(match[1]);
  }
  return found;
}

TEST(Folders, AllStandInTheTable) {
  const auto table = folder_table();
  for (const auto& entry : fs::directory_iterator(source_dir / "src"))
    if (entry.is_directory())
      EXPECT_TRUE(table.contains(entry.path().filename().string()))
          << "src/" << entry.path().filename().string() << " has no line in the table of the top CMakeLists.txt";
}

TEST(Includes, FollowTheTableOfFolders) {
  const auto table = folder_table();
  for (const fs::path& file : files_below("src", cpp_endings)) {
    const auto row = table.find(folder_of(file));
    if (row == table.end()) continue;  // reported above
    for (const std::string& include : quoted_includes(file)) {
      const std::string target = include.substr(0, include.find('/'));
      EXPECT_TRUE(include.find('/') != std::string::npos)
          << shown(file) << " includes \"" << include << "\": write the folder too, as in \"folder/file.h\"";
      EXPECT_TRUE(row->second.may_include.contains(target))
          << shown(file) << " includes \"" << include << "\": " << row->first << " may not include " << target;
    }
  }
}

TEST(Includes, OfDetailHeadersStayInTheirFolder) {
  for (const fs::path& file : files_below("src", cpp_endings))
    for (const std::string& include : quoted_includes(file))
      if (include.find("/detail/") != std::string::npos)
        EXPECT_EQ(include.substr(0, include.find('/')), folder_of(file))
            << shown(file) << " includes \"" << include << "\", which belongs to another folder";
}

// Each outside library has one home, so that it can be replaced there.
TEST(Includes, OfOutsideLibrariesHaveOneHome) {
  const std::vector<std::pair<std::string, std::set<std::string>>> homes{
      {"sqlite3.h", {"logbook"}}, {"boost/", {"server"}}, {"CLI/", {"cli"}},
      {"toml++/", {"intake"}},    {"date/", {"zones"}},
  };
  for (const fs::path& file : files_below("src", cpp_endings))
    for (const std::string& include : angled_includes(file))
      for (const auto& [library, folders] : homes)
        if (include.starts_with(library))
          EXPECT_TRUE(folders.contains(folder_of(file))) << shown(file) << " includes <" << include << ">";
}

TEST(Core, IncludesNothingThatReachesOutside) {
  const std::set<std::string> outside{"iostream", "fstream",  "sstream", "format",     "filesystem", "random", "thread",
                                      "mutex",    "future",   "regex",   "sys/time.h", "unistd.h",   "ctime",  "time.h",
                                      "locale",   "iomanip",  "atomic"};
  const auto table = folder_table();
  for (const fs::path& file : files_below("src", cpp_endings)) {
    const auto row = table.find(folder_of(file));
    if (row == table.end() || !row->second.core) continue;
    for (const std::string& include : angled_includes(file))
      EXPECT_FALSE(outside.contains(include) || include.starts_with("fmt/"))
          << shown(file) << " includes <" << include << ">: the core reads no clock, file, locale or random device";
  }
}

TEST(Core, NeitherThrowsNorCatchesNorReadsAClock) {
  static const std::regex pattern(R"(\b(throw|try|catch|getenv|system_clock::now|steady_clock|time\(nullptr\)|rand)\b)");
  const auto table = folder_table();
  for (const fs::path& file : files_below("src", cpp_endings)) {
    const auto row = table.find(folder_of(file));
    if (row == table.end() || !row->second.core) continue;
    std::istringstream code(code_only(text_of(file)));
    int number = 0;
    for (std::string line; std::getline(code, line);) {
      ++number;
      EXPECT_FALSE(std::regex_search(line, pattern)) << shown(file) << ":" << number << ": " << line;
    }
  }
}

TEST(Headers, AreGuardedOnce) {
  for (const fs::path& file : files_below("src", {".h"})) {
    const std::string text = text_of(file);
    EXPECT_NE(text.find("#pragma once"), std::string::npos) << shown(file);
  }
}

// src/<folder> has the namespace redd::<folder>; quantities is the vocabulary of all and is plain redd.
TEST(Headers, UseTheNamespaceOfTheirFolder) {
  for (const fs::path& file : files_below("src", {".h"})) {
    const std::string folder = folder_of(file);
    if (folder == "quantities") continue;
    const std::string text = text_of(file);
    EXPECT_NE(text.find("namespace redd::" + folder), std::string::npos) << shown(file);
  }
}

}  // namespace
}  // namespace redd::structure
