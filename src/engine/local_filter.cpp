#include "engine/local_filter.h"

#include <algorithm>

namespace redd::engine {
namespace {

using desk::FilterState;

/// Answers kept for another look. Assumed: a class slides through a story of a few dozen days.
constexpr std::size_t jobs_kept = 24;

}  // namespace

LocalFilter::Job& LocalFilter::job_of(const std::shared_ptr<const desk::Look>& look, Instant now) {
  const auto found = std::ranges::find_if(jobs_, [&](const Job& job) { return desk::same_filter_question(*job.look, job.now, *look, now); });
  Job job = found == jobs_.end() ? Job{look, now, {FilterState::working, 0.0, {}}} : *found;
  if (found != jobs_.end()) jobs_.erase(found);
  // Nobody waits for what was asked before any more.
  else std::erase_if(jobs_, [](const Job& other) { return other.answer.state == FilterState::working; });
  if (jobs_.size() >= jobs_kept) jobs_.pop_front();
  jobs_.push_back(std::move(job));
  return jobs_.back();
}

desk::FilterAnswer LocalFilter::ask(const std::shared_ptr<const desk::Look>& look, Instant now) { return job_of(look, now).answer; }

desk::FilterAnswer LocalFilter::cancel(const std::shared_ptr<const desk::Look>& look, Instant now) {
  Job& job = job_of(look, now);
  if (job.answer.state == FilterState::working) job.answer.state = FilterState::cancelled;
  return job.answer;
}

desk::FilterAnswer LocalFilter::start(const std::shared_ptr<const desk::Look>& look, Instant now) {
  Job& job = job_of(look, now);
  if (job.answer.state == FilterState::cancelled || job.answer.state == FilterState::failed) job.answer = {FilterState::working, 0.0, {}};
  return job.answer;
}

bool LocalFilter::step() {
  if (jobs_.empty() || jobs_.back().answer.state != FilterState::working) return false;
  Job& job = jobs_.back();
  // Stopped within a sitting the work on it would be lost: it stops at the first word that a further sitting is taken in.
  std::optional<double> from;
  const auto result = worker_.outlook(*job.look, job.now, [&](double done) {
    if (!from) from = done;
    job.answer.done_fraction = done;
    return done <= *from;
  });
  using enum desk::FilterWorker::Result::End;
  if (result.end == stopped) return true;
  job.answer = {result.end == done ? FilterState::ready : result.end == nothing_to_foretell ? FilterState::absent : FilterState::failed, 1.0, result.outlook};
  return true;
}

}  // namespace redd::engine
