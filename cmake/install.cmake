# `cmake --install BUILD`: component "program" is what a maker needs, "library" what other programs link.
include(CMakePackageConfigHelpers)

set(package_dir ${CMAKE_INSTALL_LIBDIR}/cmake/stillheap)
get_property(folders GLOBAL PROPERTY STILLHEAP_FOLDERS)
get_property(uses GLOBAL PROPERTY STILLHEAP_USES)

# The library. Without a default component, as CMake has none per file: everything names its own.
install(TARGETS stillheap ${folders} ${uses} EXPORT stillheapTargets
        ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR} COMPONENT library)
install(EXPORT stillheapTargets NAMESPACE stillheap:: DESTINATION ${package_dir} COMPONENT library)
install(DIRECTORY src/ DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}/stillheap COMPONENT library FILES_MATCHING
        PATTERN "*.hpp")
configure_package_config_file(cmake/stillheapConfig.cmake.in ${CMAKE_BINARY_DIR}/stillheapConfig.cmake
                              INSTALL_DESTINATION ${package_dir})
write_basic_package_version_file(${CMAKE_BINARY_DIR}/stillheapConfigVersion.cmake COMPATIBILITY SameMinorVersion)
install(FILES ${CMAKE_BINARY_DIR}/stillheapConfig.cmake ${CMAKE_BINARY_DIR}/stillheapConfigVersion.cmake
              cmake/outside.cmake DESTINATION ${package_dir} COMPONENT library)

# The program, its page (when tools/build-page has built it), manual page, completion and user unit.
install(TARGETS stillheap_app RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR} COMPONENT program)
install(DIRECTORY web/dist/ DESTINATION ${CMAKE_INSTALL_DATADIR}/stillheap/page COMPONENT program OPTIONAL)
install(FILES ${CMAKE_BINARY_DIR}/share/stillheap.1 DESTINATION ${CMAKE_INSTALL_MANDIR}/man1 COMPONENT program)
install(FILES ${CMAKE_BINARY_DIR}/share/stillheap.bash RENAME stillheap COMPONENT program
        DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions)
install(FILES packaging/stillheap.service DESTINATION lib/systemd/user COMPONENT program)
install(FILES packaging/copyright CHANGELOG.md DESTINATION ${CMAKE_INSTALL_DOCDIR} COMPONENT program)
install(DIRECTORY examples DESTINATION ${CMAKE_INSTALL_DOCDIR} COMPONENT program)

# Two Debian packages: `cpack --config build/package/CPackConfig.cmake`, or tools/make-package.
file(STRINGS tools/packages.txt listed)
set(section "")
set(library_packages "")
foreach(line ${listed})
  if(line MATCHES "^# (.*)$")
    set(section "${CMAKE_MATCH_1}")
  elseif(section STREQUAL "libraries")
    list(APPEND library_packages ${line})
  endif()
endforeach()
list(JOIN library_packages ", " library_packages)

set(CPACK_GENERATOR DEB)
set(CPACK_COMPONENTS_ALL program library)
set(CPACK_PACKAGE_CONTACT "the makers of stillheap <stillheap@localhost>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "${PROJECT_DESCRIPTION}")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME stillheap)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_DEPENDS "tzdata, fonts-dejavu-core, fonts-open-sans")
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SUGGESTS ffmpeg)
set(CPACK_DEBIAN_LIBRARY_PACKAGE_NAME libstillheap-dev)
set(CPACK_DEBIAN_LIBRARY_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_LIBRARY_PACKAGE_DEPENDS "${library_packages}, pkg-config")
set(CPACK_COMPONENT_LIBRARY_DESCRIPTION "Headers and static libraries to build on stillheap")
include(CPack)
