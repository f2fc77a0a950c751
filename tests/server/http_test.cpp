#include "server/http.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "wire/json.h"

namespace redd::server {
namespace {

TEST(RequestFromTarget, PathAndQueryAreDecoded) {
  const auto request = request_from_target("GET", "/api/calc/mix?ph_a=7.5&note=a+b%26c&empty=&bare");
  ASSERT_TRUE(request.has_value());
  EXPECT_EQ(request->path, "/api/calc/mix");
  EXPECT_EQ(request->parameter("ph_a"), "7.5");
  EXPECT_EQ(request->parameter("note"), "a b&c");
  EXPECT_EQ(request->parameter("empty"), "");
  EXPECT_EQ(request->parameter("bare"), "");
  EXPECT_EQ(request->parameter("other"), std::nullopt);
}

TEST(RequestFromTarget, BrokenTargetsAreRefused) {
  for (const char* target : {"", "api", "http://127.0.0.1/", "/%", "/%4", "/%zz", "/%00", "/a?x=%f", "/a?%q=1", "*"})
    EXPECT_FALSE(request_from_target("GET", target).has_value()) << target;
}

RC_GTEST_PROP(RequestFromTarget, AnyBytesAreReadOrRefused, (const std::string& bytes)) {
  const auto request = request_from_target("GET", bytes);
  if (request) RC_ASSERT(request->path.front() == '/');
}

TEST(Header, NamesAreComparedWithoutRegardToCase) {
  Response response;
  response.headers = {{"ETag", "x"}};
  EXPECT_EQ(response.header("etag"), "x");
  EXPECT_EQ(response.header("vary"), std::nullopt);
}

TEST(Refusal, IsJsonWhateverTheWords) {
  const auto response = refusal(422, "code", "/body/\"x\"", "quote \" backslash \\ line\nbroken \xff utf-8");
  EXPECT_EQ(response.status, 422);
  const auto tree = wire::parsed(response.body);
  ASSERT_TRUE(tree.has_value());
  EXPECT_EQ((*tree)["problems"][0]["field"], "/body/\"x\"");
}

}  // namespace
}  // namespace redd::server
