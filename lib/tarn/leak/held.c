/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/leak/fit.h"

/*
 * Is the level held: does something fill the pond whenever it would fall under
 * a level?  Two tales of the same readings are weighed, one in which the level
 * falls as weather asks, and one in which it stops at a level; see leak.h,
 * tarn_held.
 */

#define MM 1e3
#define PIECE_DAYS 6.99		/* readings are joined to weeks: a week's fall
				   is well above the errors of two readings */
#define WILD 8.0		/* most that one piece counts: four deviations,
				   as much as a reading that is wild */
#define FACTOR_LEAST 0.4	/* of evaporation, and steps to its most */
#define FACTOR_STEP 0.05
#define FACTOR_STEPS 25
#define LEVELS 200		/* that are tried */
#define NEAR_MM 10.0		/* of a float about its described levels */

struct tale {
	double cost;		/* - ln of its likelihood */
	double filled_mm, asked_mm;	/* that came in; that weather asks */
	size_t pieces;
};

/* An interval of which the log itself must say what came in. */
static int looked_at(const struct tarn_leak *k, size_t j)
{
	return isnan(k->intervals[k->of[j]].metered_m3);
}

/* From row j: a piece of at most a week; returns the row after it. */
static size_t tell_piece(const struct tarn_leak *k, size_t j, double factor,
			 double hold_mm, struct tale *t)
{
	const struct gls_row *row = &k->plain[k->of[j]];
	double start_mm = k->laid.level_m[k->of[j]] * MM, level_mm = start_mm;
	double logged_mm = 0, days = 0, rain_mm = 0, var = row->start_var;
	double off_mm;

	do {
		const struct tarn_interval *v = &k->intervals[k->of[j]];
		double fall_mm;

		row = &k->plain[k->of[j]];
		fall_mm = v->expected_mm +
			  (factor - k->options.evaporation_mean) *
				  row->x[GLS_EVAPORATION];
		t->asked_mm += fmax(0, fall_mm);
		t->filled_mm += fmin(fmax(0, fall_mm),
				     fmax(0, hold_mm - level_mm + fall_mm));
		level_mm = fmax(level_mm - fall_mm, hold_mm);
		logged_mm += v->logged_mm;
		rain_mm += row->x[GLS_RAIN];
		var += row->w_var;
		days += v->days;
		j++;
	} while (j < k->used && k->of[j] == k->of[j - 1] + 1 &&
		 looked_at(k, j) && days < PIECE_DAYS);
	rain_mm *= k->options.rain_sd;
	var += row->end_var + rain_mm * rain_mm;
	off_mm = start_mm - level_mm - logged_mm;
	t->cost += fmin(WILD, off_mm * off_mm / (2 * var));
	t->pieces++;
	return j;
}

/* The likeliest factor of evaporation for a level at which it stops. */
static struct tale tell(const struct tarn_leak *k, double hold_mm)
{
	struct tale best = { .cost = HUGE_VAL };

	for (int i = 0; i < FACTOR_STEPS; i++) {
		double factor = FACTOR_LEAST + FACTOR_STEP * i;
		double far = (factor - k->options.evaporation_mean) /
			     k->options.evaporation_sd;
		struct tale t = { .cost = far * far / 2 };

		for (size_t j = 0; j < k->used;)
			j = looked_at(k, j)
				? tell_piece(k, j, factor, hold_mm, &t) : j + 1;
		if (t.cost < best.cost)
			best = t;
	}
	return best;
}

static int near_described(const struct tarn_pond *pond, double level_mm)
{
	double target_m = isnan(pond->target_m) ? pond->trigger_m
						: pond->target_m;

	return level_mm > pond->trigger_m * MM - NEAR_MM &&
	       level_mm < target_m * MM + NEAR_MM;
}

static double days_of(const struct tarn_leak *k)
{
	double days = 0;

	for (size_t j = 0; j < k->used; j++)
		days += looked_at(k, j) ? k->intervals[k->of[j]].days : 0;
	return days;
}

/* Weighs one level, and keeps it if it is likelier than what was kept. */
static void weigh(const struct tarn_leak *k, const struct tarn_pond *pond,
		  double free_cost, double hold_mm, struct tarn_held *out)
{
	struct tale t = tell(k, hold_mm);
	double odds = free_cost - t.cost;
	double share = t.asked_mm > 0 ? t.filled_mm / t.asked_mm : 0;
	int described = near_described(pond, hold_mm);
	int found = share >= TARN_HELD_SHARE &&
		    t.cost <= TARN_HELD_COST * (double)t.pieces &&
		    odds >= (described ? TARN_HELD_ODDS_DESCRIBED
				       : TARN_HELD_ODDS);

	if (share >= TARN_HELD_LITTLE)
		out->against = fmin(out->against, -odds);
	if (found < out->found || (found == out->found && !(odds > out->odds)))
		return;
	out->found = found;
	out->described = described;
	out->level_m = hold_mm / MM;
	out->odds = odds;
	out->share = share;
	out->asked_mm = t.asked_mm;
	out->filled_mm = t.filled_mm;
}

void tn_leak_find_held(struct tarn_leak *k, const struct tarn_pond *pond)
{
	struct tarn_held *out = &k->result.held;
	size_t step = k->used > LEVELS ? k->used / LEVELS : 1;
	double free_cost;

	*out = (struct tarn_held){
		.level_m = TARN_NAN, .days = days_of(k), .against = HUGE_VAL
	};
	if (!(2 * out->days > k->result.days))
		return;
	free_cost = tell(k, -HUGE_VAL).cost;
	for (size_t j = 0; j < k->used; j += step)
		if (looked_at(k, j))
			weigh(k, pond, free_cost,
			      k->laid.level_m[k->of[j] + 1] * MM, out);
	out->possible = !out->found && out->against < TARN_HELD_AGAINST;
	if (!out->found)
		out->level_m = TARN_NAN;
}
