/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/study.h"

static int within(double x, double lo, double hi)
{
	return x >= lo && x <= hi && isfinite(x);
}

static int areas_make_sense(const struct tarn_budget *b)
{
	return within(b->reference, 0, HUGE_VAL) &&
	       within(b->unit, 0, HUGE_VAL) && within(b->area, 0, HUGE_VAL) &&
	       within(b->special_area, 0, HUGE_VAL);
}

double tarn_budget_allowance(const struct tarn_budget *b)
{
	if (!areas_make_sense(b) || !within(b->adjustment, 0, 1))
		return TARN_NAN;
	return b->reference * b->unit *
	       (b->adjustment * b->area +
		(1 - b->adjustment) * b->special_area);
}

double tarn_budget_use(const struct tarn_budget *b)
{
	if (!areas_make_sense(b) || !within(b->plant_factor, 0, 2) ||
	    !within(b->efficiency, 0, 1) || !(b->efficiency > 0))
		return TARN_NAN;
	return b->reference * b->unit *
	       (b->plant_factor * b->area / b->efficiency + b->special_area);
}
