// server/plan_keeper.h
// The plans of the last few moments asked for, for several threads. Start at PlanKeeper::plan().
#pragma once

#include <mutex>

#include "desk/plan_memory.h"

namespace redd::server {

class PlanKeeper final : public desk::PlanDoor {
 public:
  /// Worked out on the caller's thread when it is not at hand. Safe from several threads.
  Result<std::shared_ptr<const season::PlanView>> plan(const std::shared_ptr<const desk::Look>& look, Instant now) override;

 private:
  std::mutex mutex_;
  desk::PlanMemory kept_;
};

}  // namespace redd::server
