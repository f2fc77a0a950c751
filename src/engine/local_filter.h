#pragma once
// The filter's outlook where there is one thread and no clock: worked out a sitting of tests at a time, whenever the page
// has nothing else to ask. Start at ask() and step().

#include <deque>

#include "desk/filter_worker.h"

namespace redd::engine {

class LocalFilter final : public desk::FilterDoor {
 public:
  desk::FilterAnswer ask(const std::shared_ptr<const desk::Look>& look, Instant now) override;
  desk::FilterAnswer cancel(const std::shared_ptr<const desk::Look>& look, Instant now) override;
  desk::FilterAnswer start(const std::shared_ptr<const desk::Look>& look, Instant now) override;

  /// Does the next bit of the work on the moment asked about last. False when there is nothing to do.
  bool step();

 private:
  struct Job {
    std::shared_ptr<const desk::Look> look;
    Instant now{};
    desk::FilterAnswer answer{};
  };
  Job& job_of(const std::shared_ptr<const desk::Look>& look, Instant now);

  std::deque<Job> jobs_;  ///< asked about last: at the back
  desk::FilterWorker worker_;
};

}  // namespace redd::engine
