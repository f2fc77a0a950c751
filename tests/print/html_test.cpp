#include "print/html.h"

#include "print/made.h"

namespace redd::print {
namespace {

std::string html(const SmallSeason& season, Audience audience = Audience::agency, const report::Reader& reader = {}) {
  return html_of(season_document(parts_of(season, audience, reader), audience, reader)).value();
}

TEST(Html, NeedsNothingElseAndRunsNothing) {
  const std::string page = html(told_season());
  for (const char* part : {"<script", "http:", "https:", "url(", "<link", "@import", "onload", "javascript:"}) EXPECT_FALSE(has(page, part)) << part;
  EXPECT_TRUE(has(page, "default-src 'none'"));
  EXPECT_TRUE(has(page, "data:image/svg+xml;base64,"));
}

TEST(Html, SaysItsLanguageAndNamesItsTables) {
  const std::string page = html(told_season(), Audience::agency, spanish());
  EXPECT_TRUE(has(page, "<html lang=\"es\">"));
  EXPECT_TRUE(has(page, "<h1>Informe de la temporada: Escuela Río Ñandú</h1>"));
  EXPECT_TRUE(has(page, "<th scope=\"col\">Etapa</th>"));
  EXPECT_FALSE(has(page, "<img alt=\"\""));
}

TEST(Html, WordsOfPeopleStayWords) {
  const std::string page = html(told_season("<img src=x onerror=alert(1)>", "\"><script>alert(2)</script>&"));
  EXPECT_FALSE(has(page, "<img src=x"));
  EXPECT_FALSE(has(page, "<script"));
  EXPECT_TRUE(has(page, "&lt;img src=x onerror=alert(1)&gt;"));
  // Every picture is ours.
  for (std::size_t at = page.find("<img"); at != std::string::npos; at = page.find("<img", at + 1)) EXPECT_EQ(page.substr(at, 10), "<img alt=\"");
}

TEST(Html, IsReadByAParserOfOtherPeopleWithoutComplaint) {
  const Scratch file(html(told_season()), ".html");
  const Ran ran = run("xmllint --html --noout --nonet " + file.path());
  // libxml2 knows HTML 4 only: elements that came later are no fault of ours.
  std::string faults;
  for (std::size_t at = 0; (at = ran.out.find("error : ", at)) != std::string::npos; ++at) {
    const std::string line = ran.out.substr(at, ran.out.find('\n', at) - at);
    if (!has(line, "Tag main invalid") && !has(line, "Tag figure invalid")) faults += line + "\n";
  }
  EXPECT_EQ(faults, "");
}

TEST(Html, TheClassGetsNeitherPermitNorMethod) {
  const std::string page = html(told_season(), Audience::classroom);
  EXPECT_FALSE(has(page, "Invented 31-7"));
  EXPECT_FALSE(has(page, "<h2>Method"));
  EXPECT_TRUE(has(page, "<h1>Our season: "));
  EXPECT_TRUE(has(page, "What is in doubt"));
}

TEST(Html, AnAgencysQuestionsStandInIt) {
  SeasonParts parts = parts_of(told_season());
  parts.questions = {{"Who inspected <it>?", "Nobody yet"}, {"Other stock?", ""}};
  const std::string page = html_of(season_document(parts, Audience::agency, {})).value();
  EXPECT_TRUE(has(page, "<h3>Who inspected &lt;it&gt;?</h3>\n<p>Nobody yet</p>"));
  EXPECT_TRUE(has(page, "<h3>Other stock?</h3>\n<p>not noted</p>"));
}

}  // namespace
}  // namespace redd::print
