/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORECAST_H
#define TARN_FORECAST_H

/*
 * forecast: the top-up that a pond will need, as a range that holds it 8 times
 * in 10, and what a measurement would narrow.  Part of the wing study.
 *
 * The ledger runs over the same years in a few hundred drawn worlds.  In each
 * of them the evaporation of open water and of grass is that of the forcing
 * times
 *
 *   exp(b) x exp(s_k - sd_s^2 / 2) x (1 + sd_d z)
 *
 *   b     one a world, normal: the site, the method, the station (exposure.h)
 *   s_k   one a TARN_EXPOSURE_SLOW_DAYS, normal
 *   z     one a day: the sum of four uniform numbers, of mean 0 and variance
 *         1, at most 2 sqrt(3), so that no day's factor is under 0
 *
 * and its rain that of the forcing times r, normal about 1, one a world.  Slow
 * and single days have a mean of 1: they scatter, and move no long sum.
 *
 * Ranges are percentiles over years x worlds, the day after day of a whole
 * ledger each: what a schedule, a lip or a filling does to the water is in them.
 * Source: the sum of terms, docs/methods/exposure.md; the page of this one is
 * docs/methods/forecast.md.
 */

#include "tarn/design.h"
#include "tarn/exposure.h"
#include "tarn/season.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Two blocks of the study's lanes, and a power of two for Sobol' points. */
#define TARN_FORECAST_WORLDS 256
#define TARN_FORECAST_WORLDS_LEAST 16
#define TARN_FORECAST_WORLDS_MOST 8192

/* A rain gauge and the way from it to the pond, relative: our own. */
#define TARN_RAIN_SD 0.10

/* Made by tarn_forecast_options_default(). */
struct tarn_forecast_options {
	int worlds;		/* TARN_FORECAST_WORLDS_LEAST .. _MOST */
	int seed;		/* 0 ..; the same seed, the same figures */
	double rain_sd;		/* of r    0 .. 0.2 */
};
TARN_API struct tarn_forecast_options tarn_forecast_options_default(void);
TARN_API extern const struct tarn_fields tarn_forecast_options_fields;

/*
 * Top-up of some kind of period, m3.  P10, P50, P90: in one of ten, five of
 * ten, nine of ten it is less.
 */
struct tarn_forecast_range {
	size_t count;		/* periods that the weather has; 0: all else is
				   NaN */
	double mean_m3, sd_m3;	/* over years and worlds together */
	double p10_m3, p50_m3, p90_m3;	/* likewise */
	double weather_p10_m3, weather_p90_m3;	/* years alone, in the world in
				   the middle: b, s, z are 0 and r is 1 */
	double site_p10_m3, site_p90_m3;	/* worlds alone: each one's mean of
				   the years */
	double weather_share, site_share;	/* of the variance: between the
				   years' means, between the worlds'; the rest
				   is days, months and both together */
	double by_ln_m3;	/* a world's mean moves so far with ln f */
};
TARN_API extern const struct tarn_fields tarn_forecast_range_fields;

/* Two readings of a ruler to 1/16 inch, mm: a week's drop shows no less. */
#define TARN_RULER_MM 2.54

/*
 * A month of the year.  A week goes with the month of its Thursday, as an
 * ISO 8601 week goes with the year of its Thursday.
 */
struct tarn_forecast_month {
	int month;		/* 1 .. 12 */
	double days;		/* that it has, 28.25 in February */
	struct tarn_forecast_range a_week;	/* whole months, a week's share:
					   x days / 7 is the month */
	struct tarn_spread week_m3;	/* top-up of single weeks, whole, over
					   years and worlds */
	struct tarn_spread drop_mm;	/* fall of the level in such a week by
					   the losses alone, without rain and
					   top-up */
	double look_mm;		/* P90 of it + TARN_RULER_MM: from here look for
				   wind, splash, a low edge; our own rule */
	double act_mm;		/* 2 x P90 + TARN_RULER_MM: from here shut the
				   valve and test; our own rule */
};

/* A week of the year, by its ISO number. */
struct tarn_forecast_week {
	int week;		/* 1 .. 52 */
	char about[6];		/* "MM-DD", tarn_week_about */
	struct tarn_spread topup_m3;	/* over years and worlds */
};

struct tarn_forecast {
	size_t days, worlds;	/* days that are run */
	struct tarn_forecast_range a_week;	/* a week's share of all days */
	struct tarn_forecast_range year;	/* whole calendar years */
	int peak_month;		/* whole months that take most a day in the
				   middle world; 0: none takes any */
	int months, weeks;	/* entries of these lists */
	struct tarn_forecast_month month[12];	/* those with a whole week or
					   month */
	struct tarn_forecast_week week[TARN_SEASON_WEEKS];
};
TARN_API extern const struct tarn_fields tarn_forecast_fields,
	tarn_forecast_month_fields, tarn_forecast_week_fields;

/*
 * Runs the worlds.
 *
 *   forcing   the weather with evaporation in the middle of its range: the
 *             centre of the budget is in it already.  Days that it leaves out
 *             are as in tarn_ledger_run
 *   run       as tarn_ledger_run, without a control; NULL: the default
 *   budget    its deviations count: centre_sd_ln, slow_sd_ln, day_sd
 *             (0 .. 0.28)
 *   o         NULL: the default
 *   out       filled
 *
 * Errors: TARN_EARG: pond, forcing, an option; field "day_sd"; field
 * "control": a run with one.  TARN_ENOMEM.
 */
TARN_API enum tarn_status
tarn_forecast(struct tarn_forecast *out, const struct tarn_alloc *alloc,
	      const struct tarn_pond *pond, const struct tarn_forcing *forcing,
	      const struct tarn_run *run,
	      const struct tarn_exposure_budget *budget,
	      const struct tarn_forecast_options *o, struct tarn_error *err);

/*
 * The forecast of a description: the budget is that of its place and of the
 * method that its weather was run by.
 *
 *   made      tarn_design_resolve of it
 *   sky       tarn_sky_make of it
 *   run, o    as above
 *   budget    filled: the one that was used
 *
 * Errors: as above; TARN_EARG, field "method": it has no centre
 * (tarn_method_centre).
 */
TARN_API enum tarn_status
tarn_forecast_design(struct tarn_forecast *out,
		     struct tarn_exposure_budget *budget,
		     const struct tarn_alloc *alloc,
		     const struct tarn_resolved *made,
		     const struct tarn_sky *sky, const struct tarn_run *run,
		     const struct tarn_forecast_options *o,
		     struct tarn_error *err);

/* ---- what to measure ------------------------------------------------------- */

/* What can be done about a budget; each takes the deviation of one term to
 * what it has afterwards, where that is less.  Deviations of ln f; our own. */
enum tarn_remedy {
	TARN_REMEDY_BUCKET,	/* a bucket or floating pan in the pond for ten
				   dry days: a datum on the sum */
	TARN_REMEDY_SUN,	/* hours of sun at the pond, a day a month */
	TARN_REMEDY_STATION,	/* weather measured in the garden */
	TARN_REMEDY_WIND,	/* a wind gauge over the pond */
	TARN_REMEDY_WORDS,	/* words for what is not described of wind, sun
				   and surroundings */
	TARN_REMEDIES
};
#define TARN_BUCKET_SD_LN 0.08
#define TARN_SUN_MEASURED_SD_LN 0.03
#define TARN_WIND_MEASURED_SD_LN 0.01

/* "bucket"; "unknown" for any other number. */
TARN_API const char *tarn_remedy_name(enum tarn_remedy m);

/*
 * The budget after a measurement: its deviations alone, since nobody knows
 * where the middle goes.  A word for what is not described has the mean
 * variance of the classes that it may name, "not described" and, of the sun,
 * "under trees" left out.
 *
 *   returns   deviations of ln f [-]; the budget as it was for a number that is
 *             no measure
 * Source: sum of variances; Bayes for two normal numbers; the deviations are
 * our own.
 */
TARN_API struct tarn_exposure_budget
tarn_exposure_after(const struct tarn_exposure_budget *budget,
		     enum tarn_remedy m);

/* What a measurement is worth. */
struct tarn_worth {
	int remedy;		/* enum tarn_remedy */
	double centre_sd_ln;	/* of the budget afterwards */
	double ratio;		/* P90 - P10 afterwards / before [-] 0 .. 1 */
	double site_ratio;	/* likewise, of what worlds alone do */
	int halves;		/* 1: ratio is 0.5 or less */
};
TARN_API extern const struct tarn_fields tarn_worth_fields;

/*
 * Worth of every measurement for a range, to first order: the square of its
 * width falls by (2 x 1.2816 x by_ln)^2 x the variance of ln f that the
 * measurement takes away.  On ranges
 * that touch 0 it is rough; tarn_forecast with tarn_exposure_after is exact,
 * and with the same seed has the same worlds.
 *
 *   range     of tarn_forecast with 'budget'
 *   out       filled, the largest gain first; measures that change nothing are
 *             left out
 *   returns   how many [-]; 0 where the range has no width
 * Source: propagation of variance, derived.
 */
TARN_API int tarn_worth(const struct tarn_forecast_range *range,
			const struct tarn_exposure_budget *budget,
			struct tarn_worth out[TARN_REMEDIES]);

#ifdef __cplusplus
}
#endif
#endif
