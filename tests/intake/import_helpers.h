#pragma once
// A season to import into, and short ways to look at a preview.

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>
#include <string>

#include "intake/import.h"
#include "intake/kit_file.h"
#include "logbook/season.h"
#include "wire/codec.h"
#include "zones/zones.h"

namespace redd::test {

inline std::string example(const std::string& name) {
  std::ifstream file(REDD_SOURCE_DIR "/examples/import/" + name, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

/// A season in Denver that began on 2 September 2030, looked at in June.
inline intake::Context context() {
  records::SeasonSetup season;
  season.time_zone = "America/Denver";
  season.first_day = *date_from_iso("2030-09-02");
  return {{intake::kit_from_text(example("class_kit.toml")).value()}, zones::season_zone(season).value(), season.first_day, at("2031-06-01T18:00:00Z")};
}

inline intake::Preview preview(const std::string& text, const std::map<std::string, std::string>& words = {}, const intake::Context& c = context()) {
  const auto settings = intake::settings_from_words(words);
  if (!settings) throw std::runtime_error(settings.problems().front().sentence);
  auto result = intake::preview_import(text, *settings, c);
  if (!result) throw std::runtime_error(result.problems().front().code + ": " + result.problems().front().sentence);
  return std::move(result).value();
}

/// Code of the problem that keeps a file from being shown at all.
inline std::string refusal(const std::string& text, const std::map<std::string, std::string>& words = {}) {
  const auto settings = intake::settings_from_words(words);
  if (!settings) return settings.problems().front().code;
  const auto result = intake::preview_import(text, *settings, context());
  return result ? "no problem" : result.problems().front().code;
}

inline const intake::Guess* guess(const intake::Preview& p, const std::string& key) {
  for (const auto& g : p.guesses)
    if (g.key == key) return &g;
  return nullptr;
}

/// "value certainty", or "none".
inline std::string guessed(const intake::Preview& p, const std::string& key) {
  static const char* words[] = {"given", "certain", "likely", "open"};
  const auto* g = guess(p, key);
  return g ? g->value + " " + words[static_cast<int>(g->certainty)] : "none";
}

inline std::string bad(const intake::Preview& p) {
  std::string text;
  for (const auto& row : p.bad) text += std::to_string(row.line) + ":" + row.column + ":" + row.problem.code + " ";
  return text;
}

inline std::vector<double> temperatures(const intake::Preview& p) {
  std::vector<double> all;
  for (const auto& e : p.entries)
    if (const auto* t = std::get_if<records::TemperatureReading>(&e.body)) all.push_back(t->temperature.c());
  return all;
}

inline std::string moments(const intake::Preview& p) {
  std::string text;
  for (const auto& e : p.entries) text += rfc3339_from_instant(e.at) + " ";
  return text;
}

inline bool says(const intake::Preview& p, const std::string& part) {
  for (const auto& note : p.notes)
    if (note.find(part) != std::string::npos) return true;
  return false;
}

}  // namespace redd::test
