/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "bed_rows.h"

static struct tarn_layer layer(const char *name, double thickness_m,
			       double diameter_m, double porosity)
{
	struct tarn_layer l = tarn_layer_default();

	snprintf(l.name, sizeof l.name, "%s", name);
	l.thickness_m = thickness_m;
	l.diameter_m = diameter_m;
	l.porosity = porosity;
	return l;
}

#define FOUR 4

/* Chamber, cobble, gravel, pea gravel on 3 x 4 ft. */
static void garden(struct tarn_layer to[FOUR])
{
	to[0] = layer("chamber", 0.25, TARN_NAN, 0.95);
	to[1] = layer("cobble", 0.30, 0.10, 0.42);
	to[2] = layer("gravel", 0.30, 0.04, 0.40);
	to[3] = layer("pea gravel", 0.30, 0.0095, 0.38);
}

static struct tarn_layers stack(const struct tarn_layer *l, size_t count)
{
	struct tarn_layers s = tarn_layers_default();

	s.layer = l;
	s.count = count;
	s.area_m2 = 12 * tarn_unit("ft2");
	s.flow_m3s = 1500 * tarn_unit("gph");
	return s;
}

Test(bed_layers, sums_are_those_of_the_parts)
{
	struct tarn_layer l[FOUR] = { 0 };
	struct tarn_layer_result each[FOUR];
	struct tarn_layers_result sum;
	struct tarn_layers in = stack(l, FOUR);
	double volume = 0, water = 0, head = 0;

	garden(l);
	in.clogging = 10;
	cr_assert(tarn_layers(&in, each, &sum, NULL) == TARN_OK);
	for (int i = 0; i < FOUR; i++) {
		volume += each[i].volume_m3;
		water += each[i].water_m3;
		head += each[i].clean_m;
		cr_expect(near(each[i].wet_m, l[i].thickness_m, 1e-15));
	}
	cr_expect(near(sum.depth_m, 1.15, 1e-12));
	cr_expect(near(sum.volume_m3, volume, 1e-14));
	cr_expect(near(sum.volume_m3, 1.15 * in.area_m2, 1e-14));
	cr_expect(near(sum.water_m3, water, 1e-14));
	cr_expect(near(sum.clean_m, head, 1e-14));
	cr_expect(near(sum.clogged_m, 10 * head, 1e-14));
	cr_expect(near(sum.residence_s, sum.water_m3 / in.flow_m3s, 1e-14));
	cr_expect(near(each[3].bottom_m, 0.85, 1e-12));
	cr_expect(each[0].mass_kg == 0 && each[0].stone_m3 == 0);
	cr_expect(isnan(each[0].reynolds));
	cr_expect(near(each[1].mass_kg, 0.58 * 2650 * 0.3 * in.area_m2,
		       1e-13));
	cr_expect(sum.flags & TARN_BED_CLEAN_OUT);
	cr_expect(!(sum.flags & TARN_BED_NO_CHAMBER));
	/* most of the little head is lost in the finest stone */
	cr_expect(each[3].clean_m > 0.5 * sum.clean_m);
}

Test(bed_layers, order_does_not_matter_to_the_head)
{
	static const int orders[][FOUR] = { { 0, 1, 2, 3 }, { 3, 2, 1, 0 },
					    { 2, 0, 3, 1 }, { 1, 3, 0, 2 } };
	struct tarn_layer l[FOUR], mixed[FOUR];
	struct tarn_layers_result sum;
	double first = TARN_NAN;

	garden(l);
	for (size_t o = 0; o < LENGTH(orders); o++) {
		struct tarn_layers in = stack(mixed, FOUR);

		for (int i = 0; i < FOUR; i++)
			mixed[i] = l[orders[o][i]];
		cr_assert(tarn_layers(&in, NULL, &sum, NULL) == TARN_OK);
		if (o == 0)
			first = sum.clean_m;
		cr_expect(near(sum.clean_m, first, 1e-14), "order %zu", o);
		cr_expect(near(sum.water_m3, 1.15 * in.area_m2 *
			       (0.25 * 0.95 + 0.30 * (0.42 + 0.40 + 0.38)) /
			       1.15, 1e-13));
	}
}

Test(bed_layers, lip_sets_what_is_wet)
{
	struct tarn_layer l[FOUR] = { 0 };
	struct tarn_layer_result each[FOUR];
	struct tarn_layers_result sum;
	struct tarn_layers in = stack(l, FOUR);

	garden(l);
	in.lip_m = 1.05;	/* 10 cm of dry pea gravel */
	cr_assert(tarn_layers(&in, each, &sum, NULL) == TARN_OK);
	cr_expect(near(each[3].wet_m, 0.2, 1e-12));
	cr_expect(near(each[3].volume_m3, 0.3 * in.area_m2, 1e-14));
	cr_expect(!(sum.flags & TARN_BED_WATER_ON_GRAVEL));
	in.lip_m = 1.20;	/* 5 cm of water on it */
	cr_assert(tarn_layers(&in, each, &sum, NULL) == TARN_OK);
	cr_expect(near(sum.standing_m, 0.05, 1e-12));
	cr_expect(sum.flags & TARN_BED_WATER_ON_GRAVEL);
	in.lip_m = 0.2;		/* inside the chamber */
	in.flow_m3s = 0;
	cr_assert(tarn_layers(&in, each, &sum, NULL) == TARN_OK);
	cr_expect(near(sum.water_m3, 0.2 * 0.95 * in.area_m2, 1e-14));
	cr_expect(isnan(sum.residence_s) && sum.clean_m == 0);
	cr_expect(!(sum.flags & TARN_BED_NO_DARCY));
}

Test(bed_layers, bulk_density_can_be_given)
{
	struct tarn_layer l = layer("river gravel", 0.5, 0.03, 0.4);
	struct tarn_layers in = stack(&l, 1);
	struct tarn_layers_result sum;

	l.bulk_kgm3 = 1520;
	cr_assert(tarn_layers(&in, NULL, &sum, NULL) == TARN_OK);
	cr_expect(near(sum.mass_kg, 1520 * 0.5 * in.area_m2, 1e-14));
	cr_expect(sum.flags & TARN_BED_NO_CHAMBER);
}

Test(bed_layers, bad_input_is_named)
{
	static const struct {
		double thickness, diameter, porosity;
		const char *field, *text;
	} rows[] = {
		{ 0, 0.02, 0.4, "layer 2.thickness", "must be" },
		{ 0.3, 0.02, 0, "layer 2.porosity", "must be" },
		{ 0.3, 0.02, 1, "layer 2.porosity", "0.05 to 0.95 in stone" },
		{ 0.3, 0.02, (double)NAN, "layer 2.porosity", "is missing" },
		{ 0.3, 2, 0.4, "layer 2.diameter", "must be" },
	};
	struct tarn_layer l[2] = { 0 };
	struct tarn_layers in = stack(l, 2);
	struct tarn_layers_result sum;
	struct tarn_error err = { 0 };

	for (size_t i = 0; i < LENGTH(rows); i++) {
		l[0] = layer("", 0.2, TARN_NAN, TARN_NAN);
		l[1] = layer("", rows[i].thickness, rows[i].diameter,
			     rows[i].porosity);
		err.code = TARN_OK;
		cr_expect(tarn_layers(&in, NULL, &sum, &err) == TARN_EARG,
			  "row %zu", i);
		cr_expect_str_eq(err.field, rows[i].field);
		cr_expect(strstr(err.text, rows[i].text) != NULL, "row %zu: "
			  "%s", i, err.text);
	}
	in.count = 0;
	cr_expect(tarn_layers(&in, NULL, &sum, NULL) == TARN_EARG);
	in.count = 1;
	in.area_m2 = 0;
	cr_expect(tarn_layers(&in, NULL, &sum, NULL) == TARN_EARG);
}
