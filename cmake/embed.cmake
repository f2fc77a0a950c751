# redd_embed(target "served/prefix=folder or file"...)
#   Puts files into the program: one .incbin each in an assembler file, and a table of path, type, hash and bytes that
#   src/assets/assets.h reads. Each file is also kept compressed, by gzip and by Brotli, where that is smaller. Paths that do not exist
#   yet give an empty table, so the program builds without them.
function(redd_embed target)
  set(entries "")
  set(files "")
  foreach(pair IN LISTS ARGN)
    string(REGEX MATCH "^([^=]+)=(.+)$" _ "${pair}")
    set(prefix ${CMAKE_MATCH_1})
    set(root ${PROJECT_SOURCE_DIR}/${CMAKE_MATCH_2})
    if(IS_DIRECTORY ${root})
      file(GLOB_RECURSE found CONFIGURE_DEPENDS RELATIVE ${root} ${root}/*)
      list(SORT found)
      foreach(name IN LISTS found)
        string(APPEND entries "${prefix}/${name}\t${root}/${name}\n")
        list(APPEND files ${root}/${name})
      endforeach()
    else()
      file(GLOB found CONFIGURE_DEPENDS ${root} ${root}/*)
      if(found)
        string(APPEND entries "${prefix}\t${root}\n")
        list(APPEND files ${root})
      endif()
    endif()
  endforeach()

  set(folder ${PROJECT_BINARY_DIR}/generated/embedded)
  file(CONFIGURE OUTPUT ${folder}/entries.txt CONTENT "${entries}" @ONLY)
  add_custom_command(
    OUTPUT ${folder}/embedded.S ${folder}/embedded.cpp
    COMMAND ${CMAKE_COMMAND} -DENTRIES=${folder}/entries.txt -DOUT=${folder}
            -P ${PROJECT_SOURCE_DIR}/cmake/embed_files.cmake
    DEPENDS ${folder}/entries.txt ${files} ${PROJECT_SOURCE_DIR}/cmake/embed_files.cmake
    COMMENT "Packing the page and the data files into the program"
    VERBATIM)
  target_sources(${target} PRIVATE ${folder}/embedded.S ${folder}/embedded.cpp)
endfunction()
