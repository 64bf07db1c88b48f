/* SPDX-License-Identifier: MIT */
#ifndef BED_WORLD_H
#define BED_WORLD_H

/* A described bed to judge, for the tests of its plan. */

#include <string.h>

#include "bed_rows.h"
#include "tarn/bed_plan.h"

/* Koi: 8 m3, 12 m2, 100 g of feed a day, 2000 gph, 0.9 m of 20 mm stone under
 * 5 cm of dry stone. */
struct world {
	struct tarn_bed_wish wish;
	struct tarn_bed_question q;
	struct tarn_bed_plan plan;
	struct tarn_error err;
	enum tarn_status status;
};

static inline void koi(struct world *w)
{
	w->wish = tarn_bed_wish_default();
	w->wish.feed_kg = 0.1;
	w->wish.cover_m = 0.05;
	w->wish.diameter_m = 0.02;
	w->q = tarn_bed_question_default();
	w->q.wish = &w->wish;
	w->q.fish = 1;
	w->q.depth_m = 0.9;
	w->q.porosity = 0.38;
	w->q.surface_m2 = 12;
	w->q.volume_m3 = 8;
	w->q.pump_m3s = 2000 * tarn_unit("gph");
}

static inline void run(struct world *w)
{
	w->err = (struct tarn_error){ 0 };
	w->status = tarn_bed_plan(&w->q, &w->plan, &w->err);
}

static inline const struct tarn_finding *
found(const struct world *w, int id)
{
	static const struct tarn_finding none = { .id = -1, .verdict = -1 };

	for (int i = 0; i < w->plan.found.count; i++)
		if (w->plan.found.finding[i].id == id)
			return &w->plan.found.finding[i];
	return &none;
}

static inline double wanted(const struct world *w, int of)
{
	for (int i = 0; i < w->plan.demands; i++)
		if (w->plan.demand[i].of == of)
			return w->plan.demand[i].flow_m3s;
	return TARN_NAN;
}

/* The verdict of a check of the bed as it is now. */
static inline int verdict(struct world *w, int id)
{
	run(w);
	cr_expect(w->status == TARN_OK, "%s %s", w->err.field, w->err.text);
	return found(w, id)->verdict;
}

static inline void refused(struct world *w, const char *field)
{
	run(w);
	cr_expect(w->status == TARN_EARG && w->err.code == TARN_EARG);
	cr_expect_str_eq(w->err.field, field, "%s %s", w->err.field,
			 w->err.text);
}

/* Head over the lip: so many m a m3/s, by the context. */
static inline enum tarn_status
head_of(const void *context, double flow_m3s, double *head_m,
	struct tarn_error *err)
{
	(void)err;
	*head_m = *(const double *)context * flow_m3s;
	return TARN_OK;
}

#define HOLDS TARN_VERDICT_HOLDS
#define DOUBT TARN_VERDICT_DOUBT
#define FORBIDS TARN_VERDICT_FORBIDS
#define OVER (1 + 1e-6)
#define UNDER (1 - 1e-6)

#endif
