#pragma once
// A chart as a file for a text, a slide or a wall: SVG or PNG. Start at svg_of().

#include <string>

#include "print/chart.h"
#include "quantities/result.h"

namespace redd::print {

/// A drawing that can be made any size: 720 × about 400 units. Its words are shapes, so that no font is needed; title and description stand
/// in it as text, for who listens. Same chart, same bytes.
/// Errors  not_drawn
Result<std::string> svg_of(const Chart& chart);

/// The same as a picture, 1,440 dots wide, on white.
/// Errors  not_drawn
Result<std::string> png_of(const Chart& chart);

}  // namespace redd::print
