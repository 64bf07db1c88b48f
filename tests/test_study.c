/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "tarn/study.h"
#include "study_world.h"

#define FIRST_DAY tarn_day(2001, 3, 14)
enum { DAYS = 2500, VARIANTS = 150 };

/* Room for all figures of a study's rows. */
static struct tarn_study_rows rows_for(size_t first, size_t count)
{
	struct tarn_study_rows rows = { .first = first, .count = count };

	for (int q = 0; q < TARN_QUANTITIES; q++)
		rows.value[q] = calloc(count, sizeof(double));
	return rows;
}

static void free_rows(struct tarn_study_rows *rows)
{
	for (int q = 0; q < TARN_QUANTITIES; q++)
		free(rows->value[q]);
}

static struct tarn_study_rows run_all(const struct tarn_study *study)
{
	struct tarn_study_rows rows = rows_for(0, tarn_study_count(study));
	struct tarn_error err = { 0 };

	cr_assert(tarn_study_run(study, &rows, &err) == TARN_OK, "%s %s",
		  err.field, err.text);
	cr_assert(rows.done == rows.count);
	return rows;
}

static int same_bytes(const struct tarn_study_rows *a,
		      const struct tarn_study_rows *b)
{
	for (int q = 0; q < TARN_QUANTITIES; q++)
		if (memcmp(a->value[q], b->value[q],
			   a->count * sizeof(double)) != 0)
			return 0;
	return 1;
}

static int close_to(double a, double b, double scale)
{
	if (isnan(a) || isnan(b))
		return isnan(a) && isnan(b);
	return fabs(a - b) <= 1e-12 * (fabs(b) + scale);
}

/* Every row against the single ledger of the same pond and weather. */
static void compare(const struct tarn_study *study, const char *what)
{
	struct tarn_study_rows rows = run_all(study);

	for (size_t r = 0; r < rows.count; r++) {
		struct tarn_ledger *ledger;
		struct tarn_pond pond;
		struct tarn_study_delta delta;
		double want[TARN_QUANTITIES];

		cr_assert(tarn_study_variant(study, r % study->variants, &pond,
					     &delta, NULL) == TARN_OK);
		cr_assert(tarn_study_trace(study, r, &ledger, NULL) == TARN_OK);
		tarn_study_summary(ledger, &pond, want);
		for (int q = 0; q < TARN_QUANTITIES; q++)
			cr_expect(close_to(rows.value[q][r], want[q], 1),
				  "%s, row %zu: %s %.17g, ledger %.17g", what,
				  r, tarn_quantity_info(q)->name,
				  rows.value[q][r], want[q]);
		tarn_ledger_free(ledger);
	}
	free_rows(&rows);
}

/* Columns that every pond takes. */
struct columns {
	double lip[VARIANTS], bed[VARIANTS], seep[VARIANTS], rain[VARIANTS];
	double july[VARIANTS], air[VARIANTS], start[VARIANTS];
	struct tarn_study_column column[7];
};

static void make_columns(struct columns *c)
{
	uint64_t seed = 5;

	for (int i = 0; i < VARIANTS; i++) {
		c->lip[i] = 1.15 + 0.1 * world_random(&seed);
		c->bed[i] = 3 * world_random(&seed);
		c->seep[i] = 4 * world_random(&seed);
		c->rain[i] = 0.5 + world_random(&seed);
		c->july[i] = i % 3 ? TARN_NAN : 1.5;
		c->air[i] = 0.8 + 0.4 * world_random(&seed);
		c->start[i] = i % 7 ? TARN_NAN : 1;
	}
	c->column[0] = (struct tarn_study_column){ "lip", TARN_SET, c->lip };
	c->column[1] = (struct tarn_study_column){ "bed.area", TARN_TIMES,
						   c->bed };
	c->column[2] = (struct tarn_study_column){ "seepage.rate", TARN_PLUS,
						   c->seep };
	c->column[3] = (struct tarn_study_column){ "rain", TARN_SET, c->rain };
	c->column[4] = (struct tarn_study_column){ "bed.plant_factor.7",
						   TARN_TIMES, c->july };
	c->column[5] = (struct tarn_study_column){ "evaporation", TARN_SET,
						   c->air };
	c->column[6] = (struct tarn_study_column){ "start_level", TARN_SET,
						   c->start };
}

/* One pond for each part that the description knows. */
enum { PONDS = 12 };
static const char *const pond_names[PONDS] = {
	"plain", "drought", "restricted summers", "rain tank", "pump by day",
	"winter stop", "starved", "curve number", "seepage by head",
	"withdrawals", "no top-up", "all at once"
};

static void restrict_summers(struct tarn_pond *p)
{
	p->supply.when.off_count = 1;
	p->supply.when.off[0] = (struct tarn_span){ TARN_NO_DAY, 0, 615, 915 };
}

static void add_tank(struct tarn_pond *p)
{
	p->tank.capacity_m3 = 2;
	p->tank.roof_m2 = 40;
	p->tank.first_flush_mm = 1;
	p->tank.start_m3 = 1;
	p->supply.rate_m3s = 0.2 / 86400;
}

static void stop_winters(struct tarn_pond *p)
{
	p->pump.hours[0] = p->pump.hours[1] = p->pump.hours[11] = 0;
	p->pump.hours[10] = 12;
	p->pump.drainback_m3 = 0.05;
}

static void draw_water(struct tarn_pond *p)
{
	p->withdrawals = 2;
	p->withdrawal[0].volume_m3 = 0.08;
	p->withdrawal[0].when.weekdays = 1u << 3 | 1u << 6;
	p->withdrawal[1].volume_m3 = 0.3;
	p->withdrawal[1].when.months = 1u << 7;
}

static void use_curve_number(struct tarn_pond *p)
{
	p->apron.area_m2 = 60;
	p->apron.coefficient = TARN_NAN;
	p->apron.curve_number = 85;
}

static void make_ponds(struct tarn_pond p[PONDS], const struct tarn_basin *b)
{
	for (int i = 0; i < PONDS; i++)
		p[i] = world_pond(b);
	p[1].seepage.rate_mm_d = 9;	/* dry in most summers */
	p[1].supply.when.months = 1u << 2;
	p[1].pump.hours[6] = 23;
	restrict_summers(&p[2]);
	add_tank(&p[3]);
	for (int m = 0; m < 12; m++)
		p[4].pump.hours[m] = 10;
	stop_winters(&p[5]);
	p[6].seepage.volume_m3s = 0.12 / 86400;
	p[6].trigger_m = p[6].target_m = TARN_NAN;
	p[6].bed.volume_m3 = 3;
	stop_winters(&p[6]);
	use_curve_number(&p[7]);
	p[8].seepage.per_head_m3s_m = 0.1 / 86400;
	draw_water(&p[9]);
	p[10].trigger_m = p[10].target_m = TARN_NAN;
	restrict_summers(&p[11]);
	add_tank(&p[11]);
	stop_winters(&p[11]);
	draw_water(&p[11]);
	use_curve_number(&p[11]);
	p[11].seepage.per_head_m3s_m = 0.05 / 86400;
}

/* One physics: each pond over columns that change it, on a coarse and on a
 * fine basin. */
Test(study, rows_equal_the_single_ledger, .timeout = 300)
{
	struct tarn_basin *basins[2] = { world_basin(), world_shelves() };
	struct world w;
	static struct columns c;
	struct tarn_study study = tarn_study_default();

	world_make(&w, FIRST_DAY, DAYS, 1);
	make_columns(&c);
	study.weathers = &w.forcing;
	study.columns = c.column;
	study.column_count = 7;
	study.variants = VARIANTS;
	for (int k = 0; k < 2; k++) {
		static struct tarn_pond ponds[PONDS];

		make_ponds(ponds, basins[k]);
		for (int i = 0; i < PONDS; i++) {
			study.ponds = &ponds[i];
			compare(&study, pond_names[i]);
		}
		tarn_basin_free(basins[k]);
	}
	world_free(&w);
}
