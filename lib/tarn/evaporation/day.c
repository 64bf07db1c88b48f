/* SPDX-License-Identifier: MIT */
#include "internal.h"
#include "formulas.h"

#define T struct tarn_evaporation_day
static const struct tarn_field rows[] = {
	TARN_IN_REQUIRED(T, tmin_c, "tmin", "deg C", -70, 60,
			 "lowest air temperature"),
	TARN_IN_REQUIRED(T, tmax_c, "tmax", "deg C", -70, 60,
			 "highest air temperature"),
	TARN_IN_NUMBER(T, tmean_c, "tmean", "deg C", -70, 60, TARN_NAN,
		       "mean air temperature; else half-way"),
	TARN_IN_NUMBER(T, rh_min, "rh_min", "%", 0, 100, TARN_NAN,
		       "lowest relative humidity"),
	TARN_IN_NUMBER(T, rh_max, "rh_max", "%", 0, 100, TARN_NAN,
		       "highest relative humidity"),
	TARN_IN_NUMBER(T, rh_mean, "rh_mean", "%", 0, 100, TARN_NAN,
		       "mean relative humidity"),
	TARN_IN_NUMBER(T, dewpoint_c, "dewpoint", "deg C", -80, 60, TARN_NAN,
		       "mean dew point"),
	TARN_IN_NUMBER(T, vapour_kpa, "vapour_kpa", "kPa", 0, 10, TARN_NAN,
		       "mean vapour pressure of the air"),
	TARN_IN_NUMBER(T, wind_2m_ms, "wind_2m", "m/s", 0, 60, TARN_NAN,
		       "mean wind at 2 m"),
	TARN_IN_NUMBER(T, sunshine_h, "sunshine_h", "h", 0, 24, TARN_NAN,
		       "bright sunshine"),
	TARN_IN_NUMBER(T, solar_mj, "solar_mj", "MJ m-2 d-1", 0, 50, TARN_NAN,
		       "global radiation"),
	TARN_IN_NUMBER(T, pressure_kpa, "pressure_kpa", "kPa", 40, 110,
		       TARN_NAN, "air pressure; else from the elevation"),
	TARN_IN_NUMBER(T, latitude_deg, "latitude", "degrees", -90, 90,
		       TARN_NAN, "latitude, north positive"),
	TARN_IN_NUMBER(T, elevation_m, "elevation", "m", TARN_ELEVATION_MIN,
		       TARN_ELEVATION_MAX, TARN_NAN, "elevation above the sea"),
	TARN_IN_NUMBER(T, day_of_year, "day_of_year", "-", 1, 366, TARN_NAN,
		       "1 January is 1"),
	TARN_IN_NUMBER(T, albedo, "albedo", "-", 0, 1, TARN_NAN,
		       "part of the sun that the water throws back; else 0.08"),
	TARN_IN_NUMBER(T, heat_storage_mj, "heat_storage_mj", "MJ m-2 d-1", -50,
		       50, TARN_NAN, "heat into the water; else none"),
	TARN_IN_NUMBER(T, area_m2, "area", "m2", 0.1, 1e9, TARN_NAN,
		       "water surface"),
	TARN_IN_NUMBER(T, water_c, "water_temp", "deg C", 0, 60, TARN_NAN,
		       "temperature of the water's surface; else tmean"),
};
TARN_FIELDS(tarn_evaporation_day_fields, "day", rows);
#undef T
TARN_DEFAULT(struct tarn_evaporation_day, tarn_evaporation_day_default,
	     tarn_evaporation_day_fields)

/* FAO-56's advice: 2 m/s where wind is not known, 0.16 inland. */
enum tarn_status tarn_conditions_of(const struct tarn_evaporation_day *d,
				    struct tarn_conditions *out,
				    struct tarn_error *err)
{
	struct place p = { .wind_2m_ms = 2, .range_factor = 0.16 };
	struct sun sun = {
		tarn_sun_top_of_atmosphere(d->latitude_deg, d->day_of_year),
		tarn_sun_daylight(d->latitude_deg, d->day_of_year),
		tarn_sun_seen(d->latitude_deg, d->day_of_year)
	};
	enum tarn_status status =
		tarn_fields_check(&tarn_evaporation_day_fields, d, err);

	if (status != TARN_OK)
		return status;
	if (d->tmin_c > d->tmax_c)
		return tarn_fail(err, TARN_EARG, "day.tmin", "%g is above "
				 "tmax %g", d->tmin_c, d->tmax_c);
	tn_place_at(&p, d->elevation_m);
	tn_place_conditions(&p, &sun, d, out);
	return TARN_OK;
}

/* ---- methods that need no more than a day ------------------------------- */

double tn_method_grass(enum tarn_method m, const struct tarn_conditions *c,
		       unsigned *origins)
{
	double grass_mm;

	if (m == TARN_HARGREAVES)
		return tarn_evaporation_hargreaves(c->tmin_c, c->tmax_c,
						   c->top_mj, 0.0023);
	grass_mm = tarn_evaporation_grass(c);
	if (c->wind_2m_ms < 0.5 && !isnan(grass_mm))
		*origins |= BIT(TARN_ORIGIN_WIND_FLOOR);
	return grass_mm;
}

double tn_method_open_water(enum tarn_method m,
			    const struct tarn_evaporation_options *o,
			    const struct tarn_conditions *c, double grass_mm,
			    double stored_mj, double water_c)
{
	double energy = tarn_net_radiation(c, o->albedo) - stored_mj;
	double u = c->wind_2m_ms;

	switch (m) {
	case TARN_PENMAN_1956:
		return tarn_evaporation_penman(
			c, energy, tarn_wind_function(TARN_WIND_1956, u, 0));
	case TARN_PENMAN_1948:
		return tarn_evaporation_penman(
			c, energy, tarn_wind_function(TARN_WIND_1948, u, 0));
	case TARN_PRIESTLEY_TAYLOR:
		return tarn_evaporation_priestley_taylor(c, energy,
							 o->priestley_taylor);
	case TARN_MASS_TRANSFER:
		return tarn_evaporation_mass_transfer(
			or_else(water_c, c->tmean_c), c->vapour_kpa,
			tarn_wind_function(TARN_WIND_MCJANNET, u, o->area_m2));
	case TARN_GRASS:
	case TARN_HARGREAVES:
		return o->water_over_grass * grass_mm;
	default:
		return TARN_NAN;
	}
}

static enum tarn_status missing(const char *field, enum tarn_method m,
				struct tarn_error *err)
{
	return tarn_fail(err, TARN_EARG, field, "is missing: the method %s "
			 "needs it", tarn_method_name(m));
}

enum tarn_status tarn_evaporation_of_day(const struct tarn_evaporation_day *d,
					 enum tarn_method m,
					 double *open_water_mm,
					 double *grass_mm, unsigned *origins,
					 struct tarn_error *err)
{
	const unsigned allowed = NEEDS_AIR | NEEDS_SUN | NEEDS_AREA;
	unsigned needs = tn_method_needs(m);
	struct tarn_evaporation_options o = tarn_evaporation_options_default();
	struct tarn_conditions c;
	enum tarn_status status = tarn_conditions_of(d, &c, err);
	double grass, open;

	if (status != TARN_OK)
		return status;
	if (needs == 0 || needs & ~allowed)
		return tarn_fail(err, TARN_EARG, "method", "%s cannot be used "
				 "for one day", tarn_method_name(m));
	if (needs & NEEDS_SUN && isnan(d->latitude_deg))
		return missing("day.latitude", m, err);
	if (needs & NEEDS_SUN && isnan(d->day_of_year))
		return missing("day.day_of_year", m, err);
	if (needs & NEEDS_AREA && isnan(d->area_m2))
		return missing("day.area", m, err);
	o.albedo = or_else(d->albedo, o.albedo);
	o.area_m2 = d->area_m2;
	grass = tn_method_grass(m, &c, &c.origins);
	open = tn_method_open_water(m, &o, &c, grass,
				    or_else(d->heat_storage_mj, 0),
				    d->water_c);
	if (open_water_mm)
		*open_water_mm = open;
	if (grass_mm)
		*grass_mm = grass;
	if (origins)
		*origins = c.origins;
	return TARN_OK;
}
