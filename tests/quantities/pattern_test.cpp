#include "quantities/pattern.h"

#include <gtest/gtest.h>

#include "quantities/phrase.h"
#include "quantities/sentence.h"

namespace redd {
namespace {

std::string with(std::string_view pattern, long long count, const std::string& word = "") {
  return filled(pattern, [&](std::size_t i) { return i == 0 ? Filling{std::to_string(count), count, {}} : Filling{word, {}, word}; });
}

TEST(Filled, PutsWhatStandsAtEachPlace) {
  EXPECT_EQ(with("{0} of {1}, {0} again", 3, "four"), "3 of four, 3 again");
  EXPECT_EQ(with("no place", 3), "no place");
}

TEST(Filled, FollowsTheNumber) {
  const char* eggs = "{0, plural, =0 {no eggs} one {# egg} other {# eggs}} left";
  EXPECT_EQ(with(eggs, 0), "no eggs left");
  EXPECT_EQ(with(eggs, 1), "1 egg left");
  EXPECT_EQ(with(eggs, 187), "187 eggs left");
}

TEST(Filled, FollowsTheWord) {
  const char* place = "en {1, select, tank {el acuario} room {la sala} other {otro lugar}}";
  EXPECT_EQ(with(place, 0, "tank"), "en el acuario");
  EXPECT_EQ(with(place, 0, "room"), "en la sala");
  EXPECT_EQ(with(place, 0, "stream"), "en otro lugar");
}

TEST(Filled, FormsMayHoldPlacesAndForms) {
  EXPECT_EQ(with("{0, plural, one {Record {1} counts} other {{1}: # records}}", 1, "7"), "Record 7 counts");
  EXPECT_EQ(with("{0, plural, one {Record {1} counts} other {{1}: # records}}", 2, "7"), "7: 2 records");
}

TEST(Filled, ABraceThatOpensNoPlaceStandsForItself) {
  EXPECT_EQ(with("Send {\"text\": 1}, it can't be {}", 1), "Send {\"text\": 1}, it can't be {}");
  EXPECT_EQ(with("open { to the end", 1), "open { to the end");
}

TEST(PatternFault, TellsWhatIsWrong) {
  std::set<std::size_t> places;
  EXPECT_FALSE(pattern_fault("{0, plural, one {{1}} other {#}} {12}", places));
  EXPECT_EQ(places, (std::set<std::size_t>{0, 1, 12}));
  EXPECT_TRUE(pattern_fault("{0, plural, one {# egg}}", places)) << "no form for other";
  EXPECT_TRUE(pattern_fault("{0, plural, few {#} other {#}}", places)) << "not a form of these languages";
  EXPECT_TRUE(pattern_fault("{0, number}", places));
  EXPECT_TRUE(pattern_fault("{0", places));
}

TEST(Said, IsItsEnglishAndKnowsItsParts) {
  const Phrase phrase = said("There is no record {0} to {1}.", 7, "correct");
  EXPECT_EQ(phrase, "There is no record 7 to correct.");
  EXPECT_EQ(phrase.pattern, "There is no record {0} to {1}.");
  EXPECT_EQ(said("{0, plural, one {# drop} other {# drops}}", "1"), "1 drop");
  EXPECT_EQ(said("{0, plural, one {# drop} other {# drops}}", "7"), "7 drops");
}

TEST(Joined, IsTakenApartAsItWasPutTogether) {
  const Sentence first{"{0} and {1}.", {Number{1}, Number{2}}}, second{"Then {0, plural, one {# more} other {# more}}.", {Number{3}}};
  const Sentence all = joined(joined("To begin:", first), second);
  EXPECT_EQ(all.pattern, "To begin: {0} and {1}. Then {2, plural, one {# more} other {# more}}.");
  ASSERT_EQ(all.values.size(), 3u);
  const auto parts = parts_of(all);
  ASSERT_EQ(parts.size(), 3u);
  EXPECT_EQ(parts[1].pattern, first.pattern);
  EXPECT_EQ(parts[2].pattern, second.pattern);
  EXPECT_EQ(std::get<Number>(parts[2].values[0]).count, 3);
  EXPECT_EQ(joined({}, first).pattern, first.pattern);
  EXPECT_EQ(parts_of(joined(first, all)).size(), 4u);
}

}  // namespace
}  // namespace redd
