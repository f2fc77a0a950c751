#pragma once
// The log as the rules for new entries need it: who may be added next. Kept in step with the file by Logbook.

#include <map>
#include <span>
#include <string>
#include <vector>

#include "quantities/result.h"
#include "records/record.h"

namespace redd::logbook::detail {

class Rules {
 public:
  /// Takes note of a record that is in the file.
  void add(const records::Record& record);

  /// Everything wrong with a new entry; empty when it may be kept.
  Problems problems_of(const records::Entry& entry, std::span<const records::Record> all, Instant now);

 private:
  Result<ZoneOffsets> zone_for(const records::Entry& entry);
  /// The records other entries are judged by. A season has thousands of measurements and a handful of these.
  std::vector<records::Record> governing_;
  std::map<std::string, ZoneOffsets> zones_;
};

/// Whether other entries are judged by a body of this kind.
bool governs(const records::Body& body);

}  // namespace redd::logbook::detail
