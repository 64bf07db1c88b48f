/* SPDX-License-Identifier: MIT */
/* The published tables of beds as lists, and where a loading is in them. */
#include <math.h>
#include <string.h>

#include "bed.h"

/* ---- tables -------------------------------------------------------------- */

/* A function that gives a whole table as a list. */
#define LIST(name, type, all)                                                \
	static int l_##name(lua_State *L)                                    \
	{                                                                    \
		size_t count;                                                \
		const struct type *rows = all(&count);                       \
		                                                             \
		bind_push_list(L, &type##_fields, rows, count, sizeof *rows); \
		return 1;                                                    \
	}

LIST(kinds, tarn_bed_kind, tarn_bed_kinds)
LIST(rates, tarn_rate, tarn_rates)
LIST(media, tarn_medium, tarn_media)
LIST(limits, tarn_limit, tarn_limits)
LIST(waste_estimates, tarn_waste_estimate, tarn_waste_estimates)
LIST(rules, tarn_bed_rule, tarn_bed_rules)
LIST(nitrification, tarn_nitrification, tarn_nitrifications)

static int l_trials(lua_State *L)
{
	size_t count;
	const struct tarn_trial *t = tarn_trials(&count);

	bind_push_list(L, &tarn_trial_fields, t, count, sizeof *t);
	for (size_t i = 0; i < count; i++) {
		lua_rawgeti(L, -1, (lua_Integer)i + 1);
		bind_set(L, "k_m_yr", tarn_implied_rate(t[i].removal,
							t[i].loading_m_d));
		lua_pop(L, 1);
	}
	return 1;
}

/* ---- loading ------------------------------------------------------------- */

static const char *purpose_word(size_t i)
{
	return i < TARN_PURPOSES
		? tarn_bed_purpose_name((enum tarn_bed_purpose)i)
		: i == TARN_PURPOSES ? "any" : NULL;
}

static int find_purpose(lua_State *L, int arg)
{
	static const struct tarn_field row = { .name = "purpose",
					       .kind = TARN_FIELD_CHOICE,
					       .word = purpose_word };
	int purpose = TARN_PURPOSES;

	if (!lua_isnoneornil(L, arg))
		bind_read_one(L, arg, &row, &purpose);
	return purpose;
}

/* ranges([purpose]) -> list, slowest first */
static int l_ranges(lua_State *L)
{
	size_t count;
	const struct tarn_loading_range *all = tarn_loading_ranges(&count);
	int purpose = find_purpose(L, 1);
	lua_Integer n = 0;

	lua_newtable(L);
	for (size_t i = 0; i < count; i++)
		if (purpose == TARN_PURPOSES ||
		    (int)all[i].purpose == purpose) {
			bind_push(L, &tarn_loading_range_fields, &all[i]);
			lua_rawseti(L, -2, ++n);
		}
	return 1;
}

/* place(loading [, purpose]) -> {factor=, inside=, low=, high=, nearest=} */
static int l_place(lua_State *L)
{
	double loading = bind_number(L, 1, "loading [m/d]", 1e-6, 1e6);
	enum tarn_bed_purpose purpose =
		(enum tarn_bed_purpose)find_purpose(L, 2);
	struct tarn_loading_place p;
	struct tarn_error err = { 0 };

	bind_must(L, tarn_loading_place(loading, purpose, &p, &err), &err);
	bind_push(L, &tarn_loading_place_fields, &p);
	bind_push(L, &tarn_loading_range_fields, p.nearest);
	lua_setfield(L, -2, "nearest");
	return 1;
}

/* loading{two of flow, area, loading} -> all three, and the velocity */
static int l_loading(lua_State *L)
{
	static const struct bind_argument asked[] = {
		BIND_OPTION("flow", "m3/s", 1e-8, 10, TARN_NAN),
		BIND_OPTION("area", "m2", 1e-3, 1e7, TARN_NAN),
		BIND_OPTION("loading", "m/d", 1e-4, 1e4, TARN_NAN),
	};
	double x[3];

	bind_arguments(L, 1, "loading", asked, 3, x);
	if (isnan(x[0]) + isnan(x[1]) + isnan(x[2]) != 1)
		return bind_error(L, "loading needs two of flow, area and "
				  "loading");
	if (isnan(x[0]))
		x[0] = tarn_bed_flow(x[2], x[1]);
	if (isnan(x[1]))
		x[1] = tarn_bed_area(x[0], x[2]);
	lua_createtable(L, 0, 4);
	bind_set(L, "flow", x[0]);
	bind_set(L, "area", x[1]);
	bind_set(L, "loading", tarn_bed_loading(x[0], x[1]));
	bind_set(L, "velocity", x[0] / x[1]);
	return 1;
}

void bind_bed(lua_State *L)
{
	static const luaL_Reg functions[] = {
		{ "loading", l_loading },
		{ "ranges", l_ranges },
		{ "place", l_place },
		{ "kinds", l_kinds },
		{ "rules", l_rules },
		{ "rates", l_rates },
		{ "trials", l_trials },
		{ "media", l_media },
		{ "limits", l_limits },
		{ "waste_estimates", l_waste_estimates },
		{ "nitrification", l_nitrification },
		{ NULL, NULL }
	};

	luaL_newlib(L, functions);
	bed_bind_formulas(L);
	bed_bind_site(L);
	bed_bind_size(L);
	lua_setfield(L, -2, "bed");
}
