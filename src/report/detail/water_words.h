#pragma once
// The sentences about one water change, and how its quantities are shown. For water_plan_view.cpp and tried_water_view.cpp.

#include <optional>
#include <string>
#include <vector>

#include "report/numbers.h"
#include "report/water_view.h"
#include "season/water_look.h"
#include "wire/json.h"

namespace redd::report {

/// What hands do for it, step by step.
/// In      belief: nitrogen is shown as its cards print it.
std::vector<Sentence> change_steps(const planning::PlannedChange& change, const planning::NewWater& source, const inference::Belief& belief);
wire::Json change_json(const planning::PlannedChange& change, const planning::NewWater& source, const season::DayView& day, const Reader& reader);

/// A quantity followed by the forecast, with its column of the bands and its limits in canonical units.
struct FollowedQuantity {
  advice::WaterKey key;
  planning::WaterBand planning::WaterDayBands::*band;
  std::optional<double> low{}, high{};
};
std::vector<FollowedQuantity> followed_quantities(const planning::WaterLimits& limits, bool hardness);

std::string band_text(const ShownQuantity& shown, const planning::WaterBand& band, const Reader& reader);
wire::Json band_json(const ShownQuantity& shown, const planning::WaterBand& band);

/// "less than 1 chance in 20" as a word at the beginning of a sentence keeps its case.
wire::Json texts_json(const std::vector<Sentence>& sentences, const Reader& reader);

}  // namespace redd::report
