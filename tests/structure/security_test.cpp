// SECURITY.md names a test for each of its claims: each must be there.
#include <gtest/gtest.h>

#include <regex>

#include "structure/source_tree.h"

namespace redd::structure {
namespace {

/// "Suite.Name" of every test in C++.
std::set<std::string> tests_there_are() {
  static const std::regex pattern(R"((?:TEST|TEST_F|TEST_P|RC_GTEST_PROP|RC_GTEST_FIXTURE_PROP)\(\s*(\w+),\s*(\w+))");
  std::set<std::string> names;
  for (const fs::path& file : files_below("tests", {".cpp"})) {
    const std::string text = text_of(file);
    for (auto it = std::sregex_iterator(text.begin(), text.end(), pattern); it != std::sregex_iterator(); ++it) names.insert((*it)[1].str() + "." + (*it)[2].str());
  }
  return names;
}

TEST(Security, EveryClaimNamesTestsThatAreThere) {
  static const std::regex named("`(\\w+\\.\\w+)`");
  const auto known = tests_there_are();
  bool in_table = false;
  int claims = 0;
  for (const std::string& line : lines_of(source_dir / "SECURITY.md")) {
    if (line.starts_with("## ")) in_table = line.starts_with("## What is claimed");
    if (!in_table || !line.starts_with("| ") || line.starts_with("| claim") || line.starts_with("| ---")) continue;
    ++claims;
    int tests = 0;
    for (auto it = std::sregex_iterator(line.begin(), line.end(), named); it != std::sregex_iterator(); ++it, ++tests) EXPECT_TRUE(known.contains((*it)[1])) << "SECURITY.md names " << (*it)[1] << ", which is no test";
    EXPECT_GT(tests, 0) << "no test holds: " << line;
  }
  EXPECT_GT(claims, 25);
}

}  // namespace
}  // namespace redd::structure
