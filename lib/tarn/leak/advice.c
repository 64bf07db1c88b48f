/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/leak_advice.h"

#define TEST_READINGS 4
#define RESOLVED 2.93	/* deviations: see tarn_pair_hours */

/* ---- a log ----------------------------------------------------------------- */

static int word_of(const struct tarn_leak_result *r)
{
	if (r->held.found)
		return TARN_LOG_HELD;
	if (r->gains)
		return TARN_LOG_GAINS;
	if (r->verdict == TARN_OUTSIDE)
		return r->change.found ? TARN_LOG_LOSES_SINCE : TARN_LOG_LOSES;
	if (r->held.possible)
		return TARN_LOG_MAYBE_HELD;
	return r->verdict == TARN_INSIDE ? TARN_LOG_SOUND : TARN_LOG_UNCLEAR;
}

/* Open water over all intervals with weather, mm/d. */
static double open_water_mm_d(const struct tarn_interval *v, size_t count)
{
	double mm = 0, days = 0;

	for (size_t i = 0; i < count; i++)
		if (!isnan(v[i].open_water_mm)) {
			mm += v[i].open_water_mm;
			days += v[i].days;
		}
	return mm / days;
}

/* Length of a bucket test, and what it finds. */
static void plan_test(struct tarn_log_advice *a,
		      const struct tarn_leak_result *r,
		      const struct tarn_interval *v, size_t count,
		      double matters_mm_d)
{
	struct tarn_pair usual = tarn_pair_default();
	double aim = a->word == TARN_LOG_SOUND
		? r->resolvable_mm_d / 2
		: fmax(matters_mm_d, r->unexplained_mm_d.mean);
	double spread = usual.bucket_sd * open_water_mm_d(v, count);
	double hours = tarn_pair_hours(TEST_READINGS, usual.reading_sd_m, aim,
				       spread), reading;

	hours = ceil(hours / 24) * 24;
	a->test_h = fmax(TARN_TEST_LEAST_H, fmin(TARN_TEST_MOST_H, hours));
	reading = usual.reading_sd_m * 1e3 * 24 / a->test_h;
	a->test_finds_mm_d = RESOLVED * sqrt(TEST_READINGS * reading * reading +
					     spread * spread);
	if (!(a->test_finds_mm_d < r->resolvable_mm_d))
		a->test_finds_mm_d = TARN_NAN;
}

/* Days more until a loss that matters shows. */
static void plan_days(struct tarn_log_advice *a,
		      const struct tarn_leak_result *r, double matters_mm_d)
{
	double ratio = r->resolvable_mm_d / matters_mm_d;
	double days = r->days * ratio * ratio;

	a->more_least_d = a->more_most_d = TARN_NAN;
	if (a->word != TARN_LOG_SOUND && a->word != TARN_LOG_UNCLEAR &&
	    a->word != TARN_LOG_MAYBE_HELD)
		return;
	a->more_least_d = a->more_most_d = 0;
	if (ratio <= 1)
		return;
	a->more_least_d = fmax(1, floor(TARN_LOG_MORE_LEAST * days - r->days));
	a->more_most_d = fmax(1, ceil(TARN_LOG_MORE_MOST * days - r->days));
}

static void sum_weather(struct tarn_log_advice *a,
			const struct tarn_interval *v, size_t count)
{
	for (size_t i = 0; i < count; i++) {
		if (v[i].fate > TARN_USED_METERED || isnan(v[i].rain_mm))
			continue;
		a->rain_mm += v[i].rain_mm;
		a->open_water_mm += v[i].open_water_mm;
	}
}

static void calibrate(struct tarn_log_advice *a,
		      const struct tarn_leak_result *r)
{
	int lost = r->unexplained_m3_d.low > 0;

	if (r->held.found || r->held.possible || a->factor_far) {
		a->factor = TARN_NAN;
		a->calibration = TARN_CALIBRATE_NOTHING;
		return;
	}
	a->factor = (lost ? r->evaporation_factor : r->sound_factor).mean;
	a->calibration = r->change.found ? TARN_CALIBRATE_CHANGED :
			 lost ? TARN_CALIBRATE_LOSS : TARN_CALIBRATE_FACTOR;
}

struct tarn_log_advice tarn_log_advise(const struct tarn_leak_result *r,
				       const struct tarn_interval *intervals,
				       size_t count,
				       const struct tarn_leak_options *options)
{
	struct tarn_log_advice a = {
		.test_h = TARN_NAN, .test_finds_mm_d = TARN_NAN
	};

	a.word = word_of(r);
	a.next = a.word == TARN_LOG_HELD || a.word == TARN_LOG_MAYBE_HELD
			? TARN_LOG_SHUT :
		 a.word == TARN_LOG_SOUND ? TARN_LOG_KEEP : TARN_LOG_TEST;
	if (a.next != TARN_LOG_SHUT)
		plan_test(&a, r, intervals, count, options->matters_mm_d);
	a.factor_far = !r->held.found && tarn_leak_factor_far(r);
	a.has_holdout = !r->held.found && r->readings >= TARN_HOLDOUT_LEAST &&
			r->used >= TARN_HOLDOUT_LEAST;
	calibrate(&a, r);
	sum_weather(&a, intervals, count);
	plan_days(&a, r, options->matters_mm_d);
	a.normal_so_far = (a.word == TARN_LOG_SOUND ||
			   a.word == TARN_LOG_UNCLEAR) &&
			  r->chance_of_loss <= TARN_LOG_NORMAL;
	return a;
}

struct tarn_log_doubts tarn_log_doubt(const struct tarn_level_point *points,
				      size_t count, double level_m)
{
	struct tarn_log_doubts d = { 0, 0, count };

	for (size_t i = count; i-- > 0;) {
		d.readings += isnan(points[i].logged_m) ? 0 : 1;
		if (points[i].logged_m < level_m) {
			d.low++;
			d.first = i;
		}
	}
	return d;
}

/* ---- a bucket test --------------------------------------------------------- */

static int half_word(const struct tarn_pair_half *h)
{
	if (h->unexplained_mm_d.high < 0)
		return TARN_HALF_GAINS;
	if (h->verdict == TARN_OUTSIDE)
		return TARN_HALF_LOSES;
	return h->verdict == TARN_INSIDE ? TARN_HALF_SOUND : TARN_HALF_UNCLEAR;
}

static struct tarn_half_advice half_advice(const struct tarn_pair_half *h,
					   double hours)
{
	struct tarn_half_advice a = { TARN_HALF_NOT_DONE, TARN_LONGER_NOT,
				      TARN_NAN };

	if (!(hours > 0))
		return a;
	a.word = half_word(h);
	if (h->verdict == TARN_OUTSIDE)
		return a;
	if (h->hours_needed >= TARN_PAIR_NEVER_H) {
		a.longer = TARN_LONGER_NEVER;
	} else if (h->hours_needed > hours) {
		a.longer = TARN_LONGER_GO_ON;
		a.go_on_h = ceil(h->hours_needed / TARN_PAIR_STEP_H) *
			    TARN_PAIR_STEP_H;
	}
	return a;
}

struct tarn_pair_advice tarn_pair_advise(const struct tarn_pair *pair,
					 const struct tarn_pair_result *r)
{
	struct tarn_pair_advice a = {
		TARN_PAIR_BASELINE,
		half_advice(&r->off, r->has_off ? pair->off.hours : 0),
		half_advice(&r->on, r->has_on ? pair->on.hours : 0)
	};

	if (a.off.word == TARN_HALF_GAINS || a.on.word == TARN_HALF_GAINS)
		a.next = TARN_PAIR_AGAIN;
	else if (!r->has_off)
		a.next = TARN_PAIR_TEST_OFF;
	else if (r->off.verdict == TARN_OUTSIDE)
		a.next = TARN_PAIR_WATCH_EDGE;
	else if (!r->has_on)
		a.next = TARN_PAIR_TEST_ON;
	else if (r->upper_verdict == TARN_OUTSIDE)
		a.next = TARN_PAIR_LOOK_ABOVE;
	return a;
}

/* ---- rows ------------------------------------------------------------------ */

static const char *const log_words[] = {
	"gains", "loses", "loses_since", "sound", "unclear", "maybe_held",
	"held", NULL
};
static const char *const log_steps[] = { "keep", "test", "shut", NULL };
static const char *const calibrations[] = {
	"factor", "loss", "changed", "nothing", NULL
};
static const char *const half_words[] = {
	"not_done", "gains", "loses", "sound", "unclear", NULL
};
static const char *const longer[] = { "not", "go_on", "never", NULL };
static const char *const pair_steps[] = {
	"again", "test_off", "watch_edge", "test_on", "look_above",
	"baseline", NULL
};

#define T struct tarn_log_advice
static const struct tarn_field log_rows[] = {
	TARN_OUT_CHOICE(T, word, "word", log_words, "what the log says"),
	TARN_OUT_CHOICE(T, next, "next", log_steps, "what to do next"),
	TARN_OUT_NUMBER(T, test_h, "test_hours", "h",
			"of each half of the test"),
	TARN_OUT_NUMBER(T, test_finds_mm_d, "test_finds_mm_d", "mm/d",
			"loss that such a test finds nine times in ten"),
	TARN_OUT_SWITCH(T, factor_far, "factor_far",
			"evaporation two deviations off its prior"),
	TARN_OUT_CHOICE(T, calibration, "calibration", calibrations,
			"what to put into the description"),
	TARN_OUT_NUMBER(T, factor, "factor", "-",
			"of evaporation that goes with it"),
	TARN_OUT_SWITCH(T, has_holdout, "has_holdout",
			"long enough to test a prediction"),
	TARN_OUT_NUMBER(T, rain_mm, "rain_mm", "mm", "of used intervals"),
	TARN_OUT_NUMBER(T, open_water_mm, "open_water_mm", "mm",
			"evaporation of used intervals"),
	TARN_OUT_SWITCH(T, normal_so_far, "normal_so_far",
			"no loss shows, and one is not likely"),
	TARN_OUT_NUMBER(T, more_least_d, "more_least", "d",
			"of readings until a loss that matters shows, at least"),
	TARN_OUT_NUMBER(T, more_most_d, "more_most", "d", "the same, at most"),
};
TARN_FIELDS(tarn_log_advice_fields, "advice", log_rows);
#undef T

#define T struct tarn_log_doubts
static const struct tarn_field doubt_rows[] = {
	TARN_OUT_COUNT(T, readings, "readings", "-", "that have a level"),
	TARN_OUT_COUNT(T, low, "low", "-", "of these, under the intake"),
};
TARN_FIELDS(tarn_log_doubts_fields, "doubts", doubt_rows);
#undef T

#define T struct tarn_half_advice
static const struct tarn_field half_rows[] = {
	TARN_OUT_CHOICE(T, word, "word", half_words, "what the half says"),
	TARN_OUT_CHOICE(T, longer, "longer", longer,
			"whether a longer one would find a loss"),
	TARN_OUT_NUMBER(T, go_on_h, "go_on", "h", "length that would"),
};
TARN_FIELDS(tarn_half_advice_fields, "half", half_rows);
#undef T

#define T struct tarn_pair_advice
static const struct tarn_field pair_rows[] = {
	TARN_OUT_CHOICE(T, next, "next", pair_steps, "what to do next"),
	TARN_SECTION(T, off, "off", tarn_half_advice_fields, "pump off"),
	TARN_SECTION(T, on, "on", tarn_half_advice_fields, "pump on"),
};
TARN_FIELDS(tarn_pair_advice_fields, "advice", pair_rows);
#undef T
