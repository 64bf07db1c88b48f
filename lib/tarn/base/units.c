/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "tarn/base.h"

#define FT 0.3048
#define INCH 0.0254
#define GAL 3.785411784e-3		/* US gallon, 231 cubic inches */
#define LB 0.45359237
#define GRAVITY 9.80665

static const struct tarn_unit units[] = {
	{ "m", 1, "m", "metre" },
	{ "cm", 0.01, "m", "centimetre" },
	{ "mm", 0.001, "m", "millimetre" },
	{ "km", 1000, "m", "kilometre" },
	{ "ft", FT, "m", "foot" },
	{ "inch", INCH, "m", "inch" },
	{ "yd", 3 * FT, "m", "yard" },
	{ "m2", 1, "m2", "square metre" },
	{ "ft2", FT * FT, "m2", "square foot" },
	{ "inch2", INCH * INCH, "m2", "square inch" },
	{ "yd2", 9 * FT * FT, "m2", "square yard" },
	{ "acre", 43560 * FT * FT, "m2", "acre, international foot" },
	{ "ha", 1e4, "m2", "hectare" },
	{ "m3", 1, "m3", "cubic metre" },
	{ "liter", 1e-3, "m3", "litre" },
	{ "gal", GAL, "m3", "US gallon" },
	{ "kgal", 1000 * GAL, "m3", "thousand US gallons" },
	{ "ft3", FT * FT * FT, "m3", "cubic foot" },
	{ "yd3", 27 * FT * FT * FT, "m3", "cubic yard" },
	{ "ccf", 100 * FT * FT * FT, "m3", "hundred cubic feet (water bills)" },
	{ "second", 1, "s", "second" },
	{ "minute", 60, "s", "minute" },
	{ "hour", 3600, "s", "hour" },
	{ "day", 86400, "s", "day" },
	{ "week", 604800, "s", "week" },
	{ "gpm", GAL / 60, "m3/s", "US gallon per minute" },
	{ "gph", GAL / 3600, "m3/s", "US gallon per hour" },
	{ "gpd", GAL / 86400, "m3/s", "US gallon per day" },
	{ "lpm", 1e-3 / 60, "m3/s", "litre per minute" },
	{ "lph", 1e-3 / 3600, "m3/s", "litre per hour" },
	{ "lpd", 1e-3 / 86400, "m3/s", "litre per day" },
	{ "cfs", FT * FT * FT, "m3/s", "cubic foot per second" },
	{ "mph", 1609.344 / 3600, "m/s", "mile per hour" },
	{ "kmh", 1 / 3.6, "m/s", "kilometre per hour" },
	{ "fps", FT, "m/s", "foot per second" },
	{ "mm_per_day", 1, "mm/d", "millimetre of depth per day" },
	{ "inch_per_day", 25.4, "mm/d", "inch of depth per day" },
	{ "m_per_day", 1, "m/d", "surface loading: cubic metre per m2 and day" },
	{ "m_per_hour", 24, "m/d", "surface loading: cubic metre per m2 and h" },
	{ "gpm_per_ft2", GAL * 1440 / (FT * FT), "m/d",
	  "surface loading: US gallon per minute and ft2" },
	{ "gph_per_ft2", GAL * 24 / (FT * FT), "m/d",
	  "surface loading: US gallon per hour and ft2" },
	{ "gpd_per_ft2", GAL / (FT * FT), "m/d",
	  "surface loading: US gallon per day and ft2" },
	{ "lpm_per_m2", 1.44, "m/d", "surface loading: litre per minute and m2" },
	{ "mm_per_hour", 1, "mm/h", "millimetre of rain per hour" },
	{ "inch_per_hour", 25.4, "mm/h", "inch of rain per hour" },
	{ "kg", 1, "kg", "kilogram" },
	{ "g", 1e-3, "kg", "gram" },
	{ "lb", LB, "kg", "pound" },
	{ "ton", 2000 * LB, "kg", "US short ton, 2000 lb" },
	{ "tonne", 1000, "kg", "metric tonne" },
	{ "kPa", 1, "kPa", "kilopascal" },
	{ "psi", LB * GRAVITY / (INCH * INCH) / 1000, "kPa",
	  "pound per square inch" },
	{ "watt", 1, "W", "watt" },
	{ "kW", 1000, "W", "kilowatt" },
	{ "kWh", 1, "kWh", "kilowatt-hour" },
	{ "hp", 745.699872, "W", "horsepower (550 ft lbf/s), rounded" },
	{ "percent", 0.01, "-", "hundredth" },
};

const struct tarn_unit *tarn_units(size_t *count)
{
	*count = sizeof units / sizeof units[0];
	return units;
}

double tarn_unit(const char *name)
{
	for (size_t i = 0; i < sizeof units / sizeof units[0]; i++)
		if (strcmp(units[i].name, name) == 0)
			return units[i].factor;
	return TARN_NAN;
}

double tarn_celsius(double fahrenheit)
{
	return (fahrenheit - 32) / 1.8;
}

double tarn_fahrenheit(double celsius)
{
	return celsius * 1.8 + 32;
}
