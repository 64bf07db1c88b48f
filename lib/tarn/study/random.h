/* SPDX-License-Identifier: MIT */
#ifndef TARN_STUDY_RANDOM_H
#define TARN_STUDY_RANDOM_H

#include "tarn/base.h"

/* A number in (0, 1), neither end: 52 bits and a half. */
static inline double random_share(uint64_t seed, uint64_t stream,
				  uint64_t index)
{
	return ((double)(tarn_random(seed, stream, index) >> 12) + 0.5) /
	       4503599627370496.0;
}

#endif
