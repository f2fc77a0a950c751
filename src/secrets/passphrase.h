#pragma once
// The keeper's passphrase: what makes a good one, and its hash. Start at hash_of_passphrase().

#include <string>
#include <string_view>

#include "quantities/result.h"

namespace redd::secrets {

/// What hashing one passphrase takes.
struct HashCost {
  unsigned long long passes = 3;
  std::size_t bytes = 64 << 20;  ///< of memory, while it lasts
};

/// Assumed: twelve signs, four of them different, are what a class can't guess in the tries it has (classroom/limits.h).
inline constexpr std::size_t shortest_passphrase = 12;
inline constexpr std::size_t longest_passphrase_bytes = 1024;

/// Why this may not be the passphrase; empty when it may.
Problems problems_of_passphrase(std::string_view passphrase);

/// Argon2id with its salt and cost in one line of text, ready to be kept.
///
/// Source  3 passes over 64 MiB: RFC 9106, section 4, second choice, with one lane as the library has. From memory.
/// Errors  no_memory.
Result<std::string> hash_of_passphrase(const std::string& passphrase, HashCost cost = {});

/// Whether it is the passphrase of this hash. Takes as long and as much memory as the hash's cost says: one at a time is the caller's affair.
bool is_passphrase_of(const std::string& hash, const std::string& passphrase);

}  // namespace redd::secrets
