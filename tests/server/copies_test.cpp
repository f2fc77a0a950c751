// The copies as the page is shown them, and one more made from there.
#include <fstream>

#include "logbook/copies.h"
#include "server/fixture.h"
#include "wire/codec.h"

namespace redd::server {
namespace {

using wire::Json;

class Copies : public AppTest {
 protected:
  Json list() {
    const Response answer = get("/api/copies");
    EXPECT_EQ(answer.status, 200) << answer.bytes();
    return json(answer)["copies"];
  }
};

TEST_F(Copies, AreNoneWithoutASeason) {
  EXPECT_EQ(list(), Json::array());
  EXPECT_EQ(post("/api/copies", "{}").status, 409);
}

TEST_F(Copies, AreReadThroughForEveryAnswer) {
  set_up();
  const Json first = list();
  ASSERT_EQ(first.size(), 1u);
  EXPECT_EQ(first[0]["state"], "whole");
  EXPECT_EQ(first[0]["why"], "daily");
  EXPECT_EQ(first[0]["records"], 1) << "the first entry of the day made it";
  EXPECT_EQ(first[0]["made_at"], rfc3339_from_instant(now));
  const auto file = logbook::copies_of(folder / "season.redd")->front().file;
  std::filesystem::permissions(file, std::filesystem::perms::owner_all);
  std::fstream bytes(file, std::ios::in | std::ios::out | std::ios::binary);
  bytes.seekp(4096);  // the second page begins
  bytes << std::string(64, 'x');
  bytes.close();
  EXPECT_EQ(list()[0]["state"], "damaged");
}

TEST_F(Copies, OneMoreIsMadeAndShown) {
  set_up();
  const Response answer = post("/api/copies", "{}");
  ASSERT_EQ(answer.status, 201) << answer.bytes();
  const Json all = json(answer)["copies"];
  ASSERT_EQ(all.size(), 1u) << "the newest of a day stands for the day";
  EXPECT_EQ(all[0]["why"], "by-hand");
  EXPECT_EQ(all[0]["state"], "whole");
  EXPECT_EQ(all, list());
}

TEST_F(Copies, AreNotKeptOfTheDemo) {
  desk.reset();
  auto demo = SeasonDesk::open_demo(folder / "demo.redd", [this] { return now; });
  ASSERT_TRUE(demo.has_value());
  desk = std::move(demo).value();
  EXPECT_EQ(json(get("/api/copies"))["problems"][0]["code"], "demo_season");
  EXPECT_EQ(json(post("/api/copies", "{}"))["problems"][0]["code"], "demo_season");
}

}  // namespace
}  // namespace redd::server
