/* SPDX-License-Identifier: MIT */
#include <pthread.h>
#include <string.h>

#include "tarn/study/engine.h"

/* ---- what a run works with ------------------------------------------------- */

/* A thread's own: block and timetable. */
struct worker {
	struct engine *engine;
	pthread_t thread;
	void *space;		/* of the lanes, before they are aligned */
	struct block block;
	struct timetable timetable;
	struct lanes_basin basin;	/* of a variant that has its own */
};

struct engine {
	const struct tarn_study *study;
	struct tarn_study_rows *rows;
	struct variant_target *targets;
	struct lanes_basin *basins;	/* one a pond */
	struct worker *workers;
	size_t block_rows;
	int alone;		/* each variant has a block of its own */
	pthread_mutex_t lock;
	size_t next, finished, bad;	/* under the lock; rows of this run */
	int stop;			/* under the lock */
};

static size_t most_days(const struct tarn_study *study)
{
	size_t days = 0;

	for (size_t i = 0; i < study->weather_count; i++)
		if (study->weathers[i].days > days)
			days = study->weathers[i].days;
	return days;
}

static void free_worker(struct worker *w, const struct tarn_alloc *alloc)
{
	tarn_resize(alloc, w->space, 0);
	tarn_resize(alloc, w->block.year_m3, 0);
	tarn_resize(alloc, w->timetable.stretch, 0);
	tarn_resize(alloc, w->timetable.open, 0);
	tarn_resize(alloc, w->timetable.withdrawal_m3, 0);
	tn_block_basin_free(&w->basin, NULL);
	tn_variant_free(&w->block.variant);
}

#define CACHE_LINE 64

/* All memory is taken before threads start: the caller's allocator need not
 * be thread-safe.  0 if some is missing. */
static int make_worker(struct worker *w, const struct tarn_alloc *alloc,
		       size_t days)
{
	size_t years = days / 365 + 1;

	w->space = tarn_resize(alloc, NULL, sizeof *w->block.lanes + CACHE_LINE);
	w->block.year_m3 = tarn_resize(alloc, NULL, 2 * years * LANES *
						    sizeof(double));
	w->timetable.stretch =
		tarn_resize(alloc, NULL, tn_timetable_room(days) *
					 sizeof *w->timetable.stretch);
	w->timetable.open = tarn_resize(alloc, NULL, days);
	w->timetable.withdrawal_m3 = tarn_resize(alloc, NULL,
						 days * sizeof(double));
	if (!w->space || !w->block.year_m3 || !w->timetable.stretch ||
	    !w->timetable.open || !w->timetable.withdrawal_m3)
		return 0;
	w->block.week_m3 = w->block.year_m3 + years * LANES;
	w->block.lanes = (struct lanes *)(void *)
		((char *)w->space + CACHE_LINE -
		 (uintptr_t)w->space % CACHE_LINE);
	return 1;
}

static void *take(const struct tarn_alloc *alloc, size_t count, size_t size)
{
	void *p = tarn_resize(alloc, NULL, (count ? count : 1) * size);

	if (p)
		memset(p, 0, (count ? count : 1) * size);
	return p;
}

static void free_engine(struct engine *e)
{
	const struct tarn_alloc *alloc = e->study->alloc;

	for (size_t i = 0; e->basins && i < e->study->pond_count; i++)
		tn_block_basin_free(&e->basins[i], alloc);
	for (int i = 0; e->workers && i < e->study->threads; i++)
		free_worker(&e->workers[i], alloc);
	tarn_resize(alloc, e->basins, 0);
	tarn_resize(alloc, e->workers, 0);
	tarn_resize(alloc, e->targets, 0);
	pthread_mutex_destroy(&e->lock);
}

static enum tarn_status make_engine(struct engine *e, struct tarn_error *err)
{
	const struct tarn_study *study = e->study;
	const struct tarn_alloc *alloc = study->alloc;
	size_t days = most_days(study);
	enum tarn_status status = tn_study_targets(study, &e->targets, err);

	e->basins = take(alloc, study->pond_count, sizeof *e->basins);
	e->workers = take(alloc, (size_t)study->threads, sizeof *e->workers);
	if (status == TARN_OK && (!e->basins || !e->workers))
		status = tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	for (size_t i = 0; i < study->pond_count && status == TARN_OK; i++)
		status = tn_block_basin(&e->basins[i], alloc,
					study->ponds[i].basin, err);
	for (int i = 0; i < study->threads && status == TARN_OK; i++) {
		e->workers[i].engine = e;
		if (!make_worker(&e->workers[i], alloc, days))
			status = tarn_fail(err, TARN_ENOMEM, NULL,
					   "out of memory");
	}
	return status;
}

static enum tarn_status check_run(const struct engine *e,
				  struct tarn_error *err)
{
	const struct tarn_study *study = e->study;
	const struct tarn_study_rows *rows = e->rows;
	enum tarn_status status = TARN_OK;
	size_t bad;

	if (rows->first + rows->count > tarn_study_count(study))
		return tarn_fail(err, TARN_EARG, "rows", "end at %zu, but the "
				 "study has %zu", rows->first + rows->count,
				 tarn_study_count(study));
	if (rows->count == 0)
		return TARN_OK;
	for (size_t i = rows->first / study->variants;
	     i <= (rows->first + rows->count - 1) / study->variants &&
	     status == TARN_OK; i++)
		status = tarn_forcing_check(&study->weathers[i], err);
	if (status == TARN_OK && !study->skip_bad)
		status = tn_study_check_variants(study, e->targets, NULL, 0,
						 &bad, err);
	return status;
}

/* ---- running --------------------------------------------------------------- */

static void put_row(struct tarn_study_rows *rows, size_t at,
		    const double *value)
{
	for (int q = 0; q < TARN_QUANTITIES; q++)
		if (rows->value[q])
			rows->value[q][at] = value ? value[q] : TARN_NAN;
}

/* Next rows of one weather and one pond, as many as a block takes. */
static size_t claim(struct engine *e, size_t *first)
{
	const struct tarn_study *study = e->study;
	size_t left, variant, n = 0;
	unsigned pond;

	pthread_mutex_lock(&e->lock);
	*first = e->next;
	left = e->stop ? 0 : e->rows->count - e->next;
	variant = (e->rows->first + e->next) % study->variants;
	if (left > study->variants - variant)
		left = study->variants - variant;
	pond = left ? variant_pond(study, variant) : 0;
	while (n < left && n < e->block_rows &&
	       variant_pond(study, variant + n) == pond)
		n++;
	e->next += n;
	pthread_mutex_unlock(&e->lock);
	return n;
}

static void give_back(struct engine *e, size_t n, size_t bad)
{
	pthread_mutex_lock(&e->lock);
	e->finished += n;
	e->bad += bad;
	pthread_mutex_unlock(&e->lock);
}

/* Loads rows into lanes; 'at' tells each lane's row.  Bad ones are left out. */
static size_t load(struct worker *w, size_t first, size_t n, size_t *at)
{
	struct engine *e = w->engine;
	const struct tarn_study *study = e->study;
	struct variant *v = &w->block.variant;
	size_t lanes = 0, lane;

	for (size_t i = first; i < first + n; i++) {
		size_t number = (e->rows->first + i) % study->variants;

		if (tn_variant_make(v, study, e->targets, number, NULL) !=
		    TARN_OK) {
			put_row(e->rows, i, NULL);
			continue;
		}
		tn_block_load(&w->block, lanes, v, study->run.start_stopped);
		at[lanes++] = i;
	}
	/* the last step is filled up with ponds that nobody reads */
	for (lane = lanes; lane % LANES_STEP; lane++)
		tn_block_load(&w->block, lane, v, study->run.start_stopped);
	return lanes;
}

static void put_figures(struct worker *w, const struct tarn_pond *pond,
			size_t lanes, const size_t *at)
{
	double value[TARN_QUANTITIES];

	for (size_t l = 0; l < lanes; l++) {
		tn_block_figures(&w->block, &w->timetable, l, pond, value);
		put_row(w->engine->rows, at[l], value);
	}
}

/* A variant with basin, withdrawals or weather of its own: one lane. */
static int load_alone(struct worker *w, size_t row)
{
	const struct tarn_study *study = w->engine->study;
	struct variant *v = &w->block.variant;
	const struct tarn_forcing *weather;

	if (tn_variant_make(v, study, w->engine->targets, row % study->variants,
			    NULL) != TARN_OK ||
	    tn_variant_weather(v, study, w->engine->targets,
			       row / study->variants, &weather, NULL) !=
		    TARN_OK ||
	    tarn_forcing_check(weather, NULL) != TARN_OK)
		return 0;
	tn_block_basin_free(&w->basin, NULL);
	if (tn_block_basin(&w->basin, NULL, v->pond.basin, NULL) != TARN_OK)
		return 0;
	tn_timetable_make(&w->timetable, weather, &v->pond);
	tn_block_clear(&w->block, &w->basin);
	for (size_t lane = 0; lane < LANES_STEP; lane++)
		tn_block_load(&w->block, lane, v, study->run.start_stopped);
	return 1;
}

static size_t do_alone(struct worker *w, size_t at)
{
	struct engine *e = w->engine;

	if (!load_alone(w, e->rows->first + at)) {
		put_row(e->rows, at, NULL);
		return 0;
	}
	tn_block_run(&w->block, &w->timetable, 1, e->study->run.no_topup);
	put_figures(w, &w->block.variant.pond, 1, &at);
	return 1;
}

/* A timetable serves all blocks of the same weather and pond. */
static void plan_for(struct worker *w, size_t row)
{
	const struct tarn_study *study = w->engine->study;
	const struct tarn_forcing *weather =
		&study->weathers[row / study->variants];
	const struct tarn_pond *pond =
		&study->ponds[variant_pond(study, row % study->variants)];

	if (w->timetable.weather != weather || w->timetable.pond != pond)
		tn_timetable_make(&w->timetable, weather, pond);
}

static void do_block(struct worker *w, size_t first, size_t n)
{
	struct engine *e = w->engine;
	size_t row = e->rows->first + first, at[LANES], lanes;
	unsigned pond = variant_pond(e->study, row % e->study->variants);

	if (e->alone && pond < e->study->pond_count) {
		give_back(e, n, n - do_alone(w, first));
		return;
	}
	if (pond >= e->study->pond_count) {
		for (size_t i = first; i < first + n; i++)
			put_row(e->rows, i, NULL);
		give_back(e, n, n);
		return;
	}
	plan_for(w, row);
	tn_block_clear(&w->block, &e->basins[pond]);
	lanes = load(w, first, n, at);
	if (lanes > 0)
		tn_block_run(&w->block, &w->timetable, lanes,
			     e->study->run.no_topup);
	put_figures(w, &e->study->ponds[pond], lanes, at);
	give_back(e, n, n - lanes);
}

static void *work(void *argument)
{
	struct worker *w = argument;
	size_t first, n;

	while ((n = claim(w->engine, &first)) > 0)
		do_block(w, first, n);
	return NULL;
}

/* The calling thread works as well, and speaks to the caller. */
static void work_and_tell(struct worker *w)
{
	struct engine *e = w->engine;
	const struct tarn_study *study = e->study;
	size_t first, n, done;

	while ((n = claim(e, &first)) > 0) {
		do_block(w, first, n);
		if (!study->progress)
			continue;
		pthread_mutex_lock(&e->lock);
		done = e->finished;
		pthread_mutex_unlock(&e->lock);
		if (study->progress(study->progress_context, done,
				    e->rows->count)) {
			pthread_mutex_lock(&e->lock);
			e->stop = 1;
			pthread_mutex_unlock(&e->lock);
		}
	}
}

static void run_blocks(struct engine *e)
{
	int started = 1;

	while (started < e->study->threads &&
	       pthread_create(&e->workers[started].thread, NULL, work,
			      &e->workers[started]) == 0)
		started++;
	work_and_tell(&e->workers[0]);
	for (int i = 1; i < started; i++)
		pthread_join(e->workers[i].thread, NULL);
}

/* With a control of the caller's: ledger after ledger, in this thread. */
static enum tarn_status run_ledgers(struct engine *e, struct tarn_error *err)
{
	const struct tarn_study *study = e->study;
	double value[TARN_QUANTITIES];

	for (; e->finished < e->rows->count; e->finished++) {
		size_t row = e->rows->first + e->finished;
		struct tarn_ledger *ledger;
		struct variant *v = &e->workers[0].block.variant;
		enum tarn_status status;

		if (tn_variant_make(v, study, e->targets, row % study->variants,
				    NULL) != TARN_OK) {
			put_row(e->rows, e->finished, NULL);
			e->bad++;
			continue;
		}
		status = tarn_study_trace(study, row, &ledger, err);
		if (status != TARN_OK)
			return status;
		tarn_study_summary(ledger, &v->pond, value);
		tarn_ledger_free(ledger);
		put_row(e->rows, e->finished, value);
		if (study->progress &&
		    study->progress(study->progress_context, e->finished + 1,
				    e->rows->count))
			e->stop = 1;
		if (e->stop) {
			e->finished++;
			break;
		}
	}
	return TARN_OK;
}

/* Full blocks are fastest; several threads should be busy to the end. */
static size_t rows_at_once(size_t rows, size_t threads)
{
	size_t share = threads > 1 ? rows / threads / 4 : LANES;

	if (share >= LANES)
		return LANES;
	return share < LANES_STEP ? LANES_STEP
				  : share / LANES_STEP * LANES_STEP;
}

enum tarn_status tarn_study_run(const struct tarn_study *study,
				struct tarn_study_rows *rows,
				struct tarn_error *err)
{
	struct engine e = { .study = study, .rows = rows };
	enum tarn_status status = tn_study_check_numbers(study, err);

	rows->done = rows->bad = 0;
	if (status != TARN_OK)
		return status;
	e.block_rows = rows_at_once(rows->count, (size_t)study->threads);
	pthread_mutex_init(&e.lock, NULL);
	status = make_engine(&e, err);
	if (status == TARN_OK && tn_variant_alone(study, e.targets)) {
		e.alone = 1;
		e.block_rows = 1;
	}
	if (status == TARN_OK)
		status = check_run(&e, err);
	if (status == TARN_OK && study->run.control)
		status = run_ledgers(&e, err);
	else if (status == TARN_OK)
		run_blocks(&e);
	rows->done = e.finished;
	rows->bad = e.bad;
	free_engine(&e);
	if (status == TARN_OK && rows->done < rows->count)
		return tarn_fail(err, TARN_ESTOP, NULL, "stopped after %zu of "
				 "%zu rows", rows->done, rows->count);
	return status;
}
