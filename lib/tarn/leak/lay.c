/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/leak/fit.h"

#define MM 1e3
#define INCH_MM 25.4
#define SPILLING_MM 20.0	/* water stands over a lip while it spills */

struct tarn_error *tn_leak_here(struct tarn_error *err,
				const struct tarn_reading *r)
{
	if (err && err->code == TARN_OK) {
		err->line = r->line;
		err->column = r->column;
	}
	return err;
}

double tn_reading_moment(const struct tarn_reading *r, double hour)
{
	return (double)r->day + (isnan(r->hour) ? hour : r->hour) / 24;
}

/* ---- readings on the pond ------------------------------------------- */

static enum tarn_status lay_meter(const struct tarn_pond *pond,
				  const struct tarn_reading *r, double *level_m,
				  double *var_mm2, struct tarn_error *err)
{
	double target_m = isnan(pond->target_m) ? pond->trigger_m
						: pond->target_m;
	double band_mm = (target_m - pond->trigger_m) * MM;

	if (isnan(pond->trigger_m))
		return tarn_fail(tn_leak_here(err, r), TARN_EARG, "trigger",
				 "is missing: a meter read without the ruler "
				 "needs the levels between which the float "
				 "valve holds the pond");
	*level_m = (pond->trigger_m + target_m) / 2;
	/* anywhere in the band, and a float is good to a few millimetres */
	*var_mm2 = band_mm * band_mm / 12 + 9;
	return TARN_OK;
}

static enum tarn_status check_level(const struct tarn_pond *pond,
				    const struct tarn_reading *r,
				    double level_m, double zero_m,
				    double sd_mm, struct tarn_error *err)
{
	double over_mm = (level_m - pond->overflow_level_m) * MM;
	double under_mm = (tarn_basin_floor(pond->basin) - level_m) * MM;

	if (over_mm > SPILLING_MM + 4 * sd_mm)
		return tarn_fail(tn_leak_here(err, r), TARN_EARG, "level",
				 "stands %.0f mm (%.1f in) above the lip: is "
				 "the ruler's zero at %g m (%.4g in) above the "
				 "floor?", over_mm, over_mm / INCH_MM, zero_m,
				 zero_m * MM / INCH_MM);
	if (under_mm > 0)
		return tarn_fail(tn_leak_here(err, r), TARN_EARG, "level",
				 "lies %.0f mm (%.1f in) under the floor: is "
				 "the ruler's zero at %g m (%.4g in) above it?",
				 under_mm, under_mm / INCH_MM, zero_m,
				 zero_m * MM / INCH_MM);
	return TARN_OK;
}

enum tarn_status tn_lay_readings(const struct tarn_pond *pond,
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
		zero_m = o->counts_down ? pond->overflow_level_m : floor_m;
	for (size_t i = 0; i < count; i++) {
		const struct tarn_reading *r = &readings[i];
		double level_m = zero_m + r->level_m;

		laid->moment[i] = tn_reading_moment(r, o->hour);
		laid->var_mm2[i] = var_mm2;
		laid->level_m[i] = level_m;
		if (i > 0 && !(laid->moment[i] > laid->moment[i - 1]))
			return tarn_fail(tn_leak_here(err, r), TARN_EARG,
					 "date",
					 "must come after the reading before");
		if (isnan(r->level_m)) {
			status = lay_meter(pond, r, &laid->level_m[i],
					   &laid->var_mm2[i], err);
			if (status != TARN_OK)
				return status;
			continue;
		}
		status = check_level(pond, r, level_m, zero_m, sd_mm, err);
		if (status != TARN_OK)
			return status;
	}
	return TARN_OK;
}

/* ---- what may be used ----------------------------------------------- */

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

/* Whether the pump is off when a reading is made: by its note, or because the
 * description has no pump hours in that month. */
static int off_at(const struct tarn_pond *pond, const struct tarn_reading *r,
		  double moment)
{
	return (r->marks & TARN_LOG_PUMP_OFF) || tn_spell_off(pond, moment);
}

int tn_interval_fate(const struct tarn_pond *pond,
		     const struct tarn_reading *readings, const double *moment,
		     size_t count, size_t i, double *metered_m3, int *stopped)
{
	unsigned marks = readings[i + 1].marks;

	*stopped = (marks & TARN_LOG_PUMP_OFF) != 0;
	*metered_m3 = metered_between(readings, count, i);
	if (marks & TARN_LOG_SKIP)
		return TARN_SKIPPED;
	if (isinf(*metered_m3) ||
	    ((marks & TARN_LOG_REFILL) && !(*metered_m3 > 0))) {
		*metered_m3 = TARN_NAN;
		return TARN_REFILLED;
	}
	if (off_at(pond, &readings[i], moment[i]) !=
	    off_at(pond, &readings[i + 1], moment[i + 1]))
		return TARN_PUMP_SWITCHED;
	return *metered_m3 > 0 ? TARN_USED_METERED : TARN_USED;
}
