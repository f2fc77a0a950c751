#pragma once
// Who is signed in: sessions as values, found by the hash of their token. Time is given. Start at Sessions::begin().

#include <chrono>
#include <string>
#include <vector>

#include "classroom/digest.h"
#include "classroom/roles.h"
#include "quantities/time.h"

namespace redd::classroom {

inline constexpr std::chrono::minutes longest_idle{60};
inline constexpr std::chrono::hours longest_keeper_session{10};  ///< a school day
inline constexpr std::size_t most_sessions = 200;
inline constexpr std::size_t most_sessions_of_a_code = 40;

struct Session {
  long long id = 0;
  Digest token{};
  Role role = Role::nobody;
  std::string label{};     ///< the team its code is bound to; empty: any, or the keeper
  long long code = 0;      ///< id of the bench code it began with; 0: the passphrase
  std::string from{};      ///< address of the device
  std::string word_mark{}; ///< of the keeper's passphrase it began with: another passphrase ends it
  Instant began_at{};
  Instant last_seen_at{};
  Instant ends_at{};       ///< at the latest
};

class Sessions {
 public:
  /// Keeps a new session and gives it its number. When the house is full, the keeper takes the place of the bench session that has been idle longest.
  ///
  /// In      session: without id and times but ends_at.
  /// Errors  nullptr: too many sessions, or too many of its code.
  const Session* begin(Session session, Instant now);
  /// The session of this token, which is seen now; nullptr when there is none or its time is over.
  const Session* find(const Digest& token, Instant now);
  bool end(long long id);
  void end_of_code(long long code);
  /// But the one of this number (0: of none).
  void end_all(long long but);
  /// Ends the keeper's sessions that began with another passphrase.
  void end_of_other_words(const std::string& word_mark);
  /// Those that go on, oldest first.
  const std::vector<Session>& open(Instant now);

 private:
  void let_go(Instant now);
  std::vector<Session> sessions_{};
  long long last_id_ = 0;
};

}  // namespace redd::classroom
