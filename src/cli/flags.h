// cli/flags.h
// The flags of `redd log KIND` and `redd correct ID`, read off the one description of each kind of record
// (wire/describe.h), and what was typed turned into the JSON body the strict reader checks. Start at flags_of() and
// body_json().
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "quantities/result.h"
#include "records/record.h"

namespace redd::cli {

/// One unit a quantity may be typed in: "20L" becomes volume_l, "5gal" volume_us_gal.
struct UnitSpelling {
  std::string suffix;                  ///< of the JSON key, e.g. "_us_gal"
  std::vector<std::string> spellings;  ///< as typed, the first one shown in help
};

struct Flag {
  enum class Reads { quantity, number, numbers, whole, truth, text, date, word, form };  ///< numbers: several, between spaces or commas
  std::string name;  ///< without dashes in front, e.g. "new-water"
  std::string stem;  ///< of the JSON key, e.g. "new_water"
  Reads reads = Reads::text;
  std::string meaning{};
  bool required = false;
  std::vector<UnitSpelling> units{};  ///< quantity only; more than one: the unit must be typed
  std::vector<std::string> words{};   ///< word only
  bool starts_true = false;           ///< truth only: its default
};

/// Flags of a kind, positionals first; empty for an unknown kind. Lists (the tests of a kit) have none: they come from
/// a file.
std::vector<Flag> flags_of(std::string_view kind);

/// Names of the flags of a kind that may be given without their name, in order: `redd log dose sodium-bicarbonate 12g`.
std::vector<std::string> positionals_of(std::string_view kind);

/// What was typed: name of the flag and its values (`between` has two, truth flags have "true" or "false").
using Typed = std::map<std::string, std::vector<std::string>>;

/// The body as JSON.
///
/// In      before: the body being corrected, as JSON; typed flags replace its fields.
/// Errors  unknown_flag, needs_unit, not_a_number, exclusive_flags; `field` is the flag, e.g. "--volume". What the
/// values
///         may be is checked later by wire::body_from_json.
Result<std::string> body_json(std::string_view kind, const Typed& typed, const std::optional<std::string>& before = {});

/// The same problems with JSON fields ("/volume_l") named as flags ("--volume").
Problems as_flags(std::string_view kind, const Problems& problems);

/// "water-change" and "water_change" to "water_change".
std::string kind_from_typed(std::string_view typed);
/// "water_change" to "water-change".
std::string dashed(std::string_view key);

}  // namespace redd::cli
