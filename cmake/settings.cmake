# Language, warnings and floating point, the same for every target.
set(CMAKE_CXX_STANDARD 20)
set(CMAKE_CXX_STANDARD_REQUIRED ON)
set(CMAKE_CXX_EXTENSIONS OFF)
set(CMAKE_EXPORT_COMPILE_COMMANDS ON)
set(CMAKE_RUNTIME_OUTPUT_DIRECTORY ${PROJECT_BINARY_DIR}/bin)

add_compile_options($<$<COMPILE_LANGUAGE:CXX>:-Wall> $<$<COMPILE_LANGUAGE:CXX>:-Wextra>)
option(REDD_WARNINGS_ARE_ERRORS "Stop at a compiler warning" ON)
if(REDD_WARNINGS_ARE_ERRORS)
  add_compile_options($<$<COMPILE_LANGUAGE:CXX>:-Werror>)
endif()
# GCC's std::stable_sort uses a buffer that its own header calls deprecated; only clang reports it, at our line.
add_compile_options($<$<COMPILE_LANG_AND_ID:CXX,Clang>:-Wno-deprecated-declarations>)

# GCC 12 sees overlapping copies in joined strings where there are none (its bug 105651).
add_compile_options($<$<COMPILE_LANG_AND_ID:CXX,GNU>:-Wno-restrict>)

# No fused multiply-add, so that the native program and the browser module agree to the last digits;
# nobody reads errno after a mathematical function, and saying so lets the compiler inline them.
add_compile_options($<$<COMPILE_LANGUAGE:CXX>:-ffp-contract=off> $<$<COMPILE_LANGUAGE:CXX>:-fno-math-errno>)

find_program(CCACHE_PROGRAM ccache)
if(CCACHE_PROGRAM AND NOT CMAKE_CXX_COMPILER_LAUNCHER)
  set(CMAKE_CXX_COMPILER_LAUNCHER ${CCACHE_PROGRAM})
endif()

# Colour in the compiler's messages although Ninja collects them.
add_compile_options($<$<COMPILE_LANG_AND_ID:CXX,GNU>:-fdiagnostics-color=auto>)

# Header-only libraries the core may use. In the browser build /usr/include must stay out of sight (it holds the
# machine's own C library), so the few headers needed are linked into a folder of their own.
if(REDD_WASM)
  set(borrowed ${CMAKE_BINARY_DIR}/borrowed_headers)
  file(MAKE_DIRECTORY ${borrowed})
  file(CREATE_LINK /usr/include/nlohmann ${borrowed}/nlohmann SYMBOLIC)
  include_directories(SYSTEM ${borrowed})
  # The library's own checks trap, as ours do; with their words they would carry the path of this folder into the module.
  add_compile_options("-DJSON_ASSERT(condition)=((condition)?void(0):__builtin_trap())")
endif()
