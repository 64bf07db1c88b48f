/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/leak/fit.h"

#define MM 1e3
#define DAY_S 86400.0
/* Open-water rate / grass reference: 1.05 in FAO-56 Table 12, 1.35 to 1.43 by
 * Penman on the days of FAO-56 example 18 and McMahon et al. (2013) S19. */
#define WATER_TO_GRASS 1.2

/* A bucket's fall that no weather explains: 122 MJ m-2 d-1 at 2.45 MJ/kg, while
 * the sun gives at most some 45 above the air (derived). */
#define BUCKET_MAX_MM_D 50

#define PAIR_MIN_MM_D 1e-6
#define PAIR_MAX_MM_D 1e6	/* a kilometre a day: no mistake of a unit is
				 * beyond it */

/* One half, taken apart; rates in mm/d at the ruler. */
struct half {
	double days;
	double logged, expected;	/* fall */
	double still;		/* fall of open water alone */
	double reading_sd;
	double evaporation_sd;	/* relative */
};

static enum tarn_status check_side(const struct tarn_pair_side *s,
				   const char *name, double reading_sd_m,
				   struct tarn_error *err)
{
	if (s->rain_mm > 0)
		return tarn_fail(err, TARN_EARG, name, "had %g mm of rain: the "
				 "test is void, do it again in dry weather",
				 s->rain_mm);
	if (s->hours < 1)
		return tarn_fail(err, TARN_EARG, name, "needs hours, 1 to "
				 "1000, got %g", s->hours);
	if (isnan(s->pond_drop_m))
		return tarn_fail(err, TARN_EARG, name, "needs drop, the fall "
				 "of the pond's level, in m");
	if (isnan(s->bucket_drop_m) && isnan(s->weather_mm_d))
		return tarn_fail(err, TARN_EARG, name, "needs bucket, the fall "
				 "in a bucket, or weather, the evaporation in "
				 "mm/d");
	if (s->bucket_drop_m * MM > BUCKET_MAX_MM_D * s->hours / 24 +
				    3 * reading_sd_m * MM)
		return tarn_fail(err, TARN_EARG, name, "bucket fell more than "
				 "%d mm (2 in) a day, and no water evaporates "
				 "so fast: look at the hours and at the unit, "
				 "in or mm", BUCKET_MAX_MM_D);
	return TARN_OK;
}

/* With the pump on it must have had water all the time. */
static enum tarn_status check_drop(const struct tarn_pond *pond,
				   const struct tarn_pair *pair, int on,
				   struct tarn_error *err)
{
	double from = isnan(pair->level_m) ?
		pond->overflow_level_m : pair->level_m;
	double drop = on ? pair->on.pond_drop_m : pair->off.pond_drop_m;
	int intake = on && !isnan(pond->intake_m);
	double least = intake ? pond->intake_m : tarn_basin_floor(pond->basin);

	if (from - drop >= least)
		return TARN_OK;
	return tarn_fail(err, TARN_EARG, on ? "on" : "off", "drop takes the "
			 "level under the %s: look at the unit, in or mm",
			 intake ? "pump's intake" : "floor");
}

static enum tarn_status check_pair(const struct tarn_pond *pond,
				   const struct tarn_pair *pair,
				   struct tarn_error *err)
{
	enum tarn_status status = tarn_pond_check(pond, err);

	if (status == TARN_OK)
		status = tarn_fields_check(&tarn_pair_fields, pair, err);
	if (status == TARN_OK)
		status = tarn_fields_check(&tarn_pair_off_fields, pair, err);
	if (status == TARN_OK)
		status = tarn_fields_check(&tarn_pair_on_fields, pair, err);
	if (status == TARN_OK && !(pair->off.hours > 0) &&
	    !(pair->on.hours > 0))
		return tarn_fail(err, TARN_EARG, "pair", "holds neither half: "
				 "give off or on, with hours and drop");
	if (status == TARN_OK && pair->off.hours > 0)
		status = check_side(&pair->off, "off", pair->reading_sd_m, err);
	if (status == TARN_OK && pair->off.hours > 0)
		status = check_drop(pond, pair, 0, err);
	if (status == TARN_OK && pair->on.hours > 0)
		status = check_side(&pair->on, "on", pair->reading_sd_m, err);
	if (status == TARN_OK && pair->on.hours > 0)
		status = check_drop(pond, pair, 1, err);
	return status;
}

/* The pond as it is tested: what the test is to find is taken out. */
static struct tarn_pond tested(const struct tarn_pond *pond, int bucket)
{
	struct tarn_pond p = *pond;

	p.seepage.rate_mm_d = p.seepage.volume_m3s = 0;
	p.seepage.per_head_m3s_m = 0;
	p.splash_m3s = 0;
	p.withdrawals = 0;
	if (bucket)	/* it stands in the pond's own air */
		p.open_water_factor = 1;
	for (int m = 0; m < 12; m++)
		p.pump.hours[m] = 24;
	return p;
}

/* Fall of the level by the ledger under a steady rate of evaporation. */
static enum tarn_status fall_m(const struct tarn_alloc *alloc,
			       const struct tarn_pond *pond, double month,
			       double rate_mm_d, double days, double level_m,
			       int stopped, double *out, struct tarn_error *err)
{
	double rain[43] = { 0 }, open[43], grass[43];
	struct tarn_forcing f = { tarn_day(2001, (int)month, 1), 43, rain,
				  open, grass, NULL };
	struct spell s = { (double)f.first_day, (double)f.first_day + days,
			   level_m, stopped };
	static const struct spell_trial plain = { 1, 1, 0, 0 };
	struct speller sp;
	double end_m;
	enum tarn_status status;

	for (size_t i = 0; i < f.days; i++) {
		open[i] = fmax(0, rate_mm_d);
		grass[i] = open[i] / WATER_TO_GRASS;
	}
	status = tn_spell_begin(&sp, alloc, pond, &f, tn_spell_days(&s), err);
	if (status != TARN_OK)
		return status;
	status = tn_spell_levels(&sp, &s, &plain, &s.to, 1, &end_m, NULL, err);
	tn_spell_end(&sp);
	*out = level_m - end_m;
	return status;
}

static enum tarn_status take_apart(const struct tarn_alloc *alloc,
				   const struct tarn_pond *pond,
				   const struct tarn_pair *pair,
				   const struct tarn_pair_side *side,
				   int stopped, double level_m,
				   struct half *out, struct tarn_error *err)
{
	int bucket = !isnan(side->bucket_drop_m);
	struct tarn_pond p = tested(pond, bucket);
	double rate, fallen, still;
	enum tarn_status status;

	out->days = side->hours / 24;
	rate = bucket ? side->bucket_drop_m * MM / out->days
		      : side->weather_mm_d;
	status = fall_m(alloc, &p, pair->month, rate, out->days, level_m,
			stopped, &fallen, err);
	if (status == TARN_OK)
		status = fall_m(alloc, &p, pair->month, rate, out->days,
				level_m, 1, &still, err);
	if (status != TARN_OK)
		return status;
	out->logged = side->pond_drop_m * MM / out->days;
	out->expected = fallen * MM / out->days;
	if (rate < 0)	/* dew: the bucket's rise is the pond's */
		out->expected = rate;
	out->still = rate < 0 ? rate : still * MM / out->days;
	out->reading_sd = pair->reading_sd_m * MM * sqrt(bucket ? 4 : 2) /
			  out->days;
	out->evaporation_sd = bucket ? pair->bucket_sd : pair->weather_sd;
	return TARN_OK;
}

static struct tarn_estimate normal(double mean, double sd)
{
	struct tarn_estimate e = {
		mean, mean - GLS_Z95 * sd, mean + GLS_Z95 * sd, sd
	};

	return e;
}

static struct tarn_estimate volumes(const struct tarn_estimate *mm,
				    double area_m2)
{
	double f = area_m2 / MM;
	struct tarn_estimate e = {
		mm->mean * f, mm->low * f, mm->high * f, mm->sd * f
	};

	return e;
}

double tarn_pair_hours(int readings, double reading_sd_m, double loss_mm_d,
		       double spread_mm_d)
{
	double left;

	if (readings < 1 || !(reading_sd_m > 0 && reading_sd_m <= 1) ||
	    !(loss_mm_d >= PAIR_MIN_MM_D) || !(loss_mm_d <= PAIR_MAX_MM_D) ||
	    !(spread_mm_d >= 0 && spread_mm_d <= PAIR_MAX_MM_D))
		return TARN_NAN;
	left = loss_mm_d / (GLS_Z95 + GLS_Z90);
	left = left * left - spread_mm_d * spread_mm_d;
	if (!(left > 0))
		return HUGE_VAL;
	return 24 * reading_sd_m * MM * sqrt(readings / left);
}

/* Uncertainty of what evaporation explains: one bucket or weather error over
 * all, and another over what bed and stream add. */
static double spread_of(const struct half *h, double upper_sd)
{
	double all = h->evaporation_sd * h->expected;
	double upper = upper_sd * (h->expected - h->still);

	return sqrt(all * all + upper * upper);
}

static struct tarn_pair_half finish(const struct half *h,
				    const struct tarn_pair *pair,
				    int readings, double area_m2)
{
	struct tarn_pair_half out;
	double spread = spread_of(h, pair->upper_sd);
	double sd = hypot(h->reading_sd, spread);

	out.expected_m = h->expected * h->days / MM;
	out.unexplained_mm_d = normal(h->logged - h->expected, sd);
	out.unexplained_m3_d = volumes(&out.unexplained_mm_d, area_m2);
	out.verdict = tn_leak_judge(&out.unexplained_mm_d, pair->matters_mm_d);
	out.resolvable_mm_d = (GLS_Z95 + GLS_Z90) * sd;
	out.hours_needed = tarn_pair_hours(readings, pair->reading_sd_m,
					   pair->matters_mm_d, spread);
	return out;
}

/* on - off; the bucket's error is the same in both and partly cancels. */
static double upper_sd(const struct half *off, const struct half *on,
		       double relative)
{
	double shared = on->evaporation_sd * on->expected -
			off->evaporation_sd * off->expected;
	double upper = relative * (on->expected - on->still);

	return sqrt(off->reading_sd * off->reading_sd +
		    on->reading_sd * on->reading_sd + shared * shared +
		    upper * upper);
}

enum tarn_status tarn_pair_test(const struct tarn_alloc *alloc,
				const struct tarn_pond *pond,
				const struct tarn_pair *pair,
				struct tarn_pair_result *out,
				struct tarn_error *err)
{
	enum tarn_status status = check_pair(pond, pair, err);
	double level_m = pair->level_m;
	struct half off, on;

	if (status != TARN_OK)
		return status;
	if (isnan(level_m))
		level_m = isnan(pond->target_m) ?
			pond->overflow_level_m : pond->target_m;
	tarn_fields_default(&tarn_pair_result_fields, out);
	out->has_off = pair->off.hours > 0;
	out->has_on = pair->on.hours > 0;
	out->area_m2 = tarn_basin_area(pond->basin, level_m);
	if (!(level_m <= pond->overflow_level_m) || isnan(out->area_m2))
		return tarn_fail(err, TARN_EARG, "level", "must lie between "
				 "the floor and the overflow level at %g m, "
				 "got %g m",
				 pond->overflow_level_m, level_m);
	if (out->has_off)
		status = take_apart(alloc, pond, pair, &pair->off, 1, level_m,
				    &off, err);
	if (status == TARN_OK && out->has_on)
		status = take_apart(alloc, pond, pair, &pair->on, 0, level_m,
				    &on, err);
	if (status != TARN_OK)
		return status;
	if (out->has_off)
		out->off = finish(&off, pair, isnan(pair->off.bucket_drop_m)
				  ? 2 : 4, out->area_m2);
	if (out->has_on)
		out->on = finish(&on, pair, isnan(pair->on.bucket_drop_m)
				 ? 2 : 4, out->area_m2);
	if (out->has_off && out->has_on) {
		out->upper_mm_d = normal(on.logged - on.expected -
					 off.logged + off.expected,
					 upper_sd(&off, &on, pair->upper_sd));
		out->upper_m3_d = volumes(&out->upper_mm_d, out->area_m2);
		out->upper_verdict = tn_leak_judge(&out->upper_mm_d,
					   pair->matters_mm_d);
		tarn_pair_splash(out, &out->splash_m3s);
	}
	return TARN_OK;
}

enum tarn_verdict tarn_pair_splash(const struct tarn_pair_result *r,
				   struct tarn_estimate *out)
{
	*out = (struct tarn_estimate){
		fmax(0, r->upper_m3_d.mean) / DAY_S,
		fmax(0, r->upper_m3_d.low) / DAY_S,
		fmax(0, r->upper_m3_d.high) / DAY_S,
		r->upper_m3_d.sd / DAY_S
	};
	return r->upper_verdict;
}
