// wasm/exports.cpp
// The core as the browser sees it: reserve memory, ask one question in JSON, give the memory back.
//   const at = redd_alloc(length); copy the text to at; const reply = redd_call(at, length);
//   the reply is a 32-bit little-endian length followed by that many bytes of JSON; redd_free both when done.

#include <cstdint>
#include <cstdlib>
#include <cstring>
#include <string>

#include "engine/page_engine.h"

#define REDD_EXPORT(name) extern "C" __attribute__((export_name(#name)))

/// Memory for `length` bytes; never null (the module traps when memory is gone and is then started anew).
REDD_EXPORT(redd_alloc) void* redd_alloc(std::uint32_t length) {
  void* memory = std::malloc(length > 0 ? length : 1);
  if (memory == nullptr) __builtin_trap();
  return memory;
}

REDD_EXPORT(redd_free) void redd_free(void* memory) { std::free(memory); }

/// The answer to the question of `length` bytes at `question`, length first; the caller frees it.
REDD_EXPORT(redd_call) void* redd_call(const char* question, std::uint32_t length) {
  // The page's season between two questions. A page that wants another one, or a trapped module, begins a new instance.
  static redd::engine::PageEngine engine;
  const std::string text = engine.answer({question, length});
  const auto size = static_cast<std::uint32_t>(text.size());
  auto* reply = static_cast<char*>(redd_alloc(size + sizeof size));
  std::memcpy(reply, &size, sizeof size);
  std::memcpy(reply + sizeof size, text.data(), size);
  return reply;
}
