/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/takeoff.h"

#define PI 3.14159265358979323846

static int all_positive(double a, double b, double c, double d)
{
	return a >= 0 && b >= 0 && c >= 0 && d >= 0;
}

double tarn_prismoid_m3(double a_m2, double middle_m2, double b_m2,
			double length_m)
{
	if (!all_positive(a_m2, middle_m2, b_m2, length_m))
		return TARN_NAN;
	return length_m / 6 * (a_m2 + 4 * middle_m2 + b_m2);
}

double tarn_end_area_m3(double a_m2, double b_m2, double length_m)
{
	if (!all_positive(a_m2, 0, b_m2, length_m))
		return TARN_NAN;
	return length_m / 2 * (a_m2 + b_m2);
}

double tarn_simpson_m3(const double *area_m2, size_t count, double spacing_m)
{
	double sum = 0;

	if (count < 3 || count % 2 == 0 || !(spacing_m >= 0))
		return TARN_NAN;
	for (size_t i = 0; i < count; i++) {
		int end = i == 0 || i == count - 1;

		if (!(area_m2[i] >= 0))
			return TARN_NAN;
		sum += area_m2[i] * (end ? 1 : i % 2 ? 4 : 2);
	}
	return spacing_m / 3 * sum;
}

double tarn_frustum_m3(double top_m, double bottom_m, double height_m)
{
	if (!all_positive(top_m, bottom_m, height_m, 0))
		return TARN_NAN;
	return PI / 12 * height_m *
	       (top_m * top_m + top_m * bottom_m + bottom_m * bottom_m);
}

double tarn_shoreline_area_m2(double shoreline_m)
{
	return shoreline_m >= 0 ? shoreline_m * shoreline_m / (4 * PI)
				: TARN_NAN;
}

double tarn_loose_m3(double bank_m3, double swell)
{
	return bank_m3 >= 0 && swell >= 0 ? bank_m3 * (1 + swell) : TARN_NAN;
}

double tarn_swell(double bank_kgm3, double loose_kgm3)
{
	if (!(loose_kgm3 > 0 && bank_kgm3 >= loose_kgm3))
		return TARN_NAN;
	return bank_kgm3 / loose_kgm3 - 1;
}

double tarn_shrink(double bank_kgm3, double compacted_kgm3)
{
	if (!(bank_kgm3 > 0 && compacted_kgm3 >= bank_kgm3))
		return TARN_NAN;
	return 1 - bank_kgm3 / compacted_kgm3;
}

double tarn_loads(double amount, double load)
{
	if (!(amount >= 0 && load > 0))
		return TARN_NAN;
	return ceil(amount / load * (1 - 1e-12));	/* 7 in 7 is one */
}

double tarn_liner_rule_m(double side_m, double depth_m, double overlap_m)
{
	if (!all_positive(side_m, depth_m, overlap_m, 0))
		return TARN_NAN;
	return side_m + 2 * depth_m + overlap_m;
}
