/* SPDX-License-Identifier: MIT */
/* The water's way to a short lip: beside a second solution, and in the plan. */
#include "bed_world.h"
#include "lip_flow.h"

#define FT 0.3048
#define INCH 0.0254
#define PI 3.14159265358979323846

static double rise(double side, double lip, int place, int far, double a,
		   double b)
{
	const struct tarn_lip in = {
		.width_m = side, .length_m = 1, .lip_m = lip, .place = place,
		.layer_m = 1, .flow_m3s = side, .from_far = far,
		.stone = { a, b },
	};

	return tarn_lip_rise_m(&in);
}

/* Finite volumes on two grids, cut at the lip's end; their error falls with the
 * cell, so that twice the finer less the coarser is the limit. */
static double solved(double side, double lip, int far, double a, double b,
		     int across)
{
	struct lip_flow f = { side, 1, lip, 1, far, a, b, 1, across };
	double coarse = lip_flow_rise(&f), fine;

	f.across = 2 * across;
	fine = lip_flow_rise(&f);
	return 2 * fine - coarse;
}

/* The second solution on a lip as wide as the bed, and its order. */
Test(bed_lip, second_solution_converges)
{
	struct lip_flow f = { 2, 1, 2, 1, 0, 3, 5, 1, 40 };
	double step[3];

	cr_expect(near(lip_flow_rise(&f), 1.5 + 5 / 3.0, 2e-3));
	f.lip_m = 0.4;
	for (int k = 0; k < 3; k++) {
		f.across = 10 << k;
		step[k] = lip_flow_rise(&f);
	}
	cr_expect(fabs((step[0] - step[1]) / (step[1] - step[2]) - 2) < 0.5,
		  "%g %g %g", step[0], step[1], step[2]);
}

/* width / way, lip / width, cells to the far side: 5 lie on half of the
 * narrowest lip. */
static const struct { double side, share; int across, far; } beds[] = {
	{ 0.5, 0.2, 40, 0 }, { 1, 0.1, 20, 0 }, { 1, 0.5, 20, 0 },
	{ 2, 0.1, 20, 0 }, { 2, 0.3, 20, 0 }, { 2, 0.8, 10, 0 },
	{ 4, 0.1, 10, 0 }, { 4, 0.5, 10, 0 }, { 6, 0.2, 10, 0 },
	{ 6, 0.8, 10, 0 }, { 1, 0.1, 20, 1 }, { 4, 0.1, 10, 1 },
};

/* Never less than the second solution by more than its own error, and at most
 * the share over it that the header tells. */
Test(bed_lip, beside_finite_volumes)
{
	for (size_t k = 0; k < sizeof beds / sizeof beds[0]; k++) {
		double side = beds[k].side, lip = side * beds[k].share;
		int far = beds[k].far, n = beds[k].across;
		double linear = rise(side, lip, 0, far, 1, 0) /
				solved(side, lip, far, 1, 0, n);
		double square = rise(side, lip, 0, far, 1e-3, 1) /
				solved(side, lip, far, 1e-3, 1, n);

		cr_expect(linear > 0.995 && linear < 1.09,
			  "linear, %g %g: %g", side, lip, linear);
		cr_expect(square > 0.99 && square < 1.45,
			  "quadratic, %g %g: %g", side, lip, square);
	}
}

/* Heads of confined flow to a lip in the middle, h K y / (q W^2), by finite
 * differences of 60 and 120 cells and Richardson (computed elsewhere, by
 * another program). */
Test(bed_lip, heads_computed_elsewhere)
{
	static const struct { double side, share, head; } want[] = {
		{ 1, 0.1, 1.0906 }, { 1, 0.3, 0.7522 }, { 2, 0.1, 1.7355 },
		{ 2, 0.2, 1.2985 }, { 4, 0.1, 3.4684 }, { 6, 0.1, 5.8899 },
		{ 6, 1, 0.5 },
	};

	for (size_t k = 0; k < sizeof want / sizeof want[0]; k++)
		cr_expect(near(rise(want[k].side, want[k].side * want[k].share,
				    0, 0, 1, 0), want[k].head, 0.005),
			  "%g %g", want[k].side, want[k].share);
}

/* Far from its lip a narrow, endless bed is a half-strip before a slit:
 * (1/pi) ln(1 / sin(pi w / 2B)) more than the straight way, by conformal
 * mapping. */
Test(bed_lip, laws)
{
	double b = 0.3, w = 0.06, more = rise(b, w, 0, 0, 1, 0) - 0.5;

	cr_expect(near(more, b / PI * log(1 / sin(PI * w / (2 * b))), 1e-6));
	/* a lip as wide as the bed: the integral of the gradient */
	cr_expect(near(rise(3, 3, 0, 0, 2, 5), 2 / 2.0 + 5 / 3.0, 1e-12));
	cr_expect(near(rise(3, 3, 1, 1, 2, 5), 2 + 5, 1e-12));
	/* a corner is the middle of twice the bed and twice the lip */
	cr_expect(near(rise(2, 0.3, 1, 0, 1, 1), rise(4, 0.6, 0, 0, 1, 1),
		       1e-12));
	for (double lip = 0.02; lip < 2.9; lip += 0.02)
		cr_expect(rise(3, lip, 0, 0, 1, 1) >
			  rise(3, lip + 0.02, 0, 0, 1, 1), "%g", lip);
	/* a channel along the side: no jump to it, and no end of terms */
	cr_expect(near(rise(60.01, 6, 0, 0, 1, 0), rise(59.99, 6, 0, 0, 1, 0),
		       0.02));
	cr_expect(near(rise(1e9, 1, 0, 0, 1, 0), 1e18 / 8, 1e-6));
	cr_expect(isnan(rise(1, 1.1, 0, 0, 1, 1)));
	cr_expect(isnan(rise(1, 0, 0, 0, 1, 1)));
	cr_expect(isnan(rise(1, 0.5, 0, 0, -1, 1)));
}

/* Free fall at its end: sqrt(3) of the critical depth at the closed end (Novak
 * et al., Hydraulic Structures, eq. 4.28-4.29): 37.6 mm for 1 L/s in 0.1 m.
 * Davis, Water and Wastewater Engineering, example 11-7: 0.286 m3/s in 0.6 m, a
 * depth of 0.73 m at the outlet, 0.772 at the closed end. */
Test(bed_lip, trough)
{
	double yc = cbrt(1e-6 / (9.81 * 0.01));

	cr_expect(fabs(tarn_trough_rise_m(1e-3, 0.1, 0, yc) + yc - 0.0376) <
		  5e-5);
	cr_expect(fabs(tarn_trough_rise_m(1e-3, 0.1, 0, 0.001) + 0.001 -
		       0.0376) < 5e-5);
	cr_expect(fabs(tarn_trough_rise_m(0.286, 0.6, 0, 0.73) + 0.73 -
		       0.772) < 5e-4);
	/* Manning, n 0.013, a third of the friction */
	cr_expect(near(tarn_trough_rise_m(1e-3, 0.1, 6, 0.1) -
		       tarn_trough_rise_m(1e-3, 0.1, 0, 0.1),
		       2 * pow(0.1 * 0.013, 2) / pow(1 / 30.0, 4 / 3.0),
		       1e-12));
	cr_expect(isnan(tarn_trough_rise_m(1, 0, 1, 1)));
	cr_expect(isnan(tarn_trough_rise_m(1, 1, 1, 0)));
	cr_expect(isnan(tarn_trough_rise_m(-1, 1, 1, 1)));
}

/* ---- in the plan ----------------------------------------------------------- */

/* A bed 24 ft along its lip and 8 ft to the far side. */
static void long_bed(struct world *w, double lip_m)
{
	koi(w);
	w->wish.width_m = 24 * FT;
	w->wish.length_m = 8 * FT;
	w->q.bed_m2 = 24 * 8 * FT * FT;
	w->q.pump_m3s = 8000 * tarn_unit("gph");
	w->q.lip_m = lip_m;
	run(w);
	cr_assert(w->status == TARN_OK, "%s %s", w->err.field, w->err.text);
}

Test(bed_lip, a_short_lip_floods_a_long_bed)
{
	struct world w;
	double wide_m;

	long_bed(&w, 24 * FT);
	wide_m = w.plan.level_clogged_m;
	cr_expect(found(&w, TARN_CHECK_LIP)->verdict == HOLDS);
	cr_expect(w.plan.lip_from == TARN_LIP_FROM_FALL);
	cr_expect(!w.plan.trough_wanted && isnan(w.plan.trough_width_m));
	long_bed(&w, 12 * INCH);
	cr_expect(w.plan.level_clogged_m > 5 * wide_m, "%g %g",
		  w.plan.level_clogged_m, wide_m);
	cr_expect(near(w.plan.level_clogged_m, 10 * w.plan.level_clear_m,
		       1e-9));
	cr_expect(found(&w, TARN_CHECK_LIP)->verdict == FORBIDS);
	cr_expect(found(&w, TARN_CHECK_LIP)->value == w.plan.level_clogged_m);
	cr_expect(found(&w, TARN_CHECK_LIP)->margin < 1 && !w.plan.does);
	cr_expect(near(w.plan.sized.bed.head_needed_m,
		       w.plan.sized.bed.clogged_m + w.plan.sized.bed.rise_m,
		       1e-12));
}

/* The trough that the plan asks for keeps the stone dry; the next shallower
 * one does not. */
Test(bed_lip, the_trough_that_it_wants)
{
	struct world w;
	double width_m, depth_m;

	long_bed(&w, 12 * INCH);
	cr_assert(w.plan.trough_wanted);
	width_m = w.plan.trough_width_m;
	depth_m = w.plan.trough_depth_m;
	cr_assert(width_m > 0 && depth_m <= width_m * OVER);
	w.wish.trough_width_m = width_m;
	w.wish.trough_depth_m = depth_m;
	cr_expect(verdict(&w, TARN_CHECK_LIP) == HOLDS);
	cr_expect(w.plan.lip_from == TARN_LIP_FROM_TROUGH);
	cr_expect(w.plan.sized.bed.trough_m > 0 && !w.plan.trough_wanted);
	w.wish.trough_depth_m = depth_m - 0.005;
	cr_expect(verdict(&w, TARN_CHECK_LIP) == FORBIDS);
	w.wish.trough_depth_m = TARN_NAN;
	refused(&w, "bed.trough_depth");
	w.wish.cover_m = 0;
	w.wish.trough_width_m = TARN_NAN;
	run(&w);
	cr_expect(w.plan.trough_wanted && isnan(w.plan.trough_width_m));
}

Test(bed_lip, its_width_is_told_once)
{
	struct world w;

	long_bed(&w, TARN_NAN);
	cr_expect(w.plan.lip_from == -1 && isnan(w.plan.lip_m));
	cr_expect(strstr(found(&w, TARN_CHECK_LIP)->source, "taken as wide"));
	cr_expect(w.plan.sized.bed.lip_m == w.plan.width_m);
	w.wish.lip_width_m = 2;
	run(&w);
	cr_expect(w.plan.lip_from == TARN_LIP_FROM_BED && w.plan.lip_m == 2);
	w.wish.lip_place = TARN_LIP_CORNER;
	cr_expect(verdict(&w, TARN_CHECK_LIP) == FORBIDS);
	w.q.lip_m = 2;
	refused(&w, "bed.lip_width");
	w.wish.lip_width_m = TARN_NAN;
	w.q.lip_m = 8;
	refused(&w, "bed.width");
}
