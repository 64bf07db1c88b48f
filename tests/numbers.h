/* SPDX-License-Identifier: MIT */
#ifndef TESTS_NUMBERS_H
#define TESTS_NUMBERS_H

/*
 * Reads tests/data/NAME: a remark, a header, then rows of a date and
 * numbers.  Column 0 of the result is the day; an empty field is NaN.
 */

#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "tarn/base.h"

static inline size_t read_numbers(const char *name, size_t columns,
				  double *out, size_t rows)
{
	char path[200], line[500];
	size_t n = 0;
	FILE *f;

	snprintf(path, sizeof path, "tests/data/%s", name);
	f = fopen(path, "r");
	cr_assert(f, "cannot open %s", path);
	for (int skip = 0; skip < 2; skip++)
		cr_assert(fgets(line, sizeof line, f));
	for (; n < rows && fgets(line, sizeof line, f); n++) {
		double *row = out + n * columns;
		char *at = line;

		for (size_t c = 0; c < columns; c++) {
			char *end = at + strcspn(at, ",\r\n");
			int last = *end != ',';

			*end = '\0';
			row[c] = *at ? strtod(at, NULL) : TARN_NAN;
			if (c == 0)
				row[c] = (double)tarn_day_parse(at);
			cr_assert(last == (c + 1 == columns), "%s row %zu",
				  path, n + 1);
			at = end + 1;
		}
	}
	fclose(f);
	return n;
}

#endif
