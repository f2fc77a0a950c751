#include "server/audit_journal.h"

#include <algorithm>
#include <array>

#include "secrets/private_file.h"
#include "wire/json.h"

namespace redd::server {
namespace {

using wire::Json;

constexpr std::array<std::string_view, 13> deeds{"record", "sign_in", "sign_in_failed", "locked_out", "sign_out", "code_made", "code_ended", "session_ended", "all_ended", "taken_in", "passphrase_set", "passphrase_removed", "listening"};

constexpr std::uintmax_t most_bytes_of_strangers = 16 << 20;
constexpr std::size_t most_bytes = 64 << 20;

std::string text_of_line(const AuditLine& line) {
  Json json{{"at", rfc3339_from_instant(line.at)}, {"role", std::string(name_of(line.role))}, {"what", std::string(name_of(line.what))}};
  if (!line.label.empty()) json["label"] = line.label;
  if (!line.from.empty()) json["from"] = line.from;
  if (line.number != 0) json["number"] = line.number;
  if (line.minutes != 0) json["minutes"] = line.minutes;
  if (line.with_code) json["with_code"] = true;
  if (!line.records.empty()) {
    Json& records = json["records"] = Json::array();
    for (const auto& [id, logged_at] : line.records) records.push_back({id, rfc3339_from_instant(logged_at)});
  }
  return wire::printed(json);
}

std::string word(const Json& json, const char* key) {
  const auto found = json.find(key);
  return found != json.end() && found->is_string() ? found->get<std::string>() : "";
}
long long whole(const Json& json, const char* key) {
  const auto found = json.find(key);
  return found != json.end() && found->is_number_integer() ? found->get<long long>() : 0;
}

std::optional<AuditLine> line_of_text(std::string_view text) {
  const auto json = wire::parsed(text);
  if (!json || !json->is_object()) return std::nullopt;
  const auto at = instant_from_rfc3339(word(*json, "at"));
  const auto role = classroom::role_of(word(*json, "role"));
  const auto deed = std::ranges::find(deeds, word(*json, "what"));
  if (!at || !role || deed == deeds.end()) return std::nullopt;
  AuditLine line{*at, *role, word(*json, "label"), word(*json, "from"), static_cast<Deed>(deed - deeds.begin()), {}, whole(*json, "number"), json->value("with_code", Json()) == true, whole(*json, "minutes")};
  if (const auto records = json->find("records"); records != json->end()) {
    if (!records->is_array()) return std::nullopt;
    for (const Json& each : *records) {
      if (!each.is_array() || each.size() != 2 || !each[0].is_number_integer() || !each[1].is_string()) return std::nullopt;
      const auto logged_at = instant_from_rfc3339(each[1].get<std::string>());
      if (!logged_at) return std::nullopt;
      line.records.emplace_back(each[0].get<records::RecordId>(), *logged_at);
    }
  }
  return line;
}

}  // namespace

std::string_view name_of(Deed deed) { return deeds[static_cast<std::size_t>(deed)]; }

std::filesystem::path audit_file(const std::filesystem::path& season_file) { return season_file.string() + ".audit"; }

Problems AuditJournal::add(const AuditLine& line) {
  const bool by_strangers = line.what == Deed::sign_in_failed || line.what == Deed::locked_out;
  std::error_code none;
  const auto size = std::filesystem::file_size(file_, none);
  Problems problems;
  if (by_strangers && !none && size >= most_bytes_of_strangers)
    problems = {{"too_large", "", "The list of failed sign-ins is full."}};
  else
    problems = secrets::add_private_line(file_, text_of_line(line));
  if (!problems.empty()) {
    const std::lock_guard lock(mutex_);
    ++lost_;
  }
  return problems;
}

std::size_t AuditJournal::lost() const {
  const std::lock_guard lock(mutex_);
  return lost_;
}

Result<AuditLines> AuditJournal::read() const {
  const auto text = secrets::private_file_text(file_, most_bytes);
  if (!text) return text.problems();
  AuditLines read;
  if (!*text) return read;
  for (std::string_view rest = **text; !rest.empty();) {
    const std::size_t end = rest.find('\n');
    const std::string_view line = rest.substr(0, end);
    rest = end == std::string_view::npos ? std::string_view() : rest.substr(end + 1);
    if (line.empty()) continue;
    if (auto known = line_of_text(line)) read.lines.push_back(std::move(*known));
    else ++read.unreadable;
  }
  return read;
}

}  // namespace redd::server
