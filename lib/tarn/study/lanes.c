/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/study/lanes_hot.h"

/* A day of every lane.  See lanes_hot.h for how these loops are compiled. */

#define LANES_PICK(name) .name = a->name[l],

STEP_INLINE struct step_fixed fixed_of(const struct lanes_fixed *a, size_t l)
{
	return (struct step_fixed){ STEP_FIXED(LANES_PICK) };
}

STEP_INLINE struct step_season season_of(const struct lanes_season *a, size_t l)
{
	return (struct step_season){ STEP_SEASON(LANES_PICK) };
}

STEP_INLINE struct step_state state_of(const struct lanes *b, size_t l,
				       int stops, int tank)
{
	struct step_state s = { .pond_m3 = b->pond_m3[l] };

	if (stops) {
		s.bed_m3 = b->bed_m3[l];
		s.transit_m3 = b->transit_m3[l];
	}
	if (tank)
		s.tank_m3 = b->tank_now_m3[l];
	return s;
}

STEP_INLINE void put_state(struct lanes *b, size_t l, int stops, int tank,
			   const struct step_state *s)
{
	b->pond_m3[l] = s->pond_m3;
	if (stops) {
		b->bed_m3[l] = s->bed_m3;
		b->transit_m3[l] = s->transit_m3;
	}
	if (tank)
		b->tank_now_m3[l] = s->tank_m3;
}

STEP_INLINE void sum_morning(struct lanes *b, size_t l, int tank,
			     const struct step_flow *f)
{
	b->overflow_m3[l] += f->overflow_m3;
	if (tank) {
		b->roof_m3[l] += f->roof_m3;
		b->tank_spill_m3[l] += f->tank_spill_m3;
	}
}

/* 'count': some lane may count a day today. */
STEP_INLINE void sum_evening(struct lanes *b, size_t l, int tank, int count,
			     const struct step_sky *w,
			     const struct step_state *s,
			     const struct step_flow *f)
{
	b->filled_m3[l] += f->topup_m3;
	b->lowest_m3[l] = step_least(b->lowest_m3[l], s->pond_m3);
	if (count) {
		b->under_intake[l] += s->pond_m3 < b->fixed.intake_m3[l];
		b->restricted[l] += f->unmet_m3 > w->refused_m3;
	}
	if (tank) {
		b->tank_used_m3[l] += f->tank_m3;
		b->tank_empty[l] += !(s->tank_m3 > 0);
	}
}

/*
 * A day goes in passes over the lanes: each is short, so that the processor
 * has many lanes in hand at once.  A pass that a day does not need is left
 * out, and so is what a pass does for parts that the block does not have.
 */

/* ---- morning, where the area is found on the way --------------------------- */

/*
 * The segment of each lane is one of 'knots' + 1.  Pumps run all day, no
 * apron goes by curve number.
 *   wet   0: no rain, and nothing stands over a lip
 */
STEP_INLINE void short_morning(struct lanes *b,
			       const struct lanes_season *season,
			       const struct lanes_piece *piece, int knots,
			       int tank, int wet, const struct step_sky *w)
{
	for (size_t l = 0; l < lanes_of(b); l++) {
		struct step_state s = state_of(b, l, 0, tank);
		double start_m3 = piece[0].start_m3;
		double square = piece[0].square, slope = piece[0].slope;

		if (wet) {
			struct step_fixed p = fixed_of(&b->fixed, l);
			struct step_season m = season_of(season, l);
			struct step_flow f;

			step_morning(&p, &m, w, 0, 0, tank, &s, &f);
			sum_morning(b, l, tank, &f);
			put_state(b, l, 0, tank, &s);
		}
		for (int k = 1; k <= knots; k++) {
			int above = s.pond_m3 > piece[k].start_m3;

			start_m3 = above ? piece[k].start_m3 : start_m3;
			square = above ? piece[k].square : square;
			slope = above ? piece[k].slope : slope;
		}
		b->area_m2[l] = sqrt(square + slope * (s.pond_m3 - start_m3));
	}
}

/* ---- morning, in general ---------------------------------------------------- */

STEP_INLINE void run_off(struct lanes *b, const struct lanes_season *season,
			 const struct step_sky *w)
{
	for (size_t l = 0; l < lanes_of(b); l++)
		b->runoff_m3[l] = step_runoff(w->rain_mm *
					      season->rain_factor[l],
					      b->fixed.apron_s_mm[l]) *
				  b->fixed.apron_m3_mm[l];
}

STEP_INLINE void long_morning(struct lanes *b,
			      const struct lanes_season *season, int stops,
			      int tank, const struct step_sky *w)
{
	for (size_t l = 0; l < lanes_of(b); l++) {
		struct step_fixed p = fixed_of(&b->fixed, l);
		struct step_season m = season_of(season, l);
		struct step_state s = state_of(b, l, stops, tank);
		struct step_flow f;

		step_morning(&p, &m, w, b->runoff_m3[l], stops, tank, &s, &f);
		sum_morning(b, l, tank, &f);
		put_state(b, l, stops, tank, &s);
		if (stops)
			b->running[l] = f.running;
	}
}

/* The segment of each lane; the only loop that goes lane by lane. */
STEP_INLINE void search(struct lanes *b, const struct lanes_basin *basin,
			int heads)
{
	for (size_t l = 0; l < lanes_of(b); l++) {
		const struct lanes_basin *of = basin ? basin : b->basin[l];
		double v_m3 = b->pond_m3[l];
		int i = of->cell[(int)(v_m3 * of->scale)];
		const struct lanes_piece *p;

		for (int k = 0; k < of->steps; k++)
			i += v_m3 > of->piece[i].end_m3;
		p = &of->piece[i];
		b->at.start_m3[l] = p->start_m3;
		b->at.square[l] = p->square;
		b->at.slope[l] = p->slope;
		if (heads) {
			b->at.level_m[l] = p->level_m;
			b->at.area_m2[l] = p->area_m2;
		}
	}
}

STEP_INLINE void areas(struct lanes *b, int heads)
{
	for (size_t l = 0; l < lanes_of(b); l++) {
		double in_m3 = b->pond_m3[l] - b->at.start_m3[l];
		double area_m2 = sqrt(b->at.square[l] + b->at.slope[l] * in_m3);

		b->area_m2[l] = area_m2;
		if (heads) {	/* as basin_level_in */
			double sum_m2 = step_most(b->at.area_m2[l] + area_m2,
						  1e-300);
			double level_m = b->at.level_m[l] + 2 * in_m3 / sum_m2;

			b->head_m3[l] = b->fixed.head_m3_m[l] *
					(level_m - b->floor_m[l]);
		}
	}
}

/* ---- evening ----------------------------------------------------------------- */

/* 'drawn': NULL, or a factor a lane. */
STEP_INLINE void evening(struct lanes *b, const struct lanes_season *season,
			 int all, int tank, int count, const double *drawn,
			 const struct step_sky *sky)
{
	for (size_t l = 0; l < lanes_of(b); l++) {
		struct step_sky own = *sky;
		const struct step_sky *w = &own;
		struct step_fixed p = fixed_of(&b->fixed, l);
		struct step_season m = season_of(season, l);
		struct step_state s = state_of(b, l, all, tank);
		struct step_flow f;
		double head_m3 = all ? b->head_m3[l] : 0;

		if (drawn) {
			own.open_water_mm *= drawn[l];
			own.grass_mm *= drawn[l];
		}
		f.running = all ? b->running[l] : 1;
		step_evening(&p, &m, w, b->area_m2[l], head_m3, all, &s, &f);
		step_refill(&p, w, step_wish(&p, &s), tank, &s, &f);
		sum_evening(b, l, tank, count, w, &s, &f);
		put_state(b, l, all, tank, &s);
	}
}

/* ---- a stretch ------------------------------------------------------------ */

STEP_INLINE int is_dry(const struct lanes_stretch *stretch, const struct step_sky *w)
{
	return stretch->steady && !(w->rain_mm > 0);
}

/* Constant arguments make a loop of their own for each case. */
#define SHORT_MORNING(knots) \
	case 3 * (knots): \
		short_morning(b, season, piece, knots, 0, 0, w); \
		break; \
	case 3 * (knots) + 1: \
		short_morning(b, season, piece, knots, 0, 1, w); \
		break; \
	case 3 * (knots) + 2: \
		short_morning(b, season, piece, knots, 1, 1, w); \
		break

STEP_INLINE void any_short_morning(struct lanes *b,
				   const struct lanes_season *season,
				   const struct lanes_piece *piece,
				   const struct lanes_stretch *stretch,
				   const struct step_sky *w)
{
	int part = is_dry(stretch, w) ? 0 : 1 + stretch->tank;

	switch (3 * stretch->loop + part) {
	SHORT_MORNING(0);
	SHORT_MORNING(1);
	SHORT_MORNING(2);
	SHORT_MORNING(3);
	}
}

STEP_INLINE void any_long_morning(struct lanes *b,
				  const struct lanes_season *season,
				  const struct lanes_basin *basin,
				  const struct lanes_stretch *stretch,
				  const struct step_sky *w)
{
	if (stretch->apron)
		run_off(b, season, w);
	if (stretch->loop == LANES_ALL) {
		long_morning(b, season, 1, 1, w);
		search(b, basin, 1);
		areas(b, 1);
		return;
	}
	if (stretch->tank && !is_dry(stretch, w))
		long_morning(b, season, 0, 1, w);
	else if (!is_dry(stretch, w))
		long_morning(b, season, 0, 0, w);
	search(b, basin, 0);
	areas(b, 0);
}

STEP_INLINE void any_evening(struct lanes *b,
			     const struct lanes_season *season,
			     const struct lanes_stretch *stretch,
			     const struct step_sky *w)
{
	int count = stretch->low || !(w->refused_m3 > 0);

	if (stretch->loop == LANES_ALL)
		evening(b, season, 1, 1, 1, NULL, w);
	else if (stretch->tank && count)
		evening(b, season, 0, 1, 1, NULL, w);
	else if (stretch->tank)
		evening(b, season, 0, 1, 0, NULL, w);
	else if (count)
		evening(b, season, 0, 0, 1, NULL, w);
	else
		evening(b, season, 0, 0, 0, NULL, w);
}

/* Days that are counted are not asked for here. */
STEP_INLINE void drawn_evening(struct lanes *b,
			       const struct lanes_season *season,
			       const struct lanes_stretch *stretch,
			       const double *drawn, const struct step_sky *w)
{
	if (stretch->loop == LANES_ALL)
		evening(b, season, 1, 1, 0, drawn, w);
	else if (stretch->tank)
		evening(b, season, 0, 1, 0, drawn, w);
	else
		evening(b, season, 0, 0, 0, drawn, w);
}

CLONES
static void hot_run(struct lanes *b, const struct lanes_basin *basin,
		    const struct lanes_stretch *stretch)
{
	const struct lanes_season *season = &b->season[stretch->month];
	struct lanes_piece piece[LANES_KNOTS + 1] = { { 0 } };

	for (int k = 0; basin && k <= stretch->loop && k <= LANES_KNOTS; k++)
		if (stretch->lowest + (size_t)k < basin->count)
			piece[k] = basin->piece[stretch->lowest + (size_t)k];
	for (size_t day = 0; day < stretch->days; day++) {
		const struct step_sky *w = &stretch->sky[day];

		/* an apron by curve number matters on wet days only */
		if (stretch->loop <= LANES_KNOTS &&
		    !(stretch->apron && w->rain_mm > 0))
			any_short_morning(b, season, piece, stretch, w);
		else
			any_long_morning(b, season, basin, stretch, w);
		if (stretch->drawn)
			drawn_evening(b, season, stretch, stretch->drawn[day],
				      w);
		else
			any_evening(b, season, stretch, w);
	}
}

void tn_lanes_run(struct lanes *b, const struct lanes_basin *basin,
		  const struct lanes_stretch *stretch)
{
	hot_run(b, basin, stretch);
}
