/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "forecast_drops.h"
#include "forecast_sums.h"

#define DAY_SD_MOST 0.28	/* a day's factor stays above 0 */

/* ---- a run ------------------------------------------------------------------- */

/* All that the worlds of a forecast go through. */
struct worlds {
	const struct tarn_alloc *alloc;
	const struct tarn_pond *pond;
	const struct tarn_forcing *forcing;
	struct tarn_run run;
	struct draw draw;
	struct sums sums;
	double *b, *rain;		/* of each column */
	struct block block;
	struct timetable timetable;
	struct lanes_basin basin;
	void *space;			/* of the lanes, before it is aligned */
	struct block_drawn drawn;
};

#define CACHE_LINE 64

static void free_worlds(struct worlds *w)
{
	tarn_resize(w->alloc, w->b, 0);
	tarn_resize(w->alloc, w->space, 0);
	tarn_resize(w->alloc, w->timetable.stretch, 0);
	tarn_resize(w->alloc, w->timetable.open, 0);
	tarn_resize(w->alloc, w->timetable.withdrawal_m3, 0);
	tn_block_basin_free(&w->basin, w->alloc);
	tn_sums_free(&w->sums, w->alloc);
}

static enum tarn_status make_worlds(struct worlds *w, size_t worlds,
				    struct tarn_error *err)
{
	size_t days = w->forcing->days;
	struct timetable *t = &w->timetable;
	enum tarn_status status;

	w->b = tarn_resize(w->alloc, NULL, 2 * (worlds + 1) * sizeof *w->b);
	w->space = tarn_resize(w->alloc, NULL,
			       sizeof(struct lanes) + CACHE_LINE);
	t->stretch = tarn_resize(w->alloc, NULL,
				 (tn_timetable_room(days) +
				  tn_timetable_breaks(w->forcing)) *
					 sizeof *t->stretch);
	t->open = tarn_resize(w->alloc, NULL, days);
	t->withdrawal_m3 = tarn_resize(w->alloc, NULL, days * sizeof(double));
	if (!w->b || !w->space || !t->stretch || !t->open || !t->withdrawal_m3)
		return tarn_fail(err, TARN_ENOMEM, "forecast", "out of memory");
	w->rain = w->b + worlds + 1;
	w->block.lanes = (struct lanes *)(void *)
		((char *)w->space + CACHE_LINE -
		 (uintptr_t)w->space % CACHE_LINE);
	status = tn_block_basin(&w->basin, w->alloc, w->pond->basin, err);
	if (status == TARN_OK)
		status = tn_sums_make(&w->sums, w->alloc, w->forcing, worlds,
				      w->b, err);
	if (status == TARN_OK)
		tn_timetable_make(t, w->forcing, w->pond);
	return status;
}

/* Puts columns into lanes. */
static enum tarn_status load(struct worlds *w, size_t first, size_t columns,
			     struct tarn_error *err)
{
	tn_block_clear(&w->block, &w->basin);
	for (size_t l = 0; l < columns; l++) {
		struct variant v = { .pond = *w->pond };
		double rain[12], evaporation[12];
		enum tarn_status status = tn_step_prepare(&v.step, w->pond,
							  err);

		if (status == TARN_OK)
			status = tn_step_start(w->pond, &w->run,
					       &v.start_level_m, err);
		if (status != TARN_OK)
			return status;
		for (int m = 0; m < 12; m++) {
			rain[m] = w->rain[first + l];
			evaporation[m] = exp(w->b[first + l]);
		}
		tn_step_scale(&v.step, rain, evaporation);
		tn_block_load(&w->block, l, &w->basin, &v,
			      w->run.start_stopped);
	}
	tn_block_fill_up(&w->block, columns);
	return TARN_OK;
}

/* Through all days; after days that are left out the ponds begin again. */
static enum tarn_status take(struct worlds *w, size_t first, size_t columns,
			     struct tarn_error *err)
{
	struct lanes *b = w->block.lanes;
	enum tarn_status status = load(w, first, columns, err);

	w->draw.slow_at = -1;
	for (size_t i = 0; i < w->timetable.count && status == TARN_OK; i++) {
		const struct timetable_stretch *p = &w->timetable.stretch[i];

		if (p->left_out)
			continue;
		if (i > 0 && p[-1].left_out)
			status = load(w, first, columns, err);
		tn_draw_stretch(&w->draw, first, columns,
				w->forcing->first_day + (long)p->first,
				p->days, &w->drawn);
		tn_block_take(&w->block, &w->timetable, i, w->run.no_topup,
			      &w->drawn);
		tn_sums_add(&w->sums, w->forcing, p->first, first, columns,
			    b->filled_m3);
		memset(b->filled_m3, 0, sizeof b->filled_m3);
	}
	return status;
}

/* ---- what they say --------------------------------------------------------- */

static void judge(struct tarn_forecast_month *m)
{
	m->look_mm = m->drop_mm.p90 + TARN_RULER_MM;
	m->act_mm = 2 * m->drop_mm.p90 + TARN_RULER_MM;
}

static void by_month(struct tarn_forecast *out, struct sums *s,
		     const struct tarn_spread drop_mm[12])
{
	double most_m3[12] = { 0 };

	for (size_t i = 0; i < s->month.count; i++) {
		const struct sums_period *p = &s->month.period[i];

		if (p->whole)
			most_m3[p->name - 1] += p->topup_m3[0];
	}
	for (int month = 1; month <= 12; month++) {
		struct tarn_forecast_month *m = &out->month[out->months];

		m->a_week = tn_sums_range(s, &s->month, month, 1);
		m->week_m3 = tn_sums_weeks(s, 0, month);
		if (m->a_week.count == 0 && m->week_m3.count == 0)
			continue;
		m->month = month;
		m->days = tarn_usual_days(month);
		m->drop_mm = drop_mm[month - 1];
		judge(m);
		out->months++;
		if (m->a_week.count == 0)
			continue;
		/* a day of it */
		most_m3[month - 1] /= (double)m->a_week.count *
				      tarn_usual_days(month);
		if (most_m3[month - 1] > 0 &&
		    (!out->peak_month ||
		     most_m3[month - 1] > most_m3[out->peak_month - 1]))
			out->peak_month = month;
	}
}

static void by_week(struct tarn_forecast *out, struct sums *s)
{
	for (int number = 1; number <= TARN_SEASON_WEEKS; number++) {
		struct tarn_forecast_week *w = &out->week[out->weeks];

		w->topup_m3 = tn_sums_weeks(s, number, 0);
		if (w->topup_m3.count == 0)
			continue;
		w->week = number;
		tarn_week_about(number, w->about);
		out->weeks++;
	}
}

static void say(struct tarn_forecast *out, struct sums *s,
		const struct tarn_spread drop_mm[12])
{
	memset(out, 0, sizeof *out);
	out->days = s->run.period->days;
	out->worlds = s->worlds;
	out->a_week = tn_sums_range(s, &s->run, 0, 1);
	out->year = tn_sums_range(s, &s->year, 0, 0);
	by_month(out, s, drop_mm);
	by_week(out, s);
}

/* ---- all of it --------------------------------------------------------------- */

static enum tarn_status check(const struct tarn_run *run,
			      const struct tarn_exposure_budget *budget,
			      const struct tarn_forecast_options *o,
			      struct tarn_error *err)
{
	if (run->control)
		return tarn_fail(err, TARN_EARG, "control", "of a caller is not "
				 "asked in a forecast: run ledgers of a study");
	if (!(budget->centre_sd_ln >= 0 && budget->centre_sd_ln <= 2))
		return tarn_fail(err, TARN_EARG, "centre_sd_ln", "must be 0 to "
				 "2, got %g", budget->centre_sd_ln);
	if (!(budget->slow_sd_ln >= 0 && budget->slow_sd_ln <= 1))
		return tarn_fail(err, TARN_EARG, "slow_sd_ln", "must be 0 to "
				 "1, got %g", budget->slow_sd_ln);
	if (!(budget->day_sd >= 0 && budget->day_sd <= DAY_SD_MOST))
		return tarn_fail(err, TARN_EARG, "day_sd", "must be 0 to %g, "
				 "got %g", DAY_SD_MOST, budget->day_sd);
	return tarn_fields_check(&tarn_forecast_options_fields, o, err);
}

static enum tarn_status run_all(struct worlds *w, struct tarn_error *err)
{
	size_t columns = w->sums.columns;
	enum tarn_status status = TARN_OK;

	for (size_t at = 0; at < columns && status == TARN_OK; at += LANES) {
		size_t n = columns - at < LANES ? columns - at : LANES;

		status = take(w, at, n, err);
	}
	return status;
}

enum tarn_status tarn_forecast(struct tarn_forecast *out,
			       const struct tarn_alloc *alloc,
			       const struct tarn_pond *pond,
			       const struct tarn_forcing *forcing,
			       const struct tarn_run *run,
			       const struct tarn_exposure_budget *budget,
			       const struct tarn_forecast_options *o,
			       struct tarn_error *err)
{
	struct tarn_forecast_options plain = tarn_forecast_options_default();
	struct worlds w = { .alloc = alloc, .pond = pond, .forcing = forcing,
			    .run = run ? *run : tarn_run_default() };
	struct tarn_spread drop_mm[12];
	enum tarn_status status;

	o = o ? o : &plain;
	status = check(&w.run, budget, o, err);
	if (status == TARN_OK)
		status = tarn_pond_check(pond, err);
	if (status == TARN_OK)
		status = tarn_forcing_check(forcing, err);
	if (status != TARN_OK)
		return status;
	w.draw = (struct draw){ .seed = (uint64_t)o->seed,
				.slow_sd = budget->slow_sd_ln,
				.day_sd = budget->day_sd };
	status = make_worlds(&w, (size_t)o->worlds, err);
	if (status == TARN_OK) {
		tn_draw_worlds(w.b, w.rain, (size_t)o->worlds, budget, o);
		status = run_all(&w, err);
	}
	if (status == TARN_OK)
		status = tn_forecast_drops(drop_mm, alloc, pond, forcing,
					   &w.run, budget, err);
	if (status == TARN_OK)
		say(out, &w.sums, drop_mm);
	free_worlds(&w);
	return status;
}
