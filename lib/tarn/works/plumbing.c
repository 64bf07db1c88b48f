/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "tarn/works/plumbing.h"

const char *const tn_works_run_names[] = { "bed", "falls", "pond", "manifold" };

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
	size_t count;
	const struct tarn_constant *fitting = tarn_flow_table(TARN_FITTINGS,
							      &count);
	int exits = 0;

	p.diameter_m = tarn_pipe_run_diameter_m(r);
	p.length_m = r->length_m;
	p.roughness_m = r->roughness_m;
	p.temp_c = temp_c;
	p.kinematic_m2s = tarn_water(temp_c).kinematic_m2s;	/* once */
	p.minor_k = r->minor_k;
	for (int i = 0; i < r->fittings; i++) {
		const struct tarn_constant *kind =
			&fitting[r->fitting[i].kind];

		p.minor_k += kind->value * r->fitting[i].count;
		exits |= strcmp(kind->name, "exit") == 0;
	}
	/* the speed is lost at the mouth, in the air too; a nozzle's own head
	 * holds it already */
	if (!exits && r->to != TARN_TO_MANIFOLD &&
	    isnan(r->orifice_diameter_m))
		p.minor_k += 1;
	return p;
}

int tarn_fitting_find(const char *name)
{
	size_t count;
	const struct tarn_constant *all = tarn_flow_table(TARN_FITTINGS,
							  &count);

	for (size_t i = 0; i < count; i++)
		if (strcmp(all[i].name, name) == 0)
			return (int)i;
	return -1;
}

int tn_works_has_curve(const struct tarn_works *w, const struct tarn_pond *p)
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
		t->name = tn_works_run_names[r->to];
		t->pipes = &b->pipe[branches];
		t->pipe_count = 1;
		t->lift_m = r->to == TARN_TO_POND ? 0 :
			    r->lift_m + p->overflow_level_m - level_m;
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

/* A branch that gets no water, while others run, is a layout that fails. */
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

enum tarn_status tn_works_pump(const struct tarn_works *w,
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
	if (!tn_works_has_curve(w, p))
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

void tn_works_take_flow(const struct tarn_works *w, const struct tarn_pond *p,
			struct tarn_works_flow *out)
{
	out->from_curve = isnan(p->pump.flow_m3s) && !isnan(out->solved_m3s);
	out->flow_m3s = out->from_curve ? out->solved_m3s : p->pump.flow_m3s;
	if (!out->from_curve && !isnan(out->flow_m3s) &&
	    !isnan(out->solved_m3s))
		scale_runs(w, out->flow_m3s / out->solved_m3s, out);
}

void tn_works_share_out(const struct tarn_works *w, const struct tarn_pond *p,
			struct tarn_works_flow *out)
{
	double *to[3] = { &out->bed_m3s, &out->falls_m3s, &out->pond_m3s };

	if (isnan(out->flow_m3s))
		return;
	*to[0] = *to[1] = *to[2] = 0;
	if (isnan(out->solved_m3s)) {
		*to[p->bed.area_m2 > 0 ? 0 : 1] = out->flow_m3s;
		return;
	}
	for (int i = 0; i < w->runs; i++)
		if (w->run[i].to != TARN_TO_MANIFOLD)
			*to[w->run[i].to] += out->run[i].flow_m3s;
}
