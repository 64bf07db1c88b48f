/* SPDX-License-Identifier: MIT */
#include <stddef.h>
#include <stdio.h>

#include "tarn/bed.h"
#include "constants.h"

const char *tarn_substance_name(enum tarn_substance s)
{
	static const char *const names[] = {
		"ammonia", "nitrate", "phosphorus", "bod", "solids",
	};

	return (unsigned)s < TARN_SUBSTANCES ? names[s] : NULL;
}

#define LOOP(name, member, lo, hi, unit, meaning)                     \
	{ name, TARN_FIELD_NUMBER, offsetof(struct tarn_loop, member), \
	  lo, hi, 1, unit, NULL, meaning }

static const struct tarn_field loop_rows[] = {
	LOOP("volume", volume_m3, 1e-3, 1e7, "m3", "water of the pond"),
	LOOP("flow", flow_m3s, 1e-8, 10, "m3/s", "flow round the loop"),
	LOOP("area", area_m2, 1e-3, 1e7, "m2", "plan area of the bed"),
	LOOP("temp", temp_c, 0, 40, "deg C", "temperature of the water"),
	LOOP("exchange", exchange_m3s, 0, 10, "m3/s",
	     "fresh water in and pond water out"),
	LOOP("nitrified", nitrified, 0, 1, "-", "part of the ammonia taken by "
	     "the bed that comes back as nitrate"),
};

const struct tarn_fields tarn_loop_fields = {
	"loop", loop_rows, sizeof loop_rows / sizeof loop_rows[0]
};

#define SUBSTANCE(name, member, lo, hi, unit, meaning)                    \
	{ name, TARN_FIELD_NUMBER,                                        \
	  offsetof(struct tarn_loop_substance, member), lo, hi, 1, unit, \
	  NULL, meaning }

static const struct tarn_field substance_rows[] = {
	SUBSTANCE("load", load_g_d, 0, 1e9, "g/d", "into the pond"),
	SUBSTANCE("start", start_mgl, 0, 1e6, "mg/L",
		  "in the pond at the start"),
	SUBSTANCE("k_m_yr", k_m_yr, 0, 1e6, "m/yr",
		  "areal removal rate of the bed at 20 deg C"),
	SUBSTANCE("theta", theta, 0.8, 1.4, "-",
		  "temperature factor of the rate per deg C"),
	SUBSTANCE("tanks", tanks, 1, HUGE_VAL, "-",
		  "equal mixed tanks in a row; infinity is plug flow"),
	SUBSTANCE("background", background_mgl, 0, 1e6, "mg/L",
		  "C*, below which the bed does not get it"),
	SUBSTANCE("exchange", exchange_mgl, 0, 1e6, "mg/L",
		  "in the water that is let in"),
	SUBSTANCE("pond_per_day", pond_per_day, 0, 1e3, "1/d",
		  "first-order loss in the pond itself"),
};

const struct tarn_fields tarn_loop_substance_fields = {
	"loop.substance", substance_rows,
	sizeof substance_rows / sizeof substance_rows[0]
};

struct tarn_loop tarn_loop_default(void)
{
	struct tarn_loop loop = { 0 };

	loop.volume_m3 = loop.flow_m3s = loop.area_m2 = TARN_NAN;
	loop.temp_c = 20;
	loop.nitrified = 1;
	for (int i = 0; i < TARN_SUBSTANCES; i++) {
		loop.substance[i].theta = 1;
		loop.substance[i].tanks = HUGE_VAL;
	}
	return loop;
}

static enum tarn_status check(const struct tarn_loop *loop,
			      struct tarn_error *err)
{
	enum tarn_status st = tarn_fields_check(&tarn_loop_fields, loop, err);

	for (int i = 0; st == TARN_OK && i < TARN_SUBSTANCES; i++) {
		char section[40];
		struct tarn_fields named = tarn_loop_substance_fields;

		snprintf(section, sizeof section, "loop.%s",
			 tarn_substance_name((enum tarn_substance)i));
		named.section = section;
		st = tarn_fields_check(&named, &loop->substance[i], err);
	}
	return st;
}

/* dC/dt = gain - rate C for one substance, per day. */
struct balance {
	double clearance;	/* of the bed, m3/d */
	double rate;		/* 1/d */
	double gain;		/* mg/L per day, but for what is nitrified */
};

static struct balance balance_of(const struct tarn_loop *loop, int i)
{
	const struct tarn_loop_substance *s = &loop->substance[i];
	double flow = loop->flow_m3s * DAY;
	double fresh = loop->exchange_m3s * DAY;
	double k = tarn_rate_at(s->k_m_yr, s->theta, loop->temp_c) / YEAR;
	double left = tarn_treatment_remaining(k * loop->area_m2 / flow,
					       s->tanks);
	struct balance b;

	b.clearance = flow * (1 - left);
	b.rate = (b.clearance + fresh) / loop->volume_m3 + s->pond_per_day;
	b.gain = (s->load_g_d + b.clearance * s->background_mgl +
		  fresh * s->exchange_mgl) / loop->volume_m3;
	return b;
}

/* Nitrate that one mg/L of ammonia over its background makes, mg/L per day. */
static double nitrate_yield(const struct tarn_loop *loop,
			    const struct balance *ammonia)
{
	return loop->nitrified * ammonia->clearance / loop->volume_m3;
}

enum tarn_status tarn_loop_steady(const struct tarn_loop *loop,
				  struct tarn_loop_result *out,
				  struct tarn_error *err)
{
	struct tarn_loop_result r = { 0 };
	enum tarn_status st = check(loop, err);

	if (st != TARN_OK)
		return st;
	for (int i = 0; i < TARN_SUBSTANCES; i++) {
		const struct tarn_loop_substance *s = &loop->substance[i];
		struct balance b = balance_of(loop, i);

		if (i == TARN_NITRATE)
			b.gain += loop->nitrified * r.bed_g_d[TARN_AMMONIA] /
				  loop->volume_m3;
		r.clearance_m3s[i] = b.clearance / DAY;
		r.per_day[i] = b.rate;
		if (b.rate > 0)
			r.mgl[i] = b.gain / b.rate;
		else if (b.gain > 0)
			r.mgl[i] = TARN_NAN;
		else
			r.mgl[i] = s->start_mgl;
		if (isnan(r.mgl[i]))
			r.flags |= TARN_BED_NO_STEADY_STATE;
		r.bed_g_d[i] = b.clearance > 0
			? b.clearance * (r.mgl[i] - s->background_mgl) : 0;
	}
	*out = r;
	return TARN_OK;
}

/* (1 - exp(-x t)) / x, also at x = 0 */
static double approach(double x, double t)
{
	return x == 0 ? t : -expm1(-x * t) / x;
}

/*
 * (exp(-b t) - exp(-a t)) / (a - b), also where a is near b: taken from the
 * slower of the two, so that nothing overflows.
 */
static double exchange(double a, double b, double t)
{
	double slow = fmin(a, b), gap = fabs(a - b);

	return exp(-slow * t) * approach(gap, t);
}

/*
 * Integral of exp(-b (t - s)) approach(a, s) over s from 0 to t, symmetric in
 * a and b.  One form for each corner, so that nothing cancels: series where
 * a t and b t are small.
 */
static double twice(double a, double b, double t)
{
	double slow = fmin(a, b), fast = fmax(a, b);

	if (fast * t < 1e-4)
		return t * t * (0.5 - (a + b) * t / 6 +
				(a * a + a * b + b * b) * t * t / 24);
	return (approach(slow, t) - exchange(a, b, t)) / fast;
}

enum tarn_status tarn_loop_after(const struct tarn_loop *loop, double days,
				 const double from[TARN_SUBSTANCES],
				 double to[TARN_SUBSTANCES],
				 struct tarn_error *err)
{
	enum tarn_status st = check(loop, err);
	struct balance b[TARN_SUBSTANCES];
	double c[TARN_SUBSTANCES], yield, over;

	if (st != TARN_OK)
		return st;
	if (!(days >= 0 && days <= 1e6))
		return tarn_fail(err, TARN_EARG, "days", "must be 0 to 1e6, "
				 "got %g", days);
	for (int i = 0; i < TARN_SUBSTANCES; i++) {
		if (!(from[i] >= 0 && from[i] <= 1e6))
			return tarn_fail(err, TARN_EARG, "start", "must be 0 "
					 "to 1e6 mg/L, got %g", from[i]);
		b[i] = balance_of(loop, i);
		c[i] = from[i] * exp(-b[i].rate * days) +
		       b[i].gain * approach(b[i].rate, days);
	}
	/* ammonia over its background is over e^-at + surplus (1-e^-at)/a */
	yield = nitrate_yield(loop, &b[TARN_AMMONIA]);
	over = from[TARN_AMMONIA] -
	       loop->substance[TARN_AMMONIA].background_mgl;
	c[TARN_NITRATE] += yield * (
		over * exchange(b[TARN_AMMONIA].rate, b[TARN_NITRATE].rate,
				days) +
		(b[TARN_AMMONIA].gain - b[TARN_AMMONIA].rate *
		 loop->substance[TARN_AMMONIA].background_mgl) *
		twice(b[TARN_AMMONIA].rate, b[TARN_NITRATE].rate, days));
	for (int i = 0; i < TARN_SUBSTANCES; i++)
		to[i] = c[i];
	return TARN_OK;
}
