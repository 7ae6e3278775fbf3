# Library browser_bundles: the chart scripts of the review pack, fetched once at build time (again when the lock file
# changes) and embedded in the program. Header: review_pack/browser_bundles.hpp.
find_program(CRUSHWRIGHT_NPM npm)
mark_as_advanced(CRUSHWRIGHT_NPM)
if(NOT CRUSHWRIGHT_NPM)
  message(FATAL_ERROR "npm was not found; it fetches the chart scripts of the review pack. Run scripts/setup.")
endif()

set(bundle_source ${PROJECT_SOURCE_DIR}/scripts/browser_bundles)
set(CRUSHWRIGHT_BUNDLE_DIR ${PROJECT_BINARY_DIR}/browser_bundles)
set(bundle_files ${CRUSHWRIGHT_BUNDLE_DIR}/vega.js ${CRUSHWRIGHT_BUNDLE_DIR}/vega_lite.js
                 ${CRUSHWRIGHT_BUNDLE_DIR}/notices.txt)

add_custom_command(
  OUTPUT ${bundle_files}
  COMMAND ${CMAKE_COMMAND} -D SOURCE_DIR=${bundle_source} -D WORK_DIR=${CRUSHWRIGHT_BUNDLE_DIR}
          -D NPM=${CRUSHWRIGHT_NPM} -P ${bundle_source}/prepare.cmake
  DEPENDS ${bundle_source}/package.json ${bundle_source}/package-lock.json ${bundle_source}/.npmrc
          ${bundle_source}/prepare.cmake
  COMMENT "Fetching the pinned chart scripts (npm)"
  VERBATIM)

configure_file(${CMAKE_CURRENT_LIST_DIR}/browser_bundles.cpp.in ${CRUSHWRIGHT_BUNDLE_DIR}/browser_bundles.cpp @ONLY)
set_source_files_properties(${CRUSHWRIGHT_BUNDLE_DIR}/browser_bundles.cpp PROPERTIES OBJECT_DEPENDS "${bundle_files}")

add_library(browser_bundles STATIC ${CRUSHWRIGHT_BUNDLE_DIR}/browser_bundles.cpp)
target_include_directories(browser_bundles PUBLIC $<BUILD_INTERFACE:${PROJECT_SOURCE_DIR}/src>)
target_link_libraries(browser_bundles PRIVATE $<BUILD_INTERFACE:crushwright_flags>)
