#pragma once
// Reads the tables of published values beside the reference tests: CSV with # comments, a header line, and quoted cells where a comma
// is needed. A row that fails prints itself.

#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <map>
#include <string>
#include <vector>

namespace redd::reference {

/// One line of a table, by column name.
class Row {
 public:
  Row(std::map<std::string, std::string> cells, std::string line) : cells_(std::move(cells)), line_(std::move(line)) {}
  const std::string& text(const std::string& column) const {
    static const std::string missing;
    const auto found = cells_.find(column);
    if (found == cells_.end()) ADD_FAILURE() << "no column " << column;
    return found == cells_.end() ? missing : found->second;
  }
  double number(const std::string& column) const { return std::strtod(text(column).c_str(), nullptr); }
  const std::string& line() const { return line_; }

 private:
  std::map<std::string, std::string> cells_;
  std::string line_;
};

inline std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells{""};
  bool in_quotes = false;
  for (const char c : line) {
    if (c == '"') in_quotes = !in_quotes;
    else if (c == ',' && !in_quotes) cells.emplace_back();
    else cells.back() += c;
  }
  return cells;
}

/// All rows of tests/reference/data/<name>.csv; a missing or empty table fails the test.
inline std::vector<Row> table(const std::string& name) {
  std::ifstream file(std::string(REDD_SOURCE_DIR) + "/tests/reference/data/" + name + ".csv");
  std::vector<std::string> header;
  std::vector<Row> rows;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line[0] == '#') continue;
    const auto cells = cells_of(line);
    if (header.empty()) {
      header = cells;
      continue;
    }
    std::map<std::string, std::string> named;
    for (std::size_t i = 0; i < header.size() && i < cells.size(); ++i) named[header[i]] = cells[i];
    EXPECT_EQ(cells.size(), header.size()) << name << ": " << line;
    rows.emplace_back(std::move(named), line);
  }
  EXPECT_FALSE(rows.empty()) << "no rows in table " << name;
  return rows;
}

}  // namespace redd::reference
