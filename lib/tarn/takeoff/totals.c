/* SPDX-License-Identifier: MIT */
/* Totals of a take-off's list: none where a part of it is not known. */
#include <math.h>
#include <stdio.h>

#include "tarn/takeoff/parts.h"

/* Whether an item is a part of a total; 'way' is the one counted for hours. */
static int belongs(const struct tarn_item *i, int of, int way)
{
	switch (of) {
	case TARN_TOTAL_DIG:
		return i->kind == TARN_ITEM_DIG;
	case TARN_TOTAL_LINER:
		return i->kind == TARN_ITEM_LINER;
	case TARN_TOTAL_UNDERLAY:
		return i->kind == TARN_ITEM_UNDERLAY;
	case TARN_TOTAL_HOURS:
		return i->labour && (i->choice == 0 || i->choice == way);
	}
	return i->kind == TARN_ITEM_STONE &&
	       (i->choice == 0 || i->choice == of - TARN_TOTAL_LIGHT + 1);
}

static void refuse(struct tarn_total *total, const struct tarn_item *i)
{
	total->amount = TARN_NAN;
	if (total->unknown[0])
		return;
	snprintf(total->unknown, sizeof total->unknown, "%s: %s", i->name,
		 i->unknown ? i->unknown : "no rate of yours is given for it");
}

/* Whether anything asks for a total: hours, where a rate is given. */
static int asked(const struct tarn_takeoff *t, int of)
{
	if (of == TARN_TOTAL_LAYERS)
		return t->displaced_by == 0;
	for (size_t k = 0; of == TARN_TOTAL_HOURS && k < t->count; k++)
		if (!isnan(t->item[k].hours))
			return 1;
	return of != TARN_TOTAL_HOURS;
}

static struct tarn_total sum(const struct tarn_takeoff *t, int of, int unit)
{
	struct tarn_total total = { .of = of, .unit = unit };
	int way = t->displaced_by == 0 ? 3 : t->displaced_by, parts = 0;

	for (size_t k = 0; asked(t, of) && k < t->count; k++) {
		const struct tarn_item *i = &t->item[k];
		double part = of == TARN_TOTAL_HOURS ? i->hours : i->order;

		if (!belongs(i, of, way))
			continue;
		parts++;
		if (isnan(part))
			refuse(&total, i);
		total.amount += part;
	}
	if (parts == 0)
		total.amount = TARN_NAN;
	return total;
}

void tn_takeoff_totals(struct tarn_takeoff *t)
{
	static const int units[TARN_TOTALS] = {
		[TARN_TOTAL_DIG] = TARN_ITEM_M3,
		[TARN_TOTAL_LINER] = TARN_ITEM_M2,
		[TARN_TOTAL_UNDERLAY] = TARN_ITEM_M2,
		[TARN_TOTAL_LIGHT] = TARN_ITEM_KG,
		[TARN_TOTAL_HEAVY] = TARN_ITEM_KG,
		[TARN_TOTAL_LAYERS] = TARN_ITEM_KG,
		[TARN_TOTAL_HOURS] = TARN_ITEM_H,
	};

	for (int of = 0; of < TARN_TOTALS; of++)
		t->total[of] = sum(t, of, units[of]);
	t->hours = t->total[TARN_TOTAL_HOURS].amount;
}
