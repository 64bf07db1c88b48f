/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "bed_rows.h"

/* A pond with all five substances; the same numbers went into the solver. */
static struct tarn_loop sample(void)
{
	struct tarn_loop loop = tarn_loop_default();
	static const struct tarn_loop_substance s[TARN_SUBSTANCES] = {
		{ 3.22, 1.5, 1800, 1.04, 3, 0.02, 0.1, 0.05 },
		{ 0.4, 5, 250, 1.09, HUGE_VAL, 0, 2, 0.01 },
		{ 0.75, 0.3, 40, 1.0, 1, 0.02, 0.05, 0 },
		{ 10, 8, 900, 1.06, 6, 2, 0, 0.2 },
		{ 27.5, 20, 3000, 1.0, HUGE_VAL, 5, 1, 0.5 },
	};

	loop.volume_m3 = 20;
	loop.flow_m3s = 10 / 3600.0;
	loop.area_m2 = 6;
	loop.temp_c = 15;
	loop.exchange_m3s = 0.5 / DAY;
	loop.nitrified = 0.85;
	memcpy(loop.substance, s, sizeof s);
	return loop;
}

static void starts(const struct tarn_loop *loop, double c[TARN_SUBSTANCES])
{
	for (int i = 0; i < TARN_SUBSTANCES; i++)
		c[i] = loop->substance[i].start_mgl;
}

/* scipy 1.10.1, solve_ivp DOP853 at rtol 1e-13 (Radau agrees to 1e-13), of the
 * mass balance with the bed's outlet reckoned at every instant. */
Test(bed_loop, step_response_against_a_general_solver)
{
	static const struct {
		double days, want[TARN_SUBSTANCES];
	} rows[] = {
		{ 0.5, { 0.887604979, 5.15958824439, 0.310876943208,
			 6.1173668486, 8.45259875441 } },
		{ 3, { 0.188881562398, 4.21230157356, 0.360787748161,
		       2.66669578302, 4.55916715734 } },
		{ 30, { 0.153525118689, 1.2199452935, 0.614451088415,
			2.06551259073, 4.55517921766 } },
		{ 3000, { 0.153525118689, 1.18700394027, 0.681914893617,
			  2.06551259006, 4.55517921766 } },
	};
	struct tarn_loop loop = sample();
	double from[TARN_SUBSTANCES], to[TARN_SUBSTANCES];

	starts(&loop, from);
	for (size_t i = 0; i < LENGTH(rows); i++) {
		cr_assert(tarn_loop_after(&loop, rows[i].days, from, to,
					  NULL) == TARN_OK);
		for (int s = 0; s < TARN_SUBSTANCES; s++)
			cr_expect(near(to[s], rows[i].want[s], 3e-12),
				  "%s after %g d: %.12g, want %.12g",
				  tarn_substance_name((enum tarn_substance)s),
				  rows[i].days, to[s], rows[i].want[s]);
	}
}

Test(bed_loop, regression)
{
	struct tarn_loop loop = tarn_loop_default();
	struct tarn_loop_substance *s = &loop.substance[TARN_AMMONIA];
	struct tarn_loop_result r;

	loop.volume_m3 = 20;
	loop.area_m2 = 4;
	loop.flow_m3s = 24 * 4 / DAY;
	s->load_g_d = 3.22;
	s->k_m_yr = 5 * 365;
	s->background_mgl = 0.02;
	cr_assert(tarn_loop_steady(&loop, &r, NULL) == TARN_OK);
	{
		const struct bed_row rows[] = {
			{ "K45", r.mgl[TARN_AMMONIA], 0.19835, 0.0001,
			  "mass balance" },
			{ "", r.bed_g_d[TARN_AMMONIA], 3.22, 1e-12,
			  "the bed takes the load" },
		};
		CHECK_ROWS(rows);
	}
}

Test(bed_loop, steady_is_the_long_run)
{
	struct tarn_loop loop = sample();
	struct tarn_loop_result r;
	double c[TARN_SUBSTANCES];

	cr_assert(tarn_loop_steady(&loop, &r, NULL) == TARN_OK);
	cr_expect(r.flags == 0);
	starts(&loop, c);
	for (int day = 0; day < 3000; day++)
		cr_assert(tarn_loop_after(&loop, 1, c, c, NULL) == TARN_OK);
	for (int s = 0; s < TARN_SUBSTANCES; s++)
		cr_expect(near(c[s], r.mgl[s], 1e-12), "%s: %.15g, %.15g",
			  tarn_substance_name((enum tarn_substance)s), c[s],
			  r.mgl[s]);
}

Test(bed_loop, one_step_or_many_are_the_same)
{
	struct tarn_loop loop = sample();
	double one[TARN_SUBSTANCES], many[TARN_SUBSTANCES];

	starts(&loop, many);
	cr_assert(tarn_loop_after(&loop, 7, many, one, NULL) == TARN_OK);
	for (int i = 0; i < 700; i++)
		tarn_loop_after(&loop, 0.01, many, many, NULL);
	for (int s = 0; s < TARN_SUBSTANCES; s++)
		cr_expect(near(many[s], one[s], 1e-12));
}

/* Where two rates meet the closed form must not divide by their difference. */
Test(bed_loop, equal_and_vanishing_rates)
{
	struct tarn_loop loop = sample();
	struct tarn_loop_substance *n = &loop.substance[TARN_NITRATE];
	double from[TARN_SUBSTANCES], a[TARN_SUBSTANCES], b[TARN_SUBSTANCES];

	starts(&loop, from);
	*n = loop.substance[TARN_AMMONIA];	/* the same rates */
	n->start_mgl = from[TARN_NITRATE];
	tarn_loop_after(&loop, 2, from, a, NULL);
	n->pond_per_day += 1e-7;
	tarn_loop_after(&loop, 2, from, b, NULL);
	cr_expect(near(a[TARN_NITRATE], b[TARN_NITRATE], 1e-6));

	/* nitrate that nothing takes: all nitrogen stays in the pond */
	loop.exchange_m3s = 0;
	loop.nitrified = 1;
	loop.substance[TARN_AMMONIA].pond_per_day = 0;
	*n = (struct tarn_loop_substance){ .theta = 1, .tanks_in_series = 1 };
	tarn_loop_after(&loop, 9, from, a, NULL);
	cr_expect(near((a[0] + a[1] - from[0] - from[1]) * 20, 9 * 3.22,
		       1e-12), "nitrogen in = nitrogen kept");
	loop.substance[TARN_AMMONIA].k_m_yr = 1e-6;	/* the series */
	tarn_loop_after(&loop, 9, from, a, NULL);
	cr_expect(near((a[0] + a[1] - from[0] - from[1]) * 20, 9 * 3.22,
		       1e-9));
}

Test(bed_loop, what_nothing_takes_has_no_steady_state)
{
	struct tarn_loop loop = sample();
	struct tarn_loop_result r;
	double from[TARN_SUBSTANCES], to[TARN_SUBSTANCES];

	loop.exchange_m3s = 0;
	loop.substance[TARN_PHOSPHORUS].k_m_yr = 0;
	cr_assert(tarn_loop_steady(&loop, &r, NULL) == TARN_OK);
	cr_expect(isnan(r.mgl[TARN_PHOSPHORUS]));
	cr_expect(r.flags == TARN_BED_NO_STEADY_STATE);
	starts(&loop, from);
	tarn_loop_after(&loop, 40, from, to, NULL);
	cr_expect(near(to[TARN_PHOSPHORUS], 0.3 + 0.75 * 40 / 20, 1e-14),
		  "it rises by the load");
	loop.substance[TARN_PHOSPHORUS].load_g_d = 0;
	tarn_loop_steady(&loop, &r, NULL);
	cr_expect(r.mgl[TARN_PHOSPHORUS] == 0.3 && r.flags == 0);
}

/* Methods, section 8: percent per pass falls, mass removed rises. */
Test(bed_loop, more_flow_takes_more_mass_and_less_percent)
{
	struct tarn_loop loop = sample();
	struct tarn_loop_result r;
	double last = HUGE_VAL, last_percent = 1;

	for (double q = 1e-4; q < 0.1; q *= 2) {
		double percent;

		loop.flow_m3s = q;
		tarn_loop_steady(&loop, &r, NULL);
		percent = r.clearance_m3s[TARN_AMMONIA] / q;
		cr_expect(r.mgl[TARN_AMMONIA] < last);
		cr_expect(percent < last_percent);
		cr_expect(r.clearance_m3s[TARN_AMMONIA] * DAY <
			  1800 * pow(1.04, -5) / 365 * 6, "never above k A");
		last = r.mgl[TARN_AMMONIA];
		last_percent = percent;
	}
}

Test(bed_loop, bad_input_is_named)
{
	struct tarn_loop loop = sample();
	struct tarn_loop_result r;
	struct tarn_error err = { 0 };
	double c[TARN_SUBSTANCES] = { 0, 0, -1, 0, 0 };

	loop.substance[TARN_BOD].load_g_d = -1;
	cr_expect(tarn_loop_steady(&loop, &r, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "loop.bod.load");
	loop = sample();
	loop.flow_m3s = 0;
	err.code = TARN_OK;
	cr_expect(tarn_loop_after(&loop, 1, c, c, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "loop.flow");
	loop = sample();
	err.code = TARN_OK;
	cr_expect(tarn_loop_after(&loop, 1, c, c, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "start");
	cr_expect(tarn_loop_after(&loop, -1, c, c, NULL) == TARN_EARG);
	cr_expect(tarn_substance_name(TARN_SUBSTANCES) == NULL);
}
