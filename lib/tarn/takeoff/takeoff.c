/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/takeoff/parts.h"

#define PI 3.14159265358979323846
#define FT 0.3048
#define TON 907.18474			/* US, 2000 lb */

static double or_zero(double x)
{
	return isnan(x) ? 0 : x;
}

/* ---- earth ------------------------------------------------------------------ */

static double stream_area_m2(const struct tarn_pond *p)
{
	return isnan(p->stream.area_m2) ?
		or_zero(p->stream.length_m * p->stream.width_m) :
		p->stream.area_m2;
}

/* A pit of what is there; NaN where its depth is not said. */
static double pit_m3(int there, double area_m2, double deep_m)
{
	return deep_m == 0 || !there ? 0 : area_m2 * deep_m;
}

static void figure_earth(const struct job *job, struct tarn_takeoff *t)
{
	const struct tarn_build *b = job->build;
	const struct tarn_pond *p = job->pond;
	size_t count;

	t->swell = isnan(b->swell) ? tarn_soils(&count)[b->soil].swell
				   : b->swell;
	t->dig_basin_m3 = tarn_basin_volume(p->basin,
					    tarn_basin_top(p->basin)) /
			  tarn_basin_scale(p->basin);
	t->dig_bed_m3 = pit_m3(job->has_bed, p->bed.area_m2 > 0
			       ? p->bed.area_m2 : TARN_NAN, b->bed_dug_m);
	t->dig_stream_m3 = pit_m3(job->has_stream, stream_area_m2(p),
				  b->stream_dug_m);
	t->dig_m3 = t->dig_basin_m3 + t->dig_bed_m3 + t->dig_stream_m3;
	t->loose_m3 = tarn_loose_m3(t->dig_m3, t->swell);
	t->berm_bank_m3 = b->berm_m3 / (1 - b->shrink);
	t->spoil_m3 = (t->dig_m3 - t->berm_bank_m3) * (1 + t->swell);
}

/* ---- liner ------------------------------------------------------------------ */

static void figure_liner(const struct tarn_build *b, const struct profile *f,
			 struct tarn_takeoff *t)
{
	struct surfaces s = tn_profile_surfaces(f);
	const struct tarn_station *edge = &f->at[0];
	double depth = edge->level_m - f->at[f->count - 1].level_m;
	double o = b->overlap_m;

	t->floor_m2 = s.floor_m2;
	t->shelves_m2 = s.shelves_m2;
	t->walls_m2 = s.walls_m2;
	/* a strip round the shore; its four corners overlap on a real edge */
	t->liner_m2 = s.floor_m2 + s.shelves_m2 + s.walls_m2 +
		      edge->perimeter_m * o;
	t->sheet_length_m = s.along_m + 2 * o;
	t->sheet_width_m = s.across_m + 2 * o;
	t->sheet_m2 = t->sheet_length_m * t->sheet_width_m;
	t->rule_length_m = tarn_liner_rule_m(edge->length_m, depth, 2 * o);
	t->rule_width_m = tarn_liner_rule_m(edge->width_m, depth, 2 * o);
	t->rule_m2 = t->rule_length_m * t->rule_width_m;
}

/* ---- stone ------------------------------------------------------------------- */

/* Two rules in circulation, no source: light, heavy. */
static void figure_stone(const struct tarn_build *b, const struct tarn_pond *p,
			 const struct profile *f, struct tarn_takeoff *t)
{
	static const double divisor[2] = { 65, 40 }, gravel[2] = { 0.45, 0.25 };
	static const double stream_stone[2] = { 0.75, 1.5 };
	static const double stream_gravel[2] = { 0.5, 0 };
	double lw_ft2 = f->at[0].length_m * f->at[0].width_m / (FT * FT);
	double tens_of_ft = or_zero(p->stream.length_m) / (10 * FT);

	for (int k = 0; k < 2; k++) {
		t->rule_stone_kg[k] = lw_ft2 / divisor[k] * TON;
		t->rule_gravel_kg[k] = t->rule_stone_kg[k] * gravel[k];
		t->stream_stone_kg[k] = tens_of_ft * stream_stone[k] * TON;
		t->stream_gravel_kg[k] = tens_of_ft * stream_gravel[k] * TON;
	}
	t->stone_kg = t->walls_m2 * b->wall_stone_m * (1 - b->voids) *
		      b->stone_kgm3;
	t->gravel_kg = (t->floor_m2 + t->shelves_m2) * b->floor_gravel_m *
		       b->gravel_kgm3;
}

static void figure_water(const struct tarn_build *b, const struct tarn_pond *p,
			 struct tarn_takeoff *t)
{
	double kg = t->stone_kg + t->gravel_kg;

	t->displaced_by = 0;
	if (!(kg > 0)) {
		t->displaced_by = 1 + b->rule;
		kg = t->rule_stone_kg[b->rule] + t->rule_gravel_kg[b->rule];
	}
	t->displaced_m3 = kg / b->stone_kgm3;
	t->water_m3 = tarn_basin_volume(p->basin, p->overflow_level_m);
	/* stone that nobody described is a guess for the order, not less
	   water */
	if (t->displaced_by == 0)
		t->water_m3 -= t->displaced_m3;
}

static enum tarn_status find_profile(const struct tarn_build *b,
				     const struct tarn_pond *p,
				     const struct tarn_shelved *shape,
				     struct profile *out,
				     struct tarn_error *err)
{
	if (shape) {
		tn_profile_of_shape(shape, out);
		return TARN_OK;
	}
	if (isnan(b->length_m) || isnan(b->width_m))
		return tarn_fail(err, TARN_EARG, "build.length", "and "
				 "build.width at the edge are missing: a basin "
				 "given by areas does not tell them");
	tn_profile_of_basin(p->basin, b->length_m, b->width_m, out);
	return TARN_OK;
}

/* The bed has sides, an area or layers; the stream a size. */
static struct job job_of(const struct tarn_build *b, const struct tarn_pond *p,
			 const struct tarn_takeoff_bed *bed)
{
	return (struct job){
		.build = b, .pond = p, .bed = bed,
		.has_bed = p->bed.area_m2 > 0 || bed->layers > 0 ||
			   !isnan(bed->length_m * bed->width_m),
		.has_stream = stream_area_m2(p) > 0 ||
			      or_zero(p->stream.length_m) > 0,
		.bed_deep_m = TARN_NAN,
	};
}

static enum tarn_status check(const struct tarn_build *b,
			      const struct tarn_pond *p,
			      struct tarn_error *err)
{
	enum tarn_status status = tarn_fields_check(&tarn_build_fields, b, err);
	double roll_m = fmin(b->liner_roll_m, b->underlay_roll_m);

	if (status == TARN_OK && b->seam_m >= roll_m)
		return tarn_fail(err, TARN_EARG, "build.seam", "of %g m takes "
				 "all of a roll of %g m", b->seam_m, roll_m);
	return status == TARN_OK ? tarn_pond_check(p, err) : status;
}

static enum tarn_status figure(struct job *job, const struct profile *f,
			       struct tarn_takeoff *t, struct tarn_error *err)
{
	enum tarn_status status;

	figure_earth(job, t);
	figure_liner(job->build, f, t);
	figure_stone(job->build, job->pond, f, t);
	figure_water(job->build, job->pond, t);
	status = tn_takeoff_bed(job, t, err);
	if (status == TARN_OK && !(t->water_m3 > 0))
		return tarn_fail(err, TARN_EARG, "build", "puts %.3g m3 of "
				 "solid stone into a pond of %.3g m3: check the "
				 "thicknesses (an inch is not a foot)",
				 t->displaced_m3,
				 t->water_m3 + t->displaced_m3);
	return status;
}

enum tarn_status tarn_takeoff_solve(const struct tarn_build *b,
				    const struct tarn_pond *p,
				    const struct tarn_shelved *shape,
				    const struct tarn_takeoff_bed *bed,
				    struct tarn_takeoff *out,
				    struct tarn_error *err)
{
	static const struct tarn_takeoff_bed none = {
		.length_m = TARN_NAN, .width_m = TARN_NAN,
		.diameter_m = TARN_NAN,
	};
	struct tarn_takeoff t = { 0 };
	struct profile f;
	enum tarn_status status = check(b, p, err);
	struct job job = job_of(b, p, bed ? bed : &none);

	if (status == TARN_OK)
		status = find_profile(b, p, shape, &f, err);
	if (status == TARN_OK)
		status = figure(&job, &f, &t, err);
	if (status != TARN_OK)
		return status;
	tn_takeoff_list(&job, &t);
	tn_takeoff_list_bed(&job, &t);
	tn_takeoff_totals(&t);
	*out = t;
	return TARN_OK;
}

enum tarn_status tarn_takeoff_profile(const struct tarn_build *b,
				      const struct tarn_pond *p,
				      const struct tarn_shelved *shape,
				      struct tarn_station *out, size_t *count,
				      struct tarn_error *err)
{
	struct tarn_build round = *b;
	double edge_m2 = tarn_basin_area(p->basin, tarn_basin_top(p->basin));
	struct profile f;
	enum tarn_status status = tarn_fields_check(&tarn_build_fields, b, err);

	if (isnan(round.length_m) || isnan(round.width_m))
		round.length_m = round.width_m = sqrt(edge_m2 / PI) * 2;
	if (status == TARN_OK)
		status = find_profile(&round, p, shape, &f, err);
	if (status != TARN_OK)
		return status;
	for (size_t i = 0; i < f.count; i++)
		out[i] = f.at[i];
	*count = f.count;
	return TARN_OK;
}
