# A box is one folder of src/ and one static library. Its headers are reachable only through the
# include folder of a box that was linked, so a header of a box that is not linked does not build.

# cotter_box(<folder> [ON box ...] [HIDES box ...] [USES library ...])
#   folder  path below src/, for example engine/route; the target is cotter_engine_route
#   ON      the boxes it may include; whoever links this box can include them too
#   HIDES   the boxes it may include, but whoever links this box cannot (its own headers do not show them)
#   USES    outside libraries, private to this box
function(cotter_box folder)
  cmake_parse_arguments(BOX "" "" "ON;HIDES;USES" ${ARGN})
  string(REPLACE "/" "_" name ${folder})
  set(target cotter_${name})
  set(include_root ${PROJECT_BINARY_DIR}/boxes/${name})
  get_filename_component(parent ${include_root}/${folder} DIRECTORY)
  file(MAKE_DIRECTORY ${parent})
  file(CREATE_LINK ${PROJECT_SOURCE_DIR}/src/${folder} ${include_root}/${folder} SYMBOLIC)

  file(GLOB_RECURSE sources CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/src/${folder}/*.cpp)
  if(sources)
    add_library(${target} STATIC ${sources})
    set(reach PUBLIC)
    set(own PRIVATE)
  else()
    add_library(${target} INTERFACE)
    set(reach INTERFACE)
    set(own INTERFACE)
  endif()
  target_include_directories(${target} ${reach} ${include_root})
  target_link_libraries(${target} ${reach} tl::expected)
  foreach(box IN LISTS BOX_ON)
    string(REPLACE "/" "_" box ${box})
    target_link_libraries(${target} ${reach} cotter_${box})
  endforeach()
  set(hidden)
  foreach(box IN LISTS BOX_HIDES)
    string(REPLACE "/" "_" box ${box})
    list(APPEND hidden cotter_${box})
  endforeach()
  target_link_libraries(${target} ${own} ${hidden} ${BOX_USES})
  set(${target}_HIDDEN ${hidden} CACHE INTERNAL "what tests of ${target} link besides")
endfunction()

# cotter_table(<target> <csv> <header>)
#   Turns a table of facts kept as CSV into a header with one raw string literal `k_csv`, so that the
#   table itself stays a data file and the program still needs no file at run time.
function(cotter_table target csv header symbol)
  set(output ${PROJECT_BINARY_DIR}/tables/${header})
  add_custom_command(OUTPUT ${output}
    COMMAND ${CMAKE_COMMAND} -DINPUT=${csv} -DOUTPUT=${output} -DSYMBOL=${symbol} -P ${PROJECT_SOURCE_DIR}/cmake/EmbedTable.cmake
    DEPENDS ${csv} ${PROJECT_SOURCE_DIR}/cmake/EmbedTable.cmake VERBATIM)
  target_sources(${target} PRIVATE ${output})
  target_include_directories(${target} PRIVATE ${PROJECT_BINARY_DIR}/tables)
endfunction()
