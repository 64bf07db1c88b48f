/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <string.h>

#include "tarn/weather_file.h"

/* What a file is taken for, as data. */

static const struct tarn_weather_file_column *
column(const struct tarn_weather_file *file, const char *name)
{
	for (int i = 0; i < file->columns; i++)
		if (strcmp(file->column[i].name, name) == 0)
			return &file->column[i];
	cr_assert(0, "no column %s", name);
	return NULL;
}

static const struct tarn_weather_file_field *
field(const struct tarn_weather_file *file, const char *name)
{
	for (size_t i = 0; i < file->fields; i++)
		if (strcmp(file->field[i].name, name) == 0)
			return &file->field[i];
	cr_assert(0, "no field %s", name);
	return NULL;
}

static struct tarn_weather_file *examine(const char *path,
					 const struct tarn_csv_map *map,
					 struct tarn_weather **w,
					 struct tarn_error *err)
{
	struct tarn_weather_file *file;

	tarn_weather_examine(&file, w, NULL, path, map, err);
	cr_assert(file, "%s: %s", path, err->text);
	return file;
}

Test(weather_examine, of_a_file_with_a_layout)
{
	struct tarn_csv_map map = tarn_csv_map_default();
	struct tarn_error err = { 0 };
	const struct tarn_weather_file_column *rain;
	struct tarn_weather_file *r;
	struct tarn_weather *w;

	strcpy(map.units, "standard");
	r = examine("tests/good/noaa_order.csv", &map, &w, &err);
	cr_assert(w);
	cr_expect_str_eq(r->counts.layout, "noaa_order");
	cr_expect_str_eq(r->delimiter, ",");
	cr_expect_str_eq(r->date, "DATE");
	cr_expect_str_eq(r->date_format, "%Y-%m-%d");
	cr_expect(r->header_line == 1 && r->encoding == 0 &&
		  r->rows_a_day == 0);
	cr_expect(r->first_day == tarn_weather_first(w));
	cr_expect(r->last_day - r->first_day + 1 == 7);
	cr_expect(r->counts.absent == 2 && r->counts.totals == 2);
	cr_expect(r->site.latitude_deg == 40 && r->site.elevation_m == 71);
	rain = column(r, "rain");
	cr_expect_str_eq(rain->from, "PRCP");
	cr_expect_str_eq(rain->file_unit, "inch");
	cr_expect_str_eq(rain->unit, "mm");
	cr_expect(rain->unit_from == TARN_UNIT_GIVEN);
	cr_expect(rain->present + rain->missing == 7);
	cr_expect(rain->present == tarn_weather_summary(w, TARN_RAIN).present);
	cr_expect(rain->first_day == tarn_day(2018, 7, 1) &&
		  rain->last_day == tarn_day(2018, 7, 7));
	cr_expect(rain->gaps == 1 && rain->longest_gap == 4,
		  "%zu gaps, longest %zu", rain->gaps, rain->longest_gap);
	cr_expect_str_eq(field(r, "PRCP")->use, "rain");
	cr_expect_str_eq(field(r, "SNOW")->use, "");
	cr_expect(field(r, "PRCP")->index == rain->index);
	cr_expect_str_eq(field(r, "PRCP")->first, "0.25");
	tarn_weather_file_free(r);
	tarn_weather_free(w);
}

/* Who said the unit; one column for several; flags; elements. */
Test(weather_examine, units_and_uses)
{
	struct tarn_csv_map map = tarn_csv_map_default();
	struct tarn_error err = { 0 };
	struct tarn_weather *w;
	struct tarn_weather_file *r;

	r = examine("tests/good/plain.csv", NULL, &w, &err);
	cr_expect(column(r, "tmax")->unit_from == TARN_UNIT_HEADER);
	cr_expect_str_eq(column(r, "tmax")->file_unit, "F");
	cr_expect(r->site.wind_height_m == 10);
	cr_expect_str_eq(field(r, "remark")->use, "");
	cr_expect_str_eq(field(r, "remark")->first, "first");
	tarn_weather_file_free(r);
	tarn_weather_free(w);
	r = examine("tests/good/noaa_access.csv", NULL, &w, &err);
	cr_expect(column(r, "tmin")->unit_from == TARN_UNIT_LAYOUT);
	cr_expect(column(r, "tmin")->scale == 0.1);
	cr_expect_str_eq(field(r, "TMIN_ATTRIBUTES")->use, "flag of tmin");
	tarn_weather_file_free(r);
	tarn_weather_free(w);
	map.hours = 24;
	r = examine("tests/good/open_meteo_hours.csv", &map, &w, &err);
	cr_expect_str_eq(field(r, "temperature_2m (\302\260C)")->use,
			 "tmin, tmax, tmean");
	cr_expect(column(r, "tmax")->combine == TARN_COMBINE_MAX);
	cr_expect(r->rows_a_day == 24);
	tarn_weather_file_free(r);
	tarn_weather_free(w);
	map = tarn_csv_map_default();
	r = examine("tests/good/noaa_long.csv", &map, &w, &err);
	cr_expect(r->header_line == 0 && column(r, "rain")->index == 0);
	cr_expect_str_eq(column(r, "rain")->from, "PRCP");
	cr_expect_str_eq(r->date, "column 2");
	tarn_weather_file_free(r);
	tarn_weather_free(w);
	r = examine("tests/good/utf16.csv", &map, &w, &err);
	cr_expect(r->encoding == 1);
	tarn_weather_file_free(r);
	tarn_weather_free(w);
}

/* A file that is refused is described as far as it was recognised. */
Test(weather_examine, of_a_file_that_is_refused)
{
	struct tarn_error err = { 0 };
	struct tarn_weather_file *r;
	struct tarn_weather *w;

	r = examine("tests/good/noaa_order.csv", NULL, &w, &err);
	cr_expect(!w && err.code == TARN_EARG);
	cr_expect_str_eq(err.field, "units");
	cr_expect(r->header_line == 1 && r->first_day == TARN_NO_DAY);
	cr_expect(field(r, "PRCP")->index > 0);
	tarn_weather_file_free(r);
	err.code = TARN_OK;
	r = examine("tests/bad/workbook.csv", NULL, &w, &err);
	cr_expect(!w && r->fields == 0 && r->header_line == 0);
	tarn_weather_file_free(r);
	err.code = TARN_OK;
	cr_expect(tarn_weather_examine(&r, &w, NULL, "tests/none.csv", NULL,
				       &err) == TARN_EIO);
	tarn_weather_file_free(r);
}
