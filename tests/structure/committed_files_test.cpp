// What must not be in the tree: paths of one machine, addresses of package registries, and citations without an entry.
#include <gtest/gtest.h>

#include <algorithm>
#include <regex>

#include "structure/source_tree.h"

namespace redd::structure {
namespace {

bool is_text(const std::string& content) { return content.find('\0') == std::string::npos; }

TEST(CommittedFiles, NameNoMachineAndNoRegistry) {
  // Put together from pieces so that this file does not find itself.
  const std::vector<std::string> unwanted{
      std::string("/work") + "/main",     std::string("/tmp") + "/redd",    std::string("/home") + "/",
      std::string("..") + "/shared",      std::string("registry.") + "npm", std::string("npmjs") + ".org",
      std::string("deb.") + "debian.org", std::string("ftp.") + "debian",   std::string("snapshot.") + "debian",
      std::string("yarn") + "pkg.com",    std::string("pypi") + ".org",     std::string("\"resol") + "ved\"",
  };
  for (const fs::path& file : files_below("")) {
    const std::string text = text_of(file);
    if (!is_text(text)) continue;
    for (const std::string& word : unwanted) {
      const auto at = text.find(word);
      EXPECT_EQ(at, std::string::npos) << shown(file) << ", line "
                                       << 1 + std::count(text.begin(), text.begin() + std::min(at, text.size()), '\n')
                                       << ": " << word;
    }
  }
}

// A key in brackets is a word and a year, with an optional letter.
std::set<std::string> keys_cited_in(const std::string& text) {
  static const std::regex pattern(R"(\[([a-z][a-z_-]*(?:18|19|20)[0-9]{2}[a-z]?)\])");
  std::set<std::string> keys;
  for (auto it = std::sregex_iterator(text.begin(), text.end(), pattern); it != std::sregex_iterator(); ++it)
    keys.insert((*it)[1]);
  return keys;
}

std::set<std::string> keys_in_bibliography() {
  static const std::regex pattern(R"(@\w+\{\s*([^,\s]+)\s*,)");
  const std::string text = text_of(source_dir / "docs/references.bib");
  std::set<std::string> keys;
  for (auto it = std::sregex_iterator(text.begin(), text.end(), pattern); it != std::sregex_iterator(); ++it)
    EXPECT_TRUE(keys.insert((*it)[1]).second) << "docs/references.bib has two entries " << (*it)[1];
  return keys;
}

TEST(Citations, HaveAnEntryInTheBibliography) {
  const auto known = keys_in_bibliography();
  for (const std::string top : {"src", "tests", "docs", "data", "examples", "web/src"})
    for (const fs::path& file : files_below(top, {".h", ".cpp", ".md", ".csv", ".toml", ".ts", ".svelte"}))
      for (const std::string& key : keys_cited_in(text_of(file)))
        EXPECT_TRUE(known.contains(key)) << shown(file) << " cites [" << key << "], which docs/references.bib lacks";
}

TEST(Citations, OfTheBibliographyAreAllUsed) {
  std::string everything;
  for (const std::string top : {"src", "tests", "docs", "data", "examples"})
    for (const fs::path& file : files_below(top, {".h", ".cpp", ".md", ".csv", ".toml"})) everything += text_of(file);
  for (const std::string& key : keys_in_bibliography())
    EXPECT_NE(everything.find(key), std::string::npos) << "docs/references.bib: nothing cites [" << key << "]";
}

}  // namespace
}  // namespace redd::structure
