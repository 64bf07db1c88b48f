/* SPDX-License-Identifier: MIT */
/* The list of a take-off. */
#include <math.h>
#include <stdio.h>

#include "tarn/takeoff/parts.h"

#define NO_BED_DUG "build.bed_dug is not given (0: the bed is built up)"
#define NO_STREAM_DUG "build.stream_dug is not given (0: built up)"
#define NO_SIDES "bed.length and bed.width are not given"
#define NO_DEPTH "the bed has neither bed.layers nor bed.depth"
#define NO_STREAM "the take-off does not know the stream's banks"

struct tarn_item *tn_takeoff_add(struct tarn_takeoff *t, const char *name,
				 int unit, double net, double waste,
				 const char *basis)
{
	struct tarn_item *i = &t->item[t->count++];

	*i = (struct tarn_item){
		.unit = unit, .net = net, .waste = waste,
		.order = net * (1 + waste), .loads = TARN_NAN,
		.hours = TARN_NAN, .basis = basis, .stone_m = TARN_NAN,
		.area_m2 = TARN_NAN, .thickness_m = TARN_NAN,
		.volume_m3 = TARN_NAN, .density_kgm3 = TARN_NAN,
		.length_m = TARN_NAN, .width_m = TARN_NAN, .pieces = TARN_NAN,
		.piece_length_m = TARN_NAN, .piece_width_m = TARN_NAN,
		.seams_m = TARN_NAN,
	};
	snprintf(i->name, sizeof i->name, "%s", name);
	return i;
}

/* ---- earth ------------------------------------------------------------------ */

static void list_parts(const struct job *job, struct tarn_takeoff *t)
{
	if (!job->has_bed && !job->has_stream)
		return;
	tn_takeoff_add(t, "of it the basin", TARN_ITEM_M3, t->dig_basin_m3, 0,
		       "to its edge");
	if (job->has_bed)
		tn_takeoff_add(t, "of it the bed's pit", TARN_ITEM_M3,
			       t->dig_bed_m3, 0, "area x depth dug")->unknown =
			isnan(t->dig_bed_m3) ? NO_BED_DUG : NULL;
	if (job->has_stream)
		tn_takeoff_add(t, "of it the stream", TARN_ITEM_M3,
			       t->dig_stream_m3, 0, "area x depth dug")
			->unknown = isnan(t->dig_stream_m3) ? NO_STREAM_DUG
							    : NULL;
}

static void list_spoil(const struct tarn_build *b, struct tarn_takeoff *t,
		       const char *unknown)
{
	int bring = t->spoil_m3 < 0;
	struct tarn_item *i = tn_takeoff_add(
		t, bring ? "soil to bring, loose"
			 : "spoil to take away, loose", TARN_ITEM_M3,
		fabs(t->spoil_m3), 0, bring ? "the berm takes more than is dug"
		: "what the berm does not take");

	i->loads = tarn_loads(i->net, b->truck_m3);
	i->unknown = unknown;
}

static void list_earth(const struct job *job, struct tarn_takeoff *t)
{
	const struct tarn_build *b = job->build;
	const char *unknown = isnan(t->dig_bed_m3) ? NO_BED_DUG
		: isnan(t->dig_stream_m3) ? NO_STREAM_DUG : NULL;
	struct tarn_item *i = tn_takeoff_add(t, "dig, in the bank",
					     TARN_ITEM_M3, t->dig_m3, 0,
					     "basin to its edge, bed and "
					     "stream as dug");

	i->kind = TARN_ITEM_DIG;
	i->hours = t->dig_m3 / b->dig_m3s / 3600;
	i->labour = 1;
	i->unknown = unknown;
	tn_takeoff_add(t, "dug soil, loose", TARN_ITEM_M3, t->loose_m3, 0,
		       "bank x (1 + swell)")->unknown = unknown;
	if (b->berm_m3 > 0)
		tn_takeoff_add(t, "of it to the berm, in the bank",
			       TARN_ITEM_M3, t->berm_bank_m3, 0,
			       "finished berm / (1 - shrink)");
	list_spoil(b, t, unknown);
	list_parts(job, t);
}

/* ---- liner ------------------------------------------------------------------ */

/* Pieces of a roll, side by side, that cover a width with their seams. */
static double pieces(double width_m, double roll_m, double seam_m)
{
	if (width_m <= roll_m)
		return 1;
	return ceil((width_m - seam_m) / (roll_m - seam_m) * (1 - 1e-12));
}

/* Pieces of a roll that make a sheet: along it or across it, whichever buys
 * less.  Whole pieces are bought. */
static void join(const struct tarn_build *b, double roll_m, double sheets,
		 struct tarn_item *i)
{
	double along = pieces(i->width_m, roll_m, b->seam_m);
	double across = pieces(i->length_m, roll_m, b->seam_m);
	int turn = across * i->width_m < along * i->length_m;
	double each = turn ? across : along;

	if (isnan(roll_m) || isnan(i->length_m) || isnan(i->width_m))
		return;
	i->pieces = each * sheets;
	i->piece_length_m = turn ? i->width_m : i->length_m;
	i->piece_width_m = roll_m;
	i->seams_m = (each - 1) * i->piece_length_m * sheets;
	i->order = i->pieces * i->piece_length_m * roll_m * (1 + i->waste);
}

static struct tarn_item *list_sheet(const struct job *job,
				    struct tarn_takeoff *t, int bed)
{
	const struct tarn_build *b = job->build;
	struct tarn_item *i = tn_takeoff_add(
		t, bed ? "bed liner" : "pond liner", TARN_ITEM_M2,
		bed ? t->bed_sheet_m2 : t->sheet_m2, b->waste_liner,
		bed ? "one sheet over floor and walls, with its overlap"
		    : "one sheet over the real profile, with its overlap");

	i->kind = TARN_ITEM_LINER;
	i->hours = (bed ? t->bed_liner_m2 : t->liner_m2) / b->liner_m2s / 3600;
	i->labour = 1;
	i->length_m = bed ? t->bed_sheet_length_m : t->sheet_length_m;
	i->width_m = bed ? t->bed_sheet_width_m : t->sheet_width_m;
	join(b, b->liner_roll_m, 1, i);
	return i;
}

static struct tarn_item *list_underlay(const struct job *job,
				       struct tarn_takeoff *t, int bed)
{
	const struct tarn_build *b = job->build;
	struct tarn_item *i = tn_takeoff_add(
		t, bed ? "bed underlay" : "pond underlay", TARN_ITEM_M2,
		(bed ? t->bed_liner_m2 : t->liner_m2) * b->underlay_layers,
		b->waste_liner, "lying area x layers");

	i->kind = TARN_ITEM_UNDERLAY;
	i->length_m = bed ? t->bed_sheet_length_m : t->sheet_length_m;
	i->width_m = bed ? t->bed_sheet_width_m : t->sheet_width_m;
	join(b, b->underlay_roll_m, b->underlay_layers, i);
	return i;
}

/* A stream has a liner that nothing here describes. */
static void list_stream(struct tarn_takeoff *t, const char *name, int kind)
{
	struct tarn_item *i = tn_takeoff_add(t, name, TARN_ITEM_M2, TARN_NAN,
					     0, "not figured");

	i->kind = kind;
	i->labour = kind == TARN_ITEM_LINER;
	i->unknown = NO_STREAM;
}

static void list_liner(const struct job *job, struct tarn_takeoff *t)
{
	const char *no_bed = isnan(job->bed_deep_m) ? NO_DEPTH
		: isnan(t->bed_sheet_m2) ? NO_SIDES : NULL;
	int under = job->build->underlay_layers > 0;

	list_sheet(job, t, 0);
	if (under)
		list_underlay(job, t, 0);
	if (job->has_bed)
		list_sheet(job, t, 1)->unknown = no_bed;
	if (job->has_bed && under)
		list_underlay(job, t, 1)->unknown = no_bed;
	if (job->has_stream)
		list_stream(t, "stream liner", TARN_ITEM_LINER);
	if (job->has_stream && under)
		list_stream(t, "stream underlay", TARN_ITEM_UNDERLAY);
}

/* ---- stone ------------------------------------------------------------------ */

void tn_takeoff_deliver(const struct tarn_build *b, double rate,
			struct tarn_item *i)
{
	i->kind = TARN_ITEM_STONE;
	i->labour = 1;
	if (b->round_kg > 0)
		i->order = tarn_loads(i->order, b->round_kg) * b->round_kg;
	i->loads = tarn_loads(i->order, b->load_kg);
	i->hours = i->net / rate / 3600;
}

static void list_mass(const struct job *job, struct tarn_takeoff *t,
		      const char *name, double kg, int gravel, int way,
		      const char *basis)
{
	const struct tarn_build *b = job->build;
	struct tarn_item *i;

	if (!(kg > 0))
		return;
	i = tn_takeoff_add(t, name, TARN_ITEM_KG, kg,
			   gravel ? b->waste_gravel : b->waste_stone, basis);
	tn_takeoff_deliver(b, gravel ? b->gravel_kgs : b->stone_kgs, i);
	i->choice = way;
}

/* Way 3 has no thickness for the banks of a stream. */
static void list_layers(const struct job *job, struct tarn_takeoff *t)
{
	struct tarn_item *i;

	list_mass(job, t, "wall stone, way 3", t->stone_kg, 0, 3,
		  "walls x thickness x (1 - voids)");
	list_mass(job, t, "gravel, way 3", t->gravel_kg, 1, 3,
		  "floor and shelves x thickness");
	if (t->displaced_by != 0 || !job->has_stream)
		return;
	i = tn_takeoff_add(t, "stone of the stream, way 3", TARN_ITEM_KG,
			   TARN_NAN, 0, "not figured");
	i->kind = TARN_ITEM_STONE;
	i->choice = 3;
	i->labour = 1;
	i->unknown = "no layers describe the stream: see ways 1 and 2";
}

static void list_stone(const struct job *job, struct tarn_takeoff *t)
{
	static const char *const basis[2] = {
		"rule light (no source)", "rule heavy (no source)"
	};
	static const char *const names[2][2] = {
		{ "boulders, way 1", "gravel, way 1" },
		{ "boulders, way 2", "gravel, way 2" },
	};

	for (int k = 0; k < 2; k++) {
		list_mass(job, t, names[k][0], t->rule_stone_kg[k] +
			  t->stream_stone_kg[k], 0, k + 1, basis[k]);
		list_mass(job, t, names[k][1], t->rule_gravel_kg[k] +
			  t->stream_gravel_kg[k], 1, k + 1, basis[k]);
	}
	list_layers(job, t);
}

void tn_takeoff_list(const struct job *job, struct tarn_takeoff *t)
{
	list_earth(job, t);
	list_liner(job, t);
	list_stone(job, t);
}
