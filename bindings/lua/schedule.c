/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "bind_pond.h"

const char *const bind_schedule_names[] = {
	"weekdays", "months", "open", "closed", NULL
};

static const char *const weekdays[] = {
	"mon", "tue", "wed", "thu", "fri", "sat", "sun", NULL
};
static const char *const months[] = {
	"jan", "feb", "mar", "apr", "may", "jun",
	"jul", "aug", "sep", "oct", "nov", "dec", NULL
};

/* A list of names ("mon") or numbers from 1, as bits from 1. */
static unsigned read_bits(lua_State *L, int arg, const char *section,
			  const char *name, const char *const names[])
{
	unsigned bits = 0;
	int type = lua_getfield(L, arg, name), count = 0;

	while (names[count])
		count++;
	if (type != LUA_TNIL && (type != LUA_TTABLE || !lua_rawlen(L, -1)))
		bind_error(L, "%s.%s must be a list, such as { \"%s\", \"%s\" }",
			   section, name, names[0], names[2]);
	for (int i = 1; type == LUA_TTABLE && i <= (int)lua_rawlen(L, -1);
	     i++) {
		int bit = 0;

		if (lua_rawgeti(L, -1, i) == LUA_TNUMBER)
			bit = (int)lua_tointeger(L, -1);
		else if (lua_type(L, -1) == LUA_TSTRING)
			for (int k = 0; k < count; k++)
				if (strcmp(names[k], lua_tostring(L, -1)) == 0)
					bit = k + 1;
		if (bit < 1 || bit > count)
			bind_error(L, "%s.%s: '%s' is none of \"%s\" .. \"%s\" "
				   "or 1 .. %d", section, name,
				   luaL_tolstring(L, -1, NULL), names[0],
				   names[count - 1], count);
		bits |= 1u << bit;
		lua_pop(L, 1);
	}
	lua_pop(L, 1);
	return bits;
}

/* "2015-07-01" is a day; "07-01" is that day of every year. */
static void read_end(lua_State *L, const char *section, const char *name,
		     long *day, int *mmdd)
{
	const char *text = lua_getfield(L, -1, name) == LUA_TSTRING
		? lua_tostring(L, -1) : "";
	char leap[11] = "2000-00-00";
	struct tarn_date date;

	*day = tarn_day_parse(text);
	*mmdd = 0;
	if (*day == TARN_NO_DAY && strlen(text) == 5) {
		memcpy(leap + 5, text, 5);
		date = tarn_date(tarn_day_parse(leap));
		*mmdd = date.month * 100 + date.day;
	}
	if (*day == TARN_NO_DAY && *mmdd == 0)
		bind_error(L, "%s.%s must be \"YYYY-MM-DD\", or \"MM-DD\" for "
			   "every year, got %s", section, name,
			   luaL_tolstring(L, -1, NULL));
	lua_pop(L, 1);
}

static int read_spans(lua_State *L, int arg, const char *section,
		      const char *name, struct tarn_span spans[])
{
	static const char *const known[] = { "from", "to", NULL };
	const char *full = lua_pushfstring(L, "%s.%s", section, name);
	int count = 0;

	if (lua_getfield(L, arg, name) != LUA_TNIL)
		count = (int)bind_list(L, -1, full, 1, TARN_SPANS_MAX);
	for (int i = 0; i < count; i++) {
		struct tarn_span *s = &spans[i];

		lua_rawgeti(L, -1, i + 1);
		bind_known(L, lua_gettop(L), NULL, known);
		read_end(L, full, "from", &s->first_day, &s->first_mmdd);
		read_end(L, full, "to", &s->last_day, &s->last_mmdd);
		if ((s->first_mmdd == 0) != (s->last_mmdd == 0))
			bind_error(L, "%s.%s: span %d mixes a date of one year "
				   "with one of every year", section, name,
				   i + 1);
		if (s->first_mmdd == 0 && s->last_day < s->first_day)
			bind_error(L, "%s.%s: span %d ends before it begins",
				   section, name, i + 1);
		lua_pop(L, 1);
	}
	lua_pop(L, 2);
	return count;
}

void bind_schedule(lua_State *L, int arg, const char *section,
		   struct tarn_schedule *out)
{
	arg = lua_absindex(L, arg);
	out->weekdays = read_bits(L, arg, section, "weekdays", weekdays);
	out->months = read_bits(L, arg, section, "months", months);
	out->on_count = read_spans(L, arg, section, "open", out->on);
	out->off_count = read_spans(L, arg, section, "closed", out->off);
}
