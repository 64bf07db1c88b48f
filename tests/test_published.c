/* SPDX-License-Identifier: MIT */
#include "published.h"

/* The rules by which tests/published.h compares. */

static void half(double want, double tol, double expected)
{
	double got = published_half_digit(want, tol);

	cr_expect(fabs(got - expected) <= 1e-9 * expected,
		  "%g +- %g: got %g, want %g", want, tol, got, expected);
}

Test(published, half_digit)
{
	half(0.34, 0.3, 0.005);
	half(1.5e-7, 1, 0.5e-8);
	half(83970, 100, 0.5);
	half(-0.193, 0.01, 0.0005);
	/* zeros at the end, told by the tolerance */
	half(2, 0.05, 0.05);
	half(2, 0.06, 0.05);
	half(0.7, 0.005, 0.005);
	/* a constant, compared closer than it is printed */
	half(0.8485, 1e-12, 5e-5);
	half(150, 0, 0.5);
}

Test(published, tolerance_without_reason_is_the_printed_digit)
{
	const char *why;

	because("Trussell", "a reason of some length");
	because("N14", "another of some length");
	cr_expect(published_tolerance("Emerson", "N03", 0.3, 0.005, &why) ==
		  0.005 && *why == '\0');
	cr_expect(published_tolerance("Trussell 1972", "N20", 0.3, 0.005,
				      &why) == 0.3);
	cr_expect_str_eq(why, "a reason of some length");
	cr_expect(published_tolerance("Emerson", "N14", 0.3, 0.005, &why) ==
		  0.3);
	cr_expect_str_eq(why, "another of some length");
	/* finer than print: its own, and no reason is recorded */
	cr_expect(published_tolerance("Emerson", "N14", 1e-6, 0.005, &why) ==
		  1e-6 && *why == '\0');
}
