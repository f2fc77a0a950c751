#pragma once
// What a water programme says of itself. For water_programme.cpp.

#include "planning/water_programme.h"

namespace redd::planning {

/// What becomes of the limits under one alternative.
Sentence sentence_of(const WaterAlternative& alternative, const WaterCase& made);
/// Headline, cautions, notes and what it rests on, of a programme that is otherwise complete.
void say_programme(WaterProgramme& programme, const WaterCase& made);

}  // namespace redd::planning
