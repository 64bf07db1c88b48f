/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

#include "tarn/weather.h"

/* Maps: what they refuse, and what no file of tests/good says. */

static const char *const two_days = "date,rain_mm,x\n2015-01-01,1,5\n"
				    "2015-01-02,2,6\n";

static struct tarn_weather *read_text(const char *text,
				      const struct tarn_csv_map *map,
				      struct tarn_read_report *report,
				      struct tarn_error *err)
{
	struct tarn_weather *w;

	tarn_weather_read_text(&w, NULL, text, strlen(text), map, report, err);
	return w;
}

/* Days without any value at either end are left out, and the first day follows
 * from that. */
Test(weather_map, the_first_day_is_the_first_with_a_value)
{
	static const char text[] = "date,rain_mm,tmin_c\n2015-01-01,,\n"
		"2015-01-02,,\n2015-01-03,1,\n2015-01-04,,2\n"
		"2015-01-05,,\n";
	struct tarn_read_report report;
	struct tarn_error err = { 0 };
	struct tarn_weather *w = read_text(text, NULL, &report, &err);

	cr_assert(w != NULL, "%s", err.text);
	cr_expect(tarn_weather_first(w) == tarn_day(2015, 1, 3));
	cr_expect(tarn_weather_days(w) == 2 && report.trimmed == 3);
	cr_expect(tarn_weather_column(w, TARN_RAIN)[0] == 1);
	cr_expect(tarn_weather_column(w, TARN_TMIN)[1] == 2);
	tarn_weather_free(w);
}

static void skip_back(struct tarn_csv_map *m) { m->skip_lines = -1; }
static void blank(struct tarn_csv_map *m) { m->delimiter = ' '; }
static void quote(struct tarn_csv_map *m) { m->delimiter = '"'; }
static void no_decimal(struct tarn_csv_map *m) { m->decimal = ';'; }
static void same(struct tarn_csv_map *m)
{
	m->delimiter = m->decimal = ',';
}
static void many_hours(struct tarn_csv_map *m) { m->hours = 1441; }
static void no_columns(struct tarn_csv_map *m) { strcpy(m->layout, "none"); }
static void sorted_hours(struct tarn_csv_map *m)
{
	m->hours = 24;
	m->order = TARN_ORDER_SORT;
}
static void last_hours(struct tarn_csv_map *m)
{
	m->hours = 24;
	m->duplicates = TARN_DUPLICATES_LAST;
}
static void no_scale(struct tarn_csv_map *m)
{
	tarn_csv_map_set(m, TARN_RAIN, "rain_mm", "mm");
	m->column[TARN_RAIN].scale = 0;
}
static void no_value(struct tarn_csv_map *m)
{
	tarn_csv_map_set(m, TARN_RAIN, "rain_mm", "mm");
	m->element.index = 2;
}
static void no_element(struct tarn_csv_map *m)
{
	m->column[TARN_RAIN].place.index = 1;
	m->element.index = 2;
	m->value.index = 3;
}
static void half_a_date(struct tarn_csv_map *m)
{
	tarn_csv_map_set(m, TARN_RAIN, "rain_mm", "mm");
	m->year.index = 1;
}
static void no_flag(struct tarn_csv_map *m)
{
	tarn_csv_map_set(m, TARN_RAIN, "rain_mm", "mm");
	strcpy(m->column[TARN_RAIN].flag.place.name, "q");
}
static void no_station(struct tarn_csv_map *m)
{
	strcpy(m->station.name, "id");
}

Test(weather_map, refused)
{
	static const struct {
		void (*change)(struct tarn_csv_map *);
		const char *field;
	} rows[] = {
		{ skip_back, "skip" },	       { blank, "delimiter" },
		{ quote, "delimiter" },	       { no_decimal, "decimal" },
		{ same, "decimal" },	       { many_hours, "hours" },
		{ sorted_hours, "hours" },     { last_hours, "hours" },
		{ no_columns, "columns" },     { no_scale, "units.rain" },
		{ no_value, "value" },	       { no_element, "columns.rain" },
		{ half_a_date, "date" },       { no_flag, "flag of rain" },
		{ no_station, "station" },
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct tarn_csv_map map = tarn_csv_map_default();
		struct tarn_error err = { 0 };

		rows[i].change(&map);
		cr_expect(!read_text(two_days, &map, NULL, &err));
		cr_expect_str_eq(err.field, rows[i].field, "%zu: %s", i,
				 err.text);
		cr_expect(err.text[0] && err.code != TARN_OK);
	}
}

Test(weather_map, a_column_can_be_left_out)
{
	struct tarn_csv_map map = tarn_csv_map_default();
	struct tarn_weather *w;

	map.column[TARN_RAIN].place.index = -1;
	tarn_csv_map_set(&map, TARN_TMIN, "x", "C");
	strcpy(map.layout, "plain");
	w = read_text(two_days, &map, NULL, NULL);
	cr_assert(w);
	cr_expect(!tarn_weather_column(w, TARN_RAIN));
	cr_expect(tarn_weather_column(w, TARN_TMIN)[1] > 5.9);
	tarn_weather_free(w);
}

Test(weather_map, what_the_map_says_of_the_site_wins)
{
	const char *text = "STATION,NAME,LATITUDE,ELEVATION,DATE,PRCP\n"
			   "A,Here,95,-999.9,2015-01-01,1\n";
	struct tarn_csv_map map = tarn_csv_map_default();
	struct tarn_weather *w;

	strcpy(map.units, "metric");
	w = read_text(text, &map, NULL, NULL);
	cr_assert(w);
	cr_expect_str_eq(tarn_weather_site_of(w)->name, "Here");
	/* no such place: not known */
	cr_expect(isnan(tarn_weather_site_of(w)->latitude_deg));
	cr_expect(isnan(tarn_weather_site_of(w)->elevation_m));
	tarn_weather_free(w);
	strcpy(map.site.name, "There");
	map.site.latitude_deg = 5;
	w = read_text(text, &map, NULL, NULL);
	cr_assert(w);
	cr_expect_str_eq(tarn_weather_site_of(w)->name, "There");
	cr_expect(tarn_weather_site_of(w)->latitude_deg > 4.9);
	tarn_weather_free(w);
}

/* A map of one's own in the long form, with totals of several days. */
Test(weather_map, long_form)
{
	const char *text = "when,what,how much\n"
			   "2015-01-04,sum,6\n2015-01-04,days,2\n"
			   "2015-01-01,rain,1\n2015-01-01,rain,7\n"
			   "2015-01-05,wind,3\n2015-01-02,sum,9\n"
			   "2015-01-02,days,500\n";
	struct tarn_csv_map map = tarn_csv_map_default();
	struct tarn_error err = { 0 };
	struct tarn_read_report report;
	struct tarn_weather *w;

	strcpy(map.date.name, "when");
	strcpy(map.element.name, "what");
	strcpy(map.value.name, "how much");
	tarn_csv_map_set(&map, TARN_RAIN, "rain", "mm");
	strcpy(map.total.place.name, "sum");
	strcpy(map.total_days.name, "days");
	map.order = TARN_ORDER_SORT;
	map.duplicates = TARN_DUPLICATES_FIRST;
	map.totals = TARN_TOTALS_SPREAD;
	cr_expect(!read_text(text, &map, NULL, &err));
	cr_expect(err.line == 8 && strstr(err.text, "no number of days"));
	map.outliers = TARN_OUTLIERS_MISSING;
	w = read_text(text, &map, &report, NULL);
	cr_assert(w);
	cr_expect(report.duplicates == 1 && report.totals == 2 &&
		  report.totals_days == 3);
	cr_expect(report.trimmed == 1);	/* the day of the wind alone */
	cr_expect(tarn_weather_days(w) == 4);
	for (size_t i = 0; i < 4; i++)	/* 1; 9; 6 over two days */
		cr_expect(fabs(tarn_weather_column(w, TARN_RAIN)[i] -
			       (double[]){ 1, 9, 3, 3 }[i]) < 1e-15, "%zu", i);
	tarn_weather_free(w);
}

Test(weather_map, hours_leave_the_calendar)
{
	struct tarn_csv_map map = tarn_csv_map_default();
	struct tarn_error err = { 0 };

	map.hours = 1;
	map.hour_shift = -1;
	cr_expect(!read_text("date,rain_mm\n1800-01-01,1\n", &map, NULL,
			     &err));
	cr_expect(strstr(err.text, "a day outside 1800 to 2200") != NULL);
}

Test(weather_reader, stays_failed)
{
	struct tarn_error err = { 0 }, again = { 0 };
	enum tarn_status status = TARN_OK;
	struct tarn_reader *r;
	struct tarn_weather *w;

	cr_assert(tarn_reader_new(&r, NULL, NULL, NULL) == TARN_OK);
	/* 32768 bytes of the file, and as many behind its header, wait */
	for (int i = 0; i < 8193; i++) {
		cr_assert(status == TARN_OK);
		status = tarn_reader_feed(r, "a,b\n", 4, &err);
	}
	cr_expect(status == TARN_EFORMAT);
	cr_expect(tarn_reader_feed(r, two_days, strlen(two_days), &again) ==
		  TARN_EFORMAT);
	cr_expect_str_eq(err.text, again.text);
	cr_expect(tarn_reader_finish(r, &w, NULL, NULL) == TARN_EFORMAT && !w);
	tarn_reader_free(r);
	tarn_reader_free(NULL);
}

/* No wind height and no last newline are worth a word, all else is silent. */
Test(weather_reader, notes)
{
	struct tarn_weather *w = read_text("date,wind_ms\n2015-01-01,1", NULL,
					   NULL, NULL);

	cr_assert(w && tarn_weather_notes(w) == 3);
	cr_expect_str_eq(tarn_weather_note(w, 0),
			 "layout plain: wind from wind_ms in m/s");
	cr_expect(strstr(tarn_weather_note(w, 1), "at what height") != NULL);
	cr_expect(strstr(tarn_weather_note(w, 2), "no newline") != NULL);
	tarn_weather_free(w);
}

/* ---- as a script or a file describes them ------------------------------- */

static enum tarn_status read_json(struct tarn_csv_map *map, const char *json,
				  struct tarn_error *err)
{
	struct tarn_values *values = tarn_values_new(NULL);
	const struct tarn_value *table;
	enum tarn_status s = tarn_values_json(values, json, strlen(json),
					      &table, err);

	*map = tarn_csv_map_default();
	if (s == TARN_OK)
		s = tarn_csv_map_read(map, table, err);
	tarn_values_free(values);
	return s;
}

Test(weather_map, described)
{
	struct tarn_csv_map m;
	struct tarn_error err = { 0 };

	cr_assert(TARN_OK == read_json(&m,
		"{\"columns\": {\"rain\": \"p\", \"tmin\": 4, \"wind\": false,"
		" \"tmax\": {\"name\": \"t\", \"unit\": \"F\", \"scale\": 0.1,"
		"  \"flag\": {\"index\": 7, \"reject\": [\"x\", \"y\"]}},"
		" \"total_days\": {\"name\": \"d\", \"occurrence\": 2}},"
		"\"units\": {\"rain\": \"inch\"}, \"skip\": 3,"
		"\"date\": {\"year\": \"y\", \"doy\": 2, \"format\": \"%j\"},"
		"\"missing\": [\"-999\", \"M\"], \"header\": false,"
		"\"delimiter\": \"\\t\", \"decimal\": \",\", \"hours\": 24,"
		"\"latitude\": 47, \"value\": 5, \"order\": \"sort\"}", &err),
		"%s %s", err.field, err.text);
	cr_expect_str_eq(m.column[TARN_RAIN].place.name, "p");
	cr_expect_str_eq(m.column[TARN_RAIN].unit, "inch");
	cr_expect_eq(m.column[TARN_TMIN].place.index, 4);
	cr_expect_eq(m.column[TARN_WIND].place.index, -1);
	cr_expect_str_eq(m.column[TARN_TMAX].unit, "F");
	cr_expect_eq(m.column[TARN_TMAX].flag.place.index, 7);
	cr_expect_str_eq(m.column[TARN_TMAX].flag.reject, "x y");
	cr_expect_eq(m.total_days.occurrence, 2);
	cr_expect(m.skip_lines == 3 && m.no_header && m.hours == 24);
	cr_expect_str_eq(m.year.name, "y");
	cr_expect_str_eq(m.date_format, "%j");
	cr_expect_str_eq(m.missing[1], "M");
	cr_expect(m.day_of_year.index == 2 && m.value.index == 5);
	cr_expect(m.delimiter == '\t' && m.decimal == ',');
	cr_expect(m.site.latitude_deg > 46 && m.order == TARN_ORDER_SORT);
}

static void refuses(const char *json, const char *field, const char *text)
{
	struct tarn_csv_map m;
	struct tarn_error err = { 0 };

	cr_expect_eq(TARN_EARG, read_json(&m, json, &err), "%s", json);
	cr_expect_str_eq(err.field, field, "%s: %s", json, err.field);
	cr_expect_not_null(strstr(err.text, text), "%s: %s", json, err.text);
}

Test(weather_map, described_wrongly)
{
	refuses("{\"column\": {}}", "column", "'columns'");
	refuses("{\"columns\": 1}", "columns", "must be a table, got number");
	refuses("{\"columns\": [1]}", "columns", "names of columns");
	refuses("{\"columns\": {\"tmni\": 1}}", "", "did you mean 'tmin'");
	refuses("{\"columns\": {\"zzzzzzzz\": 1}}", "", "rain, pan, reference");
	refuses("{\"columns\": {\"tmin\": true}}", "tmin", "got boolean");
	refuses("{\"columns\": {\"tmin\": 600}}", "tmin.index", "0 to 512");
	refuses("{\"columns\": {\"tmin\": {\"scael\": 1}}}", "tmin.scael",
		"'scale'");
	refuses("{\"columns\": {\"tmin\": {\"flag\": {\"reject\": 1}}}}",
		"reject", "a string or a list");
	refuses("{\"columns\": {\"tmin\": {\"flag\": {\"part\": 0.5}}}}",
		"flag.part", "whole number");
	refuses("{\"units\": 1}", "units", "must be a string, got number");
	refuses("{\"units\": {\"rain\": 1}}", "rain", "must be a string");
	refuses("{\"date\": {\"yaer\": 1}}", "date.yaer", "'year'");
	refuses("{\"skip\": -1}", "skip", "whole number from 0 to 1000000");
	refuses("{\"missing\": 9}", "missing", "a string or a list");
	refuses("{\"missing\": [1]}", "missing", "must be a string");
	refuses("{\"missing\": [\"1\",\"2\",\"3\",\"4\",\"5\",\"6\",\"7\","
		"\"8\",\"9\"]}", "missing", "can hold 8");
	refuses("{\"delimiter\": \";;\"}", "delimiter", "shorter than 2");
	refuses("{\"header\": 1}", "header", "true or false");
}

Test(weather_map, column_names)
{
	enum tarn_column c;
	struct tarn_error err = { 0 };

	cr_expect_eq(TARN_OK, tarn_column_named("rain", &c, &err));
	cr_expect_eq(c, TARN_RAIN);
	cr_expect_eq(TARN_EARG, tarn_column_named("rian", &c, &err));
	cr_expect_str_eq(err.near, "rain");
}
