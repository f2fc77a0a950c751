// The program itself in a folder of its own, run with words as a person would type them.
#pragma once

#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>
#include <thread>

#include "quantities/time.h"
#include "server/season_desk.h"

namespace redd::cli {
namespace fs = std::filesystem;

struct Ran {
  int code = -1;
  std::string out, err;
};

inline std::string text_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

inline bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

class Program : public ::testing::Test {
 protected:
  Program() {
    std::string name = (fs::temp_directory_path() / "redd-cli-XXXXXX").string();
    EXPECT_NE(mkdtemp(name.data()), nullptr);
    folder = name;
  }
  ~Program() override {
    std::error_code ignored;
    fs::remove_all(folder, ignored);
  }

  /// Starts the program with its three streams in files of the folder.
  ///
  /// In      streams: put before the files' names, for a second program beside the first.
  pid_t start(const std::vector<std::string>& arguments, const std::string& streams = "") {
    const pid_t child = fork();
    if (child != 0) return child;
    const std::string in = (folder / "in.txt").string(), out = (folder / (streams + "out.txt")).string(),
                      err = (folder / (streams + "err.txt")).string();
    setenv("REDD_DATA", (folder / "data").c_str(), 1);
    unsetenv("REDD_AUTHOR");
    unsetenv("REDD_LANGUAGE");
    unsetenv("REDD_UNITS");
    unsetenv("DISPLAY");
    unsetenv("WAYLAND_DISPLAY");
    if (!freopen(in.c_str(), "r", stdin) || !freopen(out.c_str(), "w", stdout) || !freopen(err.c_str(), "w", stderr))
      _exit(126);
    std::vector<char*> words{const_cast<char*>(REDD_PROGRAM)};
    for (const std::string& word : arguments) words.push_back(const_cast<char*>(word.c_str()));
    words.push_back(nullptr);
    execv(REDD_PROGRAM, words.data());
    _exit(127);
  }

  Ran finished(pid_t child, const std::string& streams = "") {
    int status = 0;
    waitpid(child, &status, 0);
    return {WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status), text_of(folder / (streams + "out.txt")),
            text_of(folder / (streams + "err.txt"))};
  }

  Ran redd(const std::vector<std::string>& arguments, const std::string& in = "") {
    std::ofstream(folder / "in.txt") << in;
    return finished(start(arguments));
  }

  Ran good(const std::vector<std::string>& arguments, const std::string& in = "") {
    const Ran ran = redd(arguments, in);
    EXPECT_EQ(ran.code, 0) << ran.err << ran.out;
    EXPECT_EQ(ran.err, "");
    return ran;
  }

  /// Fails with this code, says why on stderr only, and names `named`.
  void bad(const std::vector<std::string>& arguments, const std::string& named, int code = 1,
           const std::string& in = "") {
    const Ran ran = redd(arguments, in);
    std::string words;
    for (const auto& word : arguments) words += word + " ";
    EXPECT_EQ(ran.code, code) << words << ran.out;
    EXPECT_TRUE(has(ran.err, named)) << words << "\n" << ran.err;
  }

  static std::string day(int from_today) {
    return iso_from_date(Date{std::chrono::floor<std::chrono::days>(server::system_now()).time_since_epoch()} +
                         std::chrono::days(from_today));
  }

  void init() {
    good({"init", "--name", "Test season", "--time-zone", "America/Denver", "--first-day", day(-30), "--volume", "210L",
          "--elevation-m", "640", "--species", "brook_trout", "--target", "8C", "--egg-day", day(5)});
  }
  void use_kit() {
    std::ofstream(folder / "kit.json")
        << R"({"key":"card","name":"Own card","tests":[)"
           R"({"key":"nitrite","quantity":"nitrite","method":"colour_steps","unit":"mg_no2_per_l","steps":[0.1,0.25,0.5,1]},)"
           R"({"key":"kh","quantity":"alkalinity","method":"drop_count","unit":"german_degrees","per_drop":1},)"
           R"({"key":"ph","quantity":"ph","method":"meter","unit":"ph","accuracy":0.1}]})";
    good({"kit", "use", kit()});
  }
  std::string kit() const { return (folder / "kit.json").string(); }
  std::string file(const char* name) const { return (folder / name).string(); }

  fs::path folder;
};

}  // namespace redd::cli
