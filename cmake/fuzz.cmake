# One program fuzz_<stem> for each tests/fuzz/<stem>_fuzz.cpp. A line of its own "// links: intake wire" near its top
# names the folders it links, so that the checked build compiles no more than it must.
if(NOT CMAKE_CXX_COMPILER_ID STREQUAL "Clang")
  message(FATAL_ERROR "The fuzz targets need clang: use the preset 'fuzz'.")
endif()

# The socket layer is not fuzzed (requests are handed to the handlers as values), and checked it takes minutes to compile.
set_source_files_properties(${PROJECT_SOURCE_DIR}/src/server/serve.cpp PROPERTIES COMPILE_OPTIONS "-O0;-fno-sanitize=all")

file(GLOB files CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/tests/fuzz/*_fuzz.cpp)
set(programs "")
foreach(file IN LISTS files)
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${file})
  cmake_path(GET file STEM stem)
  string(REGEX REPLACE "_fuzz$" "" stem ${stem})
  file(STRINGS ${file} line REGEX "^// links: " LIMIT_COUNT 1)
  if(NOT line)
    message(FATAL_ERROR "${file} needs a line \"// links: folder...\" of its own.")
  endif()
  string(REGEX REPLACE "^// links: " "" folders "${line}")
  separate_arguments(folders)
  list(TRANSFORM folders PREPEND redd_)

  add_executable(fuzz_${stem} EXCLUDE_FROM_ALL ${file})
  target_link_libraries(fuzz_${stem} PRIVATE ${folders})
  target_link_options(fuzz_${stem} PRIVATE -fsanitize=fuzzer,address,undefined)
  list(APPEND programs fuzz_${stem})
endforeach()
add_custom_target(fuzz DEPENDS ${programs})
