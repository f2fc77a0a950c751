#include "wire/codec.h"

#include "quantities/verbatim.h"
#include "wire/json.h"
#include "wire/reader.h"
#include "wire/schema.h"
#include "wire/writer.h"

namespace redd::wire {
namespace {

Problem not_an_object(std::string_view where) {
  return {"not_an_object", std::string(where), "A record must be a JSON object with named fields."};
}

Result<records::Body> body_from_tree(std::string_view kind, const Json& tree, std::string_view base) {
  auto body = records::body_of_kind(kind);
  if (!body) {
    std::string known;
    for (const auto name : records::kind_names()) known += (known.empty() ? "" : ", ") + std::string(name);
    return Problem{"unknown_kind", "/kind", said("\"{0}\" is not a kind of record; known kinds are: {1}.", verbatim(kind), verbatim(known))};
  }
  if (!tree.is_object()) return not_an_object(base);
  Problems problems;
  Reader reader(tree, std::string(base), problems);
  std::visit([&](auto& b) { describe(reader, b); }, *body);
  reader.finish();
  if (!problems.empty()) return problems;
  return *body;
}

/// The parts of an entry around its body, shared by entries and whole records.
struct Envelope {
  std::string kind{};
  std::optional<std::string> at{};
  std::string author{};
  std::optional<long long> supersedes{};
  std::optional<std::string> entry_key{};
};

constexpr Range any_id{1, 9e15};

template <class V>
void describe_envelope(V& v, Envelope& e) {
  v.text("kind", e.kind, "the kind of record");
  v.text("at", e.at, "when it happened, RFC 3339");
  v.text("author", e.author, "who logs this: a team or role label, not a person's name");
  v.whole("supersedes", e.supersedes, any_id, "the record this corrects");
  v.text("entry_key", e.entry_key, "the sender's own key");
}

std::optional<Instant> instant_field(const std::string& text, std::string_view field, Problems& problems) {
  const auto at = instant_from_rfc3339(text);
  if (!at)
    problems.push_back({"not_an_instant", std::string(field),
                        said("\"{0}\" is not a time: write it like 2031-02-28T07:50:00-07:00.", verbatim(text.substr(0, 40)))});
  return at;
}

Result<records::Entry> entry_from_tree(const Json& tree, std::optional<Instant> now, Reader& reader, Problems& problems) {
  Envelope envelope;
  describe_envelope(reader, envelope);
  records::Entry entry;
  if (envelope.at) {
    if (const auto at = instant_field(*envelope.at, "/at", problems)) entry.at = *at;
  } else if (now) {
    entry.at = *now;
  } else {
    problems.push_back({"missing", "/at", "at is missing: give the time it happened."});
  }
  for (const auto& [field, text] : {std::pair("/author", &envelope.author), std::pair("/entry_key", envelope.entry_key ? &*envelope.entry_key : nullptr)})
    if (text && text->size() > 64) problems.push_back({"too_long", field, said("{0} is longer than 64 characters: use a short label.", verbatim(field + 1))});
  entry.author = envelope.author;
  entry.supersedes = envelope.supersedes;
  entry.entry_key = envelope.entry_key;
  Json empty = Json::object();
  const auto found = tree.find("body");
  auto body = body_from_tree(envelope.kind, found == tree.end() ? empty : *found, "/body");
  if (body) {
    entry.body = std::move(body).value();
  } else if (!envelope.kind.empty()) {
    problems.insert(problems.end(), body.problems().begin(), body.problems().end());
  }
  if (!problems.empty()) return problems;
  return entry;
}

void write_entry_fields(Json& out, const records::Entry& entry) {
  out["at"] = rfc3339_from_instant(entry.at);
  out["kind"] = std::string(records::kind_name(entry.body));
  out["author"] = entry.author;
  if (entry.supersedes) out["supersedes"] = *entry.supersedes;
  if (entry.entry_key) out["entry_key"] = *entry.entry_key;
}

Json tree_from_body(const records::Body& body) {
  Json out = Json::object();
  Writer writer(out);
  std::visit([&](const auto& b) {
    auto copy = b;  // describe() takes a mutable struct because the reader shares it
    describe(writer, copy);
  }, body);
  return out;
}

}  // namespace

Result<records::Body> body_from_json(std::string_view kind, std::string_view json, std::string_view base) {
  auto tree = parsed(json);
  if (!tree) return tree.problems();
  return body_from_tree(kind, *tree, base);
}

std::string json_from_body(const records::Body& body) { return printed(tree_from_body(body)); }

Result<records::Entry> entry_from_json(std::string_view json, Instant now) {
  auto tree = parsed(json);
  if (!tree) return tree.problems();
  if (!tree->is_object()) return not_an_object("");
  Problems problems;
  Reader reader(*tree, "", problems);
  reader.expect("body");
  auto entry = entry_from_tree(*tree, now, reader, problems);
  const std::size_t before = problems.size();
  reader.finish();
  if (problems.size() > before) {
    Problems all = entry ? Problems{} : entry.problems();
    all.insert(all.end(), problems.begin() + static_cast<std::ptrdiff_t>(before), problems.end());
    return all;
  }
  return entry;
}

std::string json_from_record(const records::Record& record) {
  Json out = Json::object();
  out["id"] = record.id;
  out["logged_at"] = rfc3339_from_instant(record.logged_at);
  write_entry_fields(out, record.entry);
  out["body"] = tree_from_body(record.entry.body);
  return printed(out);
}

Result<records::Record> record_from_json(std::string_view json) {
  auto tree = parsed(json);
  if (!tree) return tree.problems();
  if (!tree->is_object()) return not_an_object("");
  Problems problems;
  Reader reader(*tree, "", problems);
  reader.expect("body");
  records::Record record;
  std::string logged_at;
  reader.whole("id", record.id, any_id, "the number of the record");
  reader.text("logged_at", logged_at, "when it was written down");
  if (!logged_at.empty())
    if (const auto at = instant_field(logged_at, "/logged_at", problems)) record.logged_at = *at;
  auto entry = entry_from_tree(*tree, std::nullopt, reader, problems);
  if (!entry) problems = entry.problems();
  reader.finish();
  if (!problems.empty()) return problems;
  record.entry = std::move(entry).value();
  return record;
}

std::string json_schemas() {
  Json all = Json::object();
  for (const auto kind : records::kind_names()) {
    auto body = records::body_of_kind(kind);
    std::visit([&](auto& b) { all[std::string(kind)] = schema_of(b); }, *body);
  }
  return printed(all);
}

std::string json_quoted(std::string_view text) { return printed(Json(std::string(text))); }

}  // namespace redd::wire
