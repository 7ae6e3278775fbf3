# A stranger's way to the library: install, find_package, link, run. Called by ctest with
#   PROJECT_DIR, BUILD_DIR (the finished build), WORK_DIR (emptied first) and COMPILER.
cmake_minimum_required(VERSION 3.25)

function(run_or_stop what)
  execute_process(COMMAND ${ARGN} RESULT_VARIABLE failed OUTPUT_VARIABLE words ERROR_VARIABLE words)
  if(failed)
    message(FATAL_ERROR "${what} failed (${failed}):\n${words}")
  endif()
  set(words "${words}" PARENT_SCOPE)
endfunction()

set(prefix ${WORK_DIR}/prefix)
file(REMOVE_RECURSE ${WORK_DIR})
run_or_stop("Installing" ${CMAKE_COMMAND} --install ${BUILD_DIR} --prefix ${prefix})
run_or_stop("Configuring the using program" ${CMAKE_COMMAND} -S ${CMAKE_CURRENT_LIST_DIR}/consumer -B ${WORK_DIR}/build -G Ninja
  -D CMAKE_BUILD_TYPE=Release -D CMAKE_CXX_COMPILER=${COMPILER} -D CMAKE_PREFIX_PATH=${prefix})
run_or_stop("Building the using program" ${CMAKE_COMMAND} --build ${WORK_DIR}/build)
run_or_stop("Running the using program" ${WORK_DIR}/build/consumer)
if(NOT words STREQUAL "measured\n")
  message(FATAL_ERROR "The using program should print 'measured' and printed '${words}'")
endif()

run_or_stop("Asking the installed program for its help" ${prefix}/bin/crushwright --help)
foreach(folder unit_cells base_materials)
  file(GLOB entries ${prefix}/share/crushwright/lattices/${folder}/*.yaml)
  if(NOT entries)
    message(FATAL_ERROR "No catalogue entry was installed into share/crushwright/lattices/${folder}")
  endif()
endforeach()

# An installed package file that still points into the source or the build folder works on this machine only.
file(GLOB_RECURSE package_files ${prefix}/*.cmake)
foreach(file IN LISTS package_files)
  file(READ ${file} text)
  foreach(folder ${BUILD_DIR} ${PROJECT_DIR})
    string(FIND "${text}" "${folder}" place)
    if(NOT place EQUAL -1)
      message(FATAL_ERROR "${file} mentions ${folder}")
    endif()
  endforeach()
endforeach()
