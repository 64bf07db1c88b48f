/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_LIP_H
#define TARN_FORMULAS_LIP_H

/*
 * lip: the water's way through a bed to a lip that is shorter than its side,
 * and the open trough that gathers it instead.  Part of bed.h, whose first
 * lines give the units and conventions.
 */

#include "tarn/formulas/gravel.h"

#ifdef __cplusplus
extern "C" {
#endif

enum tarn_lip_place {
	TARN_LIP_MIDDLE,	/* of its side */
	TARN_LIP_CORNER		/* at one end of it */
};

struct tarn_lip {
	double width_m;		/* of the bed, along the lip's side */
	double length_m;	/* from that side to the far one */
	double lip_m;		/* width of the lip, at most that of the bed */
	int place;		/* enum tarn_lip_place */
	double layer_m;		/* wet stone that carries the water */
	double flow_m3s;
	int from_far;		/* 0: it comes up everywhere; 1: it enters
				   along the far side */
	struct tarn_resistance stone;	/* gradient a v + b v^2 */
};

/*
 * Level [m] of the place farthest from the lip over that at the lip.  Numbers
 * > 0, flow and resistance >= 0; else NaN, also where the lip is longer than
 * the bed.
 *
 * With B, L, w of width, length and lip, y of the layer, q = Q / (B L):
 *
 *   straight   a q L^2 / (2y) + b q^2 L^3 / (3y^2), as if w were B;
 *              from the far side 1 for 1/2 and for 1/3
 *   a          q / y [(B L / pi) ln(1 / sin(pi w / 2B)) + S], S a sum of
 *              cosines for the far side's being near
 *   b          (q / y)^2 [e^3 / 3 + 0.8 L^2 e (e + s/2) / s],
 *              e = (B - w) / 2, s the lesser of w / 2 and L
 *
 * Where B is over 60 L the sum would need too many terms: a is q / y [e^2 / 2 +
 * (B L / pi) ln(1 + 0.9 L / w)] then, a channel along the side and a bound for
 * the crowding.  The logarithm is the constriction of a half-strip to a slit, by conformal
 * mapping (published as the spreading resistance of an isothermal strip, e.g.
 * Yovanovich & Marotta 2003, Heat Transfer Handbook, ch. 4, from memory).  Of
 * a lip longer than 2 L its middle is left out.  A corner is the middle of a
 * bed and a lip twice as wide.  Beside a solution by finite volumes for B / L
 * of 0.25 to 10 and w / B of 0.1 to 0.8 the linear part is 0 to 9 % high, the
 * quadratic 0 to 45 % (tests/test_bed_lip.c).  Derived; the coefficient 0.8 is
 * fitted to that solution.
 */
TARN_API double tarn_lip_rise_m(const struct tarn_lip *in);

/*
 * An open trough along the lip's side, level, that takes the flow evenly on its
 * way to the lip.
 *
 * Level [m] at its closed end over that at the lip: H - h, with H =
 * sqrt(h^2 + 2 Q^2 / (g b^2 h)) for a depth h at the lip, at least the critical
 * one y_c = (Q^2 / (g b^2))^(1/3), where H = sqrt(3) y_c; and a third of the
 * friction of the whole flow over its length, Manning's n 0.013.
 *
 *   flow_m3s   that comes down one arm       >= 0
 *   width_m, length_m of that arm            > 0, >= 0
 *   depth_m    of the water at the lip       > 0; NaN outside these
 *
 * Source: Davis, Water and Wastewater Engineering, eq. 11-20; the critical end
 * Novak et al., Hydraulic Structures, eq. 4.28-4.29; a third: Christiansen 1942.
 * n: Chow 1959, smooth concrete, from memory.
 */
TARN_API double tarn_trough_rise_m(double flow_m3s, double width_m,
				   double length_m, double depth_m);

#ifdef __cplusplus
}
#endif
#endif
