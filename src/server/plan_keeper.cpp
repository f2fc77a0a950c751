#include "server/plan_keeper.h"

namespace redd::server {

Result<std::shared_ptr<const season::PlanView>> PlanKeeper::plan(const std::shared_ptr<const desk::Look>& look, Instant now) {
  {
    const std::lock_guard lock(mutex_);
    if (auto known = kept_.find(look, now)) return known;
  }
  auto plan = desk::PlanMemory::made(*look, now);
  if (!plan) return plan;
  const std::lock_guard lock(mutex_);
  kept_.keep(look, now, *plan);
  return plan;
}

}  // namespace redd::server
