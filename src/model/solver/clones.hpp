#pragma once

/// Compiles a function twice, for processors with 256-bit vectors and for any; the loader takes the one that fits.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && !defined(__SANITIZE_ADDRESS__) && \
    !defined(__SANITIZE_THREAD__)
#define STILLHEAP_CLONES __attribute__((target_clones("arch=haswell", "default")))
#else
#define STILLHEAP_CLONES
#endif
