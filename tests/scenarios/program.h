#pragma once
// The real program, asked about a season. Two runs a question: one that takes the season in, one that looks at it.

#include <filesystem>
#include <string>
#include <vector>

#include "scenarios/scenario.h"

namespace redd::scenarios {

/// A folder of its own that is gone afterwards, unless REDD_KEEP_SCENARIOS is set: then `redd today --data FOLDER/season1 --as-of …` looks into it.
class Program {
 public:
  Program();
  ~Program();
  Program(const Program&) = delete;
  Program& operator=(const Program&) = delete;

  /// Makes a season file of these records, with `redd import season`. Answers whose action is "top" get the key of what came first when they were written.
  void take(std::vector<records::Record> log);
  /// `redd today --json` at that moment. Errors  throws std::runtime_error with what the program said.
  wire::Json today(Instant at, bool outlook) const;

 private:
  std::string run(const std::vector<std::string>& arguments) const;
  void import(const std::vector<records::Record>& log);

  std::filesystem::path folder_{};
  std::string season_{};  ///< folder of the season taken last
  int taken_ = 0;
};

}  // namespace redd::scenarios
