# redd_generate_list(FOLDER src/advice/rules HEADER advice/rules_list.inc)
#   Writes generated/<HEADER>: one line REDD_ITEM(stem) for each .cpp file in FOLDER, sorted by name. A new rule,
#   formula or species is then one new file; the registry beside it reads the list like this:
#
#     #define REDD_ITEM(name) Rule name();
#     #include "advice/rules_list.inc"     // declarations
#     #undef REDD_ITEM
function(redd_generate_list)
  cmake_parse_arguments(PARSE_ARGV 0 arg "" "FOLDER;HEADER" "")
  file(GLOB files CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/${arg_FOLDER}/*.cpp)
  set(stems "")
  foreach(file IN LISTS files)
    cmake_path(GET file STEM stem)
    list(APPEND stems ${stem})
  endforeach()
  list(SORT stems)
  set(text "// Written by the build from the file names in ${arg_FOLDER}; do not edit.\n")
  foreach(stem IN LISTS stems)
    string(APPEND text "REDD_ITEM(${stem})\n")
  endforeach()
  file(CONFIGURE OUTPUT ${PROJECT_BINARY_DIR}/generated/${arg_HEADER} CONTENT "${text}" @ONLY)
endfunction()
