#pragma once
// The log of one season in memory, and what may be added to it: the same rules for the file of the server and for the
// storage of a browser. Start at next(). It keeps nothing itself: who keeps a record tells it with take().

#include <map>
#include <string>
#include <vector>

#include "ledger/rules.h"

namespace redd::ledger {

class Ledger {
 public:
  explicit Ledger(ZoneOf zone_of) : rules_(std::move(zone_of)) {}

  /// The record that this entry would become, or the one it already is.
  ///
  /// In      logged_at: the present moment, also the "now" of the rules. id: the record's number if it is new.
  /// Errors  entry_key_reused, and those of records::problems_of().
  Result<records::Appended> next(const records::Entry& entry, Instant logged_at, records::RecordId id);
  void take(records::Record record);

  const std::vector<records::Record>& records() const { return records_; }

  /// What is remembered before a batch, to return to when the batch is not kept.
  struct Mark {
    std::size_t records;
    Rules rules;
  };
  Mark mark() const { return {records_.size(), rules_}; }
  void back_to(const Mark& mark);

 private:
  std::vector<records::Record> records_;
  std::map<std::string, std::size_t, std::less<>> index_of_key_;
  Rules rules_;
};

}  // namespace redd::ledger
