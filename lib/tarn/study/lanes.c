/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/study/lanes.h"

/*
 * The hot loops, all of them over lanes.  Compiled three times where the
 * compiler and the system can choose at load time by the processor; else once.
 * Such functions are static, as their helpers would leave the library else.
 * The order of sums within a lane is fixed, and no product is fused with a
 * sum (-ffp-contract=off): each build gives the same bits.
 */
#if defined(__x86_64__) && defined(__gnu_linux__) && defined(__GNUC__) && \
	!defined(__clang__) && __GNUC__ >= 12
#define CLONES __attribute__((target_clones("arch=x86-64-v4", \
					    "arch=x86-64-v3", "default")))
#else
#define CLONES
#endif

#define LANES_PICK(name) .name = a->name[l],

STEP_INLINE struct step_fixed fixed_of(const struct lanes_fixed *a, size_t l)
{
	return (struct step_fixed){ STEP_FIXED(LANES_PICK) };
}

STEP_INLINE struct step_season season_of(const struct lanes_season *a, size_t l)
{
	return (struct step_season){ STEP_SEASON(LANES_PICK) };
}

STEP_INLINE size_t lanes_of(const struct lanes *b)
{
	return b->count & ~(size_t)(LANES_STEP - 1);	/* no remainder loop */
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

STEP_INLINE void sum_evening(struct lanes *b, size_t l, int tank,
			     const struct step_fixed *p,
			     const struct step_sky *w,
			     const struct step_state *s,
			     const struct step_flow *f)
{
	b->filled_m3[l] += f->topup_m3;
	b->lowest_m3[l] = step_least(b->lowest_m3[l], s->pond_m3);
	b->under_intake[l] += s->pond_m3 < p->intake_m3 ? 1.0 : 0.0;
	b->restricted[l] += f->unmet_m3 > w->refused_m3 ? 1.0 : 0.0;
	if (tank) {
		b->tank_used_m3[l] += f->tank_m3;
		b->tank_empty[l] += s->tank_m3 > 0 ? 0.0 : 1.0;
	}
}

/* ---- few segments: a day in one pass ------------------------------------- */

/* One segment: area^2 = square + slope (V - start). */
struct piece {
	double start_m3, square, slope;
};

/*
 * The segment of each lane is picked among 'knots' + 1; pumps run, no apron
 * by curve number, no seepage by head.
 */
STEP_INLINE void short_day(struct lanes *b, const struct lanes_season *season,
			   const struct piece *piece, int knots, int tank,
			   const struct step_sky *w)
{
	for (size_t l = 0; l < lanes_of(b); l++) {
		struct step_fixed p = fixed_of(&b->fixed, l);
		struct step_season m = season_of(season, l);
		struct step_state s = state_of(b, l, 0, tank);
		struct step_flow f;
		struct piece at = piece[0];
		double area_m2;

		step_morning(&p, &m, w, 0, 0, tank, &s, &f);
		sum_morning(b, l, tank, &f);
		for (int k = 1; k <= knots; k++) {
			int above = s.pond_m3 > piece[k].start_m3;

			at.start_m3 = above ? piece[k].start_m3 : at.start_m3;
			at.square = above ? piece[k].square : at.square;
			at.slope = above ? piece[k].slope : at.slope;
		}
		area_m2 = sqrt(at.square + at.slope *
					   (s.pond_m3 - at.start_m3));
		step_evening(&p, &m, w, area_m2, 0, 0, &s, &f);
		step_refill(&p, w, step_wish(&p, &s), tank, &s, &f);
		sum_evening(b, l, tank, &p, w, &s, &f);
		put_state(b, l, 0, tank, &s);
	}
}

/* ---- any number of segments: a day in passes ------------------------------ */

STEP_INLINE void run_off(struct lanes *b, const struct lanes_season *season,
			 const struct step_sky *w)
{
	for (size_t l = 0; l < lanes_of(b); l++)
		b->runoff_m3[l] = step_runoff(w->rain_mm *
					      season->rain_factor[l],
					      b->fixed.apron_s_mm[l]) *
				  b->fixed.apron_m3_mm[l];
}

STEP_INLINE void morning(struct lanes *b, const struct lanes_season *season,
			 int stops, int tank, const struct step_sky *w)
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

/* From the cell's first segment upward, a step at a time for all lanes. */
STEP_INLINE void search(struct lanes *b, const struct lanes_basin *basin)
{
	const int *restrict cell = basin->cell;
	const double *restrict start_m3 = basin->start_m3;

	for (size_t l = 0; l < lanes_of(b); l++)
		b->segment[l] = cell[(int)(b->pond_m3[l] * basin->scale)];
	for (int i = 0; i < basin->steps; i++)
		for (size_t l = 0; l < lanes_of(b); l++)
			b->segment[l] += b->pond_m3[l] >
					 start_m3[b->segment[l] + 1];
}

STEP_INLINE void evening(struct lanes *b, const struct lanes_season *season,
			 const struct lanes_basin *basin, int all, int tank,
			 const struct step_sky *w)
{
	for (size_t l = 0; l < lanes_of(b); l++) {
		struct step_fixed p = fixed_of(&b->fixed, l);
		struct step_season m = season_of(season, l);
		struct step_state s = state_of(b, l, all, tank);
		struct step_flow f;
		int i = b->segment[l];
		double in_m3 = s.pond_m3 - basin->start_m3[i];
		double area_m2 = sqrt(basin->square[i] +
				      basin->slope[i] * in_m3);
		double head_m3 = 0;

		f.running = 1;
		if (all) {
			double sum_m2 = basin->area_m2[i] + area_m2;
			double level_m = basin->level_m[i] +
					 2 * in_m3 / step_most(1e-300, sum_m2);

			f.running = b->running[l];
			head_m3 = p.head_m3_m * (level_m - basin->level_m[0]);
		}
		step_evening(&p, &m, w, area_m2, head_m3, all, &s, &f);
		step_refill(&p, w, step_wish(&p, &s), tank, &s, &f);
		sum_evening(b, l, tank, &p, w, &s, &f);
		put_state(b, l, all, tank, &s);
	}
}

STEP_INLINE void long_day(struct lanes *b, const struct lanes_season *season,
			  const struct lanes_basin *basin, int all, int tank,
			  int apron, const struct step_sky *w)
{
	if (apron)
		run_off(b, season, w);
	morning(b, season, all, tank, w);
	search(b, basin);
	evening(b, season, basin, all, tank, w);
}

/* ---- a stretch ------------------------------------------------------------ */

#define SHORT_DAY(knots) \
	case 2 * (knots): \
		short_day(b, season, piece, knots, 0, w); \
		break; \
	case 2 * (knots) + 1: \
		short_day(b, season, piece, knots, 1, w); \
		break

CLONES
static void hot_run(struct lanes *b, const struct lanes_basin *basin,
		    const struct lanes_stretch *stretch)
{
	const struct lanes_season *season = &b->season[stretch->month];
	struct piece piece[LANES_KNOTS + 1];

	for (int k = 0; k <= stretch->knots && k <= LANES_KNOTS; k++) {
		size_t i = stretch->lowest + (size_t)k;

		if (i < basin->count)
			piece[k] = (struct piece){ basin->start_m3[i],
						   basin->square[i],
						   basin->slope[i] };
	}
	for (size_t day = 0; day < stretch->days; day++) {
		const struct step_sky *w = &stretch->sky[day];
		int knots = stretch->knots;

		/* an apron by curve number matters on wet days only */
		if (stretch->apron && w->rain_mm > 0 && knots < LANES_SEARCH)
			knots = LANES_SEARCH;
		switch (2 * knots + stretch->tank) {
		SHORT_DAY(0);
		SHORT_DAY(1);
		SHORT_DAY(2);
		SHORT_DAY(3);
		case 2 * LANES_SEARCH:
			long_day(b, season, basin, 0, 0, stretch->apron, w);
			break;
		case 2 * LANES_SEARCH + 1:
			long_day(b, season, basin, 0, 1, stretch->apron, w);
			break;
		default:
			long_day(b, season, basin, 1, 1, stretch->apron, w);
		}
	}
}

CLONES
static void hot_fold(struct lanes *b, int month, unsigned ends,
		     double *restrict year_m3, double *restrict week_m3)
{
	double *restrict by_month = b->by_month_m3[month];

	for (size_t l = 0; l < lanes_of(b); l++) {
		b->week_m3[l] += b->filled_m3[l];
		b->month_m3[l] += b->filled_m3[l];
		b->filled_m3[l] = 0;
	}
	if (ends & LANES_WEEK)
		for (size_t l = 0; l < lanes_of(b); l++) {
			b->year_week_m3[l] = step_most(b->week_m3[l],
						       b->year_week_m3[l]);
			b->week_max_m3[l] = step_most(b->week_m3[l],
						      b->week_max_m3[l]);
			b->week_m3[l] = 0;
		}
	if (ends & LANES_MONTH)
		for (size_t l = 0; l < lanes_of(b); l++) {
			by_month[l] += b->month_m3[l];
			b->year_m3[l] += b->month_m3[l];
			b->month_m3[l] = 0;
		}
	if (!(ends & LANES_YEAR))
		return;
	for (size_t l = 0; l < lanes_of(b) && year_m3; l++) {
		year_m3[l] = b->year_m3[l];
		week_m3[l] = b->year_week_m3[l];
	}
	for (size_t l = 0; l < lanes_of(b); l++)
		b->year_m3[l] = b->year_week_m3[l] = 0;
}

/*
 * Batcher's odd-even merge exchange: Knuth, The Art of Computer Programming 3
 * (1998), section 5.2.2, algorithm M.  The pairs do not depend on the numbers.
 */
CLONES
static void hot_sort(double *rows, size_t count)
{
	size_t top = 1;

	while (2 * top < count)
		top *= 2;
	for (size_t p = top; p > 0 && count > 1; p /= 2) {
		size_t q = top, r = 0, d = p;

		for (;;) {
			for (size_t i = 0; i + d < count; i++) {
				double *restrict a = rows + i * LANES;
				double *restrict b = rows + (i + d) * LANES;

				if ((i & p) != r)
					continue;
				for (size_t l = 0; l < LANES; l++) {
					double x = a[l], y = b[l];

					a[l] = x < y ? x : y;
					b[l] = x < y ? y : x;
				}
			}
			if (q == p)
				break;
			d = q - p;
			q /= 2;
			r = p;
		}
	}
}

CLONES
static double hot_least(const double *x, size_t count)
{
	double part[LANES_STEP];
	double least = HUGE_VAL;

	for (size_t j = 0; j < LANES_STEP; j++)
		part[j] = HUGE_VAL;
	for (size_t i = 0; i + LANES_STEP <= count; i += LANES_STEP)
		for (size_t j = 0; j < LANES_STEP; j++)
			part[j] = step_least(part[j], x[i + j]);
	for (size_t j = 0; j < LANES_STEP; j++)
		least = step_least(part[j], least);
	return least;
}

/* ---- doors ----------------------------------------------------------------- */

void lanes_run(struct lanes *b, const struct lanes_basin *basin,
	       const struct lanes_stretch *stretch)
{
	hot_run(b, basin, stretch);
}

void lanes_fold(struct lanes *b, int month, unsigned ends, double *year_m3,
		double *week_m3)
{
	hot_fold(b, month, ends, year_m3, week_m3);
}

void lanes_sort(double *rows, size_t count)
{
	hot_sort(rows, count);
}

double lanes_least(const double *x, size_t count)
{
	return hot_least(x, count);
}
