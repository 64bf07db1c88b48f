/* SPDX-License-Identifier: MIT */
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include "web.h"

/* ---- the map ----------------------------------------------------------- */

WEB(web_map) void web_map(void);
WEB(web_map) void web_map(void)
{
	web.map = tarn_csv_map_default();
}

/* Texts of the map that the page may set. */
static const struct {
	const char *name;
	size_t offset, size;
} texts[] = {
#define TEXT(name, member) \
	{ name, offsetof(struct tarn_csv_map, member), \
	  sizeof web.map.member }
	TEXT("layout", layout), TEXT("units", units), TEXT("skip_to", skip_to),
	TEXT("date", date.name), TEXT("year", year.name),
	TEXT("month", month.name), TEXT("day", day.name),
	TEXT("doy", day_of_year.name), TEXT("hour", hour.name),
	TEXT("format", date_format), TEXT("trace", trace),
	TEXT("station", station_id), TEXT("station_column", station.name),
	TEXT("element", element.name), TEXT("value", value.name),
	TEXT("name", site.name),
#undef TEXT
};

/* Fails: there is no such name; too long. */
WEB(web_map_text) int web_map_text(const char *name, const char *text);
WEB(web_map_text) int web_map_text(const char *name, const char *text)
{
	for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
		if (strcmp(texts[i].name, name) != 0)
			continue;
		if (strlen(text) >= texts[i].size)
			return web_mistake("%s must be shorter than %d "
					   "characters", name,
					   (int)texts[i].size);
		strcpy((char *)&web.map + texts[i].offset, text);
		return 1;
	}
	return web_mistake("unknown field '%s'", name);
}

/* Numbers, choices by index, switches.  Fails: there is no such name; out of
 * range. */
WEB(web_map_number) int web_map_number(const char *name, double value);
WEB(web_map_number) int web_map_number(const char *name, double value)
{
	struct tarn_csv_map *m = &web.map;
	const struct {
		const char *name;
		double *number;
		int *whole;
		double lo, hi;
		const char *unit;
	} numbers[] = {
		{ "latitude", &m->site.latitude_deg, NULL, -90, 90, "deg" },
		{ "elevation", &m->site.elevation_m, NULL, -430, 6000, "m" },
		{ "wind_height", &m->site.wind_height_m, NULL, 0.5, 100, "m" },
		{ "skip", NULL, &m->skip_lines, 0, 1e6, "-" },
		{ "hours", NULL, &m->hours, 0, 1440, "-" },
		{ "hour_shift", NULL, &m->hour_shift, -36, 36, "-" },
		{ "no_header", NULL, &m->no_header, 0, 1, "-" },
		{ "undated", NULL, &m->undated, 0, 1, "-" },
		{ "order", NULL, (int *)&m->order, 0, 2, "-" },
		{ "duplicates", NULL, (int *)&m->duplicates, 0, 2, "-" },
		{ "outliers", NULL, (int *)&m->outliers, 0, 1, "-" },
		{ "totals", NULL, (int *)&m->totals, 0, 2, "-" },
	};

	if (strcmp(name, "delimiter") == 0 || strcmp(name, "decimal") == 0) {
		*(name[2] == 'l' ? &m->delimiter : &m->decimal) = (char)value;
		return 1;
	}
	for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
		if (strcmp(numbers[i].name, name) != 0)
			continue;
		if (!(value >= numbers[i].lo && value <= numbers[i].hi))
			return web_mistake("%s [%s] must be %.6g to %.6g, got "
					   "%.6g", name, numbers[i].unit,
					   numbers[i].lo, numbers[i].hi,
					   value);
		if (numbers[i].number)
			*numbers[i].number = value;
		else
			*numbers[i].whole = (int)value;
		return 1;
	}
	return web_mistake("unknown field '%s'", name);
}

/* Column c stands under that heading ("": as the layout has it), in that unit
 * ("": as the file says). */
WEB(web_map_column) int web_map_column(const char *column, const char *name,
				       const char *unit);
WEB(web_map_column) int web_map_column(const char *column, const char *name,
				       const char *unit)
{
	enum tarn_column c = tarn_column_find(column);

	if (c == TARN_COLUMNS)
		return web_mistake("no weather column is called '%s'", column);
	tarn_csv_map_set(&web.map, c, name, unit);
	return 1;
}

WEB(web_map_missing) int web_map_missing(int i, const char *token);
WEB(web_map_missing) int web_map_missing(int i, const char *token)
{
	if (i < 0 || i >= TARN_CSV_TOKENS_MAX ||
	    strlen(token) >= sizeof web.map.missing[0])
		return web_mistake("missing can hold %d strings",
				   TARN_CSV_TOKENS_MAX);
	strcpy(web.map.missing[i], token);
	return 1;
}

/* ---- reading ----------------------------------------------------------- */

/* Reads a file's bytes by the map; what was read before stays if it fails. */
WEB(web_read) int web_read(const char *path, const char *bytes, size_t count);
WEB(web_read) int web_read(const char *path, const char *bytes, size_t count)
{
	struct tarn_weather *w;

	if (tarn_weather_read_text(&w, NULL, bytes, count, &web.map,
				   &web.report, web_error()) != TARN_OK)
		return web_fail(path);
	tarn_weather_free(web.weather);
	web.weather = w;
	return 1;
}

/* Bridges gaps of up to so many days; takes missing rain as dry. */
WEB(web_fill) int web_fill(const char *path, int days, int dry);
WEB(web_fill) int web_fill(const char *path, int days, int dry)
{
	struct tarn_fill fill = tarn_fill_default();

	fill.interpolate_days = days;
	fill.rain = dry ? TARN_RAIN_ZERO : TARN_RAIN_ERROR;
	if (tarn_weather_fill(web.weather, &fill, NULL, web_error()) ==
	    TARN_OK)
		return 1;
	return web_fail(path);
}

/* ---- looking at it ----------------------------------------------------- */

WEB(web_weather_days) size_t web_weather_days(void);
WEB(web_weather_days) size_t web_weather_days(void)
{
	return web.weather ? tarn_weather_days(web.weather) : 0;
}

WEB(web_weather_first) long web_weather_first(void);
WEB(web_weather_first) long web_weather_first(void)
{
	return web.weather ? tarn_weather_first(web.weather) : TARN_NO_DAY;
}

WEB(web_layout) const char *web_layout(void);
WEB(web_layout) const char *web_layout(void)
{
	return web.report.layout;
}

WEB(web_note) const char *web_note(size_t i);
WEB(web_note) const char *web_note(size_t i)
{
	return web.weather ? tarn_weather_note(web.weather, i) : NULL;
}

WEB(web_columns) int web_columns(void);
WEB(web_columns) int web_columns(void)
{
	return TARN_COLUMNS;
}

/* what: 0 name, 1 unit, 2 meaning, 3 units that it takes ("C, F, K").
 * Borrowed. */
WEB(web_column_text) const char *web_column_text(int c, int what);
WEB(web_column_text) const char *web_column_text(int c, int what)
{
	static char list[240];
	const struct tarn_column_info *info =
		tarn_column_info((enum tarn_column)c);

	if (what == 3) {
		tarn_weather_unit_list((enum tarn_column)c, list, sizeof list);
		return list;
	}
	return what == 0 ? info->name : what == 1 ? info->unit : info->meaning;
}

WEB(web_summary) const struct tarn_column_summary *web_summary(int c);
WEB(web_summary) const struct tarn_column_summary *web_summary(int c)
{
	static struct tarn_column_summary summary;

	if (!web.weather)
		return NULL;
	summary = tarn_weather_summary(web.weather, (enum tarn_column)c);
	return &summary;
}

/* Latitude, elevation and wind height of the station; NaN: not known. */
WEB(web_site) double web_site(int which);
WEB(web_site) double web_site(int which)
{
	const struct tarn_site *s;

	if (!web.weather)
		return TARN_NAN;
	s = tarn_weather_site_of(web.weather);
	return which == 0 ? s->latitude_deg : which == 1 ? s->elevation_m
							 : s->wind_height_m;
}
