#pragma once
// A small invented season for the tests of the season file.

#include <gtest/gtest.h>
#include <sqlite3.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

#include "logbook/check.h"
#include "logbook/logbook.h"
#include "wire/codec.h"

namespace redd::test {

inline Instant at(const char* text) { return *instant_from_rfc3339(text); }
inline const Instant noon = at("2030-10-01T18:00:00Z");

/// A folder of its own for one test, removed afterwards.
class Folder {
 public:
  Folder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "redd-test-XXXXXX").string();
    path_ = ::mkdtemp(pattern.data());
  }
  ~Folder() {
    std::error_code error;
    std::filesystem::remove_all(path_, error);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  std::filesystem::path operator/(const std::string& name) const { return path_ / name; }
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

inline std::string bytes_of(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

inline void write_bytes(const std::filesystem::path& path, const std::string& bytes) {
  std::ofstream(path, std::ios::binary | std::ios::trunc) << bytes;
}

inline records::Entry entry(records::Body body, Instant when = noon) { return {when, "Team Otter", {}, {}, std::move(body)}; }

inline records::SeasonSetup setup() {
  records::SeasonSetup season;
  season.name = "Invented season";
  season.time_zone = "America/Denver";
  season.first_day = *date_from_iso("2030-09-02");
  season.volume = Volume::from_l(210);
  season.species = "brook_trout";
  season.target = Temperature::from_c(8);
  return season;
}

inline records::Kit kit() {
  records::KitTest ammonia{.key = "ammonia", .quantity = records::Quantity::total_ammonia, .method = records::Method::colour_steps,
                           .unit = records::TestUnit::mg_nh4_per_l, .steps = {0.1, 0.4, 0.9, 2.1}};
  records::KitTest kh{.key = "kh", .quantity = records::Quantity::alkalinity, .method = records::Method::drop_count,
                      .unit = records::TestUnit::german_degrees, .per_drop = 1.0};
  return {"class", "Class kit (invented)", {ammonia, kh}};
}

inline records::Reading between(double low, double high) {
  records::Reading reading;
  reading.kit = "class";
  reading.test = "ammonia";
  reading.form = records::Reading::Form::between;
  reading.value = low;
  reading.upper_value = high;
  return reading;
}

inline records::TemperatureReading water_c(double c) { return {Temperature::from_c(c), records::TemperatureReading::Place::tank}; }

/// Stops the test with the sentences when a result has problems.
template <class T>
T must(Result<T> result) {
  if (!result) {
    std::string all;
    for (const Problem& p : result.problems()) all += p.code + " " + p.field + ": " + p.sentence + "\n";
    throw std::runtime_error(all);
  }
  return std::move(result).value();
}

template <class T>
std::string first_code(const Result<T>& result) {
  return result ? "no problem" : result.problems().front().code;
}

/// A season file with a set-up, a kit and one reading.
inline logbook::Logbook small_season(const std::filesystem::path& path) {
  auto book = must(logbook::Logbook::create(path));
  must(book.append(entry(setup()), noon));
  must(book.append(entry(kit()), noon));
  must(book.append(entry(between(0.1, 0.4)), noon));
  return book;
}

/// Does to a file what no program of ours does.
inline void run_sql(const std::filesystem::path& file, const char* sql) {
  sqlite3* raw = nullptr;
  ASSERT_EQ(sqlite3_open(file.c_str(), &raw), SQLITE_OK);
  ASSERT_EQ(sqlite3_exec(raw, sql, nullptr, nullptr, nullptr), SQLITE_OK) << sqlite3_errmsg(raw);
  sqlite3_close(raw);
}

/// A file that has the name of a copy is one.
inline void expect_whole_copies(const std::filesystem::path& season, const std::string& where = "") {
  for (const logbook::Copy& copy : must(logbook::copies_of(season))) {
    if (copy.why == logbook::Why::damaged) continue;
    const auto check = logbook::check_file(copy.file);
    EXPECT_TRUE(check && check->whole()) << where << " " << copy.file << " has its name and is not whole";
  }
}

inline std::string json(const std::vector<records::Record>& records) {
  std::string text;
  for (const auto& r : records) text += wire::json_from_record(r) + "\n";
  return text;
}

}  // namespace redd::test
