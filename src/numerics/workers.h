#pragma once
// How work over many independent items is shared out, without this library knowing threads: a caller that has
// threads hands in its own Workers, all others use SerialWorkers. Items must not depend on one another, and their results are the same
// whoever does them, so an answer never depends on the number of threads.

#include <cstddef>
#include <type_traits>

namespace redd::numerics {

class Workers {
 public:
  /// One item of work: a plain function and the data it works on.
  using Item = void (*)(void* data, std::size_t index);

  virtual ~Workers() = default;
  /// Calls item(data, 0) ... item(data, count - 1), each exactly once, in any order; returns when all are done.
  virtual void run(std::size_t count, Item item, void* data) = 0;

  /// The same for any callable: for_each(n, [&](std::size_t i) {...}).
  template <class F>
  void for_each(std::size_t count, F&& f) {
    using Function = std::remove_reference_t<F>;
    run(count, [](void* data, std::size_t index) { (*static_cast<Function*>(data))(index); },
        const_cast<void*>(static_cast<const void*>(&f)));
  }

 protected:
  Workers() = default;
  Workers(const Workers&) = default;
  Workers& operator=(const Workers&) = default;
};

/// One after the other on the caller's own thread.
class SerialWorkers final : public Workers {
 public:
  void run(std::size_t count, Item item, void* data) override {
    for (std::size_t i = 0; i < count; ++i) item(data, i);
  }
};

}  // namespace redd::numerics
