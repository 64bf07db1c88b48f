/* SPDX-License-Identifier: MIT */
#include "internal.h"

#define IN struct tarn_rain_table
static const struct tarn_field rows[] = {
	TARN_IN_VALUE(IN, step_s, "step", "s", 1, 86400, 60, "of the storm"),
	TARN_IN_COLUMNS(IN, duration_s, depth_mm, count, "table", "s, mm",
			"{ duration, depth of rain }, rising"),
};
TARN_FIELDS(tarn_rain_table_fields, "rain", rows);
TARN_DEFAULT(IN, tarn_rain_table_default, tarn_rain_table_fields)

/* A depth is read off a printed table, in hundredths of an inch: a mean
 * intensity that rises by less than 1 in 1000 is its rounding. */
#define ROUNDING 1e-3

static enum tarn_status check_row(const struct tarn_rain_table *t, size_t i,
				  struct tarn_error *err)
{
	double d = t->duration_s[i], p = t->depth_mm[i];

	if (!(d > 0 && d < HUGE_VAL && p > 0 && p < HUGE_VAL))
		return tarn_fail(err, TARN_EARG, "rain.table", "row %zu must "
				 "be a duration and a depth above zero, got "
				 "%g s and %g mm", i + 1, d, p);
	if (i == 0)
		return TARN_OK;
	if (!(d > t->duration_s[i - 1]))
		return tarn_fail(err, TARN_EARG, "rain.table", "row %zu: "
				 "durations must rise, got %g s after %g s",
				 i + 1, d, t->duration_s[i - 1]);
	if (!(p >= t->depth_mm[i - 1]))
		return tarn_fail(err, TARN_EARG, "rain.table", "row %zu: a "
				 "longer time has no less rain, got %g mm "
				 "after %g mm; are these intensities?", i + 1,
				 p, t->depth_mm[i - 1]);
	if (p / d > t->depth_mm[i - 1] / t->duration_s[i - 1] * (1 + ROUNDING))
		return tarn_fail(err, TARN_EARG, "rain.table", "row %zu: the "
				 "mean intensity must not rise with duration, "
				 "got %g mm in %g s", i + 1, p, d);
	return TARN_OK;
}

static enum tarn_status check(const struct tarn_rain_table *t, size_t blocks,
			      struct tarn_error *err)
{
	if (tarn_fields_check(&tarn_rain_table_fields, t, err) != TARN_OK)
		return TARN_EARG;
	if (t->count < 2)
		return tarn_fail(err, TARN_EARG, "rain.table", "needs two rows "
				 "of duration and depth or more");
	for (size_t i = 0; i < t->count; i++)
		if (check_row(t, i, err) != TARN_OK)
			return TARN_EARG;
	if (t->step_s > t->duration_s[0])
		return tarn_fail(err, TARN_EARG, "rain.step", "must not be "
				 "longer than the table's first duration, %g "
				 "s, got %g s: it would level the burst out",
				 t->duration_s[0], t->step_s);
	/* 1e-9: a last duration that is a whole number of steps but for the
	 * rounding of its unit */
	if (blocks < 1 || (double)blocks * t->step_s >
			  t->duration_s[t->count - 1] * (1 + 1e-9))
		return tarn_fail(err, TARN_EARG, "rain.blocks", "must be 1 up "
				 "to the table's last duration, %g s, got %zu "
				 "of %g s", t->duration_s[t->count - 1],
				 blocks, t->step_s);
	return TARN_OK;
}

static double depth_of(const struct tarn_rain_table *t, double time_s)
{
	const double *d = t->duration_s, *p = t->depth_mm;
	size_t i = 1;

	if (time_s <= d[0])
		return p[0] * time_s / d[0];
	while (i + 1 < t->count && d[i] < time_s)
		i++;
	return p[i - 1] * pow(p[i] / p[i - 1], log(time_s / d[i - 1]) /
					       log(d[i] / d[i - 1]));
}

enum tarn_status tarn_nested_storm(const struct tarn_rain_table *table,
				   size_t blocks, double *depth_mm,
				   struct tarn_error *err)
{
	double before = 0;

	if (check(table, blocks, err) != TARN_OK)
		return TARN_EARG;
	for (size_t k = 1; k <= blocks; k++) {
		double depth = depth_of(table, (double)k * table->step_s);
		size_t middle = (blocks - 1) / 2, off = k / 2;

		depth_mm[k % 2 ? middle - off : middle + off] = depth - before;
		before = depth;
	}
	return TARN_OK;
}
