// server/plan_keeper.h
// The temperature plan of the last few moments asked for, so that trying other set-points answers at once. Start at PlanKeeper::plan().
#pragma once

#include <deque>
#include <memory>
#include <mutex>

#include "season/season.h"
#include "server/season_desk.h"

namespace redd::server {

class PlanKeeper {
 public:
  /// Worked out on the caller's thread when it is not at hand. Safe from several threads.
  ///
  /// Errors  those of season::look_at_plan().
  Result<std::shared_ptr<const season::PlanView>> plan(const std::shared_ptr<const Look>& look, Instant now);

 private:
  struct Kept {
    std::shared_ptr<const Look> look;
    Instant now{};
    std::shared_ptr<const season::PlanView> plan;
  };
  std::mutex mutex_;
  std::deque<Kept> kept_;
};

}  // namespace redd::server
