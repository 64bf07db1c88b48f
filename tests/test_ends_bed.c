/* SPDX-License-Identifier: MIT */
#include "ends.h"

/* The formulas of bed.h. */

Test(ends_bed, loadings)
{
	const struct end rows[] = {
		{ "loading", tarn_bed_loading(1, 86400), 1 },
		{ "loading of none", tarn_bed_loading(0, 1), NONE },
		{ "on none", tarn_bed_loading(1, 0), NONE },
		{ "endless", tarn_bed_loading(HUGE_VAL, 1), NONE },
		{ "on endless", tarn_bed_loading(1, HUGE_VAL), NONE },
		{ "area", tarn_bed_area(1, 86400), 1 },
		{ "area of none", tarn_bed_area(0, 1), NONE },
		{ "area at none", tarn_bed_area(1, 0), NONE },
		{ "flow", tarn_bed_flow(1, 86400), 1 },
		{ "flow at none", tarn_bed_flow(0, 1), NONE },
		{ "flow of none", tarn_bed_flow(1, 0), NONE },
		{ "inside, low", tarn_loading_factor(2, 2, 8), 1 },
		{ "inside, high", tarn_loading_factor(8, 2, 8), 1 },
		{ "half of it", tarn_loading_factor(1, 2, 8), 0.5 },
		{ "twice it", tarn_loading_factor(16, 2, 8), 2 },
		{ "no loading", tarn_loading_factor(0, 2, 8), NONE },
		{ "up to", tarn_loading_factor(1, 0, 8), 1 },
		{ "up to none", tarn_loading_factor(1, 0, 0), NONE },
		{ "turns over", tarn_turnover_per_h(1, 3600), 1 },
		{ "stands", tarn_turnover_per_h(0, 1), 0 },
		{ "backwards", tarn_turnover_per_h(-BIT, 1), NONE },
		{ "no pond", tarn_turnover_per_h(1, 0), NONE },
		{ "never", tarn_turnover_exposed(0), 0 },
		{ "once", tarn_turnover_exposed(1), 1 - exp(-1) },
		{ "less than never", tarn_turnover_exposed(-BIT), NONE },
		{ "all void", tarn_bed_residence(1, 2, 3, 1), 6 },
		{ "more than void", tarn_bed_residence(1, 2, 3, 1 + BIT), NONE },
		{ "no void", tarn_bed_residence(1, 2, 3, 0), NONE },
		{ "no depth", tarn_bed_residence(1, 2, 0, 0.4), NONE },
		{ "no area", tarn_bed_residence(1, 0, 3, 0.4), NONE },
		{ "no flow", tarn_bed_residence(0, 2, 3, 0.4), NONE },
	};

	CHECK_ENDS(rows);
}

/* k = -q ln(1 - removal), a day to a year of 365; Levenspiel's closed vessel:
 * D endless is one tank. */
Test(ends_bed, rates)
{
	const struct end rows[] = {
		{ "nothing removed", tarn_implied_rate(0, 1), 0 },
		{ "half removed", tarn_implied_rate(0.5, 2), 730 * log(2) },
		{ "adds", tarn_implied_rate(-BIT, 1), NONE },
		{ "all removed", tarn_implied_rate(1, 1), NONE },
		{ "almost all", tarn_implied_rate(1 - BIT, 1), ANY },
		{ "no loading", tarn_implied_rate(0.5, 0), NONE },
		{ "no rate", tarn_areal_rate(0, 1, 0.4), 0 },
		{ "of a day", tarn_areal_rate(1, 1, 1), 365 },
		{ "grows", tarn_areal_rate(-BIT, 1, 0.4), NONE },
		{ "no depth", tarn_areal_rate(1, 0, 0.4), NONE },
		{ "no void", tarn_areal_rate(1, 1, 0), NONE },
		{ "over all void", tarn_areal_rate(1, 1, 1 + BIT), NONE },
		{ "not dispersed", tarn_dispersion_tanks_in_series(0), NONE },
		{ "mixed", tarn_dispersion_tanks_in_series(1),
		  1 / (2 - 2 * (1 - exp(-1))) },
		{ "no roots", tarn_reed_nitrification_rate(0), 0.01854 },
		{ "all roots", tarn_reed_nitrification_rate(1), 0.41074 },
		{ "under none", tarn_reed_nitrification_rate(-BIT), NONE },
		{ "over all", tarn_reed_nitrification_rate(1 + BIT), NONE },
		{ "BOD, no void", tarn_reed_bod_rate(0), NONE },
		{ "BOD, all void", tarn_reed_bod_rate(1), NONE },
		{ "BOD", tarn_reed_bod_rate(0.5),
		  1.839 * 37.31 * pow(0.5, 4.172) },
		{ "solids", tarn_reed_solids_ratio(1), 0.1058 + 0.11 },
		{ "solids, dry", tarn_reed_solids_ratio(0), NONE },
		{ "phosphorus", tarn_reed_phosphorus_ratio(0.01), exp(-2.73) },
		{ "phosphorus, dry", tarn_reed_phosphorus_ratio(0), NONE },
	};

	CHECK_ENDS(rows);
}

/* Emerson et al. (1975): half is un-ionised at pH = pKa. */
Test(ends_bed, ammonia_and_oxygen)
{
	const double pka = 0.09018 + 2729.92 / 293.15;
	const struct end rows[] = {
		{ "pKa", tarn_ammonia_pka(20), pka },
		{ "freezing", tarn_ammonia_pka(0), 0.09018 + 2729.92 / 273.15 },
		{ "colder", tarn_ammonia_pka(-BIT), NONE },
		{ "warmest", tarn_ammonia_pka(40), 0.09018 + 2729.92 / 313.15 },
		{ "warmer", tarn_ammonia_pka(40 + BIT), NONE },
		{ "half", tarn_unionised(pka, 20), 0.5 },
		{ "sourest", tarn_unionised(4, 20), 1 / (1 + pow(10, pka - 4)) },
		{ "sourer", tarn_unionised(4 - BIT, 20), NONE },
		{ "most basic", tarn_unionised(12, 20),
		  1 / (1 + pow(10, pka - 12)) },
		{ "more basic", tarn_unionised(12 + BIT, 20), NONE },
		{ "none of it", tarn_total_ammonia(0, 8, 20), 0 },
		{ "of half", tarn_total_ammonia(0.1, pka, 20), 0.2 },
		{ "less than none", tarn_total_ammonia(-BIT, 8, 20), NONE },
		{ "cold water", tarn_oxygen_saturation(0, 0), ANY },
		{ "ice", tarn_oxygen_saturation(-BIT, 0), NONE },
		{ "warm water", tarn_oxygen_saturation(40, 0), ANY },
		{ "hot water", tarn_oxygen_saturation(40 + BIT, 0), NONE },
		{ "Dead Sea", tarn_oxygen_saturation(20, -430), ANY },
		{ "deeper", tarn_oxygen_saturation(20, -430 - 1e-6), NONE },
		{ "highest", tarn_oxygen_saturation(20, 6000), ANY },
		{ "higher", tarn_oxygen_saturation(20, 6000 + 1e-6), NONE },
	};

	CHECK_ENDS(rows);
}

static struct tarn_gravel stone(double diameter_m, double porosity)
{
	struct tarn_gravel g = tarn_gravel_default();

	g.diameter_m = diameter_m;
	g.porosity = porosity;
	return g;
}

Test(ends_bed, gravel)
{
	const struct tarn_gravel usual = stone(0.02, 0.4);
	const struct tarn_gravel least = stone(1e-5, 0.05);
	const struct tarn_gravel most = stone(0.5, 0.95);
	const struct tarn_gravel fine = stone(1e-5 - 1e-12, 0.4);
	const struct tarn_gravel coarse = stone(0.5 + BIT, 0.4);
	const struct tarn_gravel dense = stone(0.02, 0.05 - BIT);
	const struct tarn_gravel loose = stone(0.02, 0.95 + BIT);
	const struct tarn_resistance r = { 3, 4 }, straight = { 2, 0 };
	const struct end rows[] = {
		{ "surface", tarn_gravel_surface(&usual), 180 },
		{ "least", tarn_gravel_surface(&least), 6 * 0.95 / 1e-5 },
		{ "most", tarn_gravel_surface(&most), 6 * 0.05 / 0.5 },
		{ "finer", tarn_gravel_surface(&fine), NONE },
		{ "coarser", tarn_gravel_surface(&coarse), NONE },
		{ "denser", tarn_gravel_surface(&dense), NONE },
		{ "looser", tarn_gravel_surface(&loose), NONE },
		{ "still", tarn_resistance_gradient(r, 0), 0 },
		{ "moves", tarn_resistance_gradient(r, 2), 22 },
		{ "backwards", tarn_resistance_gradient(r, -BIT), NONE },
		{ "level", tarn_resistance_velocity(r, 0), 0 },
		{ "slopes", tarn_resistance_velocity(r, 22), 2 },
		{ "slopes, straight", tarn_resistance_velocity(straight, 3), 1.5 },
		{ "rises", tarn_resistance_velocity(r, -BIT), NONE },
		{ "still water", tarn_gravel_reynolds(&usual, 0), 0 },
		{ "1 cm/s", tarn_gravel_reynolds(&usual, 0.01),
		  998.2 * 0.01 * 0.02 / 1.0016e-3 },
		{ "back", tarn_gravel_reynolds(&usual, -BIT), NONE },
		{ "pore, still", tarn_pore_velocity(0, 0.4), 0 },
		{ "pore", tarn_pore_velocity(0.1, 0.4), 0.25 },
		{ "pore, back", tarn_pore_velocity(-BIT, 0.4), NONE },
		{ "no force", tarn_packing_friction(TARN_LAW_ERGUN, 0), NONE },
		{ "Ergun at 1", tarn_packing_friction(TARN_LAW_ERGUN, 1), 151.75 },
		{ "Carman at 1", tarn_packing_friction(TARN_LAW_CARMAN, 1),
		  182.871 },
		{ "Tallmadge at 1", tarn_packing_friction(TARN_LAW_TALLMADGE, 1),
		  154.2 },
		{ "Jones & Krier at 1",
		  tarn_packing_friction(TARN_LAW_JONES_KRIER, 1), 153.89 },
	};

	CHECK_ENDS(rows);
}

/* Reynolds numbers at which one law gives way to the next. */
Test(ends_bed, drag_and_darcy)
{
	const struct end rows[] = {
		{ "creeps", tarn_drag_coefficient(0.5 - BIT), 24 / (0.5 - BIT) },
		{ "at 0.5", tarn_drag_coefficient(0.5),
		  48 + 3 / sqrt(0.5) + 0.34 },
		{ "at 1e4", tarn_drag_coefficient(1e4), 24e-4 + 0.03 + 0.34 },
		{ "beyond", tarn_drag_coefficient(1e4 + 1e-6), NONE },
		{ "at rest", tarn_drag_coefficient(0), NONE },
		{ "section", tarn_darcy_section(1, 86400, 0.5), 2 },
		{ "no flow", tarn_darcy_section(0, 1, 1), NONE },
		{ "tight", tarn_darcy_section(1, 0, 1), NONE },
		{ "level", tarn_darcy_section(1, 1, 0), NONE },
		{ "length", tarn_darcy_length(8, 1, 0.5, 1), 2 },
		{ "tight bed", tarn_darcy_length(0, 1, 0.5, 1), NONE },
		{ "dry bed", tarn_darcy_length(8, 0, 0.5, 1), NONE },
		{ "level bed", tarn_darcy_length(8, 1, 0, 1), NONE },
		{ "no loading", tarn_darcy_length(8, 1, 0.5, 0), NONE },
	};

	CHECK_ENDS(rows);
}

/* Spheres of 2650 kg/m3 in water of 20 deg C, by Stokes; what is as heavy as
 * the water does not settle. */
Test(ends_bed, settling)
{
	struct tarn_particle p = tarn_particle_default(), level;
	double v;

	p.diameter_m = 1e-5;
	p.density_kgm3 = 2650;
	v = 9.81 * (2650 - p.water_kgm3) * 1e-10 / (18 * p.viscosity_pas);
	level = p;
	level.density_kgm3 = p.water_kgm3;
	{
		const struct end rows[] = {
			{ "Stokes", tarn_settling_stokes(&p) / v, 1 },
			{ "back", tarn_settling_diameter(&p, v) / 1e-5, 1 },
			{ "no speed", tarn_settling_diameter(&p, 0), NONE },
			{ "as heavy", tarn_settling_stokes(&level), NONE },
			{ "as heavy, any", tarn_settling(&level), NONE },
			{ "as heavy, back", tarn_settling_diameter(&level, v),
			  NONE },
		};

		CHECK_ENDS(rows);
	}
}

Test(ends_bed, troughs_and_sieves)
{
	const double shares[] = { 0.5, 0.5 }, sizes[] = { 0.01, 0.03 };
	const double none[] = { 0.5, 0 };
	const struct end rows[] = {
		/* 1 / (0.5 / 0.01 + 0.5 / 0.03) */
		{ "Sauter", tarn_sieve_diameter(shares, sizes, 2), 0.015 },
		{ "one size", tarn_sieve_diameter(shares, sizes, 1), 0.01 },
		{ "no size", tarn_sieve_diameter(shares, none, 2), NONE },
		{ "no share", tarn_sieve_diameter(none, sizes, 2), NONE },
		{ "nothing", tarn_sieve_diameter(shares, sizes, 0), NONE },
		{ "no flow", tarn_trough_rise_m(0, 0.1, 1, 0.1), 0 },
		{ "back", tarn_trough_rise_m(-BIT, 0.1, 1, 0.1), NONE },
		{ "no width", tarn_trough_rise_m(1e-3, 0, 1, 0.1), NONE },
		{ "shorter", tarn_trough_rise_m(1e-3, 0.1, -BIT, 0.1), NONE },
		{ "no depth", tarn_trough_rise_m(1e-3, 0.1, 1, 0), NONE },
		/* without a length: H - h alone */
		{ "no length", tarn_trough_rise_m(1e-3, 0.1, 0, 0.1),
		  sqrt(0.01 + 2e-3 * 0.1 / (9.81 * 0.1)) - 0.1 },
	};

	CHECK_ENDS(rows);
}
