// wasm/runtime_stubs.cpp
// What Debian's libraries for the browser expect and do not bring. The core throws nothing, so a throw is a broken
// promise and traps; the page then starts the module anew.

#include <cstddef>
#include <cstdint>

extern "C" {

void* __cxa_allocate_exception(std::size_t) { __builtin_trap(); }
void __cxa_throw(void*, void*, void (*)(void*)) { __builtin_trap(); }
void __cxa_free_exception(void*) { __builtin_trap(); }

// Debian's compiler built-ins were compiled with the stack protector.
std::uintptr_t __stack_chk_guard = 0x5ead0f00;
[[noreturn]] void __stack_chk_fail() { __builtin_trap(); }
}
