#include "records/labels.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace redd::records {
namespace {

TEST(PersonalShape, OrdinaryLabelsPass) {
  for (const char* label :
       {"", "keeper", "import", "Team Newt", "Team Otter 2", "Period 3", "Room 12-14", "Room 12 - 14", "Rooms 101-103", "2031-02-04 group", "2031-02-04, period 3", "Group of 4.2.2031",
        "group 4/2/2031 07:50", "02/04/2031 group 12", "Class 2030-2031", "2030/31 class 5b", "20310204", "Tank 3 @ 7.30", "@newts", "newts@room12", "Team @ the pond", "5th & 6th hour", "Équipe Loutre",
        "Klasse 7b (2)", "Teams 1, 2, 3, 4, 5, 6, 7", "No. 123456", "3.14159", "Team A1 B2 C3 D4 E5 F6 G7", "the 12:30-13:15 group"})
    EXPECT_FALSE(personal_shape(label).has_value()) << label;
}

TEST(PersonalShape, SeesAddressesOfMail) {
  for (const char* label : {"newt@example.org", "Team Newt (newt.pond+5@mail.example.org)", "n@x.co", "write to newt@school.example.", "newt\uff20example\uff0eorg", "équipe@école.example"})
    EXPECT_EQ(personal_shape(label), PersonalShape::email) << label;
}

TEST(PersonalShape, SeesTelephoneNumbers) {
  // Invented numbers, of the ranges kept free for such use where there are any.
  for (const char* label : {"555-0123", "5550123", "+1 (202) 555-0123", "Team 202.555.0123", "01632 960 123", "tel 01632960123", "+44\u00a01632\u00a0960123", "030/555 0123 keeper", "202\u2013555\u20130123",
                            "01 99 00 12 34", "\uff15\uff15\uff15\uff10\uff11\uff12\uff13", "2031-02-04 555 0123", "12345678901234567890"})
    EXPECT_EQ(personal_shape(label), PersonalShape::telephone) << label;
}

RC_GTEST_PROP(PersonalShape, WordsAndShortNumbersAlwaysPass, ()) {
  const auto words = *rc::gen::container<std::vector<std::string>>(rc::gen::element<std::string>("Team", "Newt", "Heron", "Period", "Room", "class", "group", "B", "évasion", "été"));
  std::string label;
  for (const auto& word : words) label += word + " " + std::to_string(*rc::gen::inRange(0, 999)) + (*rc::gen::arbitrary<bool>() ? ", " : " - ") + word + " ";
  RC_ASSERT(!personal_shape(label).has_value());
}

RC_GTEST_PROP(PersonalShape, EveryDayWithAWordPasses, ()) {
  const auto day = Date(std::chrono::days(*rc::gen::inRange(-20000, 80000)));
  RC_ASSERT(!personal_shape(iso_from_date(day) + " group").has_value());
}

RC_GTEST_PROP(PersonalShape, AnyWordAtAHostIsSeenWhereverItStands, ()) {
  const auto letter = rc::gen::inRange('a', static_cast<char>('z' + 1));
  const std::string name = *rc::gen::nonEmpty(rc::gen::container<std::string>(letter)), host = *rc::gen::nonEmpty(rc::gen::container<std::string>(letter));
  const std::string before = *rc::gen::element<std::string>("", "Team ", "(", "mail:"), after = *rc::gen::element<std::string>("", " 3", ")", ", group 2", ".");
  RC_ASSERT(personal_shape(before + name + "@" + host + ".example" + after) == PersonalShape::email);
}

RC_GTEST_PROP(PersonalShape, AnyBytesAreAnswered, (const std::string& bytes)) { (void)personal_shape(bytes); }

TEST(ProblemsOfLabels, NameTheFieldAndDoNotRepeatWhatWasGiven) {
  Entry entry{.author = "newt@example.org", .body = Reading{.kit = "card", .test = "kh", .team = "555-0123"}};
  const auto problems = problems_of_labels(entry);
  ASSERT_EQ(problems.size(), 2u);
  EXPECT_EQ(problems[0].code, "personal_data");
  EXPECT_EQ(problems[0].field, "/author");
  EXPECT_EQ(problems[1].field, "/body/team");
  EXPECT_EQ(problems[0].sentence.find("newt@"), std::string::npos);
  EXPECT_EQ(problems[1].sentence.find("0123"), std::string::npos);
  entry.author = "Team Newt";
  entry.body = Duty{.label = "newt@example.org"};
  ASSERT_EQ(problems_of_labels(entry).size(), 1u);
  EXPECT_EQ(problems_of_labels(entry)[0].field, "/body/label");
  entry.body = Guess{.question = "q", .team = "newt@example.org"};
  EXPECT_EQ(problems_of_labels(entry).size(), 1u);
  entry.body = Note{.text = "The hatchery answers at hatchery@example.org"};
  EXPECT_TRUE(problems_of_labels(entry).empty()) << "notes are not labels";
}

}  // namespace
}  // namespace redd::records
