/* SPDX-License-Identifier: MIT */
#include <math.h>
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

enum tarn_status tn_variant_target(struct variant_target *out,
				   const struct tarn_study *study,
				   const struct tarn_study_column *column,
				   struct tarn_error *err)
{
	struct tarn_study_delta any = tarn_study_delta_default();
	struct tarn_place at;

	*out = (struct variant_target){ .month = -1 };
	if (tarn_fields_place(&tarn_study_delta_fields, &any, column->field,
			      &at, NULL) != TARN_OK)
		return tn_vary_target(out, study, column, err);
	out->field = at.row;
	out->month = at.index;
	return TARN_OK;
}

/* ---- one variant ---------------------------------------------------------- */

static void apply(struct variant *v, const struct variant_target *t,
		  const struct tarn_study_column *column, double by)
{
	char *at = (char *)&v->delta + t->field->offset;
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

static enum tarn_status fill(struct variant *v, const struct tarn_study *study,
			     const struct variant_target *targets,
			     size_t number, struct tarn_error *err)
{
	unsigned base = variant_pond(study, number);
	enum tarn_status status;

	if (base >= study->pond_count)
		return tarn_fail(err, TARN_EARG, "pond", "is number %u of %zu",
				 base + 1, study->pond_count);
	v->delta = tarn_study_delta_default();
	status = tn_vary_make(v, study, targets, base, number, err);
	for (size_t i = 0; i < study->column_count && status == TARN_OK; i++) {
		const struct tarn_study_column *column = &study->columns[i];
		double by = column->value[number];

		if (!isnan(by) && targets[i].field)
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
