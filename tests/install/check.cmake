# Makes the Debian packages, unpacks them into an empty folder, and uses what lies there: the
# program, its shell files, and the library by CMake and by pkg-config, with README's example.
# Arguments: BUILD (build folder), SOURCE (of the project), WORK (scratch folder), VERSION, COMPILER.
function(run)
  execute_process(COMMAND ${ARGV} WORKING_DIRECTORY ${SOURCE}
    RESULT_VARIABLE code OUTPUT_VARIABLE out ERROR_VARIABLE out)
  if(NOT code EQUAL 0)
    message(FATAL_ERROR "failed (${code}): ${ARGV}\n${out}")
  endif()
  set(out "${out}" PARENT_SCOPE)
endfunction()
function(expect pattern what)
  if(NOT out MATCHES "${pattern}")
    message(FATAL_ERROR "${what}: not \"${pattern}\" in\n${out}")
  endif()
endfunction()

file(REMOVE_RECURSE ${WORK})
file(MAKE_DIRECTORY ${WORK})
# A package of a build for tests is large: it is not packed tight.
run(cpack --config ${BUILD}/CPackConfig.cmake -B ${WORK}/packages
  -D CPACK_DEBIAN_COMPRESSION_TYPE=none)
file(GLOB program ${WORK}/packages/skeinfall_${VERSION}_*.deb)
file(GLOB library ${WORK}/packages/libskeinfall-dev_${VERSION}_*.deb)
if(NOT program OR NOT library)
  message(FATAL_ERROR "cpack did not make both packages of ${VERSION}:\n${out}")
endif()
run(dpkg-deb --field ${program})
expect("\nDepends: [^\n]*libc6 " "what the program needs")
expect("libsqlite3-0 " "what the program needs")
expect("Version: ${VERSION}\n" "version of the package")
foreach(package ${program} ${library})
  run(dpkg-deb --extract ${package} ${WORK}/root)
endforeach()
set(prefix ${WORK}/root/usr)

foreach(file bin/skeinfall include/skeinfall/cover/cover.hpp share/man/man1/skeinfall.1.gz
    share/bash-completion/completions/skeinfall share/zsh/vendor-completions/_skeinfall
    share/zsh/site-functions/_skeinfall share/fish/vendor_completions.d/skeinfall.fish
    share/doc/skeinfall/sample_stash/stash.csv)
  if(NOT EXISTS ${prefix}/${file})
    message(FATAL_ERROR "not in the packages: ${file}")
  endif()
endforeach()
if(EXISTS ${prefix}/include/skeinfall/units/detail)
  message(FATAL_ERROR "inner headers are in the packages")
endif()

foreach(binary bin/skeinfall lib/skeinfall/skeinfall_drawing.so lib/skeinfall/skeinfall_line.so)
  run(${CMAKE_COMMAND} -DBINARY=${prefix}/${binary} -DRELEASE=${RELEASE}
    -P ${CMAKE_CURRENT_LIST_DIR}/hardened.cmake)
endforeach()
run(${prefix}/bin/skeinfall --version)
if(NOT out STREQUAL "skeinfall ${VERSION}\n")
  message(FATAL_ERROR "the installed program printed: ${out}")
endif()
run(${prefix}/bin/skeinfall stash import ${prefix}/share/doc/skeinfall/sample_stash/stash.csv
  --stash ${WORK}/stash.skeinfall)
run(${prefix}/bin/skeinfall cover
  ${prefix}/share/doc/skeinfall/sample_stash/projects/lantern-cowl.toml
  --stash ${WORK}/stash.skeinfall)
expect("^covered: Lantern cowl\n" "the installed program")
run(${prefix}/bin/skeinfall joins
  ${prefix}/share/doc/skeinfall/sample_stash/projects/lantern-cowl.toml
  --stash ${WORK}/stash.skeinfall --picture ${WORK}/joins.svg)
file(READ ${WORK}/joins.svg out LIMIT 200)
expect("<svg" "the installed program's picture")
# What draws is loaded when it draws: a short command would take thrice as long otherwise.
run(ldd ${prefix}/bin/skeinfall)
if(out MATCHES "libcairo|libpango|libedit")
  message(FATAL_ERROR "the program loads what draws at its start:\n${out}")
endif()
# In a root with nothing else than what it depends on, and without /proc.
execute_process(COMMAND id -u OUTPUT_VARIABLE user OUTPUT_STRIP_TRAILING_WHITESPACE)
if(user EQUAL 0)
  file(GLOB needed /etc/fonts /usr/share/fontconfig /usr/share/fonts/truetype/dejavu)
  foreach(binary bin/skeinfall lib/skeinfall/skeinfall_drawing.so lib/skeinfall/skeinfall_line.so)
    run(ldd ${prefix}/${binary})
    string(REGEX MATCHALL "/[^ \n]+[.]so[^ \n]*" libraries "${out}")
    list(APPEND needed ${libraries})
  endforeach()
  list(REMOVE_DUPLICATES needed)
  foreach(one IN LISTS needed)
    cmake_path(GET one PARENT_PATH folder)
    file(COPY ${one} DESTINATION ${WORK}/root${folder} FOLLOW_SYMLINK_CHAIN)
  endforeach()
  set(sample /usr/share/doc/skeinfall/sample_stash)
  run(chroot ${WORK}/root /usr/bin/skeinfall stash import ${sample}/stash.csv --stash /stash)
  run(chroot ${WORK}/root /usr/bin/skeinfall joins ${sample}/projects/lantern-cowl.toml
    --stash /stash --picture /joins.svg)
  expect("1 join: Lantern cowl\n" "the program in an empty root")
  file(READ ${WORK}/root/joins.svg out LIMIT 200)
  expect("<svg" "the picture in an empty root")
endif()
# The archive, in a root with nothing else than the C library.
if(user EQUAL 0 AND NOT FLAGS)
  run(${CMAKE_COMMAND} -DBUILD=${BUILD} -DNAME=carried -DOUT=${WORK}/archive
    -P ${SOURCE}/cli/packaging/archive.cmake)
  run(ldd ${WORK}/archive/carried/bin/skeinfall)
  string(REGEX MATCHALL "/[^ \n]+/(ld-linux|libc|libm|libdl|libpthread|librt)[-.][^ \n]*" libraries "${out}")
  foreach(one IN LISTS libraries)
    cmake_path(GET one PARENT_PATH folder)
    file(COPY ${one} DESTINATION ${WORK}/bare${folder} FOLLOW_SYMLINK_CHAIN)
  endforeach()
  file(COPY ${WORK}/archive/carried DESTINATION ${WORK}/bare)
  file(GLOB_RECURSE samples ${WORK}/bare/carried/*/stash.csv)
  cmake_path(GET samples PARENT_PATH sample)
  file(RELATIVE_PATH sample ${WORK}/bare ${sample})
  # The loader asks /proc where the program lies; here there is none.
  run(${CMAKE_COMMAND} -E env LD_ORIGIN_PATH=/carried/bin
    chroot ${WORK}/bare /carried/bin/skeinfall stash import /${sample}/stash.csv --stash /stash)
  run(${CMAKE_COMMAND} -E env LD_ORIGIN_PATH=/carried/bin
    chroot ${WORK}/bare /carried/bin/skeinfall joins /${sample}/projects/lantern-cowl.toml
    --stash /stash --picture /joins.svg)
  expect("1 join: Lantern cowl\n" "the archive's program in a bare root")
  file(READ ${WORK}/bare/joins.svg out LIMIT 200)
  expect("<svg" "the archive's picture in a bare root")
endif()
run(mandoc -T ascii ${prefix}/share/man/man1/skeinfall.1.gz)
run(pkg-config --modversion ${prefix}/lib/pkgconfig/skeinfall.pc)
expect("^${VERSION}\n$" "version for pkg-config")

# README's example is built both ways and prints the same.
file(READ ${SOURCE}/README.md readme)
string(REGEX MATCH "```cpp\n([^`]*)```" found "${readme}")
if(NOT found)
  message(FATAL_ERROR "README.md has no example in C++")
endif()
file(WRITE ${WORK}/example.cpp "${CMAKE_MATCH_1}")
run(${CMAKE_COMMAND} -S ${SOURCE}/tests/install/consumer -B ${WORK}/build -G Ninja
  -DCMAKE_PREFIX_PATH=${prefix} -DEXAMPLE=${WORK}/example.cpp -DCMAKE_CXX_FLAGS=${FLAGS})
run(${CMAKE_COMMAND} --build ${WORK}/build)
run(${WORK}/build/consumer)
expect("^covered: Lantern cowl\n" "README's example by CMake")
set(by_cmake "${out}")
set(ENV{PKG_CONFIG_PATH} ${prefix}/lib/pkgconfig)
run(pkg-config --cflags --libs skeinfall)
separate_arguments(flags UNIX_COMMAND "${FLAGS} ${out}")
# With the whole library in it, so that what the flags miss of its needs is found.
run(${COMPILER} -std=c++20 ${WORK}/example.cpp -o ${WORK}/example
  -Wl,--whole-archive ${prefix}/lib/libskeinfall.a -Wl,--no-whole-archive ${flags})
run(${WORK}/example)
if(NOT out STREQUAL by_cmake)
  message(FATAL_ERROR "by pkg-config README's example prints\n${out}")
endif()

# No path of this machine is in what is shipped: two builds in two folders give the same bytes.
file(GLOB_RECURSE shipped ${prefix}/*)
foreach(file ${shipped})
  foreach(folder ${SOURCE}/lib/ ${SOURCE}/cli/ ${BUILD}/)
    execute_process(COMMAND grep --quiet --fixed-strings --text ${folder} ${file}
      RESULT_VARIABLE code)
    if(code EQUAL 0)
      message(FATAL_ERROR "${file} tells where it was built: ${folder}")
    endif()
  endforeach()
endforeach()
