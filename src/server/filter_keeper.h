// server/filter_keeper.h
// The filter's outlook, worked out in the background: asking never waits, and a job nobody waits for any more gives way.
// Start at FilterKeeper::ask(). The command line, which can wait, uses FilterWorker alone.
#pragma once

#include <condition_variable>
#include <deque>
#include <memory>
#include <mutex>
#include <thread>

#include "desk/filter_worker.h"
#include "server/season_desk.h"
#include "workers/pool.h"

namespace redd::server {

/// Works out one outlook after the other on all processors. One thread at a time.
class FilterWorker : public desk::FilterWorker {
 public:
  FilterWorker() : desk::FilterWorker(&pool_) {}

 private:
  workers::Pool pool_;
};

class FilterKeeper final : public desk::FilterDoor {
 public:
  using State = desk::FilterState;
  using Answer = desk::FilterAnswer;

  FilterKeeper();
  ~FilterKeeper() override;  ///< stops the work

  // All three are safe from several threads.
  Answer ask(const std::shared_ptr<const Look>& look, Instant now) override;
  Answer cancel(const std::shared_ptr<const Look>& look, Instant now) override;
  Answer start(const std::shared_ptr<const Look>& look, Instant now) override;

 private:
  struct Job;
  std::shared_ptr<Job> job_of(const std::shared_ptr<const Look>& look, Instant now);
  void work(const std::stop_token& stop);
  static Answer answer_of(const Job& job);

  std::mutex mutex_;
  std::condition_variable_any changed_;
  std::deque<std::shared_ptr<Job>> jobs_;  ///< oldest first: done, running and waiting
  FilterWorker worker_;
  std::jthread thread_;  ///< last, so that it ends before the rest goes
};

}  // namespace redd::server
