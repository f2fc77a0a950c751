#pragma once
// Randomness that nobody can guess, and what is kept of what was made of it. Start at new_token().

#include <string>
#include <string_view>

#include "classroom/digest.h"

namespace redd::secrets {

/// 256 random bits as 43 signs that a cookie may carry.
std::string new_token();

/// A bench code, each sign as likely as the other.
std::string new_code();

/// Hash of a token or code under a key that lives as long as the program: what is in memory opens nothing elsewhere, and nothing later.
classroom::Digest digest_of(std::string_view word);

}  // namespace redd::secrets
