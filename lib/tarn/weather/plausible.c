/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "internal.h"

#define PI 3.14159265358979323846

/*
 * Second Legendre polynomial of the sine of the latitude, in which annual means
 * round the earth are written: temperature at sea level 14.2 - 28.0 P2 deg C,
 * sun above the air 340 (1 - 0.482 P2) W/m2 (North, Cahalan & Coakley 1981,
 * Reviews of Geophysics 19, from memory).
 */
static double legendre(double latitude_deg)
{
	double x = sin(latitude_deg * PI / 180);

	return (3 * x * x - 1) / 2;
}

/* mm a year.  Deserts lie between 15 and 50 degrees; the wettest towns have 3
 * to 6 m within the tropics, 2 to 4 m beyond.  Our own. */
struct plausible tn_plausible_rain(double latitude_deg)
{
	double a = fabs(latitude_deg);

	if (isnan(a) || a < 35)
		return (struct plausible){ 5, 6000 };
	return a < 50 ? (struct plausible){ 40, 4500 }
		      : (struct plausible){ 80, 4000 };
}

/* m/s.  A hedge may leave a garden 0.3; the windiest towns have some 8, beyond
 * 40 degrees 9.  Our own. */
struct plausible tn_plausible_wind(double latitude_deg)
{
	return (struct plausible){ 0.2, fabs(latitude_deg) < 40 ? 8 : 9 };
}

#define WARMEST_DAY 11157	/* 19 July 2000, a month after the solstice, as
				   on land (common practice, no source) */

double tn_plausible_summer(double latitude_deg, long first, size_t days)
{
	double sum = 0;

	for (size_t i = 0; i < days; i++)
		sum += cos(2 * PI * (double)(first + (long)i - WARMEST_DAY) /
			   365.25);
	return (latitude_deg < 0 ? -sum : sum) / (double)days;
}

/* deg C, of a year or of some days.  Land lies up to 14 degrees over the zonal
 * mean where a warm sea is near (Bodo) and 12 under it within continents; 6.5
 * degrees a km of height.  Some weeks are 6 degrees off; winters of continents
 * are colder by 0.3 degrees a degree of latitude, by as much the coolest
 * summers are warmer; at the mildest coasts winters are colder by 0.1.  Our
 * own, from normals that we remember. */
struct plausible tn_plausible_temperature(const struct tarn_site *site,
					  int full_year, double summer)
{
	double a = isnan(site->latitude_deg) ? TARN_NAN
					     : fabs(site->latitude_deg);
	double zonal = 14.2 - 28.0 * legendre(a);
	double lapse = 6.5e-3 * (isnan(site->elevation_m)
				 ? 3000 : fmax(0, site->elevation_m));
	struct plausible r = { -25 - lapse, 32 };

	if (!isnan(a)) {
		r.low = zonal - 12 - lapse;
		r.high = fmin(zonal + 14, 32);
	}
	if (full_year)
		return r;
	if (isnan(a)) {
		r.low -= 20;
		r.high += 20;
	} else if (isnan(summer)) {
		r.low -= 6 + 0.3 * a;
		r.high += 6 + 0.3 * a;
	} else {
		r.low -= 6 - 0.3 * a * summer;
		r.high += 6 + (summer > 0 ? 0.3 : 0.1) * a * summer;
	}
	r.high = fmin(r.high, 42);
	return r;
}

/* MJ m-2 d-1 of a year: the air passes 0.2 to 0.8 of the sun above it (0.25
 * under cloud, 0.75 clear: FAO-56 eq. 35; the margin is ours). */
struct plausible tn_plausible_solar(double latitude_deg)
{
	double above = 340 * 86400 / 1e6;
	double p2 = isnan(latitude_deg) ? 0 : legendre(latitude_deg);
	double share = 1 - 0.482 * p2;

	if (isnan(latitude_deg))
		return (struct plausible){ 0.2 * above * 0.52,
				       0.8 * above * 1.24 };
	return (struct plausible){ 0.2 * above * share, 0.8 * above * share };
}
