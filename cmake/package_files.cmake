# Run while installing: the files that the program writes about itself, and the changelogs, below OUT/share.
# In  REDD: the program.  SOURCE: top of the tree.  VERSION, CONTACT: of the package.
set(share ${OUT}/share)
file(REMOVE_RECURSE ${OUT})
string(TIMESTAMP day "%Y-%m-%d" UTC)  # of SOURCE_DATE_EPOCH, if that is set
string(TIMESTAMP moment "%a, %d %b %Y %H:%M:%S +0000" UTC)

function(run_redd)
  execute_process(COMMAND ${CMAKE_COMMAND} -E env --unset=REDD_LANGUAGE ${REDD} ${ARGN} COMMAND_ERROR_IS_FATAL ANY)
endfunction()
function(pack file)
  execute_process(COMMAND gzip -9n ${file} COMMAND_ERROR_IS_FATAL ANY)
endfunction()

run_redd(manual --into ${share}/man/man1 --date ${day})
run_redd(manual --into ${share}/man/es/man1 --date ${day} --language es)
file(GLOB pages ${share}/man/man1/*.1 ${share}/man/es/man1/*.1)
foreach(page IN LISTS pages)
  pack(${page})
endforeach()

foreach(pair IN ITEMS "bash=bash-completion/completions/redd" "zsh=zsh/vendor-completions/_redd" "fish=fish/vendor_completions.d/redd.fish")
  string(REGEX MATCH "^([a-z]+)=(.+)$" _ ${pair})
  set(file ${share}/${CMAKE_MATCH_2})
  cmake_path(GET file PARENT_PATH folder)
  file(MAKE_DIRECTORY ${folder})
  execute_process(COMMAND ${CMAKE_COMMAND} -E env --unset=REDD_LANGUAGE ${REDD} completion ${CMAKE_MATCH_1}
    OUTPUT_FILE ${file} COMMAND_ERROR_IS_FATAL ANY)
endforeach()

set(doc ${share}/doc/redd)
file(MAKE_DIRECTORY ${doc})
file(COPY_FILE ${SOURCE}/CHANGELOG.md ${doc}/changelog)
file(WRITE ${doc}/changelog.Debian
"redd (${VERSION}-1) unstable; urgency=low

  * Redd ${VERSION}, packed from its own sources. What users notice is in
    changelog.gz beside this file.

 -- ${CONTACT}  ${moment}
")
pack(${doc}/changelog)
pack(${doc}/changelog.Debian)
