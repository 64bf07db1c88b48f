/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "heading.h"
#include "layouts.h"

/* ---- NASA POWER's header block --------------------------------------- */

/* The number after 'word' (in any case) in a line; NaN if it is not there. */
static double number_after(struct text line, const char *word)
{
	size_t n = strlen(word);
	double x;

	for (size_t i = 0; i + n <= line.length; i++) {
		struct text t = { line.at + i + n, line.length - i - n };
		size_t k = 0;

		while (k < n && (line.at[i + k] | 0x20) == (word[k] | 0x20))
			k++;
		if (k < n)
			continue;
		t = tn_text_trim(t);
		for (k = 0; k < t.length && t.at[k] != ' ';)
			k++;
		t.length = k;
		return tn_number(t, &x) == NUMBER_OK ? x : TARN_NAN;
	}
	return TARN_NAN;
}

void tn_layout_block(struct tarn_csv_map *map, struct tarn_site *site,
		     struct text line)
{
	struct text first = line;
	double scale;

	if (isnan(site->latitude_deg))
		site->latitude_deg = number_after(line, "latitude");
	if (line.length > 9 && (line.at[0] | 0x20) == 'e')
		site->elevation_m = number_after(line, "region =");
	for (first.length = 0; first.length < line.length &&
	     line.at[first.length] != ' ';)
		first.length++;
	for (const struct layout_column *c =
		     tn_layout_find("nasa_power")->columns;
	     c->name; c++) {
		struct tarn_csv_column *to = &map->column[c->column];
		const struct tarn_weather_unit *u;

		if (to->unit[0] != '\0' || !tn_text_is(first, c->name))
			continue;
		u = tn_heading_unit(line, c->column, &scale);
		if (!u)
			continue;
		snprintf(to->unit, sizeof to->unit, "%s", u->name);
		to->unit_from = TARN_UNIT_HEADER;
	}
}

/* ---- comments above a header ------------------------------------------ */

static int begins_with(struct text line, const char *start)
{
	return line.length >= strlen(start) &&
	       memcmp(line.at, start, strlen(start)) == 0;
}

void tn_layout_comment(struct tarn_site *site, struct text line)
{
	static const char station[] = "# station: ";

	if (begins_with(line, station)) {
		line.at += sizeof station - 1;
		line.length -= sizeof station - 1;
		tn_text_show(site->name, sizeof site->name, line);
	} else if (begins_with(line, "# latitude: ")) {
		site->latitude_deg = number_after(line, "latitude:");
	} else if (begins_with(line, "# elevation: ")) {
		site->elevation_m = number_after(line, "elevation:");
	}
}
