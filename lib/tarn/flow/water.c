/* SPDX-License-Identifier: MIT */
#include "internal.h"

#define OUT struct tarn_water
static const struct tarn_field water_rows[] = {
	TARN_OUT_NUMBER(OUT, density_kgm3, "density", "kg/m3", "density"),
	TARN_OUT_NUMBER(OUT, viscosity_pas, "viscosity", "Pa s",
			"dynamic viscosity"),
	TARN_OUT_NUMBER(OUT, kinematic_m2s, "kinematic", "m2/s",
			"kinematic viscosity"),
	TARN_OUT_NUMBER(OUT, vapour_pressure_kpa, "vapour_pressure", "kPa",
			"vapour pressure, absolute"),
};
TARN_FIELDS(tarn_water_fields, "water", water_rows);

/* Kell (1975), eq. 16, air-free water at one atmosphere, 0 .. 150 deg C. */
static double density(double t)
{
	double top = 999.83952 +
		t * (16.945176 +
		t * (-7.9870401e-3 +
		t * (-46.170461e-6 +
		t * (105.56302e-9 +
		t * -280.54253e-12))));

	return top / (1 + 16.879850e-3 * t);
}

/* IAPWS SR6-08(2011), eq. 7 and table 5, 253.15 .. 383.15 K. */
static double viscosity(double t)
{
	double r = (t + 273.15) / 300;

	return 1e-6 * (280.68 * pow(r, -1.9) + 511.45 * pow(r, -7.7) +
		       61.131 * pow(r, -19.6) + 0.45903 * pow(r, -40.0));
}

/* Wagner & Pruss (1993), eq. 1; critical point of IAPWS. */
static double vapour_pressure(double t)
{
	const double critical_k = 647.096, critical_kpa = 22064;
	double ratio = critical_k / (t + 273.15), x = 1 - 1 / ratio;

	return critical_kpa * exp(ratio *
		(-7.85951783 * x + 1.84408259 * pow(x, 1.5) -
		 11.7866497 * pow(x, 3) + 22.6807411 * pow(x, 3.5) -
		 15.9618719 * pow(x, 4) + 1.80122502 * pow(x, 7.5)));
}

struct tarn_water tarn_water(double temp_c)
{
	struct tarn_water w = { TARN_NAN, TARN_NAN, TARN_NAN, TARN_NAN };

	if (!(temp_c >= TARN_WATER_TEMP_MIN && temp_c <= TARN_WATER_TEMP_MAX))
		return w;
	w.density_kgm3 = density(temp_c);
	w.viscosity_pas = viscosity(temp_c);
	w.kinematic_m2s = w.viscosity_pas / w.density_kgm3;
	w.vapour_pressure_kpa = vapour_pressure(temp_c);
	return w;
}

double tarn_npsh_available_m(double pressure_kpa, double temp_c, double lift_m,
			     double loss_m)
{
	struct tarn_water w = tarn_water(temp_c);

	if (!(pressure_kpa > 0) || !(loss_m >= 0))
		return TARN_NAN;
	return 1000 * (pressure_kpa - w.vapour_pressure_kpa) /
		       (w.density_kgm3 * TARN_GRAVITY) - lift_m - loss_m;
}
