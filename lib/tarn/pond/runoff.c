/* SPDX-License-Identifier: MIT */
#include "tarn/pond.h"

double tarn_runoff(double rain_mm, double curve_number)
{
	double s_mm, left_mm;

	if (!(rain_mm >= 0 && isfinite(rain_mm)) ||
	    !(curve_number >= 1 && curve_number <= 100))
		return TARN_NAN;
	s_mm = 25.4 * (1000 / curve_number - 10);
	left_mm = rain_mm - 0.2 * s_mm;
	if (left_mm <= 0)
		return 0;
	return left_mm * left_mm / (rain_mm + 0.8 * s_mm);
}
