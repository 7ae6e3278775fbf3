# The project's bibliography inside the program, so that the review pack can spell out what a source cites.
configure_file(${CMAKE_CURRENT_LIST_DIR}/references.cpp.in ${PROJECT_BINARY_DIR}/references.cpp @ONLY)
set_source_files_properties(${PROJECT_BINARY_DIR}/references.cpp PROPERTIES
  OBJECT_DEPENDS ${PROJECT_SOURCE_DIR}/docs/references.bib)
target_sources(review_pack PRIVATE ${PROJECT_BINARY_DIR}/references.cpp)
