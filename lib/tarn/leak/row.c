/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/leak/fit.h"

#define MM 1e3

struct spell tn_leak_spell(const struct tarn_leak *leak, size_t i,
			   struct spell_fill *fill)
{
	const struct tarn_interval *v = &leak->intervals[i];
	struct spell s;

	s.from = leak->laid.moment[i];
	s.to = leak->laid.moment[i + 1];
	s.level_m = leak->laid.level_m[i];
	s.stopped = (leak->readings[i + 1].marks & TARN_LOG_PUMP_OFF) != 0;
	*fill = (struct spell_fill){ s.from, s.to, v->metered_m3 };
	return s;
}

enum tarn_status tn_leak_drop(const struct speller *sp,
			      const struct spell *spell,
			      const struct spell_trial *trial, double moved_m,
			      double *out, struct spell_sums *sums,
			      struct tarn_error *err)
{
	struct spell s = *spell;
	double level_m;
	enum tarn_status status;

	s.level_m = fmin(s.level_m, sp->pond->overflow_level_m) + moved_m;
	status = tn_spell_levels(sp, &s, trial, &s.to, 1, &level_m, sums, err);
	*out = (s.level_m - level_m) * MM;
	return status;
}

/* Variance of what the model does not know in an interval. */
static double unknown_var(const struct tarn_leak_options *o,
			  const struct gls_row *row, double days,
			  const struct spell_sums *sums)
{
	double evaporation = o->evaporation_noise * row->x[GLS_EVAPORATION];
	double rain = o->rain_noise * row->x[GLS_RAIN];
	double storms = sums->rain_mm > 0
		? sums->rain2_mm2 / (sums->rain_mm * sums->rain_mm) : 1;

	return evaporation * evaporation / fmax(1, days) +
	       rain * rain * storms +
	       o->other_noise_mm * o->other_noise_mm * days + 1e-6;
}

/* The trials around one trial: each differs in one thing. */
static void steps_of(const struct spell_trial *t, double area_m2,
		     double head_m, struct spell_trial out[GLS_COLUMNS],
		     double size[GLS_COLUMNS])
{
	for (int p = 0; p < GLS_COLUMNS; p++)
		out[p] = *t;
	size[GLS_EVAPORATION] = size[GLS_RAIN] = 0.05;
	size[GLS_LOSS] = 0.002 * area_m2;
	size[GLS_EXTRA] = 0.002 * area_m2 / fmax(0.05, head_m);
	out[GLS_EVAPORATION].evaporation += size[GLS_EVAPORATION];
	out[GLS_RAIN].rain += size[GLS_RAIN];
	out[GLS_LOSS].loss_m3_d += size[GLS_LOSS];
	out[GLS_EXTRA].per_head_m3_d_m += size[GLS_EXTRA];
}

/* Fall of the level by all of the meter's count, which lifts it. */
static enum tarn_status meter_column(struct speller *sp, const struct spell *s,
				     const struct spell_trial *trial,
				     double base, double *out,
				     struct tarn_error *err)
{
	static const double more = 1.02;
	struct spell_fill fill;
	double moved = base;
	enum tarn_status status = TARN_OK;

	if (sp->fill_count > 0) {
		const struct spell_fill *kept = sp->fills;

		fill = *kept;
		fill.volume_m3 *= more;
		sp->fills = &fill;
		status = tn_leak_drop(sp, s, trial, 0, &moved, NULL, err);
		sp->fills = kept;
	}
	*out = (moved - base) / (more - 1);
	return status;
}

enum tarn_status tn_leak_row(const struct tarn_leak *leak, struct speller *sp,
			     size_t i, const struct spell_trial *trial,
			     int head, double mean_head_m, struct gls_row *row,
			     struct spell_sums *sums, struct tarn_error *err)
{
	static const double nudge_m = -0.002;
	const struct laid *laid = &leak->laid;
	struct spell_trial step[GLS_COLUMNS];
	struct spell_fill fill;
	struct spell s = tn_leak_spell(leak, i, &fill);
	struct tarn_interval *v = &leak->intervals[i];
	double base, moved, size[GLS_COLUMNS];
	double above_mm = fmax(0, s.level_m - sp->pond->overflow_level_m) * MM;
	enum tarn_status status;

	sp->fills = &fill;
	sp->fill_count = fill.volume_m3 > 0;
	status = tn_leak_drop(sp, &s, trial, 0, &base, sums, err);
	if (status == TARN_OK)
		status = tn_leak_drop(sp, &s, trial, nudge_m, &moved, NULL,
				      err);
	if (status != TARN_OK)
		return status;
	*row = (struct gls_row){
		.g = 1 - (moved - base) / (nudge_m * MM),
		.start_var = laid->var_mm2[i],
		.end_var = laid->var_mm2[i + 1],
		.start = i, .end = i + 1, .slow = tn_slow_of(leak, i),
		.w_weight = 1, .start_weight = 1, .end_weight = 1,
	};
	steps_of(trial, sums->area_m2, s.level_m -
		 tarn_basin_floor(sp->pond->basin), step, size);
	status = meter_column(sp, &s, trial, base, &row->meter_mm, err);
	if (status != TARN_OK)
		return status;
	for (int p = 0; p < GLS_COLUMNS - !head; p++) {
		status = tn_leak_drop(sp, &s, &step[p], 0, &moved, NULL, err);
		if (status != TARN_OK)
			return status;
		row->x[p] = (moved - base) / size[p];
	}
	/* what a reading shows above the lip counts as far as it would last */
	row->y_mm = v->logged_mm - (1 - row->g) * above_mm - base +
		    row->x[GLS_EVAPORATION] * trial->evaporation +
		    row->x[GLS_RAIN] * trial->rain + row->meter_mm +
		    row->x[GLS_LOSS] * trial->loss_m3_d;
	if (head)
		row->x[GLS_EXTRA] -= mean_head_m * row->x[GLS_LOSS];
	row->w_var = unknown_var(&leak->options, row, v->days, sums);
	return TARN_OK;
}
