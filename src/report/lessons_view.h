#pragma once
// What a class can learn from the tank, as JSON and as text for a terminal.

#include <string>

#include "report/numbers.h"
#include "season/lessons_look.h"
#include "wire/json.h"

namespace redd::report {

/// LessonsView of docs/openapi.json: numbers unrounded, each with its text; sentences ready to show. Open questions hold no guesses.
wire::Json lessons_json(const season::LessonsLook& look, const Reader& reader = {});

/// What `redd lessons` prints: the game and the readings by team.
std::string lessons_text(const season::LessonsLook& look, const Reader& reader = {}, int width = 80);

/// A worksheet to print, or its answers.
std::string worksheet_text(const season::LessonsLook& look, lessons::Level level, bool answers, const Reader& reader = {}, int width = 80);

/// Four letters and digits that a sheet shares with its own answers, in every language, and, but for one in 65536, with no others.
std::string worksheet_stamp(const lessons::Worksheet& sheet, const ZoneOffsets& zone);

// The parts, one file each.
wire::Json game_json(const lessons::Game& game, const Reader& reader);
wire::Json replicates_json(const lessons::Replicates& replicates, const Reader& reader);

}  // namespace redd::report
