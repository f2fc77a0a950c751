#include "print/chart_file.h"

#include "print/made.h"

namespace redd::print {
namespace {

void expect_well_formed(const std::string& svg, const std::string& what) {
  const Scratch file(svg, ".svg");
  const Ran ran = run("xmllint --noout --nonet " + file.path());
  EXPECT_EQ(ran.status, 0) << what << "\n" << ran.out.substr(0, 500);
}

unsigned big_endian(const std::string& bytes, std::size_t at) {
  unsigned number = 0;
  for (std::size_t i = 0; i < 4; ++i) number = number << 8 | static_cast<unsigned char>(bytes[at + i]);
  return number;
}

TEST(Svg, OfEveryChartIsWellFormedAndTold) {
  const auto season = told_season();
  for (const auto name : chart_names()) {
    const Chart made = chart(season, name);
    const auto svg = svg_of(made);
    ASSERT_TRUE(svg.has_value()) << name;
    expect_well_formed(*svg, std::string(name));
    EXPECT_TRUE(has(*svg, "<title id=\"title\">" + made.title)) << name;
    EXPECT_TRUE(has(*svg, "role=\"img\" aria-labelledby=\"title description\"")) << name;
    EXPECT_FALSE(has(*svg, "<script")) << name;
    EXPECT_TRUE(*svg == *svg_of(made)) << name;
  }
}

TEST(Svg, StaysWellFormedWhateverItsWordsAre) {
  const std::array<std::string, 9> pieces{"<script>alert(1)</script>", "&amp;", "\"'", "]]>", "<!--", std::string("\x01\x02\x7f"), "Ñ °", "鱒\xF0\x9F\x90\x9F", std::string(3000, 'w')};
  for (std::size_t round = 0; round < pieces.size(); ++round) {
    Chart made;
    made.title = pieces[round] + pieces[(round + 1) % pieces.size()];
    made.unit = pieces[(round + 2) % pieces.size()];
    made.description = pieces[(round + 3) % pieces.size()] + " " + pieces[round];
    made.readings = {{0.5, 0.1, 0.2, 0.3, false}, {0.6, 0.4, 0.4, std::nullopt, false}};
    made.limits = {{0.5, pieces[(round + 4) % pieces.size()], 0, 1}};
    made.key = {{Chart::Sample::reading, pieces[(round + 5) % pieces.size()]}};
    made.days = {{0.2, pieces[(round + 6) % pieces.size()]}};
    made.values = {{0.2, pieces[round]}};
    const auto svg = svg_of(made);
    ASSERT_TRUE(svg.has_value()) << round;
    expect_well_formed(*svg, "round " + std::to_string(round));
    EXPECT_FALSE(has(*svg, "<script")) << round;
    EXPECT_TRUE(png_of(made).has_value()) << round;
  }
}

TEST(Png, IsOneOfTheSizeItSays) {
  const auto png = png_of(chart(told_season(), "nitrite"));
  ASSERT_TRUE(png.has_value());
  EXPECT_EQ(png->substr(0, 8), std::string("\x89PNG\r\n\x1a\n", 8));
  EXPECT_EQ(png->substr(12, 4), "IHDR");
  EXPECT_EQ(big_endian(*png, 16), 1440u);
  EXPECT_GT(big_endian(*png, 20), 600u);
  EXPECT_LT(big_endian(*png, 20), 1600u);
  EXPECT_EQ(png->substr(png->size() - 8, 4), "IEND");
}

}  // namespace
}  // namespace redd::print
