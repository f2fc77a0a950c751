#include "server/day_keeper.h"

#include <algorithm>

namespace redd::server {
namespace {

/// Some 200 kB each. Assumed: two languages and units on the newest day, and a few days of a story that a class slides through.
constexpr std::size_t days_kept = 12;

}  // namespace

std::shared_ptr<DayKeeper::Kept> DayKeeper::find(const desk::DayQuestion& asked) const {
  const auto found = std::ranges::find_if(kept_, [&](const auto& one) { return one->asked.same_as(asked); });
  return found == kept_.end() ? nullptr : *found;
}

void DayKeeper::forget(const std::shared_ptr<Kept>& one) {
  const std::lock_guard lock(mutex_);
  std::erase(kept_, one);
  changed_.notify_all();
}

Result<std::string> DayKeeper::day(const desk::DayQuestion& asked, const Make& make) {
  std::shared_ptr<Kept> own;
  {
    std::unique_lock lock(mutex_);
    // What another thread gave up is worked out here.
    for (auto known = find(asked); known; known = find(asked)) {
      if (known->text) return *known->text;
      changed_.wait(lock, [&] { return known->text || find(asked) != known; });
      if (known->text) return *known->text;
    }
    if (kept_.size() >= days_kept) {
      const auto done = std::ranges::find_if(kept_, [](const auto& one) { return one->text != nullptr; });
      if (done != kept_.end()) kept_.erase(done);
    }
    own = std::make_shared<Kept>(Kept{asked});
    kept_.push_back(own);
  }
  // Whatever goes wrong, nobody is left waiting.
  struct Given {
    DayKeeper& keeper;
    std::shared_ptr<Kept> one;
    ~Given() {
      if (one) keeper.forget(one);
    }
  } given{*this, own};
  auto made = make();
  if (!made) return made;
  auto text = std::make_shared<const std::string>(*made);
  {
    const std::lock_guard lock(mutex_);
    own->text = std::move(text);
    given.one = nullptr;
    changed_.notify_all();
  }
  return made;
}

}  // namespace redd::server
