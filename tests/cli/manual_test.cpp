#include "cli/manual.h"

#include <gtest/gtest.h>

#include "cli/completion.h"
#include "cli/words_of_help.h"

namespace redd::cli {
namespace {

using report::Language;

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

/// An invented program with one command, whose words are as nasty as words get.
CommandText invented() {
  CommandText top;
  top.path = {"redd"};
  top.summary = "Keeps things.";
  OptionText data;
  data.flags = {"--data"};
  data.value = "DIR";
  data.meaning = "folder of the files";
  data.names = OptionText::Names::folder;
  top.options = {data};
  CommandText water;
  water.path = {"redd", "water-change"};
  water.summary = ".Water's \\ and \"more\"";
  water.examples = "Example:\n.redd water-change 20L";
  OptionText colour;
  colour.flags = {"--colour"};
  colour.place = "colour";
  colour.value = "WORD";
  colour.meaning = "it's one";
  colour.choices = {"red", "it's"};
  colour.required = true;
  water.options = {colour};
  top.commands = {water};
  return top;
}

TEST(Manual, TakesNoWordForARequest) {
  const CommandText top = invented();
  const std::string page = manual_page(top, top.commands[0], {"1.0", "2031-02-14", Language::en});
  EXPECT_TRUE(has(page, "\n\\&.redd water\\-change 20L\n")) << page;
  EXPECT_TRUE(has(page, "\n\\&.Water\\(aqs \\(rs and \\(dqmore\\(dq.\n")) << page;
  EXPECT_TRUE(has(page, ".TH REDD-WATER-CHANGE 1 \"2031-02-14\" \"Redd 1.0\"")) << page;
  EXPECT_TRUE(has(page, "\\fB\\-\\-colour\\fR \\fIWORD\\fR")) << page;
}

TEST(Manual, OfTheProgramNamesItsCommandsAndFlags) {
  const CommandText top = invented();
  const std::string page = manual_page(top, top, {"1.0", "", Language::en});
  EXPECT_TRUE(has(page, "\\fBredd\\-water\\-change\\fR(1)")) << page;
  EXPECT_TRUE(has(page, "\\fB\\-\\-data\\fR \\fIDIR\\fR")) << page;
  EXPECT_FALSE(has(page, "colour")) << page;
}

TEST(Manual, SpeaksSpanish) {
  const CommandText top = invented();
  EXPECT_TRUE(has(manual_page(top, top, {"1.0", "", Language::es}), ".SH NOMBRE\n"));
  EXPECT_EQ(help_text("Food given", Language::es), "Alimento dado");
  EXPECT_EQ(help_text("Food given", Language::en), "Food given");
  EXPECT_EQ(help_text("a text nobody wrote", Language::es), "a text nobody wrote");
}

TEST(Manual, LanguageIsFoundAmongTheWords) {
  unsetenv("REDD_LANGUAGE");
  EXPECT_EQ(help_language({"log", "--help"}), Language::en);
  EXPECT_EQ(help_language({"log", "--language", "es", "--help"}), Language::es);
  EXPECT_EQ(help_language({"--language=es"}), Language::es);
  EXPECT_EQ(help_language({"--language"}), Language::en);
  setenv("REDD_LANGUAGE", "es", 1);
  EXPECT_EQ(help_language({"log"}), Language::es);
  EXPECT_EQ(help_language({"log", "--language", "en"}), Language::en);
  unsetenv("REDD_LANGUAGE");
}

TEST(Manual, CommandIsFoundByItsPath) {
  const CommandText top = invented();
  EXPECT_EQ(command_at(top, {}), &top);
  EXPECT_EQ(command_at(top, {"water-change"}), &top.commands[0]);
  EXPECT_EQ(command_at(top, {"water"}), nullptr);
  EXPECT_EQ(command_at(top, {"water-change", "more"}), nullptr);
}

TEST(Completion, QuotesWhatAShellWouldTake) {
  const std::string bash = bash_completion(invented());
  EXPECT_TRUE(has(bash, "'redd water-change --colour') printf '%s\\n' 'red it'\\''s' ;;")) << bash;
  EXPECT_TRUE(has(bash, "'redd water-change 1') printf '%s\\n' 'red it'\\''s' ;;")) << bash;
  EXPECT_TRUE(has(bash, "'redd --data') printf '%s\\n' ':folder' ;;")) << bash;
  const std::string fish = fish_completion(invented());
  EXPECT_TRUE(has(fish, "-d 'it\\'s one'")) << fish;
  EXPECT_TRUE(zsh_completion(invented()).starts_with("#compdef redd\n"));
}

}  // namespace
}  // namespace redd::cli
