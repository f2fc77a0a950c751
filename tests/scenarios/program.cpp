#include "scenarios/program.h"

#include <sys/wait.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iterator>

#include "ledger/season_file.h"

namespace redd::scenarios {
namespace fs = std::filesystem;

namespace {

std::string text_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

}  // namespace

Program::Program() {
  std::string name = (fs::temp_directory_path() / "redd-scenario-XXXXXX").string();
  if (!mkdtemp(name.data())) throw std::runtime_error("no folder could be made for the season");
  folder_ = name;
}

Program::~Program() {
  if (std::getenv("REDD_KEEP_SCENARIOS")) return;
  std::error_code ignored;
  fs::remove_all(folder_, ignored);
}

std::string Program::run(const std::vector<std::string>& arguments) const {
  const std::string out = (folder_ / "out.txt").string(), err = (folder_ / "err.txt").string();
  const pid_t child = fork();
  if (child == 0) {
    unsetenv("REDD_DATA");
    unsetenv("REDD_AUTHOR");
    if (!freopen("/dev/null", "r", stdin) || !freopen(out.c_str(), "w", stdout) || !freopen(err.c_str(), "w", stderr)) _exit(126);
    std::vector<char*> words{const_cast<char*>(REDD_PROGRAM)};
    for (const std::string& word : arguments) words.push_back(const_cast<char*>(word.c_str()));
    words.push_back(nullptr);
    execv(REDD_PROGRAM, words.data());
    _exit(127);
  }
  int status = 0;
  waitpid(child, &status, 0);
  if (!WIFEXITED(status) || WEXITSTATUS(status) != 0) throw std::runtime_error("redd " + arguments.front() + ": " + text_of(err) + text_of(out));
  return text_of(out);
}

void Program::import(const std::vector<records::Record>& log) {
  season_ = (folder_ / ("season" + std::to_string(++taken_))).string();
  const std::string file = (folder_ / "season.json").string();
  std::ofstream(file) << ledger::season_file(log);
  run({"import", "season", file, "--data", season_});
}

void Program::take(std::vector<records::Record> log) {
  for (std::size_t i = 0; i < log.size(); ++i) {
    auto* answer = std::get_if<records::AdviceAnswer>(&log[i].entry.body);
    if (!answer || answer->action != "top") continue;
    import({log.begin(), log.begin() + static_cast<std::ptrdiff_t>(i)});
    const wire::Json top = today(log[i].entry.at, false).at("actions").at(0);
    answer->action = top.value("key", top.value("rule", std::string()));
  }
  import(log);
}

wire::Json Program::today(Instant at, bool outlook) const {
  std::vector<std::string> words{"today", "--json", "--data", season_, "--as-of", rfc3339_from_instant(at)};
  if (!outlook) words.push_back("--quick");
  const auto tree = wire::parsed(run(words));
  if (!tree) throw std::runtime_error("redd today --json did not print JSON");
  return *tree;
}

}  // namespace redd::scenarios
