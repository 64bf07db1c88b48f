/* SPDX-License-Identifier: MIT */
#include <stddef.h>

#include "rows.h"
#include "constants.h"
#include "firstorder.h"

static const char *const substances[] = {
	"ammonia", "nitrate", "phosphorus", "bod", "solids", NULL
};

const char *tarn_substance_name(enum tarn_substance s)
{
	return (unsigned)s < TARN_SUBSTANCES ? substances[s] : NULL;
}

#define EACH struct tarn_loop_substance
static const struct tarn_field substance_rows[] = {
	TARN_IN_VALUE(EACH, load_g_d, "load", "g/d", 0, 1e9, 0,
		      "into the pond"),
	TARN_IN_VALUE(EACH, start_mgl, "start", "mg/L", 0, 1e6, 0,
		      "in the pond at the start"),
	TARN_IN_VALUE(EACH, k_m_yr, "k_m_yr", "m/yr", 0, 1e6, 0,
		      "areal removal rate of the bed at 20 deg C"),
	TARN_IN_VALUE(EACH, theta, "theta", "-", 0.8, 1.4, 1,
		      "temperature factor of the rate per deg C"),
	{ TARN_NUMBER(EACH, tanks_in_series, "tanks_in_series", "-", 1,
		      HUGE_VAL, HUGE_VAL,
		      "equal mixed tanks in series; infinity is plug flow"),
	  .required = 1, .was = "tanks" },
	TARN_IN_VALUE(EACH, background_mgl, "background", "mg/L", 0,
		      1e6, 0, "C*, below which the bed does not get it"),
	TARN_IN_VALUE(EACH, exchange_mgl, "exchange", "mg/L", 0, 1e6,
		      0, "in the water that is let in"),
	TARN_IN_VALUE(EACH, pond_per_day, "pond_per_day", "1/d", 0,
		      1e3, 0, "first-order loss in the pond itself"),
};

TARN_FIELDS(tarn_loop_substance_fields, "loop.substance", substance_rows);

#define IN struct tarn_loop
#define SUBSTANCE(which, name, text) \
	TARN_SECTION(IN, substance[which], name, tarn_loop_substance_fields, \
		     text)
static const struct tarn_field loop_rows[] = {
	TARN_IN_REQUIRED(IN, volume_m3, "volume", "m3", 1e-3, 1e7,
			 "water of the pond"),
	TARN_IN_REQUIRED(IN, flow_m3s, "flow", "m3/s", 1e-8, 10,
			 "flow round the loop"),
	TARN_IN_REQUIRED(IN, area_m2, "area", "m2", 1e-3, 1e7,
			 "plan area of the bed"),
	TARN_IN_VALUE(IN, temp_c, "temp", "deg C", 0, 40, 20,
		      "temperature of the water"),
	TARN_IN_VALUE(IN, exchange_m3s, "exchange", "m3/s", 0, 10, 0,
		      "fresh water in and pond water out"),
	TARN_IN_VALUE(IN, nitrified, "nitrified", "-", 0, 1, 1, "part of the "
		      "ammonia taken by the bed that comes back as nitrate"),
	SUBSTANCE(TARN_AMMONIA, "ammonia", "ammonia nitrogen"),
	SUBSTANCE(TARN_NITRATE, "nitrate", "nitrate nitrogen"),
	SUBSTANCE(TARN_PHOSPHORUS, "phosphorus", "phosphorus"),
	SUBSTANCE(TARN_BOD, "bod", "BOD"),
	SUBSTANCE(TARN_SOLIDS, "solids", "solids"),
};

TARN_FIELDS(tarn_loop_fields, "loop", loop_rows);
TARN_DEFAULT(IN, tarn_loop_default, tarn_loop_fields)

#define OUT struct tarn_loop_result
#define EACH_OF(member, name, unit, text) \
	TARN_OUT_NAMED(OUT, member, name, substances, 0, unit, text)
static const struct tarn_field result_rows[] = {
	EACH_OF(mgl, "steady", "mg/L", "in the pond, in the end"),
	EACH_OF(clearance_m3s, "clearance", "m3/s", "water cleaned"),
	EACH_OF(per_day, "per_day", "1/d", "rate of approach"),
	EACH_OF(bed_g_d, "bed_g", "g/d", "taken by the bed, in the end"),
	BED_FLAG_ROWS(OUT),
};

TARN_FIELDS(tarn_loop_result_fields, "loop", result_rows);

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
	double k = tn_rate_at(s->k_m_yr, s->theta, loop->temp_c) / YEAR;
	double left = tn_treatment_remaining(k * loop->area_m2 / flow,
					     s->tanks_in_series);
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
	enum tarn_status st = tarn_fields_check(&tarn_loop_fields, loop, err);

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
	enum tarn_status st = tarn_fields_check(&tarn_loop_fields, loop, err);
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
