# Run by redd_embed: reads ENTRIES (served path, tab, file) and writes OUT/embedded.S and OUT/embedded.cpp.
cmake_minimum_required(VERSION 3.25)

set(type_html "text/html; charset=utf-8")
set(type_js "text/javascript; charset=utf-8")
set(type_css "text/css; charset=utf-8")
set(type_json "application/json")
set(type_svg "image/svg+xml")
set(type_png "image/png")
set(type_ico "image/x-icon")
set(type_webmanifest "application/manifest+json")
set(type_wasm "application/wasm")
set(type_woff2 "font/woff2")
set(type_txt "text/plain; charset=utf-8")
set(type_csv "text/csv; charset=utf-8")
set(type_toml "application/toml")
set(type_md "text/markdown; charset=utf-8")

set(assembler "/* Written by the build; do not edit. */\n    .section .rodata\n")
set(declarations "")
set(rows "")
set(number 0)

# Adds one blob to the assembler file; its hash as a comment makes a changed file change the assembler file too.
function(add_blob symbol file)
  file(SHA256 "${file}" hash)
  string(APPEND assembler
    "\n    /* ${hash} */\n    .global ${symbol}\n    .balign 16\n${symbol}:\n    .incbin \"${file}\"\n    .byte 0\n")
  string(APPEND declarations "extern \"C\" const std::byte ${symbol}[];\n")
  set(assembler "${assembler}" PARENT_SCOPE)
  set(declarations "${declarations}" PARENT_SCOPE)
endfunction()

# Compresses the file in hand by a command; <ending>_cell says where the result stands, {} where it is no smaller.
macro(add_packed ending)
  set(${ending}_cell "{}")
  set(packed "${OUT}/packed_${number}.${ending}")
  execute_process(COMMAND ${ARGN} OUTPUT_FILE "${packed}" COMMAND_ERROR_IS_FATAL ANY)
  file(SIZE "${packed}" packed_size)
  if(packed_size LESS size)
    add_blob(redd_embedded_${number}_${ending} "${packed}")
    set(${ending}_cell "{redd_embedded_${number}_${ending}, ${packed_size}}")
  endif()
endmacro()

file(STRINGS "${ENTRIES}" entries ENCODING UTF-8)
foreach(entry IN LISTS entries)
  string(REGEX MATCH "^([^\t]+)\t(.+)$" _ "${entry}")
  set(path "${CMAKE_MATCH_1}")
  set(file "${CMAKE_MATCH_2}")
  cmake_path(GET path EXTENSION LAST_ONLY extension)
  string(SUBSTRING "${extension}." 1 -1 extension)
  string(REGEX REPLACE "\\.$" "" extension "${extension}")
  set(type "application/octet-stream")
  if(extension AND DEFINED type_${extension})
    set(type "${type_${extension}}")
  endif()

  file(SIZE "${file}" size)
  file(SHA256 "${file}" hash)
  add_blob(redd_embedded_${number} "${file}")

  add_packed(gz gzip -9nc "${file}")
  add_packed(br brotli -q 11 -c "${file}")
  string(APPEND rows
    "    Asset{\"${path}\", \"${type}\", \"${hash}\", {redd_embedded_${number}, ${size}}, ${gz_cell}, ${br_cell}},\n")
  math(EXPR number "${number} + 1")
endforeach()

string(APPEND assembler "\n    .section .note.GNU-stack,\"\",%progbits\n")
file(WRITE "${OUT}/embedded.S" "${assembler}")
file(WRITE "${OUT}/embedded.cpp"
"// Written by the build; do not edit. The files packed into the program, sorted by path within each folder.
#include <array>

#include \"assets/assets.h\"

${declarations}
namespace redd::assets {

std::span<const Asset> all_assets() {
  static const std::array<Asset, ${number}> table{{
${rows}  }};
  return table;
}

}  // namespace redd::assets
")
