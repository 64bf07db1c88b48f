/* SPDX-License-Identifier: MIT */
#include "internal.h"

#define IN struct tarn_routing
static const struct tarn_field rows[] = {
	TARN_IN_REQUIRED(IN, step_s, "step", "s", 1e-3, 1e7, "between inflows"),
	TARN_IN_VALUE(IN, substeps, "substeps", "-", 1, 1e5, 20,
		      "parts that a step is solved in"),
	TARN_IN_REQUIRED(IN, start_level_m, "start_level", "m", -1000, 1e4,
			 "level at the start"),
	TARN_IN_NUMBERS(IN, inflow_m3s, inflow_count, "inflow", "m3/s",
			-HUGE_VAL, HUGE_VAL, "one a step, from the start on"),
	TARN_IN_COLUMNS(IN, level_m, area_m2, level_count, "storage", "m, m2",
			"{ level, area of the water }, rising"),
	TARN_IN_COLUMNS(IN, rating_level_m, rating_m3s, rating_count, "rating",
			"m, m3/s", "{ level, outflow }, rising"),
};
TARN_FIELDS(tarn_routing_fields, "routing", rows);
TARN_DEFAULT(IN, tarn_routing_default, tarn_routing_fields)

#define OUT struct tarn_routing_flow
static const struct tarn_field result_rows[] = {
	TARN_OUT_NUMBER(OUT, peak_inflow_m3s, "peak_inflow", "m3/s",
			"highest inflow"),
	TARN_OUT_NUMBER(OUT, peak_outflow_m3s, "peak_outflow", "m3/s",
			"highest outflow"),
	TARN_OUT_NUMBER(OUT, peak_level_m, "peak_level", "m", "highest level"),
	TARN_OUT_NUMBER(OUT, peak_time_s, "peak_time", "s",
			"when the level is highest"),
	TARN_OUT_NUMBER(OUT, end_level_m, "end_level", "m", "level at the end"),
	TARN_OUT_NUMBER(OUT, inflow_m3, "inflow", "m3", "came in"),
	TARN_OUT_NUMBER(OUT, outflow_m3, "outflow", "m3", "went out"),
	TARN_OUT_NUMBER(OUT, stored_m3, "stored", "m3", "stayed"),
	TARN_OUT_NUMBER(OUT, balance_m3, "balance", "m3",
			"inflow - outflow - stored"),
};
TARN_FIELDS(tarn_routing_flow_fields, "routing", result_rows);

/* ---- checks ----------------------------------------------------------- */

static enum tarn_status check_rising(const double *xs, const double *ys,
				     size_t count, const char *field,
				     struct tarn_error *err)
{
	for (size_t i = 0; i < count; i++) {
		if (!isfinite(xs[i]) || !(ys[i] >= 0 && ys[i] < HUGE_VAL))
			return tarn_fail(err, TARN_EARG, field, "row %zu must "
					 "be a level and a number from zero "
					 "up, got %g and %g", i + 1, xs[i],
					 ys[i]);
		if (i > 0 && !(xs[i] > xs[i - 1]))
			return tarn_fail(err, TARN_EARG, field, "row %zu: "
					 "levels must rise, got %g after %g",
					 i + 1, xs[i], xs[i - 1]);
	}
	return TARN_OK;
}

static enum tarn_status check_tables(const struct tarn_routing *r,
				     struct tarn_error *err)
{
	if (r->level_count < 2)
		return tarn_fail(err, TARN_EARG, "routing.storage", "needs two "
				 "rows of level and area or more");
	if (check_rising(r->level_m, r->area_m2, r->level_count,
			 "routing.storage", err) != TARN_OK ||
	    check_rising(r->rating_level_m, r->rating_m3s, r->rating_count,
			 "routing.rating", err) != TARN_OK)
		return TARN_EARG;
	for (size_t i = 1; i < r->level_count; i++)
		if (r->area_m2[i - 1] + r->area_m2[i] == 0)
			return tarn_fail(err, TARN_EARG, "routing.storage",
					 "row %zu: no area", i + 1);
	for (size_t i = 1; i < r->rating_count; i++)
		if (r->rating_m3s[i] < r->rating_m3s[i - 1])
			return tarn_fail(err, TARN_EARG, "routing.rating",
					 "row %zu: outflow must not fall",
					 i + 1);
	return TARN_OK;
}

static enum tarn_status check(const struct tarn_routing *r,
			      struct tarn_error *err)
{
	if (tarn_fields_check(&tarn_routing_fields, r, err) != TARN_OK ||
	    check_tables(r, err) != TARN_OK)
		return TARN_EARG;
	if (r->overflow && tn_flow_overflow_check(r->overflow, err) != TARN_OK)
		return TARN_EARG;
	if (r->inflow_count < 2)
		return tarn_fail(err, TARN_EARG, "routing.inflow",
				 "needs two values or more");
	for (size_t i = 0; i < r->inflow_count; i++)
		if (!(r->inflow_m3s[i] >= 0 && r->inflow_m3s[i] < HUGE_VAL))
			return tarn_fail(err, TARN_EARG, "routing.inflow",
					 "number %zu must be zero or more, got "
					 "%g", i + 1, r->inflow_m3s[i]);
	if (r->substeps != floor(r->substeps))
		return tarn_fail(err, TARN_EARG, "routing.substeps", "must be "
				 "a whole number, got %g", r->substeps);
	if (r->start_level_m < r->level_m[0] ||
	    r->start_level_m > r->level_m[r->level_count - 1])
		return tarn_fail(err, TARN_EARG, "routing.start_level",
				 "must be within the storage table, got %g",
				 r->start_level_m);
	if (r->rating_count > 0 &&
	    r->start_level_m > r->rating_level_m[r->rating_count - 1])
		return tarn_fail(err, TARN_EARG, "routing.start_level",
				 "is above the rating table, got %g",
				 r->start_level_m);
	return TARN_OK;
}

/* ---- storage and outflow ---------------------------------------------- */

/* Volume between the table's first level and this one. */
static double storage(const struct tarn_routing *r, double level)
{
	double sum = 0;

	for (size_t i = 1; i < r->level_count; i++) {
		double z0 = r->level_m[i - 1], z1 = r->level_m[i];
		double a0 = r->area_m2[i - 1], a1 = r->area_m2[i];
		double z = fmin(level, z1), a;

		if (level <= z0)
			break;
		a = a0 + (a1 - a0) * (z - z0) / (z1 - z0);
		sum += (a0 + a) / 2 * (z - z0);
	}
	return sum;
}

static double outflow(const struct tarn_routing *r, double level)
{
	double sum = 0;

	if (r->overflow) {
		struct tarn_overflow_flow out;

		tn_flow_overflow_at(r->overflow, level, &out);
		sum += out.flow_m3s;
	}
	if (r->rating_count > 0 && level >= r->rating_level_m[0])
		sum += tn_flow_interpolate(r->rating_level_m, r->rating_m3s,
					   r->rating_count, level);
	return sum;
}

struct step {
	const struct tarn_routing *r;
	double half, known;	/* half a time step; all that is known */
};

static double step_excess(double level, const void *context)
{
	const struct step *s = context;

	return storage(s->r, level) + s->half * outflow(s->r, level) -
	       s->known;
}

/* ---- the run ---------------------------------------------------------- */

struct state {
	double level, outflow, time;
};

static enum tarn_status fail_step(const struct step *s, double time,
				  struct tarn_error *err)
{
	double top = s->r->level_m[s->r->level_count - 1];

	if (step_excess(top, s) < 0)
		return tarn_fail(err, TARN_EARG, "routing.storage", "ends at "
				 "%g m, and the water rises above it %g s "
				 "after the start", top, time);
	return tarn_fail(err, TARN_EARG, "routing.step", "is too long: more "
			 "leaves than is there %g s after the start; raise "
			 "substeps", time);
}

static enum tarn_status advance(const struct tarn_routing *r, double in0,
				double in1, struct state *now,
				struct tarn_routing_flow *out,
				struct tarn_error *err)
{
	double dt = r->step_s / r->substeps, top;
	struct step s = { r, dt / 2, storage(r, now->level) +
			  dt / 2 * (in0 + in1 - now->outflow) };
	double level = tn_flow_root(step_excess, &s, r->level_m[0],
				    r->level_m[r->level_count - 1]);
	double gone = now->outflow;

	now->time += dt;
	if (isnan(level))
		return fail_step(&s, now->time, err);
	top = r->rating_count ? r->rating_level_m[r->rating_count - 1]
			      : HUGE_VAL;
	if (level > top)
		return tarn_fail(err, TARN_EARG, "routing.rating", "ends at %g "
				 "m, and the water rises above it %g s after "
				 "the start", top, now->time);
	now->level = level;
	now->outflow = outflow(r, level);
	out->inflow_m3 += dt * (in0 + in1) / 2;
	out->outflow_m3 += dt * (gone + now->outflow) / 2;
	if (level > out->peak_level_m) {
		out->peak_level_m = level;
		out->peak_time_s = now->time;
	}
	out->peak_outflow_m3s = fmax(out->peak_outflow_m3s, now->outflow);
	return TARN_OK;
}

static enum tarn_status advance_step(const struct tarn_routing *r, size_t i,
				     struct state *now,
				     struct tarn_routing_flow *out,
				     struct tarn_error *err)
{
	double a = r->inflow_m3s[i - 1], rise = r->inflow_m3s[i] - a;
	int n = (int)r->substeps;

	for (int k = 0; k < n; k++)
		if (advance(r, a + rise * k / n, a + rise * (k + 1) / n, now,
			    out, err) != TARN_OK)
			return TARN_EARG;
	return TARN_OK;
}

enum tarn_status tarn_routing_solve(const struct tarn_routing *routing,
				    double *level_m, double *outflow_m3s,
				    struct tarn_routing_flow *out,
				    struct tarn_error *err)
{
	const struct tarn_routing *r = routing;
	struct tarn_routing_flow sum = { 0 };
	struct state now;

	if (check(r, err) != TARN_OK)
		return TARN_EARG;
	now = (struct state){ r->start_level_m, outflow(r, r->start_level_m),
			      0 };
	sum.peak_level_m = now.level;
	sum.peak_outflow_m3s = now.outflow;
	for (size_t i = 0; i < r->inflow_count; i++) {
		if (i > 0 && advance_step(r, i, &now, &sum, err) != TARN_OK)
			return TARN_EARG;
		sum.peak_inflow_m3s = fmax(sum.peak_inflow_m3s,
					   r->inflow_m3s[i]);
		if (level_m)
			level_m[i] = now.level;
		if (outflow_m3s)
			outflow_m3s[i] = now.outflow;
	}
	sum.end_level_m = now.level;
	sum.stored_m3 = storage(r, now.level) - storage(r, r->start_level_m);
	sum.balance_m3 = sum.inflow_m3 - sum.outflow_m3 - sum.stored_m3;
	*out = sum;
	return TARN_OK;
}
