/* SPDX-License-Identifier: MIT */
#include "tarn/season.h"

/* Rows of what season.h gives. */

#define T struct tarn_season_week
static const struct tarn_field week_rows[] = {
	TARN_OUT_WHOLE(T, week, "week", "-", "of the year, ISO 8601"),
	TARN_OUT_TEXT(T, about, "about",
		      "month and day about which it begins"),
	TARN_SECTION(T, topup_m3, "topup", tarn_spread_fields,
		     "top-up of the week over the years [m3]"),
	TARN_SECTION(T, drop_mm, "drop_mm", tarn_spread_fields,
		     "fall of the level by the losses alone [mm]"),
};
TARN_FIELDS(tarn_season_week_fields, "week", week_rows);
#undef T

#define T struct tarn_season_month
static const struct tarn_field month_rows[] = {
	TARN_OUT_WHOLE(T, month, "month", "-", "of the year"),
	TARN_OUT_COUNT(T, whole, "whole", "-",
		       "whole months that the means are of"),
	TARN_INCLUDED(T, flows, tarn_flows_fields),
	TARN_OUT_NUMBER(T, drop_mm, "drop_mm", "mm",
			"fall of the level by the losses alone, mean"),
	TARN_OUT_NUMBER(T, a_week_m3, "a_week", "m3",
			"top-up, a week's share of the month"),
	TARN_SECTION(T, daily, "daily", tarn_flows_fields,
		     "mean of a day, of all days of the month"),
	TARN_SECTION(T, weeks_topup_m3, "weeks_topup", tarn_spread_fields,
		     "top-up of its weeks [m3]"),
	TARN_SECTION(T, weeks_drop_mm, "weeks_drop_mm", tarn_spread_fields,
		     "fall of the level in its weeks [mm]"),
};
TARN_FIELDS(tarn_season_month_fields, "month", month_rows);
#undef T

#define T struct tarn_season
static const struct tarn_field season_rows[] = {
	TARN_OUT_COUNT(T, days, "days", "d", "of the ledger"),
	TARN_OUT_NUMBER(T, years, "years", "-", "days / 365.25"),
	TARN_OUT_NUMBER(T, a_week_m3, "a_week", "m3", "top-up, mean"),
	TARN_OUT_NUMBER(T, a_year_m3, "a_year", "m3", "top-up, mean"),
	TARN_OUT_COUNT(T, whole_years, "whole_years", "-",
		       "that the ledger has"),
	TARN_SECTION(T, year_topup_m3, "year_topup", tarn_spread_fields,
		     "top-up of whole years [m3]"),
	TARN_SECTION(T, year_peak_m3, "year_peak", tarn_spread_fields,
		     "largest week of each whole year, ISO 8601 [m3]"),
	TARN_OUT_SWITCH(T, has_dry_year, "has_dry_year",
			"there are whole years enough to tell a dry one"),
	TARN_OUT_SWITCH(T, few_years, "few_years",
			"so few whole years that percentiles are rough"),
	TARN_OUT_SWITCH(T, few_days, "few_days",
			"so few days that bounds of a week are rough"),
	TARN_OUT_WHOLE(T, peak_month, "peak_month", "-",
		       "that takes most top-up a day; 0: none takes any"),
	TARN_LIST(T, month, months, "months", tarn_season_month_fields, 0,
		  "of the year, over the years"),
	TARN_LIST(T, week, weeks, "weeks", tarn_season_week_fields, 0,
		  "of the year, over the years"),
};
TARN_FIELDS(tarn_season_fields, "season", season_rows);
#undef T

#define T struct tarn_absence_month
static const struct tarn_field absence_month_rows[] = {
	TARN_OUT_WHOLE(T, month, "month", "-", "of leaving"),
	TARN_OUT_NUMBER(T, worst, "worst", "d", "of every known start"),
	TARN_OUT_NUMBER(T, p10, "p10", "d", "one start in ten is shorter"),
	TARN_OUT_NUMBER(T, p50, "p50", "d", "the middle start"),
	TARN_OUT_COUNT(T, starts, "starts", "-",
		       "that the percentiles are of"),
};
TARN_FIELDS(tarn_absence_month_fields, "month", absence_month_rows);
#undef T

#define T struct tarn_absence
static const struct tarn_field absence_rows[] = {
	TARN_OUT_WHOLE(T, horizon, "horizon", "d",
		       "days beyond which nothing is told"),
	TARN_LIST(T, month, months, "months", tarn_absence_month_fields, 0,
		  "how long the pond lasts, by the month of leaving"),
};
TARN_FIELDS(tarn_absence_fields, "absence", absence_rows);
#undef T
