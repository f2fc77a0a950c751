#include "classroom/limits.h"

#include <algorithm>

namespace redd::classroom {
namespace {

/// So many addresses are remembered; a school network has fewer devices.
constexpr std::size_t most_addresses = 4096;
constexpr double burst_of_one = 600, per_second_of_one = 20;

}  // namespace

double Bucket::left_at(Instant now) const {
  // A clock that was set back refills nothing and goes on from there.
  const auto passed = std::max<std::int64_t>(0, (now - seen_).count());
  return std::min(most_, left_ + static_cast<double>(passed) * per_second_);
}

bool Bucket::take(Instant now) {
  left_ = left_at(now);
  seen_ = now;
  if (left_ < 1) return false;
  left_ -= 1;
  return true;
}

bool Bucket::is_full(Instant now) const { return left_at(now) >= most_; }

std::chrono::seconds Questions::wait(const std::string& address, Instant now) {
  auto found = of_address_.find(address);
  if (found == of_address_.end()) {
    if (of_address_.size() >= most_addresses) std::erase_if(of_address_, [&](const auto& each) { return each.second.is_full(now); });
    if (of_address_.size() >= most_addresses) return std::chrono::seconds(5);
    found = of_address_.try_emplace(address, burst_of_one, per_second_of_one).first;
  }
  // Its own bucket first: who asks too much takes nothing from the others.
  if (!found->second.take(now)) return std::chrono::seconds(2);
  return of_all_.take(now) ? std::chrono::seconds(0) : std::chrono::seconds(2);
}

void Tries::forget(Instant now) {
  std::erase_if(of_address_, [&](const auto& each) { return now >= each.second.next && now - each.second.last >= memory; });
  while (!of_all_.empty() && now - of_all_.front() >= time_of_all) of_all_.pop_front();
}

std::chrono::seconds Tries::wait(const std::string& address, Instant now) {
  forget(now);
  std::chrono::seconds longest(0);
  if (const auto found = of_address_.find(address); found != of_address_.end()) longest = std::clamp(found->second.next - now, longest, longest_wait);
  if (of_all_.size() >= most_of_all) longest = std::max(longest, std::clamp<std::chrono::seconds>(of_all_.front() + time_of_all - now, std::chrono::seconds(1), time_of_all));
  return longest;
}

bool Tries::failed(const std::string& address, Instant now) {
  forget(now);
  of_all_.push_back(now);
  if (of_all_.size() > most_of_all) of_all_.pop_front();
  // At most sixty in ten minutes get here, each kept for an hour or a wait of a quarter: the map can't grow without end.
  Past& past = of_address_[address];
  ++past.wrong;
  past.last = now;
  if (past.wrong < free_tries) return of_all_.size() >= most_of_all;
  const int doublings = std::min(past.wrong - free_tries, 7);
  past.next = now + std::min<std::chrono::seconds>(first_wait * (1 << doublings), longest_wait);
  return true;
}

bool is_local_address(std::uint32_t ipv4) {
  const auto in = [&](std::uint32_t network, int bits) { return ipv4 >> (32 - bits) == network >> (32 - bits); };
  return in(0x0a000000, 8) || in(0xac100000, 12) || in(0xc0a80000, 16) || in(0xa9fe0000, 16) || in(0x7f000000, 8);
}

}  // namespace redd::classroom
