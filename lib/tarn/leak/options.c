/* SPDX-License-Identifier: MIT */
#include "tarn/leak.h"

#define LEAK(name, member, lo, hi, required, unit, meaning) \
	{ name, TARN_FIELD_NUMBER, \
	  offsetof(struct tarn_leak_options, member), lo, hi, required, unit, \
	  NULL, meaning }
#define PAIR(name, member, lo, hi, required, unit, meaning) \
	{ name, TARN_FIELD_NUMBER, offsetof(struct tarn_pair, member), lo, \
	  hi, required, unit, NULL, meaning }
#define COUNT(rows) (sizeof rows / sizeof rows[0])

#define SIXTEENTH (0.0254 / 16)
#define EIGHTH_MM 3.175		/* an eighth of an inch a day */

static const char *const unnoted[] = { "refuse", "set_aside", NULL };

static const struct tarn_field leak_rows[] = {
	LEAK("reading_error", reading_sd_m, 1e-5, 0.1, 1, "m",
	     "standard deviation of one ruler reading"),
	LEAK("step", step_m, 0, 0.1, 1, "m", "finest step of the ruler"),
	LEAK("evaporation_error", evaporation_sd, 0.001, 1, 1, "-",
	     "of the one factor on all evaporation, prior"),
	LEAK("rain_error", rain_sd, 0.001, 1, 1, "-",
	     "of the one factor on all rain, prior"),
	LEAK("evaporation_noise", evaporation_noise, 0, 2, 1, "-",
	     "of single days' evaporation, relative"),
	LEAK("rain_noise", rain_noise, 0, 2, 1, "-",
	     "of single storms, relative"),
	LEAK("other_noise", other_noise_mm, 0, 100, 1, "mm",
	     "of a day's level: wind, splash, dew"),
	LEAK("matters", matters_mm_d, 0.01, 1000, 1, "mm/d",
	     "a loss at the ruler that is worth searching for"),
	LEAK("zero", zero_m, -20, 20, 0, "m",
	     "level of the ruler's zero above the basin's floor"),
	LEAK("hour", hour, 0, 24, 1, "h", "of readings without a time"),
	{ "counts_down", TARN_FIELD_SWITCH,
	  offsetof(struct tarn_leak_options, counts_down), 0, 1, 0, "-", NULL,
	  "the ruler counts down from a mark, by default at the lip" },
	{ "unnoted", TARN_FIELD_CHOICE,
	  offsetof(struct tarn_leak_options, unnoted), 0, 1, 0, "-", unnoted,
	  "a rise that neither rain nor a note explains" },
};
const struct tarn_fields tarn_leak_fields = { "leak", leak_rows,
					      COUNT(leak_rows) };

struct tarn_leak_options tarn_leak_options_default(void)
{
	struct tarn_leak_options o = {
		.reading_sd_m = SIXTEENTH, .step_m = 0,
		.evaporation_sd = 0.15, .rain_sd = 0.10,
		.evaporation_noise = 0.20, .rain_noise = 0.30,
		.other_noise_mm = 0.3, .matters_mm_d = EIGHTH_MM,
		.zero_m = TARN_NAN, .hour = 8, .counts_down = 1,
		.unnoted = TARN_UNNOTED_REFUSE,
	};

	return o;
}

static const struct tarn_field pair_rows[] = {
	PAIR("level", level_m, 0, 20, 0, "m", "at the start of the test"),
	PAIR("month", month, 1, 12, 1, "-", "for the plant factor"),
	PAIR("reading_error", reading_sd_m, 1e-5, 0.1, 1, "m",
	     "standard deviation of one reading"),
	PAIR("bucket_error", bucket_sd, 0, 1, 1, "-",
	     "of the bucket's evaporation against the pond's, relative"),
	PAIR("evaporation_error", weather_sd, 0, 1, 1, "-",
	     "of the weather's evaporation, where there is no bucket"),
	PAIR("upper_error", upper_sd, 0, 2, 1, "-",
	     "of what bed and stream evaporate, relative"),
	PAIR("matters", matters_mm_d, 0.01, 1000, 1, "mm/d",
	     "a loss at the ruler that is worth searching for"),
};
const struct tarn_fields tarn_pair_fields = { "", pair_rows,
					      COUNT(pair_rows) };

#define SIDE(side) { \
	PAIR("hours", side.hours, 0, 1000, 1, "h", "between the readings"), \
	PAIR("drop", side.pond_drop_m, -1, 1, 0, "m", \
	     "fall of the pond's level"), \
	PAIR("bucket", side.bucket_drop_m, -1, 1, 0, "m", \
	     "fall of the level in the bucket"), \
	PAIR("weather", side.weather_mm_d, 0, 30, 0, "mm/d", \
	     "open-water evaporation, where there is no bucket"), \
	PAIR("rain", side.rain_mm, 0, 500, 1, "mm", \
	     "above 0 the test is void"), \
}
static const struct tarn_field off_rows[] = SIDE(off), on_rows[] = SIDE(on);
const struct tarn_fields tarn_pair_off_fields = { "off", off_rows,
						  COUNT(off_rows) };
const struct tarn_fields tarn_pair_on_fields = { "on", on_rows,
						 COUNT(on_rows) };

struct tarn_pair tarn_pair_default(void)
{
	struct tarn_pair_side none = { 0, TARN_NAN, TARN_NAN, TARN_NAN, 0 };
	struct tarn_pair p = {
		.off = none, .on = none, .level_m = TARN_NAN, .month = 7,
		.reading_sd_m = SIXTEENTH, .bucket_sd = 0.10,
		.weather_sd = 0.15, .upper_sd = 0.30,
		.matters_mm_d = EIGHTH_MM,
	};

	return p;
}
