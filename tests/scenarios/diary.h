#pragma once
// The diary of a scenario: each line of `log` as the records it stands for.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "scenarios/scenario.h"

namespace redd::scenarios {

/// "Mon 2031-02-03 09:00" on the school's clock. Errors  Refused when the weekday is not that date's.
Instant moment_from(const std::string& text, const ZoneOffsets& zone);

/// Collects the records of a season line by line.
class Diary {
 public:
  explicit Diary(ZoneOffsets zone) : zone_(std::move(zone)) {}

  void set_up(const wire::Json& season, Instant at);
  void add_kit(const std::string& toml, Instant at);
  /// One line of `log`: readings, or one event; `every` repeats it.
  void add(const wire::Json& line);
  /// Leaves out what happened after `until`.
  void end_at(Instant until);
  /// What is written so far is not held against the log again: a background is checked once, by its own test.
  void trust();
  /// The records with their ids, in the order written down, each held against those before it. Errors  Refused.
  std::vector<records::Record> records() const;

 private:
  struct Line {
    Instant at{}, written{};
    std::string author{}, name{}, corrects{}, undoes{};
    std::string kind{};
    wire::Json body{};
    bool trusted = false;
  };

  void add_at(Instant at, const wire::Json& line);
  void add_readings(const Line& begun, const wire::Json& rest);
  Line event(Line begun, wire::Json rest) const;
  const records::KitTest* find_test(const std::string& key, std::string& kit) const;

  ZoneOffsets zone_;
  std::vector<Line> lines_{};
  std::vector<records::Kit> kits_{};
};

}  // namespace redd::scenarios
