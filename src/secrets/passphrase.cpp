#include "secrets/passphrase.h"

#include <sodium.h>

#include <algorithm>
#include <set>

namespace redd::secrets {

Problems problems_of_passphrase(std::string_view passphrase) {
  const auto signs = static_cast<std::size_t>(std::ranges::count_if(passphrase, [](unsigned char c) { return (c & 0xc0) != 0x80; }));
  if (signs < shortest_passphrase)
    return {{"too_short", "passphrase", said("The passphrase has {0, plural, one {# character} other {# characters}}; it takes at least {1}. Four words that do not belong together are good and easy to remember.", signs, shortest_passphrase)}};
  if (passphrase.size() > longest_passphrase_bytes)
    return {{"too_long", "passphrase", said("The passphrase is longer than {0} bytes.", longest_passphrase_bytes)}};
  if (std::ranges::any_of(passphrase, [](unsigned char c) { return c < 0x20 || c == 0x7f; }))
    return {{"bad_sign", "passphrase", "The passphrase holds a character that not every keyboard can type, such as a tab or the end of a line."}};
  if (std::set<char>(passphrase.begin(), passphrase.end()).size() < 4)
    return {{"too_simple", "passphrase", "The passphrase has hardly two different characters. Four words that do not belong together are good and easy to remember."}};
  return {};
}

Result<std::string> hash_of_passphrase(const std::string& passphrase, HashCost cost) {
  require(sodium_init() >= 0, "hash_of_passphrase", "this system gives no randomness");
  char hash[crypto_pwhash_STRBYTES] = {};
  if (crypto_pwhash_str_alg(hash, passphrase.data(), passphrase.size(), cost.passes, cost.bytes, crypto_pwhash_ALG_ARGON2ID13) != 0)
    return Problem{"no_memory", "", said("There is not enough memory for the passphrase's hash ({0} MiB). Close other programs, then try again.", cost.bytes >> 20)};
  return std::string(hash);
}

bool is_passphrase_of(const std::string& hash, const std::string& passphrase) {
  require(sodium_init() >= 0, "is_passphrase_of", "this system gives no randomness");
  // The library reads a fixed length.
  char kept[crypto_pwhash_STRBYTES] = {};
  if (hash.size() >= sizeof kept || passphrase.size() > longest_passphrase_bytes) return false;
  std::ranges::copy(hash, kept);
  return crypto_pwhash_str_verify(kept, passphrase.data(), passphrase.size()) == 0;
}

}  // namespace redd::secrets
