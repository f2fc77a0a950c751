# Compiles for the browser with Debian's clang, lld, wasi-libc and libc++; no other kit is needed.
set(CMAKE_SYSTEM_NAME Generic)
set(CMAKE_SYSTEM_PROCESSOR wasm32)
find_program(WASM_CLANG NAMES clang++-22 REQUIRED)
set(CMAKE_CXX_COMPILER ${WASM_CLANG})
set(CMAKE_ASM_COMPILER ${WASM_CLANG})
set(CMAKE_CXX_COMPILER_TARGET wasm32-wasi)
set(CMAKE_ASM_COMPILER_TARGET wasm32-wasi)
set(CMAKE_TRY_COMPILE_TARGET_TYPE STATIC_LIBRARY)
find_program(WASM_AR NAMES llvm-ar-22 REQUIRED)
find_program(WASM_RANLIB NAMES llvm-ranlib-22 REQUIRED)
set(CMAKE_AR ${WASM_AR})
set(CMAKE_RANLIB ${WASM_RANLIB})
set(CMAKE_FIND_ROOT_PATH_MODE_LIBRARY NEVER)

# -Wno-deprecated: Debian's headers live under the target's old name, which clang-22 warns about.
set(CMAKE_CXX_FLAGS_INIT "-Wno-deprecated -fno-exceptions -fno-rtti")
