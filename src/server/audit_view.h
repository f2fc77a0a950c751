#pragma once
// Who did what and when: the season's records and the deeds on the network (audit_journal.h) in one list. Start at audit_of().

#include <optional>
#include <string>
#include <vector>

#include "report/numbers.h"
#include "server/audit_journal.h"
#include "server/season_desk.h"

namespace redd::server {

struct AuditRow {
  Instant at{};
  classroom::Role role = classroom::Role::this_machine;
  std::string label{};  ///< what the record says of who logged it, or the team of a code; empty: none
  std::string from{};   ///< empty: this machine
  Deed what = Deed::record;
  std::optional<records::RecordId> record{};
  std::string sentence{};
};

struct Audit {
  std::vector<AuditRow> rows{};  ///< newest first
  std::optional<std::size_t> before{};  ///< where to go on; nothing: that is all
  std::vector<std::string> gaps{};      ///< what the list can't tell, in sentences
};

/// In      limit: rows.  before: rows older than this place, from an earlier answer; nothing: from the newest.
/// Errors  those of AuditJournal::read().
Result<Audit> audit_of(const Look& look, const AuditJournal& journal, const report::Reader& reader, std::size_t limit, std::optional<std::size_t> before);

/// As the API and "redd audit --json" give it.
std::string json_of_audit(const Audit& audit);

}  // namespace redd::server
