#pragma once
// Reads the tables tests/reference/data/development_*.csv.

#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <string>
#include <utility>
#include <vector>

namespace redd::reference {

struct DevelopmentRow {
  std::string species, stage;
  double temperature_c, days;
  std::string known_by, source, remark;

  /// How many decimals the printed days carry tell how exact they are: half of the last digit.
  double half_last_digit;

  std::string shown() const {
    return species + " " + stage + " at " + std::to_string(temperature_c) + " C: " + std::to_string(days) + " d (" +
           source + ")";
  }
};

inline std::vector<std::string> fields_of(const std::string& line) {
  std::vector<std::string> fields(1);
  bool quoted = false;
  for (const char c : line) {
    if (c == '"')
      quoted = !quoted;
    else if (c == ',' && !quoted)
      fields.emplace_back();
    else
      fields.back() += c;
  }
  return fields;
}

inline std::vector<DevelopmentRow> development_rows(const std::string& file) {
  std::ifstream in(std::string(REDD_SOURCE_DIR) + "/tests/reference/data/" + file);
  EXPECT_TRUE(in) << file;
  std::vector<DevelopmentRow> rows;
  bool header = true;
  for (std::string line; std::getline(in, line);) {
    if (line.empty() || line.front() == '#') continue;
    if (std::exchange(header, false)) continue;
    const auto fields = fields_of(line);
    EXPECT_EQ(fields.size(), 7u) << line;
    const auto point = fields[3].find('.');
    const double last_digit =
        point == std::string::npos ? 1.0 : std::pow(10.0, -static_cast<double>(fields[3].size() - point - 1));
    rows.push_back({fields[0], fields[1], std::strtod(fields[2].c_str(), nullptr),
                    std::strtod(fields[3].c_str(), nullptr), fields[4], fields[5], fields[6], last_digit / 2.0});
  }
  return rows;
}

}  // namespace redd::reference
