/* SPDX-License-Identifier: MIT */
#include "internal.h"
#include "formulas.h"

/* The weather's site, and an open place, where the options leave them open. */
struct tarn_evaporation_options
tn_evaporation_resolve(const struct tarn_evaporation_options *o,
		       const struct tarn_weather *w)
{
	const struct tarn_site *site = tarn_weather_site_of(w);
	struct tarn_evaporation_options all = *o;

	all.latitude_deg = or_else(o->latitude_deg, site->latitude_deg);
	all.elevation_m = or_else(o->elevation_m, site->elevation_m);
	all.wind_height_m = or_else(o->wind_height_m, site->wind_height_m);
	all.shelter = or_else(o->shelter, 1);
	all.shade = or_else(o->shade, 1);
	return all;
}

static enum tarn_status need_number(double value, const char *field,
				    const char *why, enum tarn_method m,
				    struct tarn_error *err)
{
	if (!isnan(value))
		return TARN_OK;
	return tarn_fail(err, TARN_EARG, field, "is missing: the method %s "
			 "needs %s", tarn_method_name(m), why);
}

static enum tarn_status need_column(const struct tarn_weather *w,
				    enum tarn_column column,
				    enum tarn_method m, struct tarn_error *err)
{
	const double *x = tarn_weather_column(w, column);
	const char *name = tarn_column_info(column)->name;
	const unsigned char *out = tarn_weather_left_out(w);
	size_t days = tarn_weather_days(w);
	char date[11];

	if (!x)
		return tarn_fail(err, TARN_EARG, name, "is not in the weather: "
				 "the method %s needs it (without tmin and tmax "
				 "a weather has to bring open_water, reference "
				 "or pan)", tarn_method_name(m));
	for (size_t i = 0; i < days; i++) {
		if (!isnan(x[i]) || (out && out[i]))
			continue;
		tarn_day_text(tarn_weather_first(w) + (long)i, date);
		return tarn_fail(err, TARN_EARG, name, "is missing on %s: fill "
				 "the gaps of the weather first", date);
	}
	return TARN_OK;
}

/* Order of the two temperatures; both columns are complete. */
static enum tarn_status need_order(const struct tarn_weather *w,
				   struct tarn_error *err)
{
	const double *lo = tarn_weather_column(w, TARN_TMIN);
	const double *hi = tarn_weather_column(w, TARN_TMAX);
	const unsigned char *out = tarn_weather_left_out(w);
	char date[11];

	for (size_t i = 0; i < tarn_weather_days(w); i++) {
		if (lo[i] <= hi[i] || (out && out[i]))
			continue;
		tarn_day_text(tarn_weather_first(w) + (long)i, date);
		return tarn_fail(err, TARN_EARG, "tmin", "is %g on %s, above "
				 "tmax %g", lo[i], date, hi[i]);
	}
	return TARN_OK;
}

enum tarn_status tn_method_check(const struct tarn_weather *w,
				 const struct tarn_evaporation_options *o,
				 enum tarn_method m, struct tarn_error *err)
{
	unsigned needs = tn_method_needs(m);
	enum tarn_status s = TARN_OK;

	if (needs & NEEDS_AIR)
		s = need_column(w, TARN_TMIN, m, err);
	if (s == TARN_OK && needs & NEEDS_AIR)
		s = need_column(w, TARN_TMAX, m, err);
	if (s == TARN_OK && needs & NEEDS_AIR)
		s = need_order(w, err);
	if (s == TARN_OK && needs & NEEDS_SUN)
		s = tarn_settled(err, TARN_SETTLE_PLACE, NULL, need_number(
			o->latitude_deg, "evaporation.latitude",
				"it, in degrees, north positive", m, err));
	if (s == TARN_OK && needs & NEEDS_AREA)
		s = need_number(o->area_m2, "evaporation.area",
				"the water surface in m2", m, err);
	if (s == TARN_OK && needs & NEEDS_DEPTH)
		s = need_number(o->depth_m, "evaporation.depth",
				"the mean depth in m", m, err);
	if (s == TARN_OK && needs & NEEDS_PAN)
		s = need_column(w, TARN_PAN, m, err);
	if (s == TARN_OK && needs & NEEDS_REFERENCE)
		s = need_column(w, TARN_REFERENCE, m, err);
	if (s == TARN_OK && needs & NEEDS_OPEN_WATER)
		s = need_column(w, TARN_OPEN_WATER, m, err);
	return s;
}

static int any_value(const struct tarn_weather *w, enum tarn_column column)
{
	const double *x = tarn_weather_column(w, column);

	for (size_t i = 0; x && i < tarn_weather_days(w); i++)
		if (!isnan(x[i]))
			return 1;
	return 0;
}

/* Does the weather know more of the air than its temperature? */
static int sees_sky_or_humidity(const struct tarn_weather *w)
{
	static const enum tarn_column columns[] = {
		TARN_SOLAR, TARN_SUNSHINE, TARN_RH_MIN, TARN_RH_MAX,
		TARN_RH_MEAN, TARN_DEWPOINT, TARN_VAPOUR
	};

	for (size_t i = 0; i < sizeof columns / sizeof columns[0]; i++)
		if (any_value(w, columns[i]))
			return 1;
	return 0;
}

/* Figures that somebody gave are better than ours from temperatures alone.
 * Where nothing is possible Penman's complaint is the most useful. */
enum tarn_method tn_method_choose(const struct tarn_weather *w,
				  const struct tarn_evaporation_options *o)
{
	static const enum tarn_method rich[] = {
		TARN_PENMAN_1956, TARN_GIVEN, TARN_GIVEN_REFERENCE,
		TARN_PAN_COEFFICIENT
	};
	static const enum tarn_method poor[] = {
		TARN_GIVEN, TARN_GIVEN_REFERENCE, TARN_PENMAN_1956,
		TARN_PAN_COEFFICIENT
	};
	const enum tarn_method *order = sees_sky_or_humidity(w) ? rich : poor;

	for (int i = 0; i < 4; i++)
		if (tn_method_check(w, o, order[i], NULL) == TARN_OK)
			return order[i];
	return TARN_PENMAN_1956;
}

int tarn_evaporation_possible(const struct tarn_weather *w,
			      const struct tarn_evaporation_options *o,
			      enum tarn_method m)
{
	struct tarn_evaporation_options all = tn_evaporation_resolve(o, w);

	if ((unsigned)m >= TARN_METHODS ||
	    tarn_fields_check(&tarn_evaporation_fields, o, NULL) != TARN_OK)
		return 0;
	if (m == TARN_METHOD_AUTO)
		m = tn_method_choose(w, &all);
	return tn_method_check(w, &all, m, NULL) == TARN_OK;
}
