#pragma once
// The shared classroom as the running server holds it: who is signed in, with which code, how often somebody tried, and the list of what was done.
// The rules are values in src/classroom; here they meet the clock, the lock and the disk. Start at Classroom::visitor().

#include <filesystem>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "classroom/codes.h"
#include "classroom/limits.h"
#include "classroom/sessions.h"
#include "secrets/certificate.h"
#include "server/audit_journal.h"
#include "server/http.h"
#include "server/season_desk.h"

namespace redd::server {

/// "season.redd.classroom" beside "season.redd": the passphrase's hash and nothing else.
std::filesystem::path passphrase_file(const std::filesystem::path& season_file);

/// Hashes the passphrase and keeps it. Errors  those of secrets::problems_of_passphrase(), no_memory, cannot_write.
Problems set_passphrase(const std::filesystem::path& season_file, const std::string& passphrase, Instant now);
/// Whether there was one. Errors  cannot_write.
Result<bool> remove_passphrase(const std::filesystem::path& season_file, Instant now);
/// Whether one is set. Errors  cannot_read, open_to_others.
Result<bool> has_passphrase(const std::filesystem::path& season_file);

/// Who asks.
struct Visitor {
  classroom::Role role = classroom::Role::nobody;
  std::string label{};    ///< the team a bench code is bound to; empty: any
  std::string from{};     ///< address; empty: this machine
  long long session = 0;
  Instant ends_at{};
};

/// Where the classroom finds this server.
struct Network {
  std::vector<std::string> addresses{};  ///< "https://school-pc.local:7443"
  secrets::Certificate certificate{};
};

/// An answer to somebody who tried: signed in, or why not and how long to wait.
struct Tried {
  std::optional<Visitor> visitor{};
  std::string token{};  ///< for the cookie
  std::optional<Problem> problem{};
  std::chrono::seconds wait{0};  ///< before the next try; 0: the word was wrong, but the next may follow
};

/// Safe from several threads.
class Classroom {
 public:
  /// In      network: nothing while Redd listens on this machine only; then nobody can sign in.
  Classroom(const std::filesystem::path& season_file, Clock clock, std::optional<Network> network);

  const std::optional<Network>& network() const { return network_; }
  const AuditJournal& journal() const { return journal_; }

  /// Seconds this address has to wait before it may ask anything; 0: now.
  std::chrono::seconds wait_to_ask(const std::string& from);
  /// Who carries this token; nobody when it opens nothing.
  Visitor visitor(std::string_view token, const std::string& from);

  /// One passphrase is looked at at a time, whoever else tries meanwhile waits a second: that is all the memory a flood of tries can take.
  Tried sign_in_with_passphrase(const std::string& passphrase, const std::string& from, std::string_view old_token);
  Tried sign_in_with_code(std::string_view typed, const std::string& from, std::string_view old_token);
  void sign_out(const Visitor& visitor);

  struct NewCode {
    std::string code{};
    classroom::BenchCode kept{};
  };
  /// Errors  out_of_range, too_many, personal_data, too_long, cannot_write.
  Result<NewCode> make_code(const std::string& team, std::chrono::minutes life, const Visitor& by);
  bool end_code(long long id, const Visitor& by);
  bool end_session(long long id, const Visitor& by);
  void end_all(const Visitor& by);
  std::vector<classroom::BenchCode> codes();
  std::vector<classroom::Session> sessions();

  /// Notes records that came in over the network.
  void note_records(const Visitor& by, std::vector<KeptRecord> records);
  /// Notes a season that was taken in over the network.
  void note_taken_in(const Visitor& by, std::vector<KeptRecord> records);
  /// Notes that Redd began to listen. Errors  cannot_write: then it should not, as nobody could tell who did what.
  Problems note_listening();

 private:
  Problems note(AuditLine line, const Visitor& by);
  Tried failed(const std::string& from, bool with_code);
  Tried begun(classroom::Session session, bool with_code, std::string_view old_token);
  std::chrono::seconds wait_to_try(const std::string& from);

  std::filesystem::path passphrase_file_;
  Clock clock_;
  std::optional<Network> network_;
  AuditJournal journal_;
  std::mutex hashing_;
  std::mutex mutex_;  ///< of all that follows
  classroom::Questions questions_{};
  classroom::Tries tries_{};
  classroom::BenchCodes codes_{};
  classroom::Sessions sessions_{};
};

}  // namespace redd::server
