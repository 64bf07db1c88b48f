/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/design.h"

/* A factor that is given, and not left at that of an open field. */
static int told(double factor)
{
	return !isnan(factor) && (factor < 1 || factor > 1);
}

enum tarn_leak_site tarn_design_leak_site(const struct tarn_design *given)
{
	int wind = told(given->evaporation.shelter);
	int sun = told(given->evaporation.shade);

	if (wind && sun)
		return TARN_SITE_DESCRIBED;
	return wind || sun ? TARN_SITE_HALF_DESCRIBED : TARN_SITE_UNDESCRIBED;
}
