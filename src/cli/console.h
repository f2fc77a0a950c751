// cli/console.h
// Where a command reads from and writes to, and the few shapes its answers take.
#pragma once

#include <iosfwd>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "quantities/result.h"
#include "report/numbers.h"

namespace redd::cli {

/// What the shell is told.
enum class Exit { ok = 0, problem = 1, usage = 2 };

struct Console {
  std::istream& in;
  std::ostream& out;
  std::ostream& err;
  bool can_ask = false;  ///< somebody sits at the keyboard
  report::Reader reader{};  ///< for whom answers are worded; in UTC until a season's zone is known

  /// Words without typed values, in the reader's language.
  std::string say(const Phrase& words) const { return report::text_of(words, reader); }
  /// The reader at a season's clock.
  report::Reader in_zone(const ZoneOffsets& zone) const {
    report::Reader there = reader;
    there.zone = zone;
    return there;
  }
};

/// Prints each problem to err, its field in front, and gives Exit::problem.
Exit complain(const Console& console, const Problems& problems);

/// Asks a question and gives the trimmed answer, `otherwise` for an empty one; nothing at the end of input.
std::optional<std::string> asked(const Console& console, const std::string& question,
                                 const std::string& otherwise = "");
/// Asks yes or no; anything but yes is no.
bool confirmed(const Console& console, const std::string& question);

/// Columns lined up, two spaces between, the last one wrapped to the width.
std::string table(const std::vector<std::vector<std::string>>& rows, std::size_t width = 100);

/// Characters a text takes on the screen (UTF-8, one column each).
std::size_t columns_of(std::string_view text);

/// The text in lines of at most `width` columns, continued lines indented.
std::string wrapped(std::string_view text, std::size_t width, std::size_t indent = 0);

/// The text as a shell takes it for one word: quoted where it must be.
std::string shell_word(const std::string& text);

/// A whole file, or standard input for "-".
Result<std::string> file_text(const Console& console, const std::string& path);

/// Writes a whole file or nothing: a reader never sees half of it.
///
/// In      force: replace what is there.
/// Errors  file_exists, cannot_write; empty when it is written.
Problems write_file(const std::string& path, const std::string& text, bool force);

}  // namespace redd::cli
