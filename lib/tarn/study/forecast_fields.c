/* SPDX-License-Identifier: MIT */
#include "tarn/forecast.h"

/* Rows of what forecast.h takes and gives. */

#define T struct tarn_forecast_options
static const struct tarn_field option_rows[] = {
	TARN_IN_WHOLE(T, worlds, "worlds", "-", TARN_FORECAST_WORLDS_LEAST,
		      TARN_FORECAST_WORLDS_MOST, TARN_FORECAST_WORLDS,
		      "that are drawn"),
	TARN_IN_WHOLE(T, seed, "seed", "-", 0, 2147483647, 1,
		      "the same seed gives the same figures"),
	TARN_IN_VALUE(T, rain_sd, "rain_sd", "-", 0, 0.2, TARN_RAIN_SD,
		      "standard deviation of the factor on rain"),
};
TARN_FIELDS(tarn_forecast_options_fields, "", option_rows);
#undef T
TARN_DEFAULT(struct tarn_forecast_options, tarn_forecast_options_default,
	     tarn_forecast_options_fields)

#define T struct tarn_forecast_range
static const struct tarn_field range_rows[] = {
	TARN_OUT_COUNT(T, count, "count", "-", "periods that the weather has"),
	TARN_OUT_NUMBER(T, mean_m3, "mean", "m3", "over years and worlds"),
	TARN_OUT_NUMBER(T, sd_m3, "sd", "m3", "standard deviation of these"),
	TARN_OUT_NUMBER(T, p10_m3, "p10", "m3", "in 1 of 10 it is less"),
	TARN_OUT_NUMBER(T, p50_m3, "p50", "m3", "in 5 of 10 it is less"),
	TARN_OUT_NUMBER(T, p90_m3, "p90", "m3", "in 9 of 10 it is less"),
	TARN_OUT_NUMBER(T, weather_p10_m3, "weather_p10", "m3",
			"of the years alone, at a site in the middle"),
	TARN_OUT_NUMBER(T, weather_p90_m3, "weather_p90", "m3", "likewise"),
	TARN_OUT_NUMBER(T, site_p10_m3, "site_p10", "m3",
			"of the sites alone, each one's mean of the years"),
	TARN_OUT_NUMBER(T, site_p90_m3, "site_p90", "m3", "likewise"),
	TARN_OUT_NUMBER(T, weather_share, "weather_share", "-",
			"of the variance, between years"),
	TARN_OUT_NUMBER(T, site_share, "site_share", "-",
			"of the variance, between sites"),
	TARN_OUT_NUMBER(T, by_ln_m3, "by_ln", "m3",
			"so far the mean of years moves with ln f"),
};
TARN_FIELDS(tarn_forecast_range_fields, "range", range_rows);
#undef T

#define T struct tarn_forecast_month
static const struct tarn_field month_rows[] = {
	TARN_OUT_WHOLE(T, month, "month", "-", "of the year"),
	TARN_OUT_NUMBER(T, days, "days", "d", "that it has, 28.25 in February"),
	TARN_SECTION(T, a_week, "a_week", tarn_forecast_range_fields,
		     "top-up, a week's share of the month"),
	TARN_SECTION(T, week_m3, "week", tarn_spread_fields,
		     "top-up of its single weeks [m3]"),
	TARN_SECTION(T, drop_mm, "drop_mm", tarn_spread_fields,
		     "fall in these by the losses alone [mm]"),
	TARN_OUT_NUMBER(T, look_mm, "look_mm", "mm",
			"fall in a week from which to look"),
	TARN_OUT_NUMBER(T, act_mm, "act_mm", "mm",
			"fall in a week from which to act"),
};
TARN_FIELDS(tarn_forecast_month_fields, "month", month_rows);
#undef T

#define T struct tarn_forecast_week
static const struct tarn_field week_rows[] = {
	TARN_OUT_WHOLE(T, week, "week", "-", "of the year, ISO 8601"),
	TARN_OUT_TEXT(T, about, "about",
		      "month and day about which it begins"),
	TARN_SECTION(T, topup_m3, "topup", tarn_spread_fields,
		     "top-up of the week [m3]"),
};
TARN_FIELDS(tarn_forecast_week_fields, "week", week_rows);
#undef T

#define T struct tarn_forecast
static const struct tarn_field forecast_rows[] = {
	TARN_OUT_COUNT(T, days, "days", "d", "of the weather"),
	TARN_OUT_COUNT(T, worlds, "worlds", "-", "that were drawn"),
	TARN_SECTION(T, a_week, "a_week", tarn_forecast_range_fields,
		     "top-up, a week's share of all days"),
	TARN_SECTION(T, year, "year", tarn_forecast_range_fields,
		     "top-up of a whole year"),
	TARN_OUT_WHOLE(T, peak_month, "peak_month", "-",
		       "that takes most top-up a day; 0: none takes any"),
	TARN_LIST(T, month, months, "months", tarn_forecast_month_fields, 0,
		  "of the year, over the years"),
	TARN_LIST(T, week, weeks, "weeks", tarn_forecast_week_fields, 0,
		  "of the year, over the years"),
};
TARN_FIELDS(tarn_forecast_fields, "forecast", forecast_rows);
#undef T

static const char *const remedies[] = {
	[TARN_REMEDY_BUCKET] = "bucket",
	[TARN_REMEDY_SUN] = "sun",
	[TARN_REMEDY_STATION] = "station",
	[TARN_REMEDY_WIND] = "wind",
	[TARN_REMEDY_WORDS] = "words",
	[TARN_REMEDIES] = NULL
};

const char *tarn_remedy_name(enum tarn_remedy m)
{
	return (unsigned)m < TARN_REMEDIES ? remedies[m] : "unknown";
}

#define T struct tarn_worth
static const struct tarn_field worth_rows[] = {
	TARN_OUT_CHOICE(T, remedy, "remedy", remedies, "what is done"),
	TARN_OUT_NUMBER(T, centre_sd_ln, "centre_sd_ln", "-",
			"deviation of ln f afterwards"),
	TARN_OUT_NUMBER(T, ratio, "ratio", "-",
			"P90 - P10 afterwards / before"),
	TARN_OUT_NUMBER(T, site_ratio, "site_ratio", "-",
			"likewise, of what sites alone do"),
	TARN_OUT_SWITCH(T, halves, "halves", "the range is halved or less"),
};
TARN_FIELDS(tarn_worth_fields, "worth", worth_rows);
#undef T
