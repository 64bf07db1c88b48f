/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/pond/step.h"

#define DAY_S 86400.0
#define MM 1e-3

static double volume_or(const struct tarn_basin *b, double level_m,
			double otherwise)
{
	return isnan(level_m) ? otherwise : tarn_basin_volume(b, level_m);
}

static void fix(struct step_fixed *out, const struct tarn_pond *p,
		const struct tarn_pond_facts *facts)
{
	double target_m = isnan(p->target_m) ? p->trigger_m : p->target_m;

	out->full_m3 = facts->full_volume_m3;
	out->trigger_m3 = volume_or(p->basin, p->trigger_m, -1);
	out->target_m3 = volume_or(p->basin, target_m, out->full_m3);
	out->intake_m3 = volume_or(p->basin, p->intake_m, -1);
	out->supply_m3 = isnan(p->supply.rate_m3s)
		? STEP_NO_LIMIT : p->supply.rate_m3s * DAY_S;
	out->seepage_m = p->seepage.rate_mm_d * MM;
	out->seepage_m3 = p->seepage.volume_m3s * DAY_S;
	out->head_m3_m = p->seepage.per_head_m3s_m * DAY_S;
	out->bed_m3 = facts->bed_m3;
	out->transit_m3 = facts->transit_m3;
	out->tank_m3 = p->tank.capacity_m3;
	out->flush_mm = p->tank.first_flush_mm;
	out->apron_m3_mm = out->apron_s_mm = 0;
	if (p->apron.area_m2 > 0 && isnan(p->apron.coefficient)) {
		out->apron_m3_mm = p->apron.area_m2 * MM;
		out->apron_s_mm = 25.4 * (1000 / p->apron.curve_number - 10);
	}
}

/* The part of a season that hangs on the pump's hours. */
static void run_pump(const struct step_pond *p, double share,
		     struct step_season *m)
{
	m->share = share;
	m->room_m3 = p->fixed.full_m3 - (share < 1 ? p->fixed.transit_m3 : 0);
	m->stream_m3_mm = p->stream_m2 * MM * share;
	m->splash_m3 = p->pond->splash_m3s * DAY_S * share;
}

static double apron_m2(const struct tarn_apron *a)
{
	return a->area_m2 > 0 && !isnan(a->coefficient)
		? a->area_m2 * a->coefficient : 0;
}

static double open_water_factor(const struct tarn_pond *p)
{
	return isnan(p->open_water_factor) ? 1 : p->open_water_factor;
}

enum tarn_status tn_step_prepare(struct step_pond *out,
				 const struct tarn_pond *p,
				 struct tarn_error *err)
{
	struct tarn_pond_facts facts;
	enum tarn_status status = tarn_pond_facts(p, &facts, err);

	if (status != TARN_OK)
		return status;
	out->pond = p;
	out->collecting_m2 = facts.collecting_m2;
	out->stream_m2 = (facts.wetted_m2 - facts.full_area_m2 -
			  p->bed.area_m2) * facts.stream_factor;
	fix(&out->fixed, p, &facts);
	for (int i = 0; i < 12; i++) {
		struct step_season *m = &out->season[i];

		run_pump(out, p->pump.hours[i] / 24, m);
		m->rain_m3_mm = (facts.collecting_m2 + apron_m2(&p->apron)) *
				MM;
		m->bed_rain_m3_mm = p->bed.area_m2 * MM;
		m->rain_factor = 1;
		m->roof_m3_mm = p->tank.capacity_m3 > 0
			? p->tank.roof_m2 * p->tank.coefficient * MM : 0;
		m->open_m_mm = open_water_factor(p) * MM;
		m->stream_m3_mm *= open_water_factor(p);
		m->plant_m3_mm = p->bed.area_m2 * p->bed.plant_factor[i] * MM;
	}
	return TARN_OK;
}

void tn_step_scale(struct step_pond *p, const double rain[12],
		   const double evaporation[12])
{
	for (int i = 0; i < 12; i++) {
		struct step_season *m = &p->season[i];

		m->rain_factor *= rain[i];
		m->rain_m3_mm *= rain[i];
		m->bed_rain_m3_mm *= rain[i];
		m->open_m_mm *= evaporation[i];
		m->stream_m3_mm *= evaporation[i];
		m->plant_m3_mm *= evaporation[i];
	}
}

static enum tarn_status check_column(const char *name, const double *mm,
				     const struct tarn_forcing *forcing,
				     struct tarn_error *err)
{
	char date[11];

	for (size_t i = 0; i < forcing->days; i++) {
		if ((mm[i] >= 0 && isfinite(mm[i])) ||
		    step_left_out(forcing, i))
			continue;
		tarn_day_text(forcing->first_day + (long)i, date);
		if (isnan(mm[i]))
			return tarn_settled(err, mm == forcing->rain_mm
					    ? TARN_SETTLE_RAIN
					    : TARN_SETTLE_BRIDGE, NULL,
				tarn_fail(err, TARN_EARG, name, "has no value "
					  "on %s: fill the gap first "
					  "(weather:fill)", date));
		return tarn_fail(err, TARN_EARG, name, "must be 0 or more mm, "
				 "got %g on %s", mm[i], date);
	}
	return TARN_OK;
}

enum tarn_status tarn_forcing_check(const struct tarn_forcing *f,
				    struct tarn_error *err)
{
	enum tarn_status status;

	if (f->days == 0 || f->first_day < TARN_DAY_MIN ||
	    f->first_day + (long)f->days - 1 > TARN_DAY_MAX)
		return tarn_fail(err, TARN_EARG, "weather", "must hold one day "
				 "or more between 1800 and 2200");
	status = check_column("rain", f->rain_mm, f, err);
	if (status == TARN_OK)
		status = check_column("open_water", f->open_water_mm, f, err);
	if (status == TARN_OK)
		status = check_column("grass", f->grass_mm, f, err);
	for (size_t i = 0; i < f->days && status == TARN_OK; i++)
		if (!step_left_out(f, i))
			return TARN_OK;
	return status == TARN_OK
		? tarn_fail(err, TARN_EARG, "weather", "has no day that is "
			    "run: all are left out")
		: status;
}

enum tarn_status tn_forcing_whole(const struct tarn_forcing *f,
				  struct tarn_error *err)
{
	enum tarn_status status = tarn_forcing_check(f, err);
	char date[11];

	for (size_t i = 0; i < f->days && status == TARN_OK; i++) {
		if (!step_left_out(f, i))
			continue;
		tarn_day_text(f->first_day + (long)i, date);
		status = tarn_fail(err, TARN_EARG, "weather", "leaves days "
				   "out, the first on %s: give a stretch "
				   "without gaps (years = \"stretch\")", date);
	}
	return status;
}

enum tarn_status tn_step_start(const struct tarn_pond *p,
			       const struct tarn_run *run, double *level_m,
			       struct tarn_error *err)
{
	*level_m = run->start_level_m;
	if (isnan(*level_m))
		*level_m = p->target_m;
	if (isnan(*level_m))
		*level_m = p->trigger_m;
	if (isnan(*level_m))
		*level_m = p->overflow_level_m;
	if (!(*level_m >= tarn_basin_floor(p->basin) &&
	      *level_m <= p->overflow_level_m))
		return tarn_fail(err, TARN_EARG, "start_level", "must lie "
				 "between the floor at %g m and the overflow "
				 "level at %g m, got %g m",
				 tarn_basin_floor(p->basin),
				 p->overflow_level_m, *level_m);
	return TARN_OK;
}

void tn_step_begin(const struct step_pond *p, const struct tarn_run *run,
		   double level_m, struct step_state *s)
{
	s->pond_m3 = tarn_basin_volume(p->pond->basin, level_m);
	s->bed_m3 = p->fixed.bed_m3;
	s->transit_m3 = run->start_stopped ? 0 : p->fixed.transit_m3;
	s->tank_m3 = p->pond->tank.start_m3;
	s->level_m = level_m;
	s->found_m3 = -1;
	s->segment = 0;
}

void tn_step_order(const struct step_pond *p,
		   const struct tarn_forcing *forcing,
		   size_t at, struct step_day *d)
{
	const struct tarn_pond *pond = p->pond;
	long day = forcing->first_day + (long)at;

	d->month = tarn_date(day).month - 1;
	d->sky.rain_mm = forcing->rain_mm[at];
	d->sky.open_water_mm = forcing->open_water_mm[at];
	d->sky.grass_mm = forcing->grass_mm[at];
	d->sky.withdrawal_m3 = 0;
	for (int i = 0; i < pond->withdrawals; i++)
		if (tarn_schedule_on(&pond->withdrawal[i].when, day))
			d->sky.withdrawal_m3 += pond->withdrawal[i].volume_m3;
	d->pump_share = p->season[d->month].share;
	d->topup_m3 = TARN_NAN;
	d->supply_open = tarn_schedule_on(&pond->supply.when, day);
	d->tank_open = pond->tank.capacity_m3 > 0;
}

/* What the pond's losses were, each, of the sum that the day took. */
static void split_losses(const struct step_pond *p, const struct step_season *m,
			 const struct step_sky *w, const struct step_flow *f,
			 double before_m3, double area_m2, double head_m3,
			 struct tarn_flows *out)
{
	double share = 1;

	if (f->wanted_m3 > before_m3) {
		share = before_m3 / f->wanted_m3;
		out->shortfall_m3 = f->wanted_m3 - before_m3;
	}
	out->evaporation_m3 = w->open_water_mm * m->open_m_mm * area_m2 * share;
	out->seepage_m3 = (p->fixed.seepage_m * area_m2 + p->fixed.seepage_m3 +
			   head_m3) * share;
	out->withdrawal_m3 = w->withdrawal_m3 * share;
	if (f->running > 0) {
		out->bed_m3 = w->grass_mm * m->plant_m3_mm * share;
		out->stream_m3 = w->open_water_mm * m->stream_m3_mm * share;
		out->splash_m3 = m->splash_m3 * share;
	} else {
		out->bed_m3 = f->bed_m3;
		out->shortfall_m3 += w->grass_mm * m->plant_m3_mm - f->bed_m3;
	}
}

static unsigned flags_of(const struct step_fixed *p, const struct step_day *d,
			 const struct step_state *s, const struct step_flow *f,
			 const struct tarn_flows *flows)
{
	unsigned flags = 0;

	if (f->running > 0)
		flags |= TARN_DAY_RUNNING;
	else if (d->pump_share > 0)
		flags |= TARN_DAY_STARVED;
	if (s->pond_m3 < p->intake_m3)
		flags |= TARN_DAY_UNDER_INTAKE;
	if (f->tank_m3 + f->topup_m3 > 0)
		flags |= TARN_DAY_TOPPED_UP;
	if (!d->supply_open && f->unmet_m3 > 0)
		flags |= TARN_DAY_REFUSED;
	if (f->overflow_m3 > 0)
		flags |= TARN_DAY_SPILLED;
	if (flows->shortfall_m3 > 0)
		flags |= TARN_DAY_DRY;
	return flags;
}

/* Top-up of the day: by trigger and target, or as a control ordered it. */
static double wish(const struct step_fixed *p, const struct step_day *d,
		   const struct step_state *s)
{
	if (isnan(d->topup_m3))
		return step_wish(p, s);
	return step_least(d->topup_m3, step_most(0, p->full_m3 - s->pond_m3));
}

/* Finds area and level of the pond's volume; on a dry morning they are those
 * of the evening before. */
static void find_level(const struct tarn_basin *b, struct step_state *s)
{
	double m3 = s->pond_m3;

	if (!(m3 < s->found_m3 || m3 > s->found_m3))
		return;
	s->found_m3 = m3;
	s->segment = basin_seek(b, m3, s->segment);
	s->area_m2 = basin_area_in(b, s->segment, m3);
	s->level_m = basin_level_in(b, s->segment, m3, s->area_m2);
}

void tn_step_take(const struct step_pond *p, const struct step_day *d,
		  struct step_state *s, struct tarn_ledger_day *out)
{
	static const struct tarn_flows none;
	const struct tarn_basin *b = p->pond->basin;
	const struct step_season *m = &p->season[d->month];
	struct step_season ordered;
	struct step_sky w = d->sky;
	struct step_flow f = { 0 };
	double runoff_m3 = 0, before_m3, head_m3;

	w.supply_m3 = d->supply_open ? STEP_NO_LIMIT : 0;
	w.tank_m3 = d->tank_open ? STEP_NO_LIMIT : 0;
	w.refused_m3 = d->supply_open ? STEP_NO_LIMIT : 0;
	if (d->pump_share < m->share || d->pump_share > m->share) {
		ordered = *m;
		run_pump(p, d->pump_share, &ordered);
		ordered.stream_m3_mm *= open_water_factor(p->pond);
		m = &ordered;
	}
	if (w.rain_mm > 0)
		runoff_m3 = step_runoff(w.rain_mm, p->fixed.apron_s_mm) *
			    p->fixed.apron_m3_mm;
	step_morning(&p->fixed, m, &w, runoff_m3, 1, 1, s, &f);
	before_m3 = s->pond_m3;
	find_level(b, s);
	out->area_m2 = s->area_m2;
	head_m3 = p->fixed.head_m3_m * (s->level_m - tarn_basin_floor(b));
	step_evening(&p->fixed, m, &w, out->area_m2, head_m3, 1, s, &f);
	step_refill(&p->fixed, &w, wish(&p->fixed, d, s), 1, s, &f);

	out->flows = none;
	split_losses(p, m, &w, &f, before_m3, out->area_m2, head_m3,
		     &out->flows);
	out->flows.rain_m3 = w.rain_mm * p->collecting_m2 * MM;
	out->flows.runoff_m3 = w.rain_mm * apron_m2(&p->pond->apron) * MM +
			       runoff_m3;
	out->flows.overflow_m3 = f.overflow_m3;
	out->flows.roof_m3 = f.roof_m3;
	out->flows.tank_spill_m3 = f.tank_spill_m3;
	out->flows.tank_m3 = f.tank_m3;
	out->flows.topup_m3 = f.topup_m3;
	out->flows.unmet_m3 = f.unmet_m3;
	find_level(b, s);
	out->level_m = s->level_m;
	out->pond_m3 = s->pond_m3;
	out->held_m3 = s->bed_m3 + s->transit_m3;
	out->tank_m3 = s->tank_m3;
	out->flags = flags_of(&p->fixed, d, s, &f, &out->flows);
}
