#include "server/classroom.h"

#include <cstdio>

#include "records/labels.h"
#include "secrets/passphrase.h"
#include "secrets/private_file.h"
#include "secrets/random.h"

namespace redd::server {
namespace {

using classroom::Role;

constexpr std::size_t most_hash_bytes = 1024;

Result<std::optional<std::string>> kept_hash(const std::filesystem::path& file) {
  auto text = secrets::private_file_text(file, most_hash_bytes);
  if (text && text.value())
    while (!text.value()->empty() && text.value()->back() == '\n') text.value()->pop_back();
  return text;
}

Problem later(std::chrono::seconds wait) {
  return wait < std::chrono::minutes(2) ? Problem{"try_later", "", said("Too many tries. Wait {0, plural, one {# second} other {# seconds}}, then try again.", wait.count())}
                                        : Problem{"try_later", "", said("Too many tries. Wait {0} minutes, then try again.", (wait.count() + 59) / 60)};
}

}  // namespace

std::filesystem::path passphrase_file(const std::filesystem::path& season_file) { return season_file.string() + ".classroom"; }

Problems set_passphrase(const std::filesystem::path& season_file, const std::string& passphrase, Instant now) {
  if (Problems problems = secrets::problems_of_passphrase(passphrase); !problems.empty()) return problems;
  const auto hash = secrets::hash_of_passphrase(passphrase);
  if (!hash) return hash.problems();
  if (Problems problems = secrets::write_private_file(passphrase_file(season_file), *hash + "\n"); !problems.empty()) return problems;
  return AuditJournal(audit_file(season_file)).add({.at = now, .what = Deed::passphrase_set});
}

Result<bool> remove_passphrase(const std::filesystem::path& season_file, Instant now) {
  std::error_code failed;
  const bool gone = std::filesystem::remove(passphrase_file(season_file), failed);
  if (failed) return Problem{"cannot_write", "", said("{0} can't be removed: {1}.", passphrase_file(season_file).string(), failed.message())};
  if (gone)
    if (Problems problems = AuditJournal(audit_file(season_file)).add({.at = now, .what = Deed::passphrase_removed}); !problems.empty()) return problems;
  return gone;
}

Result<bool> has_passphrase(const std::filesystem::path& season_file) {
  const auto hash = kept_hash(passphrase_file(season_file));
  if (!hash) return hash.problems();
  return hash->has_value();
}

Classroom::Classroom(const std::filesystem::path& season_file, Clock clock, std::optional<Network> network)
    : passphrase_file_(passphrase_file(season_file)), clock_(std::move(clock)), network_(std::move(network)), journal_(audit_file(season_file)) {}

std::chrono::seconds Classroom::wait_to_ask(const std::string& from) {
  const std::lock_guard lock(mutex_);
  return questions_.wait(from, clock_());
}

Visitor Classroom::visitor(std::string_view token, const std::string& from) {
  const classroom::Digest digest = secrets::digest_of(token);
  const std::lock_guard lock(mutex_);
  sessions_.end_of_other_words(secrets::mark_of_file(passphrase_file_));
  const classroom::Session* session = token.empty() ? nullptr : sessions_.find(digest, clock_());
  if (!session) return {Role::nobody, "", from};
  return {session->role, session->label, from, session->id, session->ends_at};
}

std::chrono::seconds Classroom::wait_to_try(const std::string& from) {
  const std::lock_guard lock(mutex_);
  return tries_.wait(from, clock_());
}

Tried Classroom::sign_in_with_passphrase(const std::string& passphrase, const std::string& from, std::string_view old_token) {
  const std::unique_lock hashing(hashing_, std::try_to_lock);
  if (!hashing.owns_lock()) return {.problem = later(std::chrono::seconds(1)), .wait = std::chrono::seconds(1)};
  if (const auto wait = wait_to_try(from); wait.count() > 0) return {.problem = later(wait), .wait = wait};
  // The mark first: a passphrase that is changed meanwhile ends the session that began with the old one.
  std::string mark = secrets::mark_of_file(passphrase_file_);
  const auto hash = kept_hash(passphrase_file_);
  if (!hash) return {.problem = hash.problems().front()};
  if (!*hash || !secrets::is_passphrase_of(**hash, passphrase)) return failed(from, false);
  return begun({.token = {}, .role = Role::keeper, .from = from, .word_mark = std::move(mark), .ends_at = clock_() + classroom::longest_keeper_session}, false, old_token);
}

Tried Classroom::sign_in_with_code(std::string_view typed, const std::string& from, std::string_view old_token) {
  if (const auto wait = wait_to_try(from); wait.count() > 0) return {.problem = later(wait), .wait = wait};
  const auto code = classroom::code_from_typed(typed);
  std::optional<classroom::BenchCode> found;
  if (code) {
    const classroom::Digest digest = secrets::digest_of(*code);
    const std::lock_guard lock(mutex_);
    if (const classroom::BenchCode* kept = codes_.find(digest, clock_())) found = *kept;
  }
  if (!found) return failed(from, true);
  return begun({.token = {}, .role = Role::bench, .label = found->label, .code = found->id, .from = from, .ends_at = found->ends_at}, true, old_token);
}

Tried Classroom::failed(const std::string& from, bool with_code) {
  bool waits = false;
  {
    const std::lock_guard lock(mutex_);
    waits = tries_.failed(from, clock_());
  }
  const Visitor nobody{Role::nobody, "", from};
  (void)note({.what = Deed::sign_in_failed, .with_code = with_code}, nobody);
  if (waits) (void)note({.what = Deed::locked_out}, nobody);
  return {.problem = with_code ? Problem{"unknown_code", "/code", "This code does not hold, or no longer. Look again at what is written, or ask the keeper for a new one."}
                               : Problem{"wrong_passphrase", "/passphrase", "This is not the passphrase."}};
}

/// Noted first: nobody comes in of whom the list does not tell.
Tried Classroom::begun(classroom::Session session, bool with_code, std::string_view old_token) {
  Tried tried;
  tried.token = secrets::new_token();
  session.token = secrets::digest_of(tried.token);
  Visitor visitor{session.role, session.label, session.from, 0, session.ends_at};
  if (Problems problems = note({.what = Deed::sign_in, .number = session.code, .with_code = with_code}, visitor); !problems.empty()) return {.problem = problems.front()};
  const classroom::Digest old = secrets::digest_of(old_token);
  const std::lock_guard lock(mutex_);
  if (const classroom::Session* before = old_token.empty() ? nullptr : sessions_.find(old, clock_())) sessions_.end(before->id);
  const classroom::Session* begun = sessions_.begin(std::move(session), clock_());
  if (!begun) return {.problem = Problem{"try_later", "", "Too many devices are signed in. Sign out on one that is no longer used, or ask the keeper to end its session."}, .wait = std::chrono::seconds(60)};
  visitor.session = begun->id;
  tried.visitor = std::move(visitor);
  return tried;
}

void Classroom::sign_out(const Visitor& visitor) {
  {
    const std::lock_guard lock(mutex_);
    if (visitor.session == 0 || !sessions_.end(visitor.session)) return;
  }
  (void)note({.what = Deed::sign_out}, visitor);
}

Result<Classroom::NewCode> Classroom::make_code(const std::string& team, std::chrono::minutes life, const Visitor& by) {
  if (auto problem = records::problem_of_label(team, "/team")) return *problem;
  if (team.size() > 64) return Problem{"too_long", "/team", "team is longer than 64 characters: use a short label."};
  std::string code = secrets::new_code();
  Result<classroom::BenchCode> kept = [&] {
    const std::lock_guard lock(mutex_);
    return codes_.add(secrets::digest_of(code), team, life, clock_());
  }();
  if (!kept) return kept.problems();
  AuditLine line{.label = team, .what = Deed::code_made, .number = kept->id, .minutes = life.count()};
  if (Problems problems = note(std::move(line), by); !problems.empty()) {
    const std::lock_guard lock(mutex_);
    codes_.end(kept->id, clock_());
    return problems;
  }
  return NewCode{classroom::code_as_shown(code), *kept};
}

bool Classroom::end_code(long long id, const Visitor& by) {
  {
    const std::lock_guard lock(mutex_);
    if (!codes_.end(id, clock_())) return false;
    sessions_.end_of_code(id);
  }
  (void)note({.what = Deed::code_ended, .number = id}, by);
  return true;
}

bool Classroom::end_session(long long id, const Visitor& by) {
  {
    const std::lock_guard lock(mutex_);
    if (!sessions_.end(id)) return false;
  }
  (void)note({.what = Deed::session_ended, .number = id}, by);
  return true;
}

void Classroom::end_all(const Visitor& by) {
  {
    const std::lock_guard lock(mutex_);
    codes_.end_all();
    sessions_.end_all(by.session);
  }
  (void)note({.what = Deed::all_ended}, by);
}

std::vector<classroom::BenchCode> Classroom::codes() {
  const std::lock_guard lock(mutex_);
  return codes_.open(clock_());
}

std::vector<classroom::Session> Classroom::sessions() {
  const std::lock_guard lock(mutex_);
  return sessions_.open(clock_());
}

void Classroom::note_records(const Visitor& by, std::vector<KeptRecord> records) {
  if (!records.empty()) (void)note({.what = Deed::record, .records = std::move(records)}, by);
}

void Classroom::note_taken_in(const Visitor& by, std::vector<KeptRecord> records) {
  const auto count = static_cast<long long>(records.size());
  if (count > 0) (void)note({.what = Deed::taken_in, .records = std::move(records), .number = count}, by);
}

Problems Classroom::note_listening() { return journal_.add({.at = clock_(), .what = Deed::listening}); }

/// What can't be written is counted by the journal and told with the list; the terminal hears of it at once.
Problems Classroom::note(AuditLine line, const Visitor& by) {
  line.at = clock_();
  line.role = by.role;
  line.from = by.from;
  if (line.label.empty()) line.label = by.label;
  Problems problems = journal_.add(line);
  for (const Problem& problem : problems) std::fprintf(stderr, "redd: %s\n", problem.sentence.c_str());
  return problems;
}

}  // namespace redd::server
