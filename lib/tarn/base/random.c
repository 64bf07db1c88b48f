/* SPDX-License-Identifier: MIT */
#include "tarn/base.h"

#define GAMMA 0x9e3779b97f4a7c15u	/* odd, 2^64 / golden ratio */

/* Finaliser of SplitMix64 (Stafford's variant 13). */
static uint64_t mix(uint64_t z)
{
	z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
	z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
	return z ^ (z >> 31);
}

uint64_t tarn_random(uint64_t seed, uint64_t stream, uint64_t index)
{
	return mix(seed + mix(stream) + (index + 1) * GAMMA);
}
