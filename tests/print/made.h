#pragma once
// A season with something in every part of the report, and the readers of other people that its files are held against: poppler for PDF, libxml2 for SVG and HTML.
// The season is invented.

#include <algorithm>
#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <string>

#include <gtest/gtest.h>
#include <unistd.h>

#include "print/charts.h"
#include "print/season_document.h"
#include "support/small_season.h"

namespace redd::print {

using redd::testing::on_day;
using redd::testing::SmallSeason;

inline SmallSeason told_season(const std::string& name = "Escuela Río Ñandú", const std::string& place = "Aula 7, Ribera") {
  using records::Count;
  SmallSeason season;
  auto& setup = std::get<records::SeasonSetup>(season.log().front().entry.body);
  setup.name = name;
  setup.place = place;
  setup.permit = "Invented 31-7";
  setup.release_from = setup.first_day + std::chrono::days(120);
  setup.release_until = setup.first_day + std::chrono::days(140);
  for (int day = 1; day <= 90; ++day)
    if (day % 3 != 0) season.temperature(day, 7.5 + 0.02 * day);
  for (int week = 1; week <= 12; ++week) {
    season.step(7 * week, "ammonia", week < 4 ? 0.4 : 0);
    season.step(7 * week, "nitrite", week < 5 ? 0.2 : 0.05);
    season.step(7 * week, "nitrate", 10);
    season.step(7 * week, "ph", 7.2);
  }
  season.eggs(40);
  for (const int day : {42, 45, 50, 51, 60, 77}) season.add(day, Count{Count::What::dead_eggs, day % 4 + 1});
  season.add(55, records::EquipmentEvent{records::EquipmentEvent::Equipment::pump, records::EquipmentEvent::Event::failed});
  return season;
}

inline SeasonParts parts_of(const SmallSeason& season, Audience audience = Audience::agency, const report::Reader& reader = {}, int day = 91) {
  auto parts = season_parts({}, season.log(), on_day(day, 12), {}, audience, reader);
  require(parts.has_value(), "parts_of", "the season gives no report");
  return std::move(parts).value();
}

inline Chart chart(const SmallSeason& season, std::string_view name, const report::Reader& reader = {}, int day = 91) {
  const auto counts = season::look_at_counts({}, season.log(), on_day(day, 12));
  require(counts.has_value(), "chart", "there are no counts");
  auto made = chart_of(name, season.look(day), *counts, reader);
  require(made.has_value(), "chart", "there is no such chart");
  return std::move(made).value();
}

inline report::Reader spanish() {
  report::Reader reader;
  reader.language = report::Language::es;
  return reader;
}

/// A file that is gone when the test ends.
class Scratch {
 public:
  explicit Scratch(const std::string& bytes, const char* ending) {
    static int number = 0;
    path_ = std::filesystem::temp_directory_path() / ("redd-print-" + std::to_string(::getpid()) + "-" + std::to_string(++number) + ending);
    std::ofstream(path_, std::ios::binary) << bytes;
  }
  ~Scratch() { std::filesystem::remove(path_); }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  std::string path() const { return path_.string(); }

 private:
  std::filesystem::path path_;
};

struct Ran {
  int status = -1;
  std::string out{};
};
inline Ran run(const std::string& command) {
  Ran ran;
  FILE* pipe = popen((command + " 2>&1").c_str(), "r");
  if (!pipe) return ran;
  std::array<char, 4096> buffer{};
  for (std::size_t got = 0; (got = fread(buffer.data(), 1, buffer.size(), pipe)) > 0;) ran.out.append(buffer.data(), got);
  ran.status = pclose(pipe);
  return ran;
}

inline bool has(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }
/// With every run of blanks and line ends as one blank: a sheet breaks lines where it likes.
inline std::string in_one_line(const std::string& text) {
  std::string out;
  for (const char c : text) {
    const bool blank = c == ' ' || c == '\n' || c == '\f' || c == '\r' || c == '\t';
    if (!blank) out += c;
    else if (!out.empty() && out.back() != ' ') out += ' ';
  }
  return out;
}

}  // namespace redd::print
