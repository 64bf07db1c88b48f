/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/pond/basin.h"

#define ROWS_MAX 100000

struct tarn_basin *tn_basin_make(const struct tarn_alloc *alloc, size_t rows)
{
	struct tarn_basin *b = tarn_resize(alloc, NULL, sizeof *b);

	if (!b)
		return NULL;
	b->alloc = alloc;
	b->rows = rows;
	b->scale = 1;
	b->level_m = tarn_resize(alloc, NULL, 4 * rows * sizeof(double));
	if (!b->level_m) {
		tarn_resize(alloc, b, 0);
		return NULL;
	}
	b->area_m2 = b->level_m + rows;
	b->volume_m3 = b->area_m2 + rows;
	b->growth_m = b->volume_m3 + rows;
	return b;
}

void tarn_basin_free(struct tarn_basin *b)
{
	if (!b)
		return;
	tarn_resize(b->alloc, b->level_m, 0);
	tarn_resize(b->alloc, b, 0);
}

void tn_basin_integrate(struct tarn_basin *b)
{
	const double *area_m2 = b->area_m2;

	b->volume_m3[0] = 0;
	for (size_t i = 0; i + 1 < b->rows; i++) {
		double dh = b->level_m[i + 1] - b->level_m[i];

		b->volume_m3[i + 1] = b->volume_m3[i] +
				      (area_m2[i] + area_m2[i + 1]) / 2 * dh;
		b->growth_m[i] = dh > 0
			? 2 * ((area_m2[i + 1] - area_m2[i]) / dh) : 0;
	}
}

static enum tarn_status check_rows(const double *level_m,
				   const double *area_m2, size_t count,
				   struct tarn_error *err)
{
	static const char name[] = "basin.table";

	if (count < 2 || count > ROWS_MAX)
		return tarn_fail(err, TARN_EARG, name, "needs 2 to %d rows of "
				 "level and area, got %zu", ROWS_MAX, count);
	for (size_t i = 0; i < count; i++) {
		if (!isfinite(level_m[i]) || !isfinite(area_m2[i]))
			return tarn_fail(err, TARN_EARG, name, "row %zu: level "
					 "or area is not a number", i + 1);
		if (!(area_m2[i] > 0) && !(i == 0 && area_m2[i] >= 0))
			return tarn_fail(err, TARN_EARG, name, "row %zu: area "
					 "must be above 0 m2, got %g", i + 1,
					 area_m2[i]);
		if (i > 0 && !(level_m[i] > level_m[i - 1]))
			return tarn_fail(err, TARN_EARG, name, "row %zu: levels "
					 "must rise from the floor up, got %g m "
					 "after %g m", i + 1, level_m[i],
					 level_m[i - 1]);
		if (i > 0 && area_m2[i] < area_m2[i - 1])
			return tarn_fail(err, TARN_EARG, name, "row %zu: area "
					 "must not shrink upward, got %g m2 "
					 "after %g m2", i + 1, area_m2[i],
					 area_m2[i - 1]);
	}
	return TARN_OK;
}

enum tarn_status tarn_basin_table(struct tarn_basin **out,
				  const struct tarn_alloc *alloc,
				  const double *level_m, const double *area_m2,
				  size_t count, struct tarn_error *err)
{
	enum tarn_status status = check_rows(level_m, area_m2, count, err);
	struct tarn_basin *b;

	*out = NULL;
	if (status != TARN_OK)
		return status;
	b = tn_basin_make(alloc, count);
	if (!b)
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	for (size_t i = 0; i < count; i++) {
		b->level_m[i] = level_m[i];
		b->area_m2[i] = area_m2[i];
	}
	tn_basin_integrate(b);
	*out = b;
	return TARN_OK;
}

double tarn_basin_floor(const struct tarn_basin *b)
{
	return b->level_m[0];
}

double tarn_basin_top(const struct tarn_basin *b)
{
	return b->level_m[b->rows - 1];
}

double tarn_basin_scale(const struct tarn_basin *b)
{
	return b->scale;
}

/* Segment of a level, by halving; the upper one where two meet. */
static size_t seek_level(const struct tarn_basin *b, double level_m)
{
	size_t lo = 0, hi = b->rows - 1;

	while (hi - lo > 1) {
		size_t mid = lo + (hi - lo) / 2;

		if (level_m >= b->level_m[mid])
			lo = mid;
		else
			hi = mid;
	}
	return lo;
}

static int within(const struct tarn_basin *b, double level_m)
{
	return level_m >= tarn_basin_floor(b) && level_m <= tarn_basin_top(b);
}

static double area_at(const struct tarn_basin *b, size_t i, double level_m)
{
	double dh = b->level_m[i + 1] - b->level_m[i];

	if (!(dh > 0))
		return b->area_m2[i + 1];
	return b->area_m2[i] + (b->area_m2[i + 1] - b->area_m2[i]) *
	       ((level_m - b->level_m[i]) / dh);
}

double tarn_basin_area(const struct tarn_basin *b, double level_m)
{
	if (!within(b, level_m))
		return TARN_NAN;
	return area_at(b, seek_level(b, level_m), level_m);
}

double tarn_basin_volume(const struct tarn_basin *b, double level_m)
{
	size_t i;

	if (!within(b, level_m))
		return TARN_NAN;
	i = seek_level(b, level_m);
	return b->volume_m3[i] + (b->area_m2[i] + area_at(b, i, level_m)) / 2 *
	       (level_m - b->level_m[i]);
}

double tarn_basin_level(const struct tarn_basin *b, double volume_m3)
{
	size_t i;

	if (!(volume_m3 >= 0 && volume_m3 <= b->volume_m3[b->rows - 1]))
		return TARN_NAN;
	i = basin_seek(b, volume_m3, b->rows / 2);
	return basin_level_in(b, i, volume_m3,
			      basin_area_in(b, i, volume_m3));
}
