// Logs kept by hand in a spreadsheet, one row a week, with whatever words somebody wrote above the columns. Every file is invented.

#include "intake/import_helpers.h"
#include "logbook/logbook.h"
#include "logbook/season.h"

namespace redd::intake {
namespace {

using namespace redd::test;
using records::Count;
using records::Reading;

template <class Body>
std::vector<Body> all_of(const Preview& p) {
  std::vector<Body> all;
  for (const auto& e : p.entries)
    if (const auto* body = std::get_if<Body>(&e.body)) all.push_back(*body);
  return all;
}

std::string counts(const Preview& p) {
  std::string text;
  for (const auto& c : all_of<Count>(p)) text += std::to_string(static_cast<int>(c.what)) + ":" + std::to_string(c.count) + " ";
  return text;
}

Context no_kit() {
  Context c = context();
  c.kits.clear();
  return c;
}

const std::string weekly =
    "Tank log of room 12 (invented)\n"
    "Date,Temp (C),pH,Ammonia,Nitrite,Nitrate as NO3 (ppm),Dead eggs,Notes\n"
    "2030-10-01,10.2,7.2,0.1,0.05,12,0,filled\n"
    "2030-10-08,10.4,7.1,0.4,0.2,15,3,\n"
    "2030-10-15,10.1,7.1,0.9,0.7,,1,\"smell, a little\"\n";

TEST(WeeklyLog, BringsEveryKindOfColumn) {
  const auto p = preview(weekly);
  EXPECT_EQ(p.kind, "readings_wide");
  EXPECT_EQ(bad(p), "");
  EXPECT_EQ(guessed(p, "columns/Dead eggs"), "dead_eggs certain");
  EXPECT_EQ(guessed(p, "columns/Nitrate as NO3 (ppm)"), "nitrate_as_no3 likely");
  EXPECT_EQ(guessed(p, "dead_counts"), "none") << "they fall, so they are no running total";
  EXPECT_EQ(counts(p), "0:0 0:3 0:1 ");
  EXPECT_EQ(temperatures(p), (std::vector<double>{10.2, 10.4, 10.1}));
  EXPECT_EQ(all_of<records::Note>(p).size(), 2u);
  ASSERT_EQ(all_of<records::Kit>(p).size(), 1u) << "nitrate stands on no kit of the season";
  EXPECT_TRUE(std::holds_alternative<records::Kit>(p.entries.front().body)) << "before the readings on it";
  EXPECT_EQ(p.entries.size(), p.good.size() + p.own_kits);
  EXPECT_TRUE(entries_to_keep(p, {true, false}));
  EXPECT_EQ(entries_to_keep(p, {false, false}).problems().front().code, "not_confirmed");
}

TEST(WeeklyLog, IsAcceptedByTheLogAndAddedOnce) {
  Folder folder;
  auto book = must(logbook::Logbook::create(folder / "a.redd"));
  must(book.append(entry(setup()), noon));
  must(book.append(entry(context().kits.front()), noon));
  must(book.append_all(must(entries_to_keep(preview(weekly), {true, false})), at("2031-06-01T18:00:00Z")));
  const auto count = must(book.last_id());
  // The second time the kit of the older log is one of the season's, and changes nothing.
  Context later = context();
  later.kits.push_back(all_of<records::Kit>(preview(weekly)).front());
  const auto again = preview(weekly, {}, later);
  EXPECT_EQ(guessed(again, "columns/Nitrate as NO3 (ppm)"), "nitrate_as_no3 likely");
  for (const auto& a : must(book.append_all(must(entries_to_keep(again, {true, false})), at("2031-06-02T18:00:00Z")))) EXPECT_TRUE(a.already_known);
  for (const auto& a : must(book.append_all(must(entries_to_keep(preview(weekly), {true, false})), at("2031-06-02T18:00:00Z")))) EXPECT_TRUE(a.already_known);
  EXPECT_EQ(must(book.last_id()), count);
}

TEST(WeeklyLog, AsksWhatNumbersCountWhenNobodySaid) {
  const auto p = preview("date,ammonia,nitrate\n2030-10-01,0.5,20\n", {}, no_kit());
  EXPECT_EQ(guessed(p, "columns/ammonia"), "ammonia_as_n open");
  EXPECT_EQ(guessed(p, "columns/nitrate"), "nitrate_as_n open");
  EXPECT_EQ(guess(p, "columns/nitrate")->alternatives, (std::vector<std::string>{"nitrate_as_no3", "ignore"}));
  const auto refused = entries_to_keep(p, {true, true});
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.problems().front().code, "open_question");
  const auto said = preview("date,ammonia,nitrate\n2030-10-01,0.5,20\n", {{"columns/ammonia", "ammonia_as_nh3"}, {"columns/nitrate", "nitrate_as_no3"}}, no_kit());
  ASSERT_TRUE(entries_to_keep(said, {true, false}));
  const auto readings = all_of<Reading>(said);
  ASSERT_EQ(readings.size(), 2u);
  EXPECT_EQ(readings[0].kit, "older_log_ammonia_as_nh3");
  EXPECT_EQ(readings[1].form, Reading::Form::number);
}

TEST(WeeklyLog, AsksWhenTheNumbersAreNotOfThisCard) {
  const std::string text = "date,nitrite\n2030-10-01,0.05\n2030-10-08,0.25\n2030-10-15,0.5\n2030-10-22,1\n";
  const auto p = preview(text);
  EXPECT_EQ(guessed(p, "columns/nitrite"), "class/nitrite open");
  EXPECT_EQ(guess(p, "columns/nitrite")->alternatives.back(), "ignore");
  EXPECT_EQ(all_of<Reading>(preview(text, {{"columns/nitrite", "nitrite_as_n"}})).size(), 4u);
  // One slip among many is one bad cell.
  const auto slip = preview("date,nitrite\n2030-10-01,0.05\n2030-10-08,0.2\n2030-10-15,0.7\n2030-10-22,0.2\n2030-10-29,0.2\n2030-11-05,0.25\n");
  EXPECT_EQ(guessed(slip, "columns/nitrite"), "class/nitrite likely");
  EXPECT_EQ(bad(slip), "7:nitrite:not_on_the_card ");
}

TEST(WeeklyLog, AsksOfWhichStageTheDeadWere) {
  const auto p = preview("date,deaths\n2030-10-01,2\n2030-10-08,1\n");
  EXPECT_EQ(p.kind, "readings_wide");
  EXPECT_EQ(guessed(p, "columns/deaths"), "dead_eggs open");
  EXPECT_FALSE(entries_to_keep(p, {true, true}));
  EXPECT_EQ(counts(preview("date,deaths\n2030-10-01,2\n2030-10-08,1\n", {{"columns/deaths", "dead_alevins"}})), "1:2 1:1 ");
}

TEST(WeeklyLog, AsksWhetherNumbersThatNeverFallAreAllSoFar) {
  const std::string text = "date,dead eggs\n2030-10-01,2\n2030-10-08,5\n2030-10-15,5\n2030-10-22,9\n";
  EXPECT_EQ(guessed(preview(text), "dead_counts"), "new open");
  EXPECT_EQ(counts(preview(text, {{"dead_counts", "total"}})), "0:2 0:3 0:0 0:4 ");
  EXPECT_EQ(counts(preview(text, {{"dead_counts", "new"}})), "0:2 0:5 0:5 0:9 ");
  EXPECT_EQ(guessed(preview("date,total dead eggs\n2030-10-01,2\n2030-10-08,5\n"), "dead_counts"), "total likely");
  EXPECT_EQ(guessed(preview("date,dead eggs\n2030-10-01,0\n2030-10-08,0\n2030-10-15,4\n"), "dead_counts"), "none") << "both readings give four";
  EXPECT_EQ(bad(preview("date,total dead eggs\n2030-10-01,5\n2030-10-08,2\n")), "3:total dead eggs:total_falls ");
  EXPECT_EQ(counts(preview("date,total dead eggs\n2030-10-08,5\n2030-10-01,2\n")), "0:2 0:3 ") << "newest first";
}

TEST(WeeklyLog, NeverMakesABlankAZero) {
  const auto p = preview("date,pH,dead eggs\n2030-10-01,7.2,\n2030-10-08,7.2,-\n2030-10-15,7.2,0\n2030-10-22,7.2,two\n2030-10-29,7.2,1.5\n2030-11-05,7.2,-1\n");
  EXPECT_EQ(counts(p), "0:0 ");
  EXPECT_EQ(bad(p), "5:dead eggs:not_a_count 6:dead eggs:not_a_count 7:dead eggs:not_a_count ");
}

TEST(WeeklyLog, ReadsSpanishWords) {
  const auto p = preview("Fecha;Temperatura del agua (°C);pH;Amoníaco (mg/L como NH4);Nitritos;Nitratos (mg/L como NO3);Huevos muertos;Observaciones\r\n"
                         "1 de octubre de 2030;10,2;7,2;0,1;0,05;12;0;llenado\r\n15 oct 2030;10,4;7,1;0,4;0,2;15;2;\r\n");
  EXPECT_EQ(bad(p), "");
  EXPECT_EQ(guessed(p, "columns/Amoníaco (mg/L como NH4)"), "class/ammonia likely");
  EXPECT_EQ(guessed(p, "columns/Nitritos"), "class/nitrite likely");
  EXPECT_EQ(guessed(p, "columns/Nitratos (mg/L como NO3)"), "nitrate_as_no3 likely");
  EXPECT_EQ(guessed(p, "columns/Observaciones"), "note certain");
  EXPECT_EQ(counts(p), "0:0 0:2 ");
  EXPECT_EQ(temperatures(p), (std::vector<double>{10.2, 10.4}));
}

/// One odd file each: what it is read as, and how many entries, or the code it is refused with.
struct Odd {
  const char* name;
  std::string text;
  std::string expected;  ///< "entries bad", e.g. "3 0", or a problem's code
  std::map<std::string, std::string> words{};
};

std::string outcome(const Odd& odd) {
  const auto settings = settings_from_words(odd.words);
  if (!settings) return settings.problems().front().code;
  const auto p = preview_import(odd.text, *settings, context());
  return p ? std::to_string(p->entries.size() - p->own_kits) + " " + std::to_string(p->bad.size()) : p.problems().front().code;
}

const std::vector<Odd>& odd_files() {
  static const std::vector<Odd> all{
      {"units behind every number", "date,water temp,pH,ammonia\n2030-10-01,10.5 °C,7.2,0.4 mg/L\n2030-10-08,50.9F,7.1,0.9 ppm\n", "6 0"},
      {"times with a m and p m", "date,time,pH\n2030-10-01,7:05 a. m.,7.2\n2030-10-01,7:05 p. m.,7.3\n", "2 0"},
      {"times with an h", "fecha;hora;pH\n01.10.2030;7h05;7,2\n15.10.2030;14h30;7,1\n", "2 0"},
      {"weekday before the day", "date,pH\n\"Tuesday, October 1, 2030\",7.2\n\"Tuesday, October 8, 2030\",7.1\n", "2 0"},
      {"weekday in Spanish with an accent", "fecha,pH\nmiércoles 2 octubre 2030,7.2\nsábado 5 octubre 2030,7.1\n", "2 0"},
      {"month names in Spanish, short", "fecha,pH\n3-dic-2030,7.2\n10-ene-2031,7.1\n17-ago-2030,7\n", "2 1"},
      {"lines above and sums below", "Room 12\nExported by the invented sheet\n\nDate,pH,KH\n2030-10-01,7.2,4\n2030-10-08,7.1,4\nAverage,7.15,4\n", "4 1"},
      {"a row of units under the header", "date,pH,KH\n(day),(-),(drops)\n2030-10-01,7.2,4\n", "2 0"},
      {"two columns of one name", "date,pH,pH\n2030-10-01,7.2,7.4\n", "2 0"},
      {"columns without a name", "date,pH,,\n2030-10-01,7.2,,\n2030-10-08,7.1,,x\n", "2 0"},
      {"every cell quoted", "\"date\",\"pH\"\n\"2030-10-01\",\"7.2\"\n", "1 0"},
      {"tabs and a byte-order mark", "\xEF\xBB\xBF" "date\tpH\tnotes\n2030-10-01\t7.2\tfed, a little\n", "2 0"},
      {"decimal commas divided by semicolons", "date;pH;temp C\n2030-10-01;7,2;10,5\n", "2 0"},
      {"dashes and question marks for nothing", "date,pH,KH\n2030-10-01,-,4\n2030-10-08,?,n/a\n", "1 0"},
      {"newest row first", "date,pH\n2030-10-15,7.0\n2030-10-08,7.1\n2030-10-01,7.2\n", "3 0"},
      {"lone carriage returns", "date,pH\r2030-10-01,7.2\r2030-10-08,7.1\r", "2 0"},
      {"two-digit years", "date,pH\n15.10.30,7.2\n22.10.30,7.1\n", "2 0"},
      {"the night that occurs twice", "date,time,pH\n2030-11-03,01:30,7.2\n2030-11-03,02:30,7.2\n", "2 0"},
      {"the hour that never was", "date,time,pH\n2031-03-09,02:30,7.2\n2031-03-09,03:30,7.2\n", "1 1"},
      {"the room's temperature is not the tank's", "date,room temp,pH\n2030-10-01,20.5,7.2\n", "1 0"},
      {"a sensor's error among them", "date,temp C,pH\n2030-10-01,85,7.2\n2030-10-08,-127,7.1\n2030-10-15,10.1,7.1\n", "4 2"},
      {"day numbers of a spreadsheet", "date,pH\n47757,7.2\n47764,7.1\n", "2 0"},
      {"a decimal comma divided by commas", "date,pH\n2030-10-01,7,2\n", "0 1"},
      {"an unfinished quote", "date,notes\n2030-10-01,\"never closed\n", "bad_quotes"},
      {"no dates at all", "week,pH\n1,7.2\n2,7.1\n", "no_dates"},
      {"dates of every order", "date,pH\n2030-10-15,7.2\n15/10/2030,7.1\n10/16/2030,7\n", "mixed_date_orders"},
      {"words of no known column", "date,mood,weather\n2030-10-01,good,sun\n", "no_temperatures"},
  };
  return all;
}

TEST(WeeklyLog, OddFilesAreReadOrRefusedAsTheyShould) {
  for (const Odd& odd : odd_files()) EXPECT_EQ(outcome(odd), odd.expected) << odd.name;
}

TEST(WeeklyLog, OddFilesGiveTheSameTwiceAndNothingWhileAQuestionIsOpen) {
  for (const Odd& odd : odd_files()) {
    const auto settings = settings_from_words(odd.words).value();
    const auto p = preview_import(odd.text, settings, context());
    if (!p) continue;
    EXPECT_EQ(json_from_preview(*p), json_from_preview(preview_import(odd.text, settings, context()).value())) << odd.name;
    bool open = false;
    for (const auto& g : p->guesses) open = open || g.certainty == Certainty::open;
    if (open) EXPECT_FALSE(entries_to_keep(*p, {true, true})) << odd.name;
  }
}

TEST(WeeklyLog, ADayThatMayBeTwoIsAsked) {
  const auto p = preview("date,pH\n03/04/2031,7.2\n05/06/2031,7.1\n");
  EXPECT_EQ(guess(p, "date_order")->certainty, Certainty::open);
  EXPECT_FALSE(entries_to_keep(p, {true, true}));
}

TEST(WeeklyLog, ShowsItsColumnsForTheMapping) {
  const auto p = preview(weekly);
  ASSERT_EQ(p.columns.size(), 8u);
  EXPECT_EQ(p.columns[0].role, "date");
  EXPECT_EQ(p.columns[2].header, "pH");
  EXPECT_EQ(p.columns[2].samples.size(), 3u);
  std::string words;
  for (const auto& m : p.meanings) words += m.word + " ";
  for (const char* word : {"time_column ", "temperature ", "class/nitrite ", "nitrate_as_no3 ", "dead_fry ", "note ", "ignore "}) EXPECT_NE(words.find(word), std::string::npos) << word;
  EXPECT_EQ(words.find("older_log"), std::string::npos);
}

}  // namespace
}  // namespace redd::intake
