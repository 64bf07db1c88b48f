/* SPDX-License-Identifier: MIT */
/* Levels, storm and intake against their limits. */
#include <stdio.h>

#include "tarn/works.h"

static const struct {
	const char *code, *path, *unit, *source;
} kinds[TARN_WORKS_CHECKS] = {
	[TARN_WORKS_STOP] = { "stop", "target", "m3", "the overflow's lip" },
	[TARN_WORKS_START] = { "start", "intake", "m", "intake" },
	[TARN_WORKS_STORM] = { "storm", "overflow", "m", "the basin's edge" },
	[TARN_WORKS_OPENINGS] = { "openings", "overflow", "m3/s",
				  "the openings, under any head" },
	[TARN_WORKS_INTAKE] = { "intake", "bay.velocity_limit", "m/s",
				"bay.velocity_limit" },
	[TARN_WORKS_SUCTION] = { "suction", "bay.suction", "m",
				 "ANSI/HI 9.8 (1998), section 9.8.7, as "
				 "quoted" },
	[TARN_WORKS_MOUTH] = { "mouth", "bay.pump_minimum", "m",
			       "ANSI/HI 9.8 (1998), section 9.8.7, as "
			       "quoted" },
};

static void add(struct tarn_findings *list, enum tarn_works_check_id id,
		double value, double lo, double hi, enum tarn_finding_verdict verdict)
{
	struct tarn_finding f = {
		.id = (int)id, .code = kinds[id].code, .value = value,
		.lo = lo, .hi = hi, .verdict = (int)verdict,
		.unit = kinds[id].unit, .source = kinds[id].source,
		.evidence = id >= TARN_WORKS_SUCTION
				    ? TARN_EVIDENCE_SECOND_HAND
				    : TARN_EVIDENCE_OURS,
	};

	snprintf(f.path, sizeof f.path, "%s", kinds[id].path);
	tarn_findings_add(list, &f);
}

static enum tarn_finding_verdict forbid(int yes)
{
	return yes ? TARN_VERDICT_FORBIDS : TARN_VERDICT_HOLDS;
}

/* ---- levels ---------------------------------------------------------------- */

static enum tarn_status judge_levels(const struct tarn_works *w,
				     const struct tarn_pond *p,
				     struct tarn_findings *list,
				     struct tarn_error *err)
{
	struct tarn_chart c;
	enum tarn_status status = tarn_chart_make(p, w, TARN_NAN, &c, err);

	if (status != TARN_OK)
		return status;
	add(list, TARN_WORKS_STOP, c.spill_m3, TARN_NAN, 0, forbid(c.spills));
	for (size_t i = 0; i < c.count && !isnan(p->intake_m); i++)
		if (c.level[i].name == TARN_LEVEL_START)
			add(list, TARN_WORKS_START, c.level[i].level_m,
			    p->intake_m, TARN_NAN,
			    forbid(c.start_bares_intake));
	return TARN_OK;
}

/* ---- storm ----------------------------------------------------------------- */

static enum tarn_status judge_storm(const struct tarn_works *w,
				    const struct tarn_pond *p,
				    struct tarn_findings *list,
				    struct tarn_error *err)
{
	struct tarn_storm_flow s;
	enum tarn_status status;

	if (!tarn_storm_described(w))
		return TARN_OK;
	status = tarn_storm_solve(w, p, &s, err);
	if (status != TARN_OK)
		return status;
	add(list, TARN_WORKS_STORM, s.edge_left_m, 0, TARN_NAN,
	    forbid(s.edge_left_m < 0));
	if (isnan(s.clogged_head_m))
		add(list, TARN_WORKS_OPENINGS, s.peak_m3s, TARN_NAN, TARN_NAN,
		    TARN_VERDICT_DOUBT);
	return TARN_OK;
}

/* ---- intake ---------------------------------------------------------------- */

int tarn_works_intake(const struct tarn_works *w, const struct tarn_pond *p,
		      double flow_m3s, struct tarn_intake_flow *out,
		      struct tarn_error *err)
{
	const struct tarn_bay *bay = &w->bay;
	struct tarn_intake in = tarn_intake_default();

	if (isnan(bay->sill_m) || isnan(p->intake_m) || !(flow_m3s > 0) ||
	    (isnan(bay->width_m) && isnan(bay->velocity_limit_ms)))
		return 0;
	in.flow_m3s = flow_m3s;
	in.width_m = bay->width_m;
	in.depth_low_m = p->intake_m - bay->sill_m;
	in.depth_high_m = tarn_running_level_m(p) - bay->sill_m;
	in.open_share = bay->open_share;
	in.velocity_limit_ms = bay->velocity_limit_ms;
	in.suction_diameter_m = bay->suction_m;
	return tarn_intake_solve(&in, out, err) == TARN_OK;
}

/* Where the suction's mouth lies is not described: on the floor at the lowest,
 * and with its upper rim at the level under which the pump runs dry at the
 * highest. */
static void judge_suction(const struct tarn_bay *bay, double low_m,
			  double cover_m, struct tarn_findings *list)
{
	double most_m = low_m - bay->pump_minimum_m;

	if (isnan(cover_m))
		return;
	if (low_m < cover_m || isnan(most_m))
		add(list, TARN_WORKS_SUCTION, low_m, cover_m, TARN_NAN,
		    forbid(low_m < cover_m));
	else
		add(list, TARN_WORKS_MOUTH, most_m, cover_m, TARN_NAN,
		    most_m < cover_m ? TARN_VERDICT_DOUBT
				     : TARN_VERDICT_HOLDS);
}

static enum tarn_status judge_intake(const struct tarn_works *w,
				     const struct tarn_pond *p,
				     double flow_m3s,
				     struct tarn_findings *list,
				     struct tarn_error *err)
{
	struct tarn_error why = { 0 };
	struct tarn_intake_flow in;
	double cover_m = tarn_submergence_m(flow_m3s, w->bay.suction_m);
	double low_m = isnan(p->intake_m) ? tarn_running_level_m(p)
					  : p->intake_m;

	if (tarn_works_intake(w, p, flow_m3s, &in, &why) &&
	    !isnan(w->bay.velocity_limit_ms))
		add(list, TARN_WORKS_INTAKE, in.velocity_low_ms, TARN_NAN,
		    w->bay.velocity_limit_ms, forbid(in.over_limit));
	if (why.code != TARN_OK && err && err->code == TARN_OK)
		*err = why;
	judge_suction(&w->bay, low_m, cover_m, list);
	return why.code;
}

enum tarn_status tarn_works_judge(const struct tarn_works *w,
				  const struct tarn_pond *p,
				  const struct tarn_works_flow *flow,
				  struct tarn_findings *list,
				  struct tarn_error *err)
{
	enum tarn_status status = judge_levels(w, p, list, err);

	if (status == TARN_OK)
		status = judge_storm(w, p, list, err);
	if (status == TARN_OK)
		status = judge_intake(w, p, flow->flow_m3s, list, err);
	return status;
}
