// cli/commands.h
// One function a command, with what was typed as plain values. command_line.cpp reads the words; these do the work.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "cli/console.h"
#include "cli/flags.h"
#include "cli/place.h"
#include "report/wqx_csv.h"

namespace redd::cli {

/// What any new record carries besides its body.
struct Writing {
  std::optional<std::string> at{};
  std::optional<std::string> author{};  ///< else $REDD_AUTHOR, else "keeper"
  std::optional<std::string> json{};    ///< the whole body as JSON instead of flags
  std::optional<std::string> entry_key{};
};

Exit init(const Console& console, const Place& place, const Typed& typed, const Writing& writing);
Exit log(const Console& console, const Place& place, const std::string& kind, const Typed& typed,
         const Writing& writing);
Exit correct(const Console& console, const Place& place, std::int64_t id, const Typed& typed, const Writing& writing);
Exit undo(const Console& console, const Place& place, std::int64_t id, const Writing& writing);
/// Takes back every record logged since a day or moment.
Exit undo_since(const Console& console, const Place& place, const std::string& since, bool yes, const Writing& writing);
/// --author, else $REDD_AUTHOR, else "keeper".
std::string author_of(const Writing& writing);

struct Answering {
  records::AdviceAnswer::Answer answer = records::AdviceAnswer::Answer::done;
  std::string which{};                  ///< number in the list `redd today` showed last, or key
  std::optional<std::string> until{};   ///< not_now: the day to ask again
  std::optional<std::string> remark{};
};
Exit answer(const Console& console, const Place& place, const Answering& given, const Writing& writing);

struct Listing {
  std::optional<std::string> kind{};
  bool all = false;
  bool json = false;
};
Exit list(const Console& console, const Place& place, const Listing& listing);
struct Looking {
  bool json = false;
  bool quick = false;  ///< do not wait for the filter's outlook
  bool all = false;    ///< every action, not only the first five, and what was put aside
};
Exit today(const Console& console, const Place& place, const Looking& looking);
Exit outlook(const Console& console, const Place& place, const Looking& looking);
Exit plan(const Console& console, const Place& place, const Looking& looking);
struct PlanFile {
  std::string file{};     ///< "-": standard output
  bool closures = false;  ///< also the days the school is closed
  bool force = false;     ///< replace the file
};
Exit plan_file(const Console& console, const Place& place, const PlanFile& wanted);
struct HeatQuestion {
  std::string target{}, room{};          ///< as typed, with their unit; empty: from the log
  std::optional<double> humidity_percent{};
  bool json = false;
};
Exit heat(const Console& console, const Place& place, const HeatQuestion& question);
Exit feed(const Console& console, const Place& place, const Looking& looking);
struct WaterQuestion {
  std::string change{}, source{}, temperature{};  ///< as typed: "30 %" or "60L"; key; with its unit. Empty: the programme is asked for
  bool vacuum = false, unaired = false, chlorinated = false;
  bool json = false, quick = false;
};
Exit water(const Console& console, const Place& place, const WaterQuestion& question);
struct BenchQuestion {
  std::string kit{};                 ///< not needed when only one is in use
  std::vector<std::string> tests{};  ///< empty: all but those that another card of the same quantity comes before
  int hands = 1;
  bool json = false;
};
Exit bench(const Console& console, const Place& place, const BenchQuestion& question);
struct ThermometerAsked {
  bool find = false;       ///< list the sensors of this machine
  bool try_alarm = false;  ///< send a test alarm
  bool settings = false;   ///< print a settings file to start from
};
/// Reads the live thermometer once, or what was asked for instead.
Exit thermometer(const Console& console, const Place& place, const ThermometerAsked& asked);
struct LessonsQuestion {
  std::string level{};         ///< "younger" or "older": that worksheet; empty: game and teams
  std::optional<int> sheet{};
  bool answers = false, json = false;
};
Exit lessons(const Console& console, const Place& place, const LessonsQuestion& question);
struct EmergencyQuestion {
  std::string which{};  ///< empty: all in short
  bool card = false, json = false;
};
Exit emergency(const Console& console, const Place& place, const EmergencyQuestion& question);
Exit counts(const Console& console, const Place& place, bool json);
Exit report(const Console& console, const Place& place, bool json);
Exit next_year(const Console& console, const Place& place, bool json);
Exit loading(const Console& console, const Place& place, const Looking& looking);
Exit milestones(const Console& console, const Place& place, bool json);

Exit kit_list(const Console& console, const Place& place);
Exit kit_show(const Console& console, const Place& place, const std::string& key);
Exit kit_template(const Console& console, const std::string& key);
Exit kit_check(const Console& console, const std::string& file);
Exit kit_use(const Console& console, const Place& place, const std::string& file, const Writing& writing);

struct Importing {
  std::string what;  ///< readings or temperatures
  std::string file;
  std::map<std::string, std::string> settings{};  ///< names of intake::Settings and the words given
  bool yes = false;
  bool keep_good_rows = false;
  bool json = false;
};
Exit import_table(const Console& console, const Place& place, const Importing& importing);
struct ImportingCalendar {
  std::string file;
  std::string author = "import";
  bool all = false;  ///< every whole-day event, not only those that sound like a closed school
  bool yes = false;
  bool keep_good_rows = false;
  bool json = false;
};
Exit import_calendar(const Console& console, const Place& place, const ImportingCalendar& importing);
Exit import_season(const Console& console, const Place& place, const std::string& file);
Exit export_season(const Console& console, const Place& place, const std::string& file, bool force);

/// What "redd export --wqx" is asked with.
struct WqxAsked {
  std::string file{};
  report::WqxLabels labels{};
};
/// In      to: a folder, or a file that ends in .zip.
Exit export_tables(const Console& console, const Place& place, const std::string& to, bool force);
Exit export_wqx(const Console& console, const Place& place, const WqxAsked& asked, bool force);

/// The records of a saved season: the file of one piece, a folder of tables, or a .zip of them.
Result<std::vector<records::Record>> records_of_saved(const Console& console, const std::string& path);
/// Writes redd.html, the edition in one file.
Exit edition(const Console& console, const std::string& file, bool force);

Exit copies(const Console& console, const Place& place, bool make);
/// In      which: number of a copy, a day, or a file.
Exit restore(const Console& console, const Place& place, const std::string& which, bool yes);
Exit check(const Console& console, const Place& place, const std::string& file);
Exit salvage(const Console& console, const std::string& damaged, const std::string& target, bool without_copies);
/// In      typed_name: the season's name, empty to ask for it.
Exit delete_season(const Console& console, const Place& place, const std::string& typed_name);

struct Serving {
  int port = 7333;
  bool no_browser = false;
  bool fresh = false;  ///< demo: begin its story anew
  bool on_network = false;      ///< also for the devices of the local network
  int network_port = 7443;
  std::string certificate{}, key{};  ///< files of the school's; empty: Redd's own
};
Exit serve(const Console& console, const Place& place, const Serving& serving);

struct PassphraseChange {
  std::string file{};   ///< to read it from, "-" for standard input; empty: ask for it
  bool remove = false;
};
Exit passphrase(const Console& console, const Place& place, const PassphraseChange& change);
struct CodeQuestion {
  std::string team{};
  std::optional<int> minutes{};
  int port = 7333;  ///< of the server that runs on this machine
  bool list = false, end_all = false;
};
/// Has the running server make a bench code, or show or end what is open.
Exit code(const Console& console, const CodeQuestion& question);
struct AuditQuestion {
  int limit = 50;
  bool json = false;
};
Exit audit(const Console& console, const Place& place, const AuditQuestion& question);

Exit calc_list(const Console& console, bool json);
Exit calc(const Console& console, const std::string& name, const std::vector<std::string>& inputs, bool json);
Exit engine(const Console& console);

/// The words of `redd` alone.
void print_guide(const Console& console);

}  // namespace redd::cli
