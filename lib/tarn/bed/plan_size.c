/* SPDX-License-Identifier: MIT */
/* The bed chosen: as described, or as large as its rules ask for. */
#include <stdio.h>
#include <string.h>

#include "plan.h"

#define SAME (1 + 1e-6)		/* sides that fit to a micrometre a metre */
#define TRIES_AREA 20
#define TRIES_DEPTH 4
#define TRIES_FLOW 6

/* Whether the described bed lies in the room, its sides, not its area alone:
 * 1, 0, or -1 where its sides or the room are not known. */
static int lies_in_room(const struct tarn_bed_question *q,
			const struct tarn_bed_plan *p)
{
	const struct tarn_bed_wish *w = q->wish;

	if (!p->yard || isnan(w->length_m) || isnan(w->width_m))
		return -1;
	return fmax(w->length_m, w->width_m) <= p->fit.length_m * SAME &&
	       fmin(w->length_m, w->width_m) <= p->fit.width_m * SAME;
}

static enum tarn_status described(const struct tarn_bed_question *q,
				  struct tarn_bed_plan *p,
				  struct tarn_error *err)
{
	struct tarn_sizing s = tn_plan_sizing(p, q->bed_m2);
	int lies = lies_in_room(q, p);
	enum tarn_status st;

	p->chosen = TARN_CHOSEN_DESCRIBED;
	s.width_m = q->wish->width_m;
	if (lies >= 0)
		s.length_m = q->wish->length_m;
	st = tarn_sizing(&s, &p->sized, err);
	if (st == TARN_OK && lies == 0)
		p->sized.bed.flags |= TARN_BED_DOES_NOT_FIT;
	return st;
}

/* ---- no size that does ---------------------------------------------------- */

#define OTHERS "; and others"

/* Sentence of a flag. */
static const char *reason(unsigned flag)
{
	size_t count;

	tarn_bed_flags(&count);
	for (size_t i = 0; i < count; i++)
		if (tarn_bed_flags(&count)[i].bit == flag)
			return tarn_bed_flags(&count)[i].text;
	return "";
}

/* Reasons of the flags with "; " between, as many as there is room for. */
static void list_reasons(unsigned flags, char to[], size_t size)
{
	size_t count, at = 0;
	const unsigned *order = tarn_bed_refusals(&count);

	for (size_t i = 0; i < count; i++) {
		const char *text = reason(order[i]);

		if (!(flags & order[i]))
			continue;
		if (at + strlen(text) + 2 + sizeof OTHERS > size) {
			snprintf(to + at, size - at, OTHERS);
			return;
		}
		at += (size_t)snprintf(to + at, size - at, "%s%s",
				       at ? "; " : "", text);
	}
}

/* The flags of all beds of an area at other depths and flows; 0 if one of them
 * is feasible. */
static enum tarn_status try_area(const struct tarn_bed_question *q,
				 const struct tarn_bed_plan *p,
				 double area_m2, unsigned *why,
				 struct tarn_error *err)
{
	static const double depths[TRIES_DEPTH] = { 0.5, 0.75, 1, 1.5 };
	static const double flows[TRIES_FLOW] = { 0.25, 0.5, 1, 1.5, 2, 4 };
	struct tarn_bed_axes axes = { .areas = 1, .depths = TRIES_DEPTH,
				      .flows = TRIES_FLOW,
				      .area_m2 = { area_m2 } };
	struct tarn_bed_check cells[TRIES_DEPTH * TRIES_FLOW];
	enum tarn_status st;

	tn_plan_steps(axes.depth_m, p->depth_m, depths, TRIES_DEPTH);
	tn_plan_steps(axes.flow_m3s, p->flow_m3s, flows, TRIES_FLOW);
	st = tarn_bed_cells(q, p, &axes, cells, err);
	*why = 0;
	for (int i = 0; st == TARN_OK && i < TRIES_DEPTH * TRIES_FLOW; i++) {
		unsigned flags = cells[i].flags & TARN_BED_REFUSALS;

		*why = flags ? *why | flags : 0;
		if (!flags)
			break;
	}
	return st;
}

/* Without an area to judge, some bed that fits must be feasible. */
static enum tarn_status check_feasible(const struct tarn_bed_question *q,
				       const struct tarn_bed_plan *p,
				       double most_m2, struct tarn_error *err)
{
	double area_m2[TRIES_AREA];
	unsigned all = 0, why = 0;
	char reasons[160];

	tn_plan_spread(area_m2, most_m2 / TRIES_AREA, most_m2, TRIES_AREA);
	for (int i = 0; i < TRIES_AREA; i++) {
		enum tarn_status st = try_area(q, p, area_m2[i], &why, err);

		if (st != TARN_OK || !why)
			return st;
		all |= why;
	}
	list_reasons(all, reasons, sizeof reasons);
	return tarn_fail(err, TARN_EARG, "bed", "has no feasible size among "
			 "%d up to %.3g m2%s: %s",
			 TRIES_AREA * TRIES_DEPTH * TRIES_FLOW, most_m2,
			 p->yard ? " (all that the yard holds)" : "", reasons);
}

/* The bed that all size rules ask for, or the largest that fits. */
static enum tarn_status choose(const struct tarn_bed_question *q,
			       struct tarn_bed_plan *p,
			       struct tarn_error *err)
{
	static const double ratios[] = { 2, 3, 4, 6 };
	struct tarn_sizing s = tn_plan_sizing(p, TARN_NAN);
	enum tarn_status st = tarn_sizing(&s, &p->sized, err);
	double needed_m2, most_m2;

	if (st != TARN_OK)
		return st;
	needed_m2 = p->sized.needed_m2;
	most_m2 = p->yard ? p->fit.area_m2 : 4 * needed_m2;
	s.area_m2 = fmin(needed_m2, most_m2);
	p->chosen = s.area_m2 < needed_m2 ? TARN_CHOSEN_FITS
					  : TARN_CHOSEN_NEEDED;
	for (size_t i = 0; i < sizeof ratios / sizeof ratios[0]; i++) {
		/* a short way to the lip keeps the gravel dry */
		p->ratio = ratios[i];
		s.width_m = tn_plan_width(q, p, s.area_m2);
		st = tarn_sizing(&s, &p->sized, err);
		if (st != TARN_OK)
			return st;
		if (!(p->sized.bed.flags & TARN_BED_WATER_ON_GRAVEL))
			break;
	}
	if (p->sized.bed.flags & TARN_BED_REFUSALS)
		return check_feasible(q, p, most_m2, err);
	return TARN_OK;
}

/* What becomes of the load in the pond. */
static void settle(const struct tarn_bed_question *q, struct tarn_bed_plan *p)
{
	const struct tarn_bed_check *bed = &p->sized.bed;

	p->half_d = log(2) / bed->pond_per_day;
	p->settled_d = 3 / bed->pond_per_day;
	p->unionised_share = tarn_unionised(q->wish->ph, q->wish->temp_c);
	p->unionised_mgl = bed->pond_mgl * p->unionised_share;
	p->nitrate_mgl_d = p->waste.ammonia_g / q->volume_m3;
	p->phosphorus_mgl_d = p->waste.phosphorus_g / q->volume_m3;
}

enum tarn_status tn_plan_size(const struct tarn_bed_question *q,
			      struct tarn_bed_plan *p, struct tarn_error *err)
{
	const struct tarn_bed_wish *w = q->wish;
	enum tarn_status st;

	p->ratio = 2;
	p->length_m = p->width_m = TARN_NAN;
	st = q->bed_m2 > 0 ? described(q, p, err) : choose(q, p, err);
	if (st != TARN_OK)
		return st;
	p->length_m = isnan(w->length_m) ? p->sized.bed.length_m
					 : w->length_m;
	p->width_m = isnan(w->width_m) ? p->sized.bed.width_m : w->width_m;
	settle(q, p);
	return TARN_OK;
}
