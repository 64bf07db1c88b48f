/* SPDX-License-Identifier: MIT */
#include "bind_flow.h"
#include "bind_pond.h"

/* Pump, pipes, falls, bay, overflow and storm of a description. */

/* ---- reading -------------------------------------------------------------- */

static void read_curve(lua_State *L, struct tarn_works *works)
{
	struct flow_pairs pairs;

	if (!bind_push_section(L, "pump"))
		return;
	lua_newtable(L);	/* keeps the pairs; the description stays as
				   it is */
	pairs = flow_read_pairs(L, lua_gettop(L) - 1, "pump", "curve",
				lua_gettop(L));
	if (pairs.count > TARN_CURVE_MAX)
		bind_error(L, "pump.curve takes at most %d points",
			   TARN_CURVE_MAX);
	works->curve_points = pairs.count;
	for (size_t i = 0; i < pairs.count; i++) {
		works->curve_flow_m3s[i] = pairs.first[i];
		works->curve_head_m[i] = pairs.second[i];
	}
	lua_pop(L, 2);
}

/* fittings = { ["90 elbow threaded"] = 4, ["ball valve"] = 1 } */
static void read_fittings(lua_State *L, struct tarn_pipe_run *run)
{
	int type = lua_getfield(L, -1, "fittings");

	if (type != LUA_TNIL && type != LUA_TTABLE)
		bind_error(L, "pipes.fittings must be a table, such as "
			   "{ [\"90 elbow threaded\"] = 4 }");
	if (type == LUA_TNIL) {
		lua_pop(L, 1);
		return;
	}
	for (lua_pushnil(L); lua_next(L, -2); lua_pop(L, 1)) {
		const char *name = lua_type(L, -2) == LUA_TSTRING
			? lua_tostring(L, -2) : "";
		struct tarn_pipe_fitting *f = &run->fitting[run->fittings];

		if (run->fittings == TARN_RUN_FITTINGS_MAX)
			bind_error(L, "pipes.fittings takes at most %d kinds",
				   TARN_RUN_FITTINGS_MAX);
		f->kind = tarn_fitting_find(name);
		if (f->kind < 0)
			bind_error(L, "pipes.fittings: there is none named "
				   "'%s'; docs/pond.md lists them",
				   name);
		f->count = bind_number(L, -1, "pipes.fittings, how many of a "
				       "kind,", 0, BIND_NUMBER_MOST);
		/* in their table's order: sums depend on it */
		for (int i = run->fittings++; i > 0; i--) {
			struct tarn_pipe_fitting last = run->fitting[i];

			if (run->fitting[i - 1].kind < last.kind)
				break;
			run->fitting[i] = run->fitting[i - 1];
			run->fitting[i - 1] = last;
		}
	}
	lua_pop(L, 1);
}

/* Entries of a list section; 'each' reads the one on top. */
static int read_list(lua_State *L, const char *name,
		     void (*each)(lua_State *, struct tarn_works *, int),
		     struct tarn_works *works)
{
	int count = (int)bind_beside_list(L, 1, "", name);

	for (int i = 0; i < count; i++) {
		if (lua_rawgeti(L, -1, i + 1) != LUA_TTABLE)
			bind_error(L, "%s: number %d must be a table of fields",
				   name, i + 1);
		each(L, works, i);
		lua_pop(L, 1);
	}
	lua_pop(L, 1);
	return count;
}

/* The entry on top, a table of described fields with a name for reports. */
static void read_entry(lua_State *L, const struct tarn_fields *fields,
		       void *object)
{
	const char *also[BIND_NAMES_MAX];

	bind_fields(L, -1, fields, object,
		    bind_beside_names(fields->section, NULL, also));
	bind_beside_text(L, -1, fields->section, "name");
}

static void read_run(lua_State *L, struct tarn_works *works, int i)
{
	read_entry(L, &tarn_pipe_run_fields, &works->run[i]);
	read_fittings(L, &works->run[i]);
}

static void read_fall(lua_State *L, struct tarn_works *works, int i)
{
	read_entry(L, &tarn_fall_fields, &works->fall[i]);
}

static void read_catchment(lua_State *L, struct tarn_works *works, int i)
{
	read_entry(L, &tarn_catchment_fields, &works->catchment[i]);
}

void bind_read_works(lua_State *L, struct tarn_works *works)
{
	const struct tarn_fields *const plain[] = {
		&tarn_bay_fields, &tarn_pond_overflow_fields,
		&tarn_storm_fields
	};

	read_curve(L, works);
	works->runs = read_list(L, "pipes", read_run, works);
	works->falls = read_list(L, "falls", read_fall, works);
	works->catchments = read_list(L, "catchments", read_catchment, works);
	for (int i = 0; i < 3; i++) {
		if (!bind_push_section(L, plain[i]->section))
			continue;
		bind_fields(L, -1, plain[i], works, NULL);
		lua_pop(L, 1);
	}
}
