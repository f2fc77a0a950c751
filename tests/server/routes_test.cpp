// The table of routes and docs/openapi.json must say the same, both ways.
#include "server/own_routes.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <set>

#include "assets/assets.h"
#include "wire/json.h"

namespace redd::server {
namespace {

wire::Json description() {
  std::ifstream file(REDD_SOURCE_DIR "/docs/openapi.json");
  const std::string text(std::istreambuf_iterator<char>(file), {});
  auto tree = wire::parsed(text);
  EXPECT_TRUE(tree.has_value());
  return tree ? std::move(tree).value() : wire::Json();
}

std::string upper(std::string word) {
  std::ranges::transform(word, word.begin(), [](char c) { return static_cast<char>(std::toupper(c)); });
  return word;
}

TEST(Routes, AreThoseOfTheDescriptionWithTheSameWords) {
  std::set<std::string> in_table, in_file;
  for (const Route& route : routes())
    in_table.insert(std::string(route.method) + " " + std::string(route.path) + ": " + std::string(route.summary));
  const auto paths = description()["paths"];
  for (const auto& [path, methods] : paths.items())
    for (const auto& [method, operation] : methods.items())
      in_file.insert(upper(method) + " " + path + ": " + operation["summary"].get<std::string>());
  EXPECT_EQ(in_table, in_file);
  EXPECT_EQ(in_table.size(), routes().size()) << "a route is in the table twice";
}

TEST(Routes, TakeTheParametersTheDescriptionNames) {
  const auto paths = description()["paths"];
  for (const Route& route : routes()) {
    if (route.parameters == "*") continue;
    std::string method(route.method);
    std::ranges::transform(method, method.begin(), [](char c) { return static_cast<char>(std::tolower(c)); });
    std::string named;
    const auto& operation = paths.at(std::string(route.path)).at(method);
    if (operation.contains("parameters"))
      for (const auto& parameter : operation["parameters"])
        if (parameter["in"] == "query") named += (named.empty() ? "" : " ") + parameter["name"].get<std::string>();
    EXPECT_EQ(named, route.parameters) << route.path;
  }
}

TEST(Routes, EveryReferenceInTheDescriptionLeadsSomewhere) {
  const auto all = description();
  std::set<std::string> named;
  const auto walk = [&](auto& self, const wire::Json& node) -> void {
    if (node.is_object() && node.contains("$ref")) {
      const std::string target = node["$ref"];
      EXPECT_TRUE(all.contains(wire::Json::json_pointer(target.substr(1)))) << target;
      named.insert(target.substr(target.rfind('/') + 1));
    }
    if (node.is_structured())
      for (const auto& child : node) self(self, child);
  };
  walk(walk, all);
  for (const auto& [name, schema] : all["components"]["schemas"].items())
    EXPECT_TRUE(named.contains(name)) << name << " is used nowhere";
}

TEST(Routes, TheDescriptionIsPackedIntoTheProgram) {
  const auto asset = assets::find_asset("docs/openapi.json");
  ASSERT_TRUE(asset.has_value());
  EXPECT_EQ(wire::parsed(asset->text()).value(), description());
}

TEST(PathFits, BracesStandForOneSegment) {
  std::vector<std::string> parts;
  EXPECT_TRUE(path_fits("/api/records/{id}/undo", "/api/records/12/undo", parts));
  EXPECT_EQ(parts, std::vector<std::string>{"12"});
  EXPECT_FALSE(path_fits("/api/records/{id}/undo", "/api/records//undo", parts));
  EXPECT_FALSE(path_fits("/api/records/{id}/undo", "/api/records/12", parts));
  EXPECT_FALSE(path_fits("/api/records/{id}/undo", "/api/records/1/2/undo", parts));
  EXPECT_FALSE(path_fits("/api/calc", "/api/calc/", parts));
}

}  // namespace
}  // namespace redd::server
