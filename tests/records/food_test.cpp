#include "records/food.h"

#include <gtest/gtest.h>

namespace redd::records {
namespace {

std::vector<Record> spoons(std::vector<Spoon> all) {
  std::vector<Record> records;
  for (Spoon& spoon : all) {
    Record r;
    r.id = static_cast<RecordId>(records.size()) + 1;
    r.entry.body = std::move(spoon);
    records.push_back(std::move(r));
  }
  return records;
}

TEST(FoodMass, GramsCountAsGrams) { EXPECT_EQ(food_mass({}, Feeding{Mass::from_g(1.5), {}, {}}).g(), 1.5); }

TEST(FoodMass, SpoonsCountAsTheNewestOfTheirFoodWasWeighed) {
  const auto log = spoons({{10, Mass::from_g(1.0), "crumb"}, {10, Mass::from_g(1.2), "crumb"}, {10, Mass::from_g(3.0), "pellet"}});
  EXPECT_DOUBLE_EQ(food_mass(log, Feeding{{}, "crumb", 2.0}).g(), 0.24);
  EXPECT_DOUBLE_EQ(food_mass(log, Feeding{{}, "pellet", 0.5}).g(), 0.15);
  EXPECT_DOUBLE_EQ(food_mass(log, Feeding{{}, {}, 1.0}).g(), 0.3) << "no food named: the newest spoon";
  EXPECT_DOUBLE_EQ(food_mass(log, Feeding{{}, "flake", 1.0}).g(), 0.3) << "a food nobody weighed: the newest spoon";
}

TEST(FoodMass, SpoonsNobodyWeighedAreNotGuessed) { EXPECT_EQ(food_mass({}, Feeding{{}, {}, 3.0}).g(), 0.0); }

}  // namespace
}  // namespace redd::records
