/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "fuzz.h"

/*
 * replay [-COUNT] FILE...: feeds each file to the target, then the same COUNT
 * (40) mutations of it in every run: cut, a byte changed, a piece taken out or
 * doubled; up to four of these at once.
 */
#define CHANGES_MAX 4

static uint32_t next(uint32_t *seed)
{
	*seed = *seed * 1664525u + 1013904223u;
	return *seed >> 8;
}

/* One change in place; returns the new size, at most 64 bytes more. */
static size_t change(uint8_t *at, size_t size, uint32_t *seed)
{
	size_t from = next(seed) % size, n = next(seed) % (size - from) % 64;

	switch (next(seed) % 4) {
	case 0:
		return from;
	case 1:
		at[from] = (uint8_t)next(seed);
		return size;
	case 2:
		memmove(at + from, at + from + n, size - from - n);
		return size - n;
	default:
		memmove(at + from + n, at + from, size - from);
		return size + n;
	}
}

/* A mutation in a block of its own, so that reads beyond it are caught. */
static void mutate(const uint8_t *from, size_t size, uint32_t *seed)
{
	static uint8_t to[INPUT_MAX + 64 * CHANGES_MAX];
	uint8_t *exact;

	memcpy(to, from, size);
	for (uint32_t left = 1 + next(seed) % CHANGES_MAX; left && size; left--)
		size = change(to, size, seed);
	exact = malloc(size ? size : 1);
	MUST(exact != NULL);
	memcpy(exact, to, size);
	LLVMFuzzerTestOneInput(exact, size);
	free(exact);
}

int main(int argc, char **argv)
{
	static uint8_t data[INPUT_MAX];
	int count = 40, first = 1;
	long inputs = 0;

	if (argc > 1 && argv[1][0] == '-')
		count = atoi(argv[first++] + 1);
	for (int i = first; i < argc; i++) {
		FILE *f = fopen(argv[i], "rb");
		uint32_t seed = (uint32_t)i;
		size_t size;

		MUST(f != NULL);
		size = fread(data, 1, sizeof data, f);
		fclose(f);
		LLVMFuzzerTestOneInput(data, size);
		inputs++;
		for (int k = 0; size > 0 && k < count; k++, inputs++)
			mutate(data, size, &seed);
	}
	printf("%s: %d files, %ld inputs\n", argv[0], argc - first, inputs);
	return 0;
}
