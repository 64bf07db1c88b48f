/* SPDX-License-Identifier: MIT */
#ifndef TARN_TAKEOFF_PROFILE_H
#define TARN_TAKEOFF_PROFILE_H

#include "tarn/takeoff.h"

/* The liner's shape as stations from the edge down; two at one level are the
 * outer and the inner side of a shelf. */
struct profile {
	size_t count;
	struct tarn_station at[TARN_STATIONS_MAX];
};

void tn_profile_of_shape(const struct tarn_shelved *shape, struct profile *out);
void tn_profile_of_basin(const struct tarn_basin *basin, double length_m,
			 double width_m, struct profile *out);

/* Floor, shelves and walls, and the way along the liner across the basin. */
struct surfaces {
	double floor_m2, shelves_m2, walls_m2, along_m, across_m;
};
struct surfaces tn_profile_surfaces(const struct profile *p);

#endif
