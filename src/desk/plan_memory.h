#pragma once
// The temperature plan of the last few moments asked for, so that trying other set-points answers at once. Start at PlanMemory::plan().

#include <deque>

#include "desk/costly.h"

namespace redd::desk {

/// One thread at a time: find() and keep() are apart so that a caller with threads need not hold its lock over the work.
class PlanMemory : public PlanDoor {
 public:
  Result<std::shared_ptr<const season::PlanView>> plan(const std::shared_ptr<const Look>& look, Instant now) override;

  /// nullptr when it is not at hand.
  std::shared_ptr<const season::PlanView> find(const std::shared_ptr<const Look>& look, Instant now) const;
  void keep(const std::shared_ptr<const Look>& look, Instant now, std::shared_ptr<const season::PlanView> plan);
  /// Works it out anew.
  static Result<std::shared_ptr<const season::PlanView>> made(const Look& look, Instant now);

 private:
  struct Kept {
    std::shared_ptr<const Look> look;
    Instant now{};
    std::shared_ptr<const season::PlanView> plan;
  };
  std::deque<Kept> kept_;
};

}  // namespace redd::desk
