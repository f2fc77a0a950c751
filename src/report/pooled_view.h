#pragma once
// What several teams read of the same water, and what it says together, as JSON. Start at pooled_json().

#include <string>
#include <vector>

#include "inference/card_reading.h"
#include "report/numbers.h"
#include "wire/json.h"

namespace redd::report {

struct TeamReading {
  std::string team{};  ///< a label, or "" for the only one
  inference::TestReading read{};
};

/// In      readings: of one quantity, at least one, each fitting its test (see records::observed_interval()).
/// Out     {"text", "sentence", "spread_text", "disagree", "open_above", "unit_text", "low", "mid", "high": null when only "at least" is known,
///          "alone": [{"team", "test", "raw_text", "low", "mid", "high"}, …] in the order given}. Numbers and "text" are in the unit of the first
///          test; the pooled ones are those of inference::value_behind(), as the day's water shows them.
/// Errors  null when no reading fits its test.
wire::Json pooled_json(const std::vector<TeamReading>& readings, const Reader& reader = {});

}  // namespace redd::report
