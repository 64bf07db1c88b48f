/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "tarn/works.h"

double tarn_running_level_m(const struct tarn_pond *p)
{
	if (!isnan(p->target_m))
		return p->target_m;
	return isnan(p->trigger_m) ? p->lip_m : p->trigger_m;
}

/* ---- pump against pipes --------------------------------------------------- */

static const char *const run_names[] = { "bed", "falls", "pond", "manifold" };

struct plumbing {
	struct tarn_pump_curve pump;
	struct tarn_pipe trunk[TARN_RUNS_MAX], pipe[TARN_RUNS_MAX];
	struct tarn_branch branch[TARN_RUNS_MAX];
	int owner[TARN_RUNS_MAX];	/* run of each branch */
	struct tarn_network net;
};

static struct tarn_pipe pipe_of(const struct tarn_pipe_run *r, double temp_c)
{
	struct tarn_pipe p = tarn_pipe_default();
	int exits = 0;

	p.diameter_m = tarn_pipe_run_diameter_m(r);
	p.length_m = r->length_m;
	p.roughness_m = r->roughness_m;
	p.temp_c = temp_c;
	p.minor_k = r->minor_k;
	for (int i = 0; i < r->fittings; i++) {
		p.minor_k += r->fitting[i].kind->value * r->fitting[i].count;
		exits |= strcmp(r->fitting[i].kind->name, "exit") == 0;
	}
	/* the speed is lost at the mouth, in the air too; a nozzle's own head
	 * holds it already */
	if (!exits && r->to != TARN_TO_MANIFOLD &&
	    isnan(r->orifice_diameter_m))
		p.minor_k += 1;
	return p;
}

static int has_curve(const struct tarn_works *w, const struct tarn_pond *p)
{
	return w->curve_points > 0 || !isnan(p->pump.max_head_m);
}

/* 'level_m' is the pond's: lifts are described above the lip. */
static void plumb(const struct tarn_works *w, const struct tarn_pond *p,
		  double level_m, struct plumbing *b)
{
	size_t trunks = 0, branches = 0;

	b->pump = tarn_pump_curve_default();
	b->pump.flow_m3s = w->curve_flow_m3s;
	b->pump.head_m = w->curve_head_m;
	b->pump.points = w->curve_points;
	b->pump.max_head_m = p->pump.max_head_m;
	b->pump.label_flow_m3s = p->pump.label_flow_m3s;
	b->pump.count = p->pump.count;
	for (int i = 0; i < w->runs; i++) {
		const struct tarn_pipe_run *r = &w->run[i];
		struct tarn_branch *t = &b->branch[branches];

		if (r->to == TARN_TO_MANIFOLD) {
			b->trunk[trunks++] = pipe_of(r, w->temp_c);
			continue;
		}
		*t = tarn_branch_default();
		b->pipe[branches] = pipe_of(r, w->temp_c);
		t->name = run_names[r->to];
		t->pipes = &b->pipe[branches];
		t->pipe_count = 1;
		t->lift_m = r->to == TARN_TO_POND ? 0 :
			    r->lift_m + p->lip_m - level_m;
		t->valve_k = r->valve_k;
		t->orifice_diameter_m = r->orifice_diameter_m;
		t->orifices = r->orifices;
		b->owner[branches++] = i;
	}
	b->net = (struct tarn_network){ &b->pump, 1, b->trunk, trunks,
					b->branch, branches };
}

static enum tarn_status solve_at(const struct tarn_works *w,
				 const struct tarn_pond *p, double level_m,
				 struct plumbing *b,
				 struct tarn_branch_flow *branches,
				 struct tarn_network_flow *total,
				 struct tarn_error *err)
{
	plumb(w, p, level_m, b);
	return tarn_network_solve(&b->net, branches, total, err);
}

static void note_trunk(const struct tarn_works *w, double flow_m3s,
		       struct tarn_works_flow *out)
{
	for (int i = 0; i < w->runs; i++) {
		struct tarn_pipe pipe = pipe_of(&w->run[i], w->temp_c);
		struct tarn_pipe_flow one;

		pipe.flow_m3s = flow_m3s;
		if (w->run[i].to != TARN_TO_MANIFOLD ||
		    tarn_pipe_solve(&pipe, &one, NULL) != TARN_OK)
			continue;
		out->run[i].flow_m3s = flow_m3s;
		out->run[i].velocity_ms = one.velocity_ms;
		out->run[i].headloss_m = one.headloss_m;
	}
}

/* A branch that gets no water, while others run, is a plan that fails. */
static enum tarn_status check_dry(const struct plumbing *b,
				  const struct tarn_branch_flow *branches,
				  const struct tarn_network_flow *total,
				  struct tarn_error *err)
{
	for (size_t i = 0; i < b->net.branch_count; i++)
		if (branches[i].dry)
			return tarn_fail(err, TARN_EARG, "pipes", "the pump "
					 "cannot lift to the %s: it stands %.3g m "
					 "(%.3g ft) above the running level, and "
					 "with the other pipes open only %.3g m "
					 "(%.3g ft) of head is left", b->branch[i].name,
					 b->branch[i].lift_m,
					 b->branch[i].lift_m / tarn_unit("ft"),
					 total->manifold_m,
					 total->manifold_m / tarn_unit("ft"));
	return TARN_OK;
}

/* A flow that is given must be one that the pumps can have at all. */
static enum tarn_status check_given(const struct tarn_works *w,
				    const struct tarn_pond *p,
				    struct tarn_error *err)
{
	double most = p->pump.label_flow_m3s;

	if (w->curve_points > 0)
		most = w->curve_flow_m3s[w->curve_points - 1];
	most *= p->pump.count;
	if (p->pump.flow_m3s > most)
		return tarn_fail(err, TARN_EARG, "pump.flow", "is beyond the "
				 "curve: %.4g m3/s (%.0f US gal/h) of at most "
				 "%.4g m3/s (%.0f US gal/h) at no lift",
				 p->pump.flow_m3s,
				 p->pump.flow_m3s / tarn_unit("gph"), most,
				 most / tarn_unit("gph"));
	return TARN_OK;
}

static enum tarn_status solve_pump(const struct tarn_works *w,
				   const struct tarn_pond *p,
				   struct tarn_works_flow *out,
				   struct tarn_error *err)
{
	struct plumbing b;
	struct tarn_branch_flow branches[TARN_RUNS_MAX];
	struct tarn_network_flow total;
	enum tarn_status status;
	int branch_runs = 0;

	for (int i = 0; i < w->runs; i++)
		branch_runs += w->run[i].to != TARN_TO_MANIFOLD;
	if (!has_curve(w, p))
		return TARN_OK;
	status = check_given(w, p, err);
	if (status != TARN_OK || branch_runs == 0)
		return status;
	status = solve_at(w, p, tarn_running_level_m(p), &b, branches, &total,
			  err);
	if (status == TARN_OK)
		status = check_dry(&b, branches, &total, err);
	if (status != TARN_OK)
		return status;
	out->solved_m3s = total.flow_m3s;
	out->head_m = total.head_m;
	out->share_of_label = total.share_of_label;
	out->continuity = total.continuity;
	out->energy = total.energy;
	for (size_t i = 0; i < b.net.branch_count; i++)
		out->run[b.owner[i]] = branches[i];
	note_trunk(w, total.flow_m3s, out);
	if (isnan(p->intake_m))
		return TARN_OK;
	status = solve_at(w, p, p->intake_m, &b, branches, &total, err);
	if (status == TARN_OK)
		out->low_m3s = total.flow_m3s;
	return status;
}

/* The branches as they are at another flow of the pump: flow and speed in
 * proportion, losses with the square. */
static void scale_runs(const struct tarn_works *w, double share,
		       struct tarn_works_flow *out)
{
	for (int i = 0; i < w->runs; i++) {
		struct tarn_branch_flow *r = &out->run[i];

		r->flow_m3s *= share;
		r->velocity_ms *= share;
		r->orifice_velocity_ms *= share;
		r->reynolds *= share;
		r->headloss_m *= share * share;
		r->friction_m *= share * share;
		r->minor_m *= share * share;
		r->valve_m *= share * share;
		r->orifice_m *= share * share;
	}
}

/* Flow by where it goes.  A flow that is given is split as the network splits
 * its own, or, without one, over the ends described: all to the bed if there
 * is one. */
static void share_out(const struct tarn_works *w, const struct tarn_pond *p,
		      struct tarn_works_flow *out)
{
	double *to[3] = { &out->bed_m3s, &out->falls_m3s, &out->pond_m3s };

	out->from_curve = isnan(p->pump.flow_m3s) && !isnan(out->solved_m3s);
	out->flow_m3s = out->from_curve ? out->solved_m3s : p->pump.flow_m3s;
	if (isnan(out->flow_m3s))
		return;
	*to[0] = *to[1] = *to[2] = 0;
	if (isnan(out->solved_m3s)) {
		*to[p->bed.area_m2 > 0 ? 0 : 1] = out->flow_m3s;
		return;
	}
	if (!out->from_curve)
		scale_runs(w, out->flow_m3s / out->solved_m3s, out);
	for (int i = 0; i < w->runs; i++)
		if (w->run[i].to != TARN_TO_MANIFOLD)
			*to[w->run[i].to] += out->run[i].flow_m3s;
}

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
		if (r->lift_m < 0 || (r->lift_m <= 0 && has_curve(w, p)))
			return tarn_fail(err, TARN_EARG, "pipes", "number %d "
					 "ends at the %s: its lift above the lip "
					 "must be over 0 m, got %g", i + 1,
					 run_names[r->to], r->lift_m);
		if (r->lift_m > 0)
			lift_m = fmax(lift_m, r->lift_m + p->lip_m -
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

static enum tarn_status solve_falls(const struct tarn_works *w,
				    struct tarn_works_flow *out,
				    struct tarn_error *err)
{
	static const double by_kind[] = { 1.6, 1.705, 1.838 };

	for (int i = 0; i < w->falls; i++) {
		const struct tarn_fall *f = &w->fall[i];
		struct tarn_weir weir = tarn_weir_default();
		enum tarn_status status;

		weir.kind = f->kind == TARN_FALL_SHARP ? TARN_WEIR_RECTANGULAR
						       : TARN_WEIR_LIP;
		weir.width_m = f->width_m;
		weir.coefficient = isnan(f->coefficient) ? by_kind[f->kind]
							 : f->coefficient;
		weir.drop_m = f->drop_m;
		weir.flow_m3s = out->bed_m3s + (f->bed ? 0 : out->falls_m3s);
		if (!(weir.flow_m3s > 0))
			continue;
		status = tarn_weir_solve(&weir, &out->fall[i], err);
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
	out->bed_given = isnan(p->bed.head_m) ?
			 (isnan(out->bed_head_m) ? -1 : 0) : 1;
	out->bed_m3 = out->bed_given < 0 ? 0 : p->bed.area_m2 *
		(out->bed_given ? p->bed.head_m : out->bed_head_m);
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

static void clear_result(struct tarn_works_flow *out)
{
	const struct tarn_branch_flow no_branch = {
		TARN_NAN, TARN_NAN, TARN_NAN, TARN_NAN, TARN_NAN, TARN_NAN,
		TARN_NAN, TARN_NAN, TARN_NAN, 0, TARN_NAN, 0
	};

	memset(out, 0, sizeof *out);
	out->flow_m3s = out->solved_m3s = out->low_m3s = TARN_NAN;
	out->head_m = out->share_of_label = TARN_NAN;
	out->continuity = out->energy = out->bed_head_m = TARN_NAN;
	out->bed_m3s = out->falls_m3s = out->pond_m3s = TARN_NAN;
	out->stream.area_m2 = out->stream.depth_m = TARN_NAN;
	for (int i = 0; i < TARN_RUNS_MAX; i++)
		out->run[i] = no_branch;
	for (int i = 0; i < TARN_FALLS_MAX; i++)
		out->fall[i].flow_m3s = TARN_NAN;
}

enum tarn_status tarn_works_solve(const struct tarn_works *w,
				  const struct tarn_pond *p,
				  struct tarn_works_flow *out,
				  struct tarn_error *err)
{
	struct tarn_works_flow r;
	enum tarn_status status = tarn_works_check(w, p, err);

	clear_result(&r);
	if (status == TARN_OK)
		status = check_drops(w, p, err);
	if (status == TARN_OK)
		status = solve_pump(w, p, &r, err);
	if (status == TARN_OK) {
		share_out(w, p, &r);
		status = solve_falls(w, &r, err);
	}
	if (status == TARN_OK)
		status = solve_stream(p, &r, err);
	if (status != TARN_OK)
		return status;
	sum_transit(w, p, &r);
	*out = r;
	return TARN_OK;
}

void tarn_works_fill(const struct tarn_works_flow *f, struct tarn_pond *p)
{
	if (isnan(p->pump.flow_m3s))
		p->pump.flow_m3s = f->flow_m3s;
	if (f->bed_given == 0)
		p->bed.head_m = f->bed_head_m;
	if (f->stream_given == 0)
		p->stream.volume_m3 = f->stream_m3;
	if (f->drain_given != 1 || f->pools_m3 > 0)
		p->pump.drainback_m3 = f->drain_m3 + f->pools_m3;
}
