#include "desk/plan_memory.h"

#include <algorithm>

namespace redd::desk {
namespace {

/// Assumed: a class looks at a few days of a story, and drags dates on one of them.
constexpr std::size_t plans_kept = 12;

}  // namespace

std::shared_ptr<const season::PlanView> PlanMemory::find(const std::shared_ptr<const Look>& look, Instant now) const {
  // A plan is for whole days; within an hour of the same log nothing in it moves.
  const Instant hour = std::chrono::floor<std::chrono::hours>(now);
  const auto found = std::ranges::find_if(kept_, [&](const Kept& k) { return k.look == look && std::chrono::floor<std::chrono::hours>(k.now) == hour; });
  return found == kept_.end() ? nullptr : found->plan;
}

void PlanMemory::keep(const std::shared_ptr<const Look>& look, Instant now, std::shared_ptr<const season::PlanView> plan) {
  if (kept_.size() >= plans_kept) kept_.pop_front();
  kept_.push_back({look, now, std::move(plan)});
}

Result<std::shared_ptr<const season::PlanView>> PlanMemory::made(const Look& look, Instant now) {
  auto plan = season::look_at_plan({look.zone}, look.records, now);
  if (!plan) return plan.problems();
  return std::make_shared<const season::PlanView>(std::move(plan).value());
}

Result<std::shared_ptr<const season::PlanView>> PlanMemory::plan(const std::shared_ptr<const Look>& look, Instant now) {
  if (auto known = find(look, now)) return known;
  auto plan = made(*look, now);
  if (plan) keep(look, now, *plan);
  return plan;
}

}  // namespace redd::desk
