# Makes one archive that holds all the program needs but the C library: cmake -DBUILD=folder
# -DNAME=skeinfall-1.2-linux-x86_64 -DOUT=folder -P archive.cmake. Needs patchelf.
foreach(given BUILD NAME OUT)
  if(NOT ${given})
    message(FATAL_ERROR "-D${given}=... is missing")
  endif()
endforeach()
find_program(PATCHELF patchelf REQUIRED)
set(root ${OUT}/${NAME})
file(REMOVE_RECURSE ${root})
execute_process(COMMAND ${CMAKE_COMMAND} --install ${BUILD} --component program --prefix ${root} --strip
  COMMAND_ERROR_IS_FATAL ANY OUTPUT_QUIET)
file(GLOB modules ${root}/lib/*/skeinfall_*.so ${root}/lib/*/*/skeinfall_*.so)
list(GET modules 0 first)
cmake_path(GET first PARENT_PATH folder)

# Of the C library's own parts none: they must fit the system's kernel and loader.
file(GET_RUNTIME_DEPENDENCIES EXECUTABLES ${root}/bin/skeinfall MODULES ${modules}
  RESOLVED_DEPENDENCIES_VAR libraries UNRESOLVED_DEPENDENCIES_VAR missing
  POST_EXCLUDE_REGEXES "/(ld-linux[^/]*|libc|libm|libdl|libpthread|librt|libresolv|libutil)\\.so\\.")
if(missing)
  message(FATAL_ERROR "not to be found: ${missing}")
endif()
foreach(library IN LISTS libraries)
  file(COPY ${library} DESTINATION ${folder} FOLLOW_SYMLINK_CHAIN)
endforeach()
# A symbolic link more is a file more in archives unpacked elsewhere: each library under the one
# name by which it is asked for.
file(GLOB all ${folder}/*.so ${folder}/*.so.*)
foreach(library IN LISTS all)
  if(NOT IS_SYMLINK ${library})
    execute_process(COMMAND ${PATCHELF} --set-rpath $ORIGIN ${library} COMMAND_ERROR_IS_FATAL ANY)
  endif()
endforeach()
file(RELATIVE_PATH beside ${root}/bin ${folder})
execute_process(COMMAND ${PATCHELF} --set-rpath "$ORIGIN/${beside}" ${root}/bin/skeinfall
  COMMAND_ERROR_IS_FATAL ANY)

# Letters for pictures and PDF, where the system has none.
file(COPY /usr/share/fonts/truetype/dejavu/DejaVuSans.ttf
  /usr/share/fonts/truetype/dejavu/DejaVuSans-Bold.ttf DESTINATION ${folder}/fonts)
file(WRITE ${folder}/fonts.conf
"<?xml version=\"1.0\"?>
<!DOCTYPE fontconfig SYSTEM \"fonts.dtd\">
<fontconfig><dir prefix=\"relative\">fonts</dir><cachedir prefix=\"xdg\">fontconfig</cachedir></fontconfig>
")
execute_process(COMMAND ${CMAKE_COMMAND} -E tar cJf ${OUT}/${NAME}.tar.xz --format=gnutar ${NAME}
  WORKING_DIRECTORY ${OUT} COMMAND_ERROR_IS_FATAL ANY)
message(STATUS "made ${OUT}/${NAME}.tar.xz")
