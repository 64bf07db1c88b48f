/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "tarn.h"

/* One heading in a header of its own: words in any order mean the same. */

/* Value of a column read from "10" under a heading; NaN: it is not read so. */
static double read_ten(const char *heading, enum tarn_column c, double *height)
{
	char text[400];
	struct tarn_error err = { 0 };
	struct tarn_weather *w;
	const double *x;
	double got = TARN_NAN;

	snprintf(text, sizeof text, "date;\"%s\"\n2015-06-01;10\n", heading);
	*height = TARN_NAN;
	if (tarn_weather_read_text(&w, NULL, text, strlen(text), NULL, NULL,
				   &err) != TARN_OK)
		return TARN_NAN;
	x = tarn_weather_column(w, c);
	if (x)
		got = x[0];
	*height = tarn_weather_site_of(w)->wind_height_m;
	tarn_weather_free(w);
	return got;
}

static void expect_value(const char *heading, enum tarn_column c, double want)
{
	double height, got = read_ten(heading, c, &height);

	cr_expect(fabs(got - want) <= 1e-9 * fabs(want) + 1e-12,
		  "'%s': %s is %.9g, want %.9g", heading,
		  tarn_column_info(c)->name, got, want);
}

/* A unit in each of its ways to be written, behind a name. */
static void each_unit(const char *name, const char *unit, enum tarn_column c,
		      double want)
{
	static const char *const forms[] = { "%s (%s)", "%s [%s]", "%s, %s",
					     "%s %s", "%s_%s", "%s {%s}" };
	char heading[200];

	for (size_t i = 0; i < sizeof forms / sizeof *forms; i++) {
		snprintf(heading, sizeof heading, forms[i], name, unit);
		expect_value(heading, c, want);
	}
	snprintf(heading, sizeof heading, "(%s) %s", unit, name);
	expect_value(heading, c, want);
}

Test(weather_heading, any_order_and_separator)
{
	static const char *const gaps[] = { " ", "_", "-", ".", " / " };
	static const struct {
		const char *quantity, *statistic, *unit;
		enum tarn_column c;
		double want;
	} rows[] = {
		{ "temperature", "max", "degC", TARN_TMAX, 10 },
		{ "temp", "minimum", "F", TARN_TMIN, -22 / 1.8 },
		{ "Temperatur", "mittlere", "C", TARN_TMEAN, 10 },
		{ "TEMP", "MAX", "F", TARN_TMAX, -22 / 1.8 },
		{ "humidity", "min", "%", TARN_RH_MIN, 10 },
		{ "RH", "Max", "pct", TARN_RH_MAX, 10 },
		{ "precipitation", "sum", "inch", TARN_RAIN, 254 },
		{ "wind", "mean", "km/h", TARN_WIND, 10 / 3.6 },
		{ "viento", "media", "m/s", TARN_WIND, 10 },
		{ "radiation", "total", "kWh/m2", TARN_SOLAR, 36 },
	};

	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
		for (size_t g = 0; g < sizeof gaps / sizeof *gaps; g++) {
			char name[100];

			snprintf(name, sizeof name, "%s%s%s", rows[i].quantity,
				 gaps[g], rows[i].statistic);
			each_unit(name, rows[i].unit, rows[i].c, rows[i].want);
			snprintf(name, sizeof name, "%s%s%s", rows[i].statistic,
				 gaps[g], rows[i].quantity);
			each_unit(name, rows[i].unit, rows[i].c, rows[i].want);
		}
}

Test(weather_heading, heights)
{
	static const char *const names[] = {
		"wind_10m_ms", "wind_ms_10m", "Wind speed (m/s) @ 10 m",
		"Wind at 10 metre, m/s", "10 m wind [m s-1]",
		"wind_speed_10m_mean (m/s)", "Wind speed at 10 meters (m/s)",
	};

	for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
		double height;

		expect_value(names[i], TARN_WIND, 10);
		read_ten(names[i], TARN_WIND, &height);
		cr_expect(fabs(height - 10) < 1e-12, "'%s': %g m", names[i],
			  height);
	}
	expect_value("temperature_2m_max (°C)", TARN_TMAX, 10);
	expect_value("relative_humidity_2m_mean (%)", TARN_RH_MEAN, 10);
}

Test(weather_heading, spellings_of_units)
{
	static const struct {
		const char *heading;
		enum tarn_column c;
		double want;
	} rows[] = {
		{ "tmax (°F)", TARN_TMAX, -22 / 1.8 },
		{ "tmax (deg. F)", TARN_TMAX, -22 / 1.8 },
		{ "tmax ℃", TARN_TMAX, 10 },
		{ "Maximum temperature (Degree C)", TARN_TMAX, 10 },
		{ "tmax (\xb0" "C)", TARN_TMAX, 10 },	/* Latin-1 */
		{ "Rainfall amount (millimetres)", TARN_RAIN, 10 },
		{ "rain (\"\")", TARN_RAIN, 254 },
		{ "rain in mm", TARN_RAIN, 10 },
		{ "rain (0.1 mm)", TARN_RAIN, 1 },
		{ "shortwave_radiation_sum (MJ/m²)", TARN_SOLAR, 10 },
		{ "Solar (J/cm2)", TARN_SOLAR, 0.1 },
		{ "Solar (MJ m⁻² d⁻¹)", TARN_SOLAR, 10 },
		{ "Global radiation [W m-2]", TARN_SOLAR, 0.864 },
		{ "sunshine (min)", TARN_SUNSHINE, 10 / 60.0 },
		{ "sunshine hours", TARN_SUNSHINE, 10 },
		{ "wind (kn)", TARN_WIND, 18520 / 3600.0 },
		{ "wind (mph)", TARN_WIND, 4.4704 },
		{ "vapour pressure (hPa)", TARN_VAPOUR, 1 },
		{ "et0_fao_evapotranspiration (mm)", TARN_REFERENCE, 10 },
		{ "WindSpeedAvg (km/h)", TARN_WIND, 10 / 3.6 },
	};

	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
		expect_value(rows[i].heading, rows[i].c, rows[i].want);
}

/* Read as nothing, with rain beside it so that the file is read at all. */
Test(weather_heading, not_wanted)
{
	static const char *const names[] = {
		"Wind gust (km/h)", "wind_gusts_10m_max (km/h)",
		"wind_speed_10m_max (m/s)", "Wind direction (deg)",
		"Soil temperature (°C)", "Bodentemperatur (°C)",
		"temp at 5 cm (°C)", "Indoor temperature (°C)",
		"Battery temp (C)", "Wet bulb temperature (°C)",
		"Feels like (°C)", "Wind chill (°C)", "Snowfall (mm)",
		"Snow depth (mm)", "tmax flag", "Quality of max temp",
		"Time of max temp", "precipitation_hours (h)",
		"Rain rate (mm/h)", "Rain rate (mm)", "Pressure at sea level (hPa)",
		"Vapour pressure deficit (kPa)", "Evaporation (mm)",
		"Temperature range (°C)", "Water temperature (°C)",
		"Monthly rain (mm)", "Net radiation (MJ/m2)",
		"UV radiation (MJ/m2)", "etr_asce_mm", "makkink_et_mm",
		"Sunshine (W/m2)", "Temperature anomaly (°C)",
	};

	for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
		char text[300];
		struct tarn_error err = { 0 };
		struct tarn_weather *w;
		int columns = 0, noted = 0;

		snprintf(text, sizeof text, "date;open_water_mm;%s\n"
			 "2015-06-01;1;10\n", names[i]);
		cr_assert(tarn_weather_read_text(&w, NULL, text, strlen(text),
						 NULL, NULL, &err) == TARN_OK,
			  "%s: %s", names[i], err.text);
		for (int c = 0; c < TARN_COLUMNS; c++)
			columns += tarn_weather_column(w, (enum tarn_column)c)
				   != NULL;
		for (size_t k = 0; k < tarn_weather_notes(w); k++)
			noted |= strncmp(tarn_weather_note(w, k), "not used: ",
					 10) == 0 &&
				 strstr(tarn_weather_note(w, k), " (") != NULL;
		cr_expect(columns == 1 && noted, "'%s': %d columns", names[i],
			  columns);
		tarn_weather_free(w);
	}
}
