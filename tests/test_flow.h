/* SPDX-License-Identifier: MIT */
#ifndef TEST_FLOW_H
#define TEST_FLOW_H

/* Shared by test_flow_*.c: US units as factors, and two comparisons. */

#include "published.h"
#include "tarn/flow.h"

#define FT 0.3048
#define INCH 0.0254
#define GPM (3.785411784e-3 / 60)
#define CFS (FT * FT * FT)
#define PI 3.14159265358979323846
#define ROOT_FT 0.5520869496736904	/* ft^0.5/s in m^0.5/s */
#define COUNT(a) (sizeof(a) / sizeof((a)[0]))

static inline void near(const char *what, double got, double want,
			double tolerance)
{
	published_check(NULL, NULL, "", what, got, want, tolerance);
}

static inline void close_to(const char *what, double got, double want,
			    double relative)
{
	cr_expect(fabs(got - want) <= relative * fabs(want),
		  "%s: got %.17g, want %.17g within %g of it", what, got, want,
		  relative);
}

#endif
