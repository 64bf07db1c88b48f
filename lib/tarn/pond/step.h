/* SPDX-License-Identifier: MIT */
#ifndef TARN_POND_STEP_H
#define TARN_POND_STEP_H

#include "tarn/pond/basin.h"

/*
 * One day of the ledger.  The only place where its physics stands; the state
 * is volumes, so that a day costs one square root and no search.
 */

/* A description worked out once for a run. */
struct step_pond {
	const struct tarn_pond *pond;
	const struct tarn_basin *basin;
	double lip_m3, trigger_m3, target_m3;	/* trigger -1: no top-up */
	double floor_m, intake_m;		/* intake -1: none */
	double collecting_m2, bed_m2, bed_m3, transit_m3;
	double stream_m2;	/* wetted area x factor, at 24 h */
	double splash_m3d, seepage_m3d, supply_m3d;
};

struct step_state {
	double pond_m3, bed_m3, transit_m3, tank_m3;
	double level_m;
	size_t segment;		/* of the basin, where the volume was last */
};

/* A day's weather and orders. */
struct step_day {
	double rain_mm, runoff_mm, open_water_mm, bed_mm;
	double pump_share;	/* hours / 24 */
	double withdrawal_m3;
	double topup_m3;	/* NaN: by trigger and target */
	int supply_open, tank_open;
};

/* Works out 'out' from a checked pond. */
void step_prepare(struct step_pond *out, const struct tarn_pond *pond);

/* State on the first morning. */
void step_begin(const struct step_pond *p, const struct tarn_run *run,
		double level_m, struct step_state *s);

/* Weather and the description's orders of a day. */
void step_order(const struct step_pond *p, const struct tarn_forcing *forcing,
		size_t at, struct step_day *d);

/* Takes the state through a day; adds to nothing, fills 'out' but for its
 * weather. */
void step_take(const struct step_pond *p, const struct step_day *d,
	       struct step_state *s, struct tarn_ledger_day *out);

#endif
