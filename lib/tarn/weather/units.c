/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "internal.h"

/* "also" holds what canonical() makes of other spellings. */
static const struct tarn_weather_unit units[] = {
	{ "C", "degc deg_c celsius", TARN_TMIN, 0, 1, 1, 0 },
	{ "F", "degf deg_f fahrenheit", TARN_TMIN, -32, 1, 1.8, 0 },
	{ "K", "kelvin", TARN_TMIN, -273.15, 1, 1, 0 },

	{ "%", "pct percent", TARN_RH_MEAN, 0, 1, 1, 0 },
	{ "fraction", "0-1", TARN_RH_MEAN, 0, 100, 1, 0 },

	{ "kPa", "", TARN_PRESSURE, 0, 1, 1, 0 },
	{ "hPa", "", TARN_PRESSURE, 0, 1, 10, 0 },
	{ "mbar", "mb mbars millibar", TARN_PRESSURE, 0, 1, 10, 0 },
	{ "Pa", "", TARN_PRESSURE, 0, 1, 1000, 0 },
	{ "mmHg", "", TARN_PRESSURE, 0, 0.1333224, 1, 0 },
	{ "inHg", "", TARN_PRESSURE, 0, 3.386389, 1, 0 },

	{ "m/s", "ms mps m/sec ms-1", TARN_WIND, 0, 1, 1, 0 },
	{ "km/h", "kmh kph kmph", TARN_WIND, 0, 1, 3.6, 0 },
	{ "mph", "mi/h miles/h", TARN_WIND, 0, 1609.344, 3600, 0 },
	{ "knots", "knot kt kts kn", TARN_WIND, 0, 1852, 3600, 0 },
	{ "ft/s", "fps", TARN_WIND, 0, 0.3048, 1, 0 },
	{ "km/d", "km/day kmd", TARN_WIND, 0, 1, 86.4, 0 },
	{ "mi/d", "mi/day miles/day miles/d", TARN_WIND, 0, 1609.344, 86400,
	  0 },

	{ "h", "hour hours hr hrs", TARN_SUNSHINE, 0, 1, 1, 0 },
	{ "min", "minute minutes", TARN_SUNSHINE, 0, 1, 60, 0 },
	{ "s", "sec second seconds", TARN_SUNSHINE, 0, 1, 3600, 0 },

	{ "MJ/m2", "mj/m mj_m2 mjm-2", TARN_SOLAR, 0, 1, 1, 0 },
	{ "kJ/m2", "kj/m kj_m2", TARN_SOLAR, 0, 1, 1000, 0 },
	{ "J/m2", "j/m j_m2", TARN_SOLAR, 0, 1, 1e6, 0 },
	{ "J/cm2", "j/cm j_cm2", TARN_SOLAR, 0, 1, 100, 0 },
	{ "kWh/m2", "kwh/m kwh_m2 kw-hr/m2 kw-hr/m", TARN_SOLAR, 0, 3.6, 1, 0 },
	{ "Wh/m2", "wh/m wh_m2", TARN_SOLAR, 0, 3.6, 1000, 0 },
	{ "langley", "langleys ly cal/cm2", TARN_SOLAR, 0, 4.184, 100, 0 },
	{ "W/m2", "w/m w_m2 w/sq.m wm-2", TARN_SOLAR, 0, 86.4, 1000, 1 },

	{ "mm", "kg/m2 kg/m l/m2 l/m", TARN_RAIN, 0, 1, 1, 0 },
	{ "cm", "", TARN_RAIN, 0, 10, 1, 0 },
	{ "m", "", TARN_RAIN, 0, 1000, 1, 0 },
	{ "inch", "in inches", TARN_RAIN, 0, 25.4, 1, 0 },
};

#define COUNT (sizeof units / sizeof units[0])

const struct tarn_weather_unit *tarn_weather_units(size_t *count)
{
	*count = COUNT;
	return units;
}

enum tarn_column tn_column_like(enum tarn_column c)
{
	switch (c) {
	case TARN_TMIN:
	case TARN_TMAX:
	case TARN_TMEAN:
	case TARN_DEWPOINT: return TARN_TMIN;
	case TARN_RH_MIN:
	case TARN_RH_MAX:
	case TARN_RH_MEAN: return TARN_RH_MEAN;
	case TARN_VAPOUR:
	case TARN_PRESSURE: return TARN_PRESSURE;
	case TARN_RAIN:
	case TARN_PAN:
	case TARN_REFERENCE:
	case TARN_OPEN_WATER: return TARN_RAIN;
	default: return c;
	}
}

/* Lower case, without blanks, '^' and what is not ASCII: "MJ/m^2" and
 * a mangled "MJ/m" with a superscript become "mj/m2" and "mj/m". */
static void canonical(struct text t, char out[32])
{
	size_t n = 0;

	for (size_t i = 0; i < t.length && n < 31; i++) {
		unsigned char c = (unsigned char)t.at[i];

		if (c <= ' ' || c >= 0x7f || c == '^')
			continue;
		out[n++] = c >= 'A' && c <= 'Z' ? (char)(c + 32) : (char)c;
	}
	out[n] = '\0';
}

/* A depth or an energy of a day needs no "per day". */
static void drop_day(char *name, enum tarn_column like)
{
	size_t n = strlen(name);

	if (like != TARN_RAIN && like != TARN_SOLAR)
		return;
	if (n > 4 && strcmp(name + n - 4, "/day") == 0)
		name[n - 4] = '\0';
	else if (n > 2 && strcmp(name + n - 2, "/d") == 0)
		name[n - 2] = '\0';
}

const struct tarn_weather_unit *tn_unit_text(enum tarn_column c,
					     struct text name)
{
	enum tarn_column like = tn_column_like(c);
	char want[32], have[32];

	canonical(name, want);
	drop_day(want, like);
	if (!want[0])
		return NULL;
	for (size_t i = 0; i < COUNT; i++) {
		if (units[i].like != like)
			continue;
		canonical(tn_text(units[i].name), have);
		if (strcmp(want, have) == 0 ||
		    tn_text_listed(tn_text(want), units[i].also))
			return &units[i];
	}
	return NULL;
}

const struct tarn_weather_unit *tarn_weather_unit(enum tarn_column c,
						  const char *name)
{
	return tn_unit_text(c, tn_text(name));
}

void tarn_weather_unit_list(enum tarn_column c, char *text, size_t size)
{
	size_t n = 0;

	text[0] = '\0';
	for (size_t i = 0; i < COUNT && n < size; i++)
		if (units[i].like == tn_column_like(c))
			n += (size_t)snprintf(text + n, size - n, "%s%s",
					      n ? ", " : "", units[i].name);
}
