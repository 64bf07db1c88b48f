/* SPDX-License-Identifier: MIT */
/*
 * What a description says for the sizing of its bed, besides what the ledger
 * needs: more fields of 'bed', and sections of its own.  They are checked
 * whichever script reads the file.
 */
#include <stddef.h>

#include "bed.h"
#include "bind_pond.h"

struct design {
	double length_m, width_m, cover_m, drop_m, spare_head_m;
	double flow_m3s, loading_m_d, surface_share, volume_share;
	double diameter_m, sphericity, clogging;
	int regime, direction;
	double turnover, fall_width_m, fall_depth_m;
	double mass_kg, feed_kg, protein, ration;
	double temp_c, ph, oxygen_mgl, elevation_m;
	double ammonia_mgl, inlet_mgl, outlet_mgl, background_mgl;
	double k_m_yr, k_low_m_d, k_high_m_d, theta, tanks;
};

#define NUMBER(name, member, lo, hi, unit, meaning)                 \
	{ name, TARN_FIELD_NUMBER, offsetof(struct design, member), \
	  lo, hi, 0, unit, NULL, meaning }
#define CHOICE(name, member, choices, meaning)                      \
	{ name, TARN_FIELD_CHOICE, offsetof(struct design, member), \
	  0, sizeof choices / sizeof choices[0] - 2, 0, "-", choices, meaning }
#define SECTION(variable, section, rows)                     \
	static const struct tarn_fields variable = {         \
		section, rows, sizeof rows / sizeof rows[0] }

static const char *const regimes[] = {
	"none", "slow_planted", "aquaculture", "roughing", "bog", NULL
};
static const char *const directions[] = { "upflow", "horizontal", NULL };

static const struct tarn_field bed_rows[] = {
	NUMBER("length", length_m, 0.05, 1e3, "m",
	       "from its lip to the far side; with width, instead of area"),
	NUMBER("width", width_m, 0.05, 1e3, "m", "along its lip"),
	NUMBER("cover", cover_m, 0, 1, "m",
	       "dry stone over the water: the lip lies so far under its top"),
	NUMBER("drop", drop_m, 0, 10, "m",
	       "from its lip down to the pond's water"),
	NUMBER("spare_head", spare_head_m, 0, 100, "m",
	       "head that the pump has left for the stone; drop if not given"),
	NUMBER("flow", flow_m3s, 1e-8, 10, "m3/s",
	       "through it; the pump's if not given"),
	NUMBER("loading", loading_m_d, 1e-4, 1e4, "m/d",
	       "surface loading to size by, such as 0.5 * gpm_per_ft2"),
	CHOICE("regime", regime, regimes,
	       "or a kind of bed: the middle of its loadings is taken"),
	NUMBER("surface_share", surface_share, 1e-3, 10, "-",
	       "wanted: its area / the pond's surface"),
	NUMBER("volume_share", volume_share, 1e-3, 10, "-",
	       "wanted: its volume, stone and all / the pond's volume"),
	NUMBER("clogging", clogging, 1, 1e4, "-",
	       "head lost when it is due for cleaning / when clean"),
	CHOICE("direction", direction, directions, "way of the water"),
	NUMBER("diameter", diameter_m, 1e-5, 0.5, "m",
	       "size of the stone, where there are no layers"),
	NUMBER("sphericity", sphericity, 0.3, 1, "-",
	       "of that stone: 1 sphere, 0.82 rounded, 0.73 crushed"),
};
SECTION(bed_fields, "bed", bed_rows);

static const struct tarn_field demand_rows[] = {
	NUMBER("turnover", turnover, 1e-3, 100, "1/h",
	       "pond volumes an hour wanted"),
	NUMBER("fall_width", fall_width_m, 0.01, 100, "m",
	       "width of the falls"),
	NUMBER("fall_depth", fall_depth_m, 1e-3, 1, "m",
	       "water wanted on their lip, where it moves"),
};
SECTION(demand_fields, "demand", demand_rows);

static const struct tarn_field fish_rows[] = {
	NUMBER("mass", mass_kg, 0, 1e5, "kg", "of all fish"),
	NUMBER("feed", feed_kg, 0, 1e4, "kg",
	       "dry feed a day, such as 60 * g; from the mass if not given"),
	NUMBER("protein", protein, 0.1, 0.7, "-", "share of the feed"),
	NUMBER("ration", ration, 0, 0.2, "-",
	       "feed a day / mass, when the water is warm"),
};
SECTION(fish_fields, "fish", fish_rows);

static const struct tarn_field water_rows[] = {
	NUMBER("temp", temp_c, 0, 40, "deg C",
	       "of the water in the season to size for"),
	NUMBER("ph", ph, 4, 12, "-", "highest of the day"),
	NUMBER("oxygen", oxygen_mgl, 0, 30, "mg/L",
	       "where the water enters the bed; 0.8 of saturation if not "
	       "given"),
	NUMBER("elevation", elevation_m, -430, 6000, "m", "above the sea"),
};
SECTION(water_fields, "water", water_rows);

static const struct tarn_field treatment_rows[] = {
	NUMBER("ammonia", ammonia_mgl, 0, 1000, "mg/L",
	       "ammonia nitrogen wanted in the pond, at the most"),
	NUMBER("inlet", inlet_mgl, 0, 1e5, "mg/L",
	       "concentration in, for one pass"),
	NUMBER("outlet", outlet_mgl, 0, 1e5, "mg/L",
	       "concentration wanted after one pass"),
	NUMBER("background", background_mgl, 0, 1e5, "mg/L",
	       "below which no bed gets it"),
	NUMBER("k", k_m_yr, 1e-3, 1e6, "m/yr",
	       "areal removal rate at 20 deg C; or the name of a rate"),
	NUMBER("k_low", k_low_m_d, 0, 1e4, "m/d",
	       "least loading at which k was measured"),
	NUMBER("k_high", k_high_m_d, 1e-6, 1e4, "m/d",
	       "highest loading at which k was measured"),
	NUMBER("theta", theta, 0.8, 1.4, "-",
	       "temperature factor of k per deg C"),
	NUMBER("tanks", tanks, 1, HUGE_VAL, "-",
	       "equal mixed tanks in a row; infinity (plug flow) if not "
	       "given"),
};
SECTION(treatment_fields, "treatment", treatment_rows);

static struct design design_default(void)
{
	struct design d = { 0 };
	const struct tarn_fields *const all[] = {
		&bed_fields, &demand_fields, &fish_fields, &water_fields,
		&treatment_fields,
	};
	struct tarn_waste waste = tarn_waste_default();
	struct tarn_sizing sizing = tarn_sizing_default();

	for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
		for (size_t r = 0; r < all[i]->count; r++) {
			const struct tarn_field *row = &all[i]->rows[r];

			if (row->kind == TARN_FIELD_NUMBER)
				*(double *)(void *)((char *)&d + row->offset) =
					TARN_NAN;
		}
	d.cover_m = d.background_mgl = 0;
	d.sphericity = 1;
	d.clogging = sizing.clogging;
	d.protein = waste.protein;
	d.ration = waste.ration;
	d.temp_c = sizing.temp_c;
	d.elevation_m = sizing.elevation_m;
	return d;
}

/* ---- reading --------------------------------------------------------------- */

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
static void use_layers(lua_State *L, const struct design *d,
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

static void read_bed(lua_State *L, struct design *d, struct tarn_pond *pond)
{
	const char *names[BIND_NAMES_MAX];

	read_section(L, &tarn_pond_bed_fields, pond,
		     bind_beside_names("bed", &bed_fields, names));
	read_section(L, &bed_fields, d,
		     bind_beside_names("bed", &tarn_pond_bed_fields, names));
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
	const char *names[BIND_NAMES_MAX];
	struct design d = design_default();
	struct tarn_chance chance = tarn_chance_default();

	read_bed(L, &d, pond);
	read_section(L, &demand_fields, &d, NULL);
	read_section(L, &fish_fields, &d, NULL);
	read_section(L, &water_fields, &d, NULL);
	read_section(L, &treatment_fields, &d,
		     bind_beside_names("treatment", NULL, names));
	read_section(L, &tarn_chance_fields, &chance, NULL);
	if (lua_getfield(L, 1, "treatment") == LUA_TTABLE)
		bed_rate(L, lua_gettop(L));
	lua_pop(L, 1);
	read_yard(L);
}

void bind_add_design(lua_State *L)
{
	struct design d = design_default();
	struct bed_yard_plan plan = bed_yard_plan_default();
	struct tarn_yard yard = tarn_yard_default();
	struct tarn_layer layer = tarn_layer_default();
	struct tarn_yard_corner corner = tarn_yard_corner_default();
	struct tarn_chance chance = tarn_chance_default();
	const struct {
		const struct tarn_fields *fields;
		const void *object;
	} all[] = {
		{ &bed_fields, &d }, { &tarn_layer_fields, &layer },
		{ &demand_fields, &d }, { &fish_fields, &d },
		{ &water_fields, &d }, { &treatment_fields, &d },
		{ &bed_yard_plan_fields, &plan }, { &tarn_yard_fields, &yard },
		{ &tarn_yard_corner_fields, &corner },
		{ &tarn_chance_fields, &chance },
	};

	for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
		bind_add_reference(L, all[i].fields, all[i].object);
}
