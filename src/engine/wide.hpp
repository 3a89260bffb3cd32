// Code compiled for narrow and for wide vectors, with the same bits from all copies. Internal.
#pragma once

// On x86 Linux a function has two copies for wide vectors, one of them with twice the registers; which one runs is
// picked at load time. Sanitizers' start-up does not go with that.
#if defined(__has_feature)
#if __has_feature(address_sanitizer) || __has_feature(thread_sanitizer) || __has_feature(memory_sanitizer)
#define SUNSTRAIN_WIDE_CLONES
#endif
#endif
#if defined(SUNSTRAIN_WIDE_CLONES)
#elif defined(__x86_64__) && defined(__linux__) && !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
#define SUNSTRAIN_WIDE_CLONES __attribute__((target_clones("arch=x86-64-v4", "avx2", "default")))
#else
#define SUNSTRAIN_WIDE_CLONES
#endif

// Fully inlined so that every copy of a function has its own.
#define SUNSTRAIN_INLINE inline __attribute__((always_inline))
