# What a builder may choose, and the flags that follow.
option(BUILD_SHARED_LIBS "Build shared libraries" ON)
option(QUILTCUT_BUILD_DRAW "Build libquiltcut-draw (needs cairo)" ON)
option(QUILTCUT_BUILD_CLI "Build the command line program" ${PROJECT_IS_TOP_LEVEL})
option(QUILTCUT_BUILD_TESTS "Build the tests (needs cmocka)" ${PROJECT_IS_TOP_LEVEL})
option(QUILTCUT_WERROR "Treat warnings as errors" OFF)
set(QUILTCUT_SANITIZE "" CACHE STRING "Sanitizers, such as address,undefined or thread")

# The ABI number: raised when a program already built would break.
set(QUILTCUT_ABI 0)

if(NOT CMAKE_BUILD_TYPE AND NOT CMAKE_CONFIGURATION_TYPES)
    set(CMAKE_BUILD_TYPE RelWithDebInfo)
endif()
set(CMAKE_C_STANDARD 11)
set(CMAKE_C_STANDARD_REQUIRED ON)
set(CMAKE_C_EXTENSIONS OFF)
set(CMAKE_C_VISIBILITY_PRESET hidden)
set(CMAKE_POSITION_INDEPENDENT_CODE ON) # so that a static build can go into a plug-in

# Installed programs find the libraries beside them, wherever the prefix is moved.
if(PROJECT_IS_TOP_LEVEL AND NOT DEFINED CMAKE_INSTALL_RPATH)
    file(RELATIVE_PATH qc_to_lib "/${CMAKE_INSTALL_BINDIR}" "/${CMAKE_INSTALL_LIBDIR}")
    set(CMAKE_INSTALL_RPATH "$ORIGIN/${qc_to_lib};$ORIGIN")
endif()

add_library(qc_warnings INTERFACE)
target_compile_definitions(qc_warnings INTERFACE _POSIX_C_SOURCE=200809L)
target_compile_options(qc_warnings INTERFACE
    -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wstrict-prototypes
    -Wmissing-prototypes -Wvla
    $<$<C_COMPILER_ID:GNU>:-Wclobbered>
    $<$<BOOL:${QUILTCUT_WERROR}>:-Werror>)
if(QUILTCUT_SANITIZE)
    target_compile_options(qc_warnings INTERFACE
        -fsanitize=${QUILTCUT_SANITIZE} -fno-sanitize-recover=all -fno-omit-frame-pointer)
    target_link_options(qc_warnings INTERFACE -fsanitize=${QUILTCUT_SANITIZE})
endif()
