/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "bed_rows.h"

#define PI 3.14159265358979323846

/* A yard of points, one setback all round. */
static struct tarn_fit fit_in(const double xy[][2], size_t count,
			      double setback, struct tarn_yard yard)
{
	struct tarn_yard_corner c[TARN_YARD_CORNERS];
	struct tarn_fit fit = { .area_m2 = TARN_NAN };
	struct tarn_error err = { 0 };

	for (size_t i = 0; i < count; i++) {
		c[i] = tarn_yard_corner_default();
		c[i].x_m = xy[i][0];
		c[i].y_m = xy[i][1];
		c[i].setback_m = setback;
	}
	yard.corner = c;
	yard.count = count;
	cr_expect(tarn_yard_fit(&yard, &fit, &err) == TARN_OK, "%s %s",
		  err.field, err.text);
	return fit;
}

static const double oblong[4][2] = { { 0, 0 }, { 6, 0 }, { 6, 4 }, { 0, 4 } };

Test(bed_yard, rectangle_less_its_setbacks)
{
	struct tarn_fit f = fit_in(oblong, 4, 1, tarn_yard_default());

	cr_expect(near(f.length_m, 4, 1e-9) && near(f.width_m, 2, 1e-9));
	cr_expect(near(f.area_m2, 8, 1e-9) && near(f.yard_m2, 24, 1e-14));
	f = fit_in(oblong, 4, 0, tarn_yard_default());
	cr_expect(near(f.area_m2, 24, 1e-9));
}

/* The answer must not depend on how the yard lies or is listed. */
Test(bed_yard, turned_mirrored_and_listed_backwards)
{
	for (double a = 0; a < 6.3; a += 0.37) {
		double p[4][2], q[4][2];
		struct tarn_fit f;

		for (int i = 0; i < 4; i++) {
			p[i][0] = 3 + oblong[i][0] * cos(a) -
				  oblong[i][1] * sin(a);
			p[i][1] = -7 + oblong[i][0] * sin(a) +
				  oblong[i][1] * cos(a);
			q[3 - i][0] = -p[i][0];
			q[3 - i][1] = p[i][1];
		}
		f = fit_in(p, 4, 0.75, tarn_yard_default());
		cr_expect(near(f.area_m2, 4.5 * 2.5, 1e-8), "turned %g: %.10g",
			  a, f.area_m2);
		f = fit_in(q, 4, 0.75, tarn_yard_default());
		cr_expect(near(f.area_m2, 4.5 * 2.5, 1e-8), "mirrored %g", a);
	}
}

/* Geometry: half of any triangle; the square in a circle; 1 by root 3 in a
 * regular hexagon of side 1. */
Test(bed_yard, known_largest_rectangles)
{
	static const double triangle[3][2] = { { 0, 0 }, { 6, 0 }, { 0, 8 } };
	static const double ell[6][2] = { { 0, 0 }, { 8, 0 }, { 8, 3 },
					  { 4, 3 }, { 4, 7 }, { 0, 7 } };
	double hexagon[6][2], round[32][2];

	for (int i = 0; i < 6; i++) {
		hexagon[i][0] = cos(PI * i / 3);
		hexagon[i][1] = sin(PI * i / 3);
	}
	for (int i = 0; i < 32; i++) {
		round[i][0] = cos(PI * i / 16);
		round[i][1] = sin(PI * i / 16);
	}
	cr_expect(near(fit_in(triangle, 3, 0, tarn_yard_default()).area_m2,
		       12, 1e-6));
	cr_expect(near(fit_in(hexagon, 6, 0, tarn_yard_default()).area_m2,
		       sqrt(3), 1e-6));
	cr_expect(near(fit_in(round, 32, 0, tarn_yard_default()).area_m2, 2,
		       1e-6));
	/* an L: its longer leg, not its box */
	cr_expect(near(fit_in(ell, 6, 0.5, tarn_yard_default()).area_m2, 18,
		       1e-9));
}

/* 4 x 2 m turned by 17.2 degrees, each side bent outwards in its middle: no side
 * shows the direction of the largest rectangle, which has the four corners. */
Test(bed_yard, a_direction_that_no_side_has)
{
	static const double at[8][2] = {
		{ -2, -1 }, { 0, -1.2 }, { 2, -1 }, { 2.05, 0 },
		{ 2, 1 }, { 0, 1.2 }, { -2, 1 }, { -2.05, 0 },
	};
	const double turn = 0.3;
	double p[8][2];
	struct tarn_fit f;

	for (int i = 0; i < 8; i++) {
		p[i][0] = at[i][0] * cos(turn) - at[i][1] * sin(turn);
		p[i][1] = at[i][0] * sin(turn) + at[i][1] * cos(turn);
	}
	f = fit_in(p, 8, 0, tarn_yard_default());
	cr_expect(f.area_m2 > 8 * (1 - 1e-6), "%.9g", f.area_m2);
	cr_expect(f.area_m2 < f.yard_m2);
	cr_expect(near(f.area_m2, f.length_m * f.width_m, 1e-12));
}

Test(bed_yard, footing_keeps_a_deep_hole_away)
{
	struct tarn_yard yard = tarn_yard_default();
	struct tarn_yard_corner c[4];
	struct tarn_fit f;

	for (int i = 0; i < 4; i++) {
		c[i] = tarn_yard_corner_default();
		c[i].x_m = oblong[i][0];
		c[i].y_m = oblong[i][1];
		c[i].setback_m = 0.5;
	}
	c[0].footing_m = 0.4;	/* the long side is a house wall */
	yard.corner = c;
	yard.count = 4;
	yard.dig_m = 0.8;	/* 0.4 under it: the setback still rules */
	cr_assert(tarn_yard_fit(&yard, &f, NULL) == TARN_OK);
	cr_expect(near(f.width_m, 3, 1e-9));
	yard.dig_m = 1.6;	/* 1.2 under it at 45 degrees */
	cr_assert(tarn_yard_fit(&yard, &f, NULL) == TARN_OK);
	cr_expect(near(f.width_m, 4 - 1.2 - 0.5, 1e-9));
	yard.footing_slope = 1.5;
	cr_assert(tarn_yard_fit(&yard, &f, NULL) == TARN_OK);
	cr_expect(near(f.width_m, 4 - 1.8 - 0.5, 1e-9));
}

Test(bed_yard, limits_of_length_and_width)
{
	struct tarn_yard yard = tarn_yard_default();
	struct tarn_fit f;

	yard.max_length_m = 3;
	yard.max_width_m = 1.5;
	f = fit_in(oblong, 4, 0.5, yard);
	cr_expect(near(f.length_m, 3, 1e-9) && near(f.width_m, 1.5, 1e-9));
	yard.max_width_m = 5;	/* the larger of the two is the length */
	f = fit_in(oblong, 4, 0.5, yard);
	cr_expect(near(f.area_m2, 15 < 3 * 5 ? 15 : 3 * 5, 1e-9));
}

/* Every corner of the answer keeps its distance from every side, and a random
 * climb (Python, 40 starts) found nothing larger than 18.74342 m2. */
Test(bed_yard, answer_keeps_its_distance)
{
	static const double odd[5][2] = { { 0, 0 }, { 9, 1 }, { 7, 4 },
					  { 8, 8 }, { 1, 6 } };
	struct tarn_fit f = fit_in(odd, 5, 0.8, tarn_yard_default());

	for (int k = 0; k < 4; k++)
		for (int i = 0; i < 5; i++) {
			const double *a = odd[i], *b = odd[(i + 1) % 5];
			double dx = b[0] - a[0], dy = b[1] - a[1];
			double t = ((f.corner[k].x_m - a[0]) * dx +
				    (f.corner[k].y_m - a[1]) * dy) /
				   (dx * dx + dy * dy);
			double px, py;

			t = fmin(1, fmax(0, t));
			px = f.corner[k].x_m - a[0] - t * dx;
			py = f.corner[k].y_m - a[1] - t * dy;
			cr_expect(hypot(px, py) > 0.8 - 1e-9, "corner %d side "
				  "%d: %g", k, i, hypot(px, py));
		}
	cr_expect(f.area_m2 > 18.74342, "%.8g", f.area_m2);
}

Test(bed_yard, bad_input_is_named)
{
	static const struct {
		double xy[4][2];
		size_t count;
		double setback;
		const char *field, *text;
	} rows[] = {
		{ { { 0, 0 }, { 6, 0 }, { 6, 4 }, { 0, 4 } }, 4, 2, "yard",
		  "no room left" },
		{ { { 0, 0 }, { 6, 0 } }, 2, 0, "yard", "3 to 32 corners" },
		{ { { 0, 0 }, { 1, 1 }, { 1, 0 }, { 0, 1 } }, 4, 0, "yard",
		  "cross" },
		{ { { 0, 0 }, { 0, 0 }, { 1, 0 }, { 0, 1 } }, 4, 0, "yard",
		  "are the same" },
		{ { { 0, 0 }, { 1, 1 }, { 2, 2 } }, 3, 0, "yard",
		  "has no area" },
		{ { { 0, 0 }, { 6, 0 }, { 6, 4 }, { 0, 4 } }, 4, -1,
		  "corner 1.setback", "must be 0" },
	};

	for (size_t r = 0; r < LENGTH(rows); r++) {
		struct tarn_yard yard = tarn_yard_default();
		struct tarn_yard_corner c[4];
		struct tarn_fit f;
		struct tarn_error err = { 0 };

		for (size_t i = 0; i < rows[r].count; i++) {
			c[i] = tarn_yard_corner_default();
			c[i].x_m = rows[r].xy[i][0];
			c[i].y_m = rows[r].xy[i][1];
			c[i].setback_m = rows[r].setback;
		}
		yard.corner = c;
		yard.count = rows[r].count;
		cr_expect(tarn_yard_fit(&yard, &f, &err) == TARN_EARG,
			  "row %zu", r);
		cr_expect_str_eq(err.field, rows[r].field);
		cr_expect(strstr(err.text, rows[r].text) != NULL, "row %zu: "
			  "%s", r, err.text);
	}
}
