#include "server/page_files.h"

#include <gtest/gtest.h>

#include "assets/assets.h"

namespace redd::server {
namespace {

Request asking(const std::string& path, Pairs headers = {}) {
  Request request;
  request.path = path;
  request.headers = std::move(headers);
  return request;
}

TEST(PageFile, TheRootIsThePage) {
  const auto page = page_file(asking("/"));
  ASSERT_EQ(page.status, 200);
  EXPECT_EQ(page.content_type, "text/html; charset=utf-8");
  EXPECT_EQ(page.bytes(), assets::find_asset("web/index.html")->text());
  EXPECT_EQ(page.header("content-encoding"), std::nullopt);
}

TEST(PageFile, EveryPackedFileOfThePageIsServedBothWays) {
  for (const auto& asset : assets::all_assets()) {
    if (!asset.path.starts_with("web/")) continue;
    const std::string path(asset.path.substr(3));
    EXPECT_EQ(page_file(asking(path)).bytes().size(), asset.bytes.size()) << path;
    const auto packed = page_file(asking(path, {{"accept-encoding", "gzip, deflate"}}));
    EXPECT_EQ(packed.header("content-encoding").has_value(), !asset.gzip.empty()) << path;
    EXPECT_LE(packed.bytes().size(), asset.bytes.size()) << path;
  }
}

TEST(PageFile, AKnownTagNeedsNoBytes) {
  for (const char* encoding : {"identity", "gzip"}) {
    const auto first = page_file(asking("/", {{"accept-encoding", encoding}}));
    const std::string tag(*first.header("etag"));
    const auto second = page_file(asking("/", {{"accept-encoding", encoding}, {"if-none-match", "\"old\", W/" + tag}}));
    EXPECT_EQ(second.status, 304);
    EXPECT_TRUE(second.bytes().empty());
    EXPECT_EQ(second.header("etag"), tag);
  }
}

TEST(PageFile, FilesBesideThePageAreOutOfReach) {
  for (const char* path :
       {"/../data/demo/season.jsonl", "/../docs/openapi.json", "//index.html", "/index.html/", "/assets", "/\xff"})
    EXPECT_EQ(page_file(asking(path)).status, 404) << path;
}

TEST(AcceptsGzip, ReadsWeights) {
  EXPECT_TRUE(accepts_gzip("gzip"));
  EXPECT_TRUE(accepts_gzip("br;q=1.0, gzip;q=0.8"));
  EXPECT_TRUE(accepts_gzip("*"));
  EXPECT_FALSE(accepts_gzip("gzip;q=0"));
  EXPECT_FALSE(accepts_gzip("gzip;q=0.000"));
  EXPECT_FALSE(accepts_gzip("br, deflate"));
  EXPECT_FALSE(accepts_gzip(""));
}

TEST(NamesTag, WeakAndListedTagsCount) {
  EXPECT_TRUE(names_tag("W/\"a\"", "\"a\""));
  EXPECT_TRUE(names_tag("\"b\" , \"a\"", "\"a\""));
  EXPECT_TRUE(names_tag("*", "\"a\""));
  EXPECT_FALSE(names_tag("\"ab\"", "\"a\""));
}

}  // namespace
}  // namespace redd::server
