// docs/vocabulary.csv lists each quantity once (name, unit, meaning), and names in the headers spell units as it does.
#include <gtest/gtest.h>

#include <algorithm>
#include <regex>

#include "structure/source_tree.h"

namespace redd::structure {
namespace {

struct Entry {
  std::string name, unit, meaning;
};

// The file is kept simple on purpose: only the last column, the meaning, may hold commas or quotes.
std::vector<Entry> vocabulary() {
  std::vector<Entry> entries;
  bool header = true;
  for (const std::string& line : lines_of(source_dir / "docs/vocabulary.csv")) {
    if (line.empty() || line[0] == '#') continue;
    if (std::exchange(header, false)) {
      EXPECT_TRUE(line.starts_with("name,unit,meaning")) << "docs/vocabulary.csv begins with: " << line;
      continue;
    }
    const auto first = line.find(',');
    const auto second = first == std::string::npos ? first : line.find(',', first + 1);
    if (second == std::string::npos) {
      ADD_FAILURE() << "docs/vocabulary.csv: not three columns: " << line;
      continue;
    }
    entries.push_back({line.substr(0, first), line.substr(first + 1, second - first - 1), line.substr(second + 1)});
  }
  return entries;
}

TEST(Vocabulary, ListsEachQuantityOnceWithItsMeaning) {
  if (!fs::exists(source_dir / "docs/vocabulary.csv")) GTEST_SKIP() << "there is no docs/vocabulary.csv";
  static const std::regex snake_case("[a-z][a-z0-9]*(_[a-z0-9]+)*");
  std::set<std::string> names;
  for (const Entry& entry : vocabulary()) {
    EXPECT_TRUE(std::regex_match(entry.name, snake_case)) << entry.name;
    EXPECT_TRUE(names.insert(entry.name).second) << entry.name << " is listed twice";
    EXPECT_FALSE(entry.meaning.empty()) << entry.name << " has no meaning";
  }
  EXPECT_FALSE(names.empty());
}

TEST(Vocabulary, HasEveryCompoundUnitThatHeadersUse) {
  if (!fs::exists(source_dir / "docs/vocabulary.csv")) GTEST_SKIP() << "there is no docs/vocabulary.csv";
  std::set<std::string> units;
  for (const Entry& entry : vocabulary())
    if (!entry.unit.empty()) units.insert("_" + entry.unit);

  static const std::regex with_compound_unit("[a-z][a-z0-9_]*_per_[a-z0-9_]*[a-z0-9]");
  for (const fs::path& file : files_below("src", {".h"})) {
    const std::string code = code_only(text_of(file));
    for (auto it = std::sregex_iterator(code.begin(), code.end(), with_compound_unit); it != std::sregex_iterator(); ++it) {
      const std::string name = "_" + it->str();
      EXPECT_TRUE(std::any_of(units.begin(), units.end(), [&](const std::string& unit) { return name.ends_with(unit); }))
          << shown(file) << ": " << it->str() << " ends in no unit of docs/vocabulary.csv";
    }
  }
}

}  // namespace
}  // namespace redd::structure
