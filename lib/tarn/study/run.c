/* SPDX-License-Identifier: MIT */
#include <pthread.h>
#include <string.h>

#include "tarn/study/engine.h"

/* ---- what a run works with ------------------------------------------------- */

/* A thread's own: block and timetable. */
struct worker {
	struct engine *engine;
	pthread_t thread;
	void *space;		/* of both lanes, before they are aligned */
	struct block block;
	struct timetable timetable;
	struct lanes_basin own[LANES];	/* of variants that have their own */
};

struct engine {
	const struct tarn_study *study;
	struct tarn_study_rows *rows;
	struct variant_target *targets;
	struct lanes_basin *basins;	/* one a pond */
	struct worker *workers;
	size_t block_rows;
	int alone;		/* each variant has a block of its own */
	int own_basin;
	pthread_mutex_t lock;
	size_t next, finished, bad;	/* under the lock; rows of this run */
	int stop, refused;		/* under the lock */
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
	for (size_t i = 0; i < LANES; i++)
		tn_block_basin_free(&w->own[i], NULL);
	tn_variant_free(&w->block.variant);
}

#define CACHE_LINE 64
#define LANES_BYTES ((sizeof(struct lanes) + CACHE_LINE - 1) / CACHE_LINE * \
		     CACHE_LINE)

/* All memory is taken before threads start: the caller's allocator need not
 * be thread-safe.  0 if some is missing. */
static int make_worker(struct worker *w, const struct tarn_alloc *alloc,
		       size_t days)
{
	size_t years = days / 365 + 1;

	w->space = tarn_resize(alloc, NULL, 2 * LANES_BYTES + CACHE_LINE);
	w->block.year_m3 = tarn_resize(alloc, NULL, 2 * years * LANES *
						    sizeof(double));
	w->timetable.stretch = tarn_resize(alloc, NULL,
					   tn_timetable_room(days) *
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
	w->block.twin = (struct lanes *)(void *)((char *)w->block.lanes +
						 LANES_BYTES);
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

	if (status == TARN_OK) {
		e->own_basin = tn_variant_own_basin(study, e->targets);
		e->alone = tn_variant_alone(study, e->targets);
		if (e->alone)
			e->block_rows = 1;
	}

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
		status = tn_forcing_whole(&study->weathers[i], err);
	/* without a control, running tells as well */
	if (status == TARN_OK && !study->skip_bad && study->run.control)
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

/* 0 for a bad one: its row has no numbers, or the study ends. */
static int make_variant(struct worker *w, size_t at)
{
	struct engine *e = w->engine;
	size_t number = (e->rows->first + at) % e->study->variants;

	if (tn_variant_make(&w->block.variant, e->study, e->targets, number,
			    NULL) == TARN_OK)
		return 1;
	put_row(e->rows, at, NULL);
	if (!e->study->skip_bad) {
		pthread_mutex_lock(&e->lock);
		e->stop = e->refused = 1;
		pthread_mutex_unlock(&e->lock);
	}
	return 0;
}

/* The basin of the lane to be loaded: of all, or the variant's, which may be
 * that of the lane before.  NULL without memory. */
static const struct lanes_basin *basin_of(struct worker *w, size_t lane,
					  unsigned *number)
{
	struct variant *v = &w->block.variant;
	struct lanes_basin *own = &w->own[lane];

	if (w->block.basin)
		return w->block.basin;
	if (lane > 0 && *number == v->basin_number)
		return w->block.lanes->basin[lane - 1];
	*number = v->basin_number;
	tn_block_basin_free(own, NULL);
	return tn_block_basin(own, NULL, v->pond.basin, NULL) == TARN_OK
		? own : NULL;
}

/* Loads rows into lanes; 'at' tells each lane's row.  Bad ones are left out. */
static size_t load(struct worker *w, size_t first, size_t n, size_t *at)
{
	struct engine *e = w->engine;
	const struct lanes_basin *basin;
	unsigned number = 0;
	size_t lanes = 0;

	for (size_t i = first; i < first + n; i++) {
		if (!make_variant(w, i))
			continue;
		basin = basin_of(w, lanes, &number);
		if (!basin) {
			put_row(e->rows, i, NULL);
			continue;
		}
		tn_block_load(&w->block, lanes, basin, &w->block.variant,
			      e->study->run.start_stopped);
		at[lanes++] = i;
	}
	return lanes;
}

static void put_figures(struct worker *w, size_t lanes, const size_t *at)
{
	double value[TARN_QUANTITIES];

	for (size_t l = 0; l < lanes; l++) {
		tn_block_figures(&w->block, &w->timetable, l, value);
		put_row(w->engine->rows, at[l], value);
	}
}

/* A timetable serves all blocks of the same weather and pond. */
static void timetable_for(struct worker *w, size_t row, unsigned pond)
{
	const struct tarn_study *study = w->engine->study;
	const struct tarn_forcing *weather =
		&study->weathers[row / study->variants];

	if (w->timetable.weather != weather ||
	    w->timetable.pond != &study->ponds[pond])
		tn_timetable_make(&w->timetable, weather, &study->ponds[pond]);
}

/* Withdrawals or weather of the variant that was made last. */
static int own_timetable(struct worker *w, size_t row)
{
	const struct tarn_study *study = w->engine->study;
	struct variant *v = &w->block.variant;
	const struct tarn_forcing *weather;

	if (tn_variant_weather(v, study, w->engine->targets,
			       row / study->variants, &weather, NULL) !=
		    TARN_OK ||
	    tarn_forcing_check(weather, NULL) != TARN_OK)
		return 0;
	tn_timetable_make(&w->timetable, weather, &v->pond);
	return 1;
}

static void do_block(struct worker *w, size_t first, size_t n)
{
	struct engine *e = w->engine;
	size_t row = e->rows->first + first, at[LANES], lanes;
	unsigned pond = variant_pond(e->study, row % e->study->variants);
	int known = pond < e->study->pond_count;

	tn_block_clear(&w->block, known && !e->own_basin ? &e->basins[pond]
							  : NULL);
	lanes = load(w, first, n, at);
	if (lanes > 0 && e->alone && !own_timetable(w, row)) {
		put_row(e->rows, first, NULL);
		lanes = 0;
	} else if (known && !e->alone) {
		timetable_for(w, row, pond);
	}
	if (lanes > 0)
		tn_block_run(&w->block, &w->timetable, lanes,
			     e->study->run.no_topup);
	put_figures(w, lanes, at);
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
		status = tn_variant_trace(v, study, e->targets,
					  row / study->variants, &ledger, err);
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

/* The first of the bad variants, which need not be the first that was met. */
static enum tarn_status refuse(struct engine *e, struct tarn_error *err)
{
	size_t count;
	enum tarn_status status = tn_study_check_variants(
		e->study, e->targets, NULL, 0, &count, err);

	return status != TARN_OK ? status
		: tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
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
	if (status == TARN_OK)
		status = check_run(&e, err);
	if (status == TARN_OK && study->run.control)
		status = run_ledgers(&e, err);
	else if (status == TARN_OK)
		run_blocks(&e);
	if (e.refused)
		status = refuse(&e, err);
	rows->done = e.refused ? 0 : e.finished;
	rows->bad = e.refused ? 0 : e.bad;
	free_engine(&e);
	if (status == TARN_OK && rows->done < rows->count)
		return tarn_fail(err, TARN_ESTOP, NULL, "stopped after %zu of "
				 "%zu rows", rows->done, rows->count);
	return status;
}
