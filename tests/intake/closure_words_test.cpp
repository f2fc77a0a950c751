#include "intake/detail/closure_words.h"

#include <gtest/gtest.h>

namespace redd::intake::detail {
namespace {

using std::chrono::minutes;

TEST(SoundOf, AClosedSchoolInAnyOfItsLanguages) {
  for (const char* text : {"No School", "NO SCHOOL - Presidents' Day", "Winter Break", "Thanksgiving Holiday (no classes)", "School closed for snow", "Closed", "Campus closure", "Spring recess", "Fall break!",
                           "Weihnachtsferien", "Feiertag: Tag der Arbeit", "unterrichtsfrei", "Vacaciones de invierno", "Día festivo", "FÉRIÉ", "Vacances d'hiver", "Herfstvakantie", "Student holiday", "Pupil-free day"})
    EXPECT_EQ(sound_of(text).sounds, Sounds::closed) << text;
}

TEST(SoundOf, AnEarlyClosing) {
  for (const char* text : {"Early Dismissal", "Early release Wednesday", "Half day for students", "School closes at 12:30", "hitzefrei", "Early dismissal (holiday)"})
    EXPECT_EQ(sound_of(text).sounds, Sounds::early_closing) << text;
}

TEST(SoundOf, OtherEventsWithAReason) {
  for (const char* text : {"", "  ", "Picture day", "Breakfast with families", "Outbreak drill", "Classes resume after winter break", "Last day before holiday", "Holiday concert", "Library closed", "Pool closed", "Winter break begins",
                           "Lunch break", "Clover planting", "Enclosed garden visit", "Delayed opening"}) {
    EXPECT_EQ(sound_of(text).sounds, Sounds::otherwise) << text;
    EXPECT_FALSE(sound_of(text).reason.empty()) << text;
  }
}

TEST(TimeIn, ReadsTimesOfDayOnly) {
  EXPECT_EQ(time_in("Early release 1:15 pm"), minutes(13 * 60 + 15));
  EXPECT_EQ(time_in("Early release 1:15"), minutes(13 * 60 + 15)) << "no school shuts at a quarter past one at night";
  EXPECT_EQ(time_in("shut from 12:30"), minutes(750));
  EXPECT_EQ(time_in("12:00 p.m. end"), minutes(720));
  EXPECT_EQ(time_in("11:45AM"), minutes(705));
  EXPECT_EQ(time_in("Schluss um 11.30 Uhr"), minutes(690));
  for (const char* text : {"", "Early release", "room 12", "24.12.2031", "fee 12.50", "99:99", "1:1", "123:45", "13:00 pm"}) EXPECT_FALSE(time_in(text)) << text;
}

}  // namespace
}  // namespace redd::intake::detail
