# GLPK ships neither a CMake package nor a pkg-config file.
# Defines GLPK::GLPK and GLPK_VERSION.
find_path(GLPK_INCLUDE_DIR glpk.h)
find_library(GLPK_LIBRARY glpk)
if(GLPK_INCLUDE_DIR AND EXISTS ${GLPK_INCLUDE_DIR}/glpk.h)
    foreach(part MAJOR MINOR)
        file(STRINGS ${GLPK_INCLUDE_DIR}/glpk.h line
             REGEX "^#define[ \t]+GLP_${part}_VERSION[ \t]+[0-9]+")
        string(REGEX REPLACE ".*[ \t]([0-9]+).*" "\\1" GLPK_VERSION_${part} "${line}")
    endforeach()
    set(GLPK_VERSION ${GLPK_VERSION_MAJOR}.${GLPK_VERSION_MINOR})
endif()
include(FindPackageHandleStandardArgs)
find_package_handle_standard_args(GLPK
    REQUIRED_VARS GLPK_LIBRARY GLPK_INCLUDE_DIR VERSION_VAR GLPK_VERSION)
if(GLPK_FOUND AND NOT TARGET GLPK::GLPK)
    add_library(GLPK::GLPK UNKNOWN IMPORTED)
    set_target_properties(GLPK::GLPK PROPERTIES
        IMPORTED_LOCATION ${GLPK_LIBRARY}
        INTERFACE_INCLUDE_DIRECTORIES ${GLPK_INCLUDE_DIR})
endif()
mark_as_advanced(GLPK_INCLUDE_DIR GLPK_LIBRARY)
