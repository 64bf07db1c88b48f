/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "fuzz.h"

/*
 * replay FILE...: feeds each file to the target, then the same mutations of
 * it in every run: cut, a byte changed, a piece taken out or doubled.
 */
#define MUTATIONS 40

static uint32_t next(uint32_t *seed)
{
	*seed = *seed * 1664525u + 1013904223u;
	return *seed >> 8;
}

/* One mutation of 'from' in a block of its own, so that reads beyond it are
 * caught. */
static void mutate(const uint8_t *from, size_t size, uint32_t *seed)
{
	uint8_t *to = malloc(2 * size + 1), *exact;
	size_t at = next(seed) % size, n = next(seed) % (size - at) % 64;

	MUST(to != NULL);
	memcpy(to, from, size);
	switch (next(seed) % 4) {
	case 0:
		size = at;
		break;
	case 1:
		to[at] = (uint8_t)next(seed);
		break;
	case 2:
		memmove(to + at, to + at + n, size - at - n);
		size -= n;
		break;
	case 3:
		memmove(to + at + n, from + at, size - at);
		size += n;
		break;
	}
	exact = malloc(size ? size : 1);
	MUST(exact != NULL);
	memcpy(exact, to, size);
	free(to);
	LLVMFuzzerTestOneInput(exact, size);
	free(exact);
}

int main(int argc, char **argv)
{
	static uint8_t data[INPUT_MAX];
	long inputs = 0;

	for (int i = 1; i < argc; i++) {
		FILE *f = fopen(argv[i], "rb");
		uint32_t seed = 1;
		size_t size;

		MUST(f != NULL);
		size = fread(data, 1, sizeof data, f);
		fclose(f);
		LLVMFuzzerTestOneInput(data, size);
		inputs++;
		for (int k = 0; size > 0 && k < MUTATIONS; k++, inputs++)
			mutate(data, size, &seed);
	}
	printf("%s: %d files, %ld inputs\n", argv[0], argc - 1, inputs);
	return 0;
}
