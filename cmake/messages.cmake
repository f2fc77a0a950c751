# redd_messages(PO file HEADER header)
#   Writes generated/<HEADER> from a translation catalogue: one line REDD_MESSAGE("English", "translation") an entry. Strings of
#   the catalogue are written as in C++, so they go over as they are.
function(redd_messages)
  cmake_parse_arguments(PARSE_ARGV 0 arg "" "PO;HEADER" "")
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/${arg_PO})
  file(READ ${PROJECT_SOURCE_DIR}/${arg_PO} text)
  string(REGEX REPLACE "(^|\n)#[^\n]*" "" text "${text}")
  string(REGEX REPLACE "msgid \"\"\nmsgstr \"\"(\n\"[^\n]*\")*" "" text "${text}")
  string(REGEX REPLACE "msgid (\"[^\n]*\")\nmsgstr (\"[^\n]*\")" "REDD_MESSAGE(\\1, \\2)" text "${text}")
  file(CONFIGURE OUTPUT ${PROJECT_BINARY_DIR}/generated/${arg_HEADER} CONTENT "// Written by the build from ${arg_PO}; do not edit.\n@text@\n" @ONLY)
endfunction()

# The table is sorted while compiling; Clang allows fewer steps for that than GCC unless told.
if(CMAKE_CXX_COMPILER_ID MATCHES Clang)
  set_source_files_properties(${PROJECT_SOURCE_DIR}/src/report/catalogue.cpp PROPERTIES COMPILE_OPTIONS -fconstexpr-steps=200000000)
endif()
