#include "cli/console.h"

#include <gtest/gtest.h>

#include <sstream>

namespace redd::cli {
namespace {

TEST(Table, LinesUpAndWrapsTheLastColumn) {
  EXPECT_EQ(table({{"a", "b"}, {"long", "c"}}), "a     b\nlong  c\n");
  EXPECT_EQ(table({{"°C", "x"}, {"abc", "y"}}), "°C   x\nabc  y\n") << "a degree sign takes one column";
  EXPECT_EQ(table({{"k", "one two three four five six"}}, 10), "k  one two three four\n   five six\n");
  EXPECT_EQ(table({}), "");
}

TEST(Wrapped, LongWordsStayWhole) {
  EXPECT_EQ(wrapped("aaaaaaaaaaaa bb", 5, 2), "aaaaaaaaaaaa\n  bb");
  EXPECT_EQ(wrapped("", 5), "");
}

TEST(ShellWord, IsQuotedOnlyWhereItMustBe) {
  EXPECT_EQ(shell_word("/media/stick/season-1.redd"), "/media/stick/season-1.redd");
  EXPECT_EQ(shell_word("My season.redd"), "'My season.redd'");
  EXPECT_EQ(shell_word("it's $HOME"), "'it'\\''s $HOME'");
  EXPECT_EQ(shell_word(""), "''");
}

TEST(Complain, NamesTheFieldOnce) {
  std::istringstream in;
  std::ostringstream out, err;
  const Console console{in, out, err};
  EXPECT_EQ(complain(console, {{"x", "--at", "--at is wrong."}, {"x", "--kit", "There is none."}}), Exit::problem);
  EXPECT_EQ(err.str(), "redd: --at is wrong.\nredd: --kit: There is none.\n");
  EXPECT_EQ(out.str(), "");
}

TEST(Confirmed, OnlyYesIsYes) {
  for (const auto& [typed, yes] : {std::pair("yes\n", true), std::pair("y\n", true), std::pair("\n", false),
                                   std::pair("", false), std::pair("maybe\n", false)}) {
    std::istringstream in(typed);
    std::ostringstream out, err;
    EXPECT_EQ(confirmed({in, out, err, true}, "Sure?"), yes) << typed;
  }
}

}  // namespace
}  // namespace redd::cli
