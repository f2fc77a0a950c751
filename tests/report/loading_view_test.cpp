#include "report/loading_view.h"

#include <gtest/gtest.h>

#include "support/told_filter.h"

namespace redd::report {
namespace {

using namespace redd::testing;

season::LoadingLook look_of(int eggs, const planning::FilterOutlook* filter = nullptr) {
  SmallSeason season;
  season.quiet_tests(27);
  EggReceipt receipt;
  receipt.count = eggs, receipt.start = EggReceipt::Start::thermal_sum, receipt.thermal_sum = ThermalSum::from_c_days(300);
  season.add(28, receipt);
  auto look = season::look_at_loading({}, season.log(), on_day(30, 12), filter);
  require(look.has_value(), "look_of", "the season does not look");
  return std::move(look).value();
}

bool has(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

TEST(LoadingView, NumbersTravelWithTheirText) {
  const auto told = told_filter(0.9, 0.9);
  const auto json = loading_json(look_of(300, &told));
  ASSERT_FALSE(json["shown"].empty());
  for (const auto& row : json["shown"]) {
    EXPECT_FALSE(row["day_text"].get<std::string>().empty());
    EXPECT_FALSE(row["oxygen"]["text"].get<std::string>().empty());
    EXPECT_LE(row["oxygen"]["animals"]["low"].get<double>(), row["oxygen"]["animals"]["high"].get<double>());
    EXPECT_EQ(row["space"].is_null(), row["stage"] != "fry");
  }
  EXPECT_EQ(json["days"].size(), look_of(300, &told).view.days.size());
  EXPECT_TRUE(json["filter"]["known"].get<bool>());
}

TEST(LoadingView, ShownDaysHoldTheFirstTheLastAndTheLimit) {
  const auto look = look_of(3000);
  ASSERT_TRUE(look.view.reached);
  const auto json = loading_json(look);
  const auto& shown = json["shown"];
  EXPECT_EQ(shown.front()["day"], json["days"].front()["day"]);
  EXPECT_EQ(shown.back()["day"], json["days"].back()["day"]);
  EXPECT_TRUE(std::ranges::any_of(shown, [&](const auto& row) { return row["day"] == json["reached"]["day"] && row["over"] == true; }));
}

TEST(LoadingView, WithoutTheFilterNothingIsCalledCarried) {
  const auto text = loading_text(look_of(20));
  EXPECT_TRUE(has(text, "not known"));
  EXPECT_TRUE(has(text, "no filter"));
}

TEST(LoadingView, TheTextIsNoWiderThanAsked) {
  const std::string text = loading_text(look_of(300));
  for (std::size_t at = 0; at < text.size();) {
    const auto end = text.find('\n', at);
    EXPECT_LE(end - at, 82u) << text.substr(at, end - at);  // bytes: a degree sign is two
    at = end + 1;
  }
}

TEST(LoadingView, AReleasedBroodIsOneSentence) {
  SmallSeason season;
  season.eggs(8);
  season.add(20, Release{.count = 200});
  const auto look = season::look_at_loading({}, season.log(), on_day(21, 12));
  ASSERT_TRUE(look);
  EXPECT_TRUE(has(loading_text(*look), "released"));
  EXPECT_FALSE(has(loading_text(*look), "By size"));
}

}  // namespace
}  // namespace redd::report
