#pragma once
// Files from outside as entries of the log: test readings and temperature traces in CSV.
//   preview_import()  reads the file, says what it took it for and why, row by row; changes nothing.
//   entries_to_keep() gives the entries once the keeper has settled what was open and said what to do with bad rows.
// Logbook::append_all() then keeps them. Each entry carries a key made from its content, so importing a file again, or a
// longer version of it, adds only what is new.

#include <functional>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "quantities/result.h"
#include "quantities/time.h"
#include "records/record.h"

namespace redd::intake {

/// How words are said to whoever reads a preview.
using Worded = std::function<std::string(const Phrase&)>;
inline std::string in_english(const Phrase& words) { return words; }

/// How sure the program is of something it concluded from the file.
enum class Certainty {
  given,   ///< the keeper said so
  certain, ///< the file says so
  likely,  ///< a sensible guess; kept when the keeper accepts the preview
  open     ///< the file allows more than one answer that matters: the keeper must say which
};

/// One thing concluded about the file, as shown for confirmation.
struct Guess {
  std::string key{};      ///< name of the setting that decides it, e.g. "date_order"
  std::string value{};    ///< what was concluded, in the words the setting takes
  Certainty certainty = Certainty::likely;
  Phrase reason{};        ///< one sentence
  std::vector<std::string> alternatives{};  ///< other values the setting takes here
};

/// What the keeper says about the file; everything left out is concluded from the file. Command-line flags and form
/// fields use these same names and words.
struct Settings {
  std::optional<std::string> kind{};          ///< readings_long | readings_wide | temperature_logger
  std::optional<std::string> delimiter{};     ///< comma | semicolon | tab
  std::optional<std::string> decimal_mark{};  ///< point | comma
  std::optional<std::string> unit{};          ///< c | f, of the temperatures
  std::optional<std::string> date_order{};    ///< ymd | dmy | mdy
  std::optional<std::string> time_zone{};     ///< IANA name or a fixed offset such as UTC-07:00
  std::optional<std::string> time_of_day{};   ///< hh:mm, for readings that carry a date only
  std::optional<std::string> header_line{};   ///< line number of the header, counted from 1
  std::optional<std::string> time_column{};   ///< header text or number of the date (or date and time) column
  std::optional<std::string> value_column{};  ///< header text or number of the temperature column
  std::optional<std::string> place{};         ///< tank | room | source, of the temperatures
  std::optional<std::string> kit{};           ///< kit the readings were made with
  std::optional<std::string> drop_cells{};    ///< drops | value: what a number in a drop-count test stands for
  std::optional<std::string> dead_counts{};   ///< new | total: whether numbers of dead are of that day or all so far
  std::optional<std::string> from{};          ///< RFC 3339 or a date: rows before it are left out
  std::optional<std::string> to{};            ///< rows after it are left out (a date: after that day)
  std::map<std::string, std::string> columns{};  ///< header text -> one of Preview::meanings, or a test's key
  std::string author = "import";              ///< label the entries carry
};

/// Settings from words, e.g. from flags or form fields: {"date_order":"dmy", "columns/pH":"high_ph"}.
/// Errors  an unknown name or word, naming what is accepted.
Result<Settings> settings_from_words(const std::map<std::string, std::string>& words);

/// What the program knows besides the file.
struct Context {
  std::vector<records::Kit> kits{};  ///< kits in force
  ZoneOffsets zone{};                ///< of the season, wide enough for the file
  Date first_day{};                  ///< of the season, used only to weigh guesses
  Instant now{};                     ///< readings after it are refused
};

/// One row that can be kept.
struct GoodRow {
  std::size_t line = 0;  ///< in the file, counted from 1
  Instant at{};
  Phrase text{};         ///< e.g. "ammonia: between 0.25 and 0.5 mg/L as NH4"
};

/// One row, or one cell of a row, that can't be kept.
struct BadRow {
  std::size_t line = 0;
  std::string column{};  ///< header text, or "column 3"
  std::string cell{};    ///< what stands there
  Problem problem{};
};

/// A column of the file, for the step that says which is what.
struct ShownColumn {
  std::string header{};
  std::string role{};              ///< "date" or "time"; else empty, and the guess "columns/<header>" or "value_column" says
  std::vector<Phrase> samples{};   ///< a few cells as they stand there
};

/// A word that a column may be given, and how it is said.
struct Meaning {
  std::string word{};
  Phrase label{};
};

struct Preview {
  std::string kind{};
  std::vector<ShownColumn> columns{};
  std::vector<Meaning> meanings{};   ///< what a column may be; empty where only one column of the file is asked for
  std::size_t own_kits = 0;          ///< entries at the front that are kits: those that numbers of an older log stand on
  std::vector<Guess> guesses{};
  std::vector<GoodRow> good{};
  std::vector<BadRow> bad{};
  std::vector<Phrase> notes{};       ///< plain sentences: gaps, thinning, repeated hour, rows left out
  std::vector<records::Entry> entries{};  ///< what the good rows become, oldest first
};

/// Reads a file without changing anything.
///
/// In      bytes: the file as it is: UTF-8, UTF-16 with a byte-order mark, or Windows-1252; up to 32 MB.
/// Out     traces denser than hourly become hourly means (said in notes); the unfinished last hour waits.
/// Errors  only when nothing can be shown: empty, too large, not a table, no row that looks like data, a wrong setting.
Result<Preview> preview_import(std::string_view bytes, const Settings& settings, const Context& context);

/// What the keeper decided after seeing the preview.
struct Decision {
  bool accept_guesses = false;  ///< the likely guesses are right
  bool keep_good_rows = false;  ///< keep the good rows although there are bad ones
};

/// The entries to append.
/// Errors  open_question for each guess still open; not_confirmed while likely guesses are not accepted; bad_rows while
///         there are bad rows and they were not waived. Fields name the setting, or "line 7, column pH".
Result<std::vector<records::Entry>> entries_to_keep(const Preview& preview, Decision decision);

/// The preview as JSON: {"kind","columns":[{"header","role","samples"}],"meanings":[{"word","label"}],"guesses":[{"key","value","certainty","reason","alternatives"}],"good":[{"line","at","text"}],
/// "bad":[{"line","column","cell","code","sentence"}],"notes":[…],"good_count","bad_count","entry_count"}. At most `rows` good and bad rows each.
std::string json_from_preview(const Preview& preview, std::size_t rows = 200, const Worded& worded = in_english);

}  // namespace redd::intake
