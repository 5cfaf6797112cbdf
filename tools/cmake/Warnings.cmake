# Warnings are errors, for our own code only (libraries come in as system headers).
add_library(flitchbook_warnings INTERFACE)
target_compile_options(flitchbook_warnings INTERFACE
  -Wall -Wextra -Wpedantic -Wconversion -Wsign-conversion -Wshadow -Wnon-virtual-dtor
  -Wold-style-cast -Wundef -Wcast-align -Wimplicit-fallthrough -Werror)
# GCC 12 sees overlapping copies in std::string's own insert and replace (GCC bug 105651).
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU" AND CMAKE_CXX_COMPILER_VERSION VERSION_LESS 13)
  target_compile_options(flitchbook_warnings INTERFACE -Wno-restrict)
endif()
# File names in messages and assertions do not carry the folder of the checkout.
target_compile_options(flitchbook_warnings INTERFACE -ffile-prefix-map=${CMAKE_SOURCE_DIR}=.)

# GCC's manual: what may be uninitialized is a guess that inlining misleads; -fsanitize and units
# compiled as one inline differently. The plain builds keep the warning.
if(FLITCHBOOK_SANITIZE OR CMAKE_UNITY_BUILD)
  target_compile_options(flitchbook_warnings INTERFACE -Wno-maybe-uninitialized)
endif()

if(FLITCHBOOK_SANITIZE)
  add_compile_options(-fsanitize=${FLITCHBOOK_SANITIZE} -fno-omit-frame-pointer
    -fno-sanitize-recover=all)
  add_link_options(-fsanitize=${FLITCHBOOK_SANITIZE})
endif()

# A library of the project: flitchbook_library(Wood SOURCES ... LINKS ...)
# makes target flitchbook_Wood with alias Flitchbook::Wood. Includes are written from the
# repository root ("inventory/wood/length.h"), so a path shows which library it comes from.
function(flitchbook_library name)
  cmake_parse_arguments(ARG "" "" "SOURCES;LINKS;PRIVATE_LINKS" ${ARGN})
  add_library(flitchbook_${name} STATIC ${ARG_SOURCES})
  add_library(Flitchbook::${name} ALIAS flitchbook_${name})
  target_include_directories(flitchbook_${name} PUBLIC ${CMAKE_SOURCE_DIR})
  target_link_libraries(flitchbook_${name}
    PUBLIC ${ARG_LINKS} PRIVATE flitchbook_warnings ${ARG_PRIVATE_LINKS})
endfunction()

# A program of the project.
function(flitchbook_program name)
  cmake_parse_arguments(ARG "" "" "SOURCES;LINKS" ${ARGN})
  add_executable(${name} ${ARG_SOURCES})
  target_include_directories(${name} PRIVATE ${CMAKE_SOURCE_DIR})
  target_link_libraries(${name} PRIVATE flitchbook_warnings ${ARG_LINKS})
endfunction()
