#pragma once
// What was worked out beside the belief, of the same records and moment, for the rules to speak of. Each may be absent, and then no rule does.

#include <span>

#include "emergency/emergency.h"

namespace redd::planning {
struct WaterProgramme;
struct FeedPlan;
struct LoadingView;
}
namespace redd::inference {
struct Counts;
}

namespace redd::advice {

struct Looks {
  std::span<const emergency::Emergency> emergencies{};  ///< when something is logged as failed
  const planning::WaterProgramme* water = nullptr;
  const planning::FeedPlan* feed = nullptr;
  const planning::LoadingView* loading = nullptr;
  const inference::Counts* counts = nullptr;
};

}  // namespace redd::advice
