/* SPDX-License-Identifier: MIT */
#include <stddef.h>

#include "tarn/bed.h"
#include "constants.h"

#define ERGUN_MAX 2300.0	/* modified Reynolds number */

#define GRAVEL(name, member, lo, hi, unit, meaning)                      \
	{ name, TARN_FIELD_NUMBER, offsetof(struct tarn_gravel, member), \
	  lo, hi, 1, unit, NULL, meaning }

static const struct tarn_field rows[] = {
	GRAVEL("diameter", diameter_m, 1e-5, 0.5, "m", "size of the stone"),
	GRAVEL("porosity", porosity, 0.05, 0.95, "-", "voids of the bed"),
	GRAVEL("sphericity", sphericity, 0.3, 1, "-",
	       "1 sphere, 0.82 rounded, 0.73 crushed"),
	GRAVEL("density", density_kgm3, 900, 1100, "kg/m3",
	       "density of the water"),
	GRAVEL("viscosity", viscosity_pas, 1e-4, 1e-2, "Pa s",
	       "viscosity of the water"),
	GRAVEL("clogging", clogging, 1, 1e4, "-",
	       "head loss is so many times the clean one"),
};

const struct tarn_fields tarn_gravel_fields = {
	"gravel", rows, sizeof rows / sizeof rows[0]
};

struct tarn_gravel tarn_gravel_default(void)
{
	return (struct tarn_gravel){
		.diameter_m = TARN_NAN, .porosity = TARN_NAN,
		.sphericity = 1, .density_kgm3 = 998.2,
		.viscosity_pas = 1.0016e-3, .clogging = 1,
	};
}

static int good(const struct tarn_gravel *g)
{
	return tarn_fields_check(&tarn_gravel_fields, g, NULL) == TARN_OK;
}

struct tarn_resistance tarn_gravel_resistance(const struct tarn_gravel *g)
{
	struct tarn_resistance r = { TARN_NAN, TARN_NAN };
	double d = g->sphericity * g->diameter_m, n = g->porosity;
	double n3 = n * n * n, solid = 1 - n;

	if (!good(g))
		return r;
	r.linear = g->clogging * 150 * g->viscosity_pas * solid * solid /
		   (g->density_kgm3 * GRAVITY * n3 * d * d);
	r.quadratic = g->clogging * 1.75 * solid / (GRAVITY * n3 * d);
	return r;
}

struct tarn_resistance tarn_forchheimer(double diameter_m, double porosity)
{
	struct tarn_resistance r = { TARN_NAN, TARN_NAN };

	if (!(diameter_m > 0) || !(porosity > 0 && porosity < 1))
		return r;
	r.linear = 0.003333 * pow(diameter_m, -1.500403) *
		   pow(porosity, 0.060350);
	r.quadratic = 0.194325 * pow(diameter_m, -1.265175) *
		      pow(porosity, -1.141417);
	return r;
}

double tarn_resistance_gradient(struct tarn_resistance r, double velocity_ms)
{
	if (!(velocity_ms >= 0))
		return TARN_NAN;
	return (r.linear + r.quadratic * velocity_ms) * velocity_ms;
}

double tarn_resistance_velocity(struct tarn_resistance r, double gradient)
{
	if (!(gradient >= 0))
		return TARN_NAN;
	/* the form that does not cancel where the linear part rules */
	return 2 * gradient /
	       (r.linear + sqrt(r.linear * r.linear +
				4 * r.quadratic * gradient));
}

double tarn_packing_friction(enum tarn_packing_law law, double reynolds_m)
{
	if (!(reynolds_m > 0))
		return TARN_NAN;
	switch (law) {
	case TARN_LAW_ERGUN:
		return 150 / reynolds_m + 1.75;
	case TARN_LAW_CARMAN:
		return 180 / reynolds_m + 2.871 / pow(reynolds_m, 0.1);
	case TARN_LAW_TALLMADGE:
		return 150 / reynolds_m + 4.2 / pow(reynolds_m, 1.0 / 6);
	case TARN_LAW_JONES_KRIER:
		return (150 + 3.89 * pow(reynolds_m, 0.87)) / reynolds_m;
	}
	return TARN_NAN;
}

double tarn_packing_pressure(enum tarn_packing_law law,
			     const struct tarn_gravel *g, double velocity_ms)
{
	double d = g->sphericity * g->diameter_m, n = g->porosity;
	double re_m = g->density_kgm3 * velocity_ms * d /
		      (g->viscosity_pas * (1 - n));

	if (!good(g) || !(velocity_ms > 0))
		return TARN_NAN;
	return tarn_packing_friction(law, re_m) * g->density_kgm3 *
	       velocity_ms * velocity_ms * (1 - n) / (n * n * n * d);
}

double tarn_gravel_conductivity(const struct tarn_gravel *g, double constant)
{
	double d = g->sphericity * g->diameter_m, n = g->porosity;

	if (!good(g) || !(constant > 0))
		return TARN_NAN;
	return g->density_kgm3 * GRAVITY * d * d * n * n * n /
	       (constant * g->viscosity_pas * (1 - n) * (1 - n)) /
	       g->clogging * DAY;
}

double tarn_gravel_surface(const struct tarn_gravel *g)
{
	if (!good(g))
		return TARN_NAN;
	return 6 * (1 - g->porosity) / (g->sphericity * g->diameter_m);
}

double tarn_gravel_reynolds(const struct tarn_gravel *g, double velocity_ms)
{
	if (!good(g) || !(velocity_ms >= 0))
		return TARN_NAN;
	return g->density_kgm3 * velocity_ms * g->diameter_m /
	       g->viscosity_pas;
}

double tarn_pore_velocity(double velocity_ms, double porosity)
{
	if (!(velocity_ms >= 0) || !(porosity > 0 && porosity <= 1))
		return TARN_NAN;
	return velocity_ms / porosity;
}

const char *tarn_flow_regime_name(enum tarn_flow_regime r)
{
	static const char *const names[] = {
		"linear", "transition", "inertial", "beyond Ergun",
	};

	return (unsigned)r <= TARN_FLOW_BEYOND ? names[r] : "unknown";
}

enum tarn_flow_regime tarn_flow_regime_of(double reynolds, double porosity)
{
	if (reynolds / (1 - porosity) > ERGUN_MAX)
		return TARN_FLOW_BEYOND;
	if (reynolds > 10)
		return TARN_FLOW_INERTIAL;
	return reynolds < 1 ? TARN_FLOW_LINEAR : TARN_FLOW_TRANSITION;
}

enum tarn_status tarn_gravel_headloss(const struct tarn_gravel *g,
				      double velocity_ms, double depth_m,
				      struct tarn_headloss *out,
				      struct tarn_error *err)
{
	struct tarn_headloss h = { 0 };
	struct tarn_gravel clean = *g;
	struct tarn_resistance r;
	enum tarn_status st = tarn_fields_check(&tarn_gravel_fields, g, err);

	if (st != TARN_OK)
		return st;
	if (!(velocity_ms >= 0 && velocity_ms <= 10))
		return tarn_fail(err, TARN_EARG, "gravel.velocity", "must be "
				 "0 to 10 m/s, got %g", velocity_ms);
	if (!(depth_m >= 0 && depth_m <= 1000))
		return tarn_fail(err, TARN_EARG, "gravel.depth", "must be 0 to "
				 "1000 m, got %g", depth_m);
	clean.clogging = 1;
	r = tarn_gravel_resistance(&clean);
	h.gradient = tarn_resistance_gradient(r, velocity_ms);
	h.clean_m = h.gradient * depth_m;
	h.clogged_m = h.clean_m * g->clogging;
	h.reynolds = tarn_gravel_reynolds(g, velocity_ms);
	h.quadratic_share = r.quadratic * velocity_ms /
			    (r.linear + r.quadratic * velocity_ms);
	h.pore_velocity_ms = velocity_ms / g->porosity;
	h.regime = tarn_flow_regime_of(h.reynolds, g->porosity);
	if (h.regime != TARN_FLOW_LINEAR)
		h.flags |= TARN_BED_NO_DARCY;
	if (h.regime == TARN_FLOW_BEYOND)
		h.flags |= TARN_BED_BEYOND_ERGUN;
	*out = h;
	return TARN_OK;
}

double tarn_darcy_section(double flow_m3s, double conductivity_m_d,
			  double gradient)
{
	if (!(flow_m3s > 0) || !(conductivity_m_d > 0) || !(gradient > 0))
		return TARN_NAN;
	return flow_m3s * DAY / (conductivity_m_d * gradient);
}

double tarn_darcy_length(double conductivity_m_d, double depth_m,
			 double drop_m, double loading_m_d)
{
	if (!(conductivity_m_d > 0) || !(depth_m > 0) || !(drop_m > 0) ||
	    !(loading_m_d > 0))
		return TARN_NAN;
	return sqrt(conductivity_m_d * depth_m * drop_m / loading_m_d);
}

double tarn_lateral_rise(struct tarn_resistance r, double loading_m_d,
			 double length_m, double depth_m)
{
	double q = loading_m_d / DAY, l = length_m, y = depth_m;

	if (!(q >= 0) || !(l >= 0) || !(y > 0))
		return TARN_NAN;
	return r.linear * q * l * l / (2 * y) +
	       r.quadratic * q * q * l * l * l / (3 * y * y);
}
