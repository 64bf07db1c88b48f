/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "tarn/study.h"

static const struct tarn_quantity_info quantities[TARN_QUANTITIES] = {
	{ "topup", "m3", "top-up from the supply, whole run" },
	{ "year_mean", "m3", "top-up of a year, mean of whole years" },
	{ "year_p10", "m3", "top-up of a year, less in 1 of 10" },
	{ "year_p50", "m3", "top-up of a year, median" },
	{ "year_p90", "m3", "top-up of a year, more in 1 of 10" },
	{ "year_max", "m3", "top-up of a year, largest" },
	{ "week_max", "m3", "top-up of a week, largest of the run" },
	{ "week_p50", "m3", "largest week of a year, median" },
	{ "week_p90", "m3", "largest week of a year, more in 1 of 10" },
	{ "month_max", "m3", "top-up of the largest mean month" },
	{ "month_at", "-", "which month that is, 1 to 12" },
	{ "overflow", "m3", "over the lip, whole run" },
	{ "lowest_level", "m", "lowest level of all evenings" },
	{ "end_level", "m", "level at the end" },
	{ "under_intake", "d", "days that end under the intake" },
	{ "restricted", "d", "days on which top-up was refused" },
	{ "tank", "m3", "top-up from the rain tank, whole run" },
	{ "tank_share", "-", "share of the need that the tank gave" },
	{ "roof", "m3", "roof water that came to the tank" },
	{ "tank_spill", "m3", "roof water that the tank could not hold" },
	{ "tank_empty", "d", "days that end with an empty tank" },
	{ "need", "m3", "top-up of the same pond without restriction" },
	{ "january", "m3", "top-up of a mean January" },
	{ "february", "m3", "top-up of a mean February" },
	{ "march", "m3", "top-up of a mean March" },
	{ "april", "m3", "top-up of a mean April" },
	{ "may", "m3", "top-up of a mean May" },
	{ "june", "m3", "top-up of a mean June" },
	{ "july", "m3", "top-up of a mean July" },
	{ "august", "m3", "top-up of a mean August" },
	{ "september", "m3", "top-up of a mean September" },
	{ "october", "m3", "top-up of a mean October" },
	{ "november", "m3", "top-up of a mean November" },
	{ "december", "m3", "top-up of a mean December" },
};

const struct tarn_quantity_info *tarn_quantity_info(enum tarn_quantity q)
{
	return (unsigned)q < TARN_QUANTITIES ? &quantities[q] : NULL;
}

enum tarn_quantity tarn_quantity_find(const char *name)
{
	int q = 0;

	while (q < TARN_QUANTITIES && strcmp(quantities[q].name, name) != 0)
		q++;
	return (enum tarn_quantity)q;
}
