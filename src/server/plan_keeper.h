// server/plan_keeper.h
// The plans and the day's answers of the last few moments asked for, for several threads. Start at PlanKeeper::plan().
#pragma once

#include <mutex>

#include "desk/plan_memory.h"
#include "server/day_keeper.h"

namespace redd::server {

class PlanKeeper final : public desk::PlanDoor {
 public:
  /// Worked out on the caller's thread when it is not at hand. Safe from several threads.
  Result<std::shared_ptr<const season::PlanView>> plan(const std::shared_ptr<const desk::Look>& look, Instant now) override;

  Result<std::string> day(const desk::DayQuestion& asked, const DayKeeper::Make& make) override { return days_.day(asked, make); }

 private:
  std::mutex mutex_;
  desk::PlanMemory kept_;
  DayKeeper days_;
};

}  // namespace redd::server
