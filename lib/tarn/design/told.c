/* SPDX-License-Identifier: MIT */
/* Descriptions that contradict themselves: refused where both cannot be. */
#include <stdarg.h>
#include <stdio.h>

#include "tarn/base/rows.h"
#include "tarn/design/told.h"

static enum tarn_status conflict(struct tarn_error *err, const char *path,
				 const char *format, ...)
{
	char text[200];
	va_list list;

	va_start(list, format);
	vsnprintf(text, sizeof text, format, list);
	va_end(list);
	tn_rows_note(err, TARN_MISTAKE_CONFLICT, NULL);
	return tarn_fail(err, TARN_EARG, path, "%s", text);
}

int tn_told_falls(const struct tarn_works *w, const struct tarn_pond *p,
		  double *below_m)
{
	int from = 0, all = w->falls > 0;

	for (int i = w->falls - 1; i >= 0; i--)
		if (w->fall[i].bed)
			from = i;
	*below_m = 0;
	for (int i = from; i < w->falls; i++) {
		if (isnan(w->fall[i].drop_m))
			all = 0;
		else
			*below_m += w->fall[i].drop_m;
	}
	if (p->stream.slope > 0 && p->stream.length_m > 0)
		*below_m += p->stream.slope * p->stream.length_m;
	return all;
}

static double watts_of(const struct tarn_pump *pump)
{
	return isnan(pump->watts) ? pump->amps * pump->volts : pump->watts;
}

double tn_told_efficiency(const struct tarn_design *d,
			  const struct tarn_resolved *r)
{
	double density = tarn_water(r->works.temp_c).density_kgm3;

	return density * TARN_GRAVITY * r->flow.solved_m3s * r->flow.head_m /
	       watts_of(&d->pond.pump);
}

static enum tarn_status check_pump(const struct tarn_design *d,
				   const struct tarn_resolved *r,
				   struct tarn_error *err)
{
	const struct tarn_pump *p = &d->pond.pump;
	double most_m3s = p->label_flow_m3s * p->count;
	double share = tn_told_efficiency(d, r);

	if (p->watts > p->amps * p->volts * 1.05)
		return conflict(err, "pump.watts", "is %.4g W, but amps and "
				"volts make %.4g W at the most", p->watts,
				p->amps * p->volts);
	if (share > 1)
		return conflict(err, isnan(p->watts) ? "pump.amps"
						     : "pump.watts",
				"is %.4g W, but its flow against its head takes "
				"%.4g W: no pump gives more than it takes",
				watts_of(p), share * watts_of(p));
	if (p->flow_m3s > most_m3s * 1.1)
		return conflict(err, "pump.flow", "is %.3g m3/s, more than "
				"label_flow and count give at no lift, %.3g "
				"m3/s", p->flow_m3s, most_m3s);
	return TARN_OK;
}

static enum tarn_status check_bed(const struct tarn_design *d,
				  const struct tarn_resolved *r,
				  struct tarn_error *err)
{
	const struct tarn_bed_store *bed = &d->pond.bed;
	double room_m3 = r->pond.bed.area_m2 * bed->depth_m, below_m;

	tn_told_falls(&r->works, &r->pond, &below_m);
	if (r->works.falls > 0 && below_m > d->wish.drop_m + TN_TOLD_LEVEL_M)
		return conflict(err, "bed.drop", "is %.4g m, but falls and "
				"stream below the bed's lip fall %.4g m",
				d->wish.drop_m, below_m);
	for (int i = 0; i < d->layers; i++) {
		char path[64];

		if (isnan(d->layer[i].diameter_m) ||
		    !(d->layer[i].porosity > TN_POROSITY_NONE))
			continue;
		snprintf(path, sizeof path, "bed.layers[%d].porosity", i + 1);
		return conflict(err, path, "is %.4g, which leaves no stone of "
				"its diameter: 0.3 to 0.45 is usual; open water "
				"has no diameter", d->layer[i].porosity);
	}
	if (!d->layers && d->wish.cover_m >= bed->depth_m)
		return conflict(err, "bed.cover", "is %.4g m, which leaves no "
				"water in gravel %.4g m deep", d->wish.cover_m,
				bed->depth_m);
	if (room_m3 > 0 && bed->volume_m3 > room_m3)
		return conflict(err, "bed.volume", "is %.4g m3 of water, but "
				"area and depth have room for %.4g m3, stone "
				"and all", bed->volume_m3, room_m3);
	return TARN_OK;
}

enum tarn_status tn_told_check(const struct tarn_design *d,
			       const struct tarn_resolved *r,
			       struct tarn_error *err)
{
	enum tarn_status status = check_pump(d, r, err);

	return status == TARN_OK ? check_bed(d, r, err) : status;
}
