/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "tarn/season.h"

/* A normal week of each month, from the seasons of several methods. */

#define MM_PER_M 1000

static void judge(struct tarn_normal_week *w)
{
	w->look_m = w->drop_high_m + TARN_RULER_M;
	w->act_m = 2 * w->drop_high_m + TARN_RULER_M;
}

static void note_most(struct tarn_normal *n)
{
	n->topup_most_m3 = 0;
	for (int i = 0; i < n->months; i++)
		n->topup_most_m3 = fmax(n->topup_most_m3,
					n->month[i].topup_high_m3);
}

void tarn_normal_begin(struct tarn_normal *out,
		       const struct tarn_season *season)
{
	memset(out, 0, sizeof *out);
	for (int i = 0; i < season->months; i++) {
		const struct tarn_season_month *m = &season->month[i];
		struct tarn_normal_week *w = &out->month[out->months];

		if (m->weeks_drop_mm.count == 0)
			continue;
		w->month = m->month;
		w->weeks = m->weeks_drop_mm.count;
		w->drop_low_m = m->weeks_drop_mm.p10 / MM_PER_M;
		w->drop_m = m->weeks_drop_mm.p50 / MM_PER_M;
		w->drop_high_m = m->weeks_drop_mm.p90 / MM_PER_M;
		w->topup_m3 = m->a_week_m3;
		w->topup_high_m3 = m->weeks_topup_m3.p90;
		judge(w);
		out->months++;
	}
	note_most(out);
}

static void widen(struct tarn_normal_week *w,
		  const struct tarn_season_month *m)
{
	w->drop_low_m = fmin(w->drop_low_m, m->weeks_drop_mm.p10 / MM_PER_M);
	w->drop_high_m = fmax(w->drop_high_m, m->weeks_drop_mm.p90 / MM_PER_M);
	w->topup_high_m3 = fmax(w->topup_high_m3, m->weeks_topup_m3.p90);
	judge(w);
}

void tarn_normal_widen(struct tarn_normal *normal,
		       const struct tarn_season *other)
{
	for (int i = 0; i < normal->months; i++)
		for (int k = 0; k < other->months; k++)
			if (other->month[k].month == normal->month[i].month &&
			    other->month[k].weeks_drop_mm.count > 0)
				widen(&normal->month[i], &other->month[k]);
	note_most(normal);
}
