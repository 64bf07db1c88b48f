/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/leak/spell.h"

#define DAY_S 86400.0

size_t tn_spell_days(const struct spell *s)
{
	return (size_t)fmax(1, ceil(s->to - s->from - 1e-9));
}

int tn_spell_off(const struct tarn_pond *pond, double moment)
{
	long day = (long)ceil(moment - 1e-9) - 1;

	return !(pond->pump.hours[tarn_date(day).month - 1] > 0);
}

int tn_spell_covered(const struct speller *sp, const struct spell *s)
{
	double first = (double)sp->forcing->first_day;

	return s->from >= first - 1e-9 &&
	       s->to <= first + (double)sp->forcing->days + 1e-9;
}

enum tarn_status tn_spell_begin(struct speller *sp,
				const struct tarn_alloc *alloc,
				const struct tarn_pond *pond,
				const struct tarn_forcing *forcing, size_t days,
				struct tarn_error *err)
{
	*sp = (struct speller){ alloc, pond, forcing, NULL, 0, NULL, days };
	sp->work = tarn_resize(alloc, NULL, 4 * days * sizeof(double));
	if (!sp->work)
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	return TARN_OK;
}

void tn_spell_end(struct speller *sp)
{
	tarn_resize(sp->alloc, sp->work, 0);
}

/* Weather of a ledger day that begins 'share' into day 'at' of the forcing. */
static double mixed(const double *mm, const struct tarn_forcing *f, long at,
		    double share)
{
	double here = at < (long)f->days ? mm[at] : 0;

	if (!(share > 1e-9))
		return here;
	return (1 - share) * here +
	       (at + 1 < (long)f->days ? share * mm[at + 1] : 0);
}

/* Share of a fill that falls into the day from 'start' on. */
static double fill_share(const struct spell_fill *f, double start)
{
	double from = fmax(f->from, start), to = fmin(f->to, start + 1);

	return to > from ? (to - from) / (f->to - f->from) : 0;
}

/*
 * Metered water is given to the ledger as far as it keeps the pond at the
 * level of the first reading; what is left stands "above" it in thought, so
 * that much water never meets the lip of a pond that in truth lost it.
 */
struct orders {
	const double *fill_m3;
	double keep_m3;		/* pond at the first reading */
	double left_m3;		/* metered so far and not given */
	long first_day;
	int stopped, filled;
};

static enum tarn_status order_day(void *context,
				  const struct tarn_day_view *view,
				  struct tarn_day_order *order,
				  struct tarn_error *err)
{
	struct orders *o = context;

	(void)err;
	if (o->stopped)
		order->pump_hours = 0;
	order->topup_m3 = 0;
	if (o->filled) {
		o->left_m3 += o->fill_m3[view->day - o->first_day];
		order->topup_m3 = fmax(0, fmin(o->left_m3, o->keep_m3 -
							   view->pond_m3));
		o->left_m3 -= order->topup_m3;
	}
	order->supply_open = 1;
	return TARN_OK;
}

/* The description with the trial in it, and the supply as it is logged. */
static struct tarn_pond tried(const struct tarn_pond *pond,
			      const struct spell_trial *trial)
{
	struct tarn_pond p = *pond;

	p.seepage.volume_m3s += trial->loss_m3_d / DAY_S;
	p.seepage.per_head_m3s_m += trial->per_head_m3_d_m / DAY_S;
	p.supply.rate_m3s = TARN_NAN;
	p.tank.capacity_m3 = p.tank.start_m3 = 0;
	return p;
}

static void make_weather(const struct speller *sp, const struct spell *s,
			 const struct spell_trial *trial,
			 struct tarn_forcing *out, double *fill_m3)
{
	const struct tarn_forcing *f = sp->forcing;
	size_t n = tn_spell_days(s);
	double whole = floor(s->from + 1e-9), share = fmax(0, s->from - whole);
	double *rain = sp->work, *open = rain + n, *grass = open + n;

	out->first_day = (long)whole;
	out->days = n;
	out->rain_mm = rain;
	out->open_water_mm = open;
	out->grass_mm = grass;
	out->left_out = NULL;
	for (size_t i = 0; i < n; i++) {
		long at = (long)whole - f->first_day + (long)i;

		rain[i] = trial->rain * mixed(f->rain_mm, f, at, share);
		open[i] = trial->evaporation *
			  mixed(f->open_water_mm, f, at, share);
		grass[i] = trial->evaporation *
			   mixed(f->grass_mm, f, at, share);
		fill_m3[i] = 0;
		for (size_t k = 0; k < sp->fill_count; k++)
			fill_m3[i] += sp->fills[k].volume_m3 *
				      fill_share(&sp->fills[k],
						 s->from + (double)i);
	}
}

/* Level at the end of a ledger day, with the metered water that is left. */
static double end_level(const struct tarn_ledger_day *days, size_t n,
			const double *fill_m3)
{
	double left_m3 = 0;

	for (size_t i = 0; i <= n; i++)
		left_m3 += fill_m3[i] - days[i].flows.topup_m3;
	return days[n].level_m + left_m3 / days[n].area_m2;
}

/* Level at a moment: linear within a ledger day. */
static double level_at(const struct tarn_ledger_day *days, size_t count,
		       const double *fill_m3, double start_m, double since)
{
	size_t n = (size_t)fmax(0, floor(since + 1e-9));
	double part = fmax(0, since - (double)n);
	double before;

	if (n >= count)
		return end_level(days, count - 1, fill_m3);
	before = n == 0 ? start_m : end_level(days, n - 1, fill_m3);
	return before + part * (end_level(days, n, fill_m3) - before);
}

static void add_up(const struct speller *sp, const struct spell *s,
		   const struct spell_trial *trial,
		   const struct tarn_ledger_day *days, size_t count,
		   struct spell_sums *sums)
{
	double area = 0;

	(void)sp;
	*sums = (struct spell_sums){ 0 };
	for (size_t i = 0; i < count; i++) {
		double part = fmin(1, s->to - s->from - (double)i);
		const struct tarn_flows *f = &days[i].flows;
		double rain_mm = days[i].rain_mm / trial->rain * part;

		sums->rain_mm += rain_mm;
		sums->rain2_mm2 += rain_mm * rain_mm;
		sums->open_water_mm += days[i].open_water_mm /
				       trial->evaporation * part;
		area += days[i].area_m2 * part;
		sums->rain_m3 += (f->rain_m3 + f->runoff_m3) * part;
		sums->overflow_m3 += f->overflow_m3 * part;
		sums->loss_m3 += (f->evaporation_m3 + f->bed_m3 +
				  f->stream_m3 + f->splash_m3 +
				  f->seepage_m3 + f->withdrawal_m3) * part;
	}
	sums->area_m2 = area / (s->to - s->from);
}

enum tarn_status tn_spell_levels(const struct speller *sp,
				 const struct spell *s,
				 const struct spell_trial *trial,
				 const double *at, size_t count,
				 double *level_m,
				 struct spell_sums *sums,
				 struct tarn_error *err)
{
	struct tarn_pond p = tried(sp->pond, trial);
	struct tarn_run run = tarn_run_default();
	struct tarn_forcing f;
	struct tarn_ledger *ledger;
	const struct tarn_ledger_day *days;
	double *fill_m3 = sp->work + 3 * tn_spell_days(s);
	struct orders orders = { fill_m3, 0, 0, (long)floor(s->from + 1e-9),
				 s->stopped, sp->fill_count > 0 };
	size_t n;
	enum tarn_status status;

	make_weather(sp, s, trial, &f, fill_m3);
	run.start_level_m = fmin(s->level_m, p.overflow_level_m);
	run.start_stopped = s->stopped || tn_spell_off(sp->pond, s->from);
	orders.keep_m3 = tarn_basin_volume(p.basin, run.start_level_m);
	run.control = order_day;
	run.control_context = &orders;
	status = tarn_ledger_run(&ledger, sp->alloc, &p, &f, &run, err);
	if (status != TARN_OK)
		return status;
	days = tarn_ledger_days(ledger, &n);
	for (size_t i = 0; i < count; i++)
		level_m[i] = level_at(days, n, fill_m3, run.start_level_m,
				      at[i] - s->from);
	if (sums)
		add_up(sp, s, trial, days, n, sums);
	tarn_ledger_free(ledger);
	return TARN_OK;
}
