/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/leak/fit.h"

/* What is known before a log is read: see leak.h, "Priors". */

/* A turning register counts at least 0.98 of what passes; a float that
 * dribbles under its least flow, less: ln of true over read N(0.05, 0.08).  Our
 * own judgement, from what AWWA C700 and ISO 4064 allow. */
#define FLOAT_LN_MEAN 0.05
#define FLOAT_LN_SD 0.08
#define FLOAT_LEAST 0.98
#define HAND_SD 0.02	/* ISO 4064, class 2, from the transitional flow on */

/* Mean and deviation of the normal of ln true/read, cut off below, as those of
 * the factor: a mean of ln m makes m exp(m + v / 2). */
static void float_meter(double *mean, double *sd)
{
	double a = (log(FLOAT_LEAST) - FLOAT_LN_MEAN) / FLOAT_LN_SD;
	double above = erfc(a / sqrt(2)) / 2;
	double lambda = exp(-a * a / 2) / sqrt(2 * acos(-1)) / above;
	double ln = FLOAT_LN_MEAN + FLOAT_LN_SD * lambda;
	double var = FLOAT_LN_SD * FLOAT_LN_SD *
		     (1 + a * lambda - lambda * lambda);

	*mean = exp(ln + var / 2);
	*sd = *mean * sqrt(exp(var) - 1);
}

/* Wider than a forecast's, and centred so that a site whose evaporation is high
 * is not taken for a leak: see docs/methods/leak.md. */
struct tarn_leak_prior tarn_leak_prior(enum tarn_leak_site site)
{
	static const struct tarn_leak_prior priors[] = {
		[TARN_SITE_UNDESCRIBED] = { 0.82, 0.24 },
		[TARN_SITE_HALF_DESCRIBED] = { 0.95, 0.26 },
		[TARN_SITE_DESCRIBED] = { 1.00, 0.25 },
		[TARN_SITE_PAVED] = { 1.15, 0.30 },
		[TARN_SITE_PAVED_ALONE] = { 0.97, 0.33 },
		[TARN_SITE_MEASURED] = { 1.00, 0.08 },
	};

	return (unsigned)site <= TARN_SITE_MEASURED
		? priors[site]
		: (struct tarn_leak_prior){ TARN_NAN, TARN_NAN };
}

struct tarn_leak_options tn_settled(const struct tarn_leak_options *options)
{
	struct tarn_leak_options o = *options;
	struct tarn_leak_prior p =
		tarn_leak_prior((enum tarn_leak_site)o.site);

	if (isnan(o.evaporation_mean))
		o.evaporation_mean = p.mean;
	if (isnan(o.evaporation_sd))
		o.evaporation_sd = p.sd;
	return o;
}

int tn_meter_prior(const struct tarn_leak_options *o,
		   const struct tarn_pond *pond, double *mean, double *sd)
{
	int by_float = o->meter == TARN_METER_FLOAT ||
		       (o->meter == TARN_METER_BY_DESCRIPTION &&
			!isnan(pond->trigger_m));

	*mean = 1;
	*sd = HAND_SD;
	if (by_float)
		float_meter(mean, sd);
	return by_float;
}

/* The slow effects divide the log evenly, each nearest to their own length. */
static void lay_slow(struct tarn_leak *k)
{
	double days = k->laid.moment[k->count] - k->laid.moment[0];
	double count = fmax(1, floor(days / k->options.slow_days + 0.5));

	count = fmin(TARN_SLOW_MOST, count);
	k->result.slow_effects = k->options.slow_sd > 0 ? (size_t)count : 0;
	k->result.slow_days = days / count;
}

void tn_lay_prior(struct tarn_leak *k, const struct tarn_pond *pond)
{
	struct tarn_leak_result *r = &k->result;

	r->prior.mean = k->options.evaporation_mean;
	r->prior.sd = k->options.evaporation_sd;
	r->area_sd = k->options.area_sd;
	r->site = k->options.site;
	r->meter_by_float = tn_meter_prior(&k->options, pond, &r->meter_mean,
					   &r->meter_sd);
	lay_slow(k);
}

size_t tn_slow_of(const struct tarn_leak *k, size_t interval)
{
	const double *m = k->laid.moment;
	double at = (m[interval] + m[interval + 1]) / 2 - m[0];
	size_t slow = (size_t)(at / k->result.slow_days);

	return slow + 1 < k->result.slow_effects
		? slow : k->result.slow_effects - (k->result.slow_effects > 0);
}

/* An error of the area is one of the meter's millimetres. */
double tn_metered_sd(const struct tarn_leak *k)
{
	return hypot(k->result.meter_sd,
		     k->result.meter_mean * k->options.area_sd);
}

struct gls_prior tn_prior(const struct tarn_leak *k)
{
	const struct tarn_leak_options *o = &k->options;
	double sd = tn_metered_sd(k);
	struct gls_prior p = {
		.mean = { o->evaporation_mean, 1, 0, 0 }, .columns = 3,
		.meter_mean = k->result.meter_mean,
		.meter_precision = 1 / (sd * sd),
		.slow = k->result.slow_effects,
	};

	p.precision[GLS_EVAPORATION] = 1 / (o->evaporation_sd *
					    o->evaporation_sd);
	p.precision[GLS_RAIN] = 1 / (o->rain_sd * o->rain_sd);
	if (p.slow > 0)
		p.slow_precision = 1 / (o->slow_sd * o->slow_sd);
	return p;
}

struct spell_trial tn_plain_trial(const struct tarn_leak *k)
{
	return (struct spell_trial){ k->options.evaporation_mean, 1, 0, 0 };
}

/* ---- sums of what is not known ---------------------------------------- */

void tn_spread_add(struct spread *s, const struct gls_row *row, int joined)
{
	double start = joined ? row->g - 1 : row->g;

	s->evaporation += row->x[GLS_EVAPORATION];
	s->rain += row->x[GLS_RAIN];
	s->meter += row->meter_mm;
	s->slow[row->slow] += row->x[GLS_EVAPORATION];
	/* the reading between two intervals counts in neither */
	s->var += row->w_var + start * start * row->start_var + row->end_var -
		  (joined ? row->start_var : 0);
}

double tn_spread_sd(const struct spread *s, const struct tarn_leak *k)
{
	const struct tarn_leak_options *o = &k->options;
	double e = o->evaporation_sd * s->evaporation;
	double r = o->rain_sd * s->rain, m = tn_metered_sd(k) * s->meter;
	double var = e * e + r * r + m * m + s->var;

	for (size_t i = 0; i < TARN_SLOW_MOST; i++)
		var += o->slow_sd * s->slow[i] * o->slow_sd * s->slow[i];
	return sqrt(var);
}
