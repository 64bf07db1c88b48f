/* SPDX-License-Identifier: MIT */
#ifndef TESTS_FUZZ_H
#define TESTS_FUZZ_H

/*
 * A target is one file here: it takes any bytes and aborts if what came of
 * them breaks a rule.  `make fuzz` links it with libFuzzer; `make test` with
 * replay.c, which feeds it the corpus and fixed mutations of it.
 */

#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

#define INPUT_MAX 65536

/* Path under which fopen() finds the input, in memory; of a JSON file if it
 * begins with '{'.  See file.c. */
const char *fuzz_file(const uint8_t *data, size_t size);

#define MUST(condition) do { \
	if (!(condition)) { \
		fprintf(stderr, "%s:%d: not so: %s\n", __FILE__, __LINE__, \
			#condition); \
		abort(); \
	} \
} while (0)

#endif
