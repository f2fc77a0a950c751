#include "intake/csv.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace redd::intake {
namespace {

using Cells = std::vector<std::string>;

std::vector<Cells> cells(std::string_view text, char delimiter = ',') {
  std::vector<Cells> all;
  auto rows = read_csv(text, delimiter);
  if (!rows) return {{rows.problems().front().sentence}};
  for (const CsvRow& row : *rows) all.push_back(row.cells);
  return all;
}

TEST(ReadCsv, FollowsRfc4180) {
  // RFC 4180, section 2, rules 1 to 7.
  const std::vector<Cells> abc{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}};
  EXPECT_EQ(cells("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n"), abc);
  EXPECT_EQ(cells("aaa,bbb,ccc\r\nzzz,yyy,xxx"), abc);
  EXPECT_EQ(cells("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx"), abc);
  EXPECT_EQ(cells("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx"), (std::vector<Cells>{{"aaa", "b\r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
  EXPECT_EQ(cells("\"aaa\",\"b\"\"bb\",\"ccc\""), (std::vector<Cells>{{"aaa", "b\"bb", "ccc"}}));
  EXPECT_EQ(cells(" a , b"), (std::vector<Cells>{{" a ", " b"}}));
}

TEST(ReadCsv, TakesEveryLineEndAndKeepsEmptyCells) {
  const std::vector<Cells> expected{{"a", "", "c"}, {"", "", "f"}};
  EXPECT_EQ(cells("a,,c\n\n,,f\n"), expected);
  EXPECT_EQ(cells("a,,c\r,,f\r"), expected);
  EXPECT_EQ(cells("a;;c\r\n;;\r\n;;f", ';'), expected);
}

TEST(ReadCsv, KnowsTheLineOfEveryRow) {
  const auto rows = read_csv("a,b\n\n\"x\ny\",2\n3,4\n", ',');
  ASSERT_TRUE(rows);
  ASSERT_EQ(rows->size(), 3u);
  EXPECT_EQ((*rows)[1].line, 3u);
  EXPECT_EQ((*rows)[2].line, 5u);
}

TEST(ReadCsv, SaysWhereAQuoteIsWrong) {
  const auto open = read_csv("a,b\n1,\"2\n3,4\n", ',');
  ASSERT_FALSE(open);
  EXPECT_EQ(open.problems().front().field, "line 2, column 2");
  const auto after = read_csv("a,b\n\"1\"x,2\n", ',');
  ASSERT_FALSE(after);
  EXPECT_EQ(after.problems().front().field, "line 2, column 1");
}

TEST(LikelyDelimiter, IsTheOneThatSplitsEvenly) {
  EXPECT_EQ(likely_delimiter("a,b\n1,2\n"), ',');
  EXPECT_EQ(likely_delimiter("a;b\n1,5;2,5\n1;2\n"), ';');
  EXPECT_EQ(likely_delimiter("date;t\n2031-01-01;8,5\n2031-01-02;8,4\n"), ';');
  EXPECT_EQ(likely_delimiter("a\tb\n1,5\t2\n"), '\t');
  EXPECT_EQ(likely_delimiter("Title; one, two\n\"a,b\",c\n\"d,e\",f\n"), ',');
  EXPECT_EQ(likely_delimiter("no table here"), std::nullopt);
}

TEST(Decoded, ReadsTheUsualEncodings) {
  EXPECT_EQ(decoded("\xEF\xBB\xBFtemp (°C)")->text, "temp (°C)");
  EXPECT_EQ(decoded("temp (\xB0""C)")->text, "temp (°C)");
  EXPECT_EQ(decoded("temp (\xB0""C)")->encoding, "Windows-1252");
  EXPECT_EQ(decoded(std::string_view("\xFF\xFE""a\0,\0\xB0\0", 8))->text, "a,°");
  EXPECT_EQ(decoded(std::string_view("\xFE\xFF\0a\0,\0\xB0", 8))->text, "a,°");
}

TEST(Decoded, RefusesWhatIsNoText) {
  EXPECT_FALSE(decoded(""));
  EXPECT_FALSE(decoded(" \r\n"));
  EXPECT_FALSE(decoded(std::string_view("PK\x03\x04", 4)));
  EXPECT_FALSE(decoded(std::string(33 << 20, 'a')));
}

TEST(CsvCell, CanNotRunAsAFormula) {
  // The dangerous first characters listed by OWASP, CSV Injection.
  for (const char* text : {"=1+1", "+cmd", "-cmd", "@SUM(A1)", "\tx", "\rx"}) {
    const std::string cell = csv_cell(text);
    EXPECT_TRUE(cell.starts_with("'") || cell.starts_with("\"'")) << cell;
  }
  EXPECT_EQ(csv_cell("-1.5"), "-1.5");
  EXPECT_EQ(csv_cell("+2"), "+2");
  EXPECT_EQ(csv_cell("-1+1"), "'-1+1");
}

RC_GTEST_PROP(CsvRow, ReadsBackAsWritten, ()) {
  const auto written = *rc::gen::nonEmpty(rc::gen::container<Cells>(rc::gen::container<std::string>(rc::gen::elementOf(std::string("ab1 ,;\t\"\r\n=+-@'.")))));
  const char delimiter = *rc::gen::element(',', ';', '\t');
  auto rows = read_csv(csv_row(written, delimiter), delimiter);
  RC_ASSERT(rows.has_value());
  if (rows->empty()) {  // only empty cells: a blank line
    for (const auto& cell : written) RC_ASSERT(cell.empty());
    return;
  }
  RC_ASSERT(rows->size() == 1u);
  Cells read;
  for (const auto& cell : rows->front().cells) read.push_back(without_guard(cell));
  RC_ASSERT(read == written);
}

}  // namespace
}  // namespace redd::intake
