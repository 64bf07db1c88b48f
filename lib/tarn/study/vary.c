/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "tarn/base/rows.h"
#include "tarn/design/centre.h"
#include "tarn/study/engine.h"

/* ---- columns ---------------------------------------------------------------- */

/* A design that is a pond alone, as studies without designs have them. */
static struct tarn_design *plain_design(const struct tarn_pond *pond)
{
	struct tarn_design *d = tarn_design_new(NULL);

	if (d)
		d->pond = *pond;
	return d;
}

/* Whether a place is in the pond, where there is no more of the design. */
static int in_pond(const struct tarn_design *d, const struct tarn_place *at)
{
	const char *p = (const char *)at->object, *pond = (const char *)&d->pond;

	return p >= pond && p < pond + sizeof d->pond;
}

static enum tarn_status check_path(const struct variant_target *t,
				   const struct tarn_study *study,
				   const char *path, struct tarn_error *err)
{
	for (size_t i = 0; t->stage == DESIGN_BASIN && i < study->pond_count;
	     i++)
		if (study->designs[i]->pond.basin)
			return tarn_fail(err, TARN_EARG, path, "is of a basin "
					 "that was made before: describe it "
					 "by its sizes");
	if (t->stage == DESIGN_WEATHER && !study->skies)
		return tarn_fail(err, TARN_EARG, path, "changes evaporation, "
				 "which this study was given worked out");
	return TARN_OK;
}

static enum tarn_status target_in(struct variant_target *out,
				  const struct tarn_study *study,
				  struct tarn_design *d, const char *path,
				  struct tarn_error *err)
{
	struct tarn_place at;
	enum tarn_status status = tarn_fields_place(&tarn_design_fields, d,
						    path, &at, err);

	if (status != TARN_OK)
		return status;
	if (!tn_design_is_number(&at)) {
		tn_rows_note(err, TARN_MISTAKE_TYPE, NULL);
		return tarn_fail(err, TARN_EARG, path, "is no number, so no "
				 "column can change it");
	}
	out->alone = strncmp(path, "withdrawals", 11) == 0;
	if (!study->designs)
		return in_pond(d, &at) ? TARN_OK
			: tarn_fail(err, TARN_EARG, path, "is no field of a "
				    "pond that is given without a design");
	out->stage = tn_design_stage_of(path);
	out->shapes = out->stage == DESIGN_BASIN ||
		      strcmp(path, "overflow_level") == 0;
	return check_path(out, study, path, err);
}

enum tarn_status tn_vary_target(struct variant_target *out,
				const struct tarn_study *study,
				const struct tarn_study_column *column,
				struct tarn_error *err)
{
	struct tarn_design *plain;
	enum tarn_status status;
	char path[ROWS_PATH];

	tarn_fields_path_now(&tarn_design_fields, column->field, path,
			     sizeof path);
	if (study->designs)	/* only looked at */
		return target_in(out, study,
				 (struct tarn_design *)study->designs[0],
				 path, err);
	plain = plain_design(study->ponds);
	if (!plain)
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	status = target_in(out, study, plain, path, err);
	tarn_design_free(plain);
	return status;
}

/* ---- weathers ------------------------------------------------------------------ */

static int goes_by_area(const struct tarn_study *study,
			const struct tarn_study_sky *sky)
{
	for (size_t i = 0; i < study->pond_count; i++) {
		int m = sky->method == TARN_METHODS
			? study->designs[i]->evaporation.method : sky->method;

		if (m == TARN_MASS_TRANSFER || m == TARN_PENMAN_HEAT)
			return 1;
	}
	return 0;
}

/* Whether a column changes what the weather evaporates. */
static int own_sky(const struct tarn_study *study,
		   const struct variant_target *targets, size_t weather)
{
	for (size_t i = 0; study->skies && i < study->column_count; i++)
		if (targets[i].stage == DESIGN_WEATHER ||
		    (targets[i].shapes && study->designs &&
		     goes_by_area(study, &study->skies[weather])))
			return 1;
	return 0;
}

int tn_variant_alone(const struct tarn_study *study,
		     const struct variant_target *targets)
{
	for (size_t i = 0; i < study->column_count; i++)
		if (targets[i].alone)
			return 1;
	for (size_t i = 0; i < study->weather_count; i++)
		if (own_sky(study, targets, i))
			return 1;
	return 0;
}

int tn_variant_own_basin(const struct tarn_study *study,
			 const struct variant_target *targets)
{
	for (size_t i = 0; i < study->column_count; i++)
		if (targets[i].stage == DESIGN_BASIN)
			return 1;
	return 0;
}

static enum tarn_status make_room(struct variant *v, size_t days,
				  struct tarn_error *err)
{
	double *room = v->sky_mm;

	if (days > v->sky_days)
		room = tarn_resize(NULL, room, 2 * days * sizeof *room);
	if (!room)
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	v->sky_mm = room;
	v->sky_days = days > v->sky_days ? days : v->sky_days;
	return TARN_OK;
}

/* Evaporation is worked out anew where the last variant's was another one. */
static enum tarn_status evaporate(struct variant *v,
				  const struct tarn_study_sky *sky,
				  const struct tarn_evaporation_options *o,
				  struct tarn_error *err)
{
	enum tarn_status status;

	struct tarn_pond_place place = tn_design_place(v->design);

	if (v->sky == sky && memcmp(&v->sky_options, o, sizeof *o) == 0 &&
	    memcmp(&v->sky_place, &place, sizeof place) == 0)
		return TARN_OK;
	status = tn_place_run(&place, sky->weather, o, v->sky_mm,
			      v->sky_mm + v->forcing.days, NULL, err);
	v->sky = status == TARN_OK ? sky : NULL;
	v->sky_options = *o;
	v->sky_place = place;
	return status;
}

enum tarn_status tn_variant_weather(struct variant *v,
				    const struct tarn_study *study,
				    const struct variant_target *targets,
				    size_t weather,
				    const struct tarn_forcing **out,
				    struct tarn_error *err)
{
	const struct tarn_study_sky *sky;
	struct tarn_evaporation_options o;
	enum tarn_status status;

	*out = &study->weathers[weather];
	if (!own_sky(study, targets, weather))
		return TARN_OK;
	sky = &study->skies[weather];
	v->forcing = **out;
	status = make_room(v, v->forcing.days, err);
	if (status != TARN_OK)
		return status;
	o = tn_design_evaporation(v->design, &v->pond);
	if (sky->method != TARN_METHODS)
		o.method = sky->method;
	v->forcing.open_water_mm = v->sky_mm;
	v->forcing.grass_mm = v->sky_mm + v->forcing.days;
	*out = &v->forcing;
	return evaporate(v, sky, &o, err);
}

/* ---- one variant ------------------------------------------------------------------ */

void tn_variant_free(struct variant *v)
{
	tarn_design_free(v->design);
	tarn_design_free(v->plain);
	tarn_resolved_free(&v->resolved);
	tarn_resize(NULL, v->place, 0);
	tarn_resize(NULL, v->by, 0);
	tarn_resize(NULL, v->sky_mm, 0);
	v->design = v->plain = NULL;
	v->parent = NULL;
	v->from = NULL;
	v->place = NULL;
	v->by = NULL;
	v->solved = 0;
	v->sky_mm = NULL;
	v->sky_days = 0;
	v->sky = NULL;
}

/* Places of all columns, in the copy and in the design itself. */
static enum tarn_status find_places(struct variant *v,
				    const struct tarn_study *study,
				    const struct variant_target *targets,
				    struct tarn_error *err)
{
	size_t n = study->column_count;
	enum tarn_status status = TARN_OK;

	v->place = tarn_resize(NULL, NULL, (2 * n + 1) * sizeof *v->place);
	v->by = tarn_resize(NULL, NULL, (n + 1) * sizeof *v->by);
	if (!v->place || !v->by)
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	for (size_t i = 0; i < n && status == TARN_OK; i++) {
		if (targets[i].field)
			continue;
		status = tarn_fields_place(&tarn_design_fields, v->design,
					   study->columns[i].field,
					   &v->place[i], err);
		if (status == TARN_OK)
			status = tarn_fields_place(
				&tarn_design_fields,
				(struct tarn_design *)v->parent,
				study->columns[i].field, &v->place[n + i],
				err);
	}
	return status;
}

/* Begins with a copy of another pond's design. */
static enum tarn_status begin(struct variant *v,
			      const struct tarn_study *study,
			      const struct variant_target *targets,
			      unsigned base, struct tarn_error *err)
{
	struct tarn_design from;
	enum tarn_status status;

	tn_variant_free(v);
	if (!study->designs)
		v->plain = plain_design(&study->ponds[base]);
	v->parent = study->designs ? study->designs[base] : v->plain;
	if (!v->parent)
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	from = *v->parent;
	from.alloc = NULL;	/* this may be a thread */
	v->design = tarn_design_copy(&from);
	if (!v->design)
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	v->resolved = (struct tarn_resolved){ .alloc = NULL };
	status = find_places(v, study, targets, err);
	if (status != TARN_OK)
		return status;
	v->from = &study->ponds[base];
	v->pond = *v->from;
	return TARN_OK;
}

static int is_area(const struct variant *v, const struct tarn_place *at)
{
	return (const char *)at->object + at->row->offset ==
	       (const char *)&v->design->pond.bed.area_m2;
}

/* An area in place of length and width. */
static void only_area(struct variant *v, double *x, double base_m2)
{
	const struct tarn_bed_wish *given = &v->parent->wish;

	if (isnan(given->length_m * given->width_m))
		return;
	*x = base_m2;
	v->design->wish.length_m = v->design->wish.width_m = TARN_NAN;
}

/* The number of the design, or what follows where it gives none. */
static double base_number(const struct variant *v, const struct tarn_place *at,
			  int month)
{
	const char *from = (const char *)at->object + at->row->offset;
	size_t offset = (size_t)(from - (const char *)&v->parent->pond);
	double x;

	if (at->row->kind != TARN_FIELD_MONTHS)
		x = tarn_place_get(at);
	else
		memcpy(&x, from + (size_t)month * sizeof x, sizeof x);
	if (isnan(x) && at->row->kind == TARN_FIELD_NUMBER &&
	    from >= (const char *)&v->parent->pond &&
	    offset < sizeof v->parent->pond)
		memcpy(&x, (const char *)v->from + offset, sizeof x);
	return x;
}

static enum tarn_status in_range(const struct tarn_field *row, double x,
				 const char *path, struct tarn_error *err)
{
	if (x >= row->lo && x <= row->hi)
		return TARN_OK;
	tn_rows_note_range(err, TARN_MISTAKE_RANGE, row, x);
	return tarn_fail(err, TARN_EARG, path, "must be %g to %g%s%s, got %g",
			 row->lo, row->hi, strcmp(row->unit, "-") ? " " : "",
			 strcmp(row->unit, "-") ? row->unit : "", x);
}

/* Puts one column's number into the copy, or the design's own for NaN. */
static enum tarn_status put(struct variant *v, const struct tarn_study *study,
			    size_t i, double by, struct tarn_error *err)
{
	const struct tarn_study_column *column = &study->columns[i];
	struct tarn_place at = v->place[i];
	const struct tarn_place *base = &v->place[study->column_count + i];
	int months = at.row->kind == TARN_FIELD_MONTHS;
	int last = months && at.index < 0 ? 11 : at.index;
	enum tarn_status status = TARN_OK;

	for (int m = months && at.index < 0 ? 0 : last;
	     m <= last && status == TARN_OK; m++) {
		double x = isnan(by) && !months
			? tarn_place_get(base) : base_number(v, base, m);

		at.index = m;
		if (!isnan(by)) {
			if (is_area(v, &at))
				only_area(v, &x, v->from->bed.area_m2);
			status = tn_variant_check_given(x, column, err);
			x = tn_variant_changed(x, column->change, by);
			if (status == TARN_OK)
				status = in_range(at.row, x, column->field,
						  err);
		}
		tarn_place_put(&at, x);
	}
	return status;
}

/* Numbers that the pond uses as they are go into it at once. */
static void use_plain(struct variant *v, const struct tarn_place *at)
{
	const char *from = (const char *)at->object + at->row->offset;
	const char *pond = (const char *)&v->design->pond;
	size_t size = (at->row->kind == TARN_FIELD_MONTHS ? 12 : 1) *
		      sizeof(double);

	if (from >= pond && from < pond + sizeof v->design->pond)
		memcpy((char *)&v->pond + (from - pond), from, size);
}

/* Puts all columns' numbers into the copy; the stages that another number than
 * the last variant's touches. */
static enum tarn_status put_all(struct variant *v,
				const struct tarn_study *study,
				const struct variant_target *targets,
				size_t number, unsigned *stages,
				struct tarn_error *err)
{
	enum tarn_status status = TARN_OK;

	v->design->wish.length_m = v->parent->wish.length_m;
	v->design->wish.width_m = v->parent->wish.width_m;
	for (size_t i = 0; i < study->column_count && status == TARN_OK; i++) {
		double by = study->columns[i].value[number];

		if (targets[i].field)
			continue;
		status = put(v, study, i, by, err);
		if (!v->solved || memcmp(&v->by[i], &by, sizeof by) != 0)
			*stages |= targets[i].stage;
		v->by[i] = by;
	}
	return status;
}

/* What follows anew; all of it where nothing was found yet. */
static enum tarn_status follow(struct variant *v, unsigned stages,
			       struct tarn_error *err)
{
	enum tarn_status status;

	if (!v->solved)
		stages = DESIGN_FOLLOWS;
	status = tn_design_resolve_stages(v->design, stages, &v->resolved, err);
	v->basin_number += (stages & DESIGN_BASIN) != 0;
	v->solved = status == TARN_OK;
	if (v->solved)
		v->pond = v->resolved.pond;
	return status;
}

enum tarn_status tn_vary_make(struct variant *v, const struct tarn_study *study,
			      const struct variant_target *targets,
			      unsigned base,
			      size_t number, struct tarn_error *err)
{
	enum tarn_status status = TARN_OK;
	unsigned stages = DESIGN_PLAIN;

	if (v->from != &study->ponds[base])
		status = begin(v, study, targets, base, err);
	if (status == TARN_OK)
		status = put_all(v, study, targets, number, &stages, err);
	if (status == TARN_OK && stages & DESIGN_FOLLOWS)
		status = follow(v, stages, err);
	if (status != TARN_OK) {
		v->solved = 0;
		return status;
	}
	for (size_t i = 0; i < study->column_count; i++)
		if (!targets[i].field && !(targets[i].stage & DESIGN_FOLLOWS))
			use_plain(v, &v->place[i]);
	return TARN_OK;
}
