/* SPDX-License-Identifier: MIT */
#ifndef TARN_STUDY_LANES_HOT_H
#define TARN_STUDY_LANES_HOT_H

#include "tarn/study/lanes.h"

/*
 * How hot loops over lanes are compiled: three times where the compiler and
 * the system can choose at load time by the processor; else once.  Such
 * functions are static, as their helpers would leave the library else;
 * sanitizers cannot run in code that is called while the program is loaded.
 * The order of sums within a lane is fixed, and no product is fused with a
 * sum (-ffp-contract=off): each build gives the same bits.
 */
#if defined(__x86_64__) && defined(__gnu_linux__) && defined(__GNUC__) && \
	!defined(__clang__) && __GNUC__ >= 12 && \
	!defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
#define CLONES __attribute__((target_clones("arch=x86-64-v4", \
					    "arch=x86-64-v3", "default")))
#else
#define CLONES
#endif

STEP_INLINE size_t lanes_of(const struct lanes *b)
{
	return b->count & ~(size_t)(LANES_STEP - 1);	/* no remainder loop */
}

#endif
