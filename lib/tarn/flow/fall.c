/* SPDX-License-Identifier: MIT */
#include "internal.h"

/* US gal per hour per inch of lip, in m2/s. */
#define GPH_PER_INCH (3.785411784e-3 / 3600 / 0.0254)

double tn_fall_throw_m(double velocity_ms, double drop_m)
{
	if (!(velocity_ms >= 0 && drop_m >= 0))
		return TARN_NAN;
	return velocity_ms * sqrt(2 * drop_m / TARN_GRAVITY);
}

int tn_fall_look(double flow_per_width_m2s)
{
	if (!(flow_per_width_m2s >= 0))
		return -1;
	if (flow_per_width_m2s < 75 * GPH_PER_INCH)
		return TARN_LOOK_FILM;
	return flow_per_width_m2s < 150 * GPH_PER_INCH ? TARN_LOOK_SHEET
						       : TARN_LOOK_HEAVY;
}
