#include "workers/pool.h"

#include <algorithm>
#include <atomic>
#include <condition_variable>
#include <mutex>
#include <stop_token>
#include <thread>
#include <vector>

namespace redd::workers {

struct Pool::Shared {
  std::mutex one_caller;

  std::mutex mutex;
  std::condition_variable_any work_came, all_done;
  std::size_t round = 0;       // counts run() calls, so that a thread never takes part in one twice
  std::size_t still_busy = 0;  // threads that have not finished this round
  std::size_t count = 0;
  Item item = nullptr;
  void* data = nullptr;
  std::atomic<std::size_t> next = 0;

  std::vector<std::jthread> threads;  // last, so that they end before the rest goes

  void take_items() {
    for (std::size_t i = next.fetch_add(1); i < count; i = next.fetch_add(1)) item(data, i);
  }

  void serve(const std::stop_token& stop) {
    std::size_t seen = 0;
    std::unique_lock lock(mutex);
    while (work_came.wait(lock, stop, [&] { return round != seen; })) {
      seen = round;
      lock.unlock();
      take_items();
      lock.lock();
      if (--still_busy == 0) all_done.notify_one();
    }
  }
};

Pool::Pool(std::size_t thread_count) : shared_(std::make_unique<Shared>()) {
  if (thread_count == 0) thread_count = std::max(1u, std::thread::hardware_concurrency());
  Shared* shared = shared_.get();
  for (std::size_t i = 1; i < thread_count; ++i)
    shared_->threads.emplace_back([shared](const std::stop_token& stop) { shared->serve(stop); });
}

Pool::~Pool() = default;

std::size_t Pool::thread_count() const { return shared_->threads.size() + 1; }

void Pool::run(std::size_t count, Item item, void* data) {
  const std::lock_guard one_at_a_time(shared_->one_caller);
  {
    const std::lock_guard lock(shared_->mutex);
    shared_->count = count;
    shared_->item = item;
    shared_->data = data;
    shared_->next = 0;
    shared_->still_busy = shared_->threads.size();
    ++shared_->round;
  }
  shared_->work_came.notify_all();
  shared_->take_items();
  std::unique_lock lock(shared_->mutex);
  shared_->all_done.wait(lock, [&] { return shared_->still_busy == 0; });
}

}  // namespace redd::workers
