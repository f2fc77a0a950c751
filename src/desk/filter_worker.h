#pragma once
// Works out the filter's outlook, one after the other, each from where the one before had come to. Start at outlook().

#include <functional>

#include "desk/costly.h"
#include "inference/filter_posterior.h"
#include "numerics/workers.h"

namespace redd::desk {

class FilterWorker {
 public:
  /// In      workers: may share the work out; outlives this. Without it the work is done on the caller's thread.
  explicit FilterWorker(numerics::Workers* workers = nullptr) : workers_(workers) {}

  /// Told the share done now and then; false stops the work.
  using KeepGoing = std::function<bool(double done_fraction)>;

  struct Result {
    enum class End { done, nothing_to_foretell, stopped, failed };
    End end = End::failed;
    std::shared_ptr<const planning::FilterOutlook> outlook{};  ///< when done
  };
  /// One thread at a time. Stopped work is taken up again by the next call.
  Result outlook(const Look& look, Instant now, const KeepGoing& keep_going = {});

 private:
  numerics::Workers* workers_;
  std::optional<inference::FilterPosterior> latest_{};
  // The sampler keeps its question for ever, so what it asks is exchanged behind it.
  std::shared_ptr<KeepGoing> asks_ = std::make_shared<KeepGoing>();
};

/// Whether two looks at two moments have the same outlook: the same log and the same hour (inference::filter_case()).
bool same_filter_question(const Look& one, Instant one_now, const Look& other, Instant other_now);

}  // namespace redd::desk
