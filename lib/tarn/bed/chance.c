/* SPDX-License-Identifier: MIT */
#include <stddef.h>

#include "tarn/base/stats.h"
#include "judge.h"

#define PI 3.14159265358979323846
#define GAMMA 0x9e3779b97f4a7c15u	/* odd, 2^64 / golden ratio */
#define NORMALS 4			/* porosity, k, load, flow */

/* Finaliser of SplitMix64 (Stafford's variant 13). */
static uint64_t mix(uint64_t z)
{
	z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
	z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
	return z ^ (z >> 31);
}

uint64_t tarn_random(uint64_t seed, uint64_t stream, uint64_t index)
{
	return mix(seed + mix(stream) + (index + 1) * GAMMA);
}

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

#define CHANCE(name, member, lo, hi, unit, meaning)                      \
	{ name, TARN_FIELD_NUMBER, offsetof(struct tarn_chance, member), \
	  lo, hi, 1, unit, NULL, meaning }

static const struct tarn_field rows[] = {
	CHANCE("samples", samples, 100, 1e6, "-", "beds to try"),
	CHANCE("seed", seed, 0, 9007199254740992.0, "-",
	       "of the random numbers"),
	CHANCE("porosity_sd", porosity_sd, 0, 0.2, "-",
	       "standard deviation of the porosity"),
	CHANCE("k_cv", k_cv, 0, 3, "-", "coefficient of variation of the "
	       "removal rate"),
	CHANCE("load_cv", load_cv, 0, 3, "-", "of the loads"),
	CHANCE("flow_cv", flow_cv, 0, 3, "-", "of the flow"),
};

const struct tarn_fields tarn_chance_fields = {
	"chance", rows, sizeof rows / sizeof rows[0]
};

const double tarn_percentiles[TARN_PERCENTILES] = { 5, 25, 50, 75, 95 };

struct tarn_chance tarn_chance_default(void)
{
	return (struct tarn_chance){ .samples = 2000, .seed = 1,
				     .porosity_sd = 0.03, .k_cv = 0.5,
				     .load_cv = 0.3, .flow_cv = 0.15 };
}

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
	size_t n = stats_sort(values, count);

	for (int p = 0; p < TARN_PERCENTILES; p++)
		out[p] = n == 0 ? TARN_NAN
			: stats_percentile(values, n, 1,
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
		(void)tarn_stone_of(&s, &stone, NULL);
		tarn_bed_judge(&s, &stone, isnan(s.depth_m) ? 1 :
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
		st = tarn_sizing_prepare(base, s, err);
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
	return tarn_stone_of(s, &stone, err);
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
