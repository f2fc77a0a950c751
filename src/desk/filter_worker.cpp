#include "desk/filter_worker.h"

#include <algorithm>

namespace redd::desk {

FilterWorker::Result FilterWorker::outlook(const Look& look, Instant now, const KeepGoing& keep_going) {
  using enum Result::End;
  const auto asked = season::filter_asked({look.zone}, look.records, now);
  if (!asked) return {failed};
  if (!*asked) return {nothing_to_foretell};
  const season::FilterAsked& question = **asked;
  *asks_ = keep_going;
  inference::SmcSettings settings = planning::filter_settings(question.season);
  settings.workers = workers_;
  settings.keep_going = [asks = asks_](double done) { return !*asks || (*asks)(done); };
  auto found = latest_ ? latest_->updated(question.case_now.season) : inference::FilterPosterior::of(question.case_now.season, settings);
  *asks_ = {};
  const bool complete = found.complete();
  latest_ = std::move(found);  // also half done: the next one goes on from there
  if (!complete) return {stopped};
  const auto outlook = planning::filter_outlook(question.season, question.belief, question.case_now, *latest_, look.zone, workers_);
  if (!outlook) return {failed};
  return {done, std::make_shared<planning::FilterOutlook>(*outlook)};
}

bool same_filter_question(const Look& one, Instant one_now, const Look& other, Instant other_now) {
  const auto known = [](const Look& look, Instant at) {
    return std::ranges::count_if(look.records, [&](const records::Record& r) { return r.logged_at <= at && r.entry.at <= at; });
  };
  return one.records.size() == other.records.size() && std::chrono::floor<std::chrono::hours>(one_now) == std::chrono::floor<std::chrono::hours>(other_now) &&
         known(one, one_now) == known(other, other_now);
}

}  // namespace redd::desk
