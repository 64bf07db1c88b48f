/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "bind_pond.h"

/* A list of names ("mon") or numbers from 1, as bits from 1. */
static unsigned read_bits(lua_State *L, int arg, const char *section,
			  const char *name)
{
	const struct bind_beside *row = bind_beside(section, name);
	size_t entries = bind_beside_list(L, arg, section, name);
	unsigned bits = 0;
	int count = 0;

	while (row->choice((size_t)count))
		count++;
	for (size_t i = 1; i <= entries; i++) {
		int bit = 0;

		if (lua_rawgeti(L, -1, (lua_Integer)i) == LUA_TNUMBER)
			bit = (int)lua_tointeger(L, -1);
		else if (lua_type(L, -1) == LUA_TSTRING)
			for (int k = 0; k < count; k++)
				if (strcmp(row->choice((size_t)k),
					   lua_tostring(L, -1)) == 0)
					bit = k + 1;
		if (bit < 1 || bit > count)
			bind_error(L, "%s.%s: '%s' is none of \"%s\" .. \"%s\" "
				   "or 1 .. %d", section, name,
				   luaL_tolstring(L, -1, NULL), row->choice(0),
				   row->choice((size_t)count - 1), count);
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
	const char *full = lua_pushfstring(L, "%s.%s", section, name);
	const char *known[BIND_NAMES_MAX];
	int count = (int)bind_beside_list(L, arg, section, name);

	bind_beside_names("span", NULL, known);
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
	out->weekdays = read_bits(L, arg, section, "weekdays");
	out->months = read_bits(L, arg, section, "months");
	out->on_count = read_spans(L, arg, section, "open", out->on);
	out->off_count = read_spans(L, arg, section, "closed", out->off);
}
