/* SPDX-License-Identifier: MIT */
#ifndef TARN_LEAK_ADVICE_H
#define TARN_LEAK_ADVICE_H

/*
 * leak_advice: what a log or a bucket test says, and what to do next.  Part
 * of the wing leak.  An answer is a word of an enum with its figures; faces
 * choose the sentences.
 */

#include "tarn/finding.h"
#include "tarn/leak.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- a log ------------------------------------------------------------ */

/* A bucket test that a log asks for goes on for whole days, from one to four:
 * longer ones meet rain.  Our own. */
#define TARN_TEST_LEAST_H 24.0
#define TARN_TEST_MOST_H 96.0

/* Readings and used intervals that a fit on half of them needs; our own. */
#define TARN_HOLDOUT_LEAST 6

/* Chance of a loss up to which a log is called normal so far; our own. */
#define TARN_LOG_NORMAL 0.8

/* What a log resolves shrinks with the root of its days: that many days, times
 * these, were enough for 123 of 152 ponds of tests/leak_world.h with 3 to 8
 * readings.  By trial, our own. */
#define TARN_LOG_MORE_LEAST 0.75
#define TARN_LOG_MORE_MOST 4.0

enum tarn_log_word {
	TARN_LOG_GAINS,		/* less is lost than weather says */
	TARN_LOG_LOSES,		/* more is lost */
	TARN_LOG_LOSES_SINCE,	/* more is lost after the change found */
	TARN_LOG_SOUND,		/* inside what weather explains */
	TARN_LOG_UNCLEAR,	/* near the noise */
	TARN_LOG_MAYBE_HELD,	/* no loss shows, and the log does not refute
				   that something fills the pond */
	TARN_LOG_HELD		/* something fills the pond (result.held): the
				   log shows neither a leak nor a sound pond */
};

enum tarn_log_next {
	TARN_LOG_KEEP,		/* go on with the log */
	TARN_LOG_TEST,		/* a bucket test of 'test_h' hours a half */
	TARN_LOG_SHUT		/* shut the valve, or read its meter, and log
				   again */
};

/* What to put into the description. */
enum tarn_log_calibration {
	TARN_CALIBRATE_FACTOR,	/* the factor of evaporation alone */
	TARN_CALIBRATE_LOSS,	/* the factor, and the loss as seepage */
	TARN_CALIBRATE_CHANGED,	/* the factor alone: one seepage would be right
				   neither before nor after the change */
	TARN_CALIBRATE_NOTHING	/* the level is or may be held, the factor far */
};

struct tarn_log_advice {
	int word;		/* enum tarn_log_word */
	int next;		/* enum tarn_log_next */
	double test_h;		/* of each half, so that a loss that matters,
				   or the one found if it is larger, is found
				   nine times in ten by four readings; where
				   none shows, half of 'resolvable_mm_d' */
	double test_finds_mm_d;	/* loss that such a test finds nine times in ten;
				   NaN without 'test_h', and where the log finds
				   as little */
	int factor_far;		/* tarn_leak_factor_far, and not held */
	int calibration;	/* enum tarn_log_calibration */
	double factor;		/* of evaporation, that goes with it; NaN with
				   TARN_CALIBRATE_NOTHING */
	int has_holdout;	/* long enough to test a prediction */
	double rain_mm, open_water_mm;	/* sums over the used intervals */
	int normal_so_far;	/* no loss shows, and one is not likely:
				   'chance_of_loss' at most TARN_LOG_NORMAL */
	/* Days more of such readings after which a loss that matters would show:
	 * in 8 ponds of 10 it lies between the two, if nothing holds the level;
	 * 0: it would show now; NaN: the level is held, a loss or a gain is
	 * found. */
	double more_least_d, more_most_d;
};

/*
 * Judges a fit.
 *
 *   intervals, count   as tarn_leak_intervals gives them
 *   options            those of the fit: matters_mm_d
 *
 * The open water of the days of the log, in mm/d, times the bucket's spread
 * (tarn_pair_default) is the uncertainty that the test's length starts from.
 * Any result of a fit will do: no errors.
 */
TARN_API struct tarn_log_advice
tarn_log_advise(const struct tarn_leak_result *result,
		const struct tarn_interval *intervals, size_t count,
		const struct tarn_leak_options *options);
TARN_API extern const struct tarn_fields tarn_log_advice_fields;

/* Readings below a level, by the points of tarn_leak_path. */
struct tarn_log_doubts {
	size_t readings;	/* that have a level */
	size_t low;		/* of these, below the level */
	size_t first;		/* index of the first such point; count: none */
};

/* A reading under the pump's intake is more often a slip (unit, sign, zero)
 * than a pond: how many there are.  level_m  [m] above the floor, NaN: none. */
TARN_API struct tarn_log_doubts
tarn_log_doubt(const struct tarn_level_point *points, size_t count,
	       double level_m);
TARN_API extern const struct tarn_fields tarn_log_doubts_fields;

/* ---- a bucket test ---------------------------------------------------- */

/* Hours beyond which a longer test is no advice, and the step in which hours
 * are told; our own. */
#define TARN_PAIR_NEVER_H 1000.0
#define TARN_PAIR_STEP_H 12.0

enum tarn_half_word {
	TARN_HALF_NOT_DONE,
	TARN_HALF_GAINS,	/* a test gone wrong: no pond loses less than
				   its bucket */
	TARN_HALF_LOSES, TARN_HALF_SOUND, TARN_HALF_UNCLEAR
};

/* Whether a longer half would find a loss that matters. */
enum tarn_half_longer {
	TARN_LONGER_NOT,	/* it was found, or the hours were enough */
	TARN_LONGER_GO_ON,	/* go on for 'go_on_h' */
	TARN_LONGER_NEVER	/* evaporation is too uncertain */
};

struct tarn_half_advice {
	int word;		/* enum tarn_half_word */
	int longer;		/* enum tarn_half_longer */
	double go_on_h;		/* NaN but for TARN_LONGER_GO_ON */
};

enum tarn_pair_next {
	TARN_PAIR_AGAIN,	/* something went wrong: repeat it */
	TARN_PAIR_TEST_OFF,	/* repeat with the pump off */
	TARN_PAIR_WATCH_EDGE,	/* the shell loses: let it settle */
	TARN_PAIR_TEST_ON,	/* repeat with the pump on */
	TARN_PAIR_LOOK_ABOVE,	/* stream, falls, bed, pipes or splash */
	TARN_PAIR_BASELINE	/* nothing found: keep the readings */
};

struct tarn_pair_advice {
	int next;		/* enum tarn_pair_next */
	struct tarn_half_advice off, on;
};

/* Judges a test; 'pair' as it was given to tarn_pair_test, hours [h].  Any
 * result of that will do: no errors. */
TARN_API struct tarn_pair_advice
tarn_pair_advise(const struct tarn_pair *pair,
		 const struct tarn_pair_result *result);
TARN_API extern const struct tarn_fields tarn_pair_advice_fields,
	tarn_half_advice_fields;

/* ---- findings ---------------------------------------------------------- */

/* Ids of the findings below, and their codes. */
enum tarn_leak_check_id {
	TARN_LEAK_LOG,		/* "log": unexplained loss, mm/d: its best
				   figure, with the interval as low and high */
	TARN_LEAK_FACTOR,	/* "factor": of evaporation, that the log
				   wants */
	TARN_LEAK_LOW,		/* "low_readings": under the pump's intake */
	TARN_LEAK_HELD,		/* "held": something fills the pond, so that
				   the log shows no loss; no value */
	TARN_LEAK_OFF,		/* "off", "on": unexplained loss in a half of */
	TARN_LEAK_ON,		/* the bucket test, as of "log" */
	TARN_LEAK_CHECKS
};

/*
 * Adds what a log says.  A loss outside what weather explains forbids, which
 * says nothing of where the water goes; a log near the noise, or one that
 * gains, is a doubt.
 *
 *   doubts   tarn_log_doubt of the same log
 *   list     added to
 */
TARN_API void tarn_log_judge(const struct tarn_log_advice *advice,
			     const struct tarn_leak_result *result,
			     const struct tarn_log_doubts *doubts,
			     struct tarn_findings *list);

/* The same of each half of a bucket test that was done. */
TARN_API void tarn_pair_judge(const struct tarn_pair_advice *advice,
			      const struct tarn_pair_result *result,
			      struct tarn_findings *list);

#ifdef __cplusplus
}
#endif
#endif
