/* SPDX-License-Identifier: MIT */
/* How far the level falls in a week by the losses alone, month by month. */
#include <math.h>

#include "forecast_draw.h"
#include "forecast_drops.h"

/* Equal shares of a normal number. */
#define POINTS 100

/* A whole week of the ledger. */
struct week {
	int month;			/* that of its Thursday */
	double evaporated_mm, other_mm;	/* fall by losses that go with ln f,
					   and by all others */
};

static struct week week_of(const struct tarn_ledger_day *days, size_t first)
{
	struct week w = { .month = tarn_date(days[first + 3].day).month };

	for (size_t i = first; i < first + 7; i++) {
		const struct tarn_ledger_day *d = &days[i];
		const struct tarn_flows *f = &d->flows;
		double evaporated_m3 = f->evaporation_m3 + f->stream_m3;

		if (!(d->area_m2 > 0))
			continue;
		if (d->flags & TARN_DAY_RUNNING)
			evaporated_m3 += f->bed_m3;
		w.evaporated_mm += 1e3 * evaporated_m3 / d->area_m2;
		w.other_mm += 1e3 * (f->splash_m3 + f->seepage_m3) / d->area_m2;
	}
	return w;
}

static size_t list_weeks(const struct tarn_ledger *ledger, struct week *list)
{
	size_t count, n = 0;
	const struct tarn_ledger_day *days = tarn_ledger_days(ledger, &count);

	for (size_t at = 0, next; at < count; at = next) {
		struct tarn_period p = tarn_ledger_period(ledger, TARN_BY_WEEK,
							  at, &next);

		if (p.complete)
			list[n++] = week_of(days, at);
	}
	return n;
}

/* The factors on a week's evaporation, each as likely as the others. */
static void make_factors(double factor[POINTS],
			 const struct tarn_exposure_budget *b)
{
	double slow2 = b->slow_sd_ln * b->slow_sd_ln;
	double sd = sqrt(b->centre_sd_ln * b->centre_sd_ln + slow2 +
			 b->day_sd * b->day_sd / 7);

	for (int k = 0; k < POINTS; k++)
		factor[k] = exp(sd * tn_normal_at((k + 0.5) / POINTS) -
				slow2 / 2);
}

static struct tarn_spread spread_of(const struct week *list, size_t count,
				    int month, const double factor[POINTS],
				    double *scratch_mm)
{
	size_t n = 0;

	for (size_t i = 0; i < count; i++)
		for (int k = 0; k < POINTS && list[i].month == month; k++)
			scratch_mm[n++] = list[i].evaporated_mm * factor[k] +
					  list[i].other_mm;
	return tarn_spread(scratch_mm, n);
}

enum tarn_status tn_forecast_drops(struct tarn_spread drop_mm[12],
				   const struct tarn_alloc *alloc,
				   const struct tarn_pond *pond,
				   const struct tarn_forcing *forcing,
				   const struct tarn_run *run,
				   const struct tarn_exposure_budget *budget,
				   struct tarn_error *err)
{
	size_t most = forcing->days / 7 + 1, count;
	struct tarn_ledger *ledger;
	double factor[POINTS];
	struct week *list;
	enum tarn_status status = tarn_ledger_run(&ledger, alloc, pond, forcing,
						  run, err);

	if (status != TARN_OK)
		return status;
	list = tarn_resize(alloc, NULL,
			   most * (sizeof *list + POINTS * sizeof(double)));
	if (list) {
		count = list_weeks(ledger, list);
		make_factors(factor, budget);
		for (int month = 1; month <= 12; month++)
			drop_mm[month - 1] = spread_of(list, count, month,
						       factor,
						       (double *)(list + most));
		tarn_resize(alloc, list, 0);
	} else {
		status = tarn_fail(err, TARN_ENOMEM, "forecast",
				   "out of memory for %zu weeks", most);
	}
	tarn_ledger_free(ledger);
	return status;
}
