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
  EXPECT_EQ(codes(entry(reading("nitrite", Form::between, 0.1, 2))), "not_on_the_card /body/value");
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
