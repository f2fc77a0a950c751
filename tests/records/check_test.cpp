// What keeps an entry out of the log, one case each.

#include <gtest/gtest.h>

#include "records/record.h"

namespace redd::records {
namespace {

using namespace std::chrono;

Instant at(const char* text) { return *instant_from_rfc3339(text); }
const ZoneOffsets denver{"America/Denver", {{Instant{}, hours(-7)}}};
const Instant now = at("2030-11-01T18:00:00Z");

Entry entry(Body body, Instant when = now) { return {when, "Team Otter", {}, {}, std::move(body)}; }

SeasonSetup season() {
  SeasonSetup s;
  s.name = "Invented season";
  s.first_day = *date_from_iso("2030-09-02");
  s.species = "brook_trout";
  s.target = Temperature::from_c(8);
  return s;
}

Kit kit() {
  KitTest card{.key = "nitrite", .quantity = Quantity::nitrite, .unit = TestUnit::mg_no2_per_l, .steps = {0.1, 0.5, 2}};
  KitTest drops{.key = "kh", .quantity = Quantity::alkalinity, .method = Method::drop_count, .unit = TestUnit::german_degrees, .per_drop = 1.0};
  KitTest meter{.key = "ph", .quantity = Quantity::ph, .method = Method::meter, .unit = TestUnit::ph, .accuracy = 0.1};
  return {"class", "Class kit", {card, drops, meter}};
}

/// A log in order: season (1), kit (2), eggs (3), a note (4).
std::vector<Record> log() {
  std::vector<Record> all;
  for (Body body : {Body(season()), Body(kit()), Body(EggReceipt{.count = 200}), Body(Note{"n"})})
    all.push_back({static_cast<RecordId>(all.size()) + 1, now - days(1), entry(std::move(body), now - days(1))});
  return all;
}

std::string codes(const Entry& e, const std::vector<Record>& records = log()) {
  std::string text;
  for (const Problem& p : problems_of(e, records, denver, now)) text += (text.empty() ? "" : ", ") + p.code + " " + p.field;
  return text;
}

Reading reading(const char* test, Reading::Form form, std::optional<double> value = {}, std::optional<double> upper = {}) {
  Reading r;
  r.kit = "class";
  r.test = test;
  r.form = form;
  r.value = value;
  r.upper_value = upper;
  return r;
}

using Form = Reading::Form;

TEST(ProblemsOf, AnythingInOrderAreNone) {
  for (const Body& body : {Body(reading("nitrite", Form::between, 0.1, 0.5)), Body(reading("kh", Form::drops, 4)), Body(reading("ph", Form::number, 7.2)),
                           Body(TemperatureReading{Temperature::from_c(8)}), Body(WaterChange{Volume::from_l(40)}), Body(Milestone{}), Body(Note{"n"}), Body(Undo{4})})
    EXPECT_EQ(codes(entry(body)), "") << kind_name(body);
}

TEST(ProblemsOf, AReadingNameItsKitTestAndCard) {
  Reading r = reading("nitrite", Form::step, 0.5);
  r.kit = "other";
  EXPECT_EQ(codes(entry(r)), "unknown_kit /body/kit");
  EXPECT_EQ(codes(entry(reading("iron", Form::step, 0.5))), "unknown_test /body/test");
  EXPECT_EQ(codes(entry(reading("nitrite", Form::step, 0.3))), "not_on_the_card /body/value");
  EXPECT_EQ(codes(entry(reading("nitrite", Form::between, 2, 0.1))), "not_on_the_card /body/value");
  EXPECT_EQ(codes(entry(reading("nitrite", Form::number, 0.5))), "not_on_the_card /body/value");
  EXPECT_EQ(codes(entry(reading("kh", Form::drops, 4.5))), "not_a_drop_count /body/value");
  EXPECT_EQ(codes(entry(reading("kh", Form::drops, -1))), "not_a_drop_count /body/value");
  EXPECT_EQ(codes(entry(reading("ph", Form::number, 15))), "out_of_range /body/value");
}

TEST(ProblemsOf, AReadingWithoutAnyKitSayHowToBegin) {
  auto records = log();
  records.push_back({5, now, entry(Undo{2})});
  EXPECT_EQ(codes(entry(reading("nitrite", Form::step, 0.5)), records), "unknown_kit /body/kit");
}

TEST(ProblemsOf, TimesAndSeasons) {
  EXPECT_EQ(codes(entry(Note{"n"}, now + hours(25))), "in_the_future /at");
  EXPECT_EQ(codes(entry(Note{"n"}, now + hours(23))), "");
  EXPECT_EQ(codes(entry(Note{"n"}, at("2030-09-02T06:59:59Z"))), "before_season /at");
  EXPECT_EQ(codes(entry(Note{"n"}, at("2030-09-02T07:00:00Z"))), "");
  EXPECT_EQ(codes(entry(Note{"n"}), {}), "no_season /kind");
  EXPECT_EQ(codes(entry(kit()), {}), "");
  EXPECT_EQ(codes(entry(season())), "second_season /kind");
  SeasonSetup s = season();
  s.egg_day = s.first_day - days(1);
  s.target = Temperature::from_c(40);
  EXPECT_EQ(codes(entry(s), {}), "egg_day_before_first_day /body/egg_day, out_of_range /body/target_c");
  Entry nobody = entry(Note{"n"});
  nobody.author.clear();
  EXPECT_EQ(codes(nobody), "missing /author");
}

TEST(ProblemsOf, PlansMayBeWrittenBeforeTheTankIsFilled) {
  const Date winter = *date_from_iso("2030-12-21");
  for (const Body& body : {Body(Closure{"Winter break", winter, winter + days(15), {}}), Body(Duty{"Team Heron", winter, {}}), Body(TankBuild{})}) {
    EXPECT_EQ(codes(entry(body, at("2030-08-20T12:00:00Z"))), "") << kind_name(body);
    EXPECT_EQ(codes(entry(body), {}), "no_season /kind") << kind_name(body);
  }
}

TEST(ProblemsOf, AClosureOrDutyEndsAfterItsBeginningAndIsNoYear) {
  const Date day = *date_from_iso("2031-03-14");
  EXPECT_EQ(codes(entry(Closure{"Break", day, day - days(1), {}})), "days_crossed /body/to");
  EXPECT_EQ(codes(entry(Closure{"Break", day, day + days(200), {}})), "");
  EXPECT_EQ(codes(entry(Closure{"Break", day, day + days(201), {}})), "too_long /body/to");
  EXPECT_EQ(codes(entry(Duty{"Team Heron", day, day - days(1)})), "days_crossed /body/to");
  EXPECT_EQ(codes(entry(Closure{"Early closing", day, {}, "12:30"})), "");
  EXPECT_EQ(codes(entry(Closure{"Early closing", day, day, "12:30"})), "");
  EXPECT_EQ(codes(entry(Closure{"Early closing", day, {}, "24:00"})), "not_a_time /body/shut_from");
  EXPECT_EQ(codes(entry(Closure{"Early closing", day, day + days(1), "12:30"})), "not_used /body/shut_from");
}

TEST(ProblemsOf, ThePermitsDaysAndTheSchoolsWeek) {
  SeasonSetup s = season();
  s.egg_day = *date_from_iso("2031-01-10");
  s.release_from = *date_from_iso("2031-05-10");
  s.release_until = *date_from_iso("2031-05-30");
  s.school_weekdays = "sun-thu";
  EXPECT_EQ(codes(entry(s), {}), "");
  s.release_until = *date_from_iso("2031-05-01");
  EXPECT_EQ(codes(entry(s), {}), "days_crossed /body/release_until");
  s.release_from.reset();
  s.release_until = *date_from_iso("2030-12-30");
  EXPECT_EQ(codes(entry(s), {}), "release_before_eggs /body/release_until");
  s.release_until.reset();
  s.school_weekdays = "mon foo";
  EXPECT_EQ(codes(entry(s), {}), "not_weekdays /body/school_weekdays");
}

TEST(ProblemsOf, ATankIsMeasuredInsideAndInCentimetres) {
  TankBuild b;  // 90 x 45 x 50 cm: 202 L of the season's 200 L
  b.length_cm = 90;
  b.width_cm = 45;
  b.water_height_cm = 50;
  EXPECT_EQ(codes(entry(b)), "");
  b.length_cm = 36;
  b.width_cm = 18;
  b.water_height_cm = 20;  // the same in inches
  EXPECT_EQ(codes(entry(b)), "volume_does_not_fit /body/length_cm");
  b = {};
  b.light_from_hour = 16;
  b.light_until_hour = 8;
  b.room_used_from_hour = b.room_used_until_hour = 8;
  EXPECT_EQ(codes(entry(b)), "hours_crossed /body/light_until_hour, hours_crossed /body/room_used_until_hour");
  b = {};
  b.faces = {TankFace{}, TankFace{}};
  EXPECT_EQ(codes(entry(b)), "given_twice /body/faces/1/side");
}

TEST(ProblemsOf, CorrectionsAndUndos) {
  Entry correction = entry(Note{"better"});
  correction.supersedes = 4;
  EXPECT_EQ(codes(correction), "");
  correction.supersedes = 9;
  EXPECT_EQ(codes(correction), "unknown_record /supersedes");
  correction.supersedes = 3;
  EXPECT_EQ(codes(correction), "other_kind /supersedes");
  EXPECT_EQ(codes(entry(Undo{9})), "unknown_record /body/target");
  EXPECT_EQ(codes(entry(Undo{1})), "season_stays /body/target");
  auto records = log();
  records.push_back({5, now, entry(Undo{4})});
  EXPECT_EQ(codes(entry(Undo{4}), records), "already_replaced /body/target");
  correction.supersedes = 4;
  EXPECT_EQ(codes(correction, records), "already_replaced /supersedes");
  EXPECT_EQ(codes(entry(Undo{5}), records), "") << "an undo can be taken back";
  Entry setup = entry(season());
  setup.supersedes = 1;
  EXPECT_EQ(codes(setup), "") << "a season is corrected, not doubled";
}

TEST(ProblemsOf, TheOtherKinds) {
  EXPECT_EQ(codes(entry(TemperatureReading{Temperature::from_c(50)})), "out_of_range /body/temperature_c");
  EXPECT_EQ(codes(entry(TemperatureReading{Temperature::from_c(-20), TemperatureReading::Place::room})), "");
  EXPECT_EQ(codes(entry(WaterChange{Volume::from_l(201)})), "more_than_the_tank /body/volume_l");
  EXPECT_EQ(codes(entry(WaterChange{Volume::from_l(40), "rain"})), "unknown_source_water /body/source_water");
  EXPECT_EQ(codes(entry(Dose{Substance::other, Mass::from_g(1)})), "missing /body/name");
  EXPECT_EQ(codes(entry(EggReceipt{.count = 1, .start = EggReceipt::Start::fertilised_on})), "missing /body/fertilised_on");
  EXPECT_EQ(codes(entry(EggReceipt{.count = 1, .start = EggReceipt::Start::fertilised_on, .fertilised_on = *date_from_iso("2031-01-01")})), "after_arrival /body/fertilised_on");
  EXPECT_EQ(codes(entry(EggReceipt{.count = 1, .start = EggReceipt::Start::thermal_sum})), "missing /body/thermal_sum_c_days");
  auto records = log();
  records.erase(records.begin() + 2);
  EXPECT_EQ(codes(entry(Milestone{}), records), "no_eggs /kind");
}

TEST(ProblemsOf, FoodIsGivenInOneUnitAndNoMoreThanTheyEat) {
  EXPECT_EQ(codes(entry(Feeding{Mass::from_g(2), {}, {}})), "");
  EXPECT_EQ(codes(entry(Feeding{})), "missing /body/mass_g");
  EXPECT_EQ(codes(entry(Feeding{{}, {}, 2.0})), "unknown_spoon /body/spoons");
  EXPECT_EQ(codes(entry(Feeding{Mass::from_g(2), {}, 2.0})), "given_twice /body/spoons, unknown_spoon /body/spoons");
  EXPECT_EQ(codes(entry(Feeding{Mass::from_g(1001), {}, {}})), "more_than_they_eat /body/mass_g") << "5 g each for 200";
  auto records = log();
  records.push_back({5, now - days(1), entry(Spoon{10, Mass::from_g(1.2), {}}, now - days(1))});
  EXPECT_EQ(codes(entry(Feeding{{}, {}, 2.0}), records), "");
  EXPECT_EQ(codes(entry(Feeding{{}, {}, 9000.0}), records), "more_than_they_eat /body/spoons");
}

TEST(ProblemsOf, ASpoonIsWeighedWithItsFellowsAndNotTheDish) {
  EXPECT_EQ(codes(entry(Spoon{10, Mass::from_g(1.2), {}})), "");
  EXPECT_EQ(codes(entry(Spoon{10, Mass::from_g(0.01), {}})), "out_of_range /body/mass_g");
  EXPECT_EQ(codes(entry(Spoon{1, Mass::from_g(60), {}})), "out_of_range /body/mass_g");
}

TEST(ProblemsOf, ATopUpIsNoWaterChange) {
  EXPECT_EQ(codes(entry(TopUp{Volume::from_l(3), {}})), "");
  EXPECT_EQ(codes(entry(TopUp{Volume::from_l(100), {}})), "more_than_evaporates /body/volume_l");
  EXPECT_EQ(codes(entry(TopUp{Volume::from_l(3), "rain"})), "unknown_source_water /body/source_water");
}

TEST(ProblemsOf, FishAreWeighedTogetherOrMeasuredOneByOne) {
  const auto sample = [](int count, std::optional<Mass> mass, std::vector<double> lengths_mm) { return codes(entry(FishSample{count, mass, std::move(lengths_mm)})); };
  EXPECT_EQ(sample(20, Mass::from_g(4), {}), "");
  EXPECT_EQ(sample(2, {}, {27, 28}), "");
  EXPECT_EQ(sample(2, {}, {}), "missing /body/mass_g");
  EXPECT_EQ(sample(3, {}, {27, 28}), "wrong_length /body/lengths_mm");
  EXPECT_EQ(sample(20, Mass::from_g(0.1), {}), "out_of_range /body/mass_g");
  EXPECT_EQ(sample(300, Mass::from_g(60), {}), "more_than_received /body/count");
  auto records = log();
  records.erase(records.begin() + 2);
  EXPECT_EQ(codes(entry(FishSample{20, Mass::from_g(4), {}}), records), "no_eggs /kind");
}

TEST(ProblemsOf, AnAnswerToAdviceNamesItsActionAndADayAhead) {
  using enum AdviceAnswer::Answer;
  const auto answer = [](AdviceAnswer a) { return codes(entry(std::move(a))); };
  const Date today = local_day(denver, now);
  EXPECT_EQ(answer({done, "weekly_test", {}, {}}), "");
  EXPECT_EQ(answer({not_now, "weekly_test", today + days(2), {}}), "");
  EXPECT_EQ(answer({done, "", {}, {}}), "missing /body/action");
  EXPECT_EQ(answer({done, "weekly_test", today + days(2), {}}), "not_used /body/until");
  EXPECT_EQ(answer({not_now, "weekly_test", today, {}}), "days_crossed /body/until");
  EXPECT_EQ(answer({not_now, "weekly_test", today + days(61), {}}), "too_long /body/until");
}

TEST(ProblemsOf, AGuessIsARangeOrTenChips) {
  const auto guess = [](Guess g) { return codes(entry(std::move(g))); };
  EXPECT_EQ(guess({"q", "Team Otter", 5, 7, {}}), "");
  EXPECT_EQ(guess({"q", "Team Otter", 7, 7, {}}), "");
  EXPECT_EQ(guess({"q", "Team Otter", {}, {}, {0, 4, 6}}), "");
  EXPECT_EQ(guess({"", "", 5, 7, {}}), "missing /body/question, missing /body/team");
  EXPECT_EQ(guess({"q", "Team Otter", 7, 5, {}}), "crossed /body/high");
  EXPECT_EQ(guess({"q", "Team Otter", 7, {}, {}}), "missing /body/high");
  EXPECT_EQ(guess({"q", "Team Otter", {}, {}, {}}), "missing /body/low");
  EXPECT_EQ(guess({"q", "Team Otter", 5, 7, {10, 0}}), "given_twice /body/chips");
  EXPECT_EQ(guess({"q", "Team Otter", {}, {}, {4, 5}}), "chips_do_not_add_up /body/chips");
  EXPECT_EQ(guess({"q", "Team Otter", {}, {}, {4.5, 5.5}}), "chips_do_not_add_up /body/chips");
}

TEST(ProblemsOf, ASampledCountSaysWhatPartWasLookedAt) {
  const auto count = [](Count::What what, Count::How how, std::optional<double> part, int n = 40) { return codes(entry(Count{what, n, how, part})); };
  EXPECT_EQ(count(Count::What::alive, Count::How::sampled, 0.25), "");
  EXPECT_EQ(count(Count::What::alive, Count::How::counted, {}), "");
  EXPECT_EQ(count(Count::What::alive, Count::How::sampled, {}), "missing /body/looked_at_fraction");
  EXPECT_EQ(count(Count::What::alive, Count::How::sampled, 0.0), "out_of_range /body/looked_at_fraction");
  EXPECT_EQ(count(Count::What::alive, Count::How::counted, 0.25), "not_sampled /body/looked_at_fraction");
  EXPECT_EQ(count(Count::What::dead_fry, Count::How::sampled, 0.25), "not_sampled /body/method");
  EXPECT_EQ(count(Count::What::dead_fry, Count::How::estimated, {}, 300), "more_than_received /body/count");
}

std::string kit_codes(const Kit& k) {
  std::string text;
  for (const Problem& p : problems_of(k)) text += (text.empty() ? "" : ", ") + p.code + " " + p.field;
  return text;
}

TEST(ProblemsOf, KitsNameTheTestAtFault) {
  EXPECT_EQ(kit_codes(kit()), "");
  EXPECT_EQ(kit_codes({"k", "n", {}}), "no_tests /tests");
  Kit k = kit();
  k.tests[0].unit = TestUnit::mg_no3_per_l;
  k.tests[0].steps = {0.5, 0.1};
  k.tests[0].swatches = {"#12345g", "#000000"};
  k.tests[1].per_drop.reset();
  k.tests[2].key = "kh";
  EXPECT_EQ(kit_codes(k), "unit_does_not_fit /tests/0/unit, steps_not_rising /tests/0/steps, not_a_colour /tests/0/swatches, missing /tests/1/per_drop, given_twice /tests/2/key");
  k = kit();
  k.tests[0].steps = {1};
  k.tests[0].colour_names = {"pale", "deep"};
  EXPECT_EQ(kit_codes(k), "too_few_steps /tests/0/steps, wrong_length /tests/0/colour_names");
  k = kit();
  k.tests[0] = {.key = "card", .quantity = Quantity::ph, .unit = TestUnit::ph, .steps = {6, 7, 15}};
  EXPECT_EQ(kit_codes(k), "out_of_range /tests/0/steps");
}

}  // namespace
}  // namespace redd::records
