#include "secrets/random.h"

#include <sodium.h>

#include "classroom/codes.h"
#include "quantities/result.h"

namespace redd::secrets {
namespace {

void ready() {
  static const bool can = sodium_init() >= 0;
  require(can, "secrets", "this system gives no randomness");
}

}  // namespace

std::string new_token() {
  ready();
  unsigned char bytes[32];
  randombytes_buf(bytes, sizeof bytes);
  constexpr auto variant = sodium_base64_VARIANT_URLSAFE_NO_PADDING;
  std::string token(sodium_base64_ENCODED_LEN(sizeof bytes, variant), '\0');
  sodium_bin2base64(token.data(), token.size(), bytes, sizeof bytes, variant);
  token.pop_back();  // the NUL
  return token;
}

std::string new_code() {
  ready();
  std::string code;
  while (code.size() < classroom::code_length) code += classroom::code_signs[randombytes_uniform(static_cast<std::uint32_t>(classroom::code_signs.size()))];
  return code;
}

classroom::Digest digest_of(std::string_view word) {
  ready();
  static const auto key = [] {
    std::array<unsigned char, crypto_generichash_KEYBYTES> made;
    crypto_generichash_keygen(made.data());
    return made;
  }();
  classroom::Digest digest;
  crypto_generichash(digest.data(), digest.size(), reinterpret_cast<const unsigned char*>(word.data()), word.size(), key.data(), key.size());
  return digest;
}

}  // namespace redd::secrets
