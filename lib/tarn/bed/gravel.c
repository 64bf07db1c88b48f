/* SPDX-License-Identifier: MIT */
#include <stddef.h>

#include "rows.h"
#include "constants.h"
#include "gravel.h"

#define ERGUN_MAX 2300.0	/* modified Reynolds number */

#define IN struct tarn_gravel
static const struct tarn_field rows[] = {
	TARN_IN_REQUIRED(IN, diameter_m, "diameter", "m", 1e-5, 0.5,
			 "size of the stone"),
	TARN_IN_REQUIRED(IN, porosity, "porosity", "-", 0.05, 0.95,
			 "voids of the bed"),
	TARN_IN_VALUE(IN, sphericity, "sphericity", "-", 0.3, 1, 1,
		      "1 sphere, 0.82 rounded, 0.73 crushed"),
	TARN_IN_VALUE(IN, density_kgm3, "density", "kg/m3", 900, 1100, 998.2,
		      "density of the water"),
	TARN_IN_VALUE(IN, viscosity_pas, "viscosity", "Pa s", 1e-4, 1e-2,
		      1.0016e-3, "viscosity of the water"),
	TARN_IN_VALUE(IN, clogging, "clogging", "-", 1, 1e4, 1,
		      "head loss is so many times the clean one"),
};

TARN_FIELDS(tarn_gravel_fields, "gravel", rows);
TARN_DEFAULT(IN, tarn_gravel_default, tarn_gravel_fields)

const char *const tn_flow_regimes[] = {
	"linear", "transition", "inertial", "beyond Ergun", NULL
};

#define OUT struct tarn_headloss
static const struct tarn_field headloss_rows[] = {
	TARN_OUT_NUMBER(OUT, clean_m, "clean", "m", "head lost when clean"),
	TARN_OUT_NUMBER(OUT, clogged_m, "clogged", "m",
			"head lost when clogged"),
	TARN_OUT_NUMBER(OUT, gradient, "gradient", "-",
			"head lost over the way, clean"),
	TARN_OUT_NUMBER(OUT, reynolds, "reynolds", "-",
			"modified Reynolds number"),
	TARN_OUT_NUMBER(OUT, quadratic_share, "quadratic_share", "-",
			"part of the gradient that Darcy leaves out"),
	TARN_OUT_NUMBER(OUT, pore_velocity_ms, "pore_velocity", "m/s",
			"speed in the voids"),
	TARN_OUT_CHOICE(OUT, regime, "regime", tn_flow_regimes,
			"kind of flow"),
	BED_FLAG_ROWS(OUT),
};

TARN_FIELDS(tarn_headloss_fields, "headloss", headloss_rows);

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
	return (unsigned)r <= TARN_FLOW_BEYOND ? tn_flow_regimes[r]
					       : "unknown";
}

enum tarn_flow_regime tn_flow_regime_of(double reynolds, double porosity)
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
	h.regime = tn_flow_regime_of(h.reynolds, g->porosity);
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
