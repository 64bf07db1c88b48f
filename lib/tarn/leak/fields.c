/* SPDX-License-Identifier: MIT */
#include "tarn/leak.h"

/* The rows of results. */

static const char *const verdicts[] = {
	[TARN_INSIDE] = "inside what weather explains",
	[TARN_OUTSIDE] = "outside what weather explains",
	[TARN_CANNOT_TELL] = "cannot tell",
	NULL
};

const char *tarn_verdict_text(enum tarn_verdict verdict)
{
	return (unsigned)verdict <= TARN_CANNOT_TELL ? verdicts[verdict]
						     : "no verdict";
}

#define T struct tarn_estimate
static const struct tarn_field estimate_rows[] = {
	TARN_OUT_NUMBER(T, mean, "mean", "-", "most likely"),
	TARN_OUT_NUMBER(T, low, "low", "-", "5th percentile"),
	TARN_OUT_NUMBER(T, high, "high", "-", "95th percentile"),
	TARN_OUT_NUMBER(T, sd, "sd", "-", "standard deviation"),
};
TARN_FIELDS(tarn_estimate_fields, "estimate", estimate_rows);
#undef T
#define ESTIMATE(member, name, text) \
	TARN_SECTION(T, member, name, tarn_estimate_fields, text)

/* ---- the log -------------------------------------------------------------- */

#define T struct tarn_reading
static const struct tarn_field reading_rows[] = {
	TARN_IN_DAY(T, day, "date", "of the reading"),
	TARN_IN_NUMBER(T, hour, "hour", "h", 0, 24, TARN_NAN,
		       "of the day, where it is said"),
	TARN_IN_NUMBER(T, level_m, "level", "m", -100, 1e4, TARN_NAN,
		       "above the ruler's zero"),
	TARN_IN_NUMBER(T, meter_m3, "meter", "m3", 0, 1e9, TARN_NAN,
		       "counted up to then"),
	TARN_OUT_FLAG(T, marks, "refill", TARN_LOG_REFILL,
		      "water was added since the reading before"),
	TARN_OUT_FLAG(T, marks, "pump_off", TARN_LOG_PUMP_OFF,
		      "the pump was off since the reading before"),
	TARN_OUT_FLAG(T, marks, "skip", TARN_LOG_SKIP,
		      "what led here is not to be used"),
	TARN_OUT_LINE(T, line, "line", "in the file"),
};
TARN_FIELDS(tarn_reading_fields, "reading", reading_rows);
#undef T

#define T struct tarn_log_info
static const struct tarn_field info_rows[] = {
	TARN_OUT_SWITCH(T, counts_down, "counts_down", "the ruler counts down"),
	TARN_OUT_NUMBER(T, step_m, "step", "m", "finest step of the readings"),
	TARN_OUT_COUNT(T, levels, "levels", "-", "readings of the ruler"),
	TARN_OUT_COUNT(T, meters, "meters", "-", "readings of the meter"),
	TARN_OUT_COUNT(T, without_time, "without_time", "-",
		       "readings without a time"),
	TARN_OUT_COUNT(T, unread_notes, "unread_notes", "-",
		       "notes of which nothing is made"),
	TARN_OUT_TEXT(T, ignored, "ignored", "columns not used"),
};
TARN_FIELDS(tarn_log_info_fields, "log", info_rows);
#undef T

/* ---- the fit ----------------------------------------------------------------- */

#define T struct tarn_change
static const struct tarn_field change_rows[] = {
	TARN_OUT_NUMBER(T, chance, "chance", "-", "that the loss stepped once"),
	TARN_OUT_SWITCH(T, found, "found", "the chance is 0.95 or more"),
	TARN_OUT_DAY(T, first_day, "first", "5th percentile of the date"),
	TARN_OUT_DAY(T, day, "date", "most likely date"),
	TARN_OUT_DAY(T, last_day, "last", "95th percentile of the date"),
	ESTIMATE(before_mm_d, "before_mm_d", "loss before it"),
	ESTIMATE(after_mm_d, "after_mm_d", "loss after it"),
};
TARN_FIELDS(tarn_change_fields, "change", change_rows);
#undef T

#define T struct tarn_held
static const struct tarn_field held_rows[] = {
	TARN_OUT_SWITCH(T, found, "found", "something fills the pond"),
	TARN_OUT_SWITCH(T, possible, "possible",
			"the log does not refute that something does"),
	TARN_OUT_SWITCH(T, described, "described",
			"at the level of the description's top-up"),
	TARN_OUT_NUMBER(T, level_m, "level", "m", "at which it is held"),
	TARN_OUT_NUMBER(T, odds, "odds", "-",
			"ln of the likelihoods' ratio, held over falling"),
	TARN_OUT_NUMBER(T, share, "share", "-",
			"of the fall that weather asks for, made good"),
	TARN_OUT_NUMBER(T, against, "against", "-",
			"what the log says against anything that fills it"),
	TARN_OUT_NUMBER(T, days, "days", "d", "of the intervals looked at"),
	TARN_OUT_NUMBER(T, asked_mm, "asked_mm", "mm",
			"fall that weather asks for in them"),
	TARN_OUT_NUMBER(T, filled_mm, "filled_mm", "mm", "of it, made good"),
};
TARN_FIELDS(tarn_held_fields, "held", held_rows);
#undef T

static const char *const sites[] = {
	[TARN_SITE_UNDESCRIBED] = "undescribed",
	[TARN_SITE_HALF_DESCRIBED] = "half_described",
	[TARN_SITE_DESCRIBED] = "described",
	[TARN_SITE_PAVED] = "paved",
	[TARN_SITE_PAVED_ALONE] = "paved_alone",
	[TARN_SITE_MEASURED] = "measured",
	NULL
};

#define T struct tarn_leak_result
static const struct tarn_field result_rows[] = {
	TARN_OUT_CHOICE(T, verdict, "verdict", verdicts, "of the log"),
	TARN_OUT_SWITCH(T, gains, "gains",
			"the pond loses less than weather says"),
	TARN_OUT_COUNT(T, readings, "readings", "-", "of the log"),
	TARN_OUT_COUNT(T, used, "used", "-", "intervals used"),
	TARN_OUT_COUNT(T, set_aside, "set_aside", "-", "intervals not used"),
	TARN_OUT_COUNT(T, outside_weather, "outside_weather", "-",
		       "intervals outside the weather's days"),
	TARN_OUT_COUNT(T, wild, "wild", "-",
		       "readings and intervals trusted ten times less"),
	TARN_OUT_NUMBER(T, days, "days", "d", "of used intervals"),
	TARN_OUT_NUMBER(T, area_m2, "area", "m2", "mean, of used intervals"),
	TARN_OUT_NUMBER(T, logged_mm, "logged_mm", "mm", "fall of the level"),
	ESTIMATE(expected_mm, "expected_mm", "fall that weather explains"),
	ESTIMATE(evaporation_factor, "evaporation_factor",
		 "multiplies all evaporation"),
	ESTIMATE(rain_factor, "rain_factor", "multiplies rain"),
	ESTIMATE(unexplained_m3_d, "unexplained_m3_d", "loss, m3/d"),
	ESTIMATE(unexplained_mm_d, "unexplained_mm_d", "loss, mm/d"),
	TARN_OUT_NUMBER(T, chance_of_loss, "chance_of_loss", "-",
			"that the loss is above zero"),
	ESTIMATE(sound_factor, "sound_factor",
		 "the evaporation factor if there were no loss"),
	ESTIMATE(per_head_m3_d_m, "per_head_m3_d_m",
		 "loss that grows with the level, m3/d per m"),
	TARN_OUT_SWITCH(T, head_tells, "head_tells",
			"the interval of that leaves out zero"),
	TARN_OUT_CHOICE(T, site, "site", sites, "what is said of the place"),
	TARN_OUT_NUMBER(T, prior.mean, "prior_mean", "-",
			"of the evaporation factor, before the log is read"),
	TARN_OUT_NUMBER(T, prior.sd, "prior_sd", "-",
			"standard deviation of that"),
	TARN_OUT_SWITCH(T, meter_by_float, "meter_by_float",
			"a float valve fills through the meter"),
	TARN_OUT_NUMBER(T, meter_mean, "meter_mean", "-",
			"true volume / metered, prior"),
	TARN_OUT_NUMBER(T, meter_sd, "meter_sd", "-",
			"standard deviation of that"),
	TARN_OUT_NUMBER(T, area_sd, "area_sd", "-",
			"of the area in the description, relative"),
	TARN_OUT_COUNT(T, slow_effects, "slow_effects", "-",
		       "slow errors of evaporation in the log"),
	TARN_OUT_NUMBER(T, slow_days, "slow_days", "d", "that each lasts"),
	TARN_OUT_NUMBER(T, noise, "noise", "-",
			"errors / those that the options state"),
	TARN_OUT_NUMBER(T, resolvable_mm_d, "resolvable_mm_d", "mm/d",
			"a loss found nine times in ten"),
	TARN_SECTION(T, change, "change", tarn_change_fields, "when it began"),
	TARN_SECTION(T, held, "held", tarn_held_fields, "is the level held"),
};
TARN_FIELDS(tarn_leak_result_fields, "leak", result_rows);
#undef T

static const char *const fates[] = {
	[TARN_USED] = "used",
	[TARN_USED_METERED] = "metered",
	[TARN_REFILLED] = "refilled",
	[TARN_PUMP_SWITCHED] = "pump switched",
	[TARN_SKIPPED] = "skipped",
	[TARN_NO_WEATHER] = "no weather",
	[TARN_SPILLED] = "spilled",
	[TARN_UNEXPLAINED_RISE] = "unexplained rise",
	NULL
};

#define T struct tarn_interval
static const struct tarn_field interval_rows[] = {
	TARN_OUT_DAY(T, from_day, "from", "of the first reading"),
	TARN_OUT_DAY(T, to_day, "to", "of the second reading"),
	TARN_OUT_LINE(T, line, "line", "of the second reading"),
	TARN_OUT_NUMBER(T, days, "days", "d", "between them"),
	TARN_OUT_CHOICE(T, fate, "fate", fates, "what became of it"),
	TARN_OUT_NUMBER(T, logged_mm, "logged_mm", "mm", "fall of the level"),
	TARN_OUT_NUMBER(T, expected_mm, "expected_mm", "mm",
			"fall that weather explains"),
	TARN_OUT_NUMBER(T, expected_sd_mm, "expected_sd_mm", "mm",
			"standard deviation of that"),
	TARN_OUT_NUMBER(T, rain_mm, "rain_mm", "mm", "in it"),
	TARN_OUT_NUMBER(T, open_water_mm, "open_water_mm", "mm",
			"evaporation in it"),
	TARN_OUT_NUMBER(T, metered_m3, "metered", "m3", "by the meter"),
	TARN_OUT_NUMBER(T, implied_m3_d, "implied_m3_d", "m3/d", "loss"),
	TARN_OUT_NUMBER(T, expected_m3_d, "expected_m3_d", "m3/d",
			"loss that weather explains"),
	TARN_OUT_SWITCH(T, wild, "wild", "the fit trusts it ten times less"),
	TARN_OUT_NUMBER(T, over, "over", "-",
			"difference in standard deviations"),
	TARN_OUT_SWITCH(T, high, "high",
			"over what weather explains, 19 times in 20"),
};
TARN_FIELDS(tarn_interval_fields, "interval", interval_rows);
#undef T

#define T struct tarn_meter_week
static const struct tarn_field week_rows[] = {
	TARN_OUT_DAY(T, first_day, "first", "of its intervals"),
	TARN_OUT_DAY(T, last_day, "last", "of its intervals"),
	TARN_OUT_NUMBER(T, days, "days", "d", "in which the meter tells"),
	TARN_OUT_NUMBER(T, metered_m3, "metered", "m3", "by the meter"),
	TARN_OUT_NUMBER(T, implied_m3, "implied", "m3", "loss"),
	TARN_OUT_NUMBER(T, expected_m3, "expected", "m3",
			"loss that weather explains"),
	TARN_OUT_NUMBER(T, expected_high_m3, "expected_high", "m3",
			"95th percentile of that"),
	TARN_OUT_SWITCH(T, over, "over", "the loss is above that"),
};
TARN_FIELDS(tarn_meter_week_fields, "week", week_rows);
#undef T

/* ---- calibration and prediction ------------------------------------------------ */

#define T struct tarn_level_point
static const struct tarn_field point_rows[] = {
	TARN_OUT_NUMBER(T, day, "day", "d", "since 1970-01-01"),
	TARN_OUT_NUMBER(T, logged_m, "logged", "m", "above the floor"),
	TARN_OUT_NUMBER(T, expected_m, "expected", "m", "by the ledger"),
	TARN_OUT_NUMBER(T, low_m, "low", "m", "5th percentile of that"),
	TARN_OUT_NUMBER(T, high_m, "high", "m", "95th percentile of that"),
	TARN_OUT_SWITCH(T, begins, "begins", "first of a stretch"),
};
TARN_FIELDS(tarn_level_point_fields, "point", point_rows);
#undef T

#define T struct tarn_holdout
static const struct tarn_field holdout_rows[] = {
	TARN_OUT_COUNT(T, fitted, "fitted", "-", "readings of the fit"),
	TARN_OUT_COUNT(T, predicted, "predicted", "-", "readings predicted"),
	TARN_OUT_NUMBER(T, days, "days", "d", "predicted"),
	TARN_OUT_NUMBER(T, rms_mm, "rms_mm", "mm",
			"predicted - logged, root of the mean square"),
	TARN_OUT_NUMBER(T, mean_mm, "mean_mm", "mm", "its mean"),
	TARN_OUT_NUMBER(T, plain_rms_mm, "plain_rms_mm", "mm",
			"likewise, not calibrated"),
	TARN_OUT_NUMBER(T, plain_mean_mm, "plain_mean_mm", "mm",
			"likewise, not calibrated"),
	TARN_OUT_NUMBER(T, last_mm, "last_mm", "mm", "at the last reading"),
};
TARN_FIELDS(tarn_holdout_fields, "holdout", holdout_rows);
#undef T

/* ---- paired tests --------------------------------------------------------------- */

#define T struct tarn_pair_half
static const struct tarn_field half_rows[] = {
	TARN_OUT_NUMBER(T, expected_m, "expected", "m",
			"fall that evaporation explains"),
	ESTIMATE(unexplained_mm_d, "unexplained_mm_d", "loss, mm/d"),
	ESTIMATE(unexplained_m3_d, "unexplained_m3_d", "loss, m3/d"),
	TARN_OUT_CHOICE(T, verdict, "verdict", verdicts, "of this half"),
	TARN_OUT_NUMBER(T, resolvable_mm_d, "resolvable_mm_d", "mm/d",
			"a loss found nine times in ten"),
	TARN_OUT_NUMBER(T, hours_needed, "hours_needed", "h",
			"for a loss that matters to be found so"),
};
TARN_FIELDS(tarn_pair_half_fields, "half", half_rows);
#undef T

#define T struct tarn_pair_result
static const struct tarn_field pair_rows[] = {
	TARN_OUT_NUMBER(T, area_m2, "area", "m2", "of the water"),
	TARN_SECTION(T, off, "off", tarn_pair_half_fields, "pump off"),
	TARN_SECTION(T, on, "on", tarn_pair_half_fields, "pump on"),
	ESTIMATE(upper_mm_d, "upper_mm_d", "loss of the upper part, mm/d"),
	ESTIMATE(upper_m3_d, "upper_m3_d", "loss of the upper part, m3/d"),
	TARN_OUT_CHOICE(T, upper_verdict, "upper_verdict", verdicts,
			"of the upper part"),
	ESTIMATE(splash_m3s, "splash", "splash of falls, m3/s"),
};
TARN_FIELDS(tarn_pair_result_fields, "pair", pair_rows);
#undef T
