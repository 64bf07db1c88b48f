/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/pond/step.h"

#define DAY_S 86400.0
#define MM 1e-3

static double least(double a, double b)
{
	return a < b ? a : b;
}

static double most(double a, double b)
{
	return a > b ? a : b;
}

void step_prepare(struct step_pond *out, const struct tarn_pond *p)
{
	struct tarn_pond_facts f;
	double target_m = isnan(p->target_m) ? p->trigger_m : p->target_m;

	tarn_pond_facts(p, &f, NULL);
	out->pond = p;
	out->basin = p->basin;
	out->lip_m3 = f.lip_volume_m3;
	out->trigger_m3 = -1;
	out->target_m3 = f.lip_volume_m3;
	if (!isnan(p->trigger_m)) {
		out->trigger_m3 = tarn_basin_volume(p->basin, p->trigger_m);
		out->target_m3 = tarn_basin_volume(p->basin, target_m);
	}
	out->floor_m = tarn_basin_floor(p->basin);
	out->intake_m = isnan(p->intake_m) ? -1 : p->intake_m;
	out->collecting_m2 = f.collecting_m2;
	out->bed_m2 = p->bed.area_m2;
	out->bed_m3 = f.bed_m3;
	out->transit_m3 = f.transit_m3;
	out->stream_m2 = (f.wetted_m2 - f.lip_area_m2 - p->bed.area_m2) *
			 p->stream.factor;
	out->splash_m3d = p->splash_m3s * DAY_S;
	out->seepage_m3d = p->seepage.volume_m3s * DAY_S;
	out->supply_m3d = isnan(p->supply.rate_m3s)
		? HUGE_VAL : p->supply.rate_m3s * DAY_S;
}

void step_begin(const struct step_pond *p, const struct tarn_run *run,
		double level_m, struct step_state *s)
{
	s->pond_m3 = tarn_basin_volume(p->basin, level_m);
	s->bed_m3 = p->bed_m3;
	s->transit_m3 = run->start_stopped ? 0 : p->transit_m3;
	s->tank_m3 = p->pond->tank.start_m3;
	s->level_m = level_m;
	s->segment = basin_seek(p->basin, s->pond_m3, 0);
}

static double runoff_of(const struct tarn_apron *apron, double rain_mm)
{
	if (!(apron->area_m2 > 0))
		return 0;
	if (!isnan(apron->coefficient))
		return apron->coefficient * rain_mm;
	return tarn_runoff(rain_mm, apron->curve_number);
}

void step_order(const struct step_pond *p, const struct tarn_forcing *forcing,
		size_t at, struct step_day *d)
{
	const struct tarn_pond *pond = p->pond;
	long day = forcing->first_day + (long)at;
	int month = tarn_date(day).month - 1;

	d->rain_mm = forcing->rain_mm[at];
	d->runoff_mm = runoff_of(&pond->apron, d->rain_mm);
	d->open_water_mm = forcing->open_water_mm[at] * pond->open_water_factor;
	d->bed_mm = forcing->grass_mm[at] * pond->bed.plant_factor[month];
	d->pump_share = pond->pump.hours[month] / 24;
	d->topup_m3 = TARN_NAN;
	d->supply_open = tarn_schedule_on(&pond->supply.when, day);
	d->tank_open = pond->tank.capacity_m3 > 0;
	d->withdrawal_m3 = 0;
	for (int i = 0; i < pond->withdrawals; i++)
		if (tarn_schedule_on(&pond->withdrawal[i].when, day))
			d->withdrawal_m3 += pond->withdrawal[i].volume_m3;
}

/* Starts or stops the pump: fills bed and transit, or lets the water back. */
static int switch_pump(const struct step_pond *p, const struct step_day *d,
		       struct step_state *s, unsigned *flags)
{
	double need_m3 = p->bed_m3 - s->bed_m3 + p->transit_m3 - s->transit_m3;

	if (d->pump_share > 0 && need_m3 <= s->pond_m3) {
		s->pond_m3 -= need_m3;
		s->bed_m3 = p->bed_m3;
		s->transit_m3 = p->transit_m3;
		*flags |= TARN_DAY_RUNNING;
		return 1;
	}
	if (d->pump_share > 0)
		*flags |= TARN_DAY_STARVED;
	s->pond_m3 += s->transit_m3;
	s->transit_m3 = 0;
	return 0;
}

static void take_rain(const struct step_pond *p, const struct step_day *d,
		      struct step_state *s, struct tarn_flows *f)
{
	const struct tarn_rain_tank *tank = &p->pond->tank;
	double bed_m3 = least(d->rain_mm * MM * p->bed_m2,
			      p->bed_m3 - s->bed_m3);

	f->rain_m3 = d->rain_mm * MM * p->collecting_m2;
	f->runoff_m3 = d->runoff_mm * MM * p->pond->apron.area_m2;
	s->bed_m3 += bed_m3;
	s->pond_m3 += f->rain_m3 - bed_m3 + f->runoff_m3;
	if (tank->capacity_m3 > 0) {
		f->roof_m3 = most(0, d->rain_mm - tank->first_flush_mm) * MM *
			     tank->coefficient * tank->roof_m2;
		f->tank_spill_m3 = most(0, s->tank_m3 + f->roof_m3 -
					   tank->capacity_m3);
		s->tank_m3 += f->roof_m3 - f->tank_spill_m3;
	}
}

/* The lip also has to hold what comes back when the pump stops that day. */
static void let_over(const struct step_pond *p, const struct step_day *d,
		     struct step_state *s, struct tarn_flows *f)
{
	double back_m3 = d->pump_share < 1 ? s->transit_m3 : 0;

	f->overflow_m3 = most(0, s->pond_m3 + back_m3 - p->lip_m3);
	s->pond_m3 -= f->overflow_m3;
}

static void lose(const struct step_pond *p, const struct step_day *d,
		 struct step_state *s, int running, double area_m2,
		 struct tarn_flows *f)
{
	const struct tarn_seepage *seepage = &p->pond->seepage;
	double bed_m3 = d->bed_mm * MM * p->bed_m2;
	double level_m = basin_level_in(p->basin, s->segment, s->pond_m3,
					area_m2);
	double wanted_m3, share = 1;

	f->evaporation_m3 = d->open_water_mm * MM * area_m2;
	f->seepage_m3 = p->seepage_m3d + seepage->rate_mm_d * MM * area_m2 +
			seepage->per_head_m3s_m * DAY_S *
			(level_m - p->floor_m);
	f->withdrawal_m3 = d->withdrawal_m3;
	if (running) {
		f->bed_m3 = bed_m3;
		f->stream_m3 = d->open_water_mm * MM * p->stream_m2 *
			       d->pump_share;
		f->splash_m3 = p->splash_m3d * d->pump_share;
	}
	wanted_m3 = f->evaporation_m3 + f->seepage_m3 + f->withdrawal_m3 +
		    f->bed_m3 + f->stream_m3 + f->splash_m3;
	if (wanted_m3 > s->pond_m3) {
		share = s->pond_m3 / wanted_m3;
		f->shortfall_m3 = wanted_m3 - s->pond_m3;
		f->evaporation_m3 *= share;
		f->seepage_m3 *= share;
		f->withdrawal_m3 *= share;
		f->bed_m3 *= share;
		f->stream_m3 *= share;
		f->splash_m3 *= share;
	}
	s->pond_m3 = most(0, s->pond_m3 - wanted_m3 * share);
	if (!running) {
		f->bed_m3 = least(bed_m3, s->bed_m3);
		f->shortfall_m3 += bed_m3 - f->bed_m3;
		s->bed_m3 -= f->bed_m3;
	}
}

static double wanted_topup(const struct step_pond *p, const struct step_day *d,
			   const struct step_state *s)
{
	if (!isnan(d->topup_m3))
		return least(d->topup_m3, most(0, p->lip_m3 - s->pond_m3));
	if (s->pond_m3 < p->trigger_m3)
		return p->target_m3 - s->pond_m3;
	return 0;
}

static void top_up(const struct step_pond *p, const struct step_day *d,
		   struct step_state *s, struct tarn_flows *f, unsigned *flags)
{
	double want_m3 = wanted_topup(p, d, s);

	if (!(want_m3 > 0))
		return;
	if (d->tank_open)
		f->tank_m3 = least(want_m3, s->tank_m3);
	if (d->supply_open)
		f->topup_m3 = least(want_m3 - f->tank_m3, p->supply_m3d);
	f->unmet_m3 = want_m3 - f->tank_m3 - f->topup_m3;
	s->tank_m3 -= f->tank_m3;
	s->pond_m3 += f->tank_m3 + f->topup_m3;
	if (f->tank_m3 + f->topup_m3 > 0)
		*flags |= TARN_DAY_TOPPED_UP;
	if (!d->supply_open && f->unmet_m3 > 0)
		*flags |= TARN_DAY_REFUSED;
}

void step_take(const struct step_pond *p, const struct step_day *d,
	       struct step_state *s, struct tarn_ledger_day *out)
{
	static const struct tarn_flows none;
	struct tarn_flows *f = &out->flows;
	int running;

	*f = none;
	out->flags = 0;
	running = switch_pump(p, d, s, &out->flags);
	take_rain(p, d, s, f);
	let_over(p, d, s, f);
	s->segment = basin_seek(p->basin, s->pond_m3, s->segment);
	out->area_m2 = basin_area_in(p->basin, s->segment, s->pond_m3);
	lose(p, d, s, running, out->area_m2, f);
	top_up(p, d, s, f, &out->flags);

	s->segment = basin_seek(p->basin, s->pond_m3, s->segment);
	s->level_m = basin_level_in(p->basin, s->segment, s->pond_m3,
				    basin_area_in(p->basin, s->segment,
						  s->pond_m3));
	out->level_m = s->level_m;
	out->pond_m3 = s->pond_m3;
	out->held_m3 = s->bed_m3 + s->transit_m3;
	out->tank_m3 = s->tank_m3;
	if (s->level_m < p->intake_m)
		out->flags |= TARN_DAY_UNDER_INTAKE;
	if (f->overflow_m3 > 0)
		out->flags |= TARN_DAY_SPILLED;
	if (f->shortfall_m3 > 0)
		out->flags |= TARN_DAY_DRY;
}
