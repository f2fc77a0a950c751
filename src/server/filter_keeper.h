// server/filter_keeper.h
// The filter's outlook, worked out in the background: asking never waits, and a job nobody waits for any more gives way.
// Start at FilterKeeper::ask(). The command line, which can wait, uses FilterWorker alone.
#pragma once

#include <condition_variable>
#include <deque>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <thread>

#include "planning/filter_outlook.h"
#include "server/season_desk.h"
#include "workers/pool.h"

namespace redd::server {

/// Works out one outlook after the other on all processors, each from where the one before had come to. One thread at a time.
class FilterWorker {
 public:
  /// Told the share done now and then; false stops the work.
  using KeepGoing = std::function<bool(double done_fraction)>;

  struct Result {
    enum class End { done, nothing_to_foretell, stopped, failed };
    End end = End::failed;
    std::shared_ptr<const planning::FilterOutlook> outlook{};  ///< when done
  };
  Result outlook(const Look& look, Instant now, const KeepGoing& keep_going = {});

 private:
  workers::Pool pool_;
  std::optional<inference::FilterPosterior> latest_{};
  // The sampler keeps its question for ever, so what it asks is exchanged behind it.
  std::shared_ptr<KeepGoing> asks_ = std::make_shared<KeepGoing>();
};

class FilterKeeper {
 public:
  enum class State { absent, working, ready, cancelled, failed };
  struct Answer {
    State state = State::absent;
    double done_fraction = 0;
    std::shared_ptr<const planning::FilterOutlook> outlook{};  ///< when ready
  };

  FilterKeeper();
  ~FilterKeeper();  ///< stops the work

  /// What is known of this moment; begins to work it out when nothing is. Safe from several threads.
  Answer ask(const std::shared_ptr<const Look>& look, Instant now);
  /// Stops the work on this moment; it stays stopped until start().
  Answer cancel(const std::shared_ptr<const Look>& look, Instant now);
  Answer start(const std::shared_ptr<const Look>& look, Instant now);

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
