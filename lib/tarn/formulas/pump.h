/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_PUMP_H
#define TARN_FORMULAS_PUMP_H

/*
 * pump: curves of pumps, power and cost.  Part of flow.h, whose first lines
 * give the units and conventions.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * A pump, or several equal ones side by side.
 *
 * Either a curve: 'points' pairs of flow and head, flow rising, head falling
 * all along, joined by a monotone cubic (Fritsch & Carlson 1980, SIAM J.
 * Numer. Anal. 17:238, with the slopes of Fritsch & Butland 1984); it never
 * overshoots its points and is not continued beyond them.
 *
 * Or, with points = 0, the two numbers of a label: max_head at no flow and
 * label_flow at no head, joined by max_head (1 - (Q/label_flow)^2).  A guess
 * from a label, exact for a curve of the form a - b Q^2.
 *
 * Label flow is the flow at zero head, which no pond has.
 */
struct tarn_pump_curve {
	const double *flow_m3s;		/* [points], borrowed */
	const double *head_m;		/* [points], borrowed */
	size_t points;
	double max_head_m;		/* where points is 0 */
	double label_flow_m3s;		/* likewise; else optional, for
					   share_of_label only */
	double speed;			/* of the speed of the curve, default 1;
					   affinity: Q ~ n, H ~ n^2 */
	double count;			/* equal pumps in parallel, default 1 */
};
TARN_API struct tarn_pump_curve tarn_pump_curve_default(void);
TARN_API extern const struct tarn_fields tarn_pump_curve_fields;

/* Errors: TARN_EARG: neither or both forms; a curve that does not fall (a
 * humped curve has two flows at one head: leave out the points left of its
 * highest); fewer than 2 points. */
TARN_API enum tarn_status
tarn_pump_curve_check(const struct tarn_pump_curve *pump,
		      struct tarn_error *err);

/* Head at a flow and flow at a head, of all 'count' pumps together; NaN
 * beyond the curve.  The pump must have passed tarn_pump_curve_check. */
TARN_API double tarn_pump_head_m(const struct tarn_pump_curve *pump,
				 double flow_m3s);
TARN_API double tarn_pump_flow_m3s(const struct tarn_pump_curve *pump,
				   double head_m);

/*
 * Least squares of head = max_head - drop * flow^2 through points.
 * Errors: TARN_EARG (fewer than 2 different flows; does not fall).
 */
TARN_API enum tarn_status
tarn_pump_curve_fit(const double *flow_m3s, const double *head_m,
		    size_t points, double *max_head_m, double *drop_s2m5,
		    struct tarn_error *err);

/* Affinity: at 'speed' times its speed a pump gives flow * speed, head *
 * speed^2 and takes power * speed^3; same impeller, efficiency unchanged,
 * which small pumps do not keep quite.  speed > 0, all NaN otherwise. */
struct tarn_affinity {
	double flow_m3s, head_m, power_w;
};
TARN_API extern const struct tarn_fields tarn_affinity_fields;
TARN_API struct tarn_affinity tarn_affinity(double flow_m3s, double head_m,
					    double power_w, double speed);

/* Power into the water of a flow against a head: density g Q H   [W]; none
 * negative, else NaN.  Divide by efficiencies for shaft and wire. */
TARN_API double tarn_pump_water_w(double flow_m3s, double head_m,
				  double density_kgm3);

/*
 * What the plug draws and costs.  Give one of watts; amps and volts; flow
 * with head and efficiency (wire to water).
 *
 * amps * volts is what can be read off a label; with no power_factor given
 * it is taken as 1, and the result is an upper bound.
 */
struct tarn_running_cost {
	double watts;
	double amps, volts, power_factor;	/* power factor default 1 */
	double flow_m3s, head_m, efficiency;	/* efficiency 0 .. 1 */
	double temp_c;				/* default 15 */
	double hours_per_day;			/* default 24 */
	double days_per_year;			/* default 365 */
	double price_per_kwh;			/* in any money */
};
TARN_API struct tarn_running_cost tarn_running_cost_default(void);
TARN_API extern const struct tarn_fields tarn_running_cost_fields;

struct tarn_running_cost_flow {
	double power_w;			/* at the plug */
	double water_w;			/* into the water, if flow and head */
	double efficiency;		/* wire to water, if both are known */
	double kwh_day, kwh_year;
	double cost_day, cost_year;	/* NaN without a price */
};
TARN_API extern const struct tarn_fields tarn_running_cost_flow_fields;
TARN_API enum tarn_status
tarn_running_cost_solve(const struct tarn_running_cost *cost,
			struct tarn_running_cost_flow *out,
			struct tarn_error *err);

#ifdef __cplusplus
}
#endif
#endif
