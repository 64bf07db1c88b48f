/* SPDX-License-Identifier: MIT */
#ifndef TESTS_ENDS_H
#define TESTS_ENDS_H

/*
 * Both ends of the ranges that a header states: the value at the end, worked
 * out by hand; ANY where only a finite number is asked; NaN just outside.
 */

#include <criterion/criterion.h>
#include <math.h>

#include "tarn.h"

#define ANY HUGE_VAL
#define NONE TARN_NAN
#define BIT 1e-9	/* just outside, or just inside */

struct end {
	const char *what;
	double got, want;
};

static inline void check_ends(const struct end *e, size_t count)
{
	for (size_t i = 0; i < count; i++) {
		double got = e[i].got, want = e[i].want;

		if (isnan(want))
			cr_expect(isnan(got), "%s: %.12g, want none", e[i].what,
				  got);
		else if (isinf(want))
			cr_expect(isfinite(got), "%s: %g, want a number",
				  e[i].what, got);
		else
			cr_expect(fabs(got - want) <= 1e-12 * fmax(1, fabs(want)),
				  "%s: %.15g, want %.15g", e[i].what, got, want);
	}
}

#define CHECK_ENDS(rows) check_ends(rows, sizeof (rows) / sizeof (rows)[0])

#endif
