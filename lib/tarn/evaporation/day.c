/* SPDX-License-Identifier: MIT */
#include <stddef.h>

#include "day.h"
#include "formulas.h"

#define ROW(name, member, lo, hi, required, unit, meaning) \
	{ name, TARN_FIELD_NUMBER, \
	  offsetof(struct tarn_evaporation_day, member), lo, hi, required, \
	  unit, NULL, meaning }

static const struct tarn_field rows[] = {
	ROW("tmin", tmin_c, -70, 60, 1, "deg C", "lowest air temperature"),
	ROW("tmax", tmax_c, -70, 60, 1, "deg C", "highest air temperature"),
	ROW("tmean", tmean_c, -70, 60, 0, "deg C",
	    "mean air temperature; else half-way"),
	ROW("rh_min", rh_min, 0, 100, 0, "%", "lowest relative humidity"),
	ROW("rh_max", rh_max, 0, 100, 0, "%", "highest relative humidity"),
	ROW("rh_mean", rh_mean, 0, 100, 0, "%", "mean relative humidity"),
	ROW("dewpoint", dewpoint_c, -80, 60, 0, "deg C", "mean dew point"),
	ROW("vapour_kpa", vapour_kpa, 0, 10, 0, "kPa",
	    "mean vapour pressure of the air"),
	ROW("wind_2m", wind_2m_ms, 0, 60, 0, "m/s", "mean wind at 2 m"),
	ROW("sunshine_h", sunshine_h, 0, 24, 0, "h", "bright sunshine"),
	ROW("solar_mj", solar_mj, 0, 50, 0, "MJ m-2 d-1",
	    "global radiation"),
	ROW("pressure_kpa", pressure_kpa, 40, 110, 0, "kPa",
	    "air pressure; else from the elevation"),
	ROW("latitude", latitude_deg, -90, 90, 0, "degrees",
	    "latitude, north positive"),
	ROW("elevation", elevation_m, TARN_ELEVATION_MIN, TARN_ELEVATION_MAX,
	    0, "m", "elevation above the sea"),
	ROW("day_of_year", day_of_year, 1, 366, 0, "-", "1 January is 1"),
	ROW("albedo", albedo, 0, 1, 0, "-",
	    "part of the sun that the water throws back; else 0.08"),
	ROW("heat_storage_mj", heat_storage_mj, -50, 50, 0, "MJ m-2 d-1",
	    "heat into the water; else none"),
	ROW("area", area_m2, 0.1, 1e9, 0, "m2", "water surface"),
	ROW("water_temp", water_c, 0, 60, 0, "deg C",
	    "temperature of the water's surface; else tmean"),
};

const struct tarn_fields tarn_evaporation_day_fields = {
	"day", rows, sizeof rows / sizeof rows[0]
};

struct tarn_evaporation_day tarn_evaporation_day_default(void)
{
	const double no = TARN_NAN;
	struct tarn_evaporation_day d = {
		.tmin_c = no, .tmax_c = no, .tmean_c = no, .rh_min = no,
		.rh_max = no, .rh_mean = no, .dewpoint_c = no,
		.vapour_kpa = no, .wind_2m_ms = no, .sunshine_h = no,
		.solar_mj = no, .pressure_kpa = no, .latitude_deg = no,
		.elevation_m = no, .day_of_year = no, .albedo = no,
		.heat_storage_mj = no, .area_m2 = no, .water_c = no,
	};

	return d;
}

/* FAO-56's advice: 2 m/s where wind is not known, 0.16 inland. */
enum tarn_status tarn_conditions_of(const struct tarn_evaporation_day *d,
				    struct tarn_conditions *out,
				    struct tarn_error *err)
{
	struct place p = { .wind_2m_ms = 2, .range_factor = 0.16 };
	struct sun sun = {
		tarn_sun_top_of_atmosphere(d->latitude_deg, d->day_of_year),
		tarn_sun_daylight(d->latitude_deg, d->day_of_year)
	};
	enum tarn_status status =
		tarn_fields_check(&tarn_evaporation_day_fields, d, err);

	if (status != TARN_OK)
		return status;
	if (d->tmin_c > d->tmax_c)
		return tarn_fail(err, TARN_EARG, "day.tmin", "%g is above "
				 "tmax %g", d->tmin_c, d->tmax_c);
	tarn_place_at(&p, d->elevation_m);
	tarn_place_conditions(&p, &sun, d, out);
	return TARN_OK;
}

/* ---- methods that need no more than a day ------------------------------- */

double tarn_method_grass(enum tarn_method m, const struct tarn_conditions *c,
			 unsigned *rules)
{
	double grass_mm;

	if (m == TARN_HARGREAVES)
		return tarn_evaporation_hargreaves(c->tmin_c, c->tmax_c,
						   c->top_mj, 0.0023);
	grass_mm = tarn_evaporation_grass(c);
	if (c->wind_2m_ms < 0.5 && !isnan(grass_mm))
		*rules |= BIT(TARN_RULE_WIND_FLOOR);
	return grass_mm;
}

double tarn_method_open_water(enum tarn_method m,
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
					 double *grass_mm, unsigned *rules,
					 struct tarn_error *err)
{
	const unsigned allowed = NEEDS_AIR | NEEDS_SUN | NEEDS_AREA;
	unsigned needs = tarn_method_needs(m);
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
	grass = tarn_method_grass(m, &c, &c.rules);
	open = tarn_method_open_water(m, &o, &c, grass,
				      or_else(d->heat_storage_mj, 0),
				      d->water_c);
	if (open_water_mm)
		*open_water_mm = open;
	if (grass_mm)
		*grass_mm = grass;
	if (rules)
		*rules = c.rules;
	return TARN_OK;
}
