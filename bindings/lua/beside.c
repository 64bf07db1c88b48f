/* SPDX-License-Identifier: MIT */
/*
 * The fields of a description that are no numbers, and so have no row of
 * struct tarn_field: texts, tables, lists.  Reader, reference, schema and
 * page take their names, bounds and meanings from here.
 */
#include <string.h>

#include "bind_pond.h"

static const char *weekday(size_t i)
{
	static const char *const names[] = {
		"mon", "tue", "wed", "thu", "fri", "sat", "sun"
	};

	return i < 7 ? names[i] : NULL;
}

static const char *month(size_t i)
{
	static const char *const names[] = {
		"jan", "feb", "mar", "apr", "may", "jun",
		"jul", "aug", "sep", "oct", "nov", "dec"
	};

	return i < 12 ? names[i] : NULL;
}

static const char *rate(size_t i)
{
	size_t count;
	const struct tarn_rate *all = tarn_rates(&count);

	return i < count ? all[i].name : NULL;
}

static const char *fitting(size_t i)
{
	size_t count;
	const struct tarn_constant *all = tarn_flow_table(TARN_FITTINGS,
							  &count);

	return i < count ? all[i].name : NULL;
}

#define TABLE(name, meaning) \
	{ "", name, BIND_TABLE, name, NULL, 0, 0, 0, meaning }
#define TABLES(section, name, of, least, most, meaning) \
	{ section, name, BIND_TABLES, of, NULL, least, most, 0, meaning }
#define TEXT(section, name, most, need, meaning) \
	{ section, name, BIND_TEXT, NULL, NULL, 0, most, need, meaning }
#define SCHEDULE(section, subject)                                        \
	{ section, "weekdays", BIND_NAMES, NULL, weekday, 1, 7, 0,        \
	  "days of the week on which " subject "; all if not given" },    \
	{ section, "months", BIND_NAMES, NULL, month, 1, 12, 0,           \
	  "months in which " subject "; all if not given" },              \
	TABLES(section, "open", "span", 1, TARN_SPANS_MAX,                \
	       "spans of days: only then"),                               \
	TABLES(section, "closed", "span", 1, TARN_SPANS_MAX,              \
	       "spans of days: not then")
#define DATE(name)                                                        \
	{ "span", name, BIND_DATE, NULL, NULL, 0, 10, BIND_REQUIRED,      \
	  "YYYY-MM-DD, or MM-DD for every year; included" }

static const struct bind_beside all[] = {
	TEXT("", "name", 100, 0, "title of reports"),
	TEXT("", "plants", 400, 0, "what was planted, and where, for the sheet"),
	TEXT("", "$schema", 400, 0, "for editors of JSON; not used"),
	{ "", "basin", BIND_TABLE, "basin", NULL, 0, 0, BIND_REQUIRED,
	  "shape of the open water" },
	TABLE("bed", "the planted gravel"),
	TABLE("stream", "stream and falls"),
	TABLE("apron", "paving that drains in"),
	TABLE("pump", "what moves the water"),
	TABLE("seepage", "what leaks away; its parts add up"),
	TABLE("supply", "the top-up's tap"),
	TABLE("tank", "a rain tank"),
	TABLES("", "withdrawals", "withdrawals", 1, TARN_WITHDRAWALS_MAX,
	       "water taken out on days of a schedule"),
	TABLE("evaporation", "how it is found"),
	TABLE("costs", "prices"),
	TABLE("demand", "what flow is wanted for"),
	TABLE("fish", "the load"),
	TABLE("water", "what the bed is given"),
	TABLE("treatment", "what is wanted, and at which removal rate"),
	TABLE("yard", "room for the bed, and its hole"),
	TABLE("chance", "how uncertain the inputs are"),
	TABLES("", "pipes", "pipes", 1, TARN_RUNS_MAX, "runs of pipe"),
	TABLES("", "falls", "falls", 1, TARN_FALLS_MAX, "from the top down"),
	TABLE("bay", "where the pump takes its water"),
	TABLE("overflow", "its openings, at the lip"),
	TABLE("storm", "the design storm"),
	TABLES("", "catchments", "catchments", 1, TARN_CATCHMENTS_MAX,
	       "what else drains in"),
	TABLE("build", "how it is built, for quantities"),

	TABLES("basin", "shelves", "basin.shelves", 0, TARN_SHELVES_MAX,
	       "from the top down"),
	{ "basin", "table", BIND_PAIRS, NULL, NULL, 2, 100000,
	  BIND_ALONE, "instead of a shape: [level m, area m2] from the floor up" },
	{ "basin", "contours", BIND_TABLES, "basin.contours", NULL, 2, 100000,
	  BIND_ALONE, "instead of a shape: outlines from the floor up" },
	{ "basin.contours", "points", BIND_PAIRS, NULL, NULL, 3, 100000,
	  BIND_REQUIRED, "corners [x, y] in m, in a round" },
	TABLES("bed", "layers", "layer", 1, 100, "of stone, from the bottom"),
	TEXT("layer", "name", sizeof ((struct tarn_layer *)0)->name - 1, 0,
	     "what it is called"),
	{ "pump", "curve", BIND_PAIRS, NULL, NULL, 0, TARN_CURVE_MAX, 0,
	  "[flow m3/s, head m] as on the box, flow rising" },
	SCHEDULE("supply", "it may run"),
	SCHEDULE("withdrawals", "it is taken"),
	DATE("from"),
	DATE("to"),
	TEXT("costs", "currency", 12, BIND_REQUIRED, "USD, EUR ..."),
	{ "treatment", "rate", BIND_WORD, NULL, rate, 0, 0, 0,
	  "a published removal rate; what is said beside it goes first" },
	TABLES("yard", "corners", "corner", 3, TARN_YARD_CORNERS,
	       "instead of length and width: in a round"),
	{ "yard", "setbacks", BIND_NUMBERS, NULL, NULL, 0, TARN_YARD_CORNERS,
	  0, "m to keep from each side, in their order; false: as setback" },
	{ "yard", "footings", BIND_NUMBERS, NULL, NULL, 0, TARN_YARD_CORNERS,
	  0, "m of depth of the wall's footing on each side; false: none" },
	TEXT("pipes", "name", 100, 0, "what it is called"),
	{ "pipes", "fittings", BIND_COUNTS, NULL, fitting, 0,
	  TARN_RUN_FITTINGS_MAX, 0, "how many of each kind" },
	TEXT("falls", "name", 100, 0, "what it is called"),
	TEXT("catchments", "name", 100, 0, "what it is called"),
};

#define ALL (sizeof all / sizeof all[0])

const struct bind_beside *bind_beside(const char *section, const char *name)
{
	for (size_t i = 0; i < ALL; i++)
		if (strcmp(all[i].section, section) == 0 &&
		    strcmp(all[i].name, name) == 0)
			return &all[i];
	return NULL;
}

const char *const *bind_beside_names(const char *section,
				     const struct tarn_fields *more,
				     const char *out[BIND_NAMES_MAX])
{
	size_t n = 0;

	for (size_t i = 0; i < ALL && n < BIND_NAMES_MAX - 1; i++)
		if (strcmp(all[i].section, section) == 0)
			out[n++] = all[i].name;
	for (size_t i = 0; more && i < more->count && n < BIND_NAMES_MAX - 1;
	     i++)
		out[n++] = more->rows[i].name;
	out[n] = NULL;
	return out;
}

size_t bind_beside_list(lua_State *L, int arg, const char *section,
			const char *name)
{
	const struct bind_beside *row = bind_beside(section, name);
	size_t count;

	arg = lua_absindex(L, arg);
	if (lua_getfield(L, arg, name) == LUA_TNIL)
		return 0;
	bind_full_name(L, section, name);
	lua_insert(L, -2);
	count = bind_list(L, -1, lua_tostring(L, -2), row->least, row->most);
	lua_remove(L, -2);
	return count;
}

const char *bind_beside_text(lua_State *L, int arg, const char *section,
			     const char *name)
{
	const struct bind_beside *row = bind_beside(section, name);
	const char *text = bind_text(L, arg, section, name, row->most);

	if (row->need == BIND_REQUIRED && !text)
		bind_error(L, "%s is missing: %s",
			   bind_full_name(L, section, name), row->meaning);
	return text;
}

/* ---- for reference, schema and page ------------------------------------- */

static void push_choices(lua_State *L, const struct bind_beside *row)
{
	lua_newtable(L);
	for (size_t i = 0; row->choice(i); i++) {
		lua_pushstring(L, row->choice(i));
		lua_rawseti(L, -2, (lua_Integer)i + 1);
	}
	lua_setfield(L, -2, "choices");
}

static void push_row(lua_State *L, const struct bind_beside *row)
{
	static const char *const kinds[] = {
		"text", "word", "date", "table", "tables", "pairs", "numbers",
		"names", "counts"
	};

	lua_newtable(L);
	bind_set_text(L, "name", row->name);
	bind_set_text(L, "kind", kinds[row->kind]);
	bind_set_text(L, "meaning", row->meaning);
	bind_set(L, "least", (double)row->least);
	bind_set(L, "most", (double)row->most);
	if (row->kind == BIND_NUMBERS || row->kind == BIND_COUNTS)
		bind_set(L, "hi", BIND_NUMBER_MOST);
	bind_set_flag(L, "required", row->need == BIND_REQUIRED);
	bind_set_flag(L, "alone", row->need == BIND_ALONE);
	if (row->of)
		bind_set_text(L, "of", row->of);
	if (row->choice)
		push_choices(L, row);
}

void bind_push_beside(lua_State *L, const char *section)
{
	lua_Integer n = 0;

	lua_newtable(L);
	for (size_t i = 0; i < ALL; i++)
		if (strcmp(all[i].section, section) == 0) {
			push_row(L, &all[i]);
			lua_rawseti(L, -2, ++n);
		}
}

int bind_push_section(lua_State *L, const char *name)
{
	int type = lua_getfield(L, 1, name);

	if (type != LUA_TNIL && type != LUA_TTABLE)
		bind_error(L, "%s must be a table of fields, got %s", name,
			   luaL_typename(L, -1));
	if (type == LUA_TNIL)
		lua_pop(L, 1);
	return type == LUA_TTABLE;
}
