#include "server/filter_keeper.h"

#include <algorithm>

namespace redd::server {

struct FilterKeeper::Job {
  std::shared_ptr<const Look> look;
  Instant now{};
  State state = State::working;
  bool running = false, unwanted = false;
  double done_fraction = 0;
  std::shared_ptr<const planning::FilterOutlook> outlook{};
  std::chrono::steady_clock::time_point last_asked{};

  bool is_about(const Look& other, Instant at) const { return desk::same_filter_question(*look, now, other, at); }
};

namespace {

/// Answers kept for another look. Assumed: a class slides through a story of a few dozen days.
constexpr std::size_t jobs_kept = 48;
/// After so long without a question nobody waits for a job any more. The page asks every 0.4 s.
constexpr std::chrono::seconds forgotten_after{3};

}  // namespace

FilterKeeper::FilterKeeper() : thread_([this](const std::stop_token& stop) { work(stop); }) {}
FilterKeeper::~FilterKeeper() = default;

FilterKeeper::Answer FilterKeeper::answer_of(const Job& job) { return {job.state, job.state == State::ready ? 1.0 : job.done_fraction, job.outlook}; }

std::shared_ptr<FilterKeeper::Job> FilterKeeper::job_of(const std::shared_ptr<const Look>& look, Instant now) {
  const auto found = std::ranges::find_if(jobs_, [&](const auto& job) { return job->is_about(*look, now); });
  if (found != jobs_.end()) return *found;
  if (jobs_.size() >= jobs_kept) {
    const auto idle = std::ranges::find_if(jobs_, [](const auto& job) { return !job->running; });
    if (idle != jobs_.end()) jobs_.erase(idle);
  }
  jobs_.push_back(std::make_shared<Job>());
  jobs_.back()->look = look;
  jobs_.back()->now = now;
  return jobs_.back();
}

FilterKeeper::Answer FilterKeeper::ask(const std::shared_ptr<const Look>& look, Instant now) {
  const std::lock_guard lock(mutex_);
  const auto job = job_of(look, now);
  job->last_asked = std::chrono::steady_clock::now();
  changed_.notify_all();
  return answer_of(*job);
}

FilterKeeper::Answer FilterKeeper::cancel(const std::shared_ptr<const Look>& look, Instant now) {
  const std::lock_guard lock(mutex_);
  const auto job = job_of(look, now);
  if (job->state == State::working) {
    job->state = State::cancelled;
    job->unwanted = true;
  }
  return answer_of(*job);
}

FilterKeeper::Answer FilterKeeper::start(const std::shared_ptr<const Look>& look, Instant now) {
  const std::lock_guard lock(mutex_);
  const auto job = job_of(look, now);
  if (job->state == State::cancelled || job->state == State::failed) {
    job->state = State::working;
    job->done_fraction = 0;
  }
  job->last_asked = std::chrono::steady_clock::now();
  changed_.notify_all();
  return answer_of(*job);
}

void FilterKeeper::work(const std::stop_token& stop) {
  std::unique_lock lock(mutex_);
  const auto waiting = [](const std::shared_ptr<Job>& job) { return job->state == State::working && !job->running; };
  while (!stop.stop_requested()) {
    // Who asked last waits most impatiently.
    std::shared_ptr<Job> next;
    for (const auto& job : jobs_)
      if (waiting(job) && (!next || job->last_asked > next->last_asked)) next = job;
    if (!next) {
      changed_.wait(lock, stop, [&] { return std::ranges::any_of(jobs_, waiting); });
      continue;
    }
    next->running = true;
    next->unwanted = false;
    lock.unlock();
    const auto result = worker_.outlook(*next->look, next->now, [&](double done) {
      const std::lock_guard inner(mutex_);
      next->done_fraction = done;
      const bool others_wait = std::ranges::any_of(jobs_, waiting), forgotten = std::chrono::steady_clock::now() - next->last_asked > forgotten_after;
      return !stop.stop_requested() && !next->unwanted && !(others_wait && forgotten);
    });
    lock.lock();
    next->running = false;
    using enum FilterWorker::Result::End;
    if (next->state == State::cancelled) continue;
    if (result.end == stopped) {
      // Gave way, or was cancelled and started again. Forgotten jobs are dropped; asked for again they are new.
      if (std::chrono::steady_clock::now() - next->last_asked > forgotten_after) std::erase(jobs_, next);
      continue;
    }
    next->state = result.end == done ? State::ready : result.end == nothing_to_foretell ? State::absent : State::failed;
    next->outlook = result.outlook;
  }
}

}  // namespace redd::server
