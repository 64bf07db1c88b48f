/* SPDX-License-Identifier: MIT */
#ifndef BED_ROWS_H
#define BED_ROWS_H

/*
 * Tables of the bed's tests: what we get, what is printed, half its last
 * digit, where it is printed.  Tests named 'published' hold values that a
 * source prints; 'published_inputs_regression' and 'regression' values that we
 * computed from a source's inputs or our own; 'from_memory' recalled ones.
 */

#include "published.h"
#include "tarn/bed.h"

#define DAY 86400.0
#define LENGTH(a) (sizeof(a) / sizeof((a)[0]))

struct bed_row {
	const char *id;
	double got, want, tol;
	const char *source;
};

static inline void check_rows(const char *file, const char *known,
			      const struct bed_row rows[], size_t count)
{
	for (size_t i = 0; i < count; i++)
		published_check(file, known, rows[i].source, rows[i].id,
				rows[i].got, rows[i].want, rows[i].tol);
}

#define CHECK_AS(known, rows) check_rows(__FILE__, known, rows, LENGTH(rows))
#define CHECK_PRINTED(rows) CHECK_AS("seen", rows)
#define CHECK_QUOTED(rows) CHECK_AS("second-hand", rows)
#define CHECK_RECALLED(rows) CHECK_AS("from memory", rows)
#define CHECK_ROWS(rows) CHECK_AS(NULL, rows)

/* |a - b| small against b */
static inline int near(double a, double b, double relative)
{
	return fabs(a - b) <= relative * fabs(b);
}

#endif
