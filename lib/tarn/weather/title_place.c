/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "heading.h"

/* The place in lines above a header, as exports and people write them. */

static const char *const latitudes =
	"latitude lat breite breitengrad latitud breedtegraad";
static const char *const elevations =
	"elevation elev altitude alt height hohe seehohe stationshohe altitud "
	"elevacion hoogte";

/* Is the character part of what stands between a label and its number? */
static int is_between(char c)
{
	return c && strchr(" \t:=,;\"([])", c) != NULL;
}

/* The unit at the start of a text in metres, 0: it is none. */
static double metres(struct text t)
{
	size_t n = 0;

	while (n < t.length && tn_is_letter(t.at[n]))
		n++;
	t.length = n;
	if (tn_text_listed(t, "m M meter meters metre metres"))
		return 1;
	return tn_text_listed(t, "ft feet") ? 0.3048 : 0;
}

static void step(struct text *t, size_t n)
{
	t->at += n;
	t->length -= n;
}

/* A number behind a label.  *unit: in metres, of a unit beside the label or
 * behind the number; 0: none.  'rest' is what stands behind. */
static double number_behind(struct text *rest, double *unit)
{
	char copy[24];
	size_t n = 0;
	double x;

	*unit = 0;
	while (rest->length > 0 && is_between(rest->at[0])) {
		step(rest, 1);
		if (*unit == 0 && rest->length > 0 && metres(*rest) > 0) {
			*unit = metres(*rest);
			while (rest->length > 0 && tn_is_letter(rest->at[0]))
				step(rest, 1);
		}
	}
	while (n < rest->length && n + 1 < sizeof copy && rest->at[n] &&
	       strchr("+-0123456789.", rest->at[n])) {
		copy[n] = rest->at[n];
		n++;
	}
	/* a decimal comma, which no blank follows */
	if (n > 0 && n + 1 < rest->length && rest->at[n] == ',' &&
	    rest->at[n + 1] >= '0' && rest->at[n + 1] <= '9' &&
	    !memchr(copy, '.', n)) {
		copy[n] = '.';
		for (n++; n < rest->length && n + 1 < sizeof copy &&
		     rest->at[n] >= '0' && rest->at[n] <= '9'; n++)
			copy[n] = rest->at[n];
	}
	step(rest, n);
	return tn_number((struct text){ copy, n }, &x) == NUMBER_OK ? x
								: TARN_NAN;
}

/* Degrees with N or S behind, or a sign; minutes are not read. */
static double latitude(struct text rest)
{
	double unit, x = number_behind(&rest, &unit);

	while (rest.length > 0 && (rest.at[0] == ' ' || (rest.at[0] & 0x80)))
		step(&rest, 1);
	if (rest.length > 0 && ((rest.at[0] >= '0' && rest.at[0] <= '9') ||
				rest.at[0] == '\''))
		return TARN_NAN;
	if (rest.length > 0 && rest.at[0] == 'S' && x > 0)
		x = -x;
	return x >= -90 && x <= 90 ? x : TARN_NAN;
}

static double elevation(struct text rest)
{
	double unit, behind, x = number_behind(&rest, &unit);

	behind = metres(tn_text_trim(rest));
	return x * (behind > 0 ? behind : unit > 0 ? unit : TARN_NAN);
}

void tn_title_place(struct tarn_site *site, struct text line)
{
	struct token token[TOKENS_MAX];
	size_t count = tn_tokens(line, token);

	for (size_t i = 0; i < count; i++) {
		struct text word = tn_text(token[i].low), rest;

		rest.at = token[i].raw.at + token[i].raw.length;
		rest.length = (size_t)(line.at + line.length - rest.at);
		if (tn_text_listed(word, latitudes) &&
		    isnan(site->latitude_deg))
			site->latitude_deg = latitude(rest);
		if (tn_text_listed(word, elevations) &&
		    isnan(site->elevation_m))
			site->elevation_m = elevation(rest);
	}
}
