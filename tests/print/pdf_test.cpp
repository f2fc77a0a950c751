#include "print/pdf.h"

#include <regex>
#include <set>

#include "print/made.h"

namespace redd::print {
namespace {

std::string pdf(const SmallSeason& season, Paper paper = Paper::a4, Audience audience = Audience::agency, const report::Reader& reader = {}) {
  const auto made = pdf_of(season_document(parts_of(season, audience, reader), audience, reader), paper);
  EXPECT_TRUE(made.has_value());
  return made ? *made : "";
}
std::string info(const std::string& bytes) {
  const Scratch file(bytes, ".pdf");
  const Ran ran = run("pdfinfo " + file.path());
  EXPECT_EQ(ran.status, 0) << ran.out;
  return ran.out;
}
std::string text(const std::string& bytes, const char* how = "-layout") {
  const Scratch file(bytes, ".pdf");
  const Ran ran = run(std::string("pdftotext ") + how + " -enc UTF-8 " + file.path() + " -");
  EXPECT_EQ(ran.status, 0) << ran.out;
  return ran.out;
}
int pages(const std::string& bytes) {
  const std::string told = info(bytes);
  const auto at = told.find("Pages:");
  return at == std::string::npos ? 0 : std::stoi(told.substr(at + 6));
}

/// How many words there are; none of them beyond the margins, and none but the foot's below the text.
int expect_on_the_sheet(const std::string& bytes, double width, double height) {
  const Scratch file(bytes, ".pdf");
  const std::string boxes = run("pdftotext -bbox " + file.path() + " -").out;
  const std::regex box("xMin=\"(-?[0-9.]+)\" yMin=\"(-?[0-9.]+)\" xMax=\"(-?[0-9.]+)\" yMax=\"(-?[0-9.]+)\"");
  int words = 0;
  for (std::sregex_iterator at(boxes.begin(), boxes.end(), box), end; at != end; ++at, ++words) {
    const double left = std::stod(at->str(1)), top = std::stod(at->str(2)), right = std::stod(at->str(3)), bottom = std::stod(at->str(4));
    EXPECT_GE(left, 40) << at->str();
    EXPECT_LE(right, width - 40) << at->str();
    if (top < height - 45) EXPECT_LE(bottom, height - 60) << at->str();
    EXPECT_LE(bottom, height - 24) << at->str();
  }
  return words;
}

/// Every number in the texts that a reader is shown; what is for programs only is left out.
void gather_numbers(const wire::Json& view, std::multiset<std::string>& numbers) {
  static const std::set<std::string> for_programs{"day", "key", "record_id", "record_ids", "first_day", "last_day", "made_on", "month", "seen_day", "looks", "curve", "sources", "checks", "changes", "then", "false_alarm_text", "source", "curve_caption", "counted"};
  if (view.is_object()) {
    for (const auto& [key, value] : view.items())
      if (!for_programs.contains(key)) gather_numbers(value, numbers);
  } else if (view.is_array()) {
    for (const auto& value : view) gather_numbers(value, numbers);
  } else if (view.is_string()) {
    static const std::regex number("[0-9]+([.,][0-9]+)*");
    const std::string words = view.get<std::string>();
    for (std::sregex_iterator at(words.begin(), words.end(), number), end; at != end; ++at) numbers.insert(at->str());
  }
}

TEST(Pdf, OpensOnBothPapersWithTitleAuthorAndStructure) {
  const auto season = told_season();
  const std::string a4 = info(pdf(season)), letter = info(pdf(season, Paper::letter));
  EXPECT_TRUE(has(a4, "(A4)")) << a4;
  EXPECT_TRUE(has(letter, "(letter)")) << letter;
  for (const std::string& told : {a4, letter}) {
    EXPECT_TRUE(has(told, "Season report: Escuela Río Ñandú")) << told;
    EXPECT_TRUE(has(told, "Aula 7, Ribera")) << told;
    EXPECT_TRUE(has(told, "Redd")) << told;
    EXPECT_TRUE(std::regex_search(told, std::regex("Tagged: +yes"))) << told;
    EXPECT_TRUE(std::regex_search(told, std::regex("JavaScript: +no"))) << told;
    // The day that is looked at, not the one on which it was drawn.
    EXPECT_TRUE(has(told, "2031")) << told;
  }
}

TEST(Pdf, NumbersItsPages) {
  const std::string bytes = pdf(told_season());
  const int count = pages(bytes);
  ASSERT_GE(count, 2);
  const std::string words = in_one_line(text(bytes));
  for (int page = 1; page <= count; ++page) EXPECT_TRUE(has(words, "Page " + std::to_string(page) + " of " + std::to_string(count))) << page;
}

TEST(Pdf, HoldsTheLettersOfSpanishAndTheDegree) {
  const std::string words = in_one_line(text(pdf(told_season(), Paper::a4, Audience::agency, spanish()), ""));
  for (const char* part : {"Escuela Río Ñandú", "°C", "Supervivencia", "Página 1 de", "Pérdidas por día", "Método"}) EXPECT_TRUE(has(words, part)) << part;
}

TEST(Pdf, ItsStructureIsThatOfADocument) {
  const Scratch file(pdf(told_season()), ".pdf");
  const std::string told = run("pdfinfo -struct " + file.path()).out;
  for (const char* part : {"Document", "H1", "H2", "H3", "Table", "TR", "TH", "TD", "Figure"}) EXPECT_TRUE(has(told, part)) << part;
}

TEST(Pdf, EveryNumberOfTheReportStandsInIt) {
  for (const auto& reader : {report::Reader{}, spanish()}) {
    const auto season = told_season();
    const SeasonParts parts = parts_of(season, Audience::agency, reader);
    std::multiset<std::string> wanted;
    wire::Json shown = parts.report;
    // Of the counts the report shows the sentence, what it rests on, the stages and the findings.
    shown["counts"] = {{"stages", parts.report["counts"]["stages"]}, {"findings", parts.report["counts"]["findings"]}, {"rests_on", parts.report["counts"]["rests_on"]}};
    gather_numbers(shown, wanted);
    ASSERT_GT(wanted.size(), 80u);
    const std::string words = text(pdf_of(season_document(parts, Audience::agency, reader), Paper::a4).value(), "");
    std::multiset<std::string> there;
    gather_numbers(wire::Json(words), there);
    for (const auto& number : wanted) EXPECT_GE(there.count(number), wanted.count(number)) << number;
  }
}

TEST(Pdf, SameSeasonSameBytes) { EXPECT_EQ(pdf(told_season()), pdf(told_season())); }

TEST(Pdf, LongSeasonsAndLongWordsStayOnTheSheet) {
  SmallSeason season = told_season(std::string(180, 'M'), "<&>\"' " + std::string(180, 'w'));
  for (int day = 41; day < 90; ++day) season.add(day, records::Count{records::Count::What::dead_eggs, 1}, 15);
  for (int day = 56; day < 90; ++day) {
    records::EquipmentEvent event{records::EquipmentEvent::Equipment::chiller, day % 2 ? records::EquipmentEvent::Event::failed : records::EquipmentEvent::Event::restored};
    season.add(day, event, 16);
  }
  EXPECT_GT(expect_on_the_sheet(pdf(season, Paper::letter), 612, 792), 500);
}

TEST(Pdf, AnEmptySeasonHasAReportToo) {
  const std::string words = in_one_line(text(pdf_of(season_document(parts_of(SmallSeason(), Audience::agency, {}, 3), Audience::agency, {}), Paper::a4).value()));
  EXPECT_TRUE(has(words, "No eggs are logged, so nothing was foretold.")) << words;
  EXPECT_TRUE(has(words, "Page 1 of")) << words;
}

TEST(Pdf, AnAnswerLongerThanAPageGoesOn) {
  SeasonParts parts = parts_of(told_season());
  std::string answer;
  for (int line = 1; line <= 120; ++line) answer += "Line " + std::to_string(line) + " of the answer.\n";
  parts.questions = {{"What was done?", answer}};
  const std::string bytes = pdf_of(season_document(parts, Audience::agency, {}), Paper::a4).value();
  const std::string words = in_one_line(text(bytes, ""));
  for (int line = 1; line <= 120; ++line) EXPECT_TRUE(has(words, "Line " + std::to_string(line) + " of the answer.")) << line;
  expect_on_the_sheet(bytes, 595, 842);
}

TEST(Pdf, PaperFollowsTheReadersUnits) {
  report::Reader us;
  us.us_gallons = true;
  EXPECT_EQ(usual_paper({}), Paper::a4);
  EXPECT_EQ(usual_paper(us), Paper::letter);
}

}  // namespace
}  // namespace redd::print
