/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/leak/fit.h"

#define MM 1e3

/* Highest level that twice the rain and no evaporation leave; a rise beyond
 * it and four errors of both readings has another cause. */
static enum tarn_status check_rise(const struct tarn_leak *leak,
				   struct speller *sp, size_t i, int *rises,
				   double *over_mm, struct tarn_error *err)
{
	static const struct spell_trial wettest = { 0, 2, 0, 0 };
	struct spell_fill fill;
	struct spell s = tn_leak_spell(leak, i, &fill);
	double drop, sd_mm = sqrt(leak->laid.var_mm2[i] +
				  leak->laid.var_mm2[i + 1]);
	enum tarn_status status;

	sp->fill_count = 0;
	status = tn_leak_drop(sp, &s, &wettest, 0, &drop, NULL, err);
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
	/* a fill valve makes good what evaporates meanwhile */
	static const struct spell_trial wetter = { 1, 1.5, 0, 0 };
	struct spell_fill fill;
	struct spell s = tn_leak_spell(leak, i, &fill);
	struct spell_sums sums;
	double drop;
	enum tarn_status status;

	sp->fills = &fill;
	sp->fill_count = fill.volume_m3 > 0;
	status = tn_leak_drop(sp, &s, &wetter, 0, &drop, &sums, err);
	*spills = sums.overflow_m3 > 0;
	return status;
}

static enum tarn_status refuse_rise(const struct tarn_leak *leak, size_t i,
				    double over_mm, struct tarn_error *err)
{
	const struct tarn_reading *r = &leak->readings[i + 1];
	char since[11];

	tarn_day_text(leak->readings[i].day, since);
	return tarn_fail(tn_leak_here(err, r), TARN_EARG, "level",
			 "rose %.0f mm "
			 "since %s, %.0f mm more than twice the rain explains: was "
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
	struct spread spread = { 0 };
	double start_m3, end_m3, mean = leak->result.meter_mean;

	tn_spread_add(&spread, row, 0);
	v->expected_mm = v->logged_mm - row->y_mm +
			 row->x[GLS_EVAPORATION] * o->evaporation_mean +
			 row->x[GLS_RAIN] + row->meter_mm * mean;
	v->expected_sd_mm = tn_spread_sd(&spread, leak);
	v->rain_mm = sums->rain_mm;
	v->open_water_mm = sums->open_water_mm;
	v->area_m2 = sums->area_m2;
	start_m3 = tarn_basin_volume(pond->basin,
				     fmin(laid->level_m[i],
					  pond->overflow_level_m));
	end_m3 = tarn_basin_volume(pond->basin,
				   fmin(laid->level_m[i + 1],
					pond->overflow_level_m));
	v->implied_m3_d = ((v->metered_m3 > 0 ? v->metered_m3 * mean : 0) +
			   start_m3 - end_m3 + sums->rain_m3 -
			   sums->overflow_m3) / v->days;
	v->expected_m3_d = sums->loss_m3 / v->days;
}

/* How the log, the weather, the lip and plain sense let an interval be
 * used. */
static enum tarn_status find_fate(struct tarn_leak *leak, struct speller *sp,
				  size_t i, struct tarn_error *err)
{
	struct tarn_interval *v = &leak->intervals[i];
	struct spell_fill fill;
	struct spell spell = tn_leak_spell(leak, i, &fill);
	double over_mm;
	int rises = 0, spills = 0;
	enum tarn_status status = TARN_OK;

	if (!tn_spell_covered(sp, &spell)) {
		v->fate = TARN_NO_WEATHER;
		return TARN_OK;
	}
	if (v->fate == TARN_USED)
		status = check_rise(leak, sp, i, &rises, &over_mm, err);
	if (status == TARN_OK && rises) {
		if (leak->options.unnoted == TARN_UNNOTED_REFUSE)
			return refuse_rise(leak, i, over_mm, err);
		v->fate = TARN_UNEXPLAINED_RISE;
	}
	if (status == TARN_OK && v->fate <= TARN_USED_METERED)
		status = check_spill(leak, sp, i, &spills, err);
	if (spills)
		v->fate = TARN_SPILLED;
	return status;
}

/* Before a rise without a cause the level may have been misread too low: to
 * keep that fall and drop the rise would find a loss that is none. */
static void drop_before(struct tarn_leak *leak, size_t i)
{
	if (leak->used == 0 || leak->of[leak->used - 1] + 1 != i)
		return;
	leak->intervals[i - 1].fate = TARN_UNEXPLAINED_RISE;
	leak->used--;
}

enum tarn_status tn_leak_survey(struct tarn_leak *leak, struct speller *sp,
				struct tarn_error *err)
{
	struct spell_trial plain = tn_plain_trial(leak);
	const struct laid *laid = &leak->laid;

	leak->used = 0;
	for (size_t i = 0; i < leak->count; i++) {
		struct tarn_interval *v = &leak->intervals[i];
		struct spell_sums sums;
		enum tarn_status status;
		int stopped;

		*v = (struct tarn_interval){
			.from = i, .to = i + 1,
			.from_day = leak->readings[i].day,
			.to_day = leak->readings[i + 1].day,
			.line = leak->readings[i + 1].line,
		};
		v->fate = tn_interval_fate(sp->pond, leak->readings,
					   laid->moment, leak->count + 1, i,
					   &v->metered_m3, &stopped);
		v->days = laid->moment[i + 1] - laid->moment[i];
		v->logged_mm = (laid->level_m[i] - laid->level_m[i + 1]) * MM;
		v->expected_mm = v->expected_sd_mm = TARN_NAN;
		v->implied_m3_d = v->expected_m3_d = TARN_NAN;
		status = find_fate(leak, sp, i, err);
		if (status != TARN_OK)
			return status;
		if (v->fate == TARN_UNEXPLAINED_RISE)
			drop_before(leak, i);
		if (v->fate > TARN_USED_METERED)
			continue;
		status = tn_leak_row(leak, sp, i, &plain, 0, 0, &leak->plain[i],
				     &sums, err);
		if (status != TARN_OK)
			return status;
		fill_interval(leak, i, sp->pond, &leak->plain[i], &sums);
		leak->of[leak->used] = i;
		leak->rows[leak->used++] = leak->plain[i];
	}
	return TARN_OK;
}
