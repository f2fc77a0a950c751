#pragma once
// What takes longer than anybody waits for, behind two doors: the filter's outlook, and the temperature plan. The server
// works them out on other threads, a page without a server in slices.

#include <memory>

#include "desk/look.h"
#include "planning/filter_outlook.h"
#include "season/season.h"

namespace redd::desk {

enum class FilterState { absent, working, ready, cancelled, failed };
struct FilterAnswer {
  FilterState state = FilterState::absent;
  double done_fraction = 0;
  std::shared_ptr<const planning::FilterOutlook> outlook{};  ///< when ready
};

/// Answers at once with what is at hand; asking begins the work.
class FilterDoor {
 public:
  virtual ~FilterDoor() = default;
  /// What is known of this moment; begins to work it out when nothing is.
  virtual FilterAnswer ask(const std::shared_ptr<const Look>& look, Instant now) = 0;
  /// Stops the work on this moment; it stays stopped until start().
  virtual FilterAnswer cancel(const std::shared_ptr<const Look>& look, Instant now) = 0;
  virtual FilterAnswer start(const std::shared_ptr<const Look>& look, Instant now) = 0;

 protected:
  FilterDoor() = default;
  FilterDoor(const FilterDoor&) = default;
  FilterDoor& operator=(const FilterDoor&) = default;
};

class PlanDoor {
 public:
  virtual ~PlanDoor() = default;
  /// Errors  those of season::look_at_plan().
  virtual Result<std::shared_ptr<const season::PlanView>> plan(const std::shared_ptr<const Look>& look, Instant now) = 0;

 protected:
  PlanDoor() = default;
  PlanDoor(const PlanDoor&) = default;
  PlanDoor& operator=(const PlanDoor&) = default;
};

}  // namespace redd::desk
