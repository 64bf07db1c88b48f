/* SPDX-License-Identifier: MIT */
#ifndef TARN_BED_PLAN_PARTS_H
#define TARN_BED_PLAN_PARTS_H

/*
 * Private to the plan of a bed.  The parts are called in the order below; each
 * fills its own members of the plan from those before it.
 */

#include "tarn/bed_plan.h"

/* Names of the checks, by enum tarn_bed_check_id; then NULL. */
extern const char *const tn_plan_checks_names[];

#define ALMOST (1 + 1e-9)	/* a bed sized for a limit meets it */

/* tn_plan_demand.c: load, demands, the flow taken. */
enum tarn_status tn_plan_demand(const struct tarn_bed_question *q,
				struct tarn_bed_plan *p,
				struct tarn_error *err);

/* plan_lip.c: the lip described; once the bed is sized, its level upstream and
 * the trough that it wants. */
enum tarn_status tn_plan_lip(const struct tarn_bed_question *q,
			     struct tarn_bed_plan *p, struct tarn_error *err);
void tn_plan_level(struct tarn_bed_plan *p);

/* tn_plan_stone.c: the stone under water, its depth; all stone of the bed
 * chosen, where it is of one kind. */
void tn_plan_one_stone(const struct tarn_bed_question *q,
		       struct tarn_bed_plan *p);
enum tarn_status tn_plan_stone(const struct tarn_bed_question *q,
			       struct tarn_bed_plan *p, struct tarn_error *err);

/* tn_plan_ask.c: the room, and the sizing without its area. */
enum tarn_status tn_plan_ask(const struct tarn_bed_question *q,
			     struct tarn_bed_plan *p, struct tarn_error *err);

/* Removal rate of a sizing: the named one (or NULL), then what the wish says
 * itself. */
void tn_plan_rate(struct tarn_sizing *s, const struct tarn_rate *rate,
		  const struct tarn_bed_wish *w);

/* p->ask, with its stone, for an area; NaN: none. */
struct tarn_sizing tn_plan_sizing(const struct tarn_bed_plan *p,
				  double area_m2);

/* Head over the lip at a flow; NaN where nothing says it. */
enum tarn_status tn_plan_head(const struct tarn_bed_question *q,
			      double flow_m3s,
			      double *head_m, struct tarn_error *err);

/* Width along the lip of a bed of an area: so many times the way to the lip,
 * unless the description or the room says otherwise. */
double tn_plan_width(const struct tarn_bed_question *q,
		     const struct tarn_bed_plan *p, double area_m2);

/* plan_grid.c: 'count' evenly spaced values, both ends included; 'middle'
 * times each factor. */
void tn_plan_spread(double out[], double low, double high, int count);
void tn_plan_steps(double out[], double middle, const double factors[],
		   int count);

/* tn_plan_size.c: the bed chosen. */
enum tarn_status tn_plan_size(const struct tarn_bed_question *q,
			      struct tarn_bed_plan *p, struct tarn_error *err);

/* tn_plan_checks.c: every check, and which governs. */
void tn_plan_checks(const struct tarn_bed_question *q, struct tarn_bed_plan *p);

/* plan_words.c: an error of a part in the names of a description. */
enum tarn_status tn_plan_fail(struct tarn_error *from, struct tarn_error *err);

#endif
