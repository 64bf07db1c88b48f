/* SPDX-License-Identifier: MIT */
#include "test_flow.h"

#define MWH "MWH Water Treatment (3rd ed.) table C-1"
#define ICT "International Critical Tables (1928)"

/* MWH Water Treatment, 3rd ed., app. C table C-1, after Vennard & Street
 * (1975); nu in 1e-6 m2/s. */
Test(water, published)
{
	static const struct {
		double t, rho, rho_tol, nu, nu_tol;
	} rows[] = {
		{ 0, 999.8, 0.05, 1.785, 0.0075 },
		{ 5, 1000.0, 0.05, 1.519, 0.0008 },
		{ 10, 999.7, 0.05, 1.306, 5e-4 },
		{ 15, 999.1, 0.05, 1.139, 5e-4 },
		{ 20, 998.2, 0.05, 1.003, 5e-4 },
		{ 25, 997.0, 0.05, 0.893, 5e-4 },
		{ 30, 995.7, 0.06, 0.800, 0.001 },
		{ 40, 992.2, 0.05, 0.658, 5e-4 },
	};

	because("kinematic, 0 C", "measurements of 1975 and before; IAPWS-95 "
		"gives 1.7914");
	because("kinematic, 5 C", "the print's own viscosity over its density "
		"is 1.518");
	because("kinematic, 30 C", "the print's own viscosity over its density "
		"is 0.801");
	because("density, 30 C", "IAPWS-95 gives 995.649");
	for (size_t i = 0; i < COUNT(rows); i++) {
		struct tarn_water w = tarn_water(rows[i].t);

		printed(MWH, named("density, %g C", rows[i].t), w.density_kgm3,
			rows[i].rho, rows[i].rho_tol);
		printed(MWH, named("kinematic, %g C", rows[i].t),
			w.kinematic_m2s * 1e6, rows[i].nu, rows[i].nu_tol);
	}
}

/* International Critical Tables (1928), as an appendix of the Encyclopedia of
 * Environmental Science and Engineering prints them: kinematic viscosity in
 * 1e-6 m2/s. */
Test(water, critical_tables_published)
{
	static const double nu[][2] = { { 0, 1.7923 }, { 10, 1.3101 },
					{ 15, 1.1457 }, { 20, 1.0105 },
					{ 25, 0.8975 }, { 30, 0.8039 } };

	because(ICT, "measurements of 1928, up to 0.7 % over those that "
		"IAPWS (2008) rests on");
	for (size_t i = 0; i < COUNT(nu); i++)
		quoted(ICT, named("kinematic, %g C", nu[i][0]),
		       tarn_water(nu[i][0]).kinematic_m2s * 1e6, nu[i][1],
		       0.0075);
}

/* IAPWS-95 and IAPWS 2008 viscosity by python3-iapws 1.5.2 (IAPWS95 at
 * 0.101325 MPa; saturation by x = 0). */
Test(water, iapws)
{
	static const struct {
		double t, rho, mu, kpa;
	} rows[] = {
		{ 0.5, 999.8746976950522, 0.0017609698877632549,
		  0.6337802854189977 },
		{ 10, 999.7024701878153, 0.0013058996603509414,
		  1.2281989306863876 },
		{ 25, 997.0476367604167, 0.0008900224890776772,
		  3.1699293388693603 },
		{ 40, 992.2163528732024, 0.000652728726576765,
		  7.384938073746344 },
		{ 80, 971.7903980966436, 0.00035405065387648634,
		  47.41447403012437 },
		{ 99, 959.0660595595092, 0.00028456533217475837,
		  97.85173059791114 },
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct tarn_water w = tarn_water(rows[i].t);

		near("IAPWS-95, density", w.density_kgm3, rows[i].rho, 0.015);
		close_to("IAPWS 2008, viscosity", w.viscosity_pas, rows[i].mu,
			 3e-5);
		close_to("IAPWS-95, vapour pressure", w.vapour_pressure_kpa,
			 rows[i].kpa, 1e-4);
	}
	/* SR6-08(2011) table 6, from memory: 0.889 996 774e-3 Pa s */
	recalled("IAPWS SR6-08(2011) table 6", "viscosity, 25 C",
		 tarn_water(25).viscosity_pas, 0.889996774e-3, 5e-13);
}

Test(water, ranges_and_law)
{
	static const double refused[] = { -1e-9, 100.001, 1e300, -1e300 };

	for (size_t i = 0; i < COUNT(refused); i++)
		cr_expect(isnan(tarn_water(refused[i]).density_kgm3));
	cr_expect(isnan(tarn_water(TARN_NAN).viscosity_pas));
	cr_expect(isnan(tarn_water(HUGE_VAL).kinematic_m2s));
	cr_expect(tarn_water(0).density_kgm3 > 999);
	cr_expect(tarn_water(100).vapour_pressure_kpa > 101);
	for (double t = 0; t < 100; t += 0.7) {
		cr_expect(tarn_water(t).viscosity_pas >
			  tarn_water(t + 0.7 < 100 ? t + 0.7 : 100)
				  .viscosity_pas);
		cr_expect(tarn_water(t).vapour_pressure_kpa <
			  tarn_water(t + 0.7 < 100 ? t + 0.7 : 100)
				  .vapour_pressure_kpa);
	}
	/* water is densest near 4 deg C */
	cr_expect(tarn_water(4).density_kgm3 > tarn_water(3).density_kgm3);
	cr_expect(tarn_water(4).density_kgm3 > tarn_water(5).density_kgm3);
}

/* Crane TP-410 example 7.32: tank at 5 psig, 25 ft below the pump, 6 ft of
 * loss, 60 F; recomputed by fluids 1.0.22 (documentation): 13.887 ft with a
 * vapour pressure of 0.256 psi. */
Test(water, npsh)
{
	double kpa = 101.325 + 5 * 6.894757;

	because("NPSH", "the quotation takes 0.256 psi for the vapour "
		"pressure, ours is of Wagner & Pruss");
	quoted("Crane TP-410M, ex. 7.32", "NPSH, ft",
	     tarn_npsh_available_m(kpa, 15.556, 25 * FT, 6 * FT) / FT,
	     13.887, 0.0025);
	cr_expect(isnan(tarn_npsh_available_m(0, 15, 0, 0)));
	cr_expect(isnan(tarn_npsh_available_m(101, -1, 0, 0)));
	cr_expect(isnan(tarn_npsh_available_m(101, 15, 0, -1)));
}
