/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_HYETOGRAPH_H
#define TARN_FORMULAS_HYETOGRAPH_H

/*
 * hyetograph: how the rain of a storm is spread over its time.  Part of
 * flow.h, whose first lines give the units and conventions.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * Local depths of rain of one return period, by duration, and the step of the
 * storm that is made of them.
 *
 * Depth between two rows: a straight line of log depth over log duration
 * (common practice, no source).  Shorter than the first row the intensity is
 * that of the first row: no burst is made that the table does not know.
 *
 * Note: a storm of one intensity for a day understates the burst that sizes
 * an overflow many times over.  Take a table that begins at 5 minutes.
 */
struct tarn_rain_table {
	const double *duration_s, *depth_mm;	/* borrowed, rising */
	size_t count;				/* >= 2 */
	double step_s;				/* 1 .. 86400, default 60; not
						   above the first duration,
						   which it would level out */
};
TARN_API struct tarn_rain_table tarn_rain_table_default(void);
TARN_API extern const struct tarn_fields tarn_rain_table_fields;

/*
 * Nested storm by alternating blocks: block k has the depth of k steps less
 * that of k - 1; the first stands in the middle (of an even number, the one
 * before it), the next to its right, then left, right ...  So the k blocks
 * about the middle hold the table's depth of k steps, for every k.
 *
 *   blocks    of the storm, 1 .. ; it lasts blocks * step_s, at most the
 *             table's last duration
 *   depth_mm  filled, one a block                                [mm]
 *
 * It holds every duration at once: safe for peaks, too wet for volumes.
 * Where the table's depth bends upwards, as rounded tables do here and there,
 * another window than the middle one holds a little more than the table: 0.13 %
 * in the table of the tests.
 *
 * Source: alternating block method, e.g. Chow, Maidment & Mays 1988, Applied
 *         Hydrology, section 14.4 (from memory).
 * Errors: TARN_EARG: fewer than two rows; durations that do not rise, depths
 *         that fall, a mean intensity that rises with duration; a step above
 *         the first duration; a storm longer than the table.
 */
TARN_API enum tarn_status
tarn_nested_storm(const struct tarn_rain_table *table, size_t blocks,
		  double *depth_mm, struct tarn_error *err);

#ifdef __cplusplus
}
#endif
#endif
