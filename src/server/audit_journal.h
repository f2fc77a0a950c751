#pragma once
// What was done over the local network, and by whom, one line a deed in a small file beside the season. A season's records do not say how they came in;
// this file does. It is no part of the season: copies and exports leave it out. Start at AuditJournal::add().

#include <filesystem>
#include <mutex>
#include <string>
#include <utility>
#include <vector>

#include "classroom/roles.h"
#include "quantities/result.h"
#include "quantities/time.h"
#include "records/record.h"

namespace redd::server {

enum class Deed { record, sign_in, sign_in_failed, locked_out, sign_out, code_made, code_ended, session_ended, all_ended, taken_in, passphrase_set, passphrase_removed, listening };
std::string_view name_of(Deed deed);

/// A record by its number and when it was logged: after a restore a number may be given a second time.
using KeptRecord = std::pair<records::RecordId, Instant>;

struct AuditLine {
  Instant at{};
  classroom::Role role = classroom::Role::this_machine;
  std::string label{};  ///< the team of the code; empty: none
  std::string from{};   ///< address on the local network; empty: this machine
  Deed what = Deed::record;
  std::vector<KeptRecord> records{};
  long long number = 0;  ///< of the code or session; of minutes or records
  bool with_code = false;  ///< signing in: with a bench code, not the passphrase
  long long minutes = 0;   ///< a code's life
};

/// "season.redd.audit" beside "season.redd".
std::filesystem::path audit_file(const std::filesystem::path& season_file);

struct AuditLines {
  std::vector<AuditLine> lines{};  ///< oldest first
  std::size_t unreadable = 0;
};

class AuditJournal {
 public:
  explicit AuditJournal(std::filesystem::path file) : file_(std::move(file)) {}

  /// Onto the disk before it returns. Failed sign-ins are no longer written once the file has grown to 16 MiB, so that nobody fills a disk from outside.
  /// Errors  cannot_write; the line is then counted as lost().
  Problems add(const AuditLine& line);
  /// Lines that could not be written since the program began.
  std::size_t lost() const;
  /// Errors  cannot_read, too_large, open_to_others. No file: no lines.
  Result<AuditLines> read() const;

 private:
  std::filesystem::path file_;
  mutable std::mutex mutex_;
  std::size_t lost_ = 0;
};

}  // namespace redd::server
