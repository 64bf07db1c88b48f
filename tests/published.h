/* SPDX-License-Identifier: MIT */
#ifndef TESTS_PUBLISHED_H
#define TESTS_PUBLISHED_H

/*
 * A table of published values: what, got, want, tolerance, source.  The
 * tolerance is half the last printed digit unless a comment says why not.
 */

#include <criterion/criterion.h>
#include <math.h>
#include <stddef.h>

struct published {
	const char *what;
	double got, want, tol;
};

#define EXPECT_ROWS(source, rows) \
	expect_rows(source, rows, sizeof rows / sizeof rows[0])

static inline void expect_rows(const char *source, const struct published *rows,
			       size_t count)
{
	for (size_t i = 0; i < count; i++)
		cr_expect(fabs(rows[i].got - rows[i].want) <=
				  rows[i].tol * (1 + 1e-9),
			  "%s, %s: got %.9g, want %.9g +- %g", source,
			  rows[i].what, rows[i].got, rows[i].want,
			  rows[i].tol);
}

#define EXPECT_NAN(x) cr_expect(isnan(x), "%s must be NaN, is %g", #x, x)
#define EXPECT_OK(x) cr_expect(isfinite(x), "%s must be a number", #x)

#endif
