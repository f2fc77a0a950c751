// server/day_keeper.h
// The day's answers of the last few questions, for several threads: a class that asks at once has it worked out once. Start at
// DayKeeper::day().
#pragma once

#include <condition_variable>
#include <deque>
#include <functional>
#include <memory>
#include <mutex>
#include <string>

#include "desk/costly.h"

namespace redd::server {

class DayKeeper {
 public:
  using Make = std::function<Result<std::string>()>;

  /// What `make` gives for this question. It is called on this thread, unless the very same was asked before or is being worked out on another,
  /// whose answer is then waited for. Problems are not kept. Safe from several threads.
  Result<std::string> day(const desk::DayQuestion& asked, const Make& make);

 private:
  struct Kept {
    desk::DayQuestion asked;
    std::shared_ptr<const std::string> text{};  ///< nullptr while it is being worked out
  };
  std::shared_ptr<Kept> find(const desk::DayQuestion& asked) const;
  void forget(const std::shared_ptr<Kept>& one);

  std::mutex mutex_;
  std::condition_variable changed_;
  std::deque<std::shared_ptr<Kept>> kept_;  ///< oldest first
};

}  // namespace redd::server
