#include "cli/manual.h"

#include <sstream>

#include "cli/words_of_help.h"

namespace redd::cli {
namespace {

/// Running text, safe in man(7): nothing in it is taken for a request, and what is typed can be copied.
std::string roff(std::string_view text) {
  std::string out;
  if (text.starts_with('.') || text.starts_with('\'')) out += "\\&";
  for (const char c : text) {
    switch (c) {
      case '\\': out += "\\(rs"; break;
      case '-': out += "\\-"; break;
      case '\'': out += "\\(aq"; break;
      case '"': out += "\\(dq"; break;
      case '`': out += "\\(ga"; break;
      case '^': out += "\\(ha"; break;
      case '~': out += "\\(ti"; break;
      default: out += c;
    }
  }
  return out;
}

std::string bold(std::string_view text) { return "\\fB" + roff(text) + "\\fR"; }
std::string italic(std::string_view text) { return "\\fI" + roff(text) + "\\fR"; }

std::string shown_place(const OptionText& option) {
  const std::string name = italic(option.place) + (option.repeats ? "..." : "");
  return option.required ? name : "[" + name + "]";
}

class Page {
 public:
  Page(const CommandText& top, const ManualFacts& facts) : top_(top), facts_(facts) {}

  std::string of(const CommandText& command) {
    const bool whole = &command == &top_;
    out_ << ".\\\" " << say("Written by \"redd manual\"; do not edit.") << "\n.TH " << upper(page_name(command)) << " 1 \"" << facts_.day << "\" \"Redd "
         << facts_.version << "\" \"Redd\"\n";
    section("NAME");
    out_ << roff(page_name(command)) << " \\- " << roff(without_stop(command.summary)) << "\n";
    section("SYNOPSIS");
    synopsis(command);
    if (whole)
      overview();
    else
      about(command, true);
    for (const CommandText& below : command.commands)
      if (!whole) part(below);
    if (whole) program_facts();
    section("SEE ALSO");
    see_also(command);
    return out_.str();
  }

 private:
  std::string say(std::string_view english) const { return help_text(english, facts_.language); }

  static std::string upper(std::string text) {
    for (char& c : text)
      if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
    return text;
  }
  static std::string without_stop(std::string text) {
    if (text.ends_with('.')) text.pop_back();
    return text;
  }

  void section(std::string_view english) { out_ << ".SH " << say(english) << "\n"; }
  void paragraph(std::string_view english) { out_ << ".PP\n" << roff(say(english)) << "\n"; }
  void item(std::string_view head, std::string_view english) { out_ << ".TP\n" << head << "\n" << roff(say(english)) << "\n"; }

  void synopsis(const CommandText& command) {
    out_ << bold(command.name()) << " [" << italic(say("FLAG")) << "...]";
    for (const OptionText& option : command.options)
      if (!option.place.empty()) out_ << " " << shown_place(option);
    if (!command.commands.empty()) out_ << (command.needs_command ? " " : " [") << italic(say("COMMAND")) << (command.needs_command ? "" : "]");
    out_ << "\n";
  }

  void option(const OptionText& each, bool by_place) {
    out_ << ".TP\n";
    if (by_place) {
      out_ << shown_place(each);
    } else {
      std::vector<std::string> heads;
      for (const std::string& flag : each.flags) heads.push_back(bold(flag));
      out_ << joined(heads, ", ");
      if (!each.value.empty()) out_ << " " << italic(each.value) << (each.repeats ? "..." : "");
    }
    out_ << "\n" << roff(each.meaning.empty() ? each.value : each.meaning);
    if (!each.otherwise.empty()) out_ << "\n(" << roff(say("else")) << " " << roff(each.otherwise) << ")";
    out_ << "\n";
  }

  /// Its places, flags and examples. Below a page's own headings they need none.
  void about(const CommandText& command, bool with_headings) {
    if (with_headings) {
      section("DESCRIPTION");
      out_ << roff(command.summary) << (command.summary.ends_with('.') ? "" : ".") << "\n";
      paragraph("The flags that every command takes, and where seasons are kept: redd(1).");
    }
    bool first = true;
    for (const OptionText& each : command.options)
      if (!each.place.empty()) {
        if (with_headings && first) section("ARGUMENTS");
        first = false;
        option(each, true);
      }
    first = true;
    for (const OptionText& each : command.options)
      if (!each.flags.empty()) {
        if (with_headings && first) section("OPTIONS");
        first = false;
        option(each, false);
      }
    if (command.examples.empty()) return;
    if (with_headings) section("EXAMPLES");
    else out_ << ".PP\n";
    out_ << ".nf\n";
    std::istringstream lines(command.examples);
    for (std::string line; std::getline(lines, line);) out_ << (line.empty() ? "\\&" : roff(line)) << "\n";
    out_ << ".fi\n";
    if (with_headings && !command.commands.empty()) section("COMMANDS");
  }

  void part(const CommandText& command) {
    out_ << ".SS " << roff(command.name()) << "\n" << roff(command.summary) << (command.summary.ends_with('.') ? "" : ".") << "\n.PP\n";
    synopsis(command);
    about(command, false);
  }

  void overview() {
    section("DESCRIPTION");
    out_ << roff(top_.summary) << "\n";
    paragraph("Without a command it shows the way. A command tells of itself with --help.");
    section("COMMANDS");
    for (const CommandText& command : top_.commands) out_ << ".TP\n" << bold(page_name(command)) << "(1)\n" << roff(command.summary) << "\n";
    section("OPTIONS");
    out_ << roff(say("Any command takes these, before or after its name.")) << "\n";
    for (const OptionText& each : top_.options)
      if (!each.flags.empty()) option(each, false);
  }

  void program_facts() {
    section("ENVIRONMENT");
    item(bold("REDD_DATA"), "Folder of the season files, when --data is not given.");
    item(bold("REDD_AUTHOR"), "Who logs, when --author is not given: a team or role label, not a person's name.");
    item(bold("REDD_LANGUAGE"), "en or es, when --language is not given.");
    item(bold("REDD_UNITS"), "metric or us, when --units is not given.");
    item(bold("XDG_DATA_HOME"), "Where folders of programs' data are, when it is not ~/.local/share.");
    section("FILES");
    item(italic("~/.local/share/redd/season.redd"), "The season. It is yours: removing the program leaves it.");
    item(italic("~/.local/share/redd/demo.redd"), "The invented season, once it was looked at.");
    section("EXIT STATUS");
    item(bold("0"), "Done.");
    item(bold("1"), "A problem: said on standard error with what would mend it. Nothing was changed, unless it says what was made all the same.");
    item(bold("2"), "A word that the command line does not know.");
    section("CAUTION");
    out_ << roff(say("Redd computes from what was logged and says what it does not know. Your permit, the agency or hatchery behind your eggs, and a vet come first.")) << "\n";
  }

  void see_also(const CommandText& command) {
    if (&command != &top_) {
      out_ << bold("redd") << "(1)\n";
      return;
    }
    out_ << roff(say("The user guide, which the package puts below /usr/share/doc/redd.")) << "\n";
  }

  const CommandText& top_;
  const ManualFacts& facts_;
  std::ostringstream out_{};
};

}  // namespace

std::string page_name(const CommandText& command) {
  return joined(command.path, "-");
}

std::string manual_page(const CommandText& top, const CommandText& command, const ManualFacts& facts) {
  return Page(top, facts).of(command);
}

}  // namespace redd::cli
