# Every outside library, wrapped once. System headers so that our warnings stay ours.
find_package(PkgConfig REQUIRED)
find_package(Threads REQUIRED)
find_package(SUNDIALS REQUIRED COMPONENTS cvode nvecserial sunlinsolpcg sunlinsolspbcgs)

function(stillheap_use name)
  add_library(stillheap_use_${name} INTERFACE)
  target_link_libraries(stillheap_use_${name} INTERFACE ${ARGN})
endfunction()

pkg_check_modules(CAIRO REQUIRED IMPORTED_TARGET cairo pangocairo)

stillheap_use(threads Threads::Threads)
stillheap_use(udunits udunits2)
stillheap_use(glpk glpk)
stillheap_use(cgal gmp)
stillheap_use(json)
stillheap_use(toml)
stillheap_use(sundials SUNDIALS::cvode SUNDIALS::nvecserial SUNDIALS::sunlinsolpcg SUNDIALS::sunlinsolspbcgs)
stillheap_use(cairo PkgConfig::CAIRO)
stillheap_use(cli fmt)
