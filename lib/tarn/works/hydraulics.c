/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "tarn/works/plumbing.h"

/* ---- falls and stream ------------------------------------------------------ */

/* Water that is lifted so high cannot fall further on its way back. */
static enum tarn_status check_drops(const struct tarn_works *w,
				    const struct tarn_pond *p,
				    struct tarn_error *err)
{
	double lift_m = -1, down_m = 0;

	for (int i = 0; i < w->runs; i++) {
		const struct tarn_pipe_run *r = &w->run[i];

		if (r->to != TARN_TO_BED && r->to != TARN_TO_FALLS)
			continue;
		/* 0 stands for "not given", which a curve cannot do with */
		if (r->lift_m < 0 || (r->lift_m <= 0 && tn_works_has_curve(w,
									   p)))
			return tarn_fail(err, TARN_EARG, "pipes", "number %d "
					 "ends at the %s: its lift above the lip "
					 "must be over 0 m, got %g", i + 1,
					 tn_works_run_names[r->to], r->lift_m);
		if (r->lift_m > 0)
			lift_m = fmax(lift_m, r->lift_m + p->overflow_level_m -
					      tarn_running_level_m(p));
	}
	for (int i = 0; i < w->falls; i++)
		if (!isnan(w->fall[i].drop_m))
			down_m += w->fall[i].drop_m;
	if (p->stream.slope > 0 && p->stream.length_m > 0)
		down_m += p->stream.slope * p->stream.length_m;
	if (lift_m > 0 && down_m > lift_m + 0.02)
		return tarn_fail(err, TARN_EARG, "falls", "drop %.3g m (%.3g ft) "
				 "in all with the stream, but the pipes lift only "
				 "%.3g m (%.3g ft) above the running level",
				 down_m, down_m / tarn_unit("ft"), lift_m,
				 lift_m / tarn_unit("ft"));
	return TARN_OK;
}

static enum tarn_status solve_fall(const struct tarn_fall *f, double flow_m3s,
				   struct tarn_weir_flow *out,
				   struct tarn_error *err)
{
	static const double by_kind[] = { 1.6, 1.705, 1.838 };
	struct tarn_weir weir = tarn_weir_default();

	weir.kind = f->kind == TARN_FALL_SHARP ? TARN_WEIR_RECTANGULAR
					       : TARN_WEIR_LIP;
	weir.width_m = f->width_m;
	weir.coefficient = isnan(f->coefficient) ? by_kind[f->kind]
						 : f->coefficient;
	weir.drop_m = f->drop_m;
	weir.flow_m3s = flow_m3s;
	return tarn_weir_solve(&weir, out, err);
}

enum tarn_status tarn_fall_head(const struct tarn_fall *fall, double flow_m3s,
				double *head_m, struct tarn_error *err)
{
	struct tarn_weir_flow out;
	enum tarn_status st = tarn_fields_check(&tarn_fall_fields, fall, err);

	if (st == TARN_OK)
		st = solve_fall(fall, flow_m3s, &out, err);
	if (st == TARN_OK)
		*head_m = out.head_m;
	return st;
}

static enum tarn_status solve_falls(const struct tarn_works *w,
				    struct tarn_works_flow *out,
				    struct tarn_error *err)
{
	for (int i = 0; i < w->falls; i++) {
		const struct tarn_fall *f = &w->fall[i];
		double flow_m3s = out->bed_m3s +
				  (f->bed ? 0 : out->falls_m3s);
		enum tarn_status status;

		if (!(flow_m3s > 0))
			continue;
		status = solve_fall(f, flow_m3s, &out->fall[i], err);
		if (status != TARN_OK)
			return status;
		if (f->bed)
			out->bed_head_m = out->fall[i].head_m;
		else
			out->pools_m3 += tarn_transit_surface_m3(
				f->pool_m2, out->fall[i].head_m);
	}
	return TARN_OK;
}

static enum tarn_status solve_stream(const struct tarn_pond *p,
				     struct tarn_works_flow *out,
				     struct tarn_error *err)
{
	struct tarn_channel c = tarn_channel_default();

	c.flow_m3s = out->bed_m3s + out->falls_m3s;
	c.slope = p->stream.slope;
	c.manning = p->stream.manning;
	c.width_m = p->stream.width_m;
	if (!isnan(c.slope) && isnan(c.manning))
		return tarn_fail(err, TARN_EARG, "stream.manning", "is missing "
				 "beside the slope: stony beds have about 0.035 "
				 "(docs/methods/flow.md lists more)");
	if (!(c.flow_m3s > 0) || isnan(c.slope) || isnan(c.manning) ||
	    isnan(c.width_m))
		return TARN_OK;
	return tarn_channel_solve(&c, &out->stream, err);
}

/* ---- in transit -------------------------------------------------------------- */

static void sum_pipes(const struct tarn_works *w, const struct tarn_pond *p,
		      struct tarn_works_flow *out)
{
	double bed_m2 = p->bed.area_m2 *
			(isnan(p->bed.porosity) ? 1 : p->bed.porosity);

	for (int i = 0; i < w->runs; i++) {
		const struct tarn_pipe_run *r = &w->run[i];

		if (r->to == TARN_TO_POND)
			continue;	/* it ends under the pond's water */
		out->pipes_m3 += tarn_transit_pipe_m3(r->length_m,
						      tarn_pipe_run_diameter_m(r));
		if (r->to == TARN_TO_BED && !p->pump.check_valve)
			out->siphon_m3 += bed_m2 * r->siphon_m;
	}
	if (p->pump.check_valve)
		out->pipes_m3 = 0;
}

static void sum_transit(const struct tarn_works *w, const struct tarn_pond *p,
			struct tarn_works_flow *out)
{
	const struct tarn_stream *s = &p->stream;
	double stream_m2 = isnan(s->area_m2) ? s->length_m * s->width_m
					     : s->area_m2;

	sum_pipes(w, p, out);
	out->drain_given = isnan(p->pump.drainback_m3) ? (w->runs ? 0 : -1) : 1;
	out->drain_m3 = out->drain_given == 1 ? p->pump.drainback_m3
					      : out->pipes_m3 + out->siphon_m3;
	out->bed_given = isnan(p->bed.lip_head_m) ?
			 (isnan(out->bed_head_m) ? -1 : 0) : 1;
	out->bed_m3 = out->bed_given < 0 ? 0 : p->bed.area_m2 *
		(out->bed_given ? p->bed.lip_head_m : out->bed_head_m);
	out->stream_given = 1;
	if (!isnan(s->volume_m3))
		out->stream_m3 = s->volume_m3;
	else if (!isnan(s->depth_m) && !isnan(stream_m2))
		out->stream_m3 = stream_m2 * s->depth_m;
	else if (!isnan(out->stream.area_m2) && !isnan(s->length_m)) {
		out->stream_given = 0;
		out->stream_m3 = tarn_transit_stream_m3(s->length_m,
							out->stream.area_m2);
	} else
		out->stream_given = -1;
}

static void clear_transit(struct tarn_works_flow *out)
{
	out->bed_head_m = TARN_NAN;
	out->bed_m3s = out->falls_m3s = out->pond_m3s = TARN_NAN;
	memset(&out->stream, 0, sizeof out->stream);
	out->stream.area_m2 = out->stream.depth_m = TARN_NAN;
	memset(out->fall, 0, sizeof out->fall);
	for (int i = 0; i < TARN_FALLS_MAX; i++)
		out->fall[i].flow_m3s = TARN_NAN;
	out->pipes_m3 = out->siphon_m3 = out->pools_m3 = 0;
	out->bed_m3 = out->stream_m3 = out->drain_m3 = 0;
}

static void clear_result(struct tarn_works_flow *out)
{
	const struct tarn_branch_flow no_branch = {
		TARN_NAN, TARN_NAN, TARN_NAN, TARN_NAN, TARN_NAN, TARN_NAN,
		TARN_NAN, TARN_NAN, TARN_NAN, 0, TARN_NAN, 0
	};

	memset(out, 0, sizeof *out);
	out->flow_m3s = out->solved_m3s = out->low_m3s = TARN_NAN;
	out->head_m = out->share_of_label = TARN_NAN;
	out->continuity = out->energy = TARN_NAN;
	for (int i = 0; i < TARN_RUNS_MAX; i++)
		out->run[i] = no_branch;
	clear_transit(out);
}

static enum tarn_status follow(const struct tarn_works *w,
			       const struct tarn_pond *p,
			       struct tarn_works_flow *out,
			       struct tarn_error *err)
{
	enum tarn_status status;

	clear_transit(out);
	tn_works_share_out(w, p, out);
	status = solve_falls(w, out, err);
	if (status == TARN_OK)
		status = solve_stream(p, out, err);
	if (status == TARN_OK)
		sum_transit(w, p, out);
	return status;
}

static enum tarn_status check_all(const struct tarn_works *w,
				  const struct tarn_pond *p,
				  struct tarn_error *err)
{
	enum tarn_status status = tarn_works_check(w, p, err);

	return status == TARN_OK ? check_drops(w, p, err) : status;
}

enum tarn_status tn_works_again(const struct tarn_works *w,
				const struct tarn_pond *p,
				struct tarn_works_flow *out,
				struct tarn_error *err)
{
	enum tarn_status status = check_all(w, p, err);

	return status == TARN_OK ? follow(w, p, out, err) : status;
}

enum tarn_status tarn_works_solve(const struct tarn_works *w,
				  const struct tarn_pond *p,
				  struct tarn_works_flow *out,
				  struct tarn_error *err)
{
	struct tarn_works_flow r;
	enum tarn_status status = check_all(w, p, err);

	clear_result(&r);
	if (status == TARN_OK)
		status = tn_works_pump(w, p, &r, err);
	if (status == TARN_OK) {
		tn_works_take_flow(w, p, &r);
		status = follow(w, p, &r, err);
	}
	if (status == TARN_OK)
		*out = r;
	return status;
}

void tarn_works_fill(const struct tarn_works_flow *f, struct tarn_pond *p)
{
	if (isnan(p->pump.flow_m3s))
		p->pump.flow_m3s = f->flow_m3s;
	if (f->bed_given == 0)
		p->bed.lip_head_m = f->bed_head_m;
	if (f->stream_given == 0)
		p->stream.volume_m3 = f->stream_m3;
	if (f->drain_given != 1 || f->pools_m3 > 0)
		p->pump.drainback_m3 = f->drain_m3 + f->pools_m3;
}
