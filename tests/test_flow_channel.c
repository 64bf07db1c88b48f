/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "test_flow.h"
#include "tarn/flow/internal.h"

static struct tarn_channel_flow solve(const struct tarn_channel *c)
{
	struct tarn_error err = { 0 };
	struct tarn_channel_flow out;

	cr_assert(tarn_channel_solve(c, &out, &err) == TARN_OK, "%s %s",
		  err.field, err.text);
	return out;
}

static struct tarn_channel channel(double width, double side, double slope,
				   double n)
{
	struct tarn_channel c = tarn_channel_default();

	c.width_m = width;
	c.side_slope = side;
	c.slope = slope;
	c.manning = n;
	return c;
}

static void refuse(const struct tarn_channel *c, const char *field,
		   const char *text)
{
	struct tarn_error err = { 0 };
	struct tarn_channel_flow out = { .flow_m3s = 9 };

	cr_expect(tarn_channel_solve(c, &out, &err) == TARN_EARG, "%s", text);
	cr_expect_str_eq(err.field, field, "%s: %s", err.field, err.text);
	cr_expect(strstr(err.text, text) != NULL, "%s", err.text);
	cr_expect(out.flow_m3s == 9);
}

#define MAURER "Maurer, Hydraulics and Water Resources (R), ex. "

/* Manning's law by hand: 9.6 (9.6 / 9.2)^(2/3) 0.05 / 0.015 = 32.921 m3/s. */
Test(channel, rectangle_by_hand)
{
	struct tarn_channel c = channel(6, 0, 0.0025, 0.015);

	c.depth_m = 1.6;
	near("flow, m3/s", solve(&c).flow_m3s, 32.921, 5e-4);
	near("m/s", solve(&c).velocity_ms, 3.4293, 5e-5);
	c.width_m = 5;
	c.depth_m = 0.8;
	near("flow, m3/s", solve(&c).flow_m3s, 9.5488, 5e-5);
	near("m/s", solve(&c).velocity_ms, 2.3872, 5e-5);
}

/* Maurer ex. 5.1 to 5.4, feet. */
Test(channel, maurer_published)
{
	struct tarn_channel c = channel(10 * FT, 2, 0.0006, 0.016);

	c.flow_m3s = 225 * CFS;
	printed(MAURER "5.1", "depth, ft", solve(&c).depth_m / FT, 3.406,
		0.002);
	printed(MAURER "5.2", "critical depth, ft",
		solve(&c).critical_depth_m / FT, 2.154, 0.002);
	c = channel(TARN_NAN, 1, 0.00088, 0.015);
	c.flow_m3s = 360 * CFS;
	c.depth_m = 3 * FT;
	printed(MAURER "5.3", "width, ft", solve(&c).width_m / FT, 20,
	     0.5);
	c = channel(TARN_NAN, 0, 0.001, 0.013);
	c.diameter_m = 0.2;
	c.flow_m3s = 0.01;
	printed(MAURER "5.4", "depth, m", solve(&c).depth_m, 0.158, 0.0005);
}

/* Cengel & Cimbala ex. 13-2: inputs seen, answers from memory; and the
 * velocity of the fluids 1.0.22 docstring. */
Test(channel, other_published)
{
	struct tarn_channel c = channel(0.8, 1 / tan(PI / 3),
					tan(0.3 * PI / 180), 0.030);

	c.depth_m = 0.52;
	recalled("Cengel & Cimbala, ex. 13-2", "0.3 deg, m3/s",
		 solve(&c).flow_m3s, 0.60, 0.006);
	c.slope = tan(PI / 180);
	recalled("Cengel & Cimbala, ex. 13-2", "1 deg, m3/s",
		 solve(&c).flow_m3s, 1.1, 0.05);
	near("fluids 1.0.22, Manning, m/s",
	     tn_manning_velocity_ms(0.2859, 0.005236, 0.03),
	     1.0467781958118971, 1e-14);
	cr_expect(isnan(tn_manning_velocity_ms(0, 0.1, 0.03)));
	cr_expect(isnan(tn_manning_velocity_ms(1, -0.1, 0.03)));
	cr_expect(isnan(tn_manning_velocity_ms(1, 0.1, 0)));
}

/* scipy 1.10.1 optimize.brentq on the same equations. */
Test(channel, scipy)
{
	static const struct {
		double q, s, n, b, m, yn, yc;
	} rows[] = {
		{ .006309, .05, .035, .6096, 0, 0.02176100307040517,
		  0.02218725054210631 },
		{ .02, .01, .04, .3, 1.5, 0.10348185320936121,
		  0.0681290941409536 },
		{ .5, .002, .025, 0, 2, 0.5846327403294581,
		  0.4179052888907744 },
	};
	static const double pipes[][6] = {
		{ .01, .001, .013, .2, 0.1578278769344891,
		  0.08455111745088331 },
		{ .005, .01, .010, .1, 0.06429122600517766,
		  0.07256684310932343 },
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct tarn_channel c = channel(rows[i].b, rows[i].m,
						rows[i].s, rows[i].n);

		c.flow_m3s = rows[i].q;
		close_to("brentq yn", solve(&c).depth_m, rows[i].yn, 1e-12);
		close_to("brentq yc", solve(&c).critical_depth_m, rows[i].yc,
			 1e-12);
	}
	for (size_t i = 0; i < COUNT(pipes); i++) {
		struct tarn_channel c = channel(TARN_NAN, 0, pipes[i][1],
						pipes[i][2]);

		c.diameter_m = pipes[i][3];
		c.flow_m3s = pipes[i][0];
		close_to("brentq yn", solve(&c).depth_m, pipes[i][4], 1e-11);
		close_to("brentq yc", solve(&c).critical_depth_m, pipes[i][5],
			 1e-11);
	}
}

/* A bed of points that is a trapezoid is that trapezoid. */
Test(channel, points_agree_with_trapezoid)
{
	static const struct tarn_point bed[] = {
		{ 0, 1.6 }, { 1.5, 0.6 }, { 1.9, 0.6 }, { 3.4, 1.6 } };
	static const struct tarn_point box[] = {
		{ 0, 1 }, { 0, 0 }, { 0.4, 0 }, { 0.4, 1 } };
	struct tarn_channel a = channel(0.4, 1.5, 0.01, 0.04), b;
	struct tarn_channel_flow x, y;

	a.flow_m3s = 0.03;
	b = channel(TARN_NAN, 0, 0.01, 0.04);
	b.flow_m3s = 0.03;
	b.points = bed;
	b.point_count = 4;
	x = solve(&a);
	y = solve(&b);
	close_to("depth", y.depth_m, x.depth_m, 1e-12);
	close_to("perimeter", y.perimeter_m, x.perimeter_m, 1e-12);
	close_to("top width", y.top_width_m, x.top_width_m, 1e-12);
	close_to("critical", y.critical_depth_m, x.critical_depth_m, 1e-12);
	close_to("critical slope", y.critical_slope, x.critical_slope, 1e-11);
	a.side_slope = 0;
	b.points = box;
	close_to("box", solve(&b).depth_m, solve(&a).depth_m, 1e-12);
}

/* Critical depth and Froude number need neither slope nor roughness. */
Test(channel, not_uniform)
{
	struct tarn_channel c = tarn_channel_default();
	struct tarn_channel_flow out;

	c.flow_m3s = 225 * CFS;
	c.width_m = 10 * FT;
	c.side_slope = 2;
	out = solve(&c);
	printed(MAURER "5.2", "critical depth, ft", out.critical_depth_m / FT,
		2.154, 0.002);
	cr_expect(isnan(out.depth_m) && isnan(out.velocity_ms) &&
		  isnan(out.critical_slope) && out.state == -1);
	c.depth_m = out.critical_depth_m;
	close_to("Froude", solve(&c).froude, 1, 1e-12);
	cr_expect(solve(&c).state == TARN_CRITICAL);
}

/* A low channel beside a wide bench: conveyance dips as water spills on to
 * the bench, and the lower depth is taken. */
Test(channel, bench)
{
	static const struct tarn_point bed[] = {
		{ 0, 1 }, { 0, 0.3 }, { 3, 0.3 }, { 3, 0 }, { 3.4, 0 },
		{ 3.4, 1 } };
	struct tarn_channel c = channel(TARN_NAN, 0, 0.01, 0.04);
	double brim, q;

	c.points = bed;
	c.point_count = 6;
	c.depth_m = 0.3;
	brim = solve(&c).flow_m3s;
	c.depth_m = 0.31;
	q = solve(&c).flow_m3s;
	cr_expect(q < brim, "%g %g", q, brim);
	c.depth_m = TARN_NAN;
	c.flow_m3s = q;
	cr_expect(solve(&c).depth_m < 0.3);
	close_to("meets it", solve(&c).flow_m3s, q, 1e-15);
	/* two pools and a hump: all that is low is wet */
	{
		static const struct tarn_point two[] = {
			{ 0, 1 }, { 1, 0 }, { 2, 0.5 }, { 3, 0 }, { 4, 1 } };
		struct tarn_section s;

		c.points = two;
		c.point_count = 5;
		s = tn_section_at(&c, 0.25);
		close_to("two pools", s.area_m2, 2 * 0.25 * 0.75 / 2, 1e-14);
		close_to("width", s.top_width_m, 1.5, 1e-14);
	}
}

/* Definitions, and depth -> flow -> depth. */
Test(channel, laws)
{
	for (double y = 0.002; y < 0.5; y *= 1.6) {
		struct tarn_channel c = channel(0.5, 0.7, 0.02, 0.035);
		struct tarn_channel_flow a, b;

		c.depth_m = y;
		a = solve(&c);
		c.depth_m = TARN_NAN;
		c.flow_m3s = a.flow_m3s;
		b = solve(&c);
		close_to("depth", b.depth_m, y, 1e-12);
		c.depth_m = y;
		c.width_m = TARN_NAN;
		close_to("width", solve(&c).width_m, 0.5, 1e-10);
		/* at its critical slope the normal depth is critical */
		c = channel(0.5, 0.7, a.critical_slope, 0.035);
		c.flow_m3s = a.flow_m3s;
		b = solve(&c);
		close_to("critical", b.depth_m, a.critical_depth_m, 1e-11);
		close_to("Froude", b.froude, 1, 1e-11);
		cr_expect(b.state == TARN_CRITICAL);
		cr_expect((a.froude > 1) == (a.depth_m < a.critical_depth_m));
		close_to("energy", a.energy_m, y + a.velocity_ms *
			 a.velocity_ms / (2 * TARN_GRAVITY), 1e-14);
	}
	/* a round pipe half full has the hydraulic radius of a full one */
	{
		struct tarn_channel c = channel(TARN_NAN, 0, 0.01, 0.01);

		c.diameter_m = 0.1;
		c.depth_m = 0.05;
		close_to("half full", solve(&c).hydraulic_radius_m, 0.025,
			 1e-14);
		cr_expect(tn_section_at(&c, 0).area_m2 == 0);
		close_to("full", tn_section_at(&c, 0.1).area_m2,
			 PI / 4 * 0.01, 1e-14);
		cr_expect(isnan(tn_section_at(&c, 0.11).area_m2));
		cr_expect(isnan(tn_section_at(&c, -0.01).area_m2));
		c.width_m = 1;
		cr_expect(isnan(tn_section_at(&c, 0.05).area_m2));
	}
}

Test(channel, refused)
{
	static const struct tarn_point flat[] = { { 0, 0 }, { 1, 0 },
						  { 2, 0 } };
	static const struct tarn_point back[] = { { 0, 1 }, { 1, 0 },
						  { 0.5, 1 } };
	static const struct tarn_point bed[] = { { 0, 0.2 }, { 1, 0 },
						 { 2, 0.1 } };
	static const struct tarn_point slit[] = {
		{ 0, 2 }, { 1, 1 }, { 1, 0 }, { 1, 1 }, { 2, 2 } };
	struct tarn_channel good = channel(0.5, 0, 0.01, 0.03), c;

	good.flow_m3s = 0.01;
	c = good;
	c.slope = -0.01;
	refuse(&c, "channel.slope", "drain away");
	c.slope = 0;
	refuse(&c, "channel.slope", "drain away");
	c = good;
	c.manning = TARN_NAN;
	refuse(&c, "channel", "go together");
	c.slope = TARN_NAN;
	c.flow_m3s = TARN_NAN;
	refuse(&c, "channel", "needs flow and a section");
	c = good;
	c.depth_m = 0.1;
	refuse(&c, "channel", "two of flow, depth and width, got 3");
	c = good;
	c.flow_m3s = TARN_NAN;
	refuse(&c, "channel", "got 1");
	c = good;
	c.flow_m3s = 0;
	refuse(&c, "channel", "above zero");
	c = good;
	c.width_m = 0;
	refuse(&c, "channel.width", "so is side_slope");
	c = good;
	c.diameter_m = 0.1;
	refuse(&c, "channel", "more than one section");
	c.width_m = TARN_NAN;
	refuse(&c, "channel.flow", "does not fit");
	c.flow_m3s = TARN_NAN;
	c.depth_m = 0.11;
	refuse(&c, "channel.depth", "over the banks");
	c = good;
	c.width_m = TARN_NAN;
	c.points = flat;
	c.point_count = 3;
	refuse(&c, "channel.points", "hold no water");
	c.points = back;
	refuse(&c, "channel.points", "x must not fall");
	c.points = bed;
	c.point_count = 2;
	refuse(&c, "channel.points", "three or more");
	c.point_count = 3;
	c.flow_m3s = 5;
	refuse(&c, "channel.flow", "does not fit");
	c.points = slit;
	c.point_count = 5;
	c.flow_m3s = TARN_NAN;
	c.depth_m = 0.1;
	refuse(&c, "channel.depth", "no width there");
	c = channel(TARN_NAN, 2, 0.01, 0.03);
	c.depth_m = 0.5;
	c.flow_m3s = 1e-4;
	refuse(&c, "channel.width", "less than the sides alone");
}
