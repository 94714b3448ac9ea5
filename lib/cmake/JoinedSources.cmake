# Sets the groups in which a joined build compiles sources: those of one folder together, twelve at the
# most. For targets whose UNITY_BUILD_MODE is GROUP.
function(skeinfall_join_by_folder sources)
  foreach(source IN LISTS sources)
    cmake_path(GET source PARENT_PATH folder)
    cmake_path(RELATIVE_PATH folder BASE_DIRECTORY ${CMAKE_CURRENT_SOURCE_DIR})
    string(MAKE_C_IDENTIFIER "${folder}" group)
    math(EXPR part "(0${joined_${group}}) / 12")
    math(EXPR joined_${group} "0${joined_${group}} + 1")
    set_source_files_properties(${source} PROPERTIES UNITY_GROUP ${group}_${part})
  endforeach()
endfunction()
