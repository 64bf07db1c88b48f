/* SPDX-License-Identifier: MIT */
#include "tarn/study.h"

static void multiply(uint32_t a, uint32_t b, uint32_t *high, uint32_t *low)
{
	uint64_t product = (uint64_t)a * b;

	*high = (uint32_t)(product >> 32);
	*low = (uint32_t)product;
}

/* Multipliers and key steps: Salmon et al. (2011), table 2. */
void tarn_philox(const uint32_t counter[4], const uint32_t key[2],
		 uint32_t out[4])
{
	uint32_t c[4] = { counter[0], counter[1], counter[2], counter[3] };
	uint32_t k[2] = { key[0], key[1] };

	for (int round = 0; round < 10; round++) {
		uint32_t high0, low0, high1, low1;

		multiply(0xD2511F53u, c[0], &high0, &low0);
		multiply(0xCD9E8D57u, c[2], &high1, &low1);
		c[0] = high1 ^ c[1] ^ k[0];
		c[1] = low1;
		c[2] = high0 ^ c[3] ^ k[1];
		c[3] = low0;
		k[0] += 0x9E3779B9u;
		k[1] += 0xBB67AE85u;
	}
	for (int i = 0; i < 4; i++)
		out[i] = c[i];
}

/* 52 bits and a half: never 0, never 1. */
static double share(uint32_t high, uint32_t low)
{
	uint64_t bits = ((uint64_t)high << 32 | low) >> 12;

	return ((double)bits + 0.5) / 4503599627370496.0;
}

void tarn_random(uint64_t seed, uint64_t stream, uint64_t index, double u[2])
{
	uint32_t counter[4] = { (uint32_t)index, (uint32_t)(index >> 32),
				(uint32_t)stream, (uint32_t)(stream >> 32) };
	uint32_t key[2] = { (uint32_t)seed, (uint32_t)(seed >> 32) };
	uint32_t out[4];

	tarn_philox(counter, key, out);
	u[0] = share(out[0], out[1]);
	u[1] = share(out[2], out[3]);
}
