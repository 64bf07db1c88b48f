/* SPDX-License-Identifier: MIT */
#include "judge.h"

#define AXES struct tarn_tradeoff
static const struct tarn_field axes_rows[] = {
	TARN_IN_AXIS(AXES, area_m2, areas, "areas", "m2", 0, 1e7, 10000,
		     "areas to try"),
	TARN_IN_AXIS(AXES, depth_m, depths, "depths", "m", 0, 1e7, 10000,
		     "depths to try"),
	TARN_IN_AXIS(AXES, flow_m3s, flows, "flows", "m3/s", 0, 1e7, 10000,
		     "flows to try"),
};
TARN_FIELDS(tarn_tradeoff_fields, "tradeoff", axes_rows);

static enum tarn_status check_axis(const char *name, const double values[],
				   size_t count, struct tarn_error *err)
{
	const struct tarn_field *row =
		tarn_fields_find(&tarn_sizing_fields, name);

	if (count == 0)
		return tarn_fail(err, TARN_EARG, name, "has no values to try");
	for (size_t i = 0; i < count; i++)
		if (!(values[i] >= row->lo && values[i] <= row->hi))
			return tarn_fail(err, TARN_EARG, name, "must be %g to "
					 "%g %s, got %g", row->lo, row->hi,
					 row->unit, values[i]);
	return TARN_OK;
}

enum tarn_status tarn_tradeoff(const struct tarn_sizing *base,
			       const struct tarn_tradeoff *axes,
			       struct tarn_bed_check out[],
			       struct tarn_error *err)
{
	struct tarn_sizing s, start = *base;
	struct stone stone;
	enum tarn_status st;

	st = check_axis("area", axes->area_m2, axes->areas, err);
	if (st == TARN_OK)
		st = check_axis("depth", axes->depth_m, axes->depths, err);
	if (st == TARN_OK)
		st = check_axis("flow", axes->flow_m3s, axes->flows, err);
	if (st != TARN_OK)
		return st;
	start.depth_m = axes->depth_m[0];	/* any: it is scaled below */
	st = tn_sizing_prepare(&start, &s, err);
	if (st == TARN_OK)
		st = tn_stone_of(&s, &stone, err);
	if (st != TARN_OK)
		return st;
	for (size_t a = 0; a < axes->areas; a++)
		for (size_t d = 0; d < axes->depths; d++)
			for (size_t f = 0; f < axes->flows; f++) {
				s.area_m2 = axes->area_m2[a];
				s.flow_m3s = axes->flow_m3s[f];
				tn_bed_judge(&s, &stone, axes->depth_m[d] /
					     stone.depth_m, out++);
			}
	return TARN_OK;
}
