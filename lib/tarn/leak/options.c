/* SPDX-License-Identifier: MIT */
#include "tarn/leak.h"

#define SIXTEENTH (0.0254 / 16)
#define EIGHTH_MM 3.175		/* an eighth of an inch a day */

static const char *const sites[] = {
	"undescribed", "half_described", "described", "paved", "paved_alone",
	"measured", NULL
};
static const char *const meters[] = {
	"by_description", "hand", "float", NULL
};
static const char *const unnoted[] = { "refuse", "set_aside", NULL };

#define T struct tarn_leak_options
static const struct tarn_field leak_rows[] = {
	TARN_IN_VALUE(T, reading_sd_m, "reading_error", "m", 1e-5, 0.1,
		      SIXTEENTH, "standard deviation of one ruler reading"),
	TARN_IN_VALUE(T, step_m, "step", "m", 0, 0.1, 0,
		      "finest step of the ruler"),
	TARN_IN_CHOICE(T, site, "site", sites, TARN_SITE_UNDESCRIBED,
		       "how much of the pond's place is described"),
	TARN_IN_NUMBER(T, evaporation_mean, "evaporation_mean", "-", 0.1, 3,
		       TARN_NAN, "of the one factor on all evaporation, before "
		       "the log is read; by 'site'"),
	TARN_IN_NUMBER(T, evaporation_sd, "evaporation_error", "-", 0.001, 1,
		       TARN_NAN, "standard deviation of that; by 'site'"),
	TARN_IN_VALUE(T, slow_sd, "slow_error", "-", 0, 1, 0.08,
		      "of evaporation over some weeks, about that factor"),
	TARN_IN_VALUE(T, slow_days, "slow_days", "d", 5, 400, 30,
		      "that such a slow error lasts"),
	TARN_IN_VALUE(T, rain_sd, "rain_error", "-", 0.001, 1, 0.10,
		      "of the one factor on all rain, prior"),
	TARN_IN_VALUE(T, evaporation_noise, "evaporation_noise", "-", 0, 2,
		      0.25, "of single days' evaporation, relative"),
	TARN_IN_VALUE(T, rain_noise, "rain_noise", "-", 0, 2, 0.30,
		      "of single storms, relative"),
	TARN_IN_VALUE(T, other_noise_mm, "other_noise", "mm", 0, 100, 0.3,
		      "of a day's level: wind, splash, dew"),
	TARN_IN_VALUE(T, matters_mm_d, "matters", "mm/d", 0.01, 1000, EIGHTH_MM,
		      "a loss at the ruler that is worth searching for"),
	TARN_IN_NUMBER(T, zero_m, "zero", "m", -20, 20, TARN_NAN,
		       "level of the ruler's zero above the basin's floor"),
	TARN_IN_VALUE(T, hour, "hour", "h", 0, 24, 8,
		      "of readings without a time"),
	TARN_IN_SWITCH(T, counts_down, "counts_down", 1,
		       "the ruler counts down from a mark, by default at the "
		       "lip"),
	TARN_IN_CHOICE(T, meter, "meter", meters, TARN_METER_BY_DESCRIPTION,
		       "what fills the pond through the meter"),
	TARN_IN_VALUE(T, area_sd, "area_error", "-", 0, 0.5, 0.04,
		      "of the water's area in the description, relative"),
	TARN_IN_CHOICE(T, unnoted, "unnoted", unnoted, TARN_UNNOTED_REFUSE,
		       "a rise that neither rain nor a note explains"),
};
TARN_FIELDS(tarn_leak_fields, "leak", leak_rows);
#undef T
TARN_DEFAULT(struct tarn_leak_options, tarn_leak_options_default,
	     tarn_leak_fields)

#define T struct tarn_pair
static const struct tarn_field pair_rows[] = {
	TARN_IN_NUMBER(T, level_m, "level", "m", 0, 20, TARN_NAN,
		       "at the start of the test"),
	TARN_IN_VALUE(T, month, "month", "-", 1, 12, 7, "for the plant factor"),
	TARN_IN_VALUE(T, reading_sd_m, "reading_error", "m", 1e-5, 0.1,
		      SIXTEENTH, "standard deviation of one reading"),
	TARN_IN_VALUE(T, bucket_sd, "bucket_error", "-", 0, 1, 0.10,
		      "of the bucket's evaporation against the pond's, "
		      "relative"),
	TARN_IN_VALUE(T, weather_sd, "evaporation_error", "-", 0, 1, 0.25,
		      "of the weather's evaporation, where there is no bucket"),
	TARN_IN_VALUE(T, upper_sd, "upper_error", "-", 0, 2, 0.30,
		      "of what bed and stream evaporate, relative"),
	TARN_IN_VALUE(T, matters_mm_d, "matters", "mm/d", 0.01, 1000, EIGHTH_MM,
		      "a loss at the ruler that is worth searching for"),
};
TARN_FIELDS(tarn_pair_fields, "", pair_rows);

#define SIDE(side) { \
	TARN_IN_VALUE(T, side.hours, "hours", "h", 0, 1000, 0, \
		      "between the readings"), \
	TARN_IN_NUMBER(T, side.pond_drop_m, "drop", "m", -1, 1, TARN_NAN, \
		       "fall of the pond's level"), \
	TARN_IN_NUMBER(T, side.bucket_drop_m, "bucket", "m", -1, 1, TARN_NAN, \
		       "fall of the level in the bucket"), \
	TARN_IN_NUMBER(T, side.weather_mm_d, "weather", "mm/d", 0, 30, \
		       TARN_NAN, \
		       "open-water evaporation, where there is no bucket"), \
	TARN_IN_VALUE(T, side.rain_mm, "rain", "mm", 0, 500, 0, \
		      "above 0 the test is void"), \
}
static const struct tarn_field off_rows[] = SIDE(off), on_rows[] = SIDE(on);
TARN_FIELDS(tarn_pair_off_fields, "off", off_rows);
TARN_FIELDS(tarn_pair_on_fields, "on", on_rows);
#undef T

struct tarn_pair tarn_pair_default(void)
{
	struct tarn_pair p;

	tarn_fields_default(&tarn_pair_fields, &p);
	tarn_fields_default(&tarn_pair_off_fields, &p);
	tarn_fields_default(&tarn_pair_on_fields, &p);
	return p;
}
