#pragma once
// Threads for numerics::Workers: each run() is shared out over the processors of this machine. One pool serves one caller at a time; calls
// from several threads wait for each other.

#include <cstddef>
#include <memory>

#include "numerics/workers.h"

namespace redd::workers {

class Pool final : public numerics::Workers {
 public:
  /// thread_count: threads at work in a run(), the caller's own among them; 0 takes as many as the machine has processors.
  explicit Pool(std::size_t thread_count = 0);
  ~Pool() override;
  Pool(const Pool&) = delete;
  Pool& operator=(const Pool&) = delete;

  std::size_t thread_count() const;
  /// The item must not throw and must not call run() of the same pool.
  void run(std::size_t count, Item item, void* data) override;

 private:
  struct Shared;
  std::unique_ptr<Shared> shared_;
};

}  // namespace redd::workers
