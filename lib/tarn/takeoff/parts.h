/* SPDX-License-Identifier: MIT */
#ifndef TARN_TAKEOFF_PARTS_H
#define TARN_TAKEOFF_PARTS_H

/*
 * Private to the take-off.  Figures come first, then the list of items, then
 * the totals of that list.
 */

#include "tarn/takeoff/profile.h"

/* What is being figured, and what of the bed and the stream there is. */
struct job {
	const struct tarn_build *build;
	const struct tarn_pond *pond;
	const struct tarn_takeoff_bed *bed;
	int has_bed, has_stream;
	double stone_kgm3;	/* of a bed of one stone, dry, in place */
	double bed_deep_m;	/* to the top of its stone; NaN: not known */
	struct tarn_layer_result layer[TARN_LAYERS_MAX];
};

/* bed.c: the bed's liner and its stone. */
enum tarn_status tn_takeoff_bed(struct job *job, struct tarn_takeoff *t,
				struct tarn_error *err);

/* list.c: the items. */
void tn_takeoff_list(const struct job *job, struct tarn_takeoff *t);

/* bed.c: its lines of the list. */
void tn_takeoff_list_bed(const struct job *job, struct tarn_takeoff *t);

/* list.c: a new item, everything but its amount unknown or not asked for. */
struct tarn_item *tn_takeoff_add(struct tarn_takeoff *t, const char *name,
				 int unit, double net, double waste,
				 const char *basis);

/* list.c: rounds a mass to order, and its loads and hours at kg/s. */
void tn_takeoff_deliver(const struct tarn_build *build, double rate,
			struct tarn_item *i);

/* totals.c: of the list. */
void tn_takeoff_totals(struct tarn_takeoff *t);

#endif
