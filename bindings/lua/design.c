/* SPDX-License-Identifier: MIT */
/*
 * What a description says for the sizing of its bed, besides what the ledger
 * needs: more fields of 'bed', and sections of its own.  They are checked
 * whichever script reads the file.
 */
#include "bed.h"
#include "bind_pond.h"

/* Reads section 'fields' of the description at 1, if it has one. */
static void read_section(lua_State *L, const struct tarn_fields *fields,
			 void *object, const char *const also[])
{
	int type = lua_getfield(L, 1, fields->section);

	if (type != LUA_TNIL && type != LUA_TTABLE)
		bind_error(L, "%s must be a table of fields, got %s",
			   fields->section, luaL_typename(L, -1));
	if (type == LUA_TTABLE)
		bind_fields(L, -1, fields, object, also);
	lua_pop(L, 1);
}

/* Layers fix depth, porosity and, with the area, the water of the bed. */
static void use_layers(lua_State *L, const struct tarn_bed_wish *d,
		       struct tarn_pond *pond)
{
	struct tarn_layers in = tarn_layers_default();
	struct tarn_layers_result sum;
	struct tarn_error err = { 0 };

	if (!isnan(pond->bed.depth_m) || !isnan(pond->bed.porosity))
		bind_error(L, "bed.%s is given beside bed.layers: leave it "
			   "out, the layers tell it",
			   isnan(pond->bed.depth_m) ? "porosity" : "depth");
	in.layer = bed_layers(L, &in.count);
	in.area_m2 = pond->bed.area_m2 > 0 ? pond->bed.area_m2 : 1;
	if (tarn_layers(&in, NULL, &sum, &err) != TARN_OK)
		bind_fail(L, &err, NULL);
	if (d->cover_m >= sum.depth_m)
		bind_error(L, "bed.cover of %f m leaves no water in layers of "
			   "%f m", d->cover_m, sum.depth_m);
	in.lip_m = sum.depth_m - d->cover_m;
	if (tarn_layers(&in, NULL, &sum, &err) != TARN_OK)
		bind_fail(L, &err, NULL);
	if (isnan(pond->bed.volume_m3) && pond->bed.area_m2 > 0)
		pond->bed.volume_m3 = sum.water_m3;
}

static void read_bed(lua_State *L, const struct tarn_bed_wish *d,
		     struct tarn_pond *pond)
{
	const char *names[BIND_NAMES_MAX];

	read_section(L, &tarn_pond_bed_fields, pond,
		     bind_beside_names("bed", &tarn_bed_wish_fields, names));
	if (!isnan(d->length_m * d->width_m)) {
		if (pond->bed.area_m2 > 0)
			bind_error(L, "bed.area is given beside length and "
				   "width: keep the one or the other");
		pond->bed.area_m2 = d->length_m * d->width_m;
	}
	if (lua_getfield(L, 1, "bed") == LUA_TTABLE &&
	    lua_getfield(L, -1, "layers") != LUA_TNIL)
		use_layers(L, d, pond);
	lua_settop(L, 2);
}

struct tarn_bed_wish bind_read_wish(lua_State *L)
{
	const char *names[BIND_NAMES_MAX];
	struct tarn_bed_wish wish = tarn_bed_wish_default();

	read_section(L, &tarn_bed_wish_fields, &wish,
		     bind_beside_names("bed", &tarn_pond_bed_fields, names));
	read_section(L, &tarn_bed_demand_fields, &wish, NULL);
	read_section(L, &tarn_bed_fish_fields, &wish, NULL);
	read_section(L, &tarn_bed_water_fields, &wish, NULL);
	read_section(L, &tarn_bed_treatment_fields, &wish,
		     bind_beside_names("treatment", NULL, names));
	return wish;
}

static void read_yard(lua_State *L)
{
	struct tarn_yard yard = tarn_yard_default();
	struct tarn_yard_corner corner[TARN_YARD_CORNERS];
	int type = lua_getfield(L, 1, "yard");

	if (type != LUA_TNIL && type != LUA_TTABLE)
		bind_error(L, "yard must be a table of fields, got %s",
			   luaL_typename(L, -1));
	if (type == LUA_TTABLE)
		bed_yard(L, lua_gettop(L), &yard, corner);
	lua_pop(L, 1);
}

void bind_design(lua_State *L, struct tarn_pond *pond)
{
	struct tarn_bed_wish wish = bind_read_wish(L);
	struct tarn_chance chance = tarn_chance_default();

	read_bed(L, &wish, pond);
	read_section(L, &tarn_chance_fields, &chance, NULL);
	if (lua_getfield(L, 1, "treatment") == LUA_TTABLE)
		bed_rate(L, lua_gettop(L));
	lua_pop(L, 1);
	read_yard(L);
}

void bind_add_design(lua_State *L)
{
	struct tarn_bed_wish d = tarn_bed_wish_default();
	struct bed_yard_plan plan = bed_yard_plan_default();
	struct tarn_yard yard = tarn_yard_default();
	struct tarn_layer layer = tarn_layer_default();
	struct tarn_yard_corner corner = tarn_yard_corner_default();
	struct tarn_chance chance = tarn_chance_default();
	const struct {
		const struct tarn_fields *fields;
		const void *object;
	} all[] = {
		{ &tarn_bed_wish_fields, &d }, { &tarn_layer_fields, &layer },
		{ &tarn_bed_demand_fields, &d }, { &tarn_bed_fish_fields, &d },
		{ &tarn_bed_water_fields, &d },
		{ &tarn_bed_treatment_fields, &d },
		{ &bed_yard_plan_fields, &plan }, { &tarn_yard_fields, &yard },
		{ &tarn_yard_corner_fields, &corner },
		{ &tarn_chance_fields, &chance },
	};

	for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
		bind_add_reference(L, all[i].fields, all[i].object);
}
