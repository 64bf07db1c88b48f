/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/leak/fit.h"

#define MM 1e3
#define RUNNING_OVER_M 0.02	/* water stands over a lip while it spills */

static struct tarn_error *here(struct tarn_error *err,
			       const struct tarn_reading *r)
{
	if (err && err->code == TARN_OK) {
		err->line = r->line;
		err->column = r->column;
	}
	return err;
}

double reading_moment(const struct tarn_reading *r, double hour)
{
	return (double)r->day + (isnan(r->hour) ? hour : r->hour) / 24;
}

/* ---- readings on the pond --------------------------------------------------- */

static enum tarn_status lay_meter(const struct tarn_pond *pond,
				  const struct tarn_reading *r, double *level_m,
				  double *var_mm2, struct tarn_error *err)
{
	double target_m = isnan(pond->target_m) ? pond->trigger_m
						: pond->target_m;
	double band_mm = (target_m - pond->trigger_m) * MM;

	if (isnan(pond->trigger_m))
		return tarn_fail(here(err, r), TARN_EARG, "trigger", "is "
				 "missing: a meter read without the ruler needs "
				 "the levels between which the float valve "
				 "holds the pond");
	*level_m = (pond->trigger_m + target_m) / 2;
	/* anywhere in the band, and a float is good to a few millimetres */
	*var_mm2 = band_mm * band_mm / 12 + 9;
	return TARN_OK;
}

enum tarn_status lay_readings(const struct tarn_pond *pond,
			      const struct tarn_reading *readings,
			      size_t count,
			      const struct tarn_leak_options *o,
			      struct laid *laid, struct tarn_error *err)
{
	double floor_m = tarn_basin_floor(pond->basin), zero_m = o->zero_m;
	double sd_mm = o->reading_sd_m * MM, step_mm = o->step_m * MM;
	double var_mm2 = sd_mm * sd_mm + step_mm * step_mm / 12;
	enum tarn_status status;

	if (isnan(zero_m))
		zero_m = o->counts_down ? pond->lip_m : floor_m;
	for (size_t i = 0; i < count; i++) {
		const struct tarn_reading *r = &readings[i];
		double level_m = zero_m + r->level_m;

		laid->moment[i] = reading_moment(r, o->hour);
		laid->var_mm2[i] = var_mm2;
		laid->level_m[i] = level_m;
		if (i > 0 && !(laid->moment[i] > laid->moment[i - 1]))
			return tarn_fail(here(err, r), TARN_EARG, "date",
					 "must come after the reading before");
		if (isnan(r->level_m)) {
			status = lay_meter(pond, r, &laid->level_m[i],
					   &laid->var_mm2[i], err);
			if (status != TARN_OK)
				return status;
			continue;
		}
		if (level_m > pond->lip_m + RUNNING_OVER_M + 4 * sd_mm / MM)
			return tarn_fail(here(err, r), TARN_EARG, "level",
					 "stands %.0f mm above the lip: is the "
					 "ruler's zero at %g m above the floor?",
					 (level_m - pond->lip_m) * MM, zero_m);
		if (level_m < floor_m)
			return tarn_fail(here(err, r), TARN_EARG, "level", "lies "
					 "%.0f mm under the floor: is the "
					 "ruler's zero at %g m above it?",
					 (floor_m - level_m) * MM, zero_m);
	}
	return TARN_OK;
}

/* ---- what may be used --------------------------------------------------------- */

/* Water metered between two readings; NaN where no meter tells. */
static double metered_between(const struct tarn_reading *readings,
			      size_t count, size_t i)
{
	size_t a = i, b = i + 1;
	double m3;

	while (a > 0 && isnan(readings[a].meter_m3))
		a--;
	while (b + 1 < count && isnan(readings[b].meter_m3))
		b++;
	m3 = readings[b].meter_m3 - readings[a].meter_m3;
	/* over several intervals, only nothing can be told apart */
	return (a == i && b == i + 1) || !(m3 > 0) ? m3 : HUGE_VAL;
}

int interval_use(const struct tarn_reading *readings, size_t count, size_t i,
		 double *metered_m3, int *stopped)
{
	unsigned before = readings[i].marks, marks = readings[i + 1].marks;
	int off = (marks & TARN_LOG_PUMP_OFF) != 0;

	*stopped = off;
	*metered_m3 = metered_between(readings, count, i);
	if (marks & TARN_LOG_SKIP)
		return TARN_SKIPPED;
	if (isinf(*metered_m3) ||
	    ((marks & TARN_LOG_REFILL) && !(*metered_m3 > 0))) {
		*metered_m3 = TARN_NAN;
		return TARN_REFILLED;
	}
	if (off != ((before & TARN_LOG_PUMP_OFF) != 0))
		return TARN_PUMP_SWITCHED;
	return *metered_m3 > 0 ? TARN_USED_METERED : TARN_USED;
}

/* ---- rows ------------------------------------------------------------------------ */

static struct spell spell_of(const struct tarn_leak *leak, size_t i,
			     struct spell_fill *fill)
{
	const struct tarn_interval *v = &leak->intervals[i];
	double unused;
	int stopped;
	struct spell s;

	interval_use(leak->readings, leak->count + 1, i, &unused, &stopped);
	s.from = leak->laid.moment[i];
	s.to = leak->laid.moment[i + 1];
	s.level_m = leak->laid.level_m[i];
	s.stopped = stopped;
	*fill = (struct spell_fill){ s.from, s.to, v->metered_m3 };
	return s;
}

/* Fall of the level by the ledger, mm, from a start that is moved. */
static enum tarn_status drop_mm(const struct speller *sp,
				const struct spell *spell,
				const struct spell_trial *trial,
				double moved_m, double *out,
				struct spell_sums *sums, struct tarn_error *err)
{
	struct spell s = *spell;
	double level_m;
	enum tarn_status status;

	s.level_m = fmin(s.level_m, sp->pond->lip_m) + moved_m;
	status = spell_levels(sp, &s, trial, &s.to, 1, &level_m, sums, err);
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

enum tarn_status leak_row(const struct tarn_leak *leak, struct speller *sp,
			  size_t i, const struct spell_trial *trial, int head,
			  double mean_head_m, struct gls_row *row,
			  struct spell_sums *sums, struct tarn_error *err)
{
	static const double nudge_m = -0.002;
	const struct laid *laid = &leak->laid;
	struct spell_trial step[GLS_COLUMNS];
	struct spell_fill fill;
	struct spell s = spell_of(leak, i, &fill);
	struct tarn_interval *v = &leak->intervals[i];
	double base, moved, size[GLS_COLUMNS];
	double above_mm = fmax(0, s.level_m - sp->pond->lip_m) * MM;
	enum tarn_status status;

	sp->fills = &fill;
	sp->fill_count = fill.volume_m3 > 0;
	status = drop_mm(sp, &s, trial, 0, &base, sums, err);
	if (status == TARN_OK)
		status = drop_mm(sp, &s, trial, nudge_m, &moved, NULL, err);
	if (status != TARN_OK)
		return status;
	*row = (struct gls_row){
		.g = 1 - (moved - base) / (nudge_m * MM),
		.start_var = laid->var_mm2[i],
		.end_var = laid->var_mm2[i + 1],
		.start = i, .end = i + 1,
		.w_weight = 1, .start_weight = 1, .end_weight = 1,
	};
	steps_of(trial, sums->area_m2, s.level_m -
		 tarn_basin_floor(sp->pond->basin), step, size);
	for (int p = 0; p < GLS_COLUMNS - !head; p++) {
		status = drop_mm(sp, &s, &step[p], 0, &moved, NULL, err);
		if (status != TARN_OK)
			return status;
		row->x[p] = (moved - base) / size[p];
	}
	/* what a reading shows above the lip counts as far as it would last */
	row->y_mm = v->logged_mm - (1 - row->g) * above_mm - base +
		    row->x[GLS_EVAPORATION] * trial->evaporation +
		    row->x[GLS_RAIN] * trial->rain +
		    row->x[GLS_LOSS] * trial->loss_m3_d;
	if (head)
		row->x[GLS_EXTRA] -= mean_head_m * row->x[GLS_LOSS];
	row->w_var = unknown_var(&leak->options, row, v->days, sums);
	return TARN_OK;
}

/* ---- the survey ------------------------------------------------------------------ */

/* Highest level that twice the rain and no evaporation leave; a rise beyond
 * it and four errors of both readings has another cause. */
static enum tarn_status check_rise(const struct tarn_leak *leak,
				   struct speller *sp, size_t i, int *rises,
				   double *over_mm, struct tarn_error *err)
{
	static const struct spell_trial wettest = { 0, 2, 0, 0 };
	struct spell_fill fill;
	struct spell s = spell_of(leak, i, &fill);
	double drop, sd_mm = sqrt(leak->laid.var_mm2[i] +
				  leak->laid.var_mm2[i + 1]);
	enum tarn_status status;

	sp->fill_count = 0;
	status = drop_mm(sp, &s, &wettest, 0, &drop, NULL, err);
	*over_mm = drop - leak->intervals[i].logged_mm;
	*rises = *over_mm > 4 * sd_mm;
	return status;
}

/* Whether half as much rain again would reach the lip: what runs over is not
 * known well enough, and the mean of what may have is not that of the mean
 * rain. */
static enum tarn_status check_spill(const struct tarn_leak *leak,
				    struct speller *sp, size_t i, int *spills,
				    struct tarn_error *err)
{
	static const struct spell_trial wetter = { 1, 1.5, 0, 0 };
	struct spell_fill fill;
	struct spell s = spell_of(leak, i, &fill);
	struct spell_sums sums;
	double drop;
	enum tarn_status status;

	sp->fills = &fill;
	sp->fill_count = fill.volume_m3 > 0;
	status = drop_mm(sp, &s, &wetter, 0, &drop, &sums, err);
	*spills = sums.overflow_m3 > 0;
	return status;
}

static enum tarn_status refuse_rise(const struct tarn_leak *leak, size_t i,
				    double over_mm, struct tarn_error *err)
{
	const struct tarn_reading *r = &leak->readings[i + 1];
	char since[11];

	tarn_day_text(leak->readings[i].day, since);
	return tarn_fail(here(err, r), TARN_EARG, "level", "rose %.0f mm since "
			 "%s, %.0f mm more than twice the rain explains: was "
			 "water added (write refill in the note), or is it "
			 "misread?", -leak->intervals[i].logged_mm, since,
			 over_mm);
}

static void fill_interval(struct tarn_leak *leak, size_t i,
			  const struct tarn_pond *pond,
			  const struct gls_row *row,
			  const struct spell_sums *sums)
{
	struct tarn_interval *v = &leak->intervals[i];
	const struct tarn_leak_options *o = &leak->options;
	const struct laid *laid = &leak->laid;
	double e = o->evaporation_sd * row->x[GLS_EVAPORATION];
	double r = o->rain_sd * row->x[GLS_RAIN];
	double start_m3, end_m3;

	v->expected_mm = v->logged_mm - row->y_mm +
			 row->x[GLS_EVAPORATION] + row->x[GLS_RAIN];
	v->expected_sd_mm = sqrt(e * e + r * r + row->w_var +
				 row->g * row->g * row->start_var +
				 row->end_var);
	v->rain_mm = sums->rain_mm;
	v->open_water_mm = sums->open_water_mm;
	v->area_m2 = sums->area_m2;
	start_m3 = tarn_basin_volume(pond->basin,
				     fmin(laid->level_m[i], pond->lip_m));
	end_m3 = tarn_basin_volume(pond->basin,
				   fmin(laid->level_m[i + 1], pond->lip_m));
	v->implied_m3_d = ((v->metered_m3 > 0 ? v->metered_m3 : 0) +
			   start_m3 - end_m3 + sums->rain_m3 -
			   sums->overflow_m3) / v->days;
	v->expected_m3_d = sums->loss_m3 / v->days;
}

/* How the log, the weather, the lip and plain sense let an interval be
 * used. */
static enum tarn_status find_use(struct tarn_leak *leak, struct speller *sp,
				 size_t i, struct tarn_error *err)
{
	struct tarn_interval *v = &leak->intervals[i];
	struct spell_fill fill;
	struct spell spell = spell_of(leak, i, &fill);
	double over_mm;
	int rises = 0, spills = 0;
	enum tarn_status status = TARN_OK;

	if (!spell_covered(sp, &spell)) {
		v->use = TARN_NO_WEATHER;
		return TARN_OK;
	}
	if (v->use == TARN_USED)
		status = check_rise(leak, sp, i, &rises, &over_mm, err);
	if (status == TARN_OK && rises) {
		if (leak->options.unnoted == TARN_UNNOTED_REFUSE)
			return refuse_rise(leak, i, over_mm, err);
		v->use = TARN_UNEXPLAINED_RISE;
	}
	if (status == TARN_OK && v->use <= TARN_USED_METERED)
		status = check_spill(leak, sp, i, &spills, err);
	if (spills)
		v->use = TARN_SPILLED;
	return status;
}

enum tarn_status leak_survey(struct tarn_leak *leak, struct speller *sp,
			     struct tarn_error *err)
{
	static const struct spell_trial plain = { 1, 1, 0, 0 };
	const struct laid *laid = &leak->laid;

	leak->used = 0;
	for (size_t i = 0; i < leak->count; i++) {
		struct tarn_interval *v = &leak->intervals[i];
		struct spell_sums sums;
		enum tarn_status status;
		int stopped;

		*v = (struct tarn_interval){ .from = i, .to = i + 1 };
		v->use = interval_use(leak->readings, leak->count + 1, i,
				      &v->metered_m3, &stopped);
		v->days = laid->moment[i + 1] - laid->moment[i];
		v->logged_mm = (laid->level_m[i] - laid->level_m[i + 1]) * MM;
		v->expected_mm = v->expected_sd_mm = TARN_NAN;
		v->implied_m3_d = v->expected_m3_d = TARN_NAN;
		status = find_use(leak, sp, i, err);
		if (status != TARN_OK)
			return status;
		if (v->use > TARN_USED_METERED)
			continue;
		status = leak_row(leak, sp, i, &plain, 0, 0, &leak->plain[i],
				  &sums, err);
		if (status != TARN_OK)
			return status;
		fill_interval(leak, i, sp->pond, &leak->plain[i], &sums);
		leak->of[leak->used] = i;
		leak->rows[leak->used++] = leak->plain[i];
	}
	return TARN_OK;
}
