/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "bind_box.h"
#include "bind_pond.h"

/*
 * Numbers with a unit in the box of a description: full userdata, the only
 * ones that it has.  Arithmetic gives a new one, or a plain number where the
 * units cancel.
 */

static const char methods_key;

/* What stands at an index: a measure, or a number; raises on all else. */
static struct tarn_measure operand(lua_State *box, int at)
{
	const struct tarn_measure *m = bind_measure(box, at);

	if (m)
		return *m;
	if (lua_type(box, at) != LUA_TNUMBER)
		luaL_error(box, "attempt to perform arithmetic on a %s value "
			   "beside a number with a unit",
			   luaL_typename(box, at));
	return tarn_measure_plain(lua_tonumber(box, at));
}

static int push_measure(lua_State *box, const struct tarn_measure *m)
{
	const struct tarn_measure none = tarn_measure_plain(0);
	struct tarn_measure *own;

	if (tarn_dimension_alike(&m->unit, &none.unit)) {
		lua_pushnumber(box, tarn_measure_in(m, &none.unit));
		return 1;
	}
	own = lua_newuserdatauv(box, sizeof *own, 0);
	*own = *m;
	lua_rawgetp(box, LUA_REGISTRYINDEX, &methods_key);
	lua_setmetatable(box, -2);
	return 1;
}

/* Raises: "a length + a volume: ..." */
static int refuse(lua_State *box, const struct tarn_measure *a,
		  const char *sign, const struct tarn_measure *b)
{
	const struct tarn_measure none = tarn_measure_plain(0);
	char room[2][48];
	int plain = tarn_dimension_alike(&a->unit, &none.unit) ||
		    tarn_dimension_alike(&b->unit, &none.unit);

	return luaL_error(box, "%s %s %s: %s",
			  tarn_dimension_word(&a->unit, room[0]), sign,
			  tarn_dimension_word(&b->unit, room[1]),
			  plain ? "the plain number needs a unit, as in 39 * inch"
				: "these are not of one kind");
}

typedef int operation(const struct tarn_measure *, const struct tarn_measure *,
		      struct tarn_measure *);

static int work_out(lua_State *box, const char *sign, operation *f)
{
	struct tarn_measure a = operand(box, 1), b = operand(box, 2), c;

	if (!f(&a, &b, &c))
		return refuse(box, &a, sign, &b);
	return push_measure(box, &c);
}

static int subtract(const struct tarn_measure *a, const struct tarn_measure *b,
		    struct tarn_measure *out)
{
	struct tarn_measure less = *b;

	less.number = -less.number;
	return tarn_measure_add(a, &less, out);
}

/* As Lua's own: rounded towards minus infinity. */
static int whole_times(const struct tarn_measure *a,
		       const struct tarn_measure *b, struct tarn_measure *out)
{
	if (!tarn_dimension_alike(&a->unit, &b->unit) ||
	    !tarn_measure_divide(a, b, out))
		return 0;
	out->number = floor(tarn_measure_in(out, &out->unit));
	return 1;
}

static int rest(const struct tarn_measure *a, const struct tarn_measure *b,
		struct tarn_measure *out)
{
	double x = a->number, y;

	if (!tarn_dimension_alike(&a->unit, &b->unit))
		return 0;
	y = tarn_measure_in(b, &a->unit);
	*out = *a;
	out->number = fmod(x, y);
	if (out->number * y < 0)
		out->number += y;
	return 1;
}

static int m_add(lua_State *box)
{
	return work_out(box, "+", tarn_measure_add);
}

static int m_sub(lua_State *box)
{
	return work_out(box, "-", subtract);
}

static int m_mul(lua_State *box)
{
	return work_out(box, "*", tarn_measure_multiply);
}

static int m_div(lua_State *box)
{
	return work_out(box, "/", tarn_measure_divide);
}

static int m_idiv(lua_State *box)
{
	return work_out(box, "//", whole_times);
}

static int m_mod(lua_State *box)
{
	return work_out(box, "%", rest);
}

static int m_unm(lua_State *box)
{
	struct tarn_measure m = operand(box, 1);

	m.number = -m.number;
	return push_measure(box, &m);
}

static int m_pow(lua_State *box)
{
	struct tarn_measure a = operand(box, 1), c;
	char room[48];

	if (bind_measure(box, 2))
		return luaL_error(box, "an exponent has no unit");
	if (lua_type(box, 2) != LUA_TNUMBER ||
	    !tarn_measure_power(&a, lua_tonumber(box, 2), &c))
		return luaL_error(box, "%s has no such power: half and third "
				  "powers, and whole ones up to 20, have a unit",
				  tarn_dimension_word(&a.unit, room));
	return push_measure(box, &c);
}

static int order(lua_State *box, const char *sign)
{
	struct tarn_measure a = operand(box, 1), b = operand(box, 2);
	int which;

	if (!tarn_measure_compare(&a, &b, &which))
		return refuse(box, &a, sign, &b);
	return which;
}

static int m_lt(lua_State *box)
{
	lua_pushboolean(box, order(box, "<") < 0);
	return 1;
}

static int m_le(lua_State *box)
{
	lua_pushboolean(box, order(box, "<=") <= 0);
	return 1;
}

static int m_eq(lua_State *box)
{
	lua_pushboolean(box, order(box, "==") == 0);
	return 1;
}

static int m_concat(lua_State *box)
{
	return luaL_error(box, "a number with a unit is no part of a text: write "
			  "the number into the text");
}

int bind_open_units(lua_State *box)
{
	static const luaL_Reg methods[] = {
		{ "__add", m_add }, { "__sub", m_sub }, { "__mul", m_mul },
		{ "__div", m_div }, { "__idiv", m_idiv }, { "__mod", m_mod },
		{ "__unm", m_unm }, { "__pow", m_pow }, { "__lt", m_lt },
		{ "__le", m_le }, { "__eq", m_eq }, { "__concat", m_concat },
		{ NULL, NULL }
	};
	size_t count;
	const struct tarn_unit *units = tarn_units(&count);

	luaL_newlib(box, methods);
	lua_pushliteral(box, "number with a unit");
	lua_setfield(box, -2, "__name");
	lua_rawsetp(box, LUA_REGISTRYINDEX, &methods_key);
	for (size_t i = 0; i < count; i++) {
		struct tarn_measure m;

		tarn_measure_unit(units[i].name, &m);
		push_measure(box, &m);
		lua_setglobal(box, units[i].name);
	}
	return 0;
}

const struct tarn_measure *bind_measure(lua_State *box, int at)
{
	return lua_type(box, at) == LUA_TUSERDATA ? lua_touserdata(box, at)
						  : NULL;
}

/* ---- what a copied table says of its units ----------------------------------------- */

/*
 * A table copied out of the box has plain numbers.  Which unit they carried is
 * beside it, in a table whose keys are those tables, weak: there, by the
 * number's own key, are the bytes of the measure.  A number that a script puts
 * in its place later carries none.
 */
static const char all_marks;

void bind_mark(lua_State *L, int table, int key, const struct tarn_measure *m)
{
	table = lua_absindex(L, table);
	key = lua_absindex(L, key);
	if (lua_rawgetp(L, LUA_REGISTRYINDEX, &all_marks) != LUA_TTABLE) {
		lua_pop(L, 1);
		lua_newtable(L);
		lua_createtable(L, 0, 1);
		lua_pushliteral(L, "k");
		lua_setfield(L, -2, "__mode");
		lua_setmetatable(L, -2);
		lua_pushvalue(L, -1);
		lua_rawsetp(L, LUA_REGISTRYINDEX, &all_marks);
	}
	lua_pushvalue(L, table);
	if (lua_rawget(L, -2) != LUA_TTABLE) {
		lua_pop(L, 1);
		lua_newtable(L);
		lua_pushvalue(L, table);
		lua_pushvalue(L, -2);
		lua_rawset(L, -4);
	}
	lua_pushvalue(L, key);
	lua_pushlstring(L, (const char *)m, sizeof *m);
	lua_rawset(L, -3);
	lua_pop(L, 2);
}

int bind_push_marks(lua_State *L, int table)
{
	table = lua_absindex(L, table);
	if (lua_rawgetp(L, LUA_REGISTRYINDEX, &all_marks) != LUA_TTABLE) {
		lua_pop(L, 1);
		return 0;
	}
	lua_pushvalue(L, table);
	lua_rawget(L, -2);
	lua_remove(L, -2);
	if (lua_istable(L, -1))
		return 1;
	lua_pop(L, 1);
	return 0;
}

int bind_marked(lua_State *L, int marks, int key, double number,
		struct tarn_measure *out)
{
	int found = 0;

	lua_pushvalue(L, key);
	if (lua_rawget(L, marks) == LUA_TSTRING) {
		memcpy(out, lua_tostring(L, -1), sizeof *out);
		found = out->number == number;
	}
	lua_pop(L, 1);
	return found;
}

/* ---- the numbers of a description in its fields' units -------------------------------- */

/* The key under the value on top, behind the path of its table; 0: a name
 * that no path has. */
static int path_of(lua_State *L, const char *path, char room[160])
{
	if (lua_isinteger(L, -2))
		return snprintf(room, 160, "%s[%d]", path,
				(int)lua_tointeger(L, -2)) < 160;
	if (lua_type(L, -2) != LUA_TSTRING)
		return 0;
	return snprintf(room, 160, "%s%s%s", path, path[0] ? "." : "",
			lua_tostring(L, -2)) < 160;
}

/* Puts the number of the field in place of the one on top, at 'table'. */
static void settle_one(lua_State *L, int table, struct tarn_design *given,
		       const char *path)
{
	struct tarn_place at;
	struct tarn_measure m;

	if (tarn_fields_place(&tarn_design_fields, given, path, &at, NULL) !=
		    TARN_OK ||
	    !tarn_field_dimension(at.row, at.index, &m.unit))
		return;
	m.number = tarn_place_get(&at);
	lua_pushvalue(L, -2);
	lua_pushnumber(L, m.number);
	lua_rawset(L, table);
	bind_mark(L, table, -2, &m);
}

void bind_settle_units(lua_State *L, int table, struct tarn_design *given,
		       const char *path)
{
	struct tarn_measure m;
	char room[160];
	int marks;

	table = lua_absindex(L, table);
	luaL_checkstack(L, 12, NULL);
	marks = bind_push_marks(L, table) ? lua_gettop(L) : 0;
	for (lua_pushnil(L); lua_next(L, table); lua_pop(L, 1)) {
		int key = lua_gettop(L) - 1;

		if (lua_istable(L, -1) && path_of(L, path, room))
			bind_settle_units(L, -1, given, room);
		else if (marks && lua_type(L, -1) == LUA_TNUMBER &&
			 bind_marked(L, marks, key, lua_tonumber(L, -1), &m) &&
			 path_of(L, path, room))
			settle_one(L, table, given, room);
	}
	if (marks)
		lua_pop(L, 1);
}
