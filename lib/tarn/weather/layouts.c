/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "heading.h"
#include "layouts.h"

/*
 * The open public layouts, as data.  What is marked 'from memory' was not
 * seen in a file or a document by those who wrote it here.
 */

#define END { TARN_COLUMNS, NULL, NULL, 0, 0 }

static int has(const struct header *h, const char *name)
{
	return tn_header_find(h, name, 0) >= 0;
}

/* ---- NOAA daily summaries: order, access and long form --------------- */

/* Tenths, whole percent and minutes: readme of the daily network, from
 * memory but for PRCP, TMAX, TMIN, AWND, EVAP. */
static const struct layout_column noaa[] = {
	{ TARN_TMIN, "TMIN", NULL, 1, 0 },
	{ TARN_TMAX, "TMAX", NULL, 1, 0 },
	{ TARN_TMEAN, "TAVG", NULL, 1, 0 },
	{ TARN_RAIN, "PRCP", NULL, 1, 0 },
	{ TARN_WIND, "AWND", NULL, 1, 0 },
	{ TARN_PAN, "EVAP", NULL, 1, 0 },
	{ TARN_DEWPOINT, "ADPT", NULL, 1, 0 },
	{ TARN_RH_MIN, "RHMN", "%", 1, 0 },
	{ TARN_RH_MAX, "RHMX", "%", 1, 0 },
	{ TARN_RH_MEAN, "RHAV", "%", 1, 0 },
	{ TARN_SUNSHINE, "TSUN", "min", 1, 0 },
	END
};

static const struct unit_set unit_sets[] = {
	{ "standard", "F", "inch", "mph", 1 },
	{ "metric", "C", "mm", "m/s", 1 },
	{ "tenths", "C", "mm", "m/s", 0.1 },
};

const struct unit_set *tn_unit_set(const char *name)
{
	for (size_t i = 0; i < sizeof unit_sets / sizeof unit_sets[0]; i++)
		if (strcmp(unit_sets[i].name, name) == 0)
			return &unit_sets[i];
	return NULL;
}

const char *tn_unit_set_unit(const struct unit_set *set, enum tarn_column c)
{
	switch (tn_column_like(c)) {
	case TARN_TMIN: return set->temperature;
	case TARN_WIND: return set->speed;
	case TARN_RAIN: return set->depth;
	default: return NULL;
	}
}

/* The global summary of the day shares names with these, in other units;
 * TEMP and FRSHTT are its own. */
static int fits_noaa(const struct header *h)
{
	if (!has(h, "STATION") || !has(h, "DATE") || has(h, "TEMP") ||
	    has(h, "FRSHTT"))
		return 0;
	for (const struct layout_column *c = noaa; c->name; c++)
		if (has(h, c->name))
			return 1;
	return 0;
}

static int fits_access(const struct header *h)
{
	static const char *const head[] = { "STATION", "DATE", "LATITUDE",
					    "LONGITUDE", "ELEVATION", "NAME" };

	for (size_t i = 0; i < sizeof head / sizeof head[0]; i++)
		if (h->count <= i || !tn_text_is(h->name[i], head[i]))
			return 0;
	return fits_noaa(h);
}

/* "USC00473405,20150101,TMAX,..." */
int tn_layout_long_row(const struct header *h)
{
	if (h->count < 7 || h->count > 8 || h->name[0].length != 11 ||
	    h->name[1].length != 8 || h->name[2].length != 4)
		return 0;
	for (int i = 0; i < 8; i++)
		if (h->name[1].at[i] < '0' || h->name[1].at[i] > '9')
			return 0;
	return 1;
}

/* Some copies have a header; its names are from memory. */
static int fits_long(const struct header *h)
{
	return tn_layout_long_row(h) ||
	       (h->count >= 7 && tn_text_is(h->name[0], "ID") &&
		tn_text_is(h->name[1], "DATE") &&
		tn_text_is(h->name[2], "ELEMENT"));
}

/* ---- NASA POWER ------------------------------------------------------ */

static const struct layout_column power[] = {
	{ TARN_TMIN, "T2M_MIN", "C", 1, 0 },
	{ TARN_TMAX, "T2M_MAX", "C", 1, 0 },
	{ TARN_TMEAN, "T2M", "C", 1, 0 },
	{ TARN_RH_MEAN, "RH2M", "%", 1, 0 },
	{ TARN_DEWPOINT, "T2MDEW", "C", 1, 0 },
	{ TARN_WIND, "WS2M", "m/s", 1, 2 },
	{ TARN_WIND, "WS10M", "m/s", 1, 10 },
	{ TARN_SOLAR, "ALLSKY_SFC_SW_DWN", NULL, 1, 0 },
	{ TARN_RAIN, "PRECTOTCORR", "mm", 1, 0 },
	{ TARN_RAIN, "PRECTOT", "mm", 1, 0 },
	{ TARN_PRESSURE, "PS", "kPa", 1, 0 },
	END
};

static int fits_power(const struct header *h)
{
	if (!has(h, "YEAR") || !(has(h, "DOY") || has(h, "DY")))
		return 0;
	for (const struct layout_column *c = power; c->name; c++)
		if (has(h, c->name))
			return 1;
	return 0;
}

/* ---- Open-Meteo ------------------------------------------------------ */

/* Daily names, then hourly ones.  A maximum of wind is no mean: not used. */
static const struct layout_column meteo[] = {
	{ TARN_TMIN, "temperature_2m_min", NULL, 1, 0 },
	{ TARN_TMAX, "temperature_2m_max", NULL, 1, 0 },
	{ TARN_TMEAN, "temperature_2m_mean", NULL, 1, 0 },
	{ TARN_RH_MIN, "relative_humidity_2m_min", NULL, 1, 0 },
	{ TARN_RH_MAX, "relative_humidity_2m_max", NULL, 1, 0 },
	{ TARN_RH_MEAN, "relative_humidity_2m_mean", NULL, 1, 0 },
	{ TARN_DEWPOINT, "dew_point_2m_mean", NULL, 1, 0 },
	{ TARN_WIND, "wind_speed_10m_mean", NULL, 1, 10 },
	{ TARN_SUNSHINE, "sunshine_duration", NULL, 1, 0 },
	{ TARN_SOLAR, "shortwave_radiation_sum", NULL, 1, 0 },
	{ TARN_RAIN, "precipitation_sum", NULL, 1, 0 },
	{ TARN_RAIN, "rain_sum", NULL, 1, 0 },
	{ TARN_REFERENCE, "et0_fao_evapotranspiration", NULL, 1, 0 },
	{ TARN_PRESSURE, "surface_pressure_mean", NULL, 1, 0 },
	{ TARN_TMIN, "temperature_2m", NULL, 1, 0 },
	{ TARN_TMAX, "temperature_2m", NULL, 1, 0 },
	{ TARN_TMEAN, "temperature_2m", NULL, 1, 0 },
	{ TARN_RH_MIN, "relative_humidity_2m", NULL, 1, 0 },
	{ TARN_RH_MAX, "relative_humidity_2m", NULL, 1, 0 },
	{ TARN_RH_MEAN, "relative_humidity_2m", NULL, 1, 0 },
	{ TARN_DEWPOINT, "dew_point_2m", NULL, 1, 0 },
	{ TARN_WIND, "wind_speed_10m", NULL, 1, 10 },
	{ TARN_SOLAR, "shortwave_radiation", NULL, 1, 0 },
	{ TARN_RAIN, "precipitation", NULL, 1, 0 },
	{ TARN_RAIN, "rain", NULL, 1, 0 },
	{ TARN_PRESSURE, "surface_pressure", NULL, 1, 0 },
	END
};

static int fits_meteo(const struct header *h)
{
	if (!has(h, "time"))
		return 0;
	for (size_t i = 0; i < h->count; i++)
		for (const struct layout_column *c = meteo; c->name; c++) {
			struct text base = tn_heading_base(h->name[i]);

			if (base.length < h->name[i].length &&
			    tn_text_is(base, c->name))
				return 1;
		}
	return 0;
}

/* ---- Environment Canada, California, Australia ----------------------- */

static const struct layout_column eccc[] = {
	{ TARN_TMIN, "Min Temp", NULL, 1, 0 },
	{ TARN_TMAX, "Max Temp", NULL, 1, 0 },
	{ TARN_TMEAN, "Mean Temp", NULL, 1, 0 },
	{ TARN_RAIN, "Total Precip", NULL, 1, 0 },
	{ TARN_RAIN, "Total Rain", NULL, 1, 0 },
	END
};

static int fits_eccc(const struct header *h)
{
	return has(h, "Date/Time") && has(h, "Climate ID") &&
	       has(h, "Max Temp Flag");
}

/* Wind at 2 m: the network's standard, from memory. */
static const struct layout_column cimis[] = {
	{ TARN_TMIN, "Min Air Temp", NULL, 1, 0 },
	{ TARN_TMAX, "Max Air Temp", NULL, 1, 0 },
	{ TARN_TMEAN, "Avg Air Temp", NULL, 1, 0 },
	{ TARN_RH_MIN, "Min Rel Hum", NULL, 1, 0 },
	{ TARN_RH_MAX, "Max Rel Hum", NULL, 1, 0 },
	{ TARN_RH_MEAN, "Avg Rel Hum", NULL, 1, 0 },
	{ TARN_DEWPOINT, "Dew Point", NULL, 1, 0 },
	{ TARN_VAPOUR, "Avg Vap Pres", NULL, 1, 0 },
	{ TARN_WIND, "Avg Wind Speed", NULL, 1, 2 },
	{ TARN_SOLAR, "Sol Rad", NULL, 1, 0 },
	{ TARN_RAIN, "Precip", NULL, 1, 0 },
	{ TARN_REFERENCE, "ETo", NULL, 1, 0 },
	END
};

static int fits_cimis(const struct header *h)
{
	return has(h, "Stn Id") && has(h, "Date") && has(h, "CIMIS Region");
}

/* Units: from memory, but for radiation, rain, temperature and pan. */
static const struct layout_column silo[] = {
	{ TARN_TMIN, "min_temp", "C", 1, 0 },
	{ TARN_TMAX, "max_temp", "C", 1, 0 },
	{ TARN_VAPOUR, "vp", "hPa", 1, 0 },
	{ TARN_SOLAR, "radiation", "MJ/m2", 1, 0 },
	{ TARN_RAIN, "daily_rain", "mm", 1, 0 },
	{ TARN_PAN, "evap_pan", "mm", 1, 0 },
	{ TARN_REFERENCE, "et_short_crop", "mm", 1, 0 },
	END
};

static int fits_silo(const struct header *h)
{
	return has(h, "YYYY-MM-DD");
}

/*
 * Flags.  NOAA: attributes are "measurement,quality,source[,time]"; any
 * quality flag means a failed check.  ECCC, from memory: A accumulated, C and
 * L uncertain amount, F accumulated and estimated, M missing, N and Y
 * temperature missing.  CIMIS, from memory: R far out of range, S out of
 * service, I ignored, M missing, N not collected, P pending, Q questionable.
 * SILO, from memory: 0 is an observation, all else is interpolated.
 */
static const struct layout layouts[] = {
	{ .name = "noaa_access", .fits = fits_access, .columns = noaa,
	  .units = "tenths", .date = "DATE", .format = "%Y-%m-%d",
	  .station = "STATION", .site_name = "NAME", .latitude = "LATITUDE",
	  .elevation = "ELEVATION", .missing = "9999 -9999",
	  .total = "MDPR", .total_days = "DAPR",
	  .flag = { FLAG_SUFFIX, "_ATTRIBUTES", 0, 2, "*", "" } },
	{ .name = "noaa_order", .fits = fits_noaa, .columns = noaa,
	  .units = "", .date = "DATE", .format = "%Y-%m-%d",
	  .station = "STATION", .site_name = "NAME", .latitude = "LATITUDE",
	  .elevation = "ELEVATION", .missing = "9999 -9999",
	  .total = "MDPR", .total_days = "DAPR",
	  .flag = { FLAG_SUFFIX, "_ATTRIBUTES", 0, 2, "*", "" } },
	{ .name = "noaa_long", .fits = fits_long, .columns = noaa,
	  .long_form = 1, .units = "tenths", .format = "%Y%m%d",
	  .missing = "9999 -9999",
	  .total = "MDPR", .total_days = "DAPR",
	  .flag = { FLAG_INDEX, NULL, 6, 0, "*", "" } },
	{ .name = "nasa_power", .fits = fits_power, .columns = power,
	  .year = "YEAR", .month = "MO", .day = "DY", .day_of_year = "DOY",
	  .missing = "-999" },
	{ .name = "open_meteo", .fits = fits_meteo, .columns = meteo,
	  .with_units = 1, .date = "time", .station = "location_id" },
	{ .name = "eccc", .fits = fits_eccc, .columns = eccc,
	  .with_units = 1, .date = "Date/Time", .format = "%Y-%m-%d",
	  .station = "Climate ID", .site_name = "Station Name",
	  .latitude = "Latitude (y)",
	  .flag = { FLAG_SUFFIX, " Flag", 0, 0, "A C F L M N Y", "" } },
	{ .name = "cimis", .fits = fits_cimis, .columns = cimis,
	  .with_units = 1, .date = "Date", .format = "%m/%d/%Y",
	  .station = "Stn Id", .site_name = "Stn Name",
	  .flag = { FLAG_NEXT, "qc", 0, 0, "R S I M N P Q", "" } },
	{ .name = "silo", .fits = fits_silo, .columns = silo,
	  .date = "YYYY-MM-DD", .format = "%Y-%m-%d",
	  .latitude = "latitude", .undated = 1,
	  .flag = { FLAG_SUFFIX, "_source", 0, 0, "", "0" } },
};

#define COUNT (sizeof layouts / sizeof layouts[0])

const struct layout *tn_layout(size_t i)
{
	return i < COUNT ? &layouts[i] : tn_layout_of_service(i - COUNT);
}

const struct layout *tn_layout_find(const char *name)
{
	const struct layout *layout;
	size_t i = 0;

	while ((layout = tn_layout(i++)) != NULL)
		if (strcmp(layout->name, name) == 0)
			break;
	return layout;
}
