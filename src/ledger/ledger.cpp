#include "ledger/ledger.h"

#include "quantities/verbatim.h"
#include "wire/codec.h"

namespace redd::ledger {

Result<records::Appended> Ledger::next(const records::Entry& entry, Instant logged_at, records::RecordId id) {
  if (entry.entry_key) {
    if (const auto known = index_of_key_.find(*entry.entry_key); known != index_of_key_.end()) {
      const records::Record& before = records_[known->second];
      if (before.entry.body.index() == entry.body.index() && wire::json_from_body(before.entry.body) == wire::json_from_body(entry.body))
        return records::Appended{before, true};
      return Problem{"entry_key_reused", "/entry_key", said("The key \"{0}\" already stands for record {1}, which says something else: send a new entry with a new key.", verbatim(*entry.entry_key), before.id)};
    }
  }
  if (Problems problems = rules_.problems_of(entry, records_, logged_at); !problems.empty()) return problems;
  return records::Appended{{id, logged_at, entry}, false};
}

void Ledger::take(records::Record record) {
  if (record.entry.entry_key) index_of_key_[*record.entry.entry_key] = records_.size();
  rules_.add(record);
  records_.push_back(std::move(record));
}

void Ledger::back_to(const Mark& mark) {
  for (std::size_t i = mark.records; i < records_.size(); ++i)
    if (const auto& key = records_[i].entry.entry_key) index_of_key_.erase(*key);
  records_.resize(mark.records);
  rules_ = mark.rules;
}

}  // namespace redd::ledger
