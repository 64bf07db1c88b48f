/* SPDX-License-Identifier: MIT */
#ifndef TARN_LEAK_H
#define TARN_LEAK_H

/*
 * leak: does the pond lose more than the weather takes?  Read from what an
 * owner has: a ruler log, a meter, a bucket, weather.
 *
 * No answer here is "it leaks".  From weather alone nobody can say so; the
 * answers are an unexplained loss with its interval, a verdict (inside what
 * weather explains, outside, cannot tell), and what to measure next.
 *
 * Intervals are of 90 % unless another share is stated: where the site is what
 * its description says, and the priors of tarn_leak_options hold.  How often they
 * hold the truth there, and where they do not, docs/methods/leak.md shows over
 * invented ponds, with the command that measures it.
 */

#include "tarn/base.h"
#include "tarn/pond.h"

#ifdef __cplusplus
extern "C" {
#endif

/* 90 %: from the 5th to the 95th percentile.  All NaN: cannot be told. */
struct tarn_estimate {
	double mean, low, high, sd;
};
TARN_API extern const struct tarn_fields tarn_estimate_fields;

enum tarn_verdict {
	TARN_NO_VERDICT = -1,	/* not asked */
	TARN_INSIDE,		/* what weather explains; a loss that matters
				   would have shown, a smaller one may be there */
	TARN_OUTSIDE,		/* the interval lies above zero */
	TARN_CANNOT_TELL	/* it holds zero and losses that matter */
};

/* A few words: "inside what weather explains"; "no verdict" for any other
 * number. */
TARN_API const char *tarn_verdict_text(enum tarn_verdict verdict);

/* ---- the level log -------------------------------------------------- */

/* What the note of a reading says. */
enum tarn_log_mark {
	TARN_LOG_REFILL = 1,	/* water was added since the reading before */
	TARN_LOG_PUMP_OFF = 2,	/* the pump was off since the reading before */
	TARN_LOG_SKIP = 4,	/* cleaned, drained: do not use what led here */
	TARN_LOG_RAIN = 8,	/* for the reader's eye */
	TARN_LOG_OTHER = 16	/* a note of which nothing is made */
};

struct tarn_reading {
	long day;
	double hour;		/* 0 .. 24; NaN: the log does not say */
	double level_m;		/* above the ruler's zero, up positive; NaN:
				   the meter alone was read */
	double meter_m3;	/* counted up to then; NaN */
	unsigned marks;		/* enum tarn_log_mark */
	long line, column;	/* in the file, 0: none */
};
TARN_API extern const struct tarn_fields tarn_reading_fields;

enum tarn_log_unit {
	TARN_LOG_BY_HEADER, TARN_LOG_INCH, TARN_LOG_MM, TARN_LOG_CM,
	TARN_LOG_FT, TARN_LOG_M
};
enum tarn_log_sign { TARN_LOG_SIGN_BY_HEADER, TARN_LOG_DOWN, TARN_LOG_UP };
enum tarn_log_dates { TARN_LOG_ISO, TARN_LOG_MDY, TARN_LOG_DMY };

struct tarn_log_options {
	int unit;		/* enum tarn_log_unit; a header that says
				   another unit is an error */
	int sign;		/* enum tarn_log_sign */
	int dates;		/* enum tarn_log_dates */
};
TARN_API struct tarn_log_options tarn_log_options_default(void);
TARN_API extern const struct tarn_fields tarn_log_fields;

struct tarn_log;	/* opaque: owns its readings */

/*
 * New log from a CSV file with a header (separated by commas, or by
 * semicolons).
 *
 *   date             YYYY-MM-DD; another order by 'dates'; may hold the time
 *   time             optional: 7:30, 19:30, 7:30 pm
 *   reading_<unit>   the ruler, counted DOWN from a mark, so that a falling
 *                    pond gives growing numbers; drop_<unit> is the same
 *   level_<unit>     a ruler that stands in the water, counted UP
 *                    units: in, mm, cm, ft, m.  "reading" alone needs the
 *                    option; nothing is guessed.  3.5, 3 1/2 and 3-1/2 are
 *                    the same.  A blank cell is a day without reading
 *   meter_<unit>     optional, of the fill line: gal, kgal, ft3, ccf, m3,
 *                    liter; counts upward
 *   note             optional: refill, pump off, cleaned, rain; "skip" sets
 *                    aside what led to this reading
 *
 * Lines that begin with # are left out.  Other columns are ignored and named
 * in the info.  Rows stand in order of time, one a moment.  A row of more cells
 * than the header is refused, and a number as a note beside the ruler: "1,5".
 *
 * Errors: TARN_EIO; TARN_EFORMAT with line, column and the heading at fault;
 * TARN_ENOMEM.
 */
TARN_API enum tarn_status
tarn_log_read(struct tarn_log **out, const struct tarn_alloc *alloc,
	      const char *path, const struct tarn_log_options *options,
	      struct tarn_error *err);
TARN_API void tarn_log_free(struct tarn_log *log);	/* NULL is fine */

/*
 * Is a file such a log, by its header: has it dates, and a ruler or a meter?
 *
 *   returns  1, else 0: also if it cannot be read.  Definition: no source
 */
TARN_API int tarn_log_recognised(const char *path);

/* The readings, borrowed. */
TARN_API const struct tarn_reading *
tarn_log_readings(const struct tarn_log *log, size_t *count);

struct tarn_log_info {
	int counts_down;	/* 1: the file's ruler counts down */
	double step_m;		/* finest step that its readings use: the
				   coarsest of 1 to 1/32 in or 10 to 0.1 mm of
				   which all are multiples */
	size_t levels, meters;	/* readings of each */
	size_t without_time, unread_notes;
	char ignored[160];	/* columns not used, or "" */
};
TARN_API extern const struct tarn_fields tarn_log_info_fields;
TARN_API struct tarn_log_info tarn_log_info(const struct tarn_log *log);

/* ---- the log against the model -------------------------------------- */

/*
 * Model.  Between two readings the ledger runs from the first one's level
 * over the hours between them (ledger days are cut at the hour of the
 * reading, weather spread evenly over its day).  Its end level is a function
 * of
 *
 *   f   multiplies all that evaporates: open water, bed, stream
 *   r   multiplies rain: the gauge is not the garden
 *   s   water lost beyond the description, m3/d
 *   m   multiplies what a meter counted
 *   g   adds to f, one number for some weeks
 *
 * d_i = logged drop - the ledger's drop at (f + g, r, s, m)
 *     = k_i e_i - e_(i+1) + w_i
 *
 * e_i  errors of the readings, independent, standard deviation tau x
 *      sqrt(reading_sd^2 + step^2 / 12); neighbours share one, so the
 *      covariance has three diagonals
 * k_i  the ledger's d end / d start: 1, or 0 where the lip cut it
 * w_i  what the model does not know, independent from interval to interval:
 *      evaporation of single days, rain of single storms, wind
 *
 * Priors.  f ~ N(evaporation_mean, evaporation_sd), ONE multiplier for the whole
 * log: a wrong method, wind or shade is wrong every day, and no number of
 * readings averages it away unless evaporation itself varies.  g ~ N(0, slow_sd),
 * one for each slow_days; they divide the log evenly, and are never more than
 * TARN_SLOW_MOST.  r ~ N(1, rain_sd).  m: of a valve opened by hand N(1, 0.02);
 * of a float, which dribbles under what a meter counts, ln m ~ N(0.05, 0.08) and
 * m at least 0.98, as a normal of that mean and deviation; the error of the area
 * is in it.  Refills in buckets have no column in a log.  s is flat, both signs.
 * ln tau ~ N(0, 0.5): a ruler is read better or
 * worse than stated by a factor of 1.6.
 * Robust: each e and w is, one time in 50, ten times wider (a misread
 * ruler, a hose forgotten).  These weights come by an EM iteration; readings
 * and intervals more likely wild than not are counted and shown.
 *
 * Estimator.  The ledger is linearised at the current estimate (three
 * rounds); generalised least squares with the priors gives a normal
 * posterior for each tau, a sum over 41 values of tau the intervals.
 */
struct tarn_leak_options {
	double reading_sd_m;	/* of one reading            default 1/16 in */
	double step_m;		/* of the ruler, adds step^2/12; 0 = none  */
	int site;		/* enum tarn_leak_site: the prior of f */
	double evaporation_mean;	/* of that prior; NaN: by 'site' */
	double evaporation_sd;	/* and its deviation; NaN: by 'site' */
	double slow_sd;		/* of each g                 default 0.08 */
	double slow_days;	/* that one g lasts          default 30   */
	double rain_sd;		/* prior of r                default 0.10 */
	double evaporation_noise;	/* of a day's, relative     0.25 */
	double rain_noise;	/* of a storm's and its hour, relative 0.30 */
	double other_noise_mm;	/* of a day: wind, splash, dew      0.3  */
	double matters_mm_d;	/* a loss worth searching for    3.175 mm/d,
				   1/8 in/d: 12 US gal/d on 150 ft2 */
	double zero_m;		/* level of the ruler's zero above the basin's
				   floor; NaN: the lip where the ruler counts
				   down, else the floor */
	double hour;		/* of readings without a time    default 8 */
	int counts_down;	/* see zero_m                    default 1 */
	int meter;		/* enum tarn_log_meter */
	double area_sd;		/* of the water's area in the description,
				   relative                  default 0.04 */
	int unnoted;		/* enum tarn_log_unnoted */
};

/* How much of the pond's place is in its description. */
enum tarn_leak_site {
	TARN_SITE_UNDESCRIBED,	/* neither wind nor sun     0.82, 0.24 */
	TARN_SITE_HALF_DESCRIBED,	/* one of the two           0.95, 0.26 */
	TARN_SITE_DESCRIBED,	/* both                     1.00, 0.25 */
	TARN_SITE_PAVED,	/* both, and paving, gravel or a dry yard
				   about the pond            1.15, 0.30 */
	TARN_SITE_PAVED_ALONE,	/* paving, and not both     0.97, 0.33 */
	TARN_SITE_MEASURED	/* a bucket or floating pan gave the ratio,
				   which is evaporation_mean    1, 0.08 */
};

/* The prior of f: mean and standard deviation, NaN for another number. */
struct tarn_leak_prior { double mean, sd; };
TARN_API struct tarn_leak_prior tarn_leak_prior(enum tarn_leak_site site);

/* Slow effects that one log may have; in a longer log each lasts longer. */
#define TARN_SLOW_MOST 13

/* What fills the pond through the meter. */
enum tarn_log_meter {
	TARN_METER_BY_DESCRIPTION,	/* a float where it has a trigger */
	TARN_METER_HAND,	/* a valve opened by hand or by a solenoid */
	TARN_METER_FLOAT	/* a float valve, that dribbles under the
				   meter's least flow */
};

/* A rise that rain cannot explain and no note does. */
enum tarn_log_unnoted { TARN_UNNOTED_REFUSE, TARN_UNNOTED_SET_ASIDE };

/*
 * Noises, r's prior and the area's error are judgements; tau scales the noises.
 * Those of f and g: docs/methods/leak.md.
 */
TARN_API struct tarn_leak_options tarn_leak_options_default(void);
TARN_API extern const struct tarn_fields tarn_leak_fields;

/* What became of an interval between two readings. */
enum tarn_interval_fate {
	TARN_USED,
	TARN_USED_METERED,	/* with the metered water given to the ledger */
	TARN_REFILLED,		/* water added, amount not known */
	TARN_PUMP_SWITCHED,	/* water in transit came or went */
	TARN_SKIPPED,		/* the note says so */
	TARN_NO_WEATHER,	/* outside the weather's days */
	TARN_SPILLED,		/* half as much rain again would have reached
				   the lip: what ran over is not known */
	TARN_UNEXPLAINED_RISE	/* unnoted, and set aside by option; with it the
				   interval before, whose last reading may be
				   the one misread */
};

struct tarn_interval {
	size_t from, to;	/* indices of readings */
	long from_day, to_day;	/* of these */
	long line;		/* of the second, in the file; 0: none */
	double days;
	int fate;		/* enum tarn_interval_fate */
	double logged_mm;	/* fall of the level, as logged */
	double expected_mm;	/* by weather alone: f, m at their means, g = s
				   = 0, r = 1 */
	double expected_sd_mm;	/* with the priors, noises and readings */
	double rain_mm, open_water_mm;
	double metered_m3;	/* NaN: not metered */
	double area_m2;		/* mean water surface */
	double implied_m3_d;	/* loss: metered + fall of the level + rain -
				   overflow; NaN if not used */
	double expected_m3_d;	/* the same, by the ledger from weather alone */
	int wild;		/* the fit trusts it ten times less */
	double over;		/* (logged - expected) / its deviation; NaN
				   without an expectation */
	int high;		/* not wild, and over its 95th percentile: one
				   interval in twenty of a sound pond */
};
TARN_API extern const struct tarn_fields tarn_interval_fields;

/* When did it begin?  s steps once, at an unknown reading: prior of the step
 * N(0, 10 mm/d), each reading as likely per day of the log; a step or none,
 * even odds. */
struct tarn_change {
	double chance;		/* that there is one, 0 .. 1; NaN: fewer than
				   six intervals */
	int found;		/* chance >= 0.95 */
	long first_day, day, last_day;	/* 5th, 50th, 95th percentile */
	struct tarn_estimate before_mm_d, after_mm_d;	/* NaN unless found */
};
TARN_API extern const struct tarn_fields tarn_change_fields;

/*
 * Is the level held?  Something that fills the pond (a fill valve, a neighbour's
 * drain) makes good what evaporates and what leaks: such a log shows neither.
 *
 * Intervals without a meter are joined to pieces of at most a week.  Two tales
 * of their falls are weighed: the level falls as weather asks; or it does so
 * down to one level and stops there, and a reading under that level is an
 * error.  Both have the factor f of evaporation with its prior, and each its
 * likeliest f; the level is the likeliest of all readings.  A piece counts by
 * its squared difference over twice its variance (readings, noises, rain), at
 * most 8.
 *
 *   odds    ln of the ratio of both likelihoods [-]; it can only be above 0
 *   share   of the fall that weather asks for, made good [-]
 *
 * Found: share at least TARN_HELD_SHARE; the held tale fits, so that it costs no
 * more than TARN_HELD_COST a piece (half of one, where all variances are
 * right); and odds at least TARN_HELD_ODDS,
 * TARN_HELD_ODDS_DESCRIBED where the level lies between trigger and target of
 * the description (10 mm about them), since a valve is known to be there.
 * A log that does not speak against such a tale, by a factor of e^2, reassures
 * nobody: 'possible'.
 * Where more than half of the days have a meter, nothing is looked for.
 * Criteria: our own; docs/methods/leak.md has the rates of both errors.
 */
#define TARN_HELD_ODDS 6.0
#define TARN_HELD_ODDS_DESCRIBED 3.0
#define TARN_HELD_SHARE (1.0 / 3)
#define TARN_HELD_COST 2.0
#define TARN_HELD_LITTLE 0.15
#define TARN_HELD_AGAINST 2.0

struct tarn_held {
	int found;		/* 1: something fills the pond */
	int possible;		/* 1: not found, and not refuted either: against
				   is under TARN_HELD_AGAINST */
	int described;		/* the description's top-up is at that level */
	double level_m;		/* above the floor; NaN unless found */
	double odds, share;	/* of the likeliest level */
	double against;		/* what the log says against a level that is held
				   and makes good TARN_HELD_LITTLE or more: -
				   odds of the likeliest such tale [-]; inf:
				   there is none */
	double days;		/* of the intervals looked at */
	double asked_mm;	/* fall that weather asks for in them */
	double filled_mm;	/* of it, made good */
};
TARN_API extern const struct tarn_fields tarn_held_fields;

struct tarn_leak_result {
	enum tarn_verdict verdict;
	int gains;		/* 1: the whole interval lies below zero: the
				   pond loses less than weather says */
	size_t readings, used, set_aside, outside_weather, wild;
	double days;		/* of used intervals */
	double area_m2;		/* mean, of used intervals */
	/* over the used intervals, at the ruler */
	double logged_mm;
	struct tarn_estimate expected_mm;	/* weather alone */
	/* the fit */
	struct tarn_estimate evaporation_factor, rain_factor;
	struct tarn_estimate unexplained_m3_d, unexplained_mm_d;
	double chance_of_loss;	/* that s > 0 */
	struct tarn_estimate sound_factor;	/* f if s were 0 */
	/* loss growing with the level, m3/d per m, beside a constant one;
	 * 'head_tells' where its interval leaves out zero */
	struct tarn_estimate per_head_m3_d_m;
	int head_tells;
	int site;		/* enum tarn_leak_site of the options */
	struct tarn_leak_prior prior;	/* of f, that was taken */
	int meter_by_float;	/* 1: TARN_METER_FLOAT, or by description */
	double meter_mean, meter_sd;	/* prior of m, without the area's error */
	double area_sd;		/* of the options, in the loss as m3/d */
	size_t slow_effects;	/* count of g, 0 .. TARN_SLOW_MOST */
	double slow_days;	/* that each lasts */
	double noise;		/* tau */
	double resolvable_mm_d;	/* a constant loss that such a log would put
				   outside nine times in ten */
	struct tarn_change change;
	struct tarn_held held;
};
TARN_API extern const struct tarn_fields tarn_leak_result_fields;

struct tarn_leak;	/* opaque: a finished fit */

/* Of a log that reassures; our own, by the trials of docs/methods/leak.md. */
#define TARN_NOISE_MOST 1.5

/*
 * Fits a log.  'forcing' is the weather as for tarn_ledger_run; intervals
 * that it does not cover are set aside and counted.  Readings of the meter
 * alone (a float valve holds the level) count as levels midway between
 * trigger and target, with the spread of that band.
 *
 * Verdict: OUTSIDE if the interval of s lies above zero, or a change was
 * found and the loss after it does; INSIDE if it holds zero and ends below
 * 'matters_mm_d', and 'resolvable_mm_d' does not lie above that, and nothing
 * may fill the pond (neither 'gains' nor held.possible), and 'noise' is at most
 * TARN_NOISE_MOST: a log that follows the weather worse holds something that
 * the model does not know; else CANNOT_TELL.
 * Of sound ponds that follow the priors five in a hundred are put OUTSIDE.
 * Where the level is held (result.held.found) it is CANNOT_TELL, whatever the
 * fit gives, and neither 'gains', a change nor 'head_tells' are found.
 *
 * Errors: TARN_EARG: the description; no two readings; a reading above the
 * lip or below the floor (is zero_m right?); an unnoted rise; no interval
 * left: line and column of the reading where there is one.  TARN_ENOMEM.
 */
TARN_API enum tarn_status
tarn_leak_fit(struct tarn_leak **out, const struct tarn_alloc *alloc,
	      const struct tarn_pond *pond, const struct tarn_forcing *forcing,
	      const struct tarn_reading *readings, size_t count,
	      const struct tarn_leak_options *options, struct tarn_error *err);
TARN_API void tarn_leak_free(struct tarn_leak *leak);	/* NULL is fine */

TARN_API const struct tarn_leak_result *
tarn_leak_result(const struct tarn_leak *leak);
TARN_API const struct tarn_interval *
tarn_leak_intervals(const struct tarn_leak *leak, size_t *count);

/*
 * Metered ponds: intervals joined to spells of seven days or more.  'over' is
 * set where the implied loss stands above the 95th percentile of what weather
 * alone explains: one week in twenty of a sound pond, and, since one
 * evaporation factor rules all weeks, such weeks come in runs.
 *
 *   at     index of an interval; *next is filled, the count of intervals
 *          after the last
 */
struct tarn_meter_week {
	long first_day, last_day;
	double days;		/* in which the meter tells */
	double metered_m3, implied_m3, expected_m3, expected_high_m3;
	int over;
};
TARN_API extern const struct tarn_fields tarn_meter_week_fields;
TARN_API struct tarn_meter_week
tarn_leak_week(const struct tarn_leak *leak, size_t at, size_t *next);

/* ---- calibration and prediction ------------------------------------- */

/* A factor of evaporation so many deviations of its prior off is the sign of a
 * wrong description, and not of this pond's evaporation.  Our own. */
#define TARN_FACTOR_FAR 2.0

/* Whether the factor that a description would get is so far off: that beside a
 * loss where there is one, else that without.  Any result of a fit will do: no
 * errors. */
TARN_API int tarn_leak_factor_far(const struct tarn_leak_result *result);

/*
 * Description with the fit put back: open_water_factor and the plant factors
 * times f, seepage.volume plus s.  Where the interval of s does not lie above
 * zero, no seepage is given, and f as it is with s = 0.  Over the forcing of the
 * fit: one of tarn_sky_make has its report's 'centre' in it, by which the
 * open_water_factor of a description is to be multiplied.
 *
 * Errors: TARN_EARG if a factor leaves the range of its field; field "log" if
 * its level is held, which says nothing of evaporation, or if the factor is far
 * (tarn_leak_factor_far).
 */
TARN_API enum tarn_status
tarn_leak_calibrated(const struct tarn_leak_result *result,
		     const struct tarn_pond *pond, struct tarn_pond *out,
		     struct tarn_error *err);

/* A reading beside the level that the ledger reaches from the first reading
 * of its stretch (a stretch ends where an interval is set aside). */
struct tarn_level_point {
	double day;		/* with its fraction */
	double logged_m;	/* level above the basin's floor; NaN */
	double expected_m, low_m, high_m;	/* 90 %: priors and noises */
	int begins;		/* 1: first of a stretch */
};
TARN_API extern const struct tarn_fields tarn_level_point_fields;

/*
 * Fills count points, one a reading.  For the figure of a log, and for a
 * forecast.  Errors: as tarn_leak_fit.
 */
TARN_API enum tarn_status
tarn_leak_path(const struct tarn_alloc *alloc, const struct tarn_pond *pond,
	       const struct tarn_forcing *forcing,
	       const struct tarn_reading *readings, size_t count,
	       const struct tarn_leak_options *options,
	       struct tarn_level_point *points, struct tarn_error *err);

/* Fit on the first half of the readings, prediction of the second: with the
 * best s above zero, whatever its interval. */
struct tarn_holdout {
	size_t fitted, predicted;	/* readings */
	double days;		/* predicted */
	double rms_mm, mean_mm;	/* predicted - logged level, calibrated */
	double plain_rms_mm, plain_mean_mm;	/* not calibrated */
	double last_mm;		/* at the last reading, calibrated */
};
TARN_API extern const struct tarn_fields tarn_holdout_fields;
/* Errors: as tarn_leak_fit; TARN_EARG with fewer than six readings. */
TARN_API enum tarn_status
tarn_leak_holdout(const struct tarn_alloc *alloc, const struct tarn_pond *pond,
		  const struct tarn_forcing *forcing,
		  const struct tarn_reading *readings, size_t count,
		  const struct tarn_leak_options *options,
		  struct tarn_holdout *out, struct tarn_error *err);

/* ---- paired tests --------------------------------------------------- */

/*
 * One half of a paired test: the pump off, or on, for some hours, no top-up,
 * no rain.  A bucket of pond water standing in the pond takes the weather out
 * of the answer; without one the weather's rate is used, with the wider
 * prior of tarn_leak_options.
 */
struct tarn_pair_side {
	double hours;		/* 0: not done                 1 .. 1000 */
	double pond_drop_m;	/* fall of the level           -1 .. 1 */
	double bucket_drop_m;	/* NaN: no bucket              -1 .. 1 */
	double weather_mm_d;	/* open-water rate; NaN        0 .. 30 */
	double rain_mm;		/* above 0 the test is void    0 .. 500 */
};

struct tarn_pair {
	struct tarn_pair_side off, on;
	double level_m;		/* at the start; NaN: target, or the lip */
	double month;		/* for the plant factor        1 .. 12 */
	double reading_sd_m;	/* of each of the readings     1/16 in */
	double bucket_sd;	/* bucket / pond evaporation   0.10: a bucket
				   is warmer, or more sheltered; judgement */
	double weather_sd;	/* without a bucket            0.25 */
	double upper_sd;	/* of what bed and stream evaporate  0.30:
				   factors from 1.4 to 1.7, plants from 1.2 to
				   2.5 are published */
	double matters_mm_d;	/* 3.175 */
};
TARN_API struct tarn_pair tarn_pair_default(void);
TARN_API extern const struct tarn_fields tarn_pair_fields,
	tarn_pair_off_fields, tarn_pair_on_fields;

struct tarn_pair_half {
	double expected_m;	/* fall that evaporation explains, by the
				   ledger: with the pump on, bed and stream
				   draw on the pond's level too */
	struct tarn_estimate unexplained_mm_d, unexplained_m3_d;
	enum tarn_verdict verdict;
	double resolvable_mm_d;	/* a loss found nine times in ten, at a false
				   alarm of five in a hundred */
	double hours_needed;	/* for 'matters_mm_d' to be so; HUGE_VAL: the
				   uncertainty of evaporation forbids it */
};
TARN_API extern const struct tarn_fields tarn_pair_half_fields;

/* off: pond's shell, edges.  upper = on - off: stream, falls, bed, pipes,
 * and splash, which this test cannot tell from each other. */
struct tarn_pair_result {
	int has_off, has_on;
	double area_m2;
	struct tarn_pair_half off, on;	/* a half not done has no values */
	/* without values unless both are done */
	struct tarn_estimate upper_mm_d, upper_m3_d;
	enum tarn_verdict upper_verdict;
	struct tarn_estimate splash_m3s;	/* as tarn_pair_splash says */
};
TARN_API extern const struct tarn_fields tarn_pair_result_fields;

/*
 * Errors of a reading are normal with the stated deviation: four readings
 * with a bucket, so a day gives 2 x reading_sd.  The error of the bucket is
 * one number, shared by both halves.
 *
 * Errors: TARN_EARG: fields; neither half done; neither bucket nor weather;
 * rain; a bucket that fell more than 50 mm a day; a drop to under the floor, or
 * with the pump on under the intake.
 */
TARN_API enum tarn_status
tarn_pair_test(const struct tarn_alloc *alloc, const struct tarn_pond *pond,
	       const struct tarn_pair *pair, struct tarn_pair_result *out,
	       struct tarn_error *err);

/*
 * Hours until a loss is found nine times in ten (false alarm five in a
 * hundred) by readings of a given error.
 *
 *   readings   4 with a bucket, 2 without
 *   reading_sd_m                             [m]    > 0 .. 1
 *   loss_mm_d                                [mm/d] 1e-6 .. 1e6
 *   spread_mm_d  uncertainty of evaporation, one standard deviation, that
 *              time does not reduce          [mm/d] 0 .. 1e6
 *   returns    [h], HUGE_VAL if never, NaN outside the ranges
 *
 * Formula: 2.93 sd = loss, sd^2 = readings (24 reading_sd / hours)^2 +
 * spread^2; 2.93 = 1.645 + 1.282, normal quantiles of 95 and 90 %.
 */
TARN_API double tarn_pair_hours(int readings, double reading_sd_m,
				double loss_mm_d, double spread_mm_d);

/*
 * Splash of falls from a paired test: pump on minus pump off, m3/s while it
 * runs.  It is a calibration, not physics: no figure with evidence exists,
 * the default of a description is none, and what this finds may as well be a
 * leak of stream, bed or pipes.  Not below zero.
 *
 *   returns  TARN_OUTSIDE if the interval lies above zero, else what
 *            tarn_pair_result.upper_verdict is; 'out' is filled either way
 */
TARN_API enum tarn_verdict
tarn_pair_splash(const struct tarn_pair_result *result,
		 struct tarn_estimate *out_m3s);

#ifdef __cplusplus
}
#endif
#endif
