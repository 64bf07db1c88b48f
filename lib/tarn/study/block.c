/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "tarn/base/stats.h"
#include "tarn/study/engine.h"

/* ---- the basin as the lanes search it ------------------------------------- */

#define CELLS_MAX 16384
#define MARGIN 1e-9		/* a cell's edges are known to rounding only */

size_t tn_block_segment(const struct lanes_basin *b, double volume_m3)
{
	size_t i = 0;

	while (volume_m3 > b->piece[i].end_m3)
		i++;
	return i;
}

/* Fills the cells; returns how many segments the worst of them spans. */
static int fill_cells(struct lanes_basin *b, double top_m3, int cells)
{
	size_t lo = 0, hi = 0;
	int steps = 0;

	b->cells = cells;
	b->scale = cells / top_m3;
	for (int c = 0; c <= cells; c++) {
		double from = c / b->scale * (1 - MARGIN);
		double to = (c + 1) / b->scale * (1 + MARGIN);

		while (from > b->piece[lo].end_m3)
			lo++;
		while (to > b->piece[hi].end_m3)
			hi++;
		b->cell[c] = (int)lo;
		if ((int)(hi - lo) > steps)
			steps = (int)(hi - lo);
	}
	return steps;
}

static void fill_segments(struct lanes_basin *b, const struct tarn_basin *t)
{
	b->count = 0;
	for (size_t i = 0; i + 1 < t->rows; i++) {
		if (!(t->volume_m3[i + 1] > t->volume_m3[i]))
			continue;	/* a level shelf holds no volume */
		b->piece[b->count++] = (struct lanes_piece){
			.start_m3 = t->volume_m3[i],
			.end_m3 = t->volume_m3[i + 1],
			.square = t->area_m2[i] * t->area_m2[i],
			.slope = t->growth_m[i],
			.level_m = t->level_m[i],
			.area_m2 = t->area_m2[i]
		};
	}
	b->piece[b->count - 1].end_m3 = STEP_NO_LIMIT;
}

enum tarn_status tn_block_basin(struct lanes_basin *b,
				const struct tarn_alloc *alloc,
				const struct tarn_basin *basin,
				struct tarn_error *err)
{
	double top_m3 = basin->volume_m3[basin->rows - 1];
	int cells = 64;

	b->cell = NULL;
	b->piece = tarn_resize(alloc, NULL, basin->rows * sizeof *b->piece);
	if (b->piece)
		b->cell = tarn_resize(alloc, NULL,
				      (CELLS_MAX + 2) * sizeof(int));
	if (!b->cell) {
		tn_block_basin_free(b, alloc);
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	}
	fill_segments(b, basin);
	/* as few cells as leave one step to take */
	for (;;) {
		b->steps = fill_cells(b, top_m3, cells);
		if (b->steps <= 1 || cells >= CELLS_MAX)
			return TARN_OK;
		cells *= 2;
	}
}

void tn_block_basin_free(struct lanes_basin *b, const struct tarn_alloc *alloc)
{
	tarn_resize(alloc, b->piece, 0);
	tarn_resize(alloc, b->cell, 0);
	b->piece = NULL;
	b->cell = NULL;
}

/* ---- loading --------------------------------------------------------------- */

void tn_block_clear(struct block *k, const struct lanes_basin *basin)
{
	/* all but the seasons, which loading fills */
	memset(k->lanes, 0, offsetof(struct lanes, season));
	k->lanes->count = 0;
	memset(&k->bounds, 0, sizeof k->bounds);
	k->basin = basin;
}

static void raise_bound(double *bound, double x)
{
	if (x > *bound)
		*bound = x;
}

/* What the pond cannot lose more than, full to the lip. */
static void bound(struct block_bounds *max, const struct variant *v)
{
	const struct step_fixed *p = &v->step.fixed;
	const struct tarn_basin *basin = v->pond.basin;
	double area_m2 = tarn_basin_area(basin, v->pond.overflow_level_m);
	double head_m = v->pond.overflow_level_m - tarn_basin_floor(basin);

	raise_bound(&max->full_m3, p->full_m3);
	raise_bound(&max->intake_m3, p->intake_m3);
	max->tank |= p->tank_m3 > 0;
	max->apron |= p->apron_m3_mm > 0;
	max->heads |= p->head_m3_m > 0;
	for (int i = 0; i < 12; i++) {
		const struct step_season *m = &v->step.season[i];

		raise_bound(&max->open_m3_mm[i],
			    m->open_m_mm * area_m2 + m->stream_m3_mm);
		raise_bound(&max->grass_m3_mm[i], m->plant_m3_mm);
		raise_bound(&max->fixed_m3[i],
			    m->splash_m3 + p->seepage_m * area_m2 +
			    p->seepage_m3 + p->head_m3_m * head_m);
		max->stops[i] |= !(m->share > 0);
		max->may_stop |= max->stops[i];
		max->swings |= m->share < 1;
	}
}

#define LANES_PUT(name) to->name[lane] = from->name;

static void put_fixed(struct lanes_fixed *to, const struct step_fixed *from,
		      size_t lane)
{
	STEP_FIXED(LANES_PUT)
}

static void put_season(struct lanes_season *to, const struct step_season *from,
		       size_t lane)
{
	STEP_SEASON(LANES_PUT)
}

void tn_block_load(struct block *k, size_t lane,
		   const struct lanes_basin *basin, const struct variant *v,
		   int start_stopped)
{
	struct lanes *b = k->lanes;
	struct tarn_run run = { 0 };
	struct step_state s;

	run.start_stopped = start_stopped;
	tn_step_begin(&v->step, &run, v->start_level_m, &s);
	put_fixed(&b->fixed, &v->step.fixed, lane);
	for (int m = 0; m < 12; m++)
		put_season(&b->season[m], &v->step.season[m], lane);
	b->pond_m3[lane] = b->lowest_m3[lane] = s.pond_m3;
	b->bed_m3[lane] = s.bed_m3;
	b->transit_m3[lane] = s.transit_m3;
	b->tank_now_m3[lane] = s.tank_m3;
	b->basin[lane] = basin;
	b->floor_m[lane] = basin->piece[0].level_m;
	if (lane + 1 > b->count)
		b->count = lane + 1;
	bound(&k->bounds, v);
	k->bounds.may_stop |= start_stopped;
}

/* ---- figures --------------------------------------------------------------- */

/* 'year_m3', 'week_m3': sorted, of a lane. */
static void year_figures(const double *year_m3, const double *week_m3,
			 size_t years, double *value)
{
	if (years == 0) {
		for (int q = TARN_Q_YEAR_MEAN; q <= TARN_Q_YEAR_MAX; q++)
			value[q] = TARN_NAN;
		value[TARN_Q_WEEK_P50] = value[TARN_Q_WEEK_P90] = TARN_NAN;
		return;
	}
	value[TARN_Q_YEAR_MEAN] = tn_stats_mean(year_m3, years, LANES);
	value[TARN_Q_YEAR_P10] = tn_stats_percentile(year_m3, years, LANES,
						     0.1);
	value[TARN_Q_YEAR_P50] = tn_stats_percentile(year_m3, years, LANES,
						     0.5);
	value[TARN_Q_YEAR_P90] = tn_stats_percentile(year_m3, years, LANES,
						     0.9);
	value[TARN_Q_YEAR_MAX] = year_m3[(years - 1) * LANES];
	value[TARN_Q_WEEK_P50] = tn_stats_percentile(week_m3, years, LANES,
						     0.5);
	value[TARN_Q_WEEK_P90] = tn_stats_percentile(week_m3, years, LANES,
						     0.9);
}

static void month_figures(const struct lanes *b,
			  const struct timetable *timetable,
			  size_t lane, double *value)
{
	value[TARN_Q_TOPUP] = 0;
	value[TARN_Q_MONTH_MAX] = -1;
	for (int m = 0; m < 12; m++) {
		double mean = TARN_NAN;

		value[TARN_Q_TOPUP] += b->by_month_m3[m][lane];
		if (timetable->month_count[m] > 0)
			mean = b->by_month_m3[m][lane] / timetable->month_count[m];
		value[TARN_Q_JANUARY + m] = mean;
		if (mean > value[TARN_Q_MONTH_MAX]) {
			value[TARN_Q_MONTH_MAX] = mean;
			value[TARN_Q_MONTH_AT] = m + 1;
		}
	}
}

/* As tarn_basin_level. */
static double level_at(const struct lanes_basin *basin, double volume_m3)
{
	int i = basin->cell[(int)(volume_m3 * basin->scale)];
	const struct lanes_piece *p;
	double in_m3, sum_m2;

	while (volume_m3 > basin->piece[i].end_m3)
		i++;
	p = &basin->piece[i];
	in_m3 = volume_m3 - p->start_m3;
	sum_m2 = p->area_m2 + sqrt(p->square + p->slope * in_m3);
	return sum_m2 > 0 ? p->level_m + 2 * in_m3 / sum_m2 : p->level_m;
}

void tn_block_figures(const struct block *k, const struct timetable *timetable,
		      size_t lane, double value[TARN_QUANTITIES])
{
	const struct lanes *b = k->lanes;
	int tank = b->fixed.tank_m3[lane] > 0;

	month_figures(b, timetable, lane, value);
	year_figures(k->year_m3 + lane, k->week_m3 + lane, timetable->years,
		     value);
	value[TARN_Q_WEEK_MAX] = b->week_max_m3[lane];
	value[TARN_Q_OVERFLOW] = b->overflow_m3[lane];
	value[TARN_Q_LOWEST_LEVEL] = level_at(b->basin[lane],
					      b->lowest_m3[lane]);
	value[TARN_Q_END_LEVEL] = level_at(b->basin[lane], b->pond_m3[lane]);
	value[TARN_Q_UNDER_INTAKE] = b->under_intake[lane];
	value[TARN_Q_RESTRICTED] = b->restricted[lane];
	value[TARN_Q_TANK] = b->tank_used_m3[lane];
	value[TARN_Q_NEED] = tank && !k->no_topup ? b->need_m3[lane]
						  : TARN_NAN;
	value[TARN_Q_TANK_SHARE] = value[TARN_Q_NEED] > 0
		? value[TARN_Q_TANK] / value[TARN_Q_NEED] : TARN_NAN;
	value[TARN_Q_ROOF] = b->roof_m3[lane];
	value[TARN_Q_TANK_SPILL] = b->tank_spill_m3[lane];
	value[TARN_Q_TANK_EMPTY] = tank ? b->tank_empty[lane] : TARN_NAN;
}
