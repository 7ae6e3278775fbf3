# Fetches the pinned chart scripts into a folder of the build and makes them fit to stand inside a page.
#   cmake -D SOURCE_DIR=<this folder> -D WORK_DIR=<folder in the build> -D NPM=<npm> -P prepare.cmake
# Writes vega.js, vega_lite.js and notices.txt into WORK_DIR.
cmake_minimum_required(VERSION 3.25)

foreach(file package.json package-lock.json .npmrc)
  configure_file(${SOURCE_DIR}/${file} ${WORK_DIR}/${file} COPYONLY)
endforeach()

# The quiet log level leaves out npm's remark that a package asks for a newer node: nothing here runs in node.
execute_process(
  COMMAND ${NPM} ci --ignore-scripts --no-audit --no-fund --no-bin-links --loglevel=error
  WORKING_DIRECTORY ${WORK_DIR}
  RESULT_VARIABLE failed OUTPUT_QUIET ERROR_VARIABLE words)
if(failed)
  message(FATAL_ERROR
    "npm could not fetch the chart scripts that ${SOURCE_DIR}/package-lock.json pins:\n${words}\n"
    "The first build needs a package registry that npm can reach; a mirror is set with 'npm config set registry'.")
endif()

set(modules ${WORK_DIR}/node_modules)

# Inside a page, "</script" ends the script and "<!--" changes how the rest of it is read, even within a string. With a
# backslash the string means the same. The source map's address is dropped: a pack asks for no other file.
function(write_page_safe from to)
  file(READ ${from} text)
  string(REPLACE "</script" "<\\/script" text "${text}")
  string(REPLACE "<!--" "<\\!--" text "${text}")
  string(REGEX REPLACE "//# sourceMappingURL=[^\n]*\n?" "" text "${text}")
  file(WRITE ${to} "${text}")
endfunction()

# Every package whose code is inside the two scripts: the dependencies of both, without what serves only their command
# lines and without type declarations.
set(not_bundled yargs commander iconv-lite rw vega-typings)
function(collect_bundled package)
  get_property(seen GLOBAL PROPERTY bundled_packages)
  if(package IN_LIST seen OR package IN_LIST not_bundled OR package MATCHES "^@types/")
    return()
  endif()
  set_property(GLOBAL APPEND PROPERTY bundled_packages ${package})
  file(READ ${modules}/${package}/package.json description)
  string(JSON dependencies ERROR_VARIABLE none GET "${description}" dependencies)
  if(none)
    return()
  endif()
  string(JSON count LENGTH "${dependencies}")
  if(count EQUAL 0)
    return()
  endif()
  math(EXPR last "${count} - 1")
  foreach(index RANGE ${last})
    string(JSON dependency MEMBER "${dependencies}" ${index})
    collect_bundled(${dependency})
  endforeach()
endfunction()

function(write_notices to)
  collect_bundled(vega)
  collect_bundled(vega-lite)
  get_property(packages GLOBAL PROPERTY bundled_packages)
  list(SORT packages)
  set(hashes "")
  foreach(package IN LISTS packages)
    file(READ ${modules}/${package}/package.json description)
    string(JSON version GET "${description}" version)
    string(JSON licence GET "${description}" license)
    file(GLOB licence_files ${modules}/${package}/LICENSE* ${modules}/${package}/LICENCE* ${modules}/${package}/license*)
    if(NOT licence_files)
      message(FATAL_ERROR "${package} ships no licence text; see what it should be and extend ${CMAKE_CURRENT_LIST_FILE}")
    endif()
    list(GET licence_files 0 licence_file)
    file(READ ${licence_file} text)
    string(STRIP "${text}" text)
    string(SHA256 hash "${text}")
    if(NOT hash IN_LIST hashes)
      list(APPEND hashes ${hash})
      set(text_${hash} "${text}")
    endif()
    string(APPEND names_${hash} "${package} ${version} (${licence})\n")
  endforeach()
  set(notices "")
  foreach(hash IN LISTS hashes)
    string(APPEND notices "${names_${hash}}\n${text_${hash}}\n\n----\n\n")
  endforeach()
  file(WRITE ${to} "${notices}")
endfunction()

write_page_safe(${modules}/vega/build/vega.min.js ${WORK_DIR}/vega.js)
write_page_safe(${modules}/vega-lite/build/vega-lite.min.js ${WORK_DIR}/vega_lite.js)
write_notices(${WORK_DIR}/notices.txt)
