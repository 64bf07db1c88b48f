/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

#include "../lib/tarn/weather/internal.h"

/* Small parts of the reader, each by itself: from a date to its formats, from a
 * format to a day, from a line above the header to a place. */

#define COUNT(a) (sizeof (a) / sizeof (a)[0])

Test(weather_parts, formats_of_a_date)
{
	static const struct { const char *text, *us, *european, *iso; } rows[] = {
		{ "1/5/2015", "%m/%d/%Y", "%d/%m/%Y", "" },
		{ "01-05-15", "%m-%d-%y", "%d-%m-%y", "%y-%m-%d" },
		{ "1.5.15", "%m.%d.%y", "%d.%m.%y", "" },
		{ "2015-01-05", "", "", "%Y-%m-%d" },
		{ "2015_1_5", "", "", "%Y_%m_%d" },
		{ "2015 1 5", "", "", "%Y %m %d" },
		{ "20150105", "", "", "%Y%m%d" },
		{ "150105", "", "", "%y%m%d" },
		{ "2015005", "", "", "%Y%j" },
		{ "2015-005", "", "", "%Y-%j" },
		{ "2015/005", "", "", "%Y/%j" },
		{ "2015010513", "", "", "%Y%m%d%H" },
		{ "201501051330", "", "", "%Y%m%d%H%M" },
		{ "20150105133015", "", "", "%Y%m%d%H%M%S" },
		{ "Jan 5, 2015", "%b %d, %Y", "", "" },
		{ "Jan. 5, 2015", "%b %d, %Y", "", "" },
		{ "January 5 2015", "%b %d %Y", "", "" },
		{ "5-Jan-2015", "", "%d-%b-%Y", "" },
		{ "5.Jan.2015", "", "%d.%b.%Y", "" },
		{ "5Jan2015", "", "%d%b%Y", "" },
		{ "5-Jan-15", "", "%d-%b-%y", "" },
		{ "2015-Jan-5", "", "", "%Y-%b-%d" },
		{ "Mon, 5 Jan 2015", "", "%a, %d %b %Y", "" },
		{ "Mon 1/5/2015", "%a %m/%d/%Y", "%a %d/%m/%Y", "" },
		{ "Mon. 2015-01-05", "", "", "%a %Y-%m-%d" },
		/* times */
		{ "1/5/2015 13:00", "%m/%d/%Y %H:%M", "%d/%m/%Y %H:%M", "" },
		{ "2015-01-05T13:00", "", "", "%Y-%m-%dT%H:%M" },
		{ "2015-01-05 13", "", "", "%Y-%m-%d %H" },
		{ "2015-01-05 1300", "", "", "%Y-%m-%d %H%M" },
		{ "2015-01-05 130000", "", "", "%Y-%m-%d %H%M%S" },
		{ "2015-01-05 13:00:15", "", "", "%Y-%m-%d %H:%M:%S" },
		{ "2015-01-05 13:00:15.25", "", "", "%Y-%m-%d %H:%M:%S" },
		{ "2015-01-05T13:00:00Z", "", "", "%Y-%m-%dT%H:%M:%S%z" },
		{ "2015-01-05T13:00+01:00", "", "", "%Y-%m-%dT%H:%M%z" },
		{ "2015-01-05 1:00 PM", "", "", "%Y-%m-%d %H:%M %p" },
		{ "2015-01-05 1:00PM", "", "", "%Y-%m-%d %H:%M%p" },
		{ "2015-01-05 1 a.m.", "", "", "%Y-%m-%d %H %p" },
		{ "2015-01-05Z", "", "", "%Y-%m-%d%z" },
		/* none */
		{ "", NULL, "", "" }, { "date", NULL, "", "" },
		{ "5/2015", NULL, "", "" }, { "12345", NULL, "", "" },
		{ "2015-01-05 13:0", NULL, "", "" },
		{ "2015-01-05 13:00:0", NULL, "", "" },
		{ "2015-01-05 130", NULL, "", "" },
		{ "2015-01-05 13000", NULL, "", "" },
		{ "2015-01-05 1300000", NULL, "", "" },
		{ "2015-13", NULL, "", "" }, { "2015-0005", NULL, "", "" },
		{ "20150-1-5", NULL, "", "" }, { "1/5/201", NULL, "", "" },
		{ "123/5/2015", NULL, "", "" }, { "5-Xyz-2015", NULL, "", "" },
		{ "Jan 2015 5", NULL, "", "" }, { "2015-Jan-005", NULL, "", "" },
		{ "/1/5/2015", NULL, "", "" }, { "Mon", NULL, "", "" },
		{ "Mon,", NULL, "", "" }, { "1:30", NULL, "", "" },
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct date_shape s;
		int is = tn_date_shape(tn_text(rows[i].text), &s) > 0;

		cr_expect(is == (rows[i].us != NULL), "'%s': %d", rows[i].text,
			  is);
		if (!is || !rows[i].us)
			continue;
		cr_expect_str_eq(s.format[TARN_DATES_US], rows[i].us, "'%s'",
				 rows[i].text);
		cr_expect_str_eq(s.format[TARN_DATES_EUROPEAN], rows[i].european,
				 "'%s': %s", rows[i].text,
				 s.format[TARN_DATES_EUROPEAN]);
		cr_expect_str_eq(s.format[TARN_DATES_ISO], rows[i].iso,
				 "'%s': %s", rows[i].text,
				 s.format[TARN_DATES_ISO]);
		cr_expect(s.timed == (strstr(rows[i].us, "H") ||
				      strstr(rows[i].european, "H") ||
				      strstr(rows[i].iso, "H")), "'%s'",
			  rows[i].text);
	}
}

/* Minutes of the day and east of Greenwich beside the day. */
Test(weather_parts, days_by_a_format)
{
	enum { OK = DATE_OK, MISFIT = DATE_MISFIT, NONE = DATE_NONE };
	static const struct {
		const char *text, *format;
		int result, year, month, day, minute, zone;
	} rows[] = {
		{ "2015-01-05", "%Y-%m-%d", OK, 2015, 1, 5, 0, 0 },
		{ "2015-1-5", "%Y-%m-%d", OK, 2015, 1, 5, 0, 0 },
		{ "20150105", "%Y%m%d", OK, 2015, 1, 5, 0, 0 },
		{ "2015105", "%Y%m%d", MISFIT, 0, 0, 0, 0, 0 },
		{ "150105", "%y%m%d", OK, 2015, 1, 5, 0, 0 },
		/* POSIX.1-2017, strptime: 69 to 99 are of the last century */
		{ "1/5/68", "%m/%d/%y", OK, 2068, 1, 5, 0, 0 },
		{ "1/5/69", "%m/%d/%y", OK, 1969, 1, 5, 0, 0 },
		{ "1/5/9", "%m/%d/%y", MISFIT, 0, 0, 0, 0, 0 },
		{ "2016366", "%Y%j", OK, 2016, 12, 31, 0, 0 },
		{ "2015366", "%Y%j", NONE, 0, 0, 0, 0, 0 },
		{ "2015000", "%Y%j", NONE, 0, 0, 0, 0, 0 },
		{ "2015001", "%Y%j", OK, 2015, 1, 1, 0, 0 },
		{ "201536", "%Y%j", MISFIT, 0, 0, 0, 0, 0 },
		{ "2015-02-29", "%Y-%m-%d", NONE, 0, 0, 0, 0, 0 },
		{ "1799-12-31", "%Y-%m-%d", NONE, 0, 0, 0, 0, 0 },
		{ "1800-01-01", "%Y-%m-%d", OK, 1800, 1, 1, 0, 0 },
		{ "2200-12-31", "%Y-%m-%d", OK, 2200, 12, 31, 0, 0 },
		{ "2201-01-01", "%Y-%m-%d", NONE, 0, 0, 0, 0, 0 },
		{ "5-Jan-2015", "%d-%b-%Y", OK, 2015, 1, 5, 0, 0 },
		{ "5-January-2015", "%d-%b-%Y", OK, 2015, 1, 5, 0, 0 },
		{ "Jan. 5, 2015", "%b %d, %Y", OK, 2015, 1, 5, 0, 0 },
		{ "5.Jan.2015", "%d.%b.%Y", OK, 2015, 1, 5, 0, 0 },
		{ "5-Ja-2015", "%d-%b-%Y", MISFIT, 0, 0, 0, 0, 0 },
		{ "5-Xyz-2015", "%d-%b-%Y", NONE, 0, 0, 0, 0, 0 },
		{ "Mon 2015-01-05", "%a %Y-%m-%d", OK, 2015, 1, 5, 0, 0 },
		{ "7 2015-01-05", "%a %Y-%m-%d", MISFIT, 0, 0, 0, 0, 0 },
		{ "2015-01-05   13", "%Y-%m-%d %H", OK, 2015, 1, 5, 780, 0 },
		{ "2015-01-05 13:59", "%Y-%m-%d %H:%M", OK, 2015, 1, 5, 839, 0 },
		{ "2015-01-05 24:00", "%Y-%m-%d %H:%M", OK, 2015, 1, 5, 1440, 0 },
		{ "2015-01-05 24:01", "%Y-%m-%d %H:%M", NONE, 0, 0, 0, 0, 0 },
		{ "2015-01-05 13:60", "%Y-%m-%d %H:%M", NONE, 0, 0, 0, 0, 0 },
		{ "2015-01-05 13:00:59.9", "%Y-%m-%d %H:%M:%S", OK, 2015, 1, 5,
		  780, 0 },
		{ "2015-01-05 13:00:59,95", "%Y-%m-%d %H:%M:%S", OK, 2015, 1, 5,
		  780, 0 },
		{ "2015-01-05 13:00:59.", "%Y-%m-%d %H:%M:%S", MISFIT, 0, 0, 0,
		  0, 0 },
		{ "2015-01-05 12 AM", "%Y-%m-%d %H %p", OK, 2015, 1, 5, 0, 0 },
		{ "2015-01-05 12 pm", "%Y-%m-%d %H %p", OK, 2015, 1, 5, 720, 0 },
		{ "2015-01-05 1 p.m.", "%Y-%m-%d %H %p", OK, 2015, 1, 5, 780, 0 },
		{ "2015-01-05 11 a.m", "%Y-%m-%d %H %p", OK, 2015, 1, 5, 660, 0 },
		{ "2015-01-05 13 PM", "%Y-%m-%d %H %p", NONE, 0, 0, 0, 0, 0 },
		{ "2015-01-05 0 AM", "%Y-%m-%d %H %p", NONE, 0, 0, 0, 0, 0 },
		{ "2015-01-05 1 xm", "%Y-%m-%d %H %p", MISFIT, 0, 0, 0, 0, 0 },
		{ "2015-01-05 1 a", "%Y-%m-%d %H %p", MISFIT, 0, 0, 0, 0, 0 },
		{ "2015-01-05 1 ax", "%Y-%m-%d %H %p", MISFIT, 0, 0, 0, 0, 0 },
		{ "2015-01-05 1 ", "%Y-%m-%d %H %p", MISFIT, 0, 0, 0, 0, 0 },
		{ "2015-01-05Z", "%Y-%m-%d%z", OK, 2015, 1, 5, 0, 0 },
		{ "2015-01-05UTC", "%Y-%m-%d%z", OK, 2015, 1, 5, 0, 0 },
		{ "2015-01-05CET", "%Y-%m-%d%z", MISFIT, 0, 0, 0, 0, 0 },
		{ "2015-01-05+01:00", "%Y-%m-%d%z", OK, 2015, 1, 5, 0, 60 },
		{ "2015-01-05-0330", "%Y-%m-%d%z", OK, 2015, 1, 5, 0, -210 },
		{ "2015-01-05+1", "%Y-%m-%d%z", OK, 2015, 1, 5, 0, 60 },
		{ "2015-01-05+14:59", "%Y-%m-%d%z", OK, 2015, 1, 5, 0, 899 },
		{ "2015-01-05+15:00", "%Y-%m-%d%z", MISFIT, 0, 0, 0, 0, 0 },
		{ "2015-01-05+01:60", "%Y-%m-%d%z", MISFIT, 0, 0, 0, 0, 0 },
		{ "2015-01-05+01:0", "%Y-%m-%d%z", MISFIT, 0, 0, 0, 0, 0 },
		{ "2015-01-05+", "%Y-%m-%d%z", MISFIT, 0, 0, 0, 0, 0 },
		{ "2015-01-05", "%Y-%m-%d%z", MISFIT, 0, 0, 0, 0, 0 },
		{ "2015-01-05x", "%Y-%m-%d", MISFIT, 0, 0, 0, 0, 0 },
		{ "2015-01", "%Y-%m-%d", MISFIT, 0, 0, 0, 0, 0 },
		{ "2015/01/05", "%Y-%m-%d", MISFIT, 0, 0, 0, 0, 0 },
		{ "2015-01-05 and more", "%Y-%m-%d%*", OK, 2015, 1, 5, 0, 0 },
		{ "2015-01-05", "%Y-%m-%q", MISFIT, 0, 0, 0, 0, 0 },
		{ "", "%Y", MISFIT, 0, 0, 0, 0, 0 },
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct stamp s = { 0 };
		int got = (int)tn_date_read(tn_text(rows[i].text),
					    rows[i].format, &s);

		cr_expect(got == rows[i].result, "'%s' by %s: %d", rows[i].text,
			  rows[i].format, got);
		if (got != DATE_OK || rows[i].result != DATE_OK)
			continue;
		cr_expect(s.day == tarn_day(rows[i].year, rows[i].month,
					    rows[i].day), "'%s'", rows[i].text);
		cr_expect(s.hour * 60 + s.minute == rows[i].minute, "'%s': %d:%d",
			  rows[i].text, s.hour, s.minute);
		cr_expect(s.zone_min == rows[i].zone, "'%s': %d", rows[i].text,
			  s.zone_min);
	}
}

Test(weather_parts, formats_that_tell_a_day)
{
	static const char *const good[] = {
		"%Y-%m-%d", "%d/%m/%y", "%b %d, %Y", "%Y%j", "%a %d %b %Y",
		"%Y-%m-%d %H:%M:%S %p %z", "%Y-%m-%d%*", "%Y%j%*", "%d%Y%m",
	};
	static const char *const bad[] = {
		"", "%", "%Y", "%Y-%m", "%m-%d", "%Y-%m-%d-%j", "%Y-%Y-%m-%d",
		"%Y-%m-%d-%d", "%Y-%b-%m-%d", "%Y-%q", "%j", "%Y-%m-%d%", "date",
		"%Y-%m%*", "%Y-%m-%d%*x", "%y-%Y-%m-%d", "%Y-%m-%d %S %S",
		"%a %a %Y-%m-%d", "%*",
	};

	for (size_t i = 0; i < COUNT(good); i++)
		cr_expect(tn_date_format_ok(good[i]), "'%s'", good[i]);
	for (size_t i = 0; i < COUNT(bad); i++)
		cr_expect(!tn_date_format_ok(bad[i]), "'%s'", bad[i]);
}

/* A foot is 0.3048 m; a number without a unit is no elevation. */
Test(weather_parts, places_above_a_header)
{
	static const struct { const char *line; double latitude, elevation; } rows[] = {
		{ "Latitude: 47.6", 47.6, TARN_NAN },
		{ "lat=47,6; elevation 30 m", 47.6, 30 },
		{ "Latitude: 47.6 N, Longitude: 122.3 W", 47.6, TARN_NAN },
		{ "Latitude 33.9 S", -33.9, TARN_NAN },
		{ "Latitude -33.9 S", -33.9, TARN_NAN },
		{ "Latitude: 90", 90, TARN_NAN }, { "Latitude: -90", -90, TARN_NAN },
		{ "Latitude: 90.1", TARN_NAN, TARN_NAN },
		{ "Latitude: -90.1", TARN_NAN, TARN_NAN },
		{ "Latitude: 47 36'", TARN_NAN, TARN_NAN },
		{ "Latitude: 47\xc2\xb0", 47, TARN_NAN },
		{ "Latitude: 47\xc2\xb0 36'", TARN_NAN, TARN_NAN },
		{ "Latitude: north", TARN_NAN, TARN_NAN },
		{ "Latitude", TARN_NAN, TARN_NAN },
		{ "Elevation: 100 ft", TARN_NAN, 30.48 },
		{ "Elevation (m): 12", TARN_NAN, 12 },
		{ "Elevation (ft) 100", TARN_NAN, 30.48 },
		{ "Elevation: 12", TARN_NAN, TARN_NAN },
		{ "Elevation: 12 metres above the sea", TARN_NAN, 12 },
		{ "Elevation: -3.5 m", TARN_NAN, -3.5 },
		{ "Hoehe", TARN_NAN, TARN_NAN },
		{ "Altitude: 1.234,5 m", TARN_NAN, TARN_NAN },
		{ "Elevation: 12345678901234567890123456789 m", TARN_NAN,
		  TARN_NAN },
		{ "", TARN_NAN, TARN_NAN },
		{ "Latitude: 10 Latitude: 20", 10, TARN_NAN },
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct tarn_site s = { 0 };

		s.latitude_deg = s.elevation_m = TARN_NAN;
		tn_title_place(&s, tn_text(rows[i].line));
		cr_expect(isnan(rows[i].latitude) ? isnan(s.latitude_deg)
			  : fabs(s.latitude_deg - rows[i].latitude) < 1e-12,
			  "'%s': latitude %g", rows[i].line, s.latitude_deg);
		cr_expect(isnan(rows[i].elevation) ? isnan(s.elevation_m)
			  : fabs(s.elevation_m - rows[i].elevation) < 1e-12,
			  "'%s': elevation %g", rows[i].line, s.elevation_m);
	}
}
