#include "server/plan_keeper.h"

#include <algorithm>

namespace redd::server {
namespace {

/// Assumed: a class looks at a few days of a story, and drags dates on one of them.
constexpr std::size_t plans_kept = 12;

}  // namespace

Result<std::shared_ptr<const season::PlanView>> PlanKeeper::plan(const std::shared_ptr<const Look>& look, Instant now) {
  // A plan is for whole days; within an hour of the same log nothing in it moves.
  const Instant hour = std::chrono::floor<std::chrono::hours>(now);
  {
    const std::lock_guard lock(mutex_);
    const auto found = std::ranges::find_if(kept_, [&](const Kept& k) { return k.look == look && std::chrono::floor<std::chrono::hours>(k.now) == hour; });
    if (found != kept_.end()) return found->plan;
  }
  auto made = season::look_at_plan({look->zone}, look->records, now);
  if (!made) return made.problems();
  auto plan = std::make_shared<const season::PlanView>(std::move(made).value());
  const std::lock_guard lock(mutex_);
  if (kept_.size() >= plans_kept) kept_.pop_front();
  kept_.push_back({look, now, plan});
  return plan;
}

}  // namespace redd::server
