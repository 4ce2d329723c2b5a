# What `cmake --install` lays down: headers, libraries, the CMake package and the
# pkg-config files. The CLI installs itself.
include(CMakePackageConfigHelpers)

set(qc_package_dir ${CMAKE_INSTALL_LIBDIR}/cmake/quiltcut)

set(qc_libraries quiltcut)
if(TARGET quiltcut_draw)
    list(APPEND qc_libraries quiltcut_draw)
    set(qc_header_filter) # every header
else()
    set(qc_header_filter PATTERN draw.h EXCLUDE PATTERN draw_export.h EXCLUDE)
endif()

install(TARGETS ${qc_libraries} EXPORT quiltcutTargets
    RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR} COMPONENT runtime
    LIBRARY DESTINATION ${CMAKE_INSTALL_LIBDIR} COMPONENT runtime
        NAMELINK_COMPONENT development
    ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR} COMPONENT development)
install(DIRECTORY ${PROJECT_SOURCE_DIR}/include/quiltcut
                  ${PROJECT_BINARY_DIR}/lib/include/quiltcut
    DESTINATION ${CMAKE_INSTALL_INCLUDEDIR} COMPONENT development
    FILES_MATCHING PATTERN *.h ${qc_header_filter})

install(EXPORT quiltcutTargets NAMESPACE quiltcut::
    DESTINATION ${qc_package_dir} COMPONENT development)
configure_package_config_file(${PROJECT_SOURCE_DIR}/lib/cmake/quiltcutConfig.cmake.in
    ${PROJECT_BINARY_DIR}/quiltcutConfig.cmake INSTALL_DESTINATION ${qc_package_dir})
write_basic_package_version_file(${PROJECT_BINARY_DIR}/quiltcutConfigVersion.cmake
    COMPATIBILITY SameMajorVersion)
install(FILES ${PROJECT_BINARY_DIR}/quiltcutConfig.cmake
              ${PROJECT_BINARY_DIR}/quiltcutConfigVersion.cmake
              ${PROJECT_SOURCE_DIR}/lib/cmake/FindGLPK.cmake
    DESTINATION ${qc_package_dir} COMPONENT development)

# A .pc file names its folders relative to itself, so that an installed tree can
# be moved; absolute install folders are kept as they are.
function(qc_pc_dir variable dir)
    if(IS_ABSOLUTE "${dir}")
        set(${variable} "${dir}" PARENT_SCOPE)
    else()
        set(${variable} "\${prefix}/${dir}" PARENT_SCOPE)
    endif()
endfunction()
qc_pc_dir(QC_PC_LIBDIR "${CMAKE_INSTALL_LIBDIR}")
qc_pc_dir(QC_PC_INCLUDEDIR "${CMAKE_INSTALL_INCLUDEDIR}")
file(RELATIVE_PATH QC_PC_UP "/${CMAKE_INSTALL_LIBDIR}/pkgconfig" "/")
string(REGEX REPLACE "/$" "" QC_PC_UP "${QC_PC_UP}")
if(IS_ABSOLUTE "${CMAKE_INSTALL_LIBDIR}")
    set(QC_PC_PREFIX "${CMAKE_INSTALL_PREFIX}")
else()
    set(QC_PC_PREFIX "\${pcfiledir}/${QC_PC_UP}")
endif()
if(NOT BUILD_SHARED_LIBS)
    set(QC_PC_CFLAGS " -DQC_STATIC_DEFINE")
endif()
string(REPLACE "_" "-" qc_pc_names "${qc_libraries}")
foreach(name ${qc_pc_names})
    configure_file(${PROJECT_SOURCE_DIR}/lib/cmake/${name}.pc.in
        ${PROJECT_BINARY_DIR}/${name}.pc @ONLY)
    install(FILES ${PROJECT_BINARY_DIR}/${name}.pc
        DESTINATION ${CMAKE_INSTALL_LIBDIR}/pkgconfig COMPONENT development)
endforeach()
