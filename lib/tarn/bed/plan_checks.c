/* SPDX-License-Identifier: MIT */
/* Every check of a bed, with its limit and where that is from. */
#include "judge.h"
#include "plan.h"

/* The order in which refusals are told. */
static const unsigned refusals[] = {
	TARN_BED_DOES_NOT_FIT, TARN_BED_TARGET_MISSED, TARN_BED_FLOW_SHORT,
	TARN_BED_ANAEROBIC, TARN_BED_HEAD_SHORT, TARN_BED_WATER_ON_GRAVEL,
	TARN_BED_SECTION_OVERLOAD,
};

const unsigned *tarn_bed_refusals(size_t *count)
{
	*count = sizeof refusals / sizeof refusals[0];
	return refusals;
}

#define NO_BASIS (-1)

/*
 * Where the limit of each check is from.  With a basis, it is the row of
 * tarn_limits() that has the value of the sizing; other values are the
 * caller's own.
 */
static const struct {
	const char *unit, *source;
	enum tarn_evidence evidence;
	int basis;
} about[TARN_CHECKS] = {
	[TARN_CHECK_LOADING] = { "m/d", NULL, TARN_EVIDENCE_OURS, NO_BASIS },
	[TARN_CHECK_AREA] = { "m2", "the size rule that asks for most",
			      TARN_EVIDENCE_OURS, NO_BASIS },
	[TARN_CHECK_AMMONIA] = { "mg/L", "treatment.ammonia",
				 TARN_EVIDENCE_OURS, NO_BASIS },
	[TARN_CHECK_OUTLET] = { "mg/L", "treatment.target",
				TARN_EVIDENCE_OURS, NO_BASIS },
	[TARN_CHECK_FLOW] = { "m3/s", "what a perfect bed needs",
			      TARN_EVIDENCE_OURS, NO_BASIS },
	[TARN_CHECK_TURNOVER] = { "m3/s", "demand.turnover",
				  TARN_EVIDENCE_OURS, NO_BASIS },
	[TARN_CHECK_FALLS] = { "m3/s", "demand.fall_width and fall_depth",
			       TARN_EVIDENCE_OURS, NO_BASIS },
	[TARN_CHECK_BREATH] = { "m3/s", "common practice, of the oxygen left",
				TARN_EVIDENCE_PRACTICE, NO_BASIS },
	[TARN_CHECK_OXYGEN] = { "mg/L", "common practice; under 0 forbids",
				TARN_EVIDENCE_PRACTICE, NO_BASIS },
	[TARN_CHECK_BOD] = { "g/m2/d", "own choice", TARN_EVIDENCE_OURS,
			     TARN_LIMIT_AREA_BOD },
	[TARN_CHECK_SOLIDS] = { "g/m2/d", "own choice", TARN_EVIDENCE_OURS,
				TARN_LIMIT_AREA_SOLIDS },
	[TARN_CHECK_SECTION] = { "g/m2/d", "own choice", TARN_EVIDENCE_OURS,
				 TARN_LIMIT_SECTION_BOD },
	[TARN_CHECK_HEAD] = { "m", "bed.available_head or bed.drop",
			      TARN_EVIDENCE_OURS, NO_BASIS },
	[TARN_CHECK_LIP] = { "m", "bed.cover", TARN_EVIDENCE_OURS, NO_BASIS },
	[TARN_CHECK_ROOM] = { "-", "yard", TARN_EVIDENCE_OURS, NO_BASIS },
};

static void cite(struct tarn_finding *f, int basis)
{
	size_t count;
	const struct tarn_limit *limit = tarn_limits(&count);

	for (size_t i = 0; i < count; i++)
		if ((int)limit[i].basis == basis && limit[i].value == f->hi) {
			f->source = limit[i].source;
			f->evidence = (int)limit[i].evidence;
			return;
		}
}

/* Adds a check, if it can be made: 'past' is its verdict, 'guess' whether its
 * value is one. */
static void add_guess(struct tarn_bed_plan *p, enum tarn_bed_check_id id,
		      double value, double lo, double hi,
		      enum tarn_finding_verdict past, int guess)
{
	struct tarn_finding f = {
		.id = (int)id, .code = tn_plan_checks_names[id],
		.value = value, .lo = lo, .hi = hi,
		.verdict = (int)past, .guess = guess,
		.unit = about[id].unit, .source = about[id].source,
		.evidence = (int)about[id].evidence,
	};

	if (isnan(value) || (isnan(lo) && isnan(hi)))
		return;
	if (guess && past == TARN_VERDICT_HOLDS)
		f.verdict = TARN_VERDICT_DOUBT;
	cite(&f, about[id].basis);
	tarn_findings_add(&p->found, &f);
}

static void add(struct tarn_bed_plan *p, enum tarn_bed_check_id id,
		double value, double lo, double hi, enum tarn_finding_verdict past)
{
	add_guess(p, id, value, lo, hi, past, 0);
}

static enum tarn_finding_verdict doubt(int yes)
{
	return yes ? TARN_VERDICT_DOUBT : TARN_VERDICT_HOLDS;
}

static enum tarn_finding_verdict forbid(int yes)
{
	return yes ? TARN_VERDICT_FORBIDS : TARN_VERDICT_HOLDS;
}

/* ---- loading --------------------------------------------------------------- */

/* Against the kind wished, or else the nearest range of ponds' beds. */
static void check_loading(const struct tarn_bed_question *q,
			  struct tarn_bed_plan *p)
{
	const struct tarn_bed_check *bed = &p->sized.bed;
	const struct tarn_loading_range *range =
		tn_bed_nearest_range(bed->loading_m_d);
	size_t count;
	const struct tarn_bed_kind *kind =
		tarn_bed_kinds(&count) + q->wish->kind - 1;
	struct tarn_finding *f = &p->found.finding[0];

	p->loading_of = range->kind;
	p->loading_lo_m_d = range->lo_m_d;
	p->loading_hi_m_d = range->hi_m_d;
	if (q->wish->kind > 0) {
		p->loading_of = kind->meaning;
		p->loading_lo_m_d = kind->lo_m_d;
		p->loading_hi_m_d = kind->hi_m_d;
	}
	add(p, TARN_CHECK_LOADING, bed->loading_m_d, p->loading_lo_m_d,
	    p->loading_hi_m_d, doubt(bed->flags & TARN_BED_LOADING_OUTSIDE));
	f->source = q->wish->kind > 0 ? kind->meaning : range->source;
	f->evidence = (int)(q->wish->kind > 0 ? kind->evidence
						: range->evidence);
}

/* ---- the others ------------------------------------------------------------ */

/* The flow taken against each that is wanted for something.  That for the
 * ammonia is the flow that a perfect bed needs, which is a check of the bed. */
static void check_flows(struct tarn_bed_plan *p)
{
	static const struct {
		int id;
		enum tarn_finding_verdict past;
	} of[TARN_DEMANDS] = {
		[TARN_DEMAND_TURNOVER] = { TARN_CHECK_TURNOVER,
					   TARN_VERDICT_FORBIDS },
		[TARN_DEMAND_FALLS] = { TARN_CHECK_FALLS,
					TARN_VERDICT_FORBIDS },
		[TARN_DEMAND_OXYGEN] = { TARN_CHECK_BREATH,
					 TARN_VERDICT_DOUBT },
		[TARN_DEMAND_AMMONIA] = { -1, TARN_VERDICT_HOLDS },
	};

	for (int i = 0; i < p->demands; i++) {
		const struct tarn_bed_demand *d = &p->demand[i];

		if (of[d->of].id >= 0)
			add(p, (enum tarn_bed_check_id)of[d->of].id,
			    p->flow_m3s, d->flow_m3s, TARN_NAN,
			    d->flow_m3s > p->flow_m3s * ALMOST
				    ? of[d->of].past : TARN_VERDICT_HOLDS);
	}
}

/* A removal rate is known at the loadings at which it was measured alone. */
static void check_treatment(const struct tarn_bed_question *q,
			    struct tarn_bed_plan *p)
{
	const struct tarn_bed_check *bed = &p->sized.bed;
	const struct tarn_bed_wish *w = q->wish;
	const double keep_mgl = tarn_oxygen_default().keep_mgl;
	const int guess = !(bed->extrapolation == 1);
	enum tarn_finding_verdict breath = doubt(bed->flags & TARN_BED_LOW_OXYGEN);

	add_guess(p, TARN_CHECK_AMMONIA, bed->pond_mgl, TARN_NAN,
		  w->ammonia_mgl,
		  forbid(bed->pond_mgl > w->ammonia_mgl * ALMOST), guess);
	add_guess(p, TARN_CHECK_OUTLET, bed->outlet_mgl, TARN_NAN,
		  w->target_mgl,
		  forbid(bed->outlet_mgl > w->target_mgl * ALMOST), guess);
	add(p, TARN_CHECK_FLOW, p->flow_m3s, p->sized.least_flow_m3s,
	    TARN_NAN, forbid(bed->flags & TARN_BED_FLOW_SHORT));
	if (bed->flags & TARN_BED_ANAEROBIC)
		breath = TARN_VERDICT_FORBIDS;
	add(p, TARN_CHECK_OXYGEN, bed->oxygen_out_mgl, keep_mgl, TARN_NAN,
	    breath);
}

static void check_burden(struct tarn_bed_plan *p)
{
	const struct tarn_bed_check *bed = &p->sized.bed;
	const struct tarn_sizing *ask = &p->ask;

	add(p, TARN_CHECK_BOD, bed->bod_g_m2, TARN_NAN, ask->bod_limit,
	    doubt(bed->bod_g_m2 > ask->bod_limit * ALMOST));
	add(p, TARN_CHECK_SOLIDS, bed->solids_g_m2, TARN_NAN,
	    ask->solids_limit,
	    doubt(bed->solids_g_m2 > ask->solids_limit * ALMOST));
	add(p, TARN_CHECK_SECTION, bed->section_bod_g_m2, TARN_NAN,
	    ask->section_limit,
	    forbid(bed->flags & TARN_BED_SECTION_OVERLOAD));
}

static void check_lip(struct tarn_bed_plan *p)
{
	int made = p->found.count;

	add(p, TARN_CHECK_LIP, p->level_clogged_m, TARN_NAN,
	    p->ask.cover_m, forbid(p->sized.bed.flags &
				       TARN_BED_WATER_ON_GRAVEL));
	if (p->found.count > made && p->lip_from < 0)
		p->found.finding[made].source =
			"bed.cover; the lip taken as wide as the bed";
}

static void check_site(struct tarn_bed_plan *p)
{
	const struct tarn_bed_check *bed = &p->sized.bed;
	const double share = fmax(
		fmax(p->length_m, p->width_m) / p->fit.length_m,
		fmin(p->length_m, p->width_m) / p->fit.width_m);

	add(p, TARN_CHECK_HEAD, bed->head_needed_m, TARN_NAN, p->available_head_m,
	    forbid(bed->flags & TARN_BED_HEAD_SHORT));
	check_lip(p);
	add(p, TARN_CHECK_ROOM, share, TARN_NAN, p->yard ? 1 : TARN_NAN,
	    forbid(bed->flags & TARN_BED_DOES_NOT_FIT));
}

/* Of the gravest verdict that there is, the check of least margin. */
static void find_governing(struct tarn_bed_plan *p)
{
	const struct tarn_finding *least = &p->found.finding[0];

	for (int i = 1; i < p->found.count; i++) {
		const struct tarn_finding *f = &p->found.finding[i];

		if (f->verdict > least->verdict ||
		    (f->verdict == least->verdict &&
		     f->margin < least->margin))
			least = f;
	}
	p->governing = least->id;
}

void tn_plan_checks(const struct tarn_bed_question *q, struct tarn_bed_plan *p)
{
	const struct tarn_bed_check *bed = &p->sized.bed;

	check_loading(q, p);
	if (p->sized.governs >= 0)
		add(p, TARN_CHECK_AREA, bed->area_m2, p->sized.needed_m2,
		    TARN_NAN, doubt(bed->flags & TARN_BED_TOO_SMALL));
	check_flows(p);
	check_treatment(q, p);
	check_burden(p);
	check_site(p);
	find_governing(p);
	p->does = tarn_findings_worst(&p->found) < TARN_VERDICT_FORBIDS;
}
