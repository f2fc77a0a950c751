#include "planning/doubted_water.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "chemistry/carbonate.h"
#include "support/small_season.h"

namespace redd::planning {
namespace {

using inference::Quantity;
using redd::testing::SmallSeason;

season::DayView tested() {
  SmallSeason season;
  season.eggs(2);
  season.quiet_tests(7);
  return season.look(8);
}

FilterOutlook with_kit_off(const inference::Belief& belief, Quantity quantity, double error) {
  FilterOutlook filter;
  filter.doubts.push_back({inference::FilterDoubt::suspect_kit, {"Off."}, belief.find(quantity)->records, quantity, error, "any", "any"});
  return filter;
}

TEST(WithDoubt, LeavesSureReadingsAsTheyAre) {
  const auto view = tested();
  const FilterOutlook filter;
  const auto belief = with_doubt(view.belief, view.season, &filter);
  for (const auto& [quantity, known] : belief.water) {
    EXPECT_FALSE(known.doubt);
    EXPECT_EQ(known.value.low, view.belief.find(quantity)->value.low);
    EXPECT_EQ(known.value.high, view.belief.find(quantity)->value.high);
  }
}

TEST(WithDoubt, AKitThatReadsPhTooLowWidensItUpwards) {
  const auto view = tested();
  const auto filter = with_kit_off(view.belief, Quantity::ph, -1.0);
  const auto& read = view.belief.find(Quantity::ph)->value;
  const auto belief = with_doubt(view.belief, view.season, &filter);
  const auto& ph = *belief.find(Quantity::ph);
  ASSERT_TRUE(ph.doubt);
  EXPECT_DOUBLE_EQ(ph.value.high, read.high + 1.0);
  EXPECT_DOUBLE_EQ(ph.value.low, read.low);
  EXPECT_DOUBLE_EQ(ph.value.mid, read.mid);
  EXPECT_DOUBLE_EQ(ph.doubt->unwidened.high, read.high);
  // Un-ionized ammonia is judged with it.
  EXPECT_GT(inference::un_ionized_ammonia(belief)->mg_n_per_l.high, 5.0 * inference::un_ionized_ammonia(view.belief)->mg_n_per_l.high);
}

TEST(WithDoubt, AKitThatReadsTooMuchWidensDownwardsOnly) {
  const auto view = tested();
  const auto filter = with_kit_off(view.belief, Quantity::nitrate, 2.0);
  const auto& read = view.belief.find(Quantity::nitrate)->value;
  const auto& nitrate = with_doubt(view.belief, view.season, &filter).water.at(Quantity::nitrate).value;
  EXPECT_DOUBLE_EQ(nitrate.low, read.low / 2.0);
  EXPECT_DOUBLE_EQ(nitrate.high, read.high);
}

TEST(WithDoubt, WhatIsOffByLessThanACardsStepIsLeft) {
  const auto view = tested();
  for (const auto& [quantity, error] : {std::pair(Quantity::ph, 0.2), std::pair(Quantity::nitrate, 0.9)}) {
    const auto filter = with_kit_off(view.belief, quantity, error);
    EXPECT_FALSE(with_doubt(view.belief, view.season, &filter).find(quantity)->doubt);
  }
}

TEST(WithDoubt, AnotherKitsReadingIsNotInDoubt) {
  const auto view = tested();
  auto filter = with_kit_off(view.belief, Quantity::ph, -1.0);
  filter.doubts.front().records = {9999};
  EXPECT_FALSE(with_doubt(view.belief, view.season, &filter).find(Quantity::ph)->doubt);
}

TEST(WithDoubt, TwiceIsOnce) {
  const auto view = tested();
  const auto filter = with_kit_off(view.belief, Quantity::ph, -1.0);
  const auto once = with_doubt(view.belief, view.season, &filter);
  const auto twice = with_doubt(once, view.season, &filter);
  EXPECT_EQ(once.find(Quantity::ph)->value.high, twice.find(Quantity::ph)->value.high);
}

TEST(WithDoubt, APhTooLowForItsKhMayBeThatOfAiredWater) {
  auto view = tested();
  auto &ph = view.belief.water.at(Quantity::ph), &kh = view.belief.water.at(Quantity::alkalinity);
  ph.value = ph.as_read = {5.9, 6.0, 6.1, Support::measured};
  kh.value = kh.as_read = {2.8, 3.0, 3.2, Support::measured};
  kh.read_at = ph.read_at;
  const auto clash = ph_against_kh(view.season, view.belief);
  ASSERT_TRUE(clash);
  EXPECT_TRUE(clash->too_much_co2);
  EXPECT_GT(clash->co2_mg_per_l, most_co2_mg_per_l);
  const auto belief = with_doubt(view.belief, view.season, nullptr);
  const double aired = chemistry::carbonate_from_pco2(*view.belief.temperature.latest, Alkalinity::from_meq_per_l(3.2), chemistry::outdoor_co2_uatm)->ph;
  EXPECT_NEAR(belief.find(Quantity::ph)->value.high, aired, 1e-9);
  EXPECT_LT(belief.find(Quantity::alkalinity)->value.low, 2.8);
  EXPECT_DOUBLE_EQ(belief.find(Quantity::alkalinity)->value.high, 3.2);
}

TEST(WithDoubt, TwoCausesWidenBothWaysAndAreBothOnRecord) {
  // The kit reads pH too high, and yet what it reads is too low for KH.
  auto view = tested();
  auto &ph = view.belief.water.at(Quantity::ph), &kh = view.belief.water.at(Quantity::alkalinity);
  ph.value = ph.as_read = {5.9, 6.0, 6.1, Support::measured};
  kh.value = kh.as_read = {2.8, 3.0, 3.2, Support::measured};
  kh.read_at = ph.read_at;
  auto filter = with_kit_off(view.belief, Quantity::ph, 1.0);
  constexpr records::RecordId earlier = 9999;
  filter.doubts.front().records.push_back(earlier);
  const auto belief = with_doubt(view.belief, view.season, &filter);
  const auto& known = *belief.find(Quantity::ph);
  ASSERT_TRUE(known.doubt);
  EXPECT_DOUBLE_EQ(known.value.low, 4.9);
  EXPECT_DOUBLE_EQ(known.value.high, with_doubt(view.belief, view.season, nullptr).find(Quantity::ph)->value.high);
  EXPECT_GT(known.value.high, 7.0);
  EXPECT_DOUBLE_EQ(known.value.mid, 6.0);
  EXPECT_DOUBLE_EQ(known.doubt->unwidened.low, 5.9);
  EXPECT_DOUBLE_EQ(known.doubt->unwidened.high, 6.1);
  const auto& records = known.doubt->records;
  EXPECT_TRUE(std::ranges::count(records, earlier)) << "of the kit";
  EXPECT_TRUE(std::ranges::count(records, kh.records.front())) << "of the contradiction";
  const auto causes = parts_of(known.doubt->why);
  ASSERT_EQ(causes.size(), 2u);
  EXPECT_NE(causes[0].pattern.find("The kit it is read with"), std::string::npos);
  EXPECT_EQ(causes[1].pattern, with_doubt(view.belief, view.season, nullptr).find(Quantity::ph)->doubt->why.pattern);
  const auto twice = with_doubt(belief, view.season, &filter);
  EXPECT_EQ(twice.find(Quantity::ph)->value.low, known.value.low);
  EXPECT_EQ(twice.find(Quantity::ph)->doubt->records, records);
}

TEST(WithDoubt, APhTooHighForItsKhMayBeLower) {
  auto view = tested();
  auto &ph = view.belief.water.at(Quantity::ph), &kh = view.belief.water.at(Quantity::alkalinity);
  ph.value = ph.as_read = {8.9, 9.0, 9.1, Support::measured};
  kh.value = kh.as_read = {0.3, 0.4, 0.5, Support::measured};
  kh.read_at = ph.read_at;
  const auto clash = ph_against_kh(view.season, view.belief);
  ASSERT_TRUE(clash);
  EXPECT_FALSE(clash->too_much_co2);
  const auto belief = with_doubt(view.belief, view.season, nullptr);
  EXPECT_LT(belief.find(Quantity::ph)->value.low, 8.0);
  EXPECT_DOUBLE_EQ(belief.find(Quantity::ph)->value.high, 9.1);
  EXPECT_GT(belief.find(Quantity::alkalinity)->value.high, 0.5);
}

}  // namespace
}  // namespace redd::planning
