#include "logbook/detail/rows.h"

#include <array>
#include <cstdint>

#include "wire/codec.h"

namespace redd::logbook::detail {
namespace {

Columns columns_of(const Statement& row) {
  Columns c{row.integer(0), row.text(1), row.text(2), row.text(3), row.text(4), {}, {}, row.text(7)};
  if (!row.is_null(5)) c.supersedes = row.integer(5);
  if (!row.is_null(6)) c.entry_key = row.text(6);
  return c;
}

}  // namespace

/// 64-bit FNV-1a over all columns.
/// Source  Fowler, Noll & Vo, offset basis and prime of the 64-bit variant (from memory).
std::string check_sum(const Columns& row) {
  std::uint64_t hash = 14695981039346656037ULL;
  const auto add = [&](std::string_view text) {
    for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
    hash = (hash ^ 0x1f) * 1099511628211ULL;  // so that moving a character to the next column shows
  };
  add(std::to_string(row.id));
  add(row.at);
  add(row.logged_at);
  add(row.author);
  add(row.kind);
  add(row.supersedes ? std::to_string(*row.supersedes) : "");
  add(row.entry_key ? "=" + *row.entry_key : "");
  add(row.body);
  std::string text(16, '0');
  for (std::size_t i = 16; i-- > 0; hash >>= 4) text[i] = "0123456789abcdef"[hash & 15];
  return text;
}

Columns columns_of(const records::Record& record) {
  return {record.id,
          rfc3339_from_instant(record.entry.at),
          rfc3339_from_instant(record.logged_at),
          record.entry.author,
          std::string(records::kind_name(record.entry.body)),
          record.entry.supersedes,
          record.entry.entry_key,
          wire::json_from_body(record.entry.body)};
}

void insert(Statement& insert, const Columns& row) {
  insert.reset();
  insert.bind(1, row.id).bind(2, row.at).bind(3, row.logged_at).bind(4, row.author).bind(5, row.kind);
  insert.bind_or_null(6, row.supersedes).bind_or_null(7, row.entry_key).bind(8, row.body).bind(9, check_sum(row));
  insert.step();
}

std::variant<records::Record, Unreadable> record_of(const Statement& row) {
  Columns c = columns_of(row);
  const Phrase name = said("Record {0}", c.id);
  if (row.text(8) != check_sum(c))
    return Unreadable{c.id, {{"damaged_record", "", said("{0} was changed on the disk since it was written, so it is not used. Put back your latest copy of the file, or log it again.", name)}}};
  const auto at = instant_from_rfc3339(c.at), logged_at = instant_from_rfc3339(c.logged_at);
  auto body = wire::body_from_json(c.kind, c.body, "/body");
  if (!body || !at || !logged_at) {
    Unreadable unreadable{c.id, body ? Problems{} : body.problems()};
    for (Problem& p : unreadable.problems) p.sentence = said("{0} can't be read: {1}", name, p.sentence);
    if (!at || !logged_at) unreadable.problems.push_back({"not_an_instant", "/at", said("{0} can't be read: its time is not a time.", name)});
    return unreadable;
  }
  return records::Record{c.id, *logged_at, {*at, std::move(c.author), c.supersedes, std::move(c.entry_key), std::move(body).value()}};
}

Unreadable missing_record(records::RecordId id) {
  return {id, {{"record_missing", "", said("Record {0} is missing from the file: it was removed by another program or by a damaged disk. Put back your latest copy of the file.", id)}}};
}

Columns note_of_loss(records::RecordId id, const std::string& logged_at) {
  const records::Note note{"Record " + std::to_string(id) + " was lost with a damaged file. What it said is not known."};
  return {id, logged_at, logged_at, "salvage", "note", {}, {}, wire::json_from_body(note)};
}

bool stands_for_a_loss(const Columns& row) { return check_sum(row) == check_sum(note_of_loss(row.id, row.logged_at)); }

}  // namespace redd::logbook::detail
