#include "server/audit_view.h"

#include <algorithm>
#include <map>

#include "quantities/verbatim.h"
#include "report/record_text.h"
#include "wire/json.h"

namespace redd::server {
namespace {

Phrase deed_text(const AuditLine& line) {
  switch (line.what) {
    case Deed::record: return said("{0, plural, one {A record was} other {# records were}} logged that the season no longer holds.", line.records.size());
    case Deed::sign_in: return line.with_code ? said("Signed in with bench code {0}.", line.number) : Phrase("Signed in with the passphrase.");
    case Deed::sign_in_failed: return line.with_code ? Phrase("Gave a bench code that does not hold.") : Phrase("Gave a wrong passphrase.");
    case Deed::locked_out: return "Has to wait after several wrong tries.";
    case Deed::sign_out: return "Signed out.";
    case Deed::code_made:
      return line.label.empty() ? said("Made bench code {0}, for {1} minutes.", line.number, line.minutes) : said("Made bench code {0} for {2}, for {1} minutes.", line.number, line.minutes, verbatim(line.label));
    case Deed::code_ended: return said("Ended bench code {0}.", line.number);
    case Deed::session_ended: return said("Ended session {0}.", line.number);
    case Deed::all_ended: return "Ended all bench codes and all other sessions.";
    case Deed::taken_in: return said("Took in a saved season: {0, plural, one {# record} other {# records}}.", line.number);
    case Deed::passphrase_set: return "Set the passphrase.";
    case Deed::passphrase_removed: return "Removed the passphrase.";
    case Deed::listening: return "Redd began to listen on the local network.";
  }
  broken_promise("deed_text", "unknown deed");
}

/// A row before its words, which only those that are shown get.
struct Place {
  Instant at{};
  const AuditLine* line = nullptr;          ///< of the journal, or what it says of the record
  const records::Record* record = nullptr;
};

}  // namespace

Result<Audit> audit_of(const Look& look, const AuditJournal& journal, const report::Reader& reader, std::size_t limit, std::optional<std::size_t> before) {
  const auto read = journal.read();
  if (!read) return read.problems();
  std::map<KeptRecord, const AuditLine*> came_by;
  for (const AuditLine& line : read->lines)
    for (const KeptRecord& record : line.records) came_by.insert_or_assign(record, &line);

  std::vector<Place> places;
  std::map<const AuditLine*, std::size_t> found;
  for (const records::Record& record : look.records) {
    const auto line = came_by.find({record.id, record.logged_at});
    places.push_back({record.logged_at, line == came_by.end() ? nullptr : line->second, &record});
    if (line != came_by.end()) ++found[line->second];
  }
  for (const AuditLine& line : read->lines)
    if (line.what != Deed::record || !found.contains(&line)) places.push_back({line.at, &line, nullptr});
  std::ranges::stable_sort(places, {}, &Place::at);

  report::Reader there = reader;
  there.zone = look.zone;
  Audit audit;
  std::size_t at = std::min(before.value_or(places.size()), places.size());
  for (; at > 0 && audit.rows.size() < limit; --at) {
    const auto& [when, line, record] = places[at - 1];
    AuditRow row{when};
    if (line) {
      row.role = line->role;
      row.from = line->from;
      row.label = line->label;
      row.what = line->what;
    }
    if (record) {
      row.what = Deed::record;
      row.record = record->id;
      row.label = record->entry.author;
      row.sentence = report::text_of(Phrase(report::kind_text(record->entry.body)), there) + ": " + report::record_text(record->entry.body, look.records, there);
    } else {
      row.sentence = report::text_of(deed_text(*line), there);
    }
    audit.rows.push_back(std::move(row));
  }
  if (at > 0) audit.before = at;
  if (read->unreadable > 0) audit.gaps.push_back(report::text_of(said("{0, plural, one {# line} other {# lines}} of the list of sign-ins can't be read.", read->unreadable), reader));
  if (journal.lost() > 0) audit.gaps.push_back(report::text_of(said("{0, plural, one {# line} other {# lines}} could not be written since Redd was started: who did that is not known.", journal.lost()), reader));
  if (!look.unreadable.empty()) audit.gaps.push_back(report::text_of(said("{0, plural, one {# record} other {# records}} of the season can't be read.", look.unreadable.size()), reader));
  return audit;
}

std::string json_of_audit(const Audit& audit) {
  using wire::Json;
  const auto text_or_null = [](const std::string& text) { return text.empty() ? Json() : Json(text); };
  Json answer{{"rows", Json::array()}, {"more", audit.before.has_value()}, {"before", audit.before ? Json(*audit.before) : Json()}, {"gaps", audit.gaps}};
  for (const AuditRow& row : audit.rows)
    answer["rows"].push_back({{"at", rfc3339_from_instant(row.at)}, {"role", std::string(name_of(row.role))}, {"label", text_or_null(row.label)}, {"from", text_or_null(row.from)}, {"what", std::string(name_of(row.what))}, {"record_id", row.record ? Json(*row.record) : Json()}, {"sentence", row.sentence}});
  return wire::printed(answer);
}

}  // namespace redd::server
