/* SPDX-License-Identifier: MIT */
/* The take-off of a bed: a line for each layer, two liners, pieces of a roll,
 * totals that know all their parts. */
#include <string.h>

#include "test_flow.h"
#include "tarn/design.h"
#include "tarn/takeoff.h"

#define TON 907.18474
#define YD3 (27 * FT * FT * FT)

/* A bed of 24 x 8 ft: 6 in of open chamber, 8 in of cobble of 1500 kg/m3, 16 in
 * of gravel whose density nobody gives. */
static const struct tarn_layer layers[3] = {
	{ "", 0.5 * FT, TARN_NAN, TARN_NAN, 1, TARN_NAN },
	{ "cobble", 2 * FT / 3, 0.075, 0.42, 1, 1500 },
	{ "pea gravel", 4 * FT / 3, 0.01, 0.38, 1, TARN_NAN },
};

static struct tarn_takeoff_bed bed_of(size_t count)
{
	return (struct tarn_takeoff_bed){
		.length_m = 8 * FT, .width_m = 24 * FT, .diameter_m = TARN_NAN,
		.layer = layers, .layers = count,
	};
}

/* A basin of 19 x 12 x 4 ft with upright walls, the bed beside it. */
static enum tarn_status solve(const struct tarn_build *b, struct tarn_pond *p,
			      const struct tarn_takeoff_bed *bed,
			      struct tarn_takeoff *t, struct tarn_error *err)
{
	struct tarn_shelved s = tarn_shelved_default();
	struct tarn_basin *basin;
	enum tarn_status st;

	s.shape = TARN_RECTANGLE;
	s.length_m = 19 * FT;
	s.width_m = 12 * FT;
	s.depth_m = 4 * FT;
	s.side_slope = 0;
	cr_assert(tarn_basin_shelved(&basin, NULL, &s, NULL) == TARN_OK);
	p->basin = basin;
	p->overflow_level_m = 3.5 * FT;
	st = tarn_takeoff_solve(b, p, &s, bed, t, err);
	tarn_basin_free(basin);
	return st;
}

static struct tarn_pond pond_of(double bed_m2)
{
	struct tarn_pond p = tarn_pond_default();

	p.bed.area_m2 = bed_m2;
	return p;
}

static const struct tarn_item *item(const struct tarn_takeoff *t,
				    const char *name)
{
	for (size_t i = 0; i < t->count; i++)
		if (strcmp(t->item[i].name, name) == 0)
			return &t->item[i];
	cr_assert_fail("no item is called %s", name);
	return NULL;
}

/* By hand: 192 ft2 x 8 in x 1500 kg/m3 and x 16 in x 0.62 x 2650 kg/m3. */
Test(takeoff_bed, a_line_for_each_layer)
{
	struct tarn_build b = tarn_build_default();
	struct tarn_pond p = pond_of(192 * FT * FT);
	struct tarn_takeoff_bed bed = bed_of(3);
	const double cobble_m3 = 128 * FT * FT * FT, gravel_m3 = 2 * cobble_m3;
	const struct tarn_item *open, *cobble, *gravel;
	struct tarn_takeoff t;

	b.load_kg = 5 * TON;
	cr_assert(solve(&b, &p, &bed, &t, NULL) == TARN_OK);
	open = item(&t, "bed, layer 1");
	cobble = item(&t, "bed, layer 2: cobble");
	gravel = item(&t, "bed, layer 3: pea gravel");
	near("volume", cobble->volume_m3, cobble_m3, 1e-9);
	near("area", cobble->area_m2, 192 * FT * FT, 1e-9);
	near("thickness", cobble->thickness_m, 2 * FT / 3, 1e-12);
	near("size", cobble->stone_m, 0.075, 0);
	near("mass", cobble->net, cobble_m3 * 1500, 1e-6);
	near("order", cobble->order, cobble_m3 * 1500 * 1.1, 1e-6);
	near("loads", cobble->loads,
	     ceil(cobble_m3 * 1500 * 1.1 / (5 * TON)), 0);
	cr_expect(cobble->assumed == NULL && cobble->unknown == NULL);
	near("by its voids", gravel->net, gravel_m3 * 0.62 * 2650, 1e-6);
	cr_expect(gravel->assumed && strstr(gravel->assumed, "2650"));
	cr_expect(open->unit == TARN_ITEM_M3 && open->kind == TARN_ITEM_OTHER &&
		  isnan(open->density_kgm3));
	near("open", open->net, 96 * FT * FT * FT, 1e-9);
	near("all", t.bed_stone_kg, cobble->net + gravel->net, 1e-6);
	near("tons, by hand", t.bed_stone_kg / TON, 19.122, 5e-4);
	near("total by way 1", t.total[TARN_TOTAL_LIGHT].amount,
	     (t.rule_stone_kg[0] + t.rule_gravel_kg[0] + t.bed_stone_kg) * 1.1,
	     1e-6);
	cr_expect(isnan(t.total[TARN_TOTAL_LAYERS].amount) &&
		  !t.total[TARN_TOTAL_LAYERS].unknown[0]);
}

/* 2.5 ft of layers: 8 + 5 + 2 by 24 + 5 + 2 ft, and 192 ft2 with 64 ft of wall
 * and edge, 3.5 ft of them. */
Test(takeoff_bed, two_liners_apart)
{
	struct tarn_build b = tarn_build_default();
	struct tarn_pond p = pond_of(192 * FT * FT);
	struct tarn_takeoff_bed bed = bed_of(3);
	struct tarn_takeoff t;
	const struct tarn_item *liner, *under;

	cr_assert(solve(&b, &p, &bed, &t, NULL) == TARN_OK);
	liner = item(&t, "bed liner");
	under = item(&t, "bed underlay");
	near("sheet", liner->net, 15 * 31 * FT * FT, 1e-9);
	near("length", liner->length_m, 15 * FT, 1e-12);
	near("width", liner->width_m, 31 * FT, 1e-12);
	near("order", liner->order, 15 * 31 * FT * FT * 1.05, 1e-9);
	near("lying", under->net, (192 + 64 * 3.5) * FT * FT, 1e-9);
	near("pond's", item(&t, "pond liner")->net, t.sheet_m2, 0);
	near("both", t.total[TARN_TOTAL_LINER].amount,
	     (t.sheet_m2 + t.bed_sheet_m2) * 1.05, 1e-9);
	near("both underlays", t.total[TARN_TOTAL_UNDERLAY].amount,
	     (t.liner_m2 + t.bed_liner_m2) * 1.05, 1e-9);
	bed.length_m = TARN_NAN;
	cr_assert(solve(&b, &p, &bed, &t, NULL) == TARN_OK);
	cr_expect(isnan(item(&t, "bed liner")->net) &&
		  strstr(item(&t, "bed liner")->unknown, "bed.length"));
	cr_expect(isnan(t.total[TARN_TOTAL_LINER].amount));
	cr_expect(strstr(t.total[TARN_TOTAL_LINER].unknown, "bed liner: "));
}

/* The bed's sheet of 15 x 31 ft from rolls of 10 ft, seams of 0.5 ft.  Along:
 * 14.5 / 9.5 gives 2 pieces of 31 ft, 620 ft2; across: 30.5 / 9.5 gives 4 of
 * 15 ft, 600 ft2 with 45 ft of joins.  Of 20 ft: one piece of 31 ft is 620 ft2,
 * across two of 15 ft are 600 ft2.  Of 40 ft across: one of 15 ft.  Of 16 ft
 * along the other side: two of 15 ft, for one of 31 ft is 496 ft2. */
Test(takeoff_bed, pieces_of_a_roll)
{
	static const struct { double roll, count, each, seams, area; } want[] = {
		{ 10, 4, 15, 45, 600 }, { 20, 2, 15, 15, 600 },
		{ 40, 1, 15, 0, 600 }, { 16, 2, 15, 15, 480 },
	};
	struct tarn_build b = tarn_build_default();
	struct tarn_pond p = pond_of(192 * FT * FT);
	struct tarn_takeoff_bed bed = bed_of(3);
	struct tarn_takeoff t;
	struct tarn_error err = { 0 };

	cr_assert(solve(&b, &p, &bed, &t, NULL) == TARN_OK);
	EXPECT_NAN(item(&t, "bed liner")->pieces);
	b.seam_m = 0.5 * FT;
	b.underlay_layers = 2;
	b.underlay_roll_m = 10 * FT;
	for (size_t k = 0; k < COUNT(want); k++) {
		const struct tarn_item *i;

		b.liner_roll_m = want[k].roll * FT;
		cr_assert(solve(&b, &p, &bed, &t, NULL) == TARN_OK);
		i = item(&t, "bed liner");
		near("pieces", i->pieces, want[k].count, 0);
		near("each", i->piece_length_m, want[k].each * FT, 1e-9);
		near("wide", i->piece_width_m, want[k].roll * FT, 1e-9);
		near("joins", i->seams_m, want[k].seams * FT, 1e-9);
		near("bought", i->order, want[k].area * FT * FT * 1.05, 1e-9);
		near("net", i->net, 15 * 31 * FT * FT, 1e-9);
		near("underlay", item(&t, "bed underlay")->pieces, 8, 0);
		cr_expect(item(&t, "pond liner")->pieces >= 1);
	}
	b.seam_m = 0.9;
	b.liner_roll_m = 0.9;
	cr_expect(solve(&b, &p, &bed, &t, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "build.seam");
}

/* A pit that nobody described is no pit of none. */
Test(takeoff_bed, dig_knows_the_pit_or_no_total)
{
	struct tarn_build b = tarn_build_default();
	struct tarn_pond p = pond_of(192 * FT * FT);
	struct tarn_takeoff_bed bed = bed_of(3);
	const double basin = 19 * 12 * 4 * FT * FT * FT;
	struct tarn_takeoff t;

	cr_assert(solve(&b, &p, &bed, &t, NULL) == TARN_OK);
	EXPECT_NAN(t.dig_m3);
	EXPECT_NAN(t.spoil_m3);
	EXPECT_NAN(t.total[TARN_TOTAL_DIG].amount);
	cr_expect(strstr(t.total[TARN_TOTAL_DIG].unknown, "build.bed_dug"));
	near("basin", item(&t, "of it the basin")->net, basin, 1e-9);
	b.bed_dug_m = 2 * FT;
	cr_assert(solve(&b, &p, &bed, &t, NULL) == TARN_OK);
	near("with the pit", t.dig_m3, basin + 384 * FT * FT * FT, 1e-9);
	near("pit", item(&t, "of it the bed's pit")->net / YD3, 384 / 27.0,
	     1e-9);
	near("total", t.total[TARN_TOTAL_DIG].amount, t.dig_m3, 1e-12);
	b.bed_dug_m = 0;
	cr_assert(solve(&b, &p, &bed, &t, NULL) == TARN_OK);
	near("built up", t.dig_m3, basin, 1e-9);
}

/* Hours: of all parts that work takes, or none. */
Test(takeoff_bed, hours_leave_nothing_out)
{
	struct tarn_build b = tarn_build_default();
	struct tarn_pond p = pond_of(192 * FT * FT);
	struct tarn_takeoff_bed bed = bed_of(3);
	struct tarn_takeoff t;
	double hours = 0;

	b.bed_dug_m = 0;
	cr_assert(solve(&b, &p, &bed, &t, NULL) == TARN_OK);
	cr_expect(isnan(t.hours) && !t.total[TARN_TOTAL_HOURS].unknown[0]);
	b.dig_m3s = 1e-4;
	cr_assert(solve(&b, &p, &bed, &t, NULL) == TARN_OK);
	cr_expect(isnan(t.hours));
	cr_expect_str_eq(t.total[TARN_TOTAL_HOURS].unknown,
			 "pond liner: no rate of yours is given for it");
	b.liner_m2s = 1e-3;
	b.stone_kgs = b.gravel_kgs = 0.1;
	cr_assert(solve(&b, &p, &bed, &t, NULL) == TARN_OK);
	hours = t.dig_m3 / 1e-4 + (t.liner_m2 + t.bed_liner_m2) / 1e-3 +
		(t.rule_stone_kg[0] + t.rule_gravel_kg[0] + t.bed_stone_kg) /
		0.1;
	near("hours", t.hours, hours / 3600, 1e-9);
}

/* A stream's liner, and its stone by layers, are described by nothing. */
Test(takeoff_bed, a_stream_refuses_its_totals)
{
	struct tarn_build b = tarn_build_default();
	struct tarn_pond p = pond_of(0);
	struct tarn_takeoff t;

	p.stream.length_m = 6;
	p.stream.width_m = 0.5;
	b.stream_dug_m = 0.2;
	b.floor_gravel_m = 0.05;
	cr_assert(solve(&b, &p, NULL, &t, NULL) == TARN_OK);
	near("stream", t.dig_stream_m3, 0.6, 1e-12);
	/* each line belongs to the way that its name says */
	cr_expect(item(&t, "gravel, way 1")->choice == 1);
	cr_expect(item(&t, "gravel, way 2")->choice == 2);
	cr_expect(item(&t, "gravel, way 3")->choice == 3);
	cr_expect(item(&t, "stone of the stream, way 3")->choice == 3);
	EXPECT_NAN(t.total[TARN_TOTAL_LINER].amount);
	cr_expect(strstr(t.total[TARN_TOTAL_LINER].unknown, "stream liner"));
	EXPECT_NAN(t.total[TARN_TOTAL_LAYERS].amount);
	cr_expect(t.total[TARN_TOTAL_LIGHT].amount > 0);
	b.stream_dug_m = TARN_NAN;
	cr_assert(solve(&b, &p, NULL, &t, NULL) == TARN_OK);
	EXPECT_NAN(t.total[TARN_TOTAL_DIG].amount);
}

/* One stone: its depth under water and the dry cover over it. */
Test(takeoff_bed, one_stone_and_no_size)
{
	struct tarn_build b = tarn_build_default();
	struct tarn_pond p = pond_of(10);
	struct tarn_takeoff_bed bed = bed_of(0);
	struct tarn_takeoff t;

	bed.layer = NULL;
	bed.cover_m = 0.05;
	p.bed.depth_m = 0.45;
	cr_assert(solve(&b, &p, &bed, &t, NULL) == TARN_OK);
	near("gravel", item(&t, "gravel of the bed")->net, 5 * b.gravel_kgm3,
	     1e-9);
	/* with its voids: (1 - 0.4) x 2650 kg/m3, as of a layer */
	p.bed.porosity = 0.4;
	bed.diameter_m = 0.02;
	cr_assert(solve(&b, &p, &bed, &t, NULL) == TARN_OK);
	near("by voids", item(&t, "gravel of the bed")->net, 7950, 1e-9);
	near("density", item(&t, "gravel of the bed")->density_kgm3, 1590,
	     1e-9);
	near("size", item(&t, "gravel of the bed")->stone_m, 0.02, 1e-12);
	near("in all", t.bed_stone_kg, 7950, 1e-9);
	near("volume", item(&t, "gravel of the bed")->volume_m3, 5, 1e-12);
	near("area", item(&t, "gravel of the bed")->area_m2, 10, 1e-12);
	near("thick", item(&t, "gravel of the bed")->thickness_m, 0.5, 1e-12);
	p.bed.depth_m = TARN_NAN;
	cr_assert(solve(&b, &p, &bed, &t, NULL) == TARN_OK);
	cr_expect(strstr(t.total[TARN_TOTAL_HEAVY].unknown, "bed.depth"));
	p.bed.area_m2 = 0;
	bed = bed_of(3);
	bed.length_m = TARN_NAN;
	cr_assert(solve(&b, &p, &bed, &t, NULL) == TARN_OK);
	EXPECT_NAN(item(&t, "bed, layer 2: cobble")->net);
	EXPECT_NAN(t.bed_stone_kg);
	cr_expect(strstr(t.total[TARN_TOTAL_LIGHT].unknown, "no area"));
}

Test(takeoff_bed, layers_are_checked)
{
	struct tarn_build b = tarn_build_default();
	struct tarn_pond p = pond_of(10);
	struct tarn_layer bad = layers[1];
	struct tarn_takeoff_bed bed = bed_of(1);
	struct tarn_takeoff t;
	struct tarn_error err = { 0 };

	bad.porosity = 0.99;
	bed.layer = &bad;
	cr_expect(solve(&b, &p, &bed, &t, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "layer 1.porosity");
}

Test(takeoff_bed, of_a_description)
{
	static const char text[] = "{\"basin\":{\"length\":5,\"width\":3,"
		"\"depth\":1},\"overflow_level\":0.9,\"bed\":{\"length\":2,\"width\":3,"
		"\"diameter\":0.03,\"cover\":0.05,\"layers\":[{\"thickness\":0.5,"
		"\"diameter\":0.02,\"porosity\":0.4}]}}";
	struct tarn_design *d;
	struct tarn_takeoff_bed bed;

	cr_assert(tarn_design_read_json(&d, NULL, text, sizeof text - 1, NULL)
		  == TARN_OK);
	bed = tarn_design_takeoff_bed(d);
	cr_expect(bed.length_m == 2 && bed.width_m == 3 && bed.layers == 1 &&
		  bed.cover_m == 0.05 && bed.layer[0].thickness_m == 0.5 &&
		  bed.diameter_m == 0.03);
	tarn_design_free(d);
}
