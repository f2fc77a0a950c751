// passphrase, code and audit: the shared classroom at the keeper's machine.
#include <termios.h>
#include <unistd.h>

#include <algorithm>
#include <istream>
#include <ostream>

#include "cli/ask_server.h"
#include "cli/commands.h"
#include "cli/record_list.h"
#include "quantities/verbatim.h"
#include "server/audit_view.h"
#include "server/classroom.h"
#include "wire/json.h"

namespace redd::cli {
namespace {

/// Keeps what is typed off the screen while it lives.
class NoEcho {
 public:
  NoEcho() : is_terminal_(tcgetattr(STDIN_FILENO, &before_) == 0) {
    termios quiet = before_;
    quiet.c_lflag &= ~static_cast<tcflag_t>(ECHO);
    if (is_terminal_) tcsetattr(STDIN_FILENO, TCSAFLUSH, &quiet);
  }
  ~NoEcho() {
    if (is_terminal_) tcsetattr(STDIN_FILENO, TCSAFLUSH, &before_);
  }
  NoEcho(const NoEcho&) = delete;
  NoEcho& operator=(const NoEcho&) = delete;

 private:
  termios before_{};
  bool is_terminal_;
};

std::optional<std::string> asked_unseen(const Console& console, const std::string& question) {
  console.out << question << ": " << std::flush;
  std::string answer;
  bool given = false;
  {
    const NoEcho quiet;
    given = static_cast<bool>(std::getline(console.in, answer));
  }
  console.out << "\n";
  return given ? std::optional(answer) : std::nullopt;
}

Result<std::string> typed_passphrase(const Console& console, const std::string& file) {
  if (!file.empty()) {
    auto text = file_text(console, file);
    if (text)
      while (!text.value().empty() && (text.value().back() == '\n' || text.value().back() == '\r')) text.value().pop_back();
    return text;
  }
  if (!console.can_ask) return Problem{"nobody_to_ask", "", "There is no terminal to type the passphrase at. Give it in a file: redd passphrase --from-file FILE, or - for standard input."};
  const auto first = asked_unseen(console, console.say("Passphrase for this season's classroom (not shown)"));
  const auto second = first ? asked_unseen(console, console.say("The same once more")) : first;
  if (!first || !second) return Problem{"nothing_typed", "", "Nothing was typed, so nothing was changed."};
  if (*first != *second) return Problem{"not_the_same", "", "The two are not the same, so nothing was changed."};
  return *first;
}

std::string word(const wire::Json& tree, const char* key) {
  const auto found = tree.find(key);
  return found != tree.end() && found->is_string() ? found->get<std::string>() : "";
}

/// What the running server says, or its refusal.
Result<wire::Json> answer_of_server(const Console& console, int port, const std::string& path, const std::string& body) {
  const Problem not_redd{"not_redd", "", said("What answers at port {0} is not Redd.", port)};
  const auto answer = ask_server(port, path, body, console.reader.language);
  if (!answer) return answer.problems();
  auto tree = wire::parsed(answer->body);
  if (!tree || !tree->is_object()) return not_redd;
  if (answer->status < 300) return tree;
  Problems problems;
  if (const auto all = tree->find("problems"); all != tree->end() && all->is_array())
    for (const auto& each : *all)
      if (each.is_object()) problems.push_back({"refused", "", verbatim(word(each, "sentence"))});
  if (problems.empty()) return not_redd;
  return problems;
}

Phrase role_text(classroom::Role role) {
  switch (role) {
    case classroom::Role::this_machine: return "this machine";
    case classroom::Role::keeper: return "keeper";
    case classroom::Role::bench: return "bench";
    case classroom::Role::nobody: return "not signed in";
  }
  broken_promise("role_text", "unknown role");
}

/// "14:05" would need the school's clock, which this command does not open a season for.
std::string minutes_left(const wire::Json& thing) {
  const auto ends_at = instant_from_rfc3339(word(thing, "ends_at"));
  return ends_at ? std::to_string(std::max<long long>(0, std::chrono::round<std::chrono::minutes>(*ends_at - server::system_now()).count())) : "";
}

Exit print_open(const Console& console, const CodeQuestion& question) {
  const auto tree = question.end_all ? answer_of_server(console, question.port, "/api/classroom/end-all", "{}") : answer_of_server(console, question.port, "/api/classroom/access", "");
  if (!tree) return complain(console, tree.problems());
  std::vector<std::vector<std::string>> rows{{console.say("Who"), console.say("Label"), console.say("From"), console.say("Minutes left")}};
  for (const auto& code : tree->value("codes", wire::Json::array())) rows.push_back({console.say(said("bench code {0}", code.value("id", 0LL))), word(code, "label"), "", minutes_left(code)});
  for (const auto& session : tree->value("sessions", wire::Json::array())) rows.push_back({console.say(role_text(classroom::role_of(word(session, "role")).value_or(classroom::Role::nobody))), word(session, "label"), word(session, "from"), minutes_left(session)});
  if (rows.size() == 1) console.out << console.say("No code and no session is open.") << "\n";
  else console.out << table(rows);
  return Exit::ok;
}

}  // namespace

Exit passphrase(const Console& console, const Place& place, const PassphraseChange& change) {
  if (const Problems problems = made_folder(place); !problems.empty()) return complain(console, problems);
  if (change.remove) {
    const auto gone = server::remove_passphrase(place.file(), server::system_now());
    if (!gone) return complain(console, gone.problems());
    console.out << console.say(*gone ? Phrase("The passphrase is removed. Redd can't be shared until a new one is set.") : Phrase("There was no passphrase.")) << "\n";
    return Exit::ok;
  }
  const auto typed = typed_passphrase(console, change.file);
  if (!typed) return complain(console, typed.problems());
  Problems problems = server::set_passphrase(place.file(), *typed, server::system_now());
  for (Problem& problem : problems) problem.field.clear();
  if (!problems.empty()) return complain(console, problems);
  console.out << console.say("The passphrase is set; who was signed in with another one no longer is. Only its hash is kept: nobody can look it up, but a new one can be set at any time.") << "\n"
              << console.say("To share this season in the classroom: redd serve --on-network") << "\n";
  return Exit::ok;
}

Exit code(const Console& console, const CodeQuestion& question) {
  if (question.list || question.end_all) return print_open(console, question);
  wire::Json body = wire::Json::object();
  if (!question.team.empty()) body["team"] = question.team;
  if (question.minutes) body["minutes"] = *question.minutes;
  const auto tree = answer_of_server(console, question.port, "/api/classroom/codes", wire::printed(body));
  if (!tree) return complain(console, tree.problems());
  const auto ends_at = instant_from_rfc3339(word(*tree, "ends_at"));
  const auto minutes = ends_at ? std::chrono::round<std::chrono::minutes>(*ends_at - server::system_now()).count() : 0;
  console.out << console.say(said("Bench code: {0}", verbatim(word(*tree, "code")))) << "\n"
              << console.say(question.team.empty() ? said("It holds for {0} minutes and adds readings, nothing else. It is not shown again.", minutes) : said("It holds for {0} minutes and adds readings of {1}, nothing else. It is not shown again.", minutes, verbatim(question.team))) << "\n";
  return Exit::ok;
}

Exit audit(const Console& console, const Place& place, const AuditQuestion& question) {
  auto desk = place.demo ? server::SeasonDesk::open_demo(place.file(), server::system_now) : server::SeasonDesk::open(place.file(), server::system_now);
  if (!desk) return complain(console, desk.problems());
  const auto look = (*desk)->look();
  if (!look) return complain(console, look.problems());
  const server::AuditJournal journal(server::audit_file(place.file()));
  const auto list = server::audit_of(**look, journal, console.reader, static_cast<std::size_t>(question.limit), std::nullopt);
  if (!list) return complain(console, list.problems());
  if (question.json) {
    console.out << server::json_of_audit(*list) << "\n";
    return Exit::ok;
  }
  std::vector<std::vector<std::string>> rows{{console.say("When"), console.say("Who"), console.say("Label"), console.say("From"), console.say("What")}};
  for (const server::AuditRow& row : list->rows)
    rows.push_back({moment_text((*look)->zone, row.at), console.say(role_text(row.role)), row.label, row.from, (row.record ? std::to_string(*row.record) + "  " : "") + row.sentence});
  if (rows.size() == 1) console.out << console.say("Nothing was done yet.") << "\n";
  else console.out << table(rows, 140);
  if (list->before) console.out << console.say(said("Older: --limit {0}", question.limit * 2)) << "\n";
  for (const std::string& gap : list->gaps) console.err << "redd: " << gap << "\n";
  return Exit::ok;
}

}  // namespace redd::cli
