/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "bed_rows.h"
#include "tarn/bed/gravel.h"

static struct tarn_gravel stone(double d_m, double n, double rho, double mu)
{
	struct tarn_gravel g = tarn_gravel_default();

	g.diameter_m = d_m;
	g.porosity = n;
	g.density_kgm3 = rho;
	g.viscosity_pas = mu;
	return g;
}

/* Davis, Example 11-2: share by weight, size [m], Reynolds number printed. */
static const double davis_share[9] = {
	0.053, 0.171, 0.146, 0.204, 0.176, 0.119, 0.059, 0.031, 0.007
};
static const double davis_d[9] = {
	0.002, 0.00142, 0.001, 0.000714, 0.000505, 0.000357, 0.000252,
	0.000178, 0.000126
};
static const double davis_re[9] = {
	3.137, 2.2272, 1.5685, 1.1199, 0.79208, 0.55995, 0.39526, 0.27919,
	0.19763
};

static double davis_sum(void)
{
	double sum = 0;

	for (int i = 0; i < 9; i++)
		sum += tarn_drag_coefficient(davis_re[i]) * davis_share[i] /
		       davis_d[i];
	return sum;
}

Test(bed_gravel, published)
{
	const char *davis = "Davis, Water and Wastewater Engineering, "
			    "example 11-2";
	const struct bed_row rows[] = {
		{ "H08", tarn_drag_coefficient(3.137), 9.684551, 0.00013,
		  davis },
		{ "H10", davis_sum(), 75025, 0.6, davis },
	};
	because("H08", "the Reynolds number that goes in has four digits");
	because("H10", "0.009 beyond half a digit; the terms are not seen");
	CHECK_PRINTED(rows);
}

/* The two laws add as resistances: 1/w = 1/stokes + 1/turbulent.  Where they
 * are alike the grain sinks at half of each. */
Test(bed_settling, between_stokes_and_turbulent)
{
	struct tarn_particle p = tarn_particle_default();
	double excess, nu = p.viscosity_pas / p.water_kgm3, turbulent;

	p.shape = 0.4;
	excess = (p.density_kgm3 / p.water_kgm3 - 1) * 9.81;
	p.diameter_m = cbrt(18 * 18 * nu * nu / (0.75 * 0.4 * excess));
	turbulent = sqrt(excess * p.diameter_m / (0.75 * 0.4));
	cr_expect(near(tarn_settling_stokes(&p), turbulent, 1e-12));
	cr_expect(near(tarn_settling(&p), turbulent / 2, 1e-12));
	p.diameter_m = 0.05;
	turbulent = sqrt(excess * 0.05 / (0.75 * 0.4));
	cr_expect(near(tarn_settling(&p), turbulent, 1e-3));
	p.diameter_m = 1e-6;
	cr_expect(near(tarn_settling(&p), tarn_settling_stokes(&p), 1e-3));
}

static double settled_percent(void)
{
	struct tarn_particle p = tarn_particle_default();

	p.diameter_m = 1e-5;
	p.water_kgm3 = 1000;
	p.viscosity_pas = 1e-3;
	return 100 * tarn_settling_stokes(&p) / (80000 / DAY / 900);
}

Test(bed_settling, regression)
{
	const struct bed_row rows[] = {
		{ "G07", settled_percent(), 8.74071, 1e-5,
		  "Stokes over the loading: 0.01 mm, 900 m2, 80,000 m3/d" },
	};
	CHECK_ROWS(rows);
}

Test(bed_gravel, published_inputs_regression)
{
	struct tarn_gravel davis = stone(0.002, 0.42, 1000, 1.3069812e-3);
	struct tarn_layer layer = tarn_layer_default();
	struct tarn_layers stack = tarn_layers_default();
	struct tarn_layers_result sum;

	davis.sphericity = 0.82;
	layer.thickness_m = 1;
	layer.diameter_m = 0.02;
	layer.porosity = 0.40;
	stack.layer = &layer;
	stack.count = 1;
	stack.area_m2 = 1;
	cr_assert(tarn_layers(&stack, NULL, &sum, NULL) == TARN_OK);
	{
		const struct bed_row rows[] = {
			{ "H11", 0.82 * tarn_gravel_reynolds(&davis, 0.0025),
			  3.137, 0.0005, "Davis, example 11-2: R of 2 mm" },
			{ "H16", 24608 * tarn_unit("ft"),
			  tarn_media(&(size_t){ 0 })[2].design_m_d, 1,
			  "US EPA Region 6, Addendum 1 (Aug 1993)" },
			{ "R03", 3.47 * DAY / tarn_bed_residence(
				1 / DAY, 1, 4, 1), 0.8675, 0.0001,
			  "Water Sci. Technol. 34(3-4):421, abstract" },
			{ "R04", 3.41 * DAY / tarn_bed_residence(
				1 / DAY, 1, 4, 1), 0.8525, 0.0001,
			  "Water Sci. Technol. 34(3-4):421, abstract" },
			{ "G03", sum.mass_kg, 1590, 1e-9,
			  "published range of gravel 1520-1680 kg/m3" },
		};
		CHECK_ROWS(rows);
	}
}

Test(bed_gravel, from_memory)
{
	struct tarn_gravel davis = stone(0.002, 0.42, 1000, 1.307e-3);

	davis.sphericity = 0.82;
	{
		const struct bed_row rows[] = {
			{ "H12", tarn_rose_headloss(&davis, davis_share,
						    davis_d, 9, 0.0025, 0.5),
			  1.0, 0.05, "Davis eq. 11-9; depth and n recalled" },
			{ "H31", tarn_forchheimer(0.016, 0.38).linear,
			  1.55603, 0.05, "Sidiropoulou et al. 2007" },
		};
		CHECK_RECALLED(rows);
	}
}

static double headloss_mm(double d, double n, double v_m_h, double depth,
			  double rho, double mu)
{
	struct tarn_gravel g = stone(d, n, rho, mu);
	struct tarn_headloss h;

	cr_assert(tarn_gravel_headloss(&g, v_m_h / 3600, depth, &h, NULL) ==
		  TARN_OK);
	return h.clean_m * 1000;
}

static double floc_mm(double v_m_h)
{
	struct tarn_particle p = tarn_particle_default();

	p.density_kgm3 = 1050;
	p.water_kgm3 = 1000;
	p.viscosity_pas = 1e-3;
	return 1000 * tarn_settling_diameter(&p, v_m_h / 3600);
}

Test(bed_gravel, regression)
{
	struct tarn_gravel g10 = stone(0.01, 0.38, 998.2, 1.0016e-3);
	struct tarn_gravel g5 = stone(0.005, 0.38, 998.2, 1.0016e-3);
	struct tarn_gravel g16 = stone(0.016, 0.38, 998.2, 1.0016e-3);
	double v16 = tarn_resistance_velocity(tarn_gravel_resistance(&g16),
					      0.01);
	const struct bed_row rows[] = {
		{ "H20", tarn_gravel_conductivity(&g10, 180), 66989, 10,
		  "Kozeny-Carman" },
		{ "H21", tarn_gravel_conductivity(&g5, 150), 20097, 5,
		  "Ergun, linear part" },
		{ "H22", v16 / 0.01 * DAY, 63900, 50, "Ergun inverted" },
		{ "H23", v16 * 3600, 26.6316, 0.5, "Ergun inverted" },
		{ "H24", headloss_mm(0.01, 0.38, 5, 0.6, 998.2, 1.0016e-3),
		  1.12896, 0.05, "Ergun" },
		{ "H25", headloss_mm(0.01, 0.38, 5, 0.6, 1000, 1.5182e-3),
		  1.58849, 0.05, "Ergun" },
		{ "", headloss_mm(0.005, 0.38, 5, 0.6, 998.2, 1.0016e-3), 4.05,
		  0.05, "Ergun, 5 mm" },
		{ "H26", tarn_darcy_section(100 / DAY, 1000, 0.005), 20, 1e-9,
		  "Darcy" },
		{ "H27", tarn_darcy_length(1000, 0.5, 0.1, 1), 7.071, 0.001,
		  "sqrt(K y dh / q)" },
		{ "H28", tarn_darcy_length(1000, 0.5, 0.1, 24), 1.443, 0.001,
		  "sqrt(K y dh / q)" },
		{ "G01", tarn_gravel_surface(&(struct tarn_gravel){ 0.02, 0.4,
			1, 998.2, 1.0016e-3, 1 }), 180, 1e-9, "geometry" },
		{ "G02", tarn_gravel_surface(&g10), 372, 1e-9, "geometry" },
		{ "G14", floc_mm(1), 0.101, 0.001, "Stokes" },
		{ "G15", floc_mm(5), 0.226, 0.001, "Stokes" },
	};
	CHECK_ROWS(rows);
}

/* python3-fluids 1.0.22: 0.8 mm, n 0.4, 1 mm/s, 1000 kg/m3, 1e-3 Pa s, 1 m;
 * then 17 mm, n 0.41, 13 mm/s, 999.1 kg/m3, 1.14e-3 Pa s, 0.7 m. */
Test(bed_gravel, laws_against_a_library)
{
	struct tarn_gravel g = stone(0.017, 0.41, 999.1, 1.14e-3);
	struct tarn_gravel sand = stone(8e-4, 0.4, 1000, 1e-3);
	/* Ergun, Carman, Tallmadge, Jones & Krier */
	static const double fine[] = {
		1338.8671875, 1614.721678, 1365.273914, 1362.2719449873746
	};
	static const double want[] = {
		131.35094623, 128.365534184, 122.369657797, 136.209387194
	};

	for (int law = 0; law < 4; law++) {
		double got = 0.7 * tarn_packing_pressure(
			(enum tarn_packing_law)law, &g, 0.013);
		double of_sand = tarn_packing_pressure(
			(enum tarn_packing_law)law, &sand, 1e-3);

		cr_expect(fabs(of_sand - fine[law]) < 1e-6, "law %d: %.12g, "
			  "want %.12g", law, of_sand, fine[law]);
		cr_expect(near(got, want[law], 1e-11), "law %d: %.12g, want "
			  "%.12g", law, got, want[law]);
	}
}

Test(bed_gravel, resistance_is_the_law_and_its_inverse)
{
	struct tarn_gravel g = stone(0.012, 0.37, 999, 1.2e-3);
	struct tarn_resistance r;

	g.sphericity = 0.8;
	r = tarn_gravel_resistance(&g);
	for (double v = 1e-6; v < 1; v *= 7) {
		double i = tarn_resistance_gradient(r, v);
		double pa = tarn_packing_pressure(TARN_LAW_ERGUN, &g, v);

		cr_expect(near(i, pa / (999 * 9.81), 1e-13));
		cr_expect(near(tarn_resistance_velocity(r, i), v, 1e-13));
	}
	/* Darcy's conductivity is the slow limit */
	cr_expect(near(DAY / r.linear, tarn_gravel_conductivity(&g, 150),
		       1e-13));
	g.clogging = 30;
	cr_expect(near(tarn_gravel_resistance(&g).linear, 30 * r.linear,
		       1e-15));
	cr_expect(near(DAY / r.linear / 30, tarn_gravel_conductivity(&g, 150),
		       1e-13));
}

Test(bed_gravel, which_law_holds)
{
	struct tarn_gravel g = stone(0.01, 0.38, 998.2, 1.0016e-3);
	struct tarn_headloss h;

	/* 10 mm gravel: Re 2.8 at 1 m/h, 13.8 at 5 m/h */
	tarn_gravel_headloss(&g, 1 / 3600.0, 1, &h, NULL);
	cr_expect(fabs(h.reynolds - 2.8) < 0.05);
	cr_expect(h.regime == TARN_FLOW_TRANSITION);
	cr_expect(h.flags == TARN_BED_NO_DARCY);
	tarn_gravel_headloss(&g, 5 / 3600.0, 1, &h, NULL);
	cr_expect(fabs(h.reynolds - 13.8) < 0.05);
	cr_expect(h.regime == TARN_FLOW_INERTIAL);
	cr_expect(h.quadratic_share > 0.15 && h.quadratic_share < 0.3);
	cr_expect(near(h.pore_velocity_ms, 5 / 3600.0 / 0.38, 1e-14));
	tarn_gravel_headloss(&g, 0.1 / 3600, 1, &h, NULL);
	cr_expect(h.regime == TARN_FLOW_LINEAR && h.flags == 0);
	tarn_gravel_headloss(&g, 0.2, 1, &h, NULL);
	cr_expect(h.regime == TARN_FLOW_BEYOND);
	cr_expect(h.flags & TARN_BED_BEYOND_ERGUN);
	tarn_gravel_headloss(&g, 0, 1, &h, NULL);
	cr_expect(h.clean_m == 0 && h.quadratic_share == 0);
	cr_expect(tn_flow_regime_of(1425, 0.38) == TARN_FLOW_INERTIAL);
	cr_expect(tn_flow_regime_of(1427, 0.38) == TARN_FLOW_BEYOND);
	for (int i = 0; i <= TARN_FLOW_BEYOND; i++)
		cr_expect(strlen(tarn_flow_regime_name(
			(enum tarn_flow_regime)i)) > 5);
	cr_expect_str_eq(tarn_flow_regime_name((enum tarn_flow_regime)7),
			 "unknown");
}

/* Two laws fitted on different data: of one order, no more is claimed. */
Test(bed_gravel, forchheimer_is_of_ergun_s_order)
{
	for (double d = 0.005; d < 0.05; d *= 1.5) {
		struct tarn_gravel g = stone(d, 0.38, 998.2, 1.0016e-3);
		double ergun = tarn_resistance_gradient(
			tarn_gravel_resistance(&g), 2e-3);
		double other = tarn_resistance_gradient(
			tarn_forchheimer(d, 0.38), 2e-3);

		cr_expect(other > ergun / 2 && other < ergun * 8, "%g m: %g, "
			  "%g", d, other, ergun);
	}
}

Test(bed_gravel, graded_stone)
{
	double mean = tarn_sieve_diameter(davis_share, davis_d, 9);
	static const double one[] = { 0.7 }, d[] = { 0.016 }, zero[] = { 0 };

	cr_expect(near(tarn_sieve_diameter(one, d, 1), 0.016, 1e-15));
	cr_expect(mean > davis_d[8] && mean < davis_d[0]);
	cr_expect(isnan(tarn_sieve_diameter(zero, d, 1)));
	cr_expect(isnan(tarn_sieve_diameter(one, zero, 1)));
	cr_expect(isnan(tarn_sieve_diameter(one, d, 0)));
}

Test(bed_gravel, refused)
{
	struct tarn_gravel g = stone(0.01, 0.38, 998.2, 1.0016e-3);
	struct tarn_headloss h;
	struct tarn_error err = { 0 };
	static const double bad_n[] = { 0, 1, -0.1, (double)NAN };

	for (size_t i = 0; i < LENGTH(bad_n); i++) {
		struct tarn_gravel b = g;

		b.porosity = bad_n[i];
		cr_expect(isnan(tarn_gravel_resistance(&b).linear));
		cr_expect(isnan(tarn_gravel_surface(&b)));
		cr_expect(isnan(tarn_gravel_conductivity(&b, 180)));
		cr_expect(isnan(tarn_gravel_reynolds(&b, 1)));
		cr_expect(isnan(tarn_packing_pressure(TARN_LAW_ERGUN, &b,
						      1)));
		err.code = TARN_OK;
		cr_expect(tarn_gravel_headloss(&b, 1, 1, &h, &err) ==
			  TARN_EARG);
		cr_expect_str_eq(err.field, "gravel.porosity");
	}
	cr_expect(tarn_gravel_headloss(&g, -1, 1, &h, NULL) == TARN_EARG);
	cr_expect(tarn_gravel_headloss(&g, 1, TARN_NAN, &h, NULL) ==
		  TARN_EARG);
	cr_expect(isnan(tarn_gravel_conductivity(&g, 0)));
	cr_expect(isnan(tarn_packing_pressure(TARN_LAW_ERGUN, &g, 0)));
	cr_expect(isnan(tarn_packing_friction((enum tarn_packing_law)9, 1)));
	cr_expect(isnan(tarn_packing_friction(TARN_LAW_CARMAN, 0)));
	cr_expect(isnan(tarn_resistance_gradient(tarn_gravel_resistance(&g),
						 -1)));
	cr_expect(isnan(tarn_resistance_velocity(tarn_gravel_resistance(&g),
						 -1)));
	cr_expect(isnan(tarn_forchheimer(0, 0.4).linear));
	cr_expect(isnan(tarn_pore_velocity(1, 0)));
	cr_expect(isnan(tarn_darcy_section(1, 0, 1)));
	cr_expect(isnan(tarn_darcy_length(1, 1, 0, 1)));
	cr_expect(isnan(tarn_drag_coefficient(0)));
	cr_expect(isnan(tarn_rose_headloss(&g, davis_share, davis_d, 0, 1,
					   1)));
}

Test(bed_settling, laws_and_refusals)
{
	struct tarn_particle p = tarn_particle_default();
	double v;

	p.diameter_m = 2e-5;	/* where the two laws agree */
	cr_expect(near(tarn_settling(&p), tarn_settling_stokes(&p), 0.02));
	v = tarn_settling_stokes(&p);
	cr_expect(near(tarn_settling_diameter(&p, v), 2e-5, 1e-13));
	p.diameter_m = 5e-3;
	cr_expect(tarn_settling(&p) < tarn_settling_stokes(&p) / 10);
	p.density_kgm3 = 950;	/* it floats */
	cr_expect(isnan(tarn_settling(&p)));
	cr_expect(isnan(tarn_settling_stokes(&p)));
	cr_expect(isnan(tarn_settling_diameter(&p, v)));
	p.density_kgm3 = 2650;
	cr_expect(isnan(tarn_settling_diameter(&p, 0)));
	p.diameter_m = 0;
	cr_expect(isnan(tarn_settling(&p)));
}

Test(bed_gravel, tables_are_cited)
{
	size_t count;
	const struct tarn_medium *m = tarn_media(&count);
	const struct tarn_limit *l;

	for (size_t i = 0; i < count; i++) {
		struct tarn_gravel g = stone(m[i].d10_m, m[i].porosity_hi,
					     998.2, 1.0016e-3);

		cr_expect(m[i].low_m_d < m[i].high_m_d);
		cr_expect(strlen(m[i].source) > 5);
		/* design values lie under what even stone would pass */
		cr_expect(m[i].design_m_d < tarn_gravel_conductivity(&g, 180));
	}
	l = tarn_limits(&count);
	for (size_t i = 0; i < count; i++)
		cr_expect(l[i].value > 0 && strlen(l[i].source) > 5);
}
