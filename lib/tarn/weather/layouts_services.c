/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "heading.h"
#include "layouts.h"

/*
 * Daily and hourly files of national services, as data.  Their names are
 * short, and say no unit: it stands in the service's description.  Headers
 * were seen in copies of the services' files; a unit or a code that was not
 * seen is marked 'from memory'.
 */

#define END { TARN_COLUMNS, NULL, NULL, 0, 0 }

static int has(const struct header *h, const char *name)
{
	return tn_header_find(h, name, 0) >= 0;
}

/* ---- NOAA's global summary of the day -------------------------------------- */

/*
 * Its description (GSOD_DESC.txt): temperatures in F, wind in knots, rain in
 * inches.  The pressure at the station (STP) has lost its thousands: not read.
 * Flags of rain: H, nothing measured though rain was seen, and I, neither
 * measured nor seen, so that rain may have fallen.  Those of temperatures are
 * counts of readings, and * where the extreme is that of the hours.
 */
static const struct layout_column gsod[] = {
	{ TARN_TMIN, "MIN", "F", 1, 0 },
	{ TARN_TMAX, "MAX", "F", 1, 0 },
	{ TARN_TMEAN, "TEMP", "F", 1, 0 },
	{ TARN_DEWPOINT, "DEWP", "F", 1, 0 },
	{ TARN_WIND, "WDSP", "knots", 1, 0 },
	{ TARN_RAIN, "PRCP", "inch", 1, 0 },
	END
};

static int fits_gsod(const struct header *h)
{
	return has(h, "STATION") && has(h, "DATE") && has(h, "TEMP") &&
	       has(h, "FRSHTT");
}

/* ---- Deutscher Wetterdienst ------------------------------------------------- */

/* Units: the service's description of the parameters that comes with them. */
static const struct layout_column dwd[] = {
	{ TARN_TMIN, "TNK", "C", 1, 0 },
	{ TARN_TMAX, "TXK", "C", 1, 0 },
	{ TARN_TMEAN, "TMK", "C", 1, 0 },
	{ TARN_RH_MEAN, "UPM", "%", 1, 0 },
	{ TARN_VAPOUR, "VPM", "hPa", 1, 0 },
	{ TARN_WIND, "FM", "m/s", 1, 0 },
	{ TARN_SUNSHINE, "SDK", "h", 1, 0 },
	{ TARN_RAIN, "RSK", "mm", 1, 0 },
	{ TARN_RAIN, "RS", "mm", 1, 0 },
	{ TARN_PRESSURE, "PM", "hPa", 1, 0 },
	/* by the hour */
	{ TARN_TMIN, "TT_TU", "C", 1, 0 },
	{ TARN_TMAX, "TT_TU", "C", 1, 0 },
	{ TARN_TMEAN, "TT_TU", "C", 1, 0 },
	{ TARN_RH_MEAN, "RF_TU", "%", 1, 0 },
	{ TARN_RAIN, "R1", "mm", 1, 0 },
	END
};

static int fits_dwd(const struct header *h)
{
	if (!has(h, "STATIONS_ID") || !has(h, "MESS_DATUM"))
		return 0;
	for (const struct layout_column *c = dwd; c->name; c++)
		if (has(h, c->name))
			return 1;
	return 0;
}

/* ---- KNMI -------------------------------------------------------------------- */

/* Units: the lines above the header, in tenths; -1 is less than half a tenth
 * there.  FG is the mean of a day, FH that of an hour. */
static const struct layout_column knmi[] = {
	{ TARN_TMIN, "TN", "C", 0.1, 0 },
	{ TARN_TMAX, "TX", "C", 0.1, 0 },
	{ TARN_TMEAN, "TG", "C", 0.1, 0 },
	{ TARN_RH_MIN, "UN", "%", 1, 0 },
	{ TARN_RH_MAX, "UX", "%", 1, 0 },
	{ TARN_RH_MEAN, "UG", "%", 1, 0 },
	{ TARN_WIND, "FG", "m/s", 0.1, 0 },
	{ TARN_SUNSHINE, "SQ", "h", 0.1, 0 },
	{ TARN_SOLAR, "Q", "J/cm2", 1, 0 },
	{ TARN_RAIN, "RH", "mm", 0.1, 0 },
	/* by the hour */
	{ TARN_TMIN, "T", "C", 0.1, 0 },
	{ TARN_TMAX, "T", "C", 0.1, 0 },
	{ TARN_TMEAN, "T", "C", 0.1, 0 },
	{ TARN_DEWPOINT, "TD", "C", 0.1, 0 },
	{ TARN_RH_MEAN, "U", "%", 1, 0 },
	{ TARN_WIND, "FH", "m/s", 0.1, 0 },
	END
};

static int fits_knmi(const struct header *h)
{
	return has(h, "STN") && has(h, "YYYYMMDD") &&
	       (has(h, "TX") || has(h, "RH") || has(h, "FG"));
}

/* ---- Meteo-France -------------------------------------------------------------- */

/*
 * Units: its descriptions of the fields; of GLOT, GLO, INST, INS from memory.
 * FFM and FF are means at 10 m.  A quality of 2 is a doubtful value (from
 * memory); 0, 1 and 9 are kept.
 */
static const struct layout_column france[] = {
	{ TARN_TMIN, "TN", "C", 1, 0 },
	{ TARN_TMAX, "TX", "C", 1, 0 },
	{ TARN_TMEAN, "TM", "C", 1, 0 },
	{ TARN_WIND, "FFM", "m/s", 1, 10 },
	{ TARN_SUNSHINE, "INST", "min", 1, 0 },
	{ TARN_SOLAR, "GLOT", "J/cm2", 1, 0 },
	{ TARN_RAIN, "RR", "mm", 1, 0 },
	{ TARN_RH_MIN, "UN", "%", 1, 0 },
	{ TARN_RH_MAX, "UX", "%", 1, 0 },
	{ TARN_RH_MEAN, "UM", "%", 1, 0 },
	END
};

static int fits_france(const struct header *h)
{
	return has(h, "NUM_POSTE") && has(h, "AAAAMMJJ");
}

static const struct layout_column france_hours[] = {
	{ TARN_TMIN, "TN", "C", 1, 0 },
	{ TARN_TMAX, "TX", "C", 1, 0 },
	{ TARN_TMEAN, "T", "C", 1, 0 },
	{ TARN_DEWPOINT, "TD", "C", 1, 0 },
	{ TARN_WIND, "FF", "m/s", 1, 10 },
	{ TARN_SUNSHINE, "INS", "min", 1, 0 },
	{ TARN_SOLAR, "GLO", "J/cm2", 1, 0 },
	{ TARN_RAIN, "RR1", "mm", 1, 0 },
	{ TARN_RH_MEAN, "U", "%", 1, 0 },
	END
};

static int fits_france_hours(const struct header *h)
{
	return has(h, "NUM_POSTE") && has(h, "AAAAMMJJHH");
}

/* ---- Met Eireann ----------------------------------------------------------------- */

/* Units: the lines above the header. */
static const struct layout_column eireann[] = {
	{ TARN_TMIN, "mintp", "C", 1, 0 },
	{ TARN_TMAX, "maxtp", "C", 1, 0 },
	{ TARN_WIND, "wdsp", "knots", 1, 0 },
	{ TARN_SOLAR, "glorad", "J/cm2", 1, 0 },
	{ TARN_RAIN, "rain", "mm", 1, 0 },
	{ TARN_SUNSHINE, "sun", "h", 1, 0 },
	/* by the hour */
	{ TARN_TMIN, "temp", "C", 1, 0 },
	{ TARN_TMAX, "temp", "C", 1, 0 },
	{ TARN_TMEAN, "temp", "C", 1, 0 },
	{ TARN_DEWPOINT, "dewpt", "C", 1, 0 },
	{ TARN_RH_MEAN, "rhum", "%", 1, 0 },
	END
};

static int fits_eireann(const struct header *h)
{
	return has(h, "date") && has(h, "ind") && has(h, "rain") &&
	       (has(h, "maxtp") || has(h, "rhum"));
}

/* ---- AEMET ----------------------------------------------------------------------- */

/* Units: from memory.  Ip is less than 0.1 mm, Acum a part of a later total
 * (both from memory). */
static const struct layout_column aemet[] = {
	{ TARN_TMIN, "tmin", "C", 1, 0 },
	{ TARN_TMAX, "tmax", "C", 1, 0 },
	{ TARN_TMEAN, "tmed", "C", 1, 0 },
	{ TARN_RH_MIN, "hrMin", "%", 1, 0 },
	{ TARN_RH_MAX, "hrMax", "%", 1, 0 },
	{ TARN_RH_MEAN, "hrMedia", "%", 1, 0 },
	{ TARN_WIND, "velmedia", "m/s", 1, 0 },
	{ TARN_SUNSHINE, "sol", "h", 1, 0 },
	{ TARN_RAIN, "prec", "mm", 1, 0 },
	END
};

static int fits_aemet(const struct header *h)
{
	return has(h, "fecha") && has(h, "indicativo") && has(h, "prec");
}

/* ---- MeteoSwiss ------------------------------------------------------------------ */

/* Units: its list of parameters; of gre, ure, pres and tde from memory.  By the
 * day, by the hour, by ten minutes. */
static const struct layout_column swiss[] = {
	{ TARN_TMIN, "tre200dn", "C", 1, 0 },
	{ TARN_TMAX, "tre200dx", "C", 1, 0 },
	{ TARN_TMEAN, "tre200d0", "C", 1, 0 },
	{ TARN_RH_MEAN, "ure200d0", "%", 1, 0 },
	{ TARN_WIND, "fkl010d0", "m/s", 1, 10 },
	{ TARN_SUNSHINE, "sre000d0", "min", 1, 0 },
	{ TARN_SOLAR, "gre000d0", "W/m2", 1, 0 },
	{ TARN_RAIN, "rka150d0", "mm", 1, 0 },
	{ TARN_RAIN, "rre150d0", "mm", 1, 0 },
	{ TARN_PRESSURE, "prestad0", "hPa", 1, 0 },
	{ TARN_TMIN, "tre200hn", "C", 1, 0 },
	{ TARN_TMAX, "tre200hx", "C", 1, 0 },
	{ TARN_TMEAN, "tre200h0", "C", 1, 0 },
	{ TARN_RH_MEAN, "ure200h0", "%", 1, 0 },
	{ TARN_WIND, "fkl010h0", "m/s", 1, 10 },
	{ TARN_SUNSHINE, "sre000h0", "min", 1, 0 },
	{ TARN_SOLAR, "gre000h0", "W/m2", 1, 0 },
	{ TARN_RAIN, "rre150h0", "mm", 1, 0 },
	{ TARN_PRESSURE, "prestah0", "hPa", 1, 0 },
	{ TARN_TMIN, "tre200s0", "C", 1, 0 },
	{ TARN_TMAX, "tre200s0", "C", 1, 0 },
	{ TARN_TMEAN, "tre200s0", "C", 1, 0 },
	{ TARN_DEWPOINT, "tde200s0", "C", 1, 0 },
	{ TARN_RH_MEAN, "ure200s0", "%", 1, 0 },
	{ TARN_WIND, "fkl010z0", "m/s", 1, 10 },
	{ TARN_SUNSHINE, "sre000z0", "min", 1, 0 },
	{ TARN_SOLAR, "gre000z0", "W/m2", 1, 0 },
	{ TARN_RAIN, "rre150z0", "mm", 1, 0 },
	{ TARN_PRESSURE, "prestas0", "hPa", 1, 0 },
	END
};

static int fits_swiss(const struct header *h)
{
	for (const struct layout_column *c = swiss; c->name; c++)
		if (has(h, c->name))
			return 1;
	return 0;
}

/* ---- airports, by the hour ------------------------------------------------------------ */

/* Reports of airports (METAR) as archives of them print: the units are in the
 * names, by letters.  Wind at 10 m and rain since the last full hour: from
 * memory. */
static const struct layout_column airport[] = {
	{ TARN_TMIN, "tmpf", "F", 1, 0 },
	{ TARN_TMAX, "tmpf", "F", 1, 0 },
	{ TARN_TMEAN, "tmpf", "F", 1, 0 },
	{ TARN_TMIN, "tmpc", "C", 1, 0 },
	{ TARN_TMAX, "tmpc", "C", 1, 0 },
	{ TARN_TMEAN, "tmpc", "C", 1, 0 },
	{ TARN_DEWPOINT, "dwpf", "F", 1, 0 },
	{ TARN_DEWPOINT, "dwpc", "C", 1, 0 },
	{ TARN_RH_MEAN, "relh", "%", 1, 0 },
	{ TARN_WIND, "sknt", "knots", 1, 10 },
	{ TARN_RAIN, "p01i", "inch", 1, 0 },
	{ TARN_RAIN, "p01m", "mm", 1, 0 },
	END
};

static int fits_airport(const struct header *h)
{
	return has(h, "station") && has(h, "valid") &&
	       (has(h, "tmpf") || has(h, "tmpc"));
}

/* ---- Australia's Bureau of Meteorology --------------------------------------------- */

/* One quantity a file; rain may be that of several days. */
static const struct layout_column bom[] = {
	{ TARN_TMIN, "Minimum temperature", "C", 1, 0 },
	{ TARN_TMAX, "Maximum temperature", "C", 1, 0 },
	{ TARN_SOLAR, "Daily global solar exposure", "MJ/m2", 1, 0 },
	{ TARN_RAIN, "Rainfall amount", "mm", 1, 0 },
	END
};

static int fits_bom(const struct header *h)
{
	return has(h, "Product code") && has(h, "Year") && has(h, "Day");
}

static const struct layout layouts[] = {
	{ .name = "noaa_gsod", .fits = fits_gsod, .columns = gsod,
	  .date = "DATE", .format = "%Y-%m-%d", .station = "STATION",
	  .site_name = "NAME", .latitude = "LATITUDE",
	  .elevation = "ELEVATION", .missing = "9999.9 999.9 99.99",
	  .flag = { FLAG_RAIN, "PRCP_ATTRIBUTES", 0, 0, "H I",
		    "A B C D E F G" } },
	{ .name = "dwd", .fits = fits_dwd, .columns = dwd,
	  .date = "MESS_DATUM", .station = "STATIONS_ID",
	  .missing = "-999" },
	{ .name = "knmi", .fits = fits_knmi, .columns = knmi,
	  .date = "YYYYMMDD", .format = "%Y%m%d", .station = "STN",
	  .trace = "-1" },
	{ .name = "meteo_france", .fits = fits_france, .columns = france,
	  .date = "AAAAMMJJ", .format = "%Y%m%d", .station = "NUM_POSTE",
	  .site_name = "NOM_USUEL", .latitude = "LAT", .elevation = "ALTI",
	  .flag = { FLAG_PREFIX, "Q", 0, 0, "2", "0 1 9" } },
	{ .name = "meteo_france_h", .fits = fits_france_hours,
	  .columns = france_hours, .date = "AAAAMMJJHH",
	  .format = "%Y%m%d%H", .station = "NUM_POSTE",
	  .site_name = "NOM_USUEL", .latitude = "LAT", .elevation = "ALTI",
	  .flag = { FLAG_PREFIX, "Q", 0, 0, "2", "0 1 9" } },
	{ .name = "met_eireann", .fits = fits_eireann, .columns = eireann,
	  .date = "date" },
	{ .name = "aemet", .fits = fits_aemet, .columns = aemet,
	  .date = "fecha", .format = "%Y-%m-%d", .station = "indicativo",
	  .site_name = "nombre", .elevation = "altitud",
	  .missing = "Acum", .trace = "Ip" },
	{ .name = "meteoswiss", .fits = fits_swiss, .columns = swiss,
	  .station = "station_abbr", .missing = "-" },
	{ .name = "airport", .fits = fits_airport, .columns = airport,
	  .date = "valid", .station = "station", .latitude = "lat",
	  .elevation = "elevation" },
	{ .name = "bom", .fits = fits_bom, .columns = bom, .with_units = 1,
	  .year = "Year", .month = "Month", .day = "Day",
	  .station = "Bureau of Meteorology station number",
	  .total_days = "Period over which rainfall was measured (days)" },
};

#define COUNT (sizeof layouts / sizeof layouts[0])

const struct layout *tn_layout_of_service(size_t i)
{
	return i < COUNT ? &layouts[i] : NULL;
}
