add_library(stillheap_warnings INTERFACE)
target_compile_options(stillheap_warnings INTERFACE -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wno-sign-conversion
                                                    -Wold-style-cast -Wnon-virtual-dtor)
if(NOT STILLHEAP_FUZZ)  # by clang, whose warnings are others
  target_compile_options(stillheap_warnings INTERFACE -Werror)
endif()
if(STILLHEAP_SANITIZE)
  add_compile_options(-fsanitize=address,undefined -fno-sanitize-recover=undefined -fno-omit-frame-pointer)
  add_link_options(-fsanitize=address,undefined)
endif()
if(STILLHEAP_FUZZ)
  # The fuzzer needs its counters in all of the library.
  add_compile_options(-fsanitize=fuzzer-no-link,address,undefined -fno-sanitize-recover=undefined
                      -fno-omit-frame-pointer)
  add_link_options(-fsanitize=address,undefined)
endif()
if(STILLHEAP_COVERAGE)
  add_compile_options(--coverage)
  add_link_options(--coverage)
endif()
if(STILLHEAP_REPRODUCIBLE)
  add_compile_options(-ffile-prefix-map=${CMAKE_SOURCE_DIR}=. -ffile-prefix-map=${CMAKE_BINARY_DIR}=build)
endif()
