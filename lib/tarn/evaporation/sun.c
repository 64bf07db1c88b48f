/* SPDX-License-Identifier: MIT */
#include "formulas.h"

#define PI 3.14159265358979323846
#define SOLAR_CONSTANT 0.0820	/* MJ m-2 min-1, FAO-56 eq. 21 */

static int bad_day(double day_of_year)
{
	return outside(day_of_year, 1, 366);
}

/* Angle of the year, as FAO-56 counts it also in leap years. */
static double season(double day_of_year)
{
	return bad_day(day_of_year) ? TARN_NAN : 2 * PI / 365 * day_of_year;
}

double tarn_sun_inverse_distance(double day_of_year)
{
	return 1 + 0.033 * cos(season(day_of_year));
}

double tarn_sun_declination(double day_of_year)
{
	return 0.409 * sin(season(day_of_year) - 1.39);
}

double tarn_sun_sunset_angle(double latitude_deg, double day_of_year)
{
	double cosine;

	if (outside(latitude_deg, -90, 90) || bad_day(day_of_year))
		return TARN_NAN;
	cosine = -tan(latitude_deg * TARN_DEGREE) *
		 tan(tarn_sun_declination(day_of_year));
	/* beyond 1 the sun stays down, beyond -1 it stays up */
	return acos(fmax(-1, fmin(1, cosine)));
}

double tarn_sun_top_between(double latitude_deg, double day_of_year,
			    double from, double to)
{
	double sunset = tarn_sun_sunset_angle(latitude_deg, day_of_year);
	double latitude = latitude_deg * TARN_DEGREE;
	double declination = tarn_sun_declination(day_of_year);
	double start = fmax(from, -sunset), end = fmin(to, sunset);
	double sum;

	if (isnan(sunset) || outside(from, -PI, PI) || outside(to, from, PI))
		return TARN_NAN;
	if (end <= start)
		return 0;
	sum = (end - start) * sin(latitude) * sin(declination) +
	      cos(latitude) * cos(declination) * (sin(end) - sin(start));
	/* rounding may leave -1e-17 where the sun only just rises */
	return fmax(0, 12 * 60 / PI * SOLAR_CONSTANT *
			       tarn_sun_inverse_distance(day_of_year) * sum);
}

double tarn_sun_top_of_atmosphere(double latitude_deg, double day_of_year)
{
	return tarn_sun_top_between(latitude_deg, day_of_year, -PI, PI);
}

double tarn_sun_hour_angle(double clock_h, double day_of_year,
			   double meridian_deg, double longitude_deg)
{
	double b = 2 * PI * (day_of_year - 81) / 364;
	double correction = 0.1645 * sin(2 * b) - 0.1255 * cos(b) -
			    0.025 * sin(b);

	if (outside(clock_h, 0, 24) || bad_day(day_of_year) ||
	    outside(meridian_deg, 0, 360) || outside(longitude_deg, 0, 360))
		return TARN_NAN;
	return PI / 12 * (clock_h + 0.06667 * (meridian_deg - longitude_deg) +
			  correction - 12);
}

#define SEEN_AT (-50.0 / 60)	/* deg, of the sun's centre */

double tarn_sun_seen(double latitude_deg, double day_of_year)
{
	double latitude = latitude_deg * TARN_DEGREE;
	double declination = tarn_sun_declination(day_of_year);
	double cosine;

	if (outside(latitude_deg, -90, 90) || bad_day(day_of_year))
		return TARN_NAN;
	/* at a pole the sun stays up or down; 0 / 0 is neither */
	cosine = (sin(SEEN_AT * TARN_DEGREE) -
		  sin(latitude) * sin(declination)) /
		 fmax(cos(latitude) * cos(declination), 1e-12);
	return 24 / PI * acos(fmax(-1, fmin(1, cosine)));
}

double tarn_sun_daylight(double latitude_deg, double day_of_year)
{
	return 24 / PI * tarn_sun_sunset_angle(latitude_deg, day_of_year);
}

static int bad_radiation(double mj)
{
	return outside(mj, 0, 60);
}

double tarn_sun_clear_sky(double top_mj, double elevation_m)
{
	if (bad_radiation(top_mj) ||
	    outside(elevation_m, TARN_ELEVATION_MIN, TARN_ELEVATION_MAX))
		return TARN_NAN;
	return (0.75 + 2e-5 * elevation_m) * top_mj;
}

double tarn_sun_from_sunshine(double top_mj, double share, double a, double b)
{
	if (bad_radiation(top_mj) || outside(share, 0, 1) ||
	    outside(a, 0, 1) || outside(b, 0, 1 - a))
		return TARN_NAN;
	return (a + b * share) * top_mj;
}

double tarn_sun_from_range(double top_mj, double tmin_c, double tmax_c,
			   double factor)
{
	if (bad_radiation(top_mj) || bad_temp(tmin_c) || bad_temp(tmax_c) ||
	    tmin_c > tmax_c || outside(factor, 0.1, 0.3))
		return TARN_NAN;
	return factor * sqrt(tmax_c - tmin_c) * top_mj;
}

double tarn_sun_emission(double t_c)
{
	return bad_temp(t_c) ? TARN_NAN : raw_emission(t_c);
}

double tarn_sun_net_longwave(double emission_mj, double vapour_kpa,
			     double clearness)
{
	if (outside(emission_mj, 0, 100) || bad_vapour(vapour_kpa) ||
	    !(clearness >= 0))
		return TARN_NAN;
	return raw_net_longwave(emission_mj, vapour_kpa, clearness);
}
