#include "classroom/sessions.h"

#include <algorithm>

namespace redd::classroom {

const Session* Sessions::begin(Session session, Instant now) {
  let_go(now);
  const auto of_code = std::ranges::count(sessions_, session.code, &Session::code);
  if (session.code != 0 && static_cast<std::size_t>(of_code) >= most_sessions_of_a_code) return nullptr;
  if (sessions_.size() >= most_sessions) {
    const auto idle = session.role == Role::keeper ? std::ranges::min_element(sessions_, {}, [](const Session& each) { return std::pair(each.role != Role::bench, each.last_seen_at); }) : sessions_.end();
    if (idle == sessions_.end()) return nullptr;
    sessions_.erase(idle);
  }
  session.id = ++last_id_;
  session.began_at = session.last_seen_at = now;
  sessions_.push_back(std::move(session));
  return &sessions_.back();
}

const Session* Sessions::find(const Digest& token, Instant now) {
  let_go(now);
  Session* found = nullptr;
  for (Session& session : sessions_)
    if (same_digest(session.token, token)) found = &session;
  if (found) found->last_seen_at = std::max(found->last_seen_at, now);
  return found;
}

bool Sessions::end(long long id) { return std::erase_if(sessions_, [&](const Session& session) { return session.id == id; }) > 0; }

void Sessions::end_of_code(long long code) { std::erase_if(sessions_, [&](const Session& session) { return code != 0 && session.code == code; }); }

void Sessions::end_all(long long but) { std::erase_if(sessions_, [&](const Session& session) { return session.id != but; }); }

void Sessions::end_of_other_words(const std::string& word_mark) {
  std::erase_if(sessions_, [&](const Session& session) { return session.role == Role::keeper && session.word_mark != word_mark; });
}

const std::vector<Session>& Sessions::open(Instant now) {
  let_go(now);
  return sessions_;
}

/// A clock that was set back would lengthen a session: then it ends.
void Sessions::let_go(Instant now) {
  std::erase_if(sessions_, [&](const Session& session) {
    return now >= session.ends_at || now - session.last_seen_at >= longest_idle || now < session.last_seen_at - std::chrono::minutes(1);
  });
}

}  // namespace redd::classroom
