/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/study/engine.h"

enum { THREADS_MAX = 1024 };

struct tarn_study tarn_study_default(void)
{
	struct tarn_study s = { 0 };

	s.pond_count = s.weather_count = s.variants = 1;
	s.run = tarn_run_default();
	s.threads = 1;
	return s;
}

#define T struct tarn_study_task
static const struct tarn_field task_rows[] = {
	TARN_IN_WHOLE(T, threads, "threads", "-", 1, THREADS_MAX, 0,
		      "that work at once"),
	TARN_IN_WHOLE(T, part, "part", "-", 1, 1e9, 1, "of the rows"),
	TARN_IN_WHOLE(T, parts, "parts", "-", 1, 1e9, 1, "in all"),
	TARN_IN_WHOLE(T, limit, "limit", "-", 1, 1e9, 0, "of rows at once"),
};
TARN_FIELDS(tarn_study_task_fields, "", task_rows);
#undef T

size_t tarn_study_count(const struct tarn_study *study)
{
	return study->weather_count * study->variants;
}

void tarn_study_part(size_t rows, size_t k, size_t n, size_t *first,
		     size_t *count)
{
	size_t each = rows / n, over = rows % n;

	*first = (k - 1) * each + (k - 1 < over ? k - 1 : over);
	*count = each + (k - 1 < over);
}

/* ---- checks ---------------------------------------------------------------- */

enum tarn_status tn_study_targets(const struct tarn_study *study,
				  struct variant_target **out,
				  struct tarn_error *err)
{
	enum tarn_status status = TARN_OK;

	*out = tarn_resize(study->alloc, NULL,
			   (study->column_count + 1) * sizeof **out);
	if (!*out)
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	for (size_t i = 0; i < study->column_count && status == TARN_OK; i++)
		status = tn_variant_target(&(*out)[i], study,
					   &study->columns[i], err);
	return status;
}

enum tarn_status tn_study_check_numbers(const struct tarn_study *study,
					struct tarn_error *err)
{
	if (study->pond_count < 1 || study->weather_count < 1 ||
	    study->variants < 1)
		return tarn_fail(err, TARN_EARG, "study", "needs a pond, a "
				 "weather and a variant");
	if (study->threads < 1 || study->threads > THREADS_MAX)
		return tarn_fail(err, TARN_EARG, "threads", "must be 1 to %d, "
				 "got %d", THREADS_MAX, study->threads);
	return TARN_OK;
}

enum tarn_status tn_study_check_variants(const struct tarn_study *study,
					 const struct variant_target *targets,
					 size_t *bad, size_t room,
					 size_t *count, struct tarn_error *err)
{
	struct variant v = { 0 };

	*count = 0;
	for (size_t i = 0; i < study->variants; i++) {
		if (tn_variant_make(&v, study, targets, i, err) == TARN_OK)
			continue;
		if (*count < room)
			bad[*count] = i;
		++*count;
	}
	tn_variant_free(&v);
	return *count ? TARN_EARG : TARN_OK;
}

enum tarn_status tarn_study_check(const struct tarn_study *study, size_t *bad,
				  size_t room, size_t *count,
				  struct tarn_error *err)
{
	struct variant_target *targets = NULL;
	enum tarn_status status = tn_study_check_numbers(study, err);

	*count = 0;
	if (status == TARN_OK)
		status = tn_study_targets(study, &targets, err);
	if (status == TARN_OK)
		status = tn_study_check_variants(study, targets, bad,
						 bad ? room : 0, count, err);
	tarn_resize(study->alloc, targets, 0);
	return status;
}

/* ---- one row -------------------------------------------------------------- */

enum tarn_status tarn_study_variant(const struct tarn_study *study,
				    size_t variant, struct tarn_pond *pond,
				    struct tarn_study_delta *delta,
				    struct tarn_error *err)
{
	struct variant_target *targets = NULL;
	struct variant v = { 0 };
	enum tarn_status status;

	if (variant >= study->variants)
		return tarn_fail(err, TARN_EARG, "variant", "is number %zu of "
				 "%zu", variant + 1, study->variants);
	status = tn_study_targets(study, &targets, err);
	if (status == TARN_OK)
		status = tn_variant_make(&v, study, targets, variant, err);
	if (status == TARN_OK) {
		*pond = v.pond;
		*delta = v.delta;
		if (v.pond.basin != v.from->basin)
			pond->basin = NULL;
	}
	tarn_resize(study->alloc, targets, 0);
	tn_variant_free(&v);
	return status;
}

/* The weather as the variant's factors make it, in 'space'. */
static struct tarn_forcing scaled(const struct tarn_forcing *w,
				  const struct tarn_study_delta *delta,
				  double *space)
{
	struct tarn_forcing out = *w;
	double *rain = space, *open = rain + w->days, *grass = open + w->days;

	for (size_t i = 0; i < w->days; i++) {
		int m = tarn_date(w->first_day + (long)i).month - 1;

		if (m < 0)
			m = 0;	/* the ledger refuses such days */
		rain[i] = w->rain_mm[i] * delta->rain[m];
		open[i] = w->open_water_mm[i] * delta->evaporation[m];
		grass[i] = w->grass_mm[i] * delta->evaporation[m];
	}
	out.rain_mm = rain;
	out.open_water_mm = open;
	out.grass_mm = grass;
	return out;
}

enum tarn_status tn_variant_trace(struct variant *v,
				  const struct tarn_study *study,
				  const struct variant_target *targets,
				  size_t number, struct tarn_ledger **out,
				  struct tarn_error *err)
{
	const struct tarn_forcing *weather;
	struct tarn_forcing forcing;
	struct tarn_run run = study->run;
	enum tarn_status status = tn_variant_weather(v, study, targets, number,
						     &weather, err);
	double *space;

	if (status == TARN_OK)
		status = tn_forcing_whole(weather, err);
	if (status != TARN_OK)
		return status;
	space = tarn_resize(study->alloc, NULL,
			    3 * (weather->days + 1) * sizeof *space);
	if (!space)
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	forcing = scaled(weather, &v->delta, space);
	run.start_level_m = v->start_level_m;
	status = tarn_ledger_run(out, study->alloc, &v->pond, &forcing, &run,
				 err);
	tarn_resize(study->alloc, space, 0);
	return status;
}

enum tarn_status tarn_study_trace(const struct tarn_study *study, size_t row,
				  struct tarn_ledger **out,
				  struct tarn_error *err)
{
	struct variant_target *targets = NULL;
	struct variant v = { 0 };
	enum tarn_status status;

	*out = NULL;
	if (row >= tarn_study_count(study))
		return tarn_fail(err, TARN_EARG, "row", "is number %zu of %zu",
				 row + 1, tarn_study_count(study));
	status = tn_study_targets(study, &targets, err);
	if (status == TARN_OK)
		status = tn_variant_make(&v, study, targets,
					 row % study->variants, err);
	if (status == TARN_OK)
		status = tn_variant_trace(&v, study, targets,
					  row / study->variants, out, err);
	tarn_resize(study->alloc, targets, 0);
	tn_variant_free(&v);
	return status;
}
