/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/pond/flows.h"
#include "tarn/pond/step.h"

#define CLOSURE 1e-9		/* of the water turned over */

struct tarn_ledger {
	const struct tarn_alloc *alloc;
	size_t count;
	double start_level_m, start_store_m3;
	double residual;
	double need_m3;
	struct tarn_ledger_day *days;
};

struct tarn_run tarn_run_default(void)
{
	struct tarn_run run = { 0 };

	run.start_level_m = TARN_NAN;
	return run;
}

void tarn_ledger_free(struct tarn_ledger *ledger)
{
	if (!ledger)
		return;
	tarn_resize(ledger->alloc, ledger->days, 0);
	tarn_resize(ledger->alloc, ledger, 0);
}

static enum tarn_status ask_control(const struct tarn_run *run,
				 const struct tarn_ledger_day *out,
				 const struct step_state *s, int running,
				 struct step_day *d, struct tarn_error *err)
{
	struct tarn_day_view view = {
		out->day, out->rain_mm, out->open_water_mm, out->grass_mm,
		s->level_m, s->pond_m3, s->tank_m3, running, d->supply_open
	};
	struct tarn_day_order order = {
		d->pump_share * 24, d->topup_m3, d->supply_open
	};
	enum tarn_status status = run->control(run->control_context, &view,
					       &order, err);

	if (status != TARN_OK)
		return status;
	if (!(order.pump_hours >= 0 && order.pump_hours <= 24))
		return tarn_fail(err, TARN_EARG, "each_day", "set pump_hours to "
				 "%g: must be 0 to 24", order.pump_hours);
	if (order.topup_m3 < 0 || isinf(order.topup_m3))
		return tarn_fail(err, TARN_EARG, "each_day", "set topup to %g "
				 "m3: must be 0 or more", order.topup_m3);
	d->pump_share = order.pump_hours / 24;
	d->topup_m3 = order.topup_m3;
	d->supply_open = order.supply_open;
	return TARN_OK;
}

/* Notes the residual of an identity, relative to what was there and came. */
static void close_on(struct tarn_ledger *ledger, const struct tarn_flows *f,
		     double before_m3, double after_m3)
{
	double in_m3 = f->rain_m3 + f->runoff_m3 + f->tank_m3 + f->topup_m3;
	double out_m3 = f->evaporation_m3 + f->bed_m3 + f->stream_m3 +
			f->splash_m3 + f->seepage_m3 + f->withdrawal_m3 +
			f->overflow_m3;
	double turned_m3 = before_m3 + in_m3;
	double residual = turned_m3 > 0
		? fabs(turned_m3 - out_m3 - after_m3) / turned_m3
		: fabs(after_m3 + out_m3);

	if (!(residual <= ledger->residual))	/* NaN as well */
		ledger->residual = residual;
}

/* ---- the pond that nothing restricts --------------------------------------- */

/* Runs beside the pond that is asked for, and takes no water of its tank. */
struct twin {
	struct step_pond pond;
	struct step_state state;
	int asked;
	double need_m3;
};

static void make_twin(struct twin *t, const struct step_pond *p,
		      const struct tarn_run *run)
{
	t->asked = p->fixed.tank_m3 > 0 && !run->no_topup;
	t->need_m3 = t->asked ? 0 : TARN_NAN;
	if (!t->asked)
		return;
	t->pond = *p;
	t->pond.fixed.supply_m3 = STEP_NO_LIMIT;
}

/* The day as it was ordered, but for what the supply gives. */
static void take_twin(struct twin *t, const struct step_day *d)
{
	struct step_day open = *d;
	struct tarn_ledger_day out;

	if (!t->asked)
		return;
	open.supply_open = 1;
	open.tank_open = 0;
	tn_step_take(&t->pond, &open, &t->state, &out);
	t->need_m3 += out.flows.topup_m3;
}

/* The first morning, also that after days that are left out. */
static void begin(struct tarn_ledger *ledger, const struct step_pond *p,
		  const struct tarn_run *run, struct step_state *s,
		  struct twin *twin)
{
	tn_step_begin(p, run, ledger->start_level_m, s);
	ledger->start_store_m3 = s->pond_m3 + s->bed_m3 + s->transit_m3;
	if (twin->asked)
		tn_step_begin(&twin->pond, run, ledger->start_level_m,
			      &twin->state);
}

static enum tarn_status run_days(struct tarn_ledger *ledger,
				 const struct step_pond *p,
				 const struct tarn_forcing *forcing,
				 const struct tarn_run *run,
				 struct step_state *s, struct twin *twin,
				 struct tarn_error *err)
{
	int running = 0, begun = 0;
	double store_m3 = 0;

	for (size_t i = 0, n = 0; i < forcing->days; i++) {
		struct tarn_ledger_day *out = &ledger->days[n];
		struct step_day d;
		enum tarn_status status;
		double after_m3;

		if (step_left_out(forcing, i)) {
			begun = 0;
			continue;
		}
		if (!begun) {
			begin(ledger, p, run, s, twin);
			running = !run->start_stopped;
			store_m3 = ledger->start_store_m3;
		}
		begun = 1;
		n++;
		out->day = forcing->first_day + (long)i;
		out->rain_mm = forcing->rain_mm[i];
		out->open_water_mm = forcing->open_water_mm[i];
		out->grass_mm = forcing->grass_mm[i];
		tn_step_order(p, forcing, i, &d);
		if (run->control) {
			status = ask_control(run, out, s, running, &d, err);
			if (status != TARN_OK)
				return status;
		}
		if (run->no_topup) {
			d.topup_m3 = 0;
			d.supply_open = d.tank_open = 0;
		}
		tn_step_take(p, &d, s, out);
		take_twin(twin, &d);
		running = (out->flags & TARN_DAY_RUNNING) != 0;
		after_m3 = out->pond_m3 + out->held_m3;
		close_on(ledger, &out->flows, store_m3, after_m3);
		store_m3 = after_m3;
	}
	return TARN_OK;
}

/* Does the ledger begin on this day, at first or again? */
static int begins(const struct tarn_ledger *l, size_t at)
{
	return at == 0 || l->days[at - 1].day + 1 != l->days[at].day;
}

static double in_store(const struct tarn_ledger_day *d)
{
	return d->pond_m3 + d->held_m3;
}

/* The identity over each stretch of days, from its sums. */
static void close_run(struct tarn_ledger *l)
{
	for (size_t at = 0; at < l->count;) {
		struct tarn_flows sum = { 0 };

		do
			tn_flows_add(&sum, &l->days[at++].flows);
		while (at < l->count && !begins(l, at));
		close_on(l, &sum, l->start_store_m3, in_store(&l->days[at - 1]));
	}
}

static size_t count_days(const struct tarn_forcing *f)
{
	size_t days = 0;

	for (size_t i = 0; i < f->days; i++)
		days += !step_left_out(f, i);
	return days;
}

static struct tarn_ledger *make_ledger(const struct tarn_alloc *alloc,
				       size_t days)
{
	struct tarn_ledger *l = tarn_resize(alloc, NULL, sizeof *l);

	if (!l)
		return NULL;
	l->alloc = alloc;
	l->count = days;
	l->residual = 0;
	l->days = tarn_resize(alloc, NULL, days * sizeof *l->days);
	if (!l->days) {
		tarn_resize(alloc, l, 0);
		return NULL;
	}
	return l;
}

enum tarn_status tarn_ledger_run(struct tarn_ledger **out,
				 const struct tarn_alloc *alloc,
				 const struct tarn_pond *pond,
				 const struct tarn_forcing *forcing,
				 const struct tarn_run *run,
				 struct tarn_error *err)
{
	const struct tarn_run plain = tarn_run_default();
	struct tarn_ledger *ledger;
	struct step_pond p;
	struct step_state s;
	struct twin twin;
	double level_m;
	enum tarn_status status;

	*out = NULL;
	run = run ? run : &plain;
	status = tn_step_prepare(&p, pond, err);
	if (status == TARN_OK)
		status = tarn_forcing_check(forcing, err);
	if (status == TARN_OK)
		status = tn_step_start(pond, run, &level_m, err);
	if (status != TARN_OK)
		return status;
	ledger = make_ledger(alloc, count_days(forcing));
	if (!ledger)
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	ledger->start_level_m = level_m;
	make_twin(&twin, &p, run);
	status = run_days(ledger, &p, forcing, run, &s, &twin, err);
	ledger->need_m3 = twin.need_m3;
	if (status == TARN_OK) {
		close_run(ledger);
		if (!(ledger->residual <= CLOSURE))
			status = tarn_fail(err, TARN_EARG, "ledger", "does not "
					   "close: %g of the water turned over "
					   "is unaccounted for",
					   ledger->residual);
	}
	if (status != TARN_OK) {
		tarn_ledger_free(ledger);
		return status;
	}
	*out = ledger;
	return TARN_OK;
}

const struct tarn_ledger_day *
tarn_ledger_days(const struct tarn_ledger *ledger, size_t *count)
{
	*count = ledger->count;
	return ledger->days;
}

double tarn_ledger_residual(const struct tarn_ledger *ledger)
{
	return ledger->residual;
}

double tarn_ledger_need(const struct tarn_ledger *ledger)
{
	return ledger->need_m3;
}

/* ---- periods ------------------------------------------------------------- */

/* First and last day of the week, month or year around a day. */
static void period_around(enum tarn_period_kind kind, long day, long *first,
			  long *last)
{
	struct tarn_date d = tarn_date(day);

	*first = *last = day;
	switch (kind) {
	case TARN_BY_WEEK:
		*first = day - tarn_week(day).weekday + 1;
		*last = *first + 6;
		break;
	case TARN_BY_MONTH:
		*first = day - d.day + 1;
		*last = *first + tarn_days_in_month(d.year, d.month) - 1;
		break;
	case TARN_BY_YEAR:
		*first = tarn_day(d.year, 1, 1);
		*last = tarn_day(d.year, 12, 31);
		break;
	case TARN_BY_DAY:
	case TARN_BY_RUN:
		break;
	}
}

void tn_flows_add(struct tarn_flows *sum, const struct tarn_flows *f)
{
	sum->rain_m3 += f->rain_m3;
	sum->runoff_m3 += f->runoff_m3;
	sum->tank_m3 += f->tank_m3;
	sum->topup_m3 += f->topup_m3;
	sum->evaporation_m3 += f->evaporation_m3;
	sum->bed_m3 += f->bed_m3;
	sum->stream_m3 += f->stream_m3;
	sum->splash_m3 += f->splash_m3;
	sum->seepage_m3 += f->seepage_m3;
	sum->withdrawal_m3 += f->withdrawal_m3;
	sum->overflow_m3 += f->overflow_m3;
	sum->shortfall_m3 += f->shortfall_m3;
	sum->unmet_m3 = step_most(sum->unmet_m3, f->unmet_m3);
	sum->roof_m3 += f->roof_m3;
	sum->tank_spill_m3 += f->tank_spill_m3;
}

/* A period has the names that all its days have in common. */
static void name_period(struct tarn_period *p, enum tarn_period_kind kind)
{
	struct tarn_date date = tarn_date(p->first_day);
	struct tarn_week week = tarn_week(p->first_day);

	if (kind == TARN_BY_DAY || kind == TARN_BY_WEEK) {
		p->week = week.week;
		p->week_year = week.year;
	}
	if (kind == TARN_BY_RUN || kind == TARN_BY_WEEK)
		return;
	p->year = date.year;
	if (kind != TARN_BY_YEAR)
		p->month = date.month;
}

static void add_day(struct tarn_period *p, const struct tarn_ledger_day *d)
{
	const struct tarn_flows *f = &d->flows;

	tn_flows_add(&p->flows, f);
	p->rain_mm += d->rain_mm;
	p->open_water_mm += d->open_water_mm;
	p->grass_mm += d->grass_mm;
	if (d->area_m2 > 0)
		p->drop_mm += 1e3 / d->area_m2 *
			      (f->evaporation_m3 + f->stream_m3 + f->splash_m3 +
			       f->seepage_m3 +
			       (d->flags & TARN_DAY_RUNNING ? f->bed_m3 : 0));
	if (d->level_m < p->lowest_level_m) {
		p->lowest_level_m = d->level_m;
		p->lowest_day = d->day;
	}
	p->days++;
	p->running += (d->flags & TARN_DAY_RUNNING) != 0;
	p->starved += (d->flags & TARN_DAY_STARVED) != 0;
	p->under_intake += (d->flags & TARN_DAY_UNDER_INTAKE) != 0;
	p->topped_up += (d->flags & TARN_DAY_TOPPED_UP) != 0;
	p->refused += (d->flags & TARN_DAY_REFUSED) != 0;
	p->spilled += (d->flags & TARN_DAY_SPILLED) != 0;
	p->dry += (d->flags & TARN_DAY_DRY) != 0;
}

/* What has no days. */
static struct tarn_period no_period(void)
{
	return (struct tarn_period){
		.first_day = TARN_NO_DAY, .last_day = TARN_NO_DAY,
		.lowest_day = TARN_NO_DAY, .start_level_m = TARN_NAN,
		.end_level_m = TARN_NAN, .lowest_level_m = TARN_NAN,
		.start_store_m3 = TARN_NAN, .end_store_m3 = TARN_NAN,
		.end_tank_m3 = TARN_NAN
	};
}

struct tarn_period tarn_ledger_period(const struct tarn_ledger *l,
				      enum tarn_period_kind kind, size_t at,
				      size_t *next)
{
	struct tarn_period p = { 0 };
	const struct tarn_ledger_day *before, *d;
	long first, last;

	*next = l->count;
	if ((unsigned)kind > TARN_BY_RUN || at >= l->count)
		return no_period();
	before = begins(l, at) ? NULL : &l->days[at - 1];
	period_around(kind, l->days[at].day, &first, &last);
	if (kind == TARN_BY_RUN)
		last = l->days[l->count - 1].day;
	p.first_day = l->days[at].day;
	name_period(&p, kind);
	p.start_level_m = before ? before->level_m : l->start_level_m;
	p.start_store_m3 = before ? in_store(before) : l->start_store_m3;
	p.lowest_level_m = p.start_level_m;
	p.lowest_day = TARN_NO_DAY;
	do {
		if (p.days > 0 && begins(l, at))
			p.again_m3 += l->start_store_m3 -
				      in_store(&l->days[at - 1]);
		add_day(&p, &l->days[at++]);
	} while (at < l->count && l->days[at].day <= last);
	d = &l->days[at - 1];
	p.last_day = d->day;
	p.complete = p.first_day == first && p.days == last - first + 1;
	p.end_level_m = d->level_m;
	p.end_store_m3 = in_store(d);
	p.end_tank_m3 = d->tank_m3;
	*next = at;
	return p;
}
