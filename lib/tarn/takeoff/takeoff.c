/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/takeoff/profile.h"

#define PI 3.14159265358979323846
#define FT 0.3048
#define TON 907.18474			/* US, 2000 lb */

static double or_zero(double x)
{
	return isnan(x) ? 0 : x;
}

/* ---- earth ------------------------------------------------------------------ */

static void figure_earth(const struct tarn_build *b, const struct tarn_pond *p,
			 struct tarn_takeoff *t)
{
	size_t count;
	double basin = tarn_basin_volume(p->basin, tarn_basin_top(p->basin)) /
		       tarn_basin_scale(p->basin);
	double stream_m2 = isnan(p->stream.area_m2) ?
		or_zero(p->stream.length_m * p->stream.width_m) :
		p->stream.area_m2;

	t->swell = isnan(b->swell) ? tarn_soils(&count)[b->soil].swell
				   : b->swell;
	t->dig_m3 = basin + p->bed.area_m2 * b->bed_dug_m +
		    stream_m2 * b->stream_dug_m;
	t->loose_m3 = tarn_loose_m3(t->dig_m3, t->swell);
	t->berm_bank_m3 = b->berm_m3 / (1 - b->shrink);
	t->spoil_m3 = (t->dig_m3 - t->berm_bank_m3) * (1 + t->swell);
}

/* ---- liner ------------------------------------------------------------------ */

static void figure_liner(const struct tarn_build *b, const struct profile *f,
			 struct tarn_takeoff *t)
{
	struct surfaces s = tn_profile_surfaces(f);
	const struct tarn_station *edge = &f->at[0];
	double depth = edge->level_m - f->at[f->count - 1].level_m;
	double o = b->overlap_m;

	t->floor_m2 = s.floor_m2;
	t->shelves_m2 = s.shelves_m2;
	t->walls_m2 = s.walls_m2;
	/* a strip round the shore; its four corners overlap on a real edge */
	t->liner_m2 = s.floor_m2 + s.shelves_m2 + s.walls_m2 +
		      edge->perimeter_m * o;
	t->sheet_length_m = s.along_m + 2 * o;
	t->sheet_width_m = s.across_m + 2 * o;
	t->sheet_m2 = t->sheet_length_m * t->sheet_width_m;
	t->rule_length_m = tarn_liner_rule_m(edge->length_m, depth, 2 * o);
	t->rule_width_m = tarn_liner_rule_m(edge->width_m, depth, 2 * o);
	t->rule_m2 = t->rule_length_m * t->rule_width_m;
}

/* ---- stone ------------------------------------------------------------------- */

/* Two rules in circulation, no source: light, heavy. */
static void figure_stone(const struct tarn_build *b, const struct tarn_pond *p,
			 const struct profile *f, struct tarn_takeoff *t)
{
	static const double divisor[2] = { 65, 40 }, gravel[2] = { 0.45, 0.25 };
	static const double stream_stone[2] = { 0.75, 1.5 };
	static const double stream_gravel[2] = { 0.5, 0 };
	double lw_ft2 = f->at[0].length_m * f->at[0].width_m / (FT * FT);
	double tens_of_ft = or_zero(p->stream.length_m) / (10 * FT);

	for (int k = 0; k < 2; k++) {
		t->rule_stone_kg[k] = lw_ft2 / divisor[k] * TON;
		t->rule_gravel_kg[k] = t->rule_stone_kg[k] * gravel[k];
		t->stream_stone_kg[k] = tens_of_ft * stream_stone[k] * TON;
		t->stream_gravel_kg[k] = tens_of_ft * stream_gravel[k] * TON;
	}
	t->stone_kg = t->walls_m2 * b->wall_stone_m * (1 - b->voids) *
		      b->stone_kgm3;
	t->gravel_kg = (t->floor_m2 + t->shelves_m2) * b->floor_gravel_m *
		       b->gravel_kgm3;
	t->bed_gravel_kg = or_zero(p->bed.area_m2 * p->bed.depth_m) *
			   b->gravel_kgm3;
}

static void figure_water(const struct tarn_build *b, const struct tarn_pond *p,
			 struct tarn_takeoff *t)
{
	double kg = t->stone_kg + t->gravel_kg;

	t->displaced_by = 0;
	if (!(kg > 0)) {
		t->displaced_by = 1 + b->rule;
		kg = t->rule_stone_kg[b->rule] + t->rule_gravel_kg[b->rule];
	}
	t->displaced_m3 = kg / b->stone_kgm3;
	t->water_m3 = tarn_basin_volume(p->basin, p->overflow_level_m);
	/* stone that nobody described is a guess for the order, not less
	   water */
	if (t->displaced_by == 0)
		t->water_m3 -= t->displaced_m3;
}

/* ---- the list ------------------------------------------------------------------ */

static struct tarn_item *add(struct tarn_takeoff *t, const char *name, int unit,
			     double net, double waste, const char *basis)
{
	struct tarn_item *i = &t->item[t->count++];

	*i = (struct tarn_item){ .name = name, .unit = unit, .net = net,
				 .waste = waste, .order = net * (1 + waste),
				 .loads = TARN_NAN, .hours = TARN_NAN,
				 .basis = basis };
	return i;
}

static void add_mass(const struct tarn_build *b, struct tarn_takeoff *t,
		     const char *name, double kg, double waste, double rate,
		     int choice, const char *basis)
{
	struct tarn_item *i;

	if (!(kg > 0))
		return;
	i = add(t, name, TARN_ITEM_KG, kg, waste, basis);
	if (b->round_kg > 0)
		i->order = tarn_loads(i->order, b->round_kg) * b->round_kg;
	i->loads = tarn_loads(i->order, b->load_kg);
	i->hours = kg / rate / 3600;
	i->choice = choice;
}

static void list_earth(const struct tarn_build *b, struct tarn_takeoff *t)
{
	struct tarn_item *i = add(t, "dig, in the bank", TARN_ITEM_M3,
				  t->dig_m3, 0, "basin to its edge, bed and "
				  "stream as dug");

	i->hours = t->dig_m3 / b->dig_m3s / 3600;
	add(t, "dug soil, loose", TARN_ITEM_M3, t->loose_m3, 0,
	    "bank x (1 + swell)");
	if (b->berm_m3 > 0)
		add(t, "of it to the berm, in the bank", TARN_ITEM_M3,
		    t->berm_bank_m3, 0, "finished berm / (1 - shrink)");
	if (t->spoil_m3 >= 0)
		add(t, "spoil to take away, loose", TARN_ITEM_M3, t->spoil_m3,
		    0, "what the berm does not take")->loads =
			tarn_loads(t->spoil_m3, b->truck_m3);
	else
		add(t, "soil to bring, loose", TARN_ITEM_M3, -t->spoil_m3, 0,
		    "the berm takes more than is dug")->loads =
			tarn_loads(-t->spoil_m3, b->truck_m3);
}

static void list_liner(const struct tarn_build *b, struct tarn_takeoff *t)
{
	add(t, "liner, one sheet", TARN_ITEM_M2, t->sheet_m2, b->waste_liner,
	    "real profile and overlap")->hours =
		t->liner_m2 / b->liner_m2s / 3600;
	if (b->underlay_layers > 0)
		add(t, "underlay", TARN_ITEM_M2,
		    t->liner_m2 * b->underlay_layers, b->waste_liner,
		    "lying area x layers");
}

static void list_stone(const struct tarn_build *b, struct tarn_takeoff *t)
{
	static const char *const basis[2] = {
		"rule light (no source)", "rule heavy (no source)"
	};
	static const char *const names[2][2] = {
		{ "boulders, way 1", "gravel, way 1" },
		{ "boulders, way 2", "gravel, way 2" },
	};

	for (int k = 0; k < 2; k++) {
		add_mass(b, t, names[k][0], t->rule_stone_kg[k] +
			 t->stream_stone_kg[k], b->waste_stone, b->stone_kgs,
			 k + 1, basis[k]);
		add_mass(b, t, names[k][1], t->rule_gravel_kg[k] +
			 t->stream_gravel_kg[k], b->waste_gravel,
			 b->gravel_kgs, k + 1, basis[k]);
	}
	add_mass(b, t, "wall stone, way 3", t->stone_kg, b->waste_stone,
		 b->stone_kgs, 3, "walls x thickness x (1 - voids)");
	add_mass(b, t, "gravel, way 3", t->gravel_kg, b->waste_gravel,
		 b->gravel_kgs, 3, "floor and shelves x thickness");
	add_mass(b, t, "gravel of the bed", t->bed_gravel_kg, b->waste_gravel,
		 b->gravel_kgs, 0, "area x depth");
}

/* Hours of what is bought for certain and of one way to figure the stone:
 * layers where they are given, else the rule chosen. */
static void sum_hours(struct tarn_takeoff *t)
{
	int way = t->displaced_by == 0 ? 3 : t->displaced_by;

	for (size_t i = 0; i < t->count; i++)
		if (t->item[i].choice == 0 || t->item[i].choice == way)
			t->hours += or_zero(t->item[i].hours);
}

static enum tarn_status find_profile(const struct tarn_build *b,
				     const struct tarn_pond *p,
				     const struct tarn_shelved *shape,
				     struct profile *out,
				     struct tarn_error *err)
{
	if (shape) {
		tn_profile_of_shape(shape, out);
		return TARN_OK;
	}
	if (isnan(b->length_m) || isnan(b->width_m))
		return tarn_fail(err, TARN_EARG, "build.length", "and "
				 "build.width at the edge are missing: a basin "
				 "given by areas does not tell them");
	tn_profile_of_basin(p->basin, b->length_m, b->width_m, out);
	return TARN_OK;
}

enum tarn_status tarn_takeoff_solve(const struct tarn_build *b,
				    const struct tarn_pond *p,
				    const struct tarn_shelved *shape,
				    struct tarn_takeoff *out,
				    struct tarn_error *err)
{
	struct tarn_takeoff t = { 0 };
	struct profile f;
	enum tarn_status status = tarn_fields_check(&tarn_build_fields, b, err);

	if (status == TARN_OK)
		status = tarn_pond_check(p, err);
	if (status == TARN_OK)
		status = find_profile(b, p, shape, &f, err);
	if (status != TARN_OK)
		return status;
	figure_earth(b, p, &t);
	figure_liner(b, &f, &t);
	figure_stone(b, p, &f, &t);
	figure_water(b, p, &t);
	if (!(t.water_m3 > 0))
		return tarn_fail(err, TARN_EARG, "build", "puts %.3g m3 of "
				 "solid stone into a pond of %.3g m3: check the "
				 "thicknesses (an inch is not a foot)",
				 t.displaced_m3, t.water_m3 + t.displaced_m3);
	list_earth(b, &t);
	list_liner(b, &t);
	list_stone(b, &t);
	sum_hours(&t);
	*out = t;
	return TARN_OK;
}

enum tarn_status tarn_takeoff_profile(const struct tarn_build *b,
				      const struct tarn_pond *p,
				      const struct tarn_shelved *shape,
				      struct tarn_station *out, size_t *count,
				      struct tarn_error *err)
{
	struct tarn_build round = *b;
	double edge_m2 = tarn_basin_area(p->basin, tarn_basin_top(p->basin));
	struct profile f;
	enum tarn_status status = tarn_fields_check(&tarn_build_fields, b, err);

	if (isnan(round.length_m) || isnan(round.width_m))
		round.length_m = round.width_m = sqrt(edge_m2 / PI) * 2;
	if (status == TARN_OK)
		status = find_profile(&round, p, shape, &f, err);
	if (status != TARN_OK)
		return status;
	for (size_t i = 0; i < f.count; i++)
		out[i] = f.at[i];
	*count = f.count;
	return TARN_OK;
}
