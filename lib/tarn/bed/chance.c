/* SPDX-License-Identifier: MIT */
#include <stddef.h>

#include "tarn/base/stats.h"
#include "judge.h"

#define PI 3.14159265358979323846
#define NORMALS 4			/* porosity, k, load, flow */

/* Never 0, so that its logarithm is finite. */
static double uniform(uint64_t word)
{
	return ((double)(word >> 11) + 0.5) / 9007199254740992.0;
}

/* Box & Muller: two words make two normal numbers. */
static void normals(uint64_t seed, uint64_t sample, double z[NORMALS])
{
	for (unsigned i = 0; i < NORMALS; i += 2) {
		double u = uniform(tarn_random(seed, sample, i));
		double v = uniform(tarn_random(seed, sample, i + 1));
		double r = sqrt(-2 * log(u));

		z[i] = r * cos(2 * PI * v);
		z[i + 1] = r * sin(2 * PI * v);
	}
}

#define IN struct tarn_chance
static const struct tarn_field rows[] = {
	TARN_IN_VALUE(IN, samples, "samples", "-", 100, 1e6, 2000,
		      "beds to try"),
	TARN_IN_VALUE(IN, seed, "seed", "-", 0, 9007199254740992.0, 1,
		      "of the random numbers"),
	TARN_IN_VALUE(IN, porosity_sd, "porosity_sd", "-", 0, 0.2, 0.03,
		      "standard deviation of the porosity"),
	TARN_IN_VALUE(IN, k_cv, "k_cv", "-", 0, 3, 0.5,
		      "coefficient of variation of the removal rate"),
	TARN_IN_VALUE(IN, load_cv, "load_cv", "-", 0, 3, 0.3, "of the loads"),
	TARN_IN_VALUE(IN, flow_cv, "flow_cv", "-", 0, 3, 0.15, "of the flow"),
};

TARN_FIELDS(tarn_chance_fields, "chance", rows);
TARN_DEFAULT(IN, tarn_chance_default, tarn_chance_fields)

const double tarn_percentiles[TARN_PERCENTILES] = { 5, 25, 50, 75, 95 };

static const char *const names[] = { "p5", "p25", "p50", "p75", "p95", NULL };

#define OUT struct tarn_chance_result
#define SPREAD(member, name, unit, text) \
	TARN_OUT_NAMED(OUT, member, name, names, 1, unit, text)
static const struct tarn_field result_rows[] = {
	SPREAD(pond_mgl, "pond", "mg/L", "ammonia in the pond, steady"),
	SPREAD(outlet_mgl, "outlet", "mg/L", "concentration at the outlet"),
	SPREAD(residence_s, "residence", "s", "time of water in the bed"),
	SPREAD(clogged_m, "clogged", "m", "head lost when clogged"),
	TARN_OUT_NUMBER(OUT, refused, "refused", "-",
			"share of samples with a refusal"),
};

TARN_FIELDS(tarn_chance_result_fields, "chance", result_rows);

/* Log-normal factor of median 1 and that coefficient of variation. */
static double factor(double cv, double z)
{
	return exp(sqrt(log1p(cv * cv)) * z);
}

/* Logit-normal about n, so that 0 < n < 1; kept in the range of the field. */
static double shaken(double n, double sd, double z)
{
	double odds = log(n / (1 - n)) + sd / (n * (1 - n)) * z;

	return fmin(0.95, fmax(0.05, 1 / (1 + exp(-odds))));
}

/* Draws one bed; 'layer' is scratch for its layers. */
static void draw(const struct tarn_sizing *base,
		 const struct tarn_chance *chance, uint64_t sample,
		 struct tarn_layer layer[], struct tarn_sizing *s)
{
	double z[NORMALS], load;

	normals((uint64_t)chance->seed, sample, z);
	*s = *base;
	s->porosity = shaken(base->porosity, chance->porosity_sd, z[0]);
	for (size_t i = 0; base->layer && i < base->layer_count; i++) {
		layer[i] = base->layer[i];
		if (!isnan(layer[i].diameter_m))
			layer[i].porosity = shaken(layer[i].porosity,
						   chance->porosity_sd, z[0]);
	}
	s->layer = base->layer ? layer : NULL;
	s->k_m_yr *= factor(chance->k_cv, z[1]);
	load = factor(chance->load_cv, z[2]);
	s->ammonia_g *= load;
	s->bod_g *= load;
	s->solids_g *= load;
	s->flow_m3s *= factor(chance->flow_cv, z[3]);
}

static void percentiles(double values[], size_t count,
			double out[TARN_PERCENTILES])
{
	size_t n = tn_stats_sort(values, count);

	for (int p = 0; p < TARN_PERCENTILES; p++)
		out[p] = n == 0 ? TARN_NAN
			: tn_stats_percentile(values, n, 1,
					      tarn_percentiles[p] / 100);
}

/* Memory of a run: one column for each result, and the layers of one bed. */
struct scratch {
	double *pond, *outlet, *residence, *head;
	struct tarn_layer *layer;
};

static size_t run(const struct tarn_sizing *base,
		  const struct tarn_chance *chance, size_t count,
		  struct scratch *to)
{
	size_t refused = 0;

	for (size_t i = 0; i < count; i++) {
		struct tarn_sizing s;
		struct tarn_bed_check c;
		struct stone stone;

		draw(base, chance, i, to->layer, &s);
		/* every layer was checked with the base */
		(void)tn_stone_of(&s, &stone, NULL);
		tn_bed_judge(&s, &stone, isnan(s.depth_m) ? 1 :
			     s.depth_m / stone.depth_m, &c);
		to->pond[i] = c.pond_mgl;
		to->outlet[i] = c.outlet_mgl;
		to->residence[i] = c.residence_s;
		to->head[i] = c.clogged_m;
		refused += (c.flags & TARN_BED_REFUSALS) != 0;
	}
	return refused;
}

static enum tarn_status prepare(const struct tarn_sizing *base,
				const struct tarn_chance *chance,
				struct tarn_sizing *s, struct tarn_error *err)
{
	enum tarn_status st = tarn_fields_check(&tarn_chance_fields, chance,
						err);
	struct stone stone;

	if (st == TARN_OK)
		st = tn_sizing_prepare(base, s, err);
	if (st != TARN_OK)
		return st;
	if (isnan(s->area_m2) || isnan(s->flow_m3s))
		return tarn_fail(err, TARN_EARG, isnan(s->area_m2)
				 ? "size.area" : "size.flow", "is missing: "
				 "chance is taken with one bed");
	if (chance->samples != floor(chance->samples) ||
	    chance->seed != floor(chance->seed))
		return tarn_fail(err, TARN_EARG, "chance.samples", "and seed "
				 "must be whole numbers");
	return tn_stone_of(s, &stone, err);
}

enum tarn_status tarn_chance(const struct tarn_sizing *base,
			     const struct tarn_chance *chance,
			     const struct tarn_alloc *alloc,
			     struct tarn_chance_result *out,
			     struct tarn_error *err)
{
	struct tarn_sizing s;
	struct scratch to;
	size_t count, layers;
	enum tarn_status st = prepare(base, chance, &s, err);

	if (st != TARN_OK)
		return st;
	count = (size_t)chance->samples;
	layers = s.layer ? s.layer_count : 0;
	to.pond = tarn_resize(alloc, NULL, 4 * count * sizeof(double) +
			      layers * sizeof(struct tarn_layer));
	if (!to.pond)
		return tarn_fail(err, TARN_ENOMEM, "chance", "out of memory "
				 "for %zu samples", count);
	to.outlet = to.pond + count;
	to.residence = to.outlet + count;
	to.head = to.residence + count;
	to.layer = (struct tarn_layer *)(void *)(to.head + count);
	out->refused = (double)run(&s, chance, count, &to) / (double)count;
	percentiles(to.pond, count, out->pond_mgl);
	percentiles(to.outlet, count, out->outlet_mgl);
	percentiles(to.residence, count, out->residence_s);
	percentiles(to.head, count, out->clogged_m);
	tarn_resize(alloc, to.pond, 0);
	return TARN_OK;
}
