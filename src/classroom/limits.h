#pragma once
// How often something may be asked or tried from one address, and by all together. Values; time is given, in whole seconds.
// Start at Questions and Tries.

#include <chrono>
#include <cstdint>
#include <deque>
#include <map>
#include <string>

#include "quantities/time.h"

namespace redd::classroom {

/// A bucket of tokens: so many at once, so many a second.
class Bucket {
 public:
  Bucket(double most, double per_second) : most_(most), per_second_(per_second), left_(most) {}
  /// Takes one; false when there is none.
  bool take(Instant now);
  bool is_full(Instant now) const;

 private:
  double left_at(Instant now) const;
  double most_, per_second_, left_;
  Instant seen_{};
};

/// Questions of any kind. Assumed: a page that opens asks some twenty, and a class behind one address opens thirty at once.
class Questions {
 public:
  /// Seconds to wait before asking again; 0: it may be asked now, and is counted.
  std::chrono::seconds wait(const std::string& address, Instant now);

 private:
  std::map<std::string, Bucket> of_address_{};
  Bucket of_all_{2000, 100};
};

/// Wrong passphrases and codes. After five from one address each further one doubles the wait, from 10 seconds to 15 minutes; an hour without one
/// forgets them. All addresses together have sixty in ten minutes. A right one forgets nothing: a pupil with a code must not guess on at the passphrase.
class Tries {
 public:
  /// How long this address has to wait before it may try; 0: now.
  std::chrono::seconds wait(const std::string& address, Instant now);
  /// Counts a wrong one. Out: whether a wait begins with it.
  bool failed(const std::string& address, Instant now);

  static constexpr int free_tries = 5;
  static constexpr std::size_t most_of_all = 60;
  static constexpr std::chrono::minutes time_of_all{10};
  static constexpr std::chrono::seconds first_wait{10}, longest_wait{900};
  static constexpr std::chrono::hours memory{1};

 private:
  struct Past {
    int wrong = 0;
    Instant last{};
    Instant next{};  ///< when it may be tried again
  };
  void forget(Instant now);
  std::map<std::string, Past> of_address_{};
  std::deque<Instant> of_all_{};
};

/// Whether an IPv4 address lies in a network that no router carries on the open internet, or is this machine.
/// Source  Private and link-local ranges: RFC 1918, RFC 3927; loopback: RFC 1122. From memory.
bool is_local_address(std::uint32_t ipv4);

}  // namespace redd::classroom
