/* SPDX-License-Identifier: MIT */
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "web.h"

struct web_session web;

static char scratch[8192];

/* Where the page writes text for the next call. */
WEB(web_scratch) char *web_scratch(void);
WEB(web_scratch) char *web_scratch(void)
{
	return scratch;
}

WEB(web_scratch_size) size_t web_scratch_size(void);
WEB(web_scratch_size) size_t web_scratch_size(void)
{
	return sizeof scratch;
}

WEB(web_alloc) void *web_alloc(size_t bytes);
WEB(web_alloc) void *web_alloc(size_t bytes)
{
	return malloc(bytes > 0 ? bytes : 1);
}

WEB(web_free) void web_free(void *block);
WEB(web_free) void web_free(void *block)
{
	free(block);
}

WEB(web_version) const char *web_version(void);
WEB(web_version) const char *web_version(void)
{
	return tarn_version();
}

/* Factor of a unit, NaN if there is none of that name. */
WEB(web_unit) double web_unit(const char *name);
WEB(web_unit) double web_unit(const char *name)
{
	return tarn_unit(name);
}

WEB(web_distance) int web_distance(const char *a, const char *b);
WEB(web_distance) int web_distance(const char *a, const char *b)
{
	return tarn_name_distance(a, b);
}

/* Day of "YYYY-MM-DD"; TARN_NO_DAY (-1000000) if it is none. */
WEB(web_day) long web_day(const char *text);
WEB(web_day) long web_day(const char *text)
{
	return tarn_day_parse(text);
}

/* ---- errors ------------------------------------------------------------ */

struct tarn_error *web_error(void)
{
	memset(&web.err, 0, sizeof web.err);
	return &web.err;
}

int web_fail(const char *path)
{
	const struct tarn_error *e = &web.err;
	char where[160] = "";

	if (path && e->line > 0 && e->column > 0)
		snprintf(where, sizeof where, "%s:%ld:%ld: ", path, e->line,
			 e->column);
	else if (path && e->line > 0)
		snprintf(where, sizeof where, "%s:%ld: ", path, e->line);
	else if (path)
		snprintf(where, sizeof where, "%s: ", path);
	if (e->code == TARN_ENOMEM)
		snprintf(web.message, sizeof web.message, "out of memory");
	else
		snprintf(web.message, sizeof web.message, "%s%s%s%s", where,
			 e->field, e->field[0] ? " " : "", e->text);
	return 0;
}

int web_mistake(const char *format, ...)
{
	va_list args;

	va_start(args, format);
	vsnprintf(web.message, sizeof web.message, format, args);
	va_end(args);
	return 0;
}

int web_room(void *block, size_t bytes)
{
	void *old, *more;

	memcpy(&old, block, sizeof old);
	more = realloc(old, bytes > 0 ? bytes : 1);
	if (!more)
		return web_mistake("out of memory");
	memcpy(block, &more, sizeof more);
	return 1;
}

WEB(web_message) const char *web_message(void);
WEB(web_message) const char *web_message(void)
{
	return web.message;
}

/* Field at fault of the last failure, "" if none. */
WEB(web_fault) const char *web_fault(void);
WEB(web_fault) const char *web_fault(void)
{
	return web.err.field;
}

/* SI unit that a unit turns into ("m3/s"), NULL if there is none of that
 * name. */
WEB(web_unit_si) const char *web_unit_si(const char *name);
WEB(web_unit_si) const char *web_unit_si(const char *name)
{
	size_t count;
	const struct tarn_unit *all = tarn_units(&count);

	for (size_t i = 0; i < count; i++)
		if (strcmp(all[i].name, name) == 0)
			return all[i].si;
	return NULL;
}
