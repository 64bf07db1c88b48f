/* SPDX-License-Identifier: MIT */
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "internal.h"

int tn_place_open(const struct tarn_csv_place *place)
{
	return place->name[0] == '\0' && place->index == 0;
}

enum tarn_status tn_role_fail(struct tarn_error *err, enum tarn_status code,
			      struct role role, const char *format, ...)
{
	char field[64], text[240];
	va_list args;

	snprintf(field, sizeof field, "%s%s", role.group, role.name);
	va_start(args, format);
	vsnprintf(text, sizeof text, format, args);
	va_end(args);
	return tarn_fail(err, code, field, "%s", text);
}

/* The header's name that is nearest to one that is not there. */
static const char *nearest(const struct header *h, const char *name,
			   char out[64])
{
	int best = 4;

	out[0] = '\0';
	for (size_t i = 0; i < h->count; i++) {
		char have[64];
		int d;

		tn_text_show(have, sizeof have, h->name[i]);
		d = tarn_name_distance(name, have);
		if (d < best) {
			best = d;
			strcpy(out, have);
		}
	}
	return out;
}

static enum tarn_status fail_absent(const struct header *h, const char *name,
				    struct role role, struct tarn_error *err)
{
	char list[130], near[64];

	if (nearest(h, name, near)[0])
		return tn_role_fail(err, TARN_EFORMAT, role,
				    "is to be read from '%s', but the header "
				    "has no such column: did you mean '%s'?",
				    name, near);
	return tn_role_fail(err, TARN_EFORMAT, role,
			    "is to be read from '%s', but the header has "
			    "only: %s",
			    name, tn_header_list(h, list, sizeof list));
}

static enum tarn_status find_named(const struct header *h,
				   const struct tarn_csv_place *place,
				   struct role role, int *out,
				   struct tarn_error *err)
{
	int at = tn_header_find(h, place->name, 0);

	if (h->count == 0)
		return tn_role_fail(err, TARN_EARG, role,
				    "is given by the name '%s', but the file "
				    "has no header: give its index",
				    place->name);
	if (at < 0)
		return fail_absent(h, place->name, role, err);
	if (place->occurrence == 0 &&
	    tn_header_find(h, place->name, (size_t)at + 1) >= 0)
		return tn_role_fail(err, TARN_EARG, role,
				    "is to be read from '%s', which stands "
				    "in the header more than once: say which "
				    "by occurrence = 1, 2, ...",
				    place->name);
	for (int n = 1; n < place->occurrence && at >= 0; n++)
		at = tn_header_find(h, place->name, (size_t)at + 1);
	if (at < 0)
		return tn_role_fail(err, TARN_EFORMAT, role,
				    "is to be read from '%s', but the header "
				    "has that name fewer times than "
				    "occurrence says",
				    place->name);
	*out = at;
	return TARN_OK;
}

enum tarn_status tn_place_find(const struct header *h,
			       const struct tarn_csv_place *place,
			       struct role role, int *out,
			       struct tarn_error *err)
{
	size_t most = h->count > 0 ? h->count : TARN_CSV_FIELDS_MAX;

	*out = -1;
	if (place->name[0])
		return find_named(h, place, role, out, err);
	if (place->index > 0 && (size_t)place->index > most)
		return tn_role_fail(err, TARN_EARG, role,
				    "has an index beyond the last column");
	*out = place->index > 0 ? place->index - 1 : -1;
	return TARN_OK;
}
