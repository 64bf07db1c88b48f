/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "tarn/design.h"

/* What a description says twice: refused where both cannot be, a doubt where
 * they do not go together. */

#define COUNT(a) (sizeof(a) / sizeof((a)[0]))

struct set {
	const char *path;
	double value;
};

static void put(struct tarn_design *d, const char *path, double value)
{
	struct tarn_error err = { 0 };
	int is_switch = strcmp(path, "falls[1].bed") == 0 ||
			strcmp(path, "pump.check_valve") == 0;
	enum tarn_status status =
		is_switch ? tarn_design_set_text(d, path, value > 0 ? "true"
						 : "false", &err)
		: strcmp(path, "pipes[1].size") == 0
		? tarn_design_set_text(d, path, "2", &err)
		: tarn_design_set(d, path, value, &err);

	cr_assert(status == TARN_OK, "%s: %s", path, err.text);
}

/* 20 m2 upright, 22 m3 at the lip; a bed of 2 m2 with 0.6 m of stone, of which
 * 0.5 are under water: 0.4 m3 at a porosity of 0.4. */
static struct tarn_design *plain(void)
{
	static const struct set sets[] = {
		{ "basin.length", 5 }, { "basin.width", 4 },
		{ "basin.depth", 1.2 }, { "overflow_level", 1.1 }, { "target", 1.05 },
		{ "trigger", 1 }, { "intake", 0.5 }, { "bed.length", 2 },
		{ "bed.width", 1 }, { "bed.layers[1].thickness", 0.6 },
		{ "bed.layers[1].diameter", 0.02 },
		{ "bed.layers[1].porosity", 0.4 }, { "bed.cover", 0.1 },
	};
	struct tarn_design *d = tarn_design_new(NULL);

	for (size_t i = 0; i < COUNT(sets); i++)
		put(d, sets[i].path, sets[i].value);
	return d;
}

static struct tarn_finding worst_of(const struct tarn_design *d, int id)
{
	static struct tarn_findings list;
	struct tarn_finding worst = { .id = id, .verdict = -1 };
	struct tarn_resolved made;
	struct tarn_error err = { 0 };

	list = (struct tarn_findings){ 0 };
	cr_assert(tarn_design_resolve(d, &made, &err) == TARN_OK, "%s %s",
		  err.field, err.text);
	tarn_design_judge(d, &made, &list);
	for (int i = 0; i < list.count; i++)
		if (list.finding[i].id == id &&
		    list.finding[i].verdict > worst.verdict)
			worst = list.finding[i];
	tarn_resolved_free(&made);
	return worst;
}

static int verdict(const struct tarn_design *d, int id, const char **path)
{
	static struct tarn_finding f;

	f = worst_of(d, id);
	*path = f.path;
	return f.verdict;
}

/* The field that a doubt names: of a second pipe the second's, of what stands
 * once no number. */
Test(told, whose_field_it_is)
{
	struct tarn_design *d = plain();
	const char *at;

	put(d, "bed.drop", 0.6);
	for (int i = 1; i <= 2; i++) {
		char path[40];

		snprintf(path, sizeof path, "pipes[%d].length", i);
		put(d, path, 5);
		snprintf(path, sizeof path, "pipes[%d].lift", i);
		put(d, path, i == 1 ? 0.6 : 0.4);
		snprintf(path, sizeof path, "pipes[%d].diameter", i);
		put(d, path, i == 1 ? 0.0525 : 0.0254);
		snprintf(path, sizeof path, "pipes[%d].size", i);
		cr_assert(tarn_design_set_text(d, path, "2", NULL) == TARN_OK);
	}
	cr_expect(verdict(d, TARN_TOLD_LIFT, &at) == TARN_VERDICT_DOUBT);
	cr_expect_str_eq(at, "pipes[2]");
	cr_expect(verdict(d, TARN_TOLD_DIAMETER, &at) == TARN_VERDICT_DOUBT);
	cr_expect_str_eq(at, "pipes[2]");
	put(d, "pipes[1].lift", 0.4);
	put(d, "pipes[2].lift", 0.6);
	cr_expect(verdict(d, TARN_TOLD_LIFT, &at) == TARN_VERDICT_DOUBT);
	cr_expect_str_eq(at, "pipes[1]");
	tarn_design_free(d);
}

static int same(double a, double b)
{
	return isnan(a) ? isnan(b) : fabs(a - b) <= 1e-9 * fmax(1e-3, fabs(b));
}

/* One comparison: a value of a field that goes with what else is said, and one
 * that does not. */
static const struct pair {
	int id;
	const char *path;
	double holds, doubt;
	struct set also[6];
} pairs[] = {
	/* falls of 36 in, and a drop of 36 or 120 */
	{ TARN_TOLD_DROP, "bed.drop", 0.9144, 3.048,
	  { { "falls[1].width", 0.5 }, { "falls[1].drop", 0.9144 } } },
	{ TARN_TOLD_DROP, "stream.slope", 0.3, 0.1,	/* with 0.4 or 0.13 m */
	  { { "falls[1].width", 0.5 }, { "falls[1].drop", 0.1 },
	    { "bed.drop", 0.5 }, { "stream.length", 1.333 },
	    { "stream.width", 0.3 }, { "stream.manning", 0.035 } } },
	{ TARN_TOLD_LIFT, "pipes[1].lift", 0.6, 0.4,
	  { { "pipes[1].length", 5 }, { "pipes[1].diameter", 0.05 },
	    { "bed.drop", 0.6 } } },
	{ TARN_TOLD_VALVE, "pump.drainback", 0, 0.0568,
	  { { "pipes[1].length", 5 }, { "pipes[1].diameter", 0.05 },
	    { "pipes[1].lift", 0.6 },
	    { "pipes[1].fittings.swing check", 1 } } },
	{ TARN_TOLD_VALVE, "pump.drainback", 0, 0.0568,
	  { { "pump.check_valve", 1 } } },
	{ TARN_TOLD_STREAM_AREA, "stream.area", 2.4, 2.6,
	  { { "stream.length", 4 }, { "stream.width", 0.5 } } },
	{ TARN_TOLD_STREAM_VOLUME, "stream.volume", 0.12, 0.13,
	  { { "stream.area", 2 }, { "stream.depth", 0.05 } } },
	{ TARN_TOLD_BED_VOLUME, "bed.volume", 0.49, 0.51, { { NULL, 0 } } },
	{ TARN_TOLD_BED_FLOW, "bed.flow", 1e-3, 1.01e-3,
	  { { "pump.flow", 1e-3 } } },
	{ TARN_TOLD_BED_DUG, "build.bed_dug", 0.6, 0.66, { { NULL, 0 } } },
	{ TARN_TOLD_POROSITY, "bed.layers[1].porosity", 0.5, 0.51,
	  { { NULL, 0 } } },
	{ TARN_TOLD_POROSITY, "bed.layers[1].porosity", 0.2, 0.19,
	  { { NULL, 0 } } },
	{ TARN_TOLD_DENSITY, "bed.layers[1].bulk_density", 1600, 1190,
	  { { NULL, 0 } } },
	{ TARN_TOLD_METERED, "basin.metered", 31, 31.3, { { NULL, 0 } } },
	{ TARN_TOLD_DIAMETER, "pipes[1].diameter", 0.0525, 0.0254,
	  { { "pipes[1].length", 5 }, { "pipes[1].size", 2 } } },
	{ TARN_TOLD_SURFACE, "evaporation.area", 25, 26, { { NULL, 0 } } },
	{ TARN_TOLD_MEAN_DEPTH, "evaporation.depth", 1.6, 1.7,
	  { { NULL, 0 } } },
	{ TARN_TOLD_ELEVATION, "water.elevation", 149, 151,
	  { { "evaporation.elevation", 100 } } },
	{ TARN_TOLD_SIDE_PIPE, "overflow.side_pipe", 0.09, 0.11,
	  { { NULL, 0 } } },
	{ TARN_TOLD_FEED, "fish.feed", 0.59, 0.61, { { "fish.mass", 10 } } },
	{ TARN_TOLD_FALL_WIDTH, "demand.fall_width", 0.52, 0.53,
	  { { "falls[1].width", 0.5 } } },
	{ TARN_TOLD_WITHDRAWAL, "withdrawals[1].volume", 21, 23,
	  { { NULL, 0 } } },
	{ TARN_TOLD_LENGTH, "build.length", 5.04, 5.06, { { NULL, 0 } } },
	{ TARN_TOLD_WIDTH, "build.width", 4.03, 4.05, { { NULL, 0 } } },
	{ TARN_TOLD_SPLASH, "splash", 9e-5, 1.1e-4, { { "pump.flow", 1e-3 } } },
	{ TARN_TOLD_LARGE, "basin.length", 22, 23, { { NULL, 0 } } },
};

Test(told, both_sides_of_each_comparison)
{
	for (size_t i = 0; i < COUNT(pairs); i++) {
		const struct pair *p = &pairs[i];
		const char *at = "";

		for (int bad = 0; bad <= 1; bad++) {
			struct tarn_design *d = plain();
			int got;

			for (size_t k = 0; k < COUNT(p->also); k++)
				if (p->also[k].path)
					put(d, p->also[k].path,
					    p->also[k].value);
			put(d, p->path, bad ? p->doubt : p->holds);
			got = verdict(d, p->id, &at);
			cr_expect(got == (bad ? TARN_VERDICT_DOUBT
					      : TARN_VERDICT_HOLDS),
				  "%s = %g: %d", p->path,
				  bad ? p->doubt : p->holds, got);
			/* of its own field, or of the list that has it */
			cr_expect(at[0] != '\0' && !strstr(at, "[0]") &&
				  (strncmp(at, p->path, strlen(at)) == 0 ||
				   !strchr(at, '[')), "%s: %s", p->path, at);
			tarn_design_free(d);
		}
	}
}

/* A walled yard has 0.18 to 0.68 of the wind in nine of ten, half shade 0.49 to
 * 0.81 of the sun: lib/tarn/evaporation/exposure_classes.c. */
Test(told, numbers_beside_words_for_the_place)
{
	static const struct {
		int id;
		const char *path, *word_path, *word;
		double value;
		int verdict;
	} rows[] = {
		{ TARN_TOLD_SHELTER, "evaporation.shelter", "site.wind",
		  "walled yard", 0.67, TARN_VERDICT_HOLDS },
		{ TARN_TOLD_SHELTER, "evaporation.shelter", "site.wind",
		  "walled yard", 0.69, TARN_VERDICT_DOUBT },
		{ TARN_TOLD_SHELTER, "evaporation.shelter", "site.wind",
		  "not described", 0.69, -1 },
		{ TARN_TOLD_SHADE, "evaporation.shade", "site.sun",
		  "half shade", 0.49, TARN_VERDICT_HOLDS },
		{ TARN_TOLD_SHADE, "evaporation.shade", "site.sun",
		  "half shade", 0.47, TARN_VERDICT_DOUBT },
		{ TARN_TOLD_SHADE, "evaporation.shade", "site.sun",
		  "not described", 0.47, -1 },
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct tarn_design *d = plain();
		const char *at = "";

		put(d, rows[i].path, rows[i].value);
		cr_assert(tarn_design_set_text(d, rows[i].word_path,
					       rows[i].word, NULL) == TARN_OK);
		cr_expect_eq(verdict(d, rows[i].id, &at), rows[i].verdict,
			     "row %zu", i);
		cr_expect_str_eq(at, rows[i].verdict < 0 ? "" : rows[i].path);
		tarn_design_free(d);
	}
}

/* The limits of each, of the ponds above: a share of what else is said, or a
 * length; from and to, NaN for none. */
Test(told, limits_of_each_comparison)
{
	static const struct { int id; double lo, hi; } limits[] = {
		{ TARN_TOLD_DROP, 0.9144 - 0.05, 0.9144 * 1.1 + 0.05 },
		{ TARN_TOLD_LIFT, 0.6 - 0.05 - 0.05, TARN_NAN },
		{ TARN_TOLD_VALVE, TARN_NAN, 1e-4 },
		{ TARN_TOLD_STREAM_AREA, 1.5, 2.5 },
		{ TARN_TOLD_STREAM_VOLUME, 0.075, 0.125 },
		{ TARN_TOLD_BED_VOLUME, 0.3, 0.5 },
		{ TARN_TOLD_BED_FLOW, TARN_NAN, 1.001e-3 },
		{ TARN_TOLD_BED_DUG, TARN_NAN, 0.65 },
		{ TARN_TOLD_POROSITY, 0.2, 0.5 },
		{ TARN_TOLD_DENSITY, 2000, 3300 },
		{ TARN_TOLD_METERED, 24 * 0.7, 24 * 1.3 },
		/* 2 inch, schedule 40: 2.067 in, ASME B36.10 */
		{ TARN_TOLD_DIAMETER, 2.067 * 0.0254 * 0.95,
		  2.067 * 0.0254 * 1.05 },
		{ TARN_TOLD_SURFACE, 15, 25 },
		{ TARN_TOLD_MEAN_DEPTH, 0.55, 1.65 },
		{ TARN_TOLD_ELEVATION, 50, 150 },
		{ TARN_TOLD_SIDE_PIPE, TARN_NAN, 0.1 },
		{ TARN_TOLD_FEED, 0.2 / 3, 0.6 },
		{ TARN_TOLD_FALL_WIDTH, 0.475, 0.525 },
		{ TARN_TOLD_WITHDRAWAL, TARN_NAN, 22 },
		{ TARN_TOLD_LENGTH, 4.95, 5.05 },
		{ TARN_TOLD_WIDTH, 3.96, 4.04 },
		{ TARN_TOLD_SPLASH, TARN_NAN, 1e-4 },
	};

	for (size_t i = 0; i < COUNT(limits); i++) {
		const struct pair *p = pairs;
		struct tarn_finding f;
		struct tarn_design *d = plain();

		while (p->id != limits[i].id)
			p++;
		for (size_t k = 0; k < COUNT(p->also); k++)
			if (p->also[k].path)
				put(d, p->also[k].path, p->also[k].value);
		put(d, p->path, p->holds);
		f = worst_of(d, p->id);
		cr_expect(same(f.lo, limits[i].lo) && same(f.hi, limits[i].hi),
			  "%s: %.9g to %.9g, want %.9g to %.9g", p->path, f.lo,
			  f.hi, limits[i].lo, limits[i].hi);
		tarn_design_free(d);
	}
}

/* Centres are 0.82 to 1.10, nine in ten places x or / 1.46 of that. */
Test(told, a_calibration_beside_methods)
{
	static const double factor[] = { 0.57, 0.55, 1.60, 1.62 };

	for (int i = 0; i < 4; i++) {
		struct tarn_design *d = plain();
		const char *at = "";

		put(d, "open_water_factor", factor[i]);
		cr_expect_eq(verdict(d, TARN_TOLD_CALIBRATED, &at),
			     i % 2 ? TARN_VERDICT_DOUBT : TARN_VERDICT_HOLDS,
			     "%g", factor[i]);
		tarn_design_free(d);
	}
}

/* A hole may be 5 cm deeper than the stone: layers with their dry cover, or one
 * stone under water and the cover over it. */
Test(told, a_hole_for_one_stone)
{
	static const struct set sets[] = {
		{ "basin.length", 5 }, { "basin.width", 4 },
		{ "basin.depth", 1.2 }, { "overflow_level", 1.1 },
		{ "bed.area", 2 }, { "bed.depth", 0.6 }, { "bed.porosity", 0.4 },
		{ "bed.cover", 0.1 }, { "build.bed_dug", 0.7 },
	};
	struct tarn_design *d = tarn_design_new(NULL);
	struct tarn_finding f;

	for (size_t k = 0; k < COUNT(sets); k++)
		put(d, sets[k].path, sets[k].value);
	f = worst_of(d, TARN_TOLD_BED_DUG);
	cr_expect(f.verdict == TARN_VERDICT_HOLDS && same(f.hi, 0.75), "%g",
		  f.hi);
	tarn_design_free(d);
}

/* A drop that is told beside a stream without falls says nothing of it. */
Test(told, a_stream_without_falls)
{
	struct tarn_design *d = plain();
	struct tarn_resolved made;
	struct tarn_error err = { 0 };

	put(d, "bed.drop", 0.2);
	put(d, "stream.slope", 0.1);
	put(d, "stream.length", 8);
	put(d, "stream.width", 0.3);
	put(d, "stream.manning", 0.035);
	cr_assert(tarn_design_resolve(d, &made, &err) == TARN_OK, "%s %s",
		  err.field, err.text);
	tarn_resolved_free(&made);
	put(d, "falls[1].width", 0.5);
	put(d, "falls[1].drop", 0.1);
	cr_expect(tarn_design_resolve(d, &made, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "bed.drop");
	tarn_design_free(d);
}

/* Where a tank, a roof or an elevation is small it is still there. */
Test(told, small_numbers_count)
{
	struct tarn_design *d = plain();

	put(d, "tank.roof", 0.5);
	cr_expect(worst_of(d, TARN_TOLD_TANK).verdict == TARN_VERDICT_DOUBT);
	put(d, "tank.capacity", 0.5);
	cr_expect(worst_of(d, TARN_TOLD_TANK).verdict == -1);
	put(d, "evaporation.elevation", 200);
	cr_expect(worst_of(d, TARN_TOLD_ELEVATION).verdict == -1);
	put(d, "water.elevation", 0.5);
	cr_expect(worst_of(d, TARN_TOLD_ELEVATION).verdict ==
		  TARN_VERDICT_DOUBT);
	put(d, "water.elevation", -0.5);
	cr_expect(worst_of(d, TARN_TOLD_ELEVATION).verdict ==
		  TARN_VERDICT_DOUBT);
	tarn_design_free(d);
}

/* What is there for nothing: a roof without a tank, a tap without a trigger, a
 * bed without a size. */
Test(told, what_leads_nowhere)
{
	struct tarn_design *d = plain();
	const char *at;

	put(d, "tank.capacity", 1);
	put(d, "tank.roof", 30);
	cr_expect(verdict(d, TARN_TOLD_TANK, &at) == -1);
	put(d, "tank.capacity", 0);
	cr_expect(verdict(d, TARN_TOLD_TANK, &at) == TARN_VERDICT_DOUBT);
	put(d, "supply.rate", 1e-4);
	cr_expect(verdict(d, TARN_TOLD_SUPPLY, &at) == -1);
	d->pond.trigger_m = d->pond.target_m = TARN_NAN;
	cr_expect(verdict(d, TARN_TOLD_SUPPLY, &at) == TARN_VERDICT_DOUBT);
	cr_expect(verdict(d, TARN_TOLD_UNSIZED, &at) == -1);
	d->wish.length_m = TARN_NAN;
	cr_expect(verdict(d, TARN_TOLD_UNSIZED, &at) == TARN_VERDICT_DOUBT);
	tarn_design_free(d);
}

/* A pump by its curve: the flow given beside the one worked out, and the water's
 * power beside that at the plug. */
Test(told, pump_against_its_curve)
{
	struct tarn_design *d = plain();
	struct tarn_resolved made;
	struct tarn_error err = { 0 };
	const char *at;
	double flow_m3s, watts, head_m;

	put(d, "pump.max_head", 4);
	put(d, "pump.label_flow", 3e-3);
	put(d, "pipes[1].length", 8);
	put(d, "pipes[1].diameter", 0.05);
	put(d, "pipes[1].lift", 1);
	put(d, "falls[1].width", 0.5);
	put(d, "falls[1].bed", 1);
	cr_assert(tarn_design_resolve(d, &made, &err) == TARN_OK);
	flow_m3s = made.flow.solved_m3s;
	head_m = made.flow.bed_head_m;
	watts = tarn_water(15).density_kgm3 * 9.80665 * flow_m3s *
		made.flow.head_m;
	tarn_resolved_free(&made);
	cr_assert(watts > 10 && watts < 100);
	put(d, "bed.lip_head", head_m * 1.24);
	cr_expect(verdict(d, TARN_TOLD_BED_HEAD, &at) == TARN_VERDICT_HOLDS);
	put(d, "bed.lip_head", head_m * 1.26);
	cr_expect(verdict(d, TARN_TOLD_BED_HEAD, &at) == TARN_VERDICT_DOUBT);
	put(d, "pump.watts", watts / 0.79);
	cr_expect(verdict(d, TARN_TOLD_EFFICIENCY, &at) == TARN_VERDICT_HOLDS);
	put(d, "pump.watts", watts / 0.81);
	cr_expect(verdict(d, TARN_TOLD_EFFICIENCY, &at) == TARN_VERDICT_DOUBT);
	put(d, "pump.flow", flow_m3s * 1.09);
	cr_expect(verdict(d, TARN_TOLD_PUMP_FLOW, &at) == TARN_VERDICT_HOLDS);
	put(d, "pump.flow", flow_m3s * 1.11);
	cr_expect(verdict(d, TARN_TOLD_PUMP_FLOW, &at) == TARN_VERDICT_DOUBT);
	cr_expect_str_eq(at, "pump.flow");
	put(d, "pump.watts", watts * 0.99);
	cr_expect(tarn_design_resolve(d, &made, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "pump.watts");
	cr_expect(err.mistake == TARN_MISTAKE_CONFLICT);
	tarn_design_free(d);
}

/* What cannot be is refused, with the field; the value beside it is taken. */
static const struct refusal {
	const char *path;
	double taken, refused;
	struct set also[3];
} refusals[] = {
	{ "bed.drop", 0.87, 0.86,	/* falls of 36 in */
	  { { "falls[1].width", 0.5 }, { "falls[1].drop", 0.9144 } } },
	{ "bed.layers[1].porosity", 0.9, 0.95, { { NULL, 0 } } },
	{ "pump.watts", 240, 260, { { "pump.amps", 2 }, { "pump.volts", 120 } } },
	{ "pump.flow", 1.09e-3, 1.11e-3,
	  { { "pump.label_flow", 1e-3 } } },
};

Test(told, what_cannot_be_is_refused)
{
	for (size_t i = 0; i < COUNT(refusals); i++) {
		const struct refusal *r = &refusals[i];

		for (int bad = 0; bad <= 1; bad++) {
			struct tarn_design *d = plain();
			struct tarn_resolved made;
			struct tarn_error err = { 0 };
			enum tarn_status got;

			for (size_t k = 0; k < COUNT(r->also); k++)
				if (r->also[k].path)
					put(d, r->also[k].path,
					    r->also[k].value);
			put(d, r->path, bad ? r->refused : r->taken);
			got = tarn_design_resolve(d, &made, &err);
			cr_expect(got == (bad ? TARN_EARG : TARN_OK),
				  "%s = %g: %s %s", r->path,
				  bad ? r->refused : r->taken, err.field,
				  err.text);
			if (bad) {
				cr_expect_str_eq(err.field, r->path);
				cr_expect(err.mistake ==
					  TARN_MISTAKE_CONFLICT);
			}
			if (got == TARN_OK)
				tarn_resolved_free(&made);
			tarn_design_free(d);
		}
	}
}

/* Gravel without layers: 1 m2 of 0.6 m. */
Test(told, gravel_without_layers)
{
	static const struct set rows[] = {
		{ "bed.volume", 0.605 }, { "bed.cover", 0.6 },
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		static const struct set sets[] = {
			{ "basin.length", 5 }, { "basin.width", 4 },
			{ "basin.depth", 1.2 }, { "overflow_level", 1.1 },
			{ "bed.area", 1 }, { "bed.depth", 0.6 },
			{ "bed.porosity", 0.4 },
		};
		struct tarn_design *d = tarn_design_new(NULL);
		struct tarn_resolved made;
		struct tarn_error err = { 0 };

		for (size_t k = 0; k < COUNT(sets); k++)
			put(d, sets[k].path, sets[k].value);
		put(d, rows[i].path, rows[i].value * 0.98);
		cr_assert(tarn_design_resolve(d, &made, &err) == TARN_OK);
		tarn_resolved_free(&made);
		put(d, rows[i].path, rows[i].value);
		cr_expect(tarn_design_resolve(d, &made, &err) == TARN_EARG);
		cr_expect_str_eq(err.field, rows[i].path);
		tarn_design_free(d);
	}
}
