/* SPDX-License-Identifier: MIT */
#include "internal.h"
#include "formulas.h"
#include "heat.h"

#define GAUGE_HEIGHT 10.0	/* standard of wind gauges, WMO-No. 8 */
#define COASTAL 0.19		/* FAO-56 eq. 50 */
#define INLAND 0.16

/* ---- one day of a run ---------------------------------------------------- */

struct run {
	enum tarn_method method;
	struct tarn_evaporation_options o;
	struct place place;
	double wind_factor;		/* gauge to the pond at 2 m */
	double water_c;			/* at the start of the day, or NaN */
	double transfer_mj[2];		/* McJannet's wind function over the
					   pond: at rest, and for each m/s */
	const double *column[TARN_COLUMNS];
	int year, day_of_year;
	struct sun sun[367];		/* by day of the year, filled when
					   first asked for */
};

static double value(const struct run *r, enum tarn_column c, size_t i)
{
	return r->column[c] ? r->column[c][i] : TARN_NAN;
}

static struct tarn_evaporation_day day_at(const struct run *r, size_t i)
{
	struct tarn_evaporation_day d = {
		.tmin_c = value(r, TARN_TMIN, i),
		.tmax_c = value(r, TARN_TMAX, i),
		/* half-way between them, as FAO-56 wants it: eq. 9 */
		.tmean_c = TARN_NAN,
		.rh_min = value(r, TARN_RH_MIN, i),
		.rh_max = value(r, TARN_RH_MAX, i),
		.rh_mean = value(r, TARN_RH_MEAN, i),
		.dewpoint_c = value(r, TARN_DEWPOINT, i),
		.vapour_kpa = value(r, TARN_VAPOUR, i),
		.wind_2m_ms = value(r, TARN_WIND, i) * r->wind_factor,
		.sunshine_h = value(r, TARN_SUNSHINE, i),
		.solar_mj = value(r, TARN_SOLAR, i),
		.pressure_kpa = value(r, TARN_PRESSURE, i),
	};

	return d;
}

static const struct sun *sun_today(struct run *r)
{
	struct sun *s = &r->sun[r->day_of_year];

	if (s->daylight_h < 0) {
		double j = r->day_of_year;

		s->top_mj = tarn_sun_top_of_atmosphere(r->o.latitude_deg, j);
		s->daylight_h = tarn_sun_daylight(r->o.latitude_deg, j);
		s->seen_h = tarn_sun_seen(r->o.latitude_deg, j);
	}
	return s;
}

static void next_day(struct run *r)
{
	r->day_of_year++;
	if (r->day_of_year > 365 + tarn_leap_year(r->year)) {
		r->day_of_year = 1;
		r->year++;
	}
}

/* It is a straight line in the wind: two points give it, once a run. */
static void prepare_transfer(struct run *r)
{
	double a = r->o.area_m2;
	double rest = tarn_wind_function(TARN_WIND_MCJANNET, 0, a);

	r->transfer_mj[0] = TARN_LATENT_HEAT * rest;
	r->transfer_mj[1] = TARN_LATENT_HEAT *
		(tarn_wind_function(TARN_WIND_MCJANNET, 1, a) - rest);
}

static double heat_day(struct run *r, const struct tarn_conditions *c,
		       unsigned *origins, double *water_c)
{
	struct tarn_heat h = {
		.shortwave_mj = (1 - r->o.albedo) * c->solar_mj,
		.longwave_mj = tn_heat_sky(tn_heat_cloud(c->clearness),
					   c->tmean_c),
		.air_c = c->tmean_c,
		.vapour_kpa = c->vapour_kpa,
		.psychrometric_kpa_c = c->psychrometric_kpa_c,
		.transfer_mj_kpa = r->transfer_mj[0] +
				   r->transfer_mj[1] * c->wind_2m_ms,
	};
	struct tarn_heat_day day;

	if (isnan(r->water_c))
		r->water_c = fmax(0, tn_heat_equilibrium(&h));
	tn_heat_day(&h, r->o.depth_m, r->water_c, &day);
	if (day.ice)
		*origins |= BIT(TARN_ORIGIN_ICE);
	r->water_c = day.water_c;
	*water_c = day.mean_c;
	return day.evaporation_mm;
}

struct result {
	double open_water_mm, grass_mm, water_c;
	double dew_mm;
	unsigned origins;
};

static double open_water_at(struct run *r, size_t i,
			    const struct tarn_conditions *c,
			    struct result *out)
{
	switch (r->method) {
	case TARN_PENMAN_HEAT:
		return heat_day(r, c, &out->origins, &out->water_c);
	case TARN_PAN_COEFFICIENT:
		return r->o.pan_coefficient * value(r, TARN_PAN, i);
	case TARN_GIVEN_REFERENCE:
		return r->o.water_over_grass * value(r, TARN_REFERENCE, i);
	case TARN_GIVEN:
		return value(r, TARN_OPEN_WATER, i);
	default:
		return tn_method_open_water(r->method, &r->o, c,
					    out->grass_mm, 0, TARN_NAN);
	}
}

/* Dew is a fraction of a millimetre, within the error of every method. */
static void drop_dew(struct result *out)
{
	out->dew_mm = fmax(0, -out->open_water_mm);
	if (out->dew_mm > 0)
		out->origins |= BIT(TARN_ORIGIN_NO_DEW);
	out->open_water_mm = fmax(0, out->open_water_mm);
	out->grass_mm = fmax(0, out->grass_mm);
}

/*
 * Conditions are found where the method or the grass reference needs them,
 * and their origins counted only then.  0: they give no number.
 */
static int evaluate(struct run *r, size_t i, struct result *out)
{
	int from_air = tn_method_needs(r->method) & NEEDS_AIR;
	struct tarn_conditions c = { .origins = 0 };

	out->origins = 0;
	out->water_c = TARN_NAN;
	out->grass_mm = from_air ? TARN_NAN : value(r, TARN_REFERENCE, i);
	if (from_air || isnan(out->grass_mm)) {
		struct tarn_evaporation_day d = day_at(r, i);

		tn_place_conditions(&r->place, sun_today(r), &d, &c);
		c.solar_mj *= r->o.shade;
		c.top_mj *= r->o.shade;	/* Hargreaves-Samani's sun */
		out->grass_mm = tn_method_grass(r->method, &c, &c.origins);
		if (from_air || !isnan(out->grass_mm))
			out->origins = c.origins;
	}
	out->open_water_mm = open_water_at(r, i, &c, out);
	if (isnan(out->grass_mm)) {
		out->grass_mm = out->open_water_mm / r->o.water_over_grass;
		out->origins |= BIT(TARN_ORIGIN_GRASS_FROM_WATER);
	}
	if (!isfinite(out->open_water_mm) || !isfinite(out->grass_mm))
		return 0;
	drop_dew(out);
	return 1;
}

/* A day that is left out; the water begins anew after it. */
static void pass_over(struct run *r, struct result *out)
{
	*out = (struct result){ TARN_NAN, TARN_NAN, TARN_NAN, 0, 0 };
	r->water_c = r->o.start_water_c;
}

/* ---- a whole weather ----------------------------------------------------- */

static enum tarn_status prepare(struct run *r, const struct tarn_weather *w,
				const struct tarn_evaporation_options *o,
				struct tarn_error *err)
{
	long first = tarn_weather_first(w);
	enum tarn_status s = tarn_fields_check(&tarn_evaporation_fields, o,
					       err);
	double height;

	if (s != TARN_OK)
		return s;
	r->o = tn_evaporation_resolve(o, w);
	r->method = o->method == TARN_METHOD_AUTO
		? tn_method_choose(w, &r->o) : (enum tarn_method)o->method;
	s = tn_method_check(w, &r->o, r->method, err);
	if (s != TARN_OK)
		return s;
	for (int c = 0; c < TARN_COLUMNS; c++)
		r->column[c] = tarn_weather_column(w, (enum tarn_column)c);
	for (int j = 0; j < 367; j++)
		r->sun[j].daylight_h = -1;
	r->year = tarn_date(first).year;
	r->day_of_year = tarn_day_of_year(first);
	r->water_c = o->start_water_c;
	prepare_transfer(r);
	r->place = (struct place){
		.wind_2m_ms = o->default_wind_ms * o->shelter,
		.range_factor = o->coastal ? COASTAL : INLAND,
		.dryness_c = o->dryness_c,
	};
	tn_place_at(&r->place, r->o.elevation_m);
	if (isnan(r->o.wind_height_m) && r->column[TARN_WIND])
		r->place.origins |= BIT(TARN_ORIGIN_WIND_HEIGHT);
	height = or_else(r->o.wind_height_m, GAUGE_HEIGHT);
	r->wind_factor = raw_wind_factor(height) * o->shelter;
	return TARN_OK;
}

/* Rules of a stretch of days that are all alike. */
static void count(struct tarn_evaporation_report *report, unsigned origins,
		  size_t days)
{
	for (int k = 0; k < TARN_ORIGINS; k++)
		if (origins & BIT(k))
			report->origin_days[k] += days;
}

static enum tarn_status no_number(const struct tarn_weather *w, size_t i,
				  struct tarn_error *err)
{
	char date[11];

	tarn_day_text(tarn_weather_first(w) + (long)i, date);
	return tarn_fail(err, TARN_EARG, "weather", "of %s gives no "
			 "evaporation: check its values and their units",
			 date);
}

enum tarn_status tarn_evaporation_run(const struct tarn_weather *w,
				      const struct tarn_evaporation_options *o,
				      double *open_water_mm, double *grass_mm,
				      double *water_c,
				      struct tarn_evaporation_report *report,
				      struct tarn_error *err)
{
	struct tarn_evaporation_report r = { .days = tarn_weather_counted(w) };
	const unsigned char *out = tarn_weather_left_out(w);
	size_t days = tarn_weather_days(w);
	struct run run;
	struct result day;
	unsigned origins = 0;
	size_t since = 0;
	enum tarn_status s = prepare(&run, w, o, err);

	if (s != TARN_OK)
		return s;
	for (size_t i = 0; i < days; i++, next_day(&run)) {
		if (out && out[i])
			pass_over(&run, &day);
		else if (!evaluate(&run, i, &day))
			return no_number(w, i, err);
		if (day.origins != origins) {
			count(&r, origins, i - since);
			origins = day.origins;
			since = i;
		}
		r.dew_mm += day.dew_mm;
		open_water_mm[i] = day.open_water_mm;
		if (grass_mm)
			grass_mm[i] = day.grass_mm;
		if (water_c)
			water_c[i] = day.water_c;
	}
	count(&r, origins, days - since);
	r.method = run.method;
	if (report)
		*report = r;
	return TARN_OK;
}
