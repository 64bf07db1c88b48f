/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

#include "tarn.h"
#include "numbers.h"

/* How the dates of a file are told, from all of them. */

static struct tarn_weather *read_dates(const char *rows,
				       enum tarn_csv_dates asked,
				       struct tarn_error *err)
{
	struct tarn_csv_map map = tarn_csv_map_default();
	struct tarn_weather *w;
	char text[2000];

	memset(err, 0, sizeof *err);
	map.dates = asked;
	snprintf(text, sizeof text, "date;rain_mm\n%s", rows);
	tarn_weather_read_text(&w, NULL, text, strlen(text), &map, NULL, err);
	return w;
}

static int has_note(const struct tarn_weather *w, const char *text)
{
	for (size_t i = 0; i < tarn_weather_notes(w); i++)
		if (strstr(tarn_weather_note(w, i), text))
			return 1;
	return 0;
}

#define D TARN_DATES_DEFAULT

Test(weather_dates, order_of_a_column)
{
	static const struct {
		const char *rows;
		enum tarn_csv_dates asked;
		const char *first;
		size_t days;
		const char *note;
	} rows[] = {
		/* one day above 12 settles all */
		{ "1/2/2015;1\n1/13/2015;2\n", D, "2015-01-02", 12,
		  "month/day/year, since '1/13/2015' in line 3" },
		{ "1/2/2015;1\n13/2/2015;2\n", D, "2015-02-01", 13,
		  "day/month/year, since '13/2/2015' in line 3" },
		{ "01-02-2015;1\n13-02-2015;2\n", D, "2015-02-01", 13,
		  "day/month/year" },
		/* or steps of one day */
		{ "1/2/2015;1\n1/3/2015;2\n1/4/2015;2\n", D, "2015-01-02", 3,
		  "month/day/year, since only so the rows are a day apart" },
		{ "1/2/2015;1\n2/2/2015;2\n3/2/2015;2\n", D, "2015-02-01", 3,
		  "day/month/year, since only so the rows are a day apart" },
		/* or the user */
		{ "1/2/2015;1\n", TARN_DATES_US, "2015-01-02", 1,
		  "month/day/year, as asked" },
		{ "1/2/2015;1\n", TARN_DATES_EUROPEAN, "2015-02-01", 1,
		  "day/month/year, as asked" },
		{ "15-01-02;1\n", TARN_DATES_ISO, "2015-01-02", 1,
		  "as asked; years of two digits are 1969 to 2068" },
		/* points are European */
		{ "1.2.2015;1\n", D, "2015-02-01", 1, "day/month/year" },
		{ "1.2.15;1\n", D, "2015-02-01", 1, "1969 to 2068" },
		/* years of two digits */
		{ "12/31/99;1\n1/1/00;1\n", D, "1999-12-31", 2,
		  "month/day/year, since '12/31/99' in line 2" },
		{ "15-01-01;1\n15-01-02;1\n15-01-03;1\n", D, "2015-01-01", 3,
		  "year-month-day, since only so" },
		/* one way alone */
		{ "2015-01-02;1\n", D, "2015-01-02", 1, NULL },
		{ "2015/1/2;1\n", D, "2015-01-02", 1, "year-month-day" },
		{ "20150102;1\n", D, "2015-01-02", 1, "year-month-day" },
		{ "2015002;1\n", D, "2015-01-02", 1, "year-month-day" },
		{ "2015-002;1\n", D, "2015-01-02", 1, "year-month-day" },
		{ "150102;1\n", D, "2015-01-02", 1, "year-month-day" },
		{ "2-Jan-2015;1\n", D, "2015-01-02", 1, "day/month/year" },
		{ "02JAN2015;1\n", D, "2015-01-02", 1, "day/month/year" },
		{ "2-Jan-15;1\n", D, "2015-01-02", 1, "1969 to 2068" },
		{ "Jan 2, 2015;1\n", D, "2015-01-02", 1, "month/day/year" },
		{ "Jan. 2, 2015;1\nMay 3, 2015;1\n", D, "2015-01-02", 122,
		  "month/day/year" },
		{ "2015-Jan-02;1\n", D, "2015-01-02", 1, "year-month-day" },
		{ "Friday, 2 January 2015;1\n", D, "2015-01-02", 1, NULL },
		{ "2. Januar 2015;1\n3. M\303\244rz 2015;1\n", D,
		  "2015-01-02", 61, NULL },
		{ "2 janvier 2015;1\n3 f\303\251vr. 2015;1\n", D,
		  "2015-01-02", 33, NULL },
		{ "2 ene 2015;1\n3 ago 2015;1\n", D, "2015-01-02", 214, NULL },
		{ "2 mrt 2015;1\n3 mei 2015;1\n", D, "2015-03-02", 63, NULL },
		/* a time beside it, once a day */
		{ "2015-01-02 00:00:00;1\n2015-01-03 00:00:00;1\n", D,
		  "2015-01-02", 2, NULL },
		{ "2015-01-02T09:00:00Z;1\n2015-01-03T09:00:00Z;1\n", D,
		  "2015-01-02", 2, NULL },
		{ "1/2/2015 12:00 AM;1\n1/13/2015 12:00 AM;1\n", D,
		  "2015-01-02", 12, "month/day/year" },
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct tarn_error err;
		struct tarn_weather *w = read_dates(rows[i].rows,
						    rows[i].asked, &err);
		char first[11];

		cr_expect(w != NULL, "%s: %s", rows[i].rows, err.text);
		if (!w)
			continue;
		tarn_day_text(tarn_weather_first(w), first);
		cr_expect_str_eq(first, rows[i].first, "%s: %s", rows[i].rows,
				 first);
		cr_expect(tarn_weather_days(w) == rows[i].days, "%s: %zu",
			  rows[i].rows, tarn_weather_days(w));
		cr_expect(!rows[i].note || has_note(w, rows[i].note),
			  "%s: no note '%s'", rows[i].rows, rows[i].note);
		if (strcmp(rows[i].rows, "2015-01-02;1\n") == 0)
			cr_expect(!has_note(w, "dates:"));
		tarn_weather_free(w);
	}
}

Test(weather_dates, orders_refused)
{
	static const struct {
		const char *rows;
		enum tarn_csv_dates asked;
		long line;
		const char *text;
	} rows[] = {
		{ "1/2/2015;1\n", D, 2, "say dates = \"us\"" },
		{ "1/2/2015;1\n2/3/2015;1\n3/4/2015;1\n", D, 2,
		  "no row settles which" },
		{ "1/13/2015;1\n13/2/2015;1\n", D, 3,
		  "'13/2/2015' cannot be month/day/year, and '1/13/2015' in "
		  "line 2 cannot be day/month/year" },
		{ "1/13/2015;1\n", TARN_DATES_EUROPEAN, 2,
		  "can only be month/day/year, but" },
		{ "2015-01-02;1\n", TARN_DATES_US, 2,
		  "are month/day/year as asked, but '2015-01-02' is not so" },
		{ "1/13/2015;1\n2015-01-14;1\n", D, 3, "does not fit" },
		{ "42005;1\n42006;1\n", D, 2, "does not fit" },
		{ "1/jui/2015;1\n", D, 2, "does not fit" },
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct tarn_error err;
		struct tarn_weather *w = read_dates(rows[i].rows,
						    rows[i].asked, &err);

		cr_expect(!w, "%s", rows[i].rows);
		cr_expect(err.line == rows[i].line, "%s: line %ld",
			  rows[i].rows, err.line);
		cr_expect(strstr(err.text, rows[i].text), "%s: %s",
			  rows[i].rows, err.text);
		tarn_weather_free(w);
	}
}

/* Rows that settle it may come late: 600 kB of dates that could be both, a
 * month apart as European and eleven as American ones. */
Test(weather_dates, a_late_row_settles_it)
{
	enum { ROWS = 20000 };
	static char text[ROWS * 40];
	struct tarn_error err = { 0 };
	struct tarn_weather *w;
	size_t n = (size_t)sprintf(text, "date,rain_mm,x\n");

	for (int i = 0; i < ROWS; i++)
		n += (size_t)sprintf(text + n, "5/5/1990,%s,%018d\n",
				     i ? "" : "1", i);
	sprintf(text + n, "5/13/1990,2,0\n");
	{
		struct tarn_csv_map map = tarn_csv_map_default();

		map.duplicates = TARN_DUPLICATES_FIRST;
		tarn_weather_read_text(&w, NULL, text, strlen(text), &map,
				       NULL, &err);
	}
	cr_assert(w != NULL, "%s", err.text);
	cr_expect(tarn_weather_days(w) == 9);
	cr_expect(has_note(w, "in line 20002"));
	tarn_weather_free(w);
}

/* ---- which columns ---------------------------------------------------- */

Test(weather_dates, columns_by_their_names)
{
	static const char *const texts[] = {
		"Date,rain_mm\n2015-01-02,1\n",
		"Datum,rain_mm\n2.1.2015,1\n",
		"fecha,rain_mm\n2015-01-02,1\n",
		"jour,rain_mm\n2015-01-02,1\n",
		"DATE (local),rain_mm\n2015-01-02,1\n",
		"Time Stamp,rain_mm\n2015-01-02 00:00,1\n",
		"Ablesung,rain_mm\n2015-01-02,1\n",
		"Year,Month,Day,rain_mm\n2015,1,2,1\n",
		"YEAR,MO,DY,rain_mm\n2015,1,2,1\n",
		"yyyy,mm,dd,rain_mm\n2015,1,2,1\n",
		"rain_mm,Jahr,Monat,Tag\n1,2015,1,2\n",
		"ann\303\251e,mois,jour,rain_mm\n2015,1,2,1\n",
		"A\303\261o,Mes,D\303\255a,rain_mm\n2015,1,2,1\n",
		"Year,Month,Day,rain_mm\n2015,Jan,2,1\n",
		"Year,Month,Day,rain_mm\n15,1,2,1\n",
		"Year,Day of year,rain_mm\n2015,2,1\n",
		"year,JDAY,rain_mm\n2015,2,1\n",
		"Year,Month,Day,doy,rain_mm\n2015,1,2,2,1\n",
		"Date,Year,Month,Day,rain_mm\n2015-01-02,2015,1,2,1\n",
	};

	for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
		struct tarn_csv_map map = tarn_csv_map_default();
		struct tarn_error err = { 0 };
		struct tarn_weather *w;

		strcpy(map.column[TARN_RAIN].place.name, "rain_mm");
		strcpy(map.column[TARN_RAIN].unit, "mm");
		tarn_weather_read_text(&w, NULL, texts[i], strlen(texts[i]),
				       &map, NULL, &err);
		cr_expect(w && tarn_weather_first(w) == tarn_day(2015, 1, 2),
			  "%s: %s", texts[i], err.text);
		tarn_weather_free(w);
	}
}
