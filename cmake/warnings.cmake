add_library(stillheap_warnings INTERFACE)
target_compile_options(stillheap_warnings INTERFACE -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wno-sign-conversion
                                                    -Wold-style-cast -Wnon-virtual-dtor -Werror)
if(STILLHEAP_SANITIZE)
  add_compile_options(-fsanitize=address,undefined -fno-sanitize-recover=undefined -fno-omit-frame-pointer)
  add_link_options(-fsanitize=address,undefined)
endif()
