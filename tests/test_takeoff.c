/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "test_flow.h"
#include "published.h"
#include "tarn/takeoff.h"

#define YD3 (27 * FT * FT * FT)
#define FT3 (FT * FT * FT)
#define GAL 3.785411784e-3
#define TON 907.18474
#define ACRE (43560 * FT * FT)
#define LB 0.45359237
#define LB_YD3 (LB / YD3)

/* A trench whose width and depth grow evenly: sections 2 x 1, 3 x 2, 4 x 3 m;
 * the integral of (2 + 2 u)(1 + 2 u) 10 du is 190 / 3 m3.  A cone less its
 * tip. */
Test(takeoff, volumes_by_hand)
{
	double sections[] = { 2, 6, 12 };

	near("prismoid", tarn_prismoid_m3(2, 6, 12, 10), 190.0 / 3, 1e-12);
	near("Simpson", tarn_simpson_m3(sections, 3, 5), 190.0 / 3, 1e-12);
	near("end areas", tarn_end_area_m3(2, 12, 10), 70, 1e-12);
	near("frustum", tarn_frustum_m3(6, 2, 4),
	     PI / 3 * (9 * 6.0 - 1 * 2.0), 1e-12);
	near("cylinder", tarn_frustum_m3(3, 3, 7), PI / 4 * 9 * 7, 1e-12);
}

Test(takeoff, published_volumes)
{
	/* yd3 for each square inch of an end section at 1 in = 8 ft */
	const struct published wheatley[] = {	/* printed cut off, not rounded */
		{ "prismoid constant", tarn_prismoid_m3(64, 0, 0, 100) / 27,
		  39.5061, 1e-4 },
		{ "composite Simpson, 2 L / 3, L = 2 ft, 1 in = 10 ft",
		  tarn_simpson_m3((double[]){ 0, 0, 100, 0, 0 }, 5, 2) / 27,
		  4.9382, 1e-4 },
		{ "gallons, composite Simpson, L = 1 ft",
		  tarn_simpson_m3((double[]){ 0, 0, 1, 0, 0 }, 5, 1) * FT3 / GAL,
		  4.987, 5e-4 },
	};

	because("Wheatley", "the source cuts its digits and does not round");
	EXPECT_PRINTED("Wheatley, The Polar Planimeter, eq. 7, 19-22", wheatley);
}

Test(takeoff, published_areas_and_earth)
{
	/* .4939 is cut off, not rounded (.49398) */
	const struct published ohio[] = {
		{ "520 ft of shoreline, acres",
		  tarn_shoreline_area_m2(520 * FT) / ACRE, 0.4939, 1e-4 },
		{ "4 pi acres in ft2",
		  ACRE / tarn_shoreline_area_m2(FT), 547390, 2 },
	};

	because("4 pi", "the source rounds it to tens");
	because("520 ft", "the source cuts its digits and does not round");
	EXPECT_PRINTED("Ohio State University fact sheet A-2", ohio);
}

Test(takeoff, earth_and_liner_by_hand)
{
	near("loose", tarn_loose_m3(40, 0.35), 54, 1e-12);
	near("loads", tarn_loads(54, 6), 9, 0);
	near("loads begun", tarn_loads(54.1, 6), 10, 0);
	near("rule of the liner", tarn_liner_rule_m(5.5, 1.3, 0.6), 8.7,
	     1e-12);
	near("gravel as it lies, lb/ft3 (common practice)",
	     tarn_build_default().gravel_kgm3 * FT3 / LB, 100, 1e-9);
	/* derived: clay 3000 / 2310 / 3750 lb/yd3 */
	near("swell of clay (regression)",
	     tarn_swell(3000 * LB_YD3, 2310 * LB_YD3), 0.2987013, 5e-8);
	near("shrink of clay (regression)",
	     tarn_shrink(3000 * LB_YD3, 3750 * LB_YD3), 0.20, 1e-12);
}

/* Looser the more clay or rock; the one that a manual gives is from memory. */
Test(takeoff, soils)
{
	static const struct { const char *name; double swell; } want[] = {
		{ "common earth", 0.25 },
		{ "clay damp", 0.40 }, { "clay dry", 0.35 },
		{ "gravel dry", 0.15 }, { "gravel wet", 0.05 },
		{ "gravel pit run", 0.08 }, { "limestone", 0.60 },
		{ "granite", 0.70 },
	};
	size_t count;
	const struct tarn_soil *soils = tarn_soils(&count);

	cr_assert(count == COUNT(want));
	for (size_t k = 0; k < count; k++) {
		cr_expect_str_eq(soils[k].name, want[k].name);
		cr_expect(soils[k].swell == want[k].swell, "%s", want[k].name);
		cr_expect(soils[k].evidence == (k ? TARN_EVIDENCE_PRACTICE :
						TARN_EVIDENCE_MEMORY));
		cr_expect_str_eq(tarn_fields_find(&tarn_build_fields, "soil")
					 ->choices[k], soils[k].name);
	}
}

Test(takeoff, formulas_refuse)
{
	EXPECT_NAN(tarn_prismoid_m3(-1, 1, 1, 1));
	EXPECT_NAN(tarn_end_area_m3(1, TARN_NAN, 1));
	EXPECT_NAN(tarn_simpson_m3((double[]){ 1, 1, 1, 1 }, 4, 1));
	EXPECT_NAN(tarn_simpson_m3((double[]){ 1, -1, 1 }, 3, 1));
	EXPECT_NAN(tarn_frustum_m3(1, 1, -1));
	EXPECT_NAN(tarn_shoreline_area_m2(-1));
	EXPECT_NAN(tarn_loose_m3(1, -0.1));
	EXPECT_NAN(tarn_swell(2000, 2100));
	EXPECT_NAN(tarn_shrink(2000, 1900));
	EXPECT_NAN(tarn_loads(1, 0));
	EXPECT_NAN(tarn_liner_rule_m(1, -1, 0));
	cr_expect(tarn_loads(7, 7) == 1 && tarn_loads(0, 7) == 0 &&
		  tarn_loads(2.1 * 3, 2.1) == 3);
}

/* ---- a whole pond ------------------------------------------------------------- */

static struct tarn_shelved shape_of(int shape, double slope)
{
	struct tarn_shelved s = tarn_shelved_default();

	s.shape = shape;
	s.length_m = 19 * FT;
	s.width_m = 12 * FT;
	s.depth_m = 4 * FT;
	s.side_slope = slope;
	return s;
}

static void figure(const struct tarn_shelved *s, const struct tarn_build *b,
		   struct tarn_takeoff *t)
{
	struct tarn_basin *basin;
	struct tarn_pond p = tarn_pond_default();

	cr_assert(tarn_basin_shelved(&basin, NULL, s, NULL) == TARN_OK);
	p.basin = basin;
	p.overflow_level_m = s->depth_m - 0.1;
	cr_assert(tarn_takeoff_solve(b, &p, s, NULL, t, NULL) == TARN_OK);
	tarn_basin_free(basin);
}

/* Upright walls: the sheet is the rule.  Shelves move nothing.  Leaning walls
 * save: frustums by exact geometry. */
Test(takeoff, liner_follows_the_profile)
{
	struct tarn_build b = tarn_build_default();
	struct tarn_shelved s = shape_of(TARN_RECTANGLE, 0);
	struct tarn_takeoff t;
	double slant = 4 * FT * sqrt(1.25), r = 9.5 * FT;

	figure(&s, &b, &t);
	near("upright, length", t.sheet_length_m, t.rule_length_m, 1e-12);
	near("upright, width", t.sheet_width_m, t.rule_width_m, 1e-12);
	near("walls", t.walls_m2, 2 * 31 * 4 * FT * FT, 1e-12);
	s.shelves = 1;
	s.shelf[0].depth_m = 1 * FT;
	s.shelf[0].width_m = 1 * FT;
	figure(&s, &b, &t);
	near("with a shelf", t.sheet_length_m, t.rule_length_m, 1e-12);
	near("shelf", t.shelves_m2 / (FT * FT), 19 * 12 - 17 * 10, 1e-9);
	s = shape_of(TARN_RECTANGLE, 0.5);
	figure(&s, &b, &t);
	near("pyramid frustum's walls", t.walls_m2,
	     slant * (31 + 23) * FT, 1e-12);
	near("slant", t.sheet_length_m, 15 * FT + 2 * slant + 2 * b.overlap_m,
	     1e-12);
	cr_expect(t.sheet_m2 < t.rule_m2);
	s = shape_of(TARN_ELLIPSE, 0.5);
	s.width_m = s.length_m;
	figure(&s, &b, &t);
	near("cone frustum's wall", t.walls_m2,
	     PI * (r + r - 2 * FT) * slant, 1e-9);
	near("floor", t.floor_m2, PI * 7.5 * 7.5 * FT * FT, 1e-9);
	near("lying", t.liner_m2, t.floor_m2 + t.walls_m2 +
	     2 * PI * r * b.overlap_m, 1e-9);
	cr_expect(t.liner_m2 < t.sheet_m2);
}

/* The two rules of a pond of 228 ft2, in US tons: light 3.51 of boulders with
 * 1.58 of gravel, heavy 5.7 with 1.43. */
Test(takeoff, stone_by_rules_regression)
{
	struct tarn_build b = tarn_build_default();
	struct tarn_shelved s = shape_of(TARN_ELLIPSE, 0.25);
	struct tarn_takeoff t;
	double full;

	figure(&s, &b, &t);
	near("boulders, light", t.rule_stone_kg[0] / TON, 3.508, 0.0005);
	near("gravel, light", t.rule_gravel_kg[0] / TON, 1.578, 0.0005);
	near("boulders, heavy", t.rule_stone_kg[1] / TON, 5.7, 0.0005);
	near("gravel, heavy", t.rule_gravel_kg[1] / TON, 1.425, 0.0005);
	cr_expect(t.displaced_by == 1);
	near("displaced", t.displaced_m3, (t.rule_stone_kg[0] +
	     t.rule_gravel_kg[0]) / b.stone_kgm3, 1e-12);
	full = t.water_m3;	/* nothing deducted by rule */
	b.wall_stone_m = 0.2;
	b.floor_gravel_m = 0.05;
	figure(&s, &b, &t);
	cr_expect(t.displaced_by == 0);
	near("water", t.water_m3, full - t.displaced_m3, 1e-12);
	near("walls", t.stone_kg, t.walls_m2 * 0.2 * 0.65 * b.stone_kgm3,
	     1e-9);
	near("floor", t.gravel_kg, t.floor_m2 * 0.05 * b.gravel_kgm3, 1e-9);
}

Test(takeoff, earth_and_orders)
{
	struct tarn_build b = tarn_build_default();
	struct tarn_shelved s = shape_of(TARN_RECTANGLE, 0);
	struct tarn_takeoff t;
	double dig = 19 * 12 * 4 * FT3;
	int lines = 0;

	b.swell = 0.3;
	b.shrink = 0.05;
	b.berm_m3 = 0.95;
	b.truck_m3 = 5;
	b.dig_m3s = 1.0 / 3600;
	b.round_kg = 250;
	b.load_kg = 2000;
	b.waste_stone = 0.1;
	figure(&s, &b, &t);
	near("dig", t.dig_m3, dig, 1e-9);
	near("berm", t.berm_bank_m3, 1, 1e-12);
	near("spoil", t.spoil_m3, (dig - 1) * 1.3, 1e-9);
	for (size_t i = 0; i < t.count; i++)
		if (strcmp(t.item[i].name, "of it to the berm, in the bank") == 0) {
			near("its line", t.item[i].net, 1, 1e-12);
			cr_expect(t.item[i].unit == TARN_ITEM_M3);
			lines++;
		}
	cr_expect(lines == 1);
	near("loads", t.item[3].loads, ceil((dig - 1) * 1.3 / 5), 0);
	near("hours", t.item[0].hours, dig, 1e-9);
	cr_expect(isnan(t.hours) &&
		  strstr(t.total[TARN_TOTAL_HOURS].unknown, "pond liner"));
	for (size_t i = 0; i < t.count; i++) {
		const struct tarn_item *m = &t.item[i];

		if (m->unit != TARN_ITEM_KG)
			continue;
		cr_expect(m->order >= m->net * (1 + m->waste) * (1 - 1e-9) &&
			  m->order < m->net * (1 + m->waste) + 250 &&
			  fmod(m->order, 250) == 0, "%s", m->name);
		near(m->name, m->loads, ceil(m->order / 2000), 0);
	}
	b.berm_m3 = 50;
	figure(&s, &b, &t);
	cr_expect(t.spoil_m3 < 0);
	cr_expect_str_eq(t.item[3].name, "soil to bring, loose");
}

/* Of the three ways to figure stone one is counted, and each rule holds what the
 * stream takes too. */
Test(takeoff, one_way_is_counted)
{
	struct tarn_build b = tarn_build_default();
	struct tarn_shelved s = shape_of(TARN_ELLIPSE, 0.25);
	struct tarn_pond p = tarn_pond_default();
	struct tarn_basin *basin;
	struct tarn_takeoff t;
	double hours = 0;

	b.stream_dug_m = 0;
	cr_assert(tarn_basin_shelved(&basin, NULL, &s, NULL) == TARN_OK);
	p.basin = basin;
	p.overflow_level_m = s.depth_m - 0.1;
	p.stream.length_m = 6;
	p.stream.width_m = 0.5;
	b.dig_m3s = 1.0 / 3600;
	b.stone_kgs = 0.1;
	b.gravel_kgs = 0.2;
	cr_assert(tarn_takeoff_solve(&b, &p, &s, NULL, &t, NULL) == TARN_OK);
	cr_assert(t.displaced_by == 1 && t.stream_stone_kg[0] > 0 &&
		  t.stream_gravel_kg[0] > 0);
	for (size_t i = 0; i < t.count; i++) {
		const struct tarn_item *m = &t.item[i];

		if (strcmp(m->name, "boulders, way 1") == 0) {
			near("boulders", m->net, t.rule_stone_kg[0] +
			     t.stream_stone_kg[0], 1e-9);
			near("their hours", m->hours, m->net / 0.1 / 3600,
			     1e-9);
			cr_expect(m->choice == 1);
		}
		if (strcmp(m->name, "boulders, way 2") == 0)
			cr_expect(m->choice == 2);
		if (strcmp(m->name, "gravel, way 1") == 0)
			near("gravel", m->net, t.rule_gravel_kg[0] +
			     t.stream_gravel_kg[0], 1e-9);
		if ((m->choice == 0 || m->choice == 1) && !isnan(m->hours))
			hours += m->hours;
	}
	cr_expect(hours > t.item[0].hours);
	/* but for the liners, for which no rate is given */
	cr_expect(isnan(t.hours) &&
		  strstr(t.total[TARN_TOTAL_HOURS].unknown, "pond liner"));
	b.liner_m2s = 1;
	p.stream.length_m = 0;
	cr_assert(tarn_takeoff_solve(&b, &p, &s, NULL, &t, NULL) == TARN_OK);
	near("sum of hours", t.hours, (t.dig_m3 / b.dig_m3s + t.liner_m2 +
	     t.rule_stone_kg[0] / 0.1 + t.rule_gravel_kg[0] / 0.2) / 3600,
	     1e-9);
	tarn_basin_free(basin);
}

/* An oval of 6 x 4 m, 1.2 m deep, walls of 0.3, a shelf of 0.4 m at 0.25 m: the
 * edge, both sides of the shelf, the floor.  Perimeters are elliptic integrals,
 * summed elsewhere. */
Test(takeoff, stations_of_a_shelved_oval)
{
	static const double want[][3] = {	/* level, length, perimeter */
		{ 1.2, 6, 15.865440 }, { 0.95, 5.85, 15.399097 },
		{ 0.95, 5.05, 12.918126 }, { 0, 4.48, 11.159621 },
	};
	struct tarn_build b = tarn_build_default();
	struct tarn_shelved s = tarn_shelved_default();
	struct tarn_basin *basin;
	struct tarn_pond p = tarn_pond_default();
	struct tarn_station at[TARN_STATIONS_MAX];
	size_t count;

	s.shape = TARN_ELLIPSE;
	s.length_m = 6;
	s.width_m = 4;
	s.depth_m = 1.2;
	s.side_slope = 0.3;
	s.shelves = 1;
	s.shelf[0] = (struct tarn_shelf){ 0.25, 0.4 };
	cr_assert(tarn_basin_shelved(&basin, NULL, &s, NULL) == TARN_OK);
	p.basin = basin;
	p.overflow_level_m = 1.1;
	cr_assert(tarn_takeoff_profile(&b, &p, &s, at, &count, NULL) ==
		  TARN_OK);
	cr_assert(count == 4, "%zu", count);
	for (size_t i = 0; i < 4; i++) {
		near("level", at[i].level_m, want[i][0], 1e-12);
		near("length", at[i].length_m, want[i][1], 1e-12);
		near("width", at[i].width_m, want[i][1] - 2, 1e-12);
		close_to("perimeter", at[i].perimeter_m, want[i][2], 1e-4);
		close_to("area", at[i].area_m2, PI / 4 * want[i][1] *
			 (want[i][1] - 2), 1e-12);
	}
	tarn_basin_free(basin);
}

/* Of an ellipse, by the trapezoid rule round it, which is exact to rounding. */
static double oval_perimeter(double length_m, double width_m)
{
	double sum = 0;

	for (int i = 0; i < 1000; i++)
		sum += hypot(length_m / 2 * sin(PI * i / 500),
			     width_m / 2 * cos(PI * i / 500));
	return sum * PI / 500;
}

Test(takeoff, shores_of_long_ovals)
{
	static const double width[] = { 8, 4, 2, 1 };

	for (size_t i = 0; i < COUNT(width); i++) {
		struct tarn_build b = tarn_build_default();
		struct tarn_shelved s = tarn_shelved_default();
		struct tarn_pond p = tarn_pond_default();
		struct tarn_station at[TARN_STATIONS_MAX];
		struct tarn_basin *basin;
		size_t count;

		s.shape = TARN_ELLIPSE;
		s.length_m = 8;
		s.width_m = width[i];
		s.depth_m = 0.5;
		s.side_slope = 0;
		cr_assert(tarn_basin_shelved(&basin, NULL, &s, NULL) == TARN_OK);
		p.basin = basin;
		p.overflow_level_m = 0.4;
		cr_assert(tarn_takeoff_profile(&b, &p, &s, at, &count, NULL) ==
			  TARN_OK);
		close_to("shore", at[0].perimeter_m,
			 oval_perimeter(8, width[i]), 2e-4);
		tarn_basin_free(basin);
	}
}

/* 1 m deep, 12 m2: a side alone says no shape, so that the profile is round. */
Test(takeoff, sides_of_a_basin_without_a_shape)
{
	const double level[] = { 0, 1 }, area[] = { 12, 12 };
	struct tarn_build b = tarn_build_default();
	struct tarn_pond p = tarn_pond_default();
	struct tarn_station at[TARN_STATIONS_MAX];
	struct tarn_basin *basin;
	struct tarn_takeoff t;
	struct tarn_error err = { 0 };
	size_t count;

	cr_assert(tarn_basin_table(&basin, NULL, level, area, 2, NULL) ==
		  TARN_OK);
	p.basin = basin;
	p.overflow_level_m = 0.9;
	b.length_m = 4;
	cr_assert(tarn_takeoff_profile(&b, &p, NULL, at, &count, NULL) ==
		  TARN_OK);
	near("round", at[0].length_m, sqrt(12 * 4 / PI), 1e-9);
	near("as wide", at[0].width_m, sqrt(12 * 4 / PI), 1e-9);
	cr_expect(tarn_takeoff_solve(&b, &p, NULL, NULL, &t, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "build.length");
	err = (struct tarn_error){ 0 };
	b.width_m = 3;
	cr_assert(tarn_takeoff_profile(&b, &p, NULL, at, &count, NULL) ==
		  TARN_OK);
	near("as told", at[0].length_m, 4, 1e-9);
	/* an oval of 4 x 3 m is scaled to 12 m2 */
	close_to("shore", at[0].perimeter_m, oval_perimeter(4, 3) *
		 sqrt(4 / PI), 1e-4);
	cr_assert(tarn_takeoff_solve(&b, &p, NULL, NULL, &t, &err) == TARN_OK,
		  "%s %s", err.field, err.text);
	near("rule, length", t.rule_length_m, 4 + 2 * 1 + 2 * b.overlap_m, 1e-9);
	near("rule, width", t.rule_width_m, 3 + 2 * 1 + 2 * b.overlap_m, 1e-9);
	tarn_basin_free(basin);
}

/* A basin given by areas: the same oval within the table's steps. */
Test(takeoff, basin_without_a_shape)
{
	struct tarn_build b = tarn_build_default();
	struct tarn_shelved s = shape_of(TARN_ELLIPSE, 0.3);
	struct tarn_basin *basin;
	struct tarn_pond p = tarn_pond_default();
	struct tarn_takeoff t, by_shape;
	struct tarn_station at[TARN_STATIONS_MAX];
	size_t count;
	struct tarn_error err = { 0 };

	s.width_m = s.length_m;
	cr_assert(tarn_basin_shelved(&basin, NULL, &s, NULL) == TARN_OK);
	p.basin = basin;
	p.overflow_level_m = 1;
	cr_expect(tarn_takeoff_solve(&b, &p, NULL, NULL, &t, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "build.length");
	cr_expect(tarn_takeoff_profile(&b, &p, NULL, at, &count, NULL) ==
		  TARN_OK);
	near("round", at[0].length_m, s.length_m, 1e-9);
	b.length_m = b.width_m = s.length_m;
	cr_assert(tarn_takeoff_solve(&b, &p, NULL, NULL, &t, NULL) == TARN_OK);
	cr_assert(tarn_takeoff_solve(&b, &p, &s, NULL, &by_shape, NULL) == TARN_OK);
	close_to("sheet", t.sheet_m2, by_shape.sheet_m2, 1e-4);
	close_to("lying", t.liner_m2, by_shape.liner_m2, 1e-4);
	b.wall_stone_m = 2;
	err = (struct tarn_error){ 0 };
	cr_expect(tarn_takeoff_solve(&b, &p, &s, NULL, &t, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "an inch is not a foot") != NULL);
	b.wall_stone_m = -1;
	cr_expect(tarn_takeoff_solve(&b, &p, &s, NULL, &t, NULL) == TARN_EARG);
	tarn_basin_free(basin);
}
