/* SPDX-License-Identifier: MIT */
#ifndef LEAK_SKY_H
#define LEAK_SKY_H

/*
 * Weather for the leak fit to be tried on: days of De Bilt, Fallon and
 * Hancock from weather-samples/, and open-water evaporation by Penman's
 * equation with the wind and sun of a site.  Written apart from lib/tarn,
 * so that a mistake there does not hide behind the same mistake here.
 */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#define SKY_PLACES 3
#define SKY_DAYS 3700

struct sky_day {
	double tmin_c, tmax_c, vapour_kpa, wind_2m_ms, rain_mm, solar_mj;
	int day_of_year;
};

struct sky_place {
	const char *file;
	double latitude, elevation_m, wind_height_m;
	int humidity_is_dew_point, columns;
	/* of the file: tmin, tmax, humidity, wind, rain (0: none), sun */
	int column[6];
	size_t skip;		/* rows after the heading */
	struct sky_day day[SKY_DAYS];
	size_t days;
};

/* Heights and places: weather-samples/README.md; De Bilt's last ten years, as
 * its gauge was moved before. */
static struct sky_place sky_places[SKY_PLACES] = {
	{ .file = "weather-samples/de_bilt_daily_1980_2019.csv",
	  .latitude = 52.10, .elevation_m = 2, .wind_height_m = 10,
	  .columns = 13, .column = { 1, 2, 4, 7, 8, 10 }, .skip = 10958 },
	{ .file = "weather-samples/fallon_daily_2015.csv",
	  .latitude = 39.4575, .elevation_m = 1208.5, .wind_height_m = 3,
	  .humidity_is_dew_point = 1, .columns = 8,
	  .column = { 1, 2, 3, 4, 0, 5 } },
	{ .file = "weather-samples/csls_hancock_daily.csv",
	  .latitude = 44.12, .elevation_m = 330, .wind_height_m = 3,
	  .columns = 7, .column = { 1, 2, 3, 4, 5, 6 } },
};

/* Over water, kPa: Allen et al. (1998), FAO-56, eq. 11. */
static double sky_saturation(double t_c)
{
	return 0.6108 * exp(17.27 * t_c / (t_c + 237.3));
}

static int sky_day_of_year(int month, int day)
{
	static const int before[12] = { 0, 31, 59, 90, 120, 151, 181, 212, 243,
					273, 304, 334 };

	return before[month - 1] + day;
}

static void sky_put(struct sky_place *p, int month, int day,
		    const double *cell)
{
	struct sky_day *d = &p->day[p->days];
	double full;

	d->tmin_c = cell[p->column[0]];
	d->tmax_c = cell[p->column[1]];
	full = (sky_saturation(d->tmin_c) + sky_saturation(d->tmax_c)) / 2;
	d->vapour_kpa = p->humidity_is_dew_point
		? sky_saturation(cell[p->column[2]])
		: full * cell[p->column[2]] / 100;
	/* to 2 m over grass: FAO-56, eq. 47 */
	d->wind_2m_ms = cell[p->column[3]] * 4.87 /
			log(67.8 * p->wind_height_m - 5.42);
	d->rain_mm = p->column[4] ? cell[p->column[4]] : 0;
	d->solar_mj = cell[p->column[5]];
	d->day_of_year = sky_day_of_year(month, day);
	p->days++;
}

/* A row's cells as numbers, an empty one as NaN; 0 unless all are there. */
static int sky_cells(const char *line, int columns, double *cell)
{
	for (int i = 0; i < columns; i++) {
		char *end;

		cell[i] = strtod(line, &end);
		if (i > 0 && end == line)
			return 0;
		for (line = end; *line && *line != ','; line++)
			continue;
		if (*line)
			line++;
	}
	return 1;
}

static void sky_read(struct sky_place *p)
{
	FILE *f = fopen(p->file, "r");
	char line[400];
	double cell[20];
	int year, month, day;

	if (!f || !fgets(line, sizeof line, f))
		abort();
	for (size_t row = 0; fgets(line, sizeof line, f); row++)
		if (row >= p->skip && p->days < SKY_DAYS &&
		    sscanf(line, "%d-%d-%d", &year, &month, &day) == 3 &&
		    sky_cells(line, p->columns, cell))
			sky_put(p, month, day, cell);
	fclose(f);
}

/*
 * Penman's evaporation of shallow water without heat storage, mm/d, with the
 * wind function of 1956 (1.313 + 1.381 u2 mm/d/kPa: McMahon et al. 2013, S4.10,
 * after Linacre 1993), albedo 0.08, long waves as FAO-56 eq. 39.
 *
 *   shelter  wind at the pond / over grass
 *   shade    share of the sun that reaches it; as much of the sky sends long
 *            waves, the rest is as warm as the air
 */
static double sky_evaporation(const struct sky_place *p,
			      const struct sky_day *d, double shelter,
			      double shade)
{
	double phi = p->latitude * acos(-1) / 180;
	double angle = 2 * acos(-1) * d->day_of_year / 365;
	double tilt = 0.409 * sin(angle - 1.39);
	double set = acos(-tan(phi) * tan(tilt));
	double top = 37.586 * (1 + 0.033 * cos(angle)) *
		     (set * sin(phi) * sin(tilt) +
		      cos(phi) * cos(tilt) * sin(set));
	double clear = (0.75 + 2e-5 * p->elevation_m) * top;
	double t = (d->tmin_c + d->tmax_c) / 2, sky, net, gamma, slope, dry;

	sky = 4.903e-9 * (pow(d->tmin_c + 273.16, 4) +
			  pow(d->tmax_c + 273.16, 4)) / 2 *
	      (0.34 - 0.14 * sqrt(d->vapour_kpa)) *
	      (1.35 * fmin(1, d->solar_mj / clear) - 0.35);
	net = 0.92 * shade * d->solar_mj - shade * sky;
	gamma = 0.665e-3 * 101.3 *
		pow((293 - 0.0065 * p->elevation_m) / 293, 5.26);
	slope = 4098 * sky_saturation(t) / pow(t + 237.3, 2);
	dry = (sky_saturation(d->tmin_c) + sky_saturation(d->tmax_c)) / 2 -
	      d->vapour_kpa;
	return fmax(0.05, (slope * net / 2.45 +
			   gamma * (1.313 + 1.381 * shelter * d->wind_2m_ms) *
			   fmax(0, dry)) / (slope + gamma));
}

#endif
