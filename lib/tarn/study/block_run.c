/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "tarn/study/engine.h"

/* A block of ponds goes through the days. */

/* The last step is filled up with ponds that nobody reads. */
void tn_block_fill_up(struct block *k, size_t lanes)
{
	double (*array)[LANES_ROOM] = (void *)k->lanes;
	size_t arrays = offsetof(struct lanes, basin) / sizeof *array;

	for (size_t lane = lanes; lane % LANES_STEP; lane++) {
		for (size_t i = 0; i < arrays; i++)
			array[i][lane] = array[i][lanes - 1];
		k->lanes->basin[lane] = k->lanes->basin[lanes - 1];
	}
	k->lanes->count = (lanes + LANES_STEP - 1) / LANES_STEP * LANES_STEP;
}

/* ---- running --------------------------------------------------------------- */

/* Bed and stream are full in all lanes: a running pump takes no water. */
static int all_full(const struct lanes *b)
{
	int full = 1;

	for (size_t l = 0; l < b->count; l++)
		full &= b->bed_m3[l] >= b->fixed.bed_m3[l] &&
			b->transit_m3[l] >= b->fixed.transit_m3[l];
	return full;
}

static double most_lost(const struct block_bounds *max,
			const struct lanes_stretch *s, double drawn)
{
	double sum_m3 = 0;

	for (size_t i = 0; i < s->days; i++) {
		const struct step_sky *w = &s->sky[i];

		sum_m3 += (w->open_water_mm * max->open_m3_mm[s->month] +
			   w->grass_mm * max->grass_m3_mm[s->month]) * drawn +
			  max->fixed_m3[s->month] + w->withdrawal_m3;
	}
	return sum_m3;
}

/* Picks the loop: the fewer segments the block can meet, the faster. */
static void pick_loop(const struct block *k, const struct lanes *b,
		      const struct block_drawn *drawn, struct lanes_stretch *s)
{
	const struct block_bounds *max = &k->bounds;
	double low_m3 = tn_lanes_least(b->pond_m3, b->count) -
			most_lost(max, s, drawn ? drawn->most : 1);
	size_t knots;

	s->loop = LANES_ALL;
	s->lowest = 0;
	s->low = low_m3 < max->intake_m3;
	if (max->heads || max->stops[s->month] ||
	    (max->may_stop && !all_full(b)))
		return;
	s->loop = LANES_SEARCH;
	if (!k->basin)
		return;
	s->lowest = tn_block_segment(k->basin, low_m3);
	knots = tn_block_segment(k->basin, max->full_m3) - s->lowest;
	if (knots <= LANES_KNOTS)
		s->loop = (int)knots;
}

/* Who gives water: as the timetable says; nobody; or the supply alone, always. */
enum source { BY_TIMETABLE, NOBODY, SUPPLY };

static void take_stretch(struct block *k, struct lanes *b,
			 const struct timetable *timetable,
			 const struct timetable_stretch *p, enum source from,
			 const struct block_drawn *drawn)
{
	struct step_sky sky[BLOCK_DAYS];
	struct lanes_stretch s = {
		.sky = sky, .days = p->days, .month = p->month,
		.tank = k->bounds.tank && from != SUPPLY,
		.apron = k->bounds.apron, .steady = !k->bounds.swings,
		.drawn = drawn ? drawn->day : NULL
	};

	for (size_t d = 0; d < p->days; d++) {
		tn_timetable_sky(timetable, p->first + d, &sky[d]);
		if (from == BY_TIMETABLE)
			continue;
		sky[d].supply_m3 = from == SUPPLY ? STEP_NO_LIMIT : 0;
		sky[d].tank_m3 = 0;
		sky[d].refused_m3 = STEP_NO_LIMIT;
	}
	pick_loop(k, b, drawn, &s);
	tn_lanes_run(b, k->basin, &s);
}

/* Top-up of the same lanes where nothing restricts them: their sum over the
 * days is never folded, so that it is that of a ledger, bit by bit. */
static void run_twin(struct block *k, const struct timetable *timetable)
{
	struct lanes *t = k->twin;

	memcpy(t, k->lanes, sizeof *t);
	for (size_t l = 0; l < t->count; l++)
		t->fixed.supply_m3[l] = STEP_NO_LIMIT;
	for (size_t i = 0; i < timetable->count; i++)
		take_stretch(k, t, timetable, &timetable->stretch[i], SUPPLY,
			     NULL);
	memcpy(k->lanes->need_m3, t->filled_m3, sizeof t->filled_m3);
}

void tn_block_run(struct block *k, const struct timetable *timetable,
		  size_t lanes, int no_topup)
{
	struct lanes *b = k->lanes;
	size_t years = 0, peaks = 0;

	tn_block_fill_up(k, lanes);
	k->no_topup = no_topup;
	if (k->bounds.tank && !no_topup)
		run_twin(k, timetable);
	for (size_t i = 0; i < timetable->count; i++) {
		const struct timetable_stretch *p = &timetable->stretch[i];

		take_stretch(k, b, timetable, p,
			     no_topup ? NOBODY : BY_TIMETABLE, NULL);
		tn_lanes_fold(b, p->month, p->ends,
			      p->whole_year ? k->year_m3 + years * LANES : NULL,
			      p->whole_weeks ? k->week_m3 + peaks * LANES
					     : NULL);
		years += (size_t)p->whole_year;
		peaks += (size_t)p->whole_weeks;
	}
	tn_lanes_sort(k->year_m3, years);
	tn_lanes_sort(k->week_m3, peaks);
}

void tn_block_take(struct block *k, const struct timetable *timetable,
		   size_t stretch, int no_topup,
		   const struct block_drawn *drawn)
{
	take_stretch(k, k->lanes, timetable, &timetable->stretch[stretch],
		     no_topup ? NOBODY : BY_TIMETABLE, drawn);
}
