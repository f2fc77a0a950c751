#pragma once
// What the log so far says of a new entry. Kept in step with it by Ledger.

#include <functional>
#include <map>
#include <span>
#include <string>
#include <vector>

#include "quantities/result.h"
#include "records/record.h"

namespace redd::ledger {

/// The season's time zone as a list of offsets; who calls knows where zones are looked up.
/// Errors  unknown_time_zone, with the field "/body/time_zone".
using ZoneOf = std::function<Result<ZoneOffsets>(const records::SeasonSetup&)>;

class Rules {
 public:
  explicit Rules(ZoneOf zone_of) : zone_of_(std::move(zone_of)) {}

  /// Takes note of a record that is in the log.
  void add(const records::Record& record);

  /// Everything wrong with a new entry; empty when it may be kept.
  Problems problems_of(const records::Entry& entry, std::span<const records::Record> all, Instant now);

 private:
  Result<ZoneOffsets> zone_for(const records::Entry& entry);
  ZoneOf zone_of_;
  /// The records other entries are judged by. A season has thousands of measurements and a handful of these.
  std::vector<records::Record> governing_;
  std::map<std::string, ZoneOffsets> zones_;
};

/// Whether other entries are judged by a body of this kind.
bool governs(const records::Body& body);

}  // namespace redd::ledger
