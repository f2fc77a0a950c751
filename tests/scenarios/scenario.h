#pragma once
// A scenario: a small invented season in a file a teacher can read, and what a careful keeper's manual would say at some moments of it.
// The format and the sources are in README.md of this folder. Start at read_scenario().

#include <filesystem>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include "records/record.h"
#include "wire/json.h"

namespace redd::scenarios {

/// A scenario file that can't be meant: a word the format does not know, a weekday that is not that date's, a step not on the card.
struct Refused : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// One piece of advice by what is said of it; empty parts are not asked for. In each text "a|b" means either, letters large or small.
struct Wanted {
  std::string rule{};               ///< its rule's name
  std::string tone{};               ///< watch, act, alarm, …
  std::string aim{};                ///< animals, deadline, lesson
  std::string deed{};               ///< one of its deeds
  std::vector<std::string> does{};  ///< each occurs in what to do and how much
  std::vector<std::string> says{};  ///< each occurs somewhere in the whole action
  std::string when{};               ///< what the page says of the time: now, today, tomorrow, …
  std::optional<Instant> by{};      ///< it is asked for by then, or sooner
  std::string text() const;         ///< as the file says it
};

/// A moment, and what is expected of the advice then.
struct Ask {
  std::string at_text{};
  Instant at{};
  bool outlook = false;            ///< with the filter's outlook, which takes seconds
  std::string headline{};          ///< tones the headline may have; empty: any but those of headline_not
  std::string headline_not{};
  std::vector<Wanted> top{};       ///< the first action is one of these
  std::vector<Wanted> also{};      ///< each is among all actions
  std::vector<Wanted> never{};     ///< none is among all actions
};

struct Scenario {
  std::string name{};
  std::string shows{};
  std::string source{};
  ZoneOffsets zone{};
  std::vector<records::Record> log{};  ///< in the order written down
  std::vector<Ask> asks{};
};

/// A file of `seasons`, with the background it names, every entry held against the log as `redd log` would.
/// Errors  Refused, with the file and the place in it.
Scenario read_scenario(const std::filesystem::path& file, const std::filesystem::path& backgrounds);

/// The same from the text of a file.
Scenario scenario_from_text(const std::string& text, const std::filesystem::path& backgrounds);

/// TOML as JSON. ASCII only. Errors  Refused.
wire::Json json_from_toml(const std::string& text);

/// What the file wants of one action, of many.
bool fits(const Wanted& wanted, const wire::Json& action);

/// Everything that `ask` expects and `today` (the JSON of `redd today`) does not fulfil, one sentence each. Empty: all is as expected.
std::vector<std::string> shortfalls(const Ask& ask, const wire::Json& today);

}  // namespace redd::scenarios
