// Today's answer held against what a scenario expects.

#include <algorithm>
#include <cctype>

#include "scenarios/scenario.h"

namespace redd::scenarios {
namespace {

using wire::Json;

std::string in_small_letters(std::string text) {
  std::ranges::transform(text, text.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return text;
}

/// Whether one of "a|b" makes `good` true.
template <class Good>
bool any_alternative(const std::string& alternatives, Good&& good) {
  std::size_t from = 0;
  while (from <= alternatives.size()) {
    const std::size_t to = std::min(alternatives.find('|', from), alternatives.size());
    if (good(alternatives.substr(from, to - from))) return true;
    from = to + 1;
  }
  return false;
}

bool occurs(const std::string& alternatives, const std::string& text) {
  return any_alternative(in_small_letters(alternatives), [&](const std::string& one) { return text.find(one) != std::string::npos; });
}

std::string text_at(const Json& json, const char* key) {
  const auto found = json.find(key);
  return found != json.end() && found->is_string() ? found->get<std::string>() : "";
}

bool is_one(const std::string& alternatives, const std::string& text) {
  return alternatives.empty() || any_alternative(alternatives, [&](const std::string& one) { return one == text; });
}

/// Every text in a tree, one after the other.
void gather(const Json& json, std::string& all) {
  if (json.is_string()) all += json.get<std::string>() + "\n";
  else if (json.is_structured())
    for (const Json& part : json) gather(part, all);
}

std::string what_is_done(const Json& action) { return in_small_letters(text_at(action, "what") + " " + text_at(action, "how_much")); }

/// Those shown at once, and those one click away.
std::vector<Json> all_actions(const Json& today) {
  const Json list = today.value("actions", Json::array());
  return {list.begin(), list.end()};
}

std::string shown(const Json& action) { return "[" + text_at(action, "tone") + ", " + text_at(action, "rule") + "] " + text_at(action, "what") + " " + text_at(action, "how_much"); }

std::string shown(const std::vector<Json>& actions) {
  std::string all;
  for (const Json& action : actions) all += "\n      " + shown(action);
  return all;
}

std::string either(const std::vector<Wanted>& list) {
  std::string all;
  for (const Wanted& one : list) all += (all.empty() ? "" : "; or ") + one.text();
  return all;
}

/// What must hold of any answer whatever the season.
void always(const std::vector<Json>& actions, std::vector<std::string>& found) {
  constexpr std::ptrdiff_t most_shown = 5;
  if (std::ranges::count_if(actions, [](const Json& action) { return action.value("shown", true); }) > most_shown) found.push_back("more than five actions are shown at once");
  for (const Json& action : actions) {
    std::string words;
    gather(action, words);
    if (action.value("because", Json::array()).empty()) found.push_back("no reason is given: " + shown(action));
    if (words.find('{') != std::string::npos) found.push_back("an unfilled gap in a sentence: " + shown(action));
    // No medicines and no egg baths, whatever happens. Formalin and dyes have no place in a school.
    for (const char* remedy : {"formalin", "malachite", "methylene", "peroxide", "antibiotic", "copper", "iodine", "iodophor", "salt bath"})
      if (what_is_done(action).find(remedy) != std::string::npos) found.push_back(std::string("advises ") + remedy + ": " + shown(action));
  }
}

}  // namespace

bool fits(const Wanted& wanted, const Json& action) {
  if (!is_one(wanted.rule, text_at(action, "rule")) || !is_one(wanted.tone, text_at(action, "tone")) || !is_one(wanted.aim, text_at(action, "aim"))) return false;
  if (!wanted.deed.empty()) {
    const Json deeds = action.value("deeds", Json::array());
    if (std::ranges::none_of(deeds, [&](const Json& deed) { return deed.is_string() && is_one(wanted.deed, deed.get<std::string>()); })) return false;
  }
  if (!wanted.when.empty() && !occurs(wanted.when, in_small_letters(text_at(action, "by_text")))) return false;
  if (wanted.by && !(instant_from_rfc3339(text_at(action, "by")).value_or(Instant::max()) <= *wanted.by)) return false;
  const std::string done = what_is_done(action);
  std::string said;
  gather(action, said);
  said = in_small_letters(said);
  return std::ranges::all_of(wanted.does, [&](const std::string& text) { return occurs(text, done); }) &&
         std::ranges::all_of(wanted.says, [&](const std::string& text) { return occurs(text, said); });
}

std::vector<std::string> shortfalls(const Ask& ask, const Json& today) {
  std::vector<std::string> found;
  const std::vector<Json> actions = all_actions(today);
  if (actions.empty()) return {"there is no action at all"};
  const std::string tone = text_at(today["headline"], "tone");
  if (!is_one(ask.headline, tone) || (!ask.headline_not.empty() && is_one(ask.headline_not, tone)))
    found.push_back("the headline's tone is " + tone + ": " + text_at(today["headline"], "sentence"));
  if (std::ranges::none_of(ask.top, [&](const Wanted& wanted) { return fits(wanted, actions.front()); }))
    found.push_back("the top action should be " + either(ask.top) + "; they are" + shown(actions));
  for (const Wanted& wanted : ask.also)
    if (std::ranges::none_of(actions, [&](const Json& action) { return fits(wanted, action); }))
      found.push_back("nothing is advised with " + wanted.text() + "; there are" + shown(actions));
  for (const Wanted& wanted : ask.never)
    for (const Json& action : actions)
      if (fits(wanted, action)) found.push_back("must not be advised (" + wanted.text() + "): " + shown(action));
  always(actions, found);
  return found;
}

}  // namespace redd::scenarios
