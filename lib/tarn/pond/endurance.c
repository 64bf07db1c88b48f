/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/pond/step.h"

enum tarn_status tarn_pond_endurance(const struct tarn_pond *pond,
				     const struct tarn_forcing *forcing,
				     const struct tarn_run *run, double level_m,
				     long *days_out, struct tarn_error *err)
{
	const struct tarn_run plain = tarn_run_default();
	struct step_pond p;
	double start_m;
	enum tarn_status status = tn_step_prepare(&p, pond, err);

	run = run ? run : &plain;
	if (status == TARN_OK)
		status = tarn_forcing_check(forcing, err);
	if (status == TARN_OK)
		status = tn_step_start(pond, run, &start_m, err);
	if (status != TARN_OK)
		return status;
	if (!(level_m >= tarn_basin_floor(pond->basin) && level_m < start_m))
		return tarn_fail(err, TARN_EARG, "level", "must lie between the "
				 "floor and the start at %g m, got %g m",
				 start_m, level_m);
	for (size_t from = 0; from < forcing->days; from++) {
		struct step_state s;

		tn_step_begin(&p, run, start_m, &s);
		days_out[from] = step_left_out(forcing, from)
			? TARN_ENDURANCE_LEFT_OUT : -1;
		for (size_t i = from; i < forcing->days &&
		     i - from < TARN_ENDURANCE_DAYS &&
		     !step_left_out(forcing, i); i++) {
			struct tarn_ledger_day out;
			struct step_day d;

			tn_step_order(&p, forcing, i, &d);
			d.topup_m3 = 0;
			d.supply_open = d.tank_open = 0;
			tn_step_take(&p, &d, &s, &out);
			if (out.level_m < level_m) {
				days_out[from] = (long)(i - from) + 1;
				break;
			}
		}
	}
	return TARN_OK;
}
