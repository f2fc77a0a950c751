// The demo season read in Spanish: no sentence of any view is left in English.

#include <gtest/gtest.h>

#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <set>
#include <string>
#include <vector>

#include "server/app.h"
#include "server/season_desk.h"
#include "wire/json.h"

namespace redd {
namespace {

using wire::Json;

/// Texts a person wrote, references, and words that are the same in both languages.
bool may_stay(const std::string& key, const std::string& text) {
  static const std::set<std::string> same{"Kit", "pH", "KH", "GH"};
  static const std::set<std::string> of_people{"name",  "author", "place", "season", "title", "on_duty", "closed_name", "model", "kit", "body", "version"};
  if ((key == "what" || key == "method") && text.find(' ') == std::string::npos) return true;  // a word for programs
  if (same.contains(text) || key.ends_with("_key") || of_people.contains(key) || key.find("source") != std::string::npos) return true;
  const bool sentence = key == "sentence" || key == "detail" || key == "text" || key.ends_with("_text") || key == "what" || key == "how_much" || key == "meaning" ||
                        key == "note" || key == "benefit" || key == "rests_on" || key == "sign" || key == "summary" || key == "question" || key == "answer" || key == "working" || key == "cautions" ||
                        key == "assumed" || key == "says" || key == "method" || key == "doubt" || key == "work";
  if (!sentence) return true;
  // Numbers, dates and units alone, or a remark in somebody's own words.
  int letters_in_a_row = 0, longest = 0;
  for (const char c : text) {
    letters_in_a_row = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ? letters_in_a_row + 1 : 0;
    longest = std::max(longest, letters_in_a_row);
  }
  return longest < 4;
}

void compare(const Json& english, const Json& spanish, const std::string& key, const std::string& path, std::set<std::string>& left) {
  ASSERT_EQ(english.type(), spanish.type()) << path;
  if (key == "asked") return;  // handed back to be asked again, by any reader
  if (key == "body" || (english.is_object() && english.value("kind", "") == "note")) return;  // in somebody's own words
  if (english.is_object()) {
    ASSERT_EQ(english.size(), spanish.size()) << path;
    for (const auto& [name, value] : english.items()) {
      ASSERT_TRUE(spanish.contains(name)) << path << "/" << name;
      compare(value, spanish[name], name, path + "/" + name, left);
    }
  } else if (english.is_array()) {
    ASSERT_EQ(english.size(), spanish.size()) << path;
    for (std::size_t i = 0; i < english.size(); ++i) compare(english[i], spanish[i], key, path, left);
  } else if (english.is_string()) {
    const auto& text = english.get_ref<const std::string&>();
    if (text == spanish.get_ref<const std::string&>() && !may_stay(key, text)) left.insert(path + ": " + text);
  } else {
    EXPECT_EQ(english, spanish) << path << ": numbers do not change with the reader";
  }
}

TEST(DemoInSpanish, NoSentenceIsLeftInEnglish) {
  const auto folder = std::filesystem::temp_directory_path() / ("redd-es-" + std::to_string(::testing::UnitTest::GetInstance()->random_seed()) + std::to_string(::getpid()));
  std::filesystem::create_directories(folder);
  auto desk = server::SeasonDesk::open_demo(folder / "demo.redd", server::system_now);
  ASSERT_TRUE(desk.has_value());
  const server::App app(**desk);
  const auto look = (*desk)->look();
  ASSERT_TRUE(look.has_value());
  const auto story = server::story_of(**look);
  ASSERT_TRUE(story.has_value());
  std::set<std::string> left;
  const auto ask = [&](const std::string& target) {
    server::Request request = *server::request_from_target("GET", target);
    request.headers = {{"host", "127.0.0.1"}};
    return app.handle(request);
  };
  const auto days = (story->last_day - story->first_day).count();
  for (int part = 0; part <= 8; ++part) {
    const std::string day = iso_from_date(story->first_day + std::chrono::days(days * part / 8));
    std::vector<const char*> views{"day", "counts", "feed", "emergency", "heat", "loading", "history", "report", "lessons"};
    if (part == 3 || part == 6) views.insert(views.end(), {"plan", "wall", "water-plan", "what-if"});  // these search, which takes its time
    for (const char* view : views) {
      const std::string target = std::string("/api/") + view + "?as_of=" + day;
      const auto english = ask(target), spanish = ask(target + "&language=es");
      ASSERT_EQ(english.status, spanish.status) << target;
      const auto a = wire::parsed(english.body), b = wire::parsed(spanish.body);
      ASSERT_TRUE(a && b) << target;
      compare(*a, *b, "", std::string(view), left);
    }
  }
  std::filesystem::remove_all(folder);
  std::string all;
  for (const std::string& each : left) all += "\n" + each;
  EXPECT_TRUE(left.empty()) << all;
}

}  // namespace
}  // namespace redd
