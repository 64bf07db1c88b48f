/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "internal.h"
#include "tarn/base/rows.h"

/*
 * Bounds: ours.  Temperature and rain follow what has been recorded where
 * people have gardens; radiation stays above the most that reaches the top of
 * the atmosphere anywhere in a day (about 46 MJ/m2); pressure spans -430 to
 * 6000 m.
 */
static const struct tarn_column_info columns[TARN_COLUMNS] = {
	[TARN_TMIN] = { "tmin", "deg C", "lowest air temperature", -70, 60 },
	[TARN_TMAX] = { "tmax", "deg C", "highest air temperature", -60, 60 },
	[TARN_TMEAN] = { "tmean", "deg C", "mean air temperature", -65, 60 },
	[TARN_RH_MIN] = { "rh_min", "%", "lowest relative humidity", 0, 100 },
	[TARN_RH_MAX] = { "rh_max", "%", "highest relative humidity", 0, 100 },
	[TARN_RH_MEAN] = { "rh_mean", "%", "mean relative humidity", 0, 100 },
	[TARN_DEWPOINT] = { "dewpoint", "deg C", "mean dew point", -80, 40 },
	[TARN_VAPOUR] = { "vapour", "kPa", "mean actual vapour pressure", 0,
			  8 },
	[TARN_WIND] = { "wind", "m/s", "mean wind speed at the wind height", 0,
			60 },
	[TARN_SUNSHINE] = { "sunshine", "h", "bright sunshine", 0, 24 },
	[TARN_SOLAR] = { "solar", "MJ/m2", "global radiation of the day", 0,
			 50 },
	[TARN_RAIN] = { "rain", "mm", "precipitation", 0, 1500 },
	[TARN_PAN] = { "pan", "mm", "Class A pan evaporation", 0, 40 },
	[TARN_REFERENCE] = { "reference", "mm",
			     "given grass reference evapotranspiration", 0,
			     20 },
	[TARN_OPEN_WATER] = { "open_water", "mm",
			      "given open-water evaporation", 0, 30 },
	[TARN_PRESSURE] = { "pressure", "kPa",
			    "mean air pressure at the station", 45, 110 },
};

const struct tarn_column_info *tarn_column_info(enum tarn_column c)
{
	return (unsigned)c < TARN_COLUMNS ? &columns[c] : NULL;
}

enum tarn_column tarn_column_find(const char *name)
{
	for (int c = 0; c < TARN_COLUMNS; c++)
		if (strcmp(columns[c].name, name) == 0)
			return (enum tarn_column)c;
	return TARN_COLUMNS;
}

static const char *nearest(const char *name)
{
	const char *best = NULL;
	int least = 4;

	for (int c = 0; c < TARN_COLUMNS; c++) {
		int far = tarn_name_distance(name, columns[c].name);

		if (far < least) {
			least = far;
			best = columns[c].name;
		}
	}
	return best;
}

enum tarn_status tarn_column_named(const char *name, enum tarn_column *out,
				   struct tarn_error *err)
{
	const char *near = nearest(name);
	char all[200] = "";
	size_t n = 0;

	*out = tarn_column_find(name);
	if (*out != TARN_COLUMNS)
		return TARN_OK;
	tn_rows_note(err, TARN_MISTAKE_CHOICE, near);
	if (near)
		return tarn_fail(err, TARN_EARG, NULL, "no weather column is "
				 "called '%s': did you mean '%s'?", name, near);
	for (int c = 0; c < TARN_COLUMNS; c++)
		n += (size_t)snprintf(all + n, sizeof all - n, "%s%s",
				      c ? ", " : "", columns[c].name);
	return tarn_fail(err, TARN_EARG, NULL, "no weather column is called "
			 "'%s': they are %s", name, all);
}
