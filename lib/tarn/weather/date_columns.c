/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

/*
 * Which columns hold the date, by their names: letters alone, small, what
 * stands in brackets left out.  English, German, French, Spanish, Dutch; "anne"
 * and "ao" are what is left of names with an accent.
 */

static const char *const date_names =
	"date datum fecha datetime dateandtime timestamp datetimelocal "
	"localdatetime datelocal localdate dateutc datetimeutc utcdate "
	"utcdatetime dateheure fechahora fechayhora datumzeit zeitstempel "
	"messdatum mdatum datumuhrzeit obsdate obstime obsdatetime "
	"observationdate observationtime obstimelocal measurementdate "
	"readingdate recorddate recordeddate yyyymmdd ymd yyyymmddhh "
	"yyyymmddhhmm ddmmyyyy mmddyyyy valid validtime valid_time jourdate "
	"referencetimestamp datestamp isodate dateiso reportdate daydate kalenderdatum";
static const char *const time_names =
	"time zeit heure hora tijd uhrzeit hour hours hr hrs hh stunde uur "
	"timeutc utctime timelocal localtime hhmm hourutc houroftheday "
	"hourofday hourlst timelst hourending";
static const char *const year_names =
	"year yr yyyy jahr anne annee an ao ano jaar years";
static const char *const month_names =
	"month mon mo mm monat mois mes maand months monthofyear";
static const char *const day_names =
	"day dy dd tag jour da dia dag dayofmonth dom days dayofthemonth";
static const char *const doy_names =
	"doy dayofyear jday julian julianday yday dayoftheyear jd juliandate "
	"tagimjahr jourdelanne diadelao";

/* The letters of a name without what stands in brackets. */
static struct text canonical(struct text name, char out[32])
{
	struct text t = { out, 0 };
	int depth = 0;

	for (size_t i = 0; i < name.length && t.length < 31; i++) {
		char c = name.at[i];

		depth += c == '(' || c == '[';
		depth -= c == ')' || c == ']';
		if (c >= 'A' && c <= 'Z')
			c = (char)(c + ('a' - 'A'));
		if (depth == 0 && c >= 'a' && c <= 'z')
			out[t.length++] = c;
	}
	return t;
}

/* Index of the first column with such a name, -1. */
static int find(const struct header *h, const char *names)
{
	for (size_t i = 0; i < h->count; i++) {
		char word[32];
		struct text t = canonical(h->name[i], word);

		if (t.length > 0 && tn_text_listed(t, names))
			return (int)i;
	}
	return -1;
}

int tn_date_word(struct text name, enum date_part part)
{
	char word[32];
	struct text t = canonical(name, word);

	return t.length > 0 &&
	       tn_text_listed(t, part == DATE_YEAR ? year_names : month_names);
}

struct date_columns tn_date_columns(const struct header *h)
{
	struct date_columns d = {
		find(h, date_names), find(h, year_names),
		find(h, month_names), find(h, day_names),
		find(h, doy_names), find(h, time_names), 0
	};
	int parts = d.year >= 0 && ((d.month >= 0 && d.day >= 0) ||
				    d.day_of_year >= 0);

	if (d.date >= 0 || !parts)
		d.year = d.month = d.day_of_year = -1;
	if (d.date < 0 && !parts && d.day >= 0)
		d.date = d.day;		/* "Tag", "jour": the whole date */
	if (d.date < 0 && !parts) {
		d.date = d.hour;	/* "time" alone: date and time */
		d.hour = -1;
	}
	if (d.date >= 0)
		d.day = -1;
	if (d.month >= 0 && d.day >= 0)
		d.day_of_year = -1;
	else
		d.month = d.day = -1;
	d.found = d.date >= 0 || parts;
	return d;
}

static void put(struct tarn_csv_place *place, int index)
{
	if (index >= 0 && tn_place_open(place))
		place->index = index + 1;
}

/* The first column whose first value is a date in so many words: not digits
 * alone, which may be anything. */
static int by_content(const struct tarn_reader *r)
{
	for (size_t i = 0; i < r->header.count; i++) {
		struct cells cells = tn_cells(r, (int)i);
		struct date_shape shape;
		struct text t;
		double x;
		long line;

		if (tn_cells_next(&cells, &t, &line) &&
		    tn_date_shape(t, &shape) && tn_number(t, &x) != NUMBER_OK)
			return (int)i;
	}
	return -1;
}

void tn_dates_find(struct tarn_reader *r)
{
	struct tarn_csv_map *map = &r->map;
	struct date_columns d = tn_date_columns(&r->header);

	if (!map->no_header && tn_place_open(&map->date) &&
	    tn_place_open(&map->year)) {
		put(&map->date, d.found ? d.date : by_content(r));
		put(&map->year, d.year);
		put(&map->month, d.month);
		put(&map->day, d.day);
		put(&map->day_of_year, d.day_of_year);
	}
	if (tn_place_open(&map->date) && tn_place_open(&map->year))
		strcpy(map->date.name, "date");	/* asked for by this name */
}
