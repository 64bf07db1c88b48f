/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/leak/fit.h"

#define MM 1e3
#define DAY_S 86400.0

static enum tarn_status put_back(const struct tarn_leak_result *r, int lost,
				 const struct tarn_pond *pond,
				 struct tarn_pond *out, struct tarn_error *err)
{
	double factor = lost ? r->evaporation_factor.mean
			     : r->sound_factor.mean;

	*out = *pond;
	out->open_water_factor *= factor;
	for (int m = 0; m < 12; m++)
		out->bed.plant_factor[m] *= factor;
	if (lost)
		out->seepage.volume_m3s += r->unexplained_m3_d.mean / DAY_S;
	return tarn_pond_check(out, err);
}

int tarn_leak_factor_far(const struct tarn_leak_result *r)
{
	double f = r->unexplained_m3_d.low > 0 ? r->evaporation_factor.mean
					       : r->sound_factor.mean;

	return fabs(f - r->prior.mean) > TARN_FACTOR_FAR * r->prior.sd;
}

enum tarn_status tarn_leak_calibrated(const struct tarn_leak_result *r,
				      const struct tarn_pond *pond,
				      struct tarn_pond *out,
				      struct tarn_error *err)
{
	if (r->held.found)
		return tarn_fail(err, TARN_EARG, "log", "is of a level that "
				 "something holds: it says nothing of "
				 "evaporation or of a loss");
	if (tarn_leak_factor_far(r))
		return tarn_fail(err, TARN_EARG, "log", "wants a factor of "
				 "evaporation %g deviations or more off what "
				 "is likely for such a site: look at the areas, "
				 "at shelter and shade, at the station",
				 TARN_FACTOR_FAR);
	return put_back(r, r->unexplained_m3_d.low > 0, pond, out, err);
}

/* ---- the path of a log ---------------------------------------------- */

/* A stretch: readings first .. last without anything set aside between. */
struct stretch {
	size_t first, last;
	int stopped;
};

struct walk {
	const struct tarn_pond *pond;
	const struct tarn_reading *readings;
	size_t count;
	const struct tarn_leak_options *options;
	struct laid laid;
	struct spell_fill *fills;
	double meter_mean;	/* true / metered */
	double *level[3];	/* plain, more evaporation, more rain */
	struct speller sp;
	struct tarn_level_point *points;
};

/* The stretch that begins at a reading; its fills are laid out. */
static struct stretch stretch_from(struct walk *w, size_t first)
{
	struct stretch s = { first, first, 0 };

	w->sp.fill_count = 0;
	for (size_t i = first; i + 1 < w->count; i++) {
		double metered_m3;
		int stopped, fate = tn_interval_fate(w->pond, w->readings,
						     w->laid.moment, w->count,
						     i, &metered_m3, &stopped);
		struct spell spell = { w->laid.moment[first],
				       w->laid.moment[i + 1],
				       w->laid.level_m[first], stopped };

		if (fate > TARN_USED_METERED || !tn_spell_covered(&w->sp,
								  &spell) ||
		    (i > first && stopped != s.stopped))
			break;
		s.stopped = stopped;
		s.last = i + 1;
		if (fate == TARN_USED_METERED)
			w->fills[w->sp.fill_count++] = (struct spell_fill){
				w->laid.moment[i], w->laid.moment[i + 1],
				metered_m3 * w->meter_mean
			};
	}
	return s;
}

static enum tarn_status run_stretch(struct walk *w, const struct stretch *s,
				    struct tarn_error *err)
{
	double f = w->options->evaporation_mean;
	const struct spell_trial trials[3] = {
		{ f, 1, 0, 0 }, { f + 0.05, 1, 0, 0 }, { f, 1.05, 0, 0 }
	};
	struct spell spell = { w->laid.moment[s->first],
			       w->laid.moment[s->last],
			       w->laid.level_m[s->first], s->stopped };
	enum tarn_status status = TARN_OK;

	w->sp.fills = w->fills;
	for (int t = 0; t < 3 && status == TARN_OK; t++)
		status = tn_spell_levels(&w->sp, &spell, &trials[t],
					 w->laid.moment + s->first,
					 s->last - s->first + 1,
					 w->level[t] + s->first, NULL, err);
	return status;
}

/* Noise of evaporation, storms (one in three days) and wind up to a reading
 * of a stretch. */
static double noise_var(const struct walk *w, double evaporation_mm,
			double rain_mm, double days)
{
	const struct tarn_leak_options *o = w->options;
	double e = o->evaporation_noise * evaporation_mm;
	double r = o->rain_noise * rain_mm;

	double slow = o->slow_sd * evaporation_mm;

	slow *= slow * fmin(1, o->slow_days / fmax(1, days));
	return slow + e * e / fmax(1, days) + r * r / fmax(1, days / 3) +
	       o->other_noise_mm * o->other_noise_mm * days;
}

static void fill_points(struct walk *w, const struct stretch *s)
{
	const struct tarn_leak_options *o = w->options;

	for (size_t i = s->first; i <= s->last; i++) {
		struct tarn_level_point *p = &w->points[i];
		double e_mm = (w->level[0][i] - w->level[1][i]) / 0.05 * MM;
		double r_mm = (w->level[2][i] - w->level[0][i]) / 0.05 * MM;
		double e = o->evaporation_sd * e_mm, r = o->rain_sd * r_mm;
		double days = w->laid.moment[i] - w->laid.moment[s->first];
		double sd_m = sqrt(e * e + r * r +
				   noise_var(w, e_mm, r_mm, days) +
				   w->laid.var_mm2[s->first]) / MM;

		p->day = w->laid.moment[i];
		p->logged_m = isnan(w->readings[i].level_m)
			? TARN_NAN : w->laid.level_m[i];
		p->expected_m = w->level[0][i];
		p->low_m = p->expected_m - GLS_Z95 * sd_m;
		p->high_m = fmin(p->expected_m + GLS_Z95 * sd_m,
				 w->pond->overflow_level_m);
		p->begins = i == s->first;
	}
}

static enum tarn_status walk_on(struct walk *w, struct tarn_error *err)
{
	size_t i = 0;

	while (i < w->count) {
		struct stretch s = stretch_from(w, i);
		enum tarn_status status = TARN_OK;

		if (s.last > s.first)
			status = run_stretch(w, &s, err);
		else
			for (int t = 0; t < 3; t++)
				w->level[t][i] = w->laid.level_m[i];
		if (status != TARN_OK)
			return status;
		fill_points(w, &s);
		/* the last reading of a stretch may begin the next one only
		 * where something was set aside after it */
		i = s.last + 1;
	}
	return TARN_OK;
}

enum tarn_status tarn_leak_path(const struct tarn_alloc *alloc,
				const struct tarn_pond *pond,
				const struct tarn_forcing *forcing,
				const struct tarn_reading *readings,
				size_t count,
				const struct tarn_leak_options *options,
				struct tarn_level_point *points,
				struct tarn_error *err)
{
	struct walk w = { .pond = pond, .readings = readings, .count = count,
			  .points = points };
	struct tarn_leak_options settled;
	enum tarn_status status = tarn_pond_check(pond, err);
	double *room = NULL, meter_sd;
	size_t days;

	if (status == TARN_OK)
		status = tarn_fields_check(&tarn_leak_fields, options, err);
	if (status == TARN_OK)
		status = tn_leak_whole(forcing, err);
	if (status != TARN_OK || count == 0)
		return status;
	settled = tn_settled(options);
	w.options = &settled;
	room = tarn_resize(alloc, NULL, 6 * count * sizeof *room);
	w.fills = tarn_resize(alloc, NULL, count * sizeof *w.fills);
	if (!room || !w.fills) {
		tarn_resize(alloc, room, 0);
		tarn_resize(alloc, w.fills, 0);
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	}
	w.laid = (struct laid){ room, room + count, room + 2 * count };
	for (int t = 0; t < 3; t++)
		w.level[t] = room + (3 + (size_t)t) * count;
	tn_meter_prior(options, pond, &w.meter_mean, &meter_sd);
	status = tn_lay_readings(pond, readings, count, options, &w.laid, err);
	if (status == TARN_OK) {
		days = (size_t)(w.laid.moment[count - 1] - w.laid.moment[0]) +
		       2;
		status = tn_spell_begin(&w.sp, alloc, pond, forcing, days, err);
		if (status == TARN_OK) {
			status = walk_on(&w, err);
			tn_spell_end(&w.sp);
		}
	}
	tarn_resize(alloc, room, 0);
	tarn_resize(alloc, w.fills, 0);
	return status;
}

/* ---- first half, second half ---------------------------------------- */

struct misfit {
	double square, sum, last_mm;
	size_t count;
};

static struct misfit misfit_of(const struct tarn_level_point *points,
			       size_t count)
{
	struct misfit m = { 0, 0, 0, 0 };

	for (size_t i = 0; i < count; i++) {
		double d = (points[i].expected_m - points[i].logged_m) * MM;

		if (points[i].begins || isnan(d))
			continue;
		m.square += d * d;
		m.sum += d;
		m.last_mm = d;
		m.count++;
	}
	return m;
}

static enum tarn_status predict(const struct tarn_alloc *alloc,
				const struct tarn_pond *plain,
				const struct tarn_pond *calibrated,
				const struct tarn_forcing *forcing,
				const struct tarn_reading *readings,
				size_t count,
				const struct tarn_leak_options *options,
				struct tarn_holdout *out,
				struct tarn_error *err)
{
	struct tarn_level_point *points =
		tarn_resize(alloc, NULL, count * sizeof *points);
	struct tarn_leak_options as_said = *options;
	struct misfit before = { 0, 0, 0, 0 }, after = before;
	enum tarn_status status;

	if (!points)
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	/* both descriptions as they are */
	as_said.evaporation_mean = 1;
	status = tarn_leak_path(alloc, plain, forcing, readings, count,
				&as_said, points, err);
	if (status == TARN_OK) {
		before = misfit_of(points, count);
		status = tarn_leak_path(alloc, calibrated, forcing, readings,
					count, &as_said, points, err);
	}
	if (status == TARN_OK)
		after = misfit_of(points, count);
	tarn_resize(alloc, points, 0);
	if (status == TARN_OK && after.count == 0)
		return tarn_fail(err, TARN_EARG, "log", "has nothing to "
				 "predict in its second half");
	out->predicted = after.count;
	out->rms_mm = sqrt(after.square / (double)after.count);
	out->mean_mm = after.sum / (double)after.count;
	out->last_mm = after.last_mm;
	out->plain_rms_mm = sqrt(before.square / (double)before.count);
	out->plain_mean_mm = before.sum / (double)before.count;
	return status;
}

enum tarn_status tarn_leak_holdout(const struct tarn_alloc *alloc,
				   const struct tarn_pond *pond,
				   const struct tarn_forcing *forcing,
				   const struct tarn_reading *readings,
				   size_t count,
				   const struct tarn_leak_options *options,
				   struct tarn_holdout *out,
				   struct tarn_error *err)
{
	size_t half = count / 2 + 1;	/* both halves hold the middle one */
	struct tarn_pond calibrated;
	struct tarn_leak *leak;
	enum tarn_status status;

	if (count < 6)
		return tarn_fail(err, TARN_EARG, "log", "holds %zu readings: "
				 "six or more are needed to fit one half and "
				 "predict the other", count);
	status = tarn_leak_fit(&leak, alloc, pond, forcing, readings, half,
			       options, err);
	if (status != TARN_OK)
		return status;
	/* the best guess of a loss predicts better than none, also where its
	 * interval holds zero (docs/build/validation.md, the lakes) */
	status = put_back(tarn_leak_result(leak),
			  tarn_leak_result(leak)->unexplained_m3_d.mean > 0,
			  pond, &calibrated, err);
	tarn_leak_free(leak);
	if (status != TARN_OK)
		return status;
	out->fitted = half;
	out->days = tn_reading_moment(&readings[count - 1], options->hour) -
		    tn_reading_moment(&readings[half - 1], options->hour);
	return predict(alloc, pond, &calibrated, forcing, readings + half - 1,
		       count - half + 1, options, out, err);
}
