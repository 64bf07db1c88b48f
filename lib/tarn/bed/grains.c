/* SPDX-License-Identifier: MIT */
/* Single grains: graded stone, drag and settling. */
#include <stddef.h>

#include "tarn/bed.h"
#include "constants.h"

double tarn_sieve_diameter(const double share[], const double diameter_m[],
			   size_t count)
{
	double sum = 0, over = 0;

	for (size_t i = 0; i < count; i++) {
		if (!(share[i] > 0) || !(diameter_m[i] > 0))
			return TARN_NAN;
		sum += share[i];
		over += share[i] / diameter_m[i];
	}
	return count > 0 ? sum / over : TARN_NAN;
}

double tarn_drag_coefficient(double reynolds)
{
	if (!(reynolds > 0 && reynolds <= 1e4))
		return TARN_NAN;
	if (reynolds < 0.5)
		return 24 / reynolds;
	return 24 / reynolds + 3 / sqrt(reynolds) + 0.34;
}

double tarn_rose_headloss(const struct tarn_gravel *g, const double share[],
			  const double diameter_m[], size_t count,
			  double velocity_ms, double depth_m)
{
	double nu = g->viscosity_pas / g->density_kgm3, n = g->porosity;
	double sum = 0;

	for (size_t i = 0; i < count; i++) {
		double re = g->sphericity * diameter_m[i] * velocity_ms / nu;

		if (!(share[i] > 0))
			return TARN_NAN;
		sum += tarn_drag_coefficient(re) * share[i] / diameter_m[i];
	}
	if (!(n > 0 && n < 1) || !(depth_m >= 0) || count == 0)
		return TARN_NAN;
	return 1.067 * velocity_ms * velocity_ms * depth_m * sum /
	       (g->sphericity * GRAVITY * n * n * n * n);
}

#define IN struct tarn_particle
static const struct tarn_field rows[] = {
	TARN_IN_REQUIRED(IN, diameter_m, "diameter", "m", 1e-7, 0.5,
			 "size of the particle"),
	TARN_IN_VALUE(IN, density_kgm3, "density", "kg/m3", 900, 8000, 2650,
		      "density of the particle"),
	TARN_IN_VALUE(IN, water_kgm3, "water_density", "kg/m3", 900, 1100,
		      998.2, "density of the water"),
	TARN_IN_VALUE(IN, viscosity_pas, "viscosity", "Pa s", 1e-4, 1e-2,
		      1.0016e-3, "viscosity of the water"),
	TARN_IN_VALUE(IN, shape, "shape", "-", 0.2, 2, 1,
		      "1 natural sand, 0.4 smooth spheres"),
};

TARN_FIELDS(tarn_particle_fields, "particle", rows);
TARN_DEFAULT(IN, tarn_particle_default, tarn_particle_fields)

static int sinks(const struct tarn_particle *p)
{
	return tarn_fields_check(&tarn_particle_fields, p, NULL) == TARN_OK &&
	       p->density_kgm3 > p->water_kgm3;
}

double tarn_settling_stokes(const struct tarn_particle *p)
{
	if (!sinks(p))
		return TARN_NAN;
	return GRAVITY * (p->density_kgm3 - p->water_kgm3) * p->diameter_m *
	       p->diameter_m / (18 * p->viscosity_pas);
}

double tarn_settling(const struct tarn_particle *p)
{
	double nu = p->viscosity_pas / p->water_kgm3, d = p->diameter_m;
	double excess = (p->density_kgm3 / p->water_kgm3 - 1) * GRAVITY;

	if (!sinks(p))
		return TARN_NAN;
	return excess * d * d /
	       (18 * nu + sqrt(0.75 * p->shape * excess * d * d * d));
}

double tarn_settling_diameter(const struct tarn_particle *p,
			      double velocity_ms)
{
	double excess = p->density_kgm3 - p->water_kgm3;

	if (!(excess > 0) || !(velocity_ms > 0) || !(p->viscosity_pas > 0))
		return TARN_NAN;
	return sqrt(18 * p->viscosity_pas * velocity_ms / (GRAVITY * excess));
}
