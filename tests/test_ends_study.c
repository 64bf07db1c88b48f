/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "ends.h"

/* Budgets, normals and tanks of study.h. */

static struct tarn_budget budget(void)
{
	return (struct tarn_budget){ .reference = 50, .unit = 0.6, .area = 100,
		.special_area = 20, .adjustment = 0.7, .plant_factor = 0.5,
		.efficiency = 0.8 };
}

/* 50 x 0.6 x (0.7 x 100 + 0.3 x 20) and 30 x (0.5 x 100 / 0.8 + 20). */
Test(ends_study, budgets)
{
	static const struct {
		int member;	/* of the struct */
		double value, allowance, use;
	} rows[] = {
		{ 0, 50, 2280, 2475 }, { 0, 0, 0, 0 }, { 0, -BIT, NONE, NONE },
		{ 0, HUGE_VAL, NONE, NONE }, { 1, 0, 0, 0 },
		{ 1, -BIT, NONE, NONE }, { 2, 0, 180, 600 },
		{ 2, -BIT, NONE, NONE }, { 2, HUGE_VAL, NONE, NONE },
		{ 3, 0, 2100, 1875 }, { 3, -BIT, NONE, NONE },
		{ 3, HUGE_VAL, NONE, NONE }, { 4, 0, 600, 2475 },
		{ 4, 1, 3000, 2475 }, { 4, -BIT, NONE, 2475 },
		{ 4, 1 + BIT, NONE, 2475 }, { 5, 0, 2280, 600 },
		{ 5, 2, 2280, 8100 }, { 5, -BIT, 2280, NONE },
		{ 5, 2 + BIT, 2280, NONE }, { 6, 1, 2280, 2100 },
		{ 6, 0, 2280, NONE }, { 6, 1 + BIT, 2280, NONE },
		{ 6, TARN_NAN, 2280, NONE }, { 1, TARN_NAN, NONE, NONE },
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct tarn_budget b = budget();
		double *const member[] = { &b.reference, &b.unit, &b.area,
			&b.special_area, &b.adjustment, &b.plant_factor,
			&b.efficiency };

		*member[rows[i].member] = rows[i].value;
		{
			const struct end ends[] = {
				{ "allowance", tarn_budget_allowance(&b),
				  rows[i].allowance },
				{ "use", tarn_budget_use(&b), rows[i].use },
			};

			CHECK_ENDS(ends);
		}
	}
}

static struct tarn_normals normals(void)
{
	struct tarn_normals n = tarn_normals_default();

	for (int m = 0; m < 12; m++) {
		n.rain_mm[m] = 46;
		n.wet_days[m] = 10;
		n.tmax_c[m] = 20;
		n.tmin_c[m] = 10;
		n.solar_mj[m] = 12;
		n.tmax_sd[m] = n.tmin_sd[m] = n.solar_sd[m] = 3;
	}
	return n;
}

/* Richardson and Wright (1984), from memory: of a share w of wet days 0.75 w
 * follow a dry one, 0.25 + 0.75 w a wet one; amounts are a gamma over the least
 * of a wet day, of the month's mean. */
Test(ends_study, chains_of_normals)
{
	struct tarn_normals n = normals();
	struct tarn_generator g;
	const double w = 10 / 31.0;

	n.wet_days[1] = 7;
	cr_assert(tarn_generator_normals(&g, &n, NULL) == TARN_OK);
	{
		const struct end ends[] = {
			{ "after dry", g.wet_after_dry[0], 0.75 * w },
			{ "after wet", g.wet_after_wet[0], 0.25 + 0.75 * w },
			{ "February", g.wet_after_dry[1], 0.75 * 7 / 28 },
			{ "shape", g.shape[0], 0.75 },
			{ "scale", g.scale_mm[0], (4.6 - 0.1) / 0.75 },
			{ "tmax", g.mean[0][1][4], 20 },
			{ "tmin", g.mean[1][0][4], 10 },
			{ "solar", g.mean[2][0][4], 12 },
			{ "spread", g.sd[1][1][11], 3 },
			{ "columns", g.columns, 3 }, { "wet", g.wet_mm, 0.1 },
			{ "tmax is over tmin", g.over[0], 1 },
			{ "tmin is over none", g.over[1], -1 },
		};

		CHECK_ENDS(ends);
	}
}

Test(ends_study, normals_that_are_none)
{
	static const struct {
		int what;
		double value;
		const char *field;	/* NULL: taken */
	} rows[] = {
		{ 0, 0.2, NULL }, { 0, 0.2 - BIT, "shape" }, { 0, 5, NULL },
		{ 0, 5 + BIT, "shape" }, { 1, 0.5, NULL },
		{ 1, 0.5 - BIT, "wet_days" }, { 1, 30, NULL },
		{ 1, 30 + BIT, "wet_days" }, { 2, 1, "rain" },
		{ 2, 1.01, NULL }, { 2, 5000, "rain" }, { 2, 4999, NULL },
		{ 3, 60, "tmax" }, { 3, 60 - BIT, NULL }, { 3, -60, "tmax" },
		{ 3, -60 + BIT, NULL }, { 4, 60, "tmin" }, { 4, -60, "tmin" },
		{ 5, 0, "tmax" }, { 5, BIT, NULL }, { 5, 50, "tmax" },
		{ 5, 50 - BIT, NULL }, { 3, TARN_NAN, "tmax" },
		{ 5, TARN_NAN, "tmax" }, { 6, TARN_NAN, "solar" },
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct tarn_normals n = normals();
		double *const member[] = { &n.shape, &n.wet_days[0],
			&n.rain_mm[0], &n.tmax_c[0], &n.tmin_c[0],
			&n.tmax_sd[0], &n.solar_mj[0] };
		struct tarn_generator g;
		struct tarn_error err = { 0 };

		*member[rows[i].what] = rows[i].value;
		cr_expect((tarn_generator_normals(&g, &n, &err) == TARN_OK) ==
			  (rows[i].field == NULL), "row %zu: %s", i, err.text);
		if (rows[i].field)
			cr_expect_str_eq(err.field, rows[i].field, "row %zu", i);
	}
}

/* Straight between the points of a curve; by equal ratios beyond the list. */
Test(ends_study, tanks)
{
	const double size[] = { 1, 2, 4, 8 }, share[] = { 0.2, 0.4, 0.8, 0.8 };
	double beyond[3];
	struct tarn_tank_answer a;
	const struct end ends[] = {
		{ "nothing wanted", tarn_tank_capacity(size, share, 4, 0), 1 },
		{ "the first", tarn_tank_capacity(size, share, 4, 0.2), 1 },
		{ "between", tarn_tank_capacity(size, share, 4, 0.3), 1.5 },
		{ "at a point", tarn_tank_capacity(size, share, 4, 0.4), 2 },
		{ "the first that does", tarn_tank_capacity(size, share, 4, 0.8),
		  4 },
		{ "none does", tarn_tank_capacity(size, share, 4, 0.81), NONE },
		{ "none listed", tarn_tank_capacity(size, share, 0, 0.1), NONE },
		{ "one that does", tarn_tank_capacity(size, share, 1, 0.1), 1 },
	};

	CHECK_ENDS(ends);
	tarn_tank_beyond(1, 8, beyond, 3);
	cr_expect(fabs(beyond[0] - 2) < 1e-12 && fabs(beyond[1] - 4) < 1e-12 &&
		  fabs(beyond[2] - 8) < 1e-15);
	tarn_tank_beyond(1, 1, beyond, 3);
	cr_expect(isnan(beyond[0]) && isnan(beyond[2]));
	tarn_tank_beyond(0, 8, beyond, 3);
	cr_expect(isnan(beyond[0]) && isnan(beyond[2]));
	a = tarn_tank_answer(size, share, 2, 4, 0.3);
	cr_expect(a.word == TARN_TANK_LISTED && fabs(a.capacity_m3 - 1.5) < 1e-12
		  && fabs(a.most - 0.8) < 1e-12);
	a = tarn_tank_answer(size, share, 2, 4, 0.6);
	cr_expect(a.word == TARN_TANK_BEYOND && fabs(a.capacity_m3 - 3) < 1e-12);
	a = tarn_tank_answer(size, share, 2, 4, 0.9);
	cr_expect(a.word == TARN_TANK_NONE && isnan(a.capacity_m3) &&
		  fabs(a.most - 0.8) < 1e-12);
	a = tarn_tank_answer(size, share, 0, 0, 0.9);
	cr_expect(a.word == TARN_TANK_NONE && isnan(a.most));
}
