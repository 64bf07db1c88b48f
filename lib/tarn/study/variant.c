/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "tarn/study/engine.h"

#define T struct tarn_study_delta
static const struct tarn_field delta_rows[] = {
	TARN_IN_MONTHS(T, rain, "rain", "-", 0, 10, 1,
		       "times the weather's rain, by month"),
	TARN_IN_MONTHS(T, evaporation, "evaporation", "-", 0, 10, 1,
		       "times the weather's open-water and grass rates, by "
		       "month"),
	TARN_IN_NUMBER(T, start_level_m, "start_level", "m", 0, 20, TARN_NAN,
		       "level on the first morning"),
};
TARN_FIELDS(tarn_study_delta_fields, "", delta_rows);
#undef T
TARN_DEFAULT(struct tarn_study_delta, tarn_study_delta_default,
	     tarn_study_delta_fields)

/* ---- columns by name ------------------------------------------------------ */

/* Walks all fields that a column may name: NULL after the last. */
static const struct tarn_fields *section_at(size_t i)
{
	size_t sections = 0;

	while (tarn_pond_sections[sections])
		sections++;
	if (i < sections)
		return tarn_pond_sections[i];
	return i == sections ? &tarn_study_delta_fields : NULL;
}

static void full_name(const struct tarn_fields *section,
		      const struct tarn_field *row, char name[64])
{
	snprintf(name, 64, "%s%s%s", section->section,
		 section->section[0] ? "." : "", row->name);
}

static enum tarn_status unknown(const char *field, struct tarn_error *err)
{
	const struct tarn_fields *section;
	char name[64], best[64] = "";
	int least = 4;

	for (size_t i = 0; (section = section_at(i)); i++)
		for (size_t k = 0; k < section->count; k++) {
			int far;

			full_name(section, &section->rows[k], name);
			far = tarn_name_distance(name, field);
			if (far < least) {
				least = far;
				memcpy(best, name, sizeof best);
			}
		}
	return tarn_fail(err, TARN_EARG, field, "is no field of a pond%s%s%s",
			 best[0] ? "; did you mean '" : "", best,
			 best[0] ? "'?" : "");
}

/* Cuts ".7" off a name: the month 0 .. 11, or -1 if there is none. */
static int cut_month(char *name)
{
	char *dot = strrchr(name, '.');
	int month;

	if (!dot || dot[1] < '1' || dot[1] > '9')
		return -1;
	month = dot[1] - '0';
	if (dot[2]) {
		if (month != 1 || dot[2] < '0' || dot[2] > '2' || dot[3])
			return -1;
		month = 10 + dot[2] - '0';
	}
	*dot = '\0';
	return month - 1;
}

/* The part of it that is no path of a design. */
static int in_rows(struct variant_target *out,
		   const struct tarn_study_column *column, int any)
{
	const struct tarn_fields *section;
	char wanted[64], name[64];

	snprintf(wanted, sizeof wanted, "%s", column->field);
	out->month = cut_month(wanted);
	for (size_t i = 0; (section = section_at(i)); i++)
		for (size_t k = 0; k < section->count; k++) {
			const struct tarn_field *row = &section->rows[k];

			full_name(section, row, name);
			out->in_delta = section == &tarn_study_delta_fields;
			if (strcmp(name, wanted) != 0 ||
			    !(any || out->in_delta))
				continue;
			if (row->kind != TARN_FIELD_MONTHS &&
			    (row->kind != TARN_FIELD_NUMBER ||
			     out->month >= 0))
				return 0;
			out->field = row;
			return 1;
		}
	return 0;
}

enum tarn_status tn_variant_target(struct variant_target *out,
				   const struct tarn_study *study,
				   const struct tarn_study_column *column,
				   struct tarn_error *err)
{
	*out = (struct variant_target){ .month = -1 };
	if (in_rows(out, column, !study->designs))
		return TARN_OK;
	if (!study->designs)
		return unknown(column->field, err);
	return tn_vary_target(out, study, column, err);
}

/* ---- one variant ---------------------------------------------------------- */

static void apply(struct variant *v, const struct variant_target *t,
		  const struct tarn_study_column *column, double by)
{
	char *at = (t->in_delta ? (char *)&v->delta : (char *)&v->pond) +
		   t->field->offset;
	int first = t->month < 0 ? 0 : t->month;
	int last = t->month < 0 ? 11 : t->month;

	if (t->field->kind == TARN_FIELD_NUMBER)
		first = last = 0;
	for (int m = first; m <= last; m++) {
		double x;

		memcpy(&x, at + (size_t)m * sizeof x, sizeof x);
		x = tn_variant_changed(x, column->change, by);
		memcpy(at + (size_t)m * sizeof x, &x, sizeof x);
	}
}

/* The field of the pond as it was: a pond is mostly schedules, too big to be
 * copied for each variant. */
static void reset(struct variant *v, const struct variant_target *t)
{
	size_t size = t->field->kind == TARN_FIELD_MONTHS ? 12 : 1;

	if (!t->in_delta)
		memcpy((char *)&v->pond + t->field->offset,
		       (const char *)v->from + t->field->offset,
		       size * sizeof(double));
}

static void start_from(struct variant *v, const struct tarn_study *study,
		       const struct variant_target *targets,
		       const struct tarn_pond *base)
{
	if (v->from != base) {
		v->from = base;
		v->pond = *base;
	}
	for (size_t i = 0; i < study->column_count; i++)
		if (targets[i].field)
			reset(v, &targets[i]);
	v->delta = tarn_study_delta_default();
}

static enum tarn_status check_base(const struct variant *v,
				   const struct variant_target *t,
				   const struct tarn_study_column *column,
				   struct tarn_error *err)
{
	double x;

	if (t->in_delta)
		return TARN_OK;
	memcpy(&x, (const char *)&v->pond + t->field->offset, sizeof x);
	return tn_variant_check_given(x, column, err);
}

static enum tarn_status fill(struct variant *v, const struct tarn_study *study,
			     const struct variant_target *targets,
			     size_t number, struct tarn_error *err)
{
	unsigned base = variant_pond(study, number);
	enum tarn_status status = TARN_OK;

	if (base >= study->pond_count)
		return tarn_fail(err, TARN_EARG, "pond", "is number %u of %zu",
				 base + 1, study->pond_count);
	start_from(v, study, targets, &study->ponds[base]);
	if (study->designs)
		status = tn_vary_make(v, study, targets, base, number, err);
	for (size_t i = 0; i < study->column_count && status == TARN_OK; i++) {
		const struct tarn_study_column *column = &study->columns[i];
		double by = column->value[number];

		if (isnan(by) || !targets[i].field)
			continue;
		status = check_base(v, &targets[i], column, err);
		if (status == TARN_OK)
			apply(v, &targets[i], column, by);
	}
	return status;
}

static enum tarn_status work_out(struct variant *v,
				 const struct tarn_study *study,
				 struct tarn_error *err)
{
	struct tarn_run run = study->run;
	enum tarn_status status;

	status = tarn_fields_check(&tarn_study_delta_fields, &v->delta, err);
	if (status == TARN_OK)
		status = tn_step_prepare(&v->step, &v->pond, err);
	if (status != TARN_OK)
		return status;
	tn_step_scale(&v->step, v->delta.rain, v->delta.evaporation);
	if (!isnan(v->delta.start_level_m))
		run.start_level_m = v->delta.start_level_m;
	return tn_step_start(&v->pond, &run, &v->start_level_m, err);
}

enum tarn_status tn_variant_make(struct variant *out,
				 const struct tarn_study *study,
				 const struct variant_target *targets,
				 size_t number, struct tarn_error *err)
{
	struct tarn_error why = { 0 };
	enum tarn_status status = fill(out, study, targets, number, &why);

	if (status == TARN_OK)
		status = work_out(out, study, &why);
	if (status != TARN_OK)
		tarn_fail(err, status, why.field, "(variant %zu) %s",
			  number + 1, why.text);
	return status;
}
